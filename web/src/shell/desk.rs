//! What the page works on, and how it changes: what the builder does goes through here.

use crate::browser::{storage, window};
use crate::kit::shared::Shared;
use crate::share::code::is_code;
use crate::shell::first_use::Begin;
use crate::state::reduce::reduce;
use crate::state::{Action, State};
use coolpath_core::document::design::Design;
use std::rc::Rc;
use yew::prelude::Reducible;

/// What the page works on.
#[derive(Clone)]
pub struct Desk {
    /// State of the page.
    pub state: Shared<State>,
    /// Its design; the same one until a value in it changes.
    pub design: Shared<Design>,
    /// A sentence that is shown.
    pub notice: Option<String>,
    /// Whether nothing is stored here yet, and the link brings nothing either.
    pub welcoming: bool,
    /// Whether the builder asked for the questions about an aircraft.
    pub asking: bool,
    /// A log that was dropped on the page.
    pub dropped: Option<web_sys::File>,
}

/// What happens to it.
pub enum Deed {
    /// The state changes.
    Act(Action),
    /// A sentence is shown.
    Say(String),
    /// The sentence goes.
    Hush,
    /// The questions are asked.
    Ask,
    /// The first visit is over.
    Begin,
    /// A log was dropped on the page.
    Drop(web_sys::File),
}

fn is_first_visit() -> bool {
    !storage::holds_any() && storage::kept_names().is_empty() && !is_code(&window::fragment())
}

impl Desk {
    /// The desk as it was left.
    #[must_use]
    pub fn opened() -> Self {
        let welcoming = is_first_visit();
        let (state, notice) = storage::load();
        let mut desk = Self {
            design: Shared::new(state.design.clone()),
            state: Shared::new(state),
            notice,
            welcoming,
            asking: false,
            dropped: None,
        };
        // A button of the page was pressed before the program was there.
        let begun = window::begun_early();
        if welcoming && begun.as_deref() == Some(Begin::Example.name()) {
            desk.begin();
        }
        desk.asking = welcoming && begun.as_deref() == Some(Begin::Own.name());
        desk
    }

    /// The first visit is over.
    fn begin(&mut self) {
        self.welcoming = false;
        self.asking = false;
        // Stored now, so that the next visit goes on from here.
        self.act(Action::Show(self.state.shown));
    }

    fn act(&mut self, action: Action) {
        if matches!(action, Action::Open(_)) {
            // Whoever has a design needs no welcome.
            self.welcoming = false;
            self.asking = false;
        }
        let next = reduce(&self.state, action);
        // Stored before anything is computed from it: a fault loses nothing.
        if let Err(sentence) = storage::save(&next) {
            self.notice = Some(sentence);
        }
        if next.design != *self.design {
            self.design = Shared::new(next.design.clone());
        }
        self.state = Shared::new(next);
    }
}

impl Reducible for Desk {
    type Action = Deed;

    fn reduce(self: Rc<Self>, deed: Deed) -> Rc<Self> {
        let mut next = (*self).clone();
        match deed {
            Deed::Act(action) => next.act(action),
            Deed::Say(sentence) => next.notice = Some(sentence),
            Deed::Hush => next.notice = None,
            Deed::Ask => next.asking = true,
            Deed::Begin => next.begin(),
            Deed::Drop(file) => {
                next.begin();
                next.dropped = Some(file);
            }
        }
        Rc::new(next)
    }
}
