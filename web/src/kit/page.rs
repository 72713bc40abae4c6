//! What every panel of the page can see, and how it sees the part that it needs.

use crate::kit::shared::Shared;
use crate::kit::short_tasks::Pace;
use crate::kit::verdict::Verdict;
use crate::state::{Action, State};
use coolpath_core::answer::band::Bands;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::future::poll_fn;
use std::rc::Rc;
use std::task::Poll;
use yew::platform::spawn_local;
use yew::prelude::*;

/// Answer of one condition, or why there is none.
pub type Outcome = Result<Rc<Answer>, EvaluateError>;

/// Bands of the conditions, or why one has none, as far as they have been computed for the present
/// design.
pub type BandSet = Vec<Result<Rc<Bands>, EvaluateError>>;

/// Bands of a condition, where they are known.
#[must_use]
pub fn known_bands(bands: &BandSet, place: usize) -> Option<&Bands> {
    bands.get(place)?.as_deref().ok()
}

/// What stands on the page at a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// State of the page.
    pub state: Shared<State>,
    /// Its design; the same one until a value in it changes.
    pub design: Shared<Design>,
    /// Answers in the order of the conditions.
    pub answers: Shared<Vec<Outcome>>,
    /// Their bands.
    pub bands: Shared<BandSet>,
    /// Verdicts on them.
    pub verdicts: Shared<Vec<Option<Verdict>>>,
    /// Which typed texts were refused, for everything that is printed or downloaded.
    pub refused: Option<AttrValue>,
    /// Room for charts, CSS pixels.
    pub width: u32,
    /// A log that was dropped on the page.
    pub dropped: Option<web_sys::File>,
    /// Changes the state.
    pub dispatch: Callback<Action>,
    /// Shows a sentence.
    pub notify: Callback<String>,
}

impl Page {
    /// Units shown.
    #[must_use]
    pub fn system(&self) -> UnitSystem {
        self.state.system
    }

    /// Place of the condition that is shown.
    #[must_use]
    pub fn place(&self) -> usize {
        self.state.shown
    }
}

impl Default for Page {
    fn default() -> Self {
        let state = State::default();
        Self {
            design: Shared::new(state.design.clone()),
            state: Shared::new(state),
            answers: Shared::default(),
            bands: Shared::default(),
            verdicts: Shared::default(),
            refused: None,
            width: 0,
            dropped: None,
            dispatch: Callback::noop(),
            notify: Callback::noop(),
        }
    }
}

type Listener = Rc<dyn Fn(&Page)>;

/// The page as it stands, and who wants to hear when it changes.
#[derive(Default)]
struct Open {
    page: RefCell<Page>,
    listeners: RefCell<BTreeMap<u64, Listener>>,
    next: Cell<u64>,
    /// Keys of those who have not looked since the page changed.
    waiting: RefCell<BTreeSet<u64>>,
    telling: Cell<bool>,
}

/// Where panels look the page up. It stays the same while the page in it changes, so that a panel
/// is drawn anew only where the part that it looks at has changed.
#[derive(Clone, Default, PartialEq)]
pub struct Book(Shared<Open>);

impl Book {
    /// A book in which a page stands that does not change.
    #[must_use]
    pub fn of(page: &Page) -> Self {
        let book = Self::default();
        book.turn(page);
        book
    }

    /// The page as it stands.
    #[must_use]
    pub fn page(&self) -> Page {
        self.0.page.borrow().clone()
    }

    fn turn(&self, page: &Page) {
        *self.0.page.borrow_mut() = page.clone();
    }

    /// Lets all who listen look, in tasks that leave the browser time to answer.
    fn tell(&self) {
        let keys = self.0.listeners.borrow().keys().copied().collect();
        *self.0.waiting.borrow_mut() = keys;
        if !self.0.telling.replace(true) {
            spawn_local(self.clone().told());
        }
    }

    /// Lets who waits look, until nobody does; they may begin or cease to listen, and the page may change
    /// again, meanwhile.
    async fn told(self) {
        let mut pace = Pace::of_pictures();
        let mut last = u64::MAX;
        while let Some(key) = self.next_to(last) {
            last = key;
            let listener = self.0.listeners.borrow().get(&key).cloned();
            if let Some(listener) = listener {
                listener(&self.page());
                drawn().await;
                pace.breathe().await;
            }
        }
        self.0.telling.set(false);
    }

    /// Who looks after another: who stands further out first, so that nobody is drawn twice; who has waited
    /// longer before who looked and has to look again.
    fn next_to(&self, last: u64) -> Option<u64> {
        let mut waiting = self.0.waiting.borrow_mut();
        let key = waiting
            .range(..last)
            .next_back()
            .or(waiting.last())
            .copied();
        key.inspect(|key| {
            waiting.remove(key);
        })
    }

    /// Listens until what is returned is called.
    fn listen<F: Fn(&Page) + 'static>(&self, listener: F) -> impl FnOnce() + use<F> {
        let key = self.0.next.get();
        self.0.next.set(key + 1);
        // What changed between the drawing and now.
        listener(&self.page());
        let listener: Listener = Rc::new(listener);
        self.0.listeners.borrow_mut().insert(key, listener);
        let book = self.clone();
        move || {
            book.0.listeners.borrow_mut().remove(&key);
        }
    }
}

/// Waits until what was asked to be drawn has been.
async fn drawn() {
    let mut has_waited = false;
    poll_fn(|context| {
        if has_waited {
            return Poll::Ready(());
        }
        has_waited = true;
        // Behind what was queued before, without another task of the browser.
        context.waker().wake_by_ref();
        Poll::Pending
    })
    .await;
}

/// A book in which a page stands from now on; without one the last page stays.
#[hook]
pub fn use_book(page: Option<Page>) -> Book {
    let book = (*use_memo((), |()| Book::default())).clone();
    if let Some(page) = &page {
        // Before anything under it is drawn.
        book.turn(page);
    }
    let told = book.clone();
    use_effect_with(page, move |_| told.tell());
    book
}

/// Whether a page shows what a panel was drawn from.
type IsSame = Box<dyn Fn(&Page) -> bool>;

/// Draws the panel anew when the page shows something else; once for all parts, to keep the
/// program small.
#[hook]
fn use_looking(book: Book) -> Rc<RefCell<Option<IsSame>>> {
    let drawn = use_mut_ref(|| None::<IsSame>);
    let redraw = use_force_update();
    {
        let drawn = drawn.clone();
        use_effect_with(book, move |book| {
            book.listen(move |page| {
                let differs = drawn
                    .borrow()
                    .as_ref()
                    .is_some_and(|is_same| !is_same(page));
                if differs {
                    redraw.force_update();
                }
            })
        });
    }
    drawn
}

/// A part of the page; the panel is drawn anew when that part differs from what it was.
#[hook]
pub fn use_page<T, F>(part: F) -> T
where
    T: Clone + PartialEq + 'static,
    F: Fn(&Page) -> T + 'static,
{
    let book = use_context::<Book>().unwrap_or_default();
    let found = part(&book.0.page.borrow());
    let drawn = use_looking(book);
    let kept = found.clone();
    *drawn.borrow_mut() = Some(Box::new(move |page| part(page) == kept));
    found
}

/// What changes the state.
#[hook]
pub fn use_dispatch() -> Callback<Action> {
    let book = use_context::<Book>().unwrap_or_default();
    book.page().dispatch
}

/// What shows a sentence.
#[hook]
pub fn use_notify() -> Callback<String> {
    let book = use_context::<Book>().unwrap_or_default();
    book.page().notify
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_stands_further_out_looks_first_and_who_has_to_look_again_looks_last() {
        let book = Book::default();
        let wait = |keys: &[u64]| book.0.waiting.borrow_mut().extend(keys);
        wait(&[1, 5, 9]);
        assert_eq!(book.next_to(u64::MAX), Some(9));
        wait(&[1, 5, 9]);
        assert_eq!(book.next_to(9), Some(5));
        assert_eq!(book.next_to(5), Some(1));
        assert_eq!(book.next_to(1), Some(9));
        assert_eq!(book.next_to(9), None);
    }
}
