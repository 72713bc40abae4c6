//! Windows, reloads, full storage: no state is overwritten before it is kept elsewhere.

use crate::state::action::Action;
use crate::state::field_key::FieldKey;
use crate::state::page::State;
use crate::state::reduce::reduce;
use crate::state::slots::{
    KEPT_ALWAYS, KEPT_MOST, Opened, SHARED_SLOT, SLOT, Store, Trouble, came_through, kept,
    note_open, open, save, state_of_window,
};
use coolpath_core::document::example;
use proptest::prelude::*;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

/// A store with room for so many letters.
struct Shelf {
    texts: RefCell<BTreeMap<String, String>>,
    room: Cell<usize>,
}

impl Shelf {
    fn new() -> Self {
        Self {
            texts: RefCell::default(),
            room: Cell::new(usize::MAX),
        }
    }

    fn used(&self) -> usize {
        let texts = self.texts.borrow();
        texts.iter().map(|(key, text)| key.len() + text.len()).sum()
    }

    fn copied(&self) -> Self {
        Self {
            texts: RefCell::new(self.texts.borrow().clone()),
            room: Cell::new(self.room.get()),
        }
    }
}

impl Store for Shelf {
    fn read(&self, key: &str) -> Option<String> {
        self.texts.borrow().get(key).cloned()
    }

    fn write(&self, key: &str, text: &str) -> bool {
        let old = self.read(key).map_or(0, |old| key.len() + old.len());
        if self.used() - old + key.len() + text.len() > self.room.get() {
            return false;
        }
        let (key, text) = (key.to_owned(), text.to_owned());
        self.texts.borrow_mut().insert(key, text);
        true
    }

    fn remove(&self, key: &str) {
        self.texts.borrow_mut().remove(key);
    }

    fn keys(&self) -> Vec<String> {
        self.texts.borrow().keys().cloned().collect()
    }
}

const MINUTE: f64 = 60_000.0;

fn named(state: &State, name: &str) -> State {
    reduce(state, Action::NameDesign(name.to_owned()))
}

fn typed(state: &State, text: &str) -> State {
    let key = FieldKey::new("inlet.width_m", 0);
    let text = text.to_owned();
    reduce(state, Action::Type { key, text })
}

/// Opens a window whose page comes up.
fn begun(common: &Shelf, own: &Shelf, at: f64, random: &str) -> Opened {
    let opened = open(common, own, at, random);
    came_through(own);
    opened
}

fn names(common: &Shelf, opened: &Opened) -> Vec<String> {
    let (found, _) = kept(common, &opened.window);
    found.into_iter().map(|one| one.state.design.name).collect()
}

#[test]
fn a_window_comes_back_to_its_own_state_and_a_new_one_to_the_latest() {
    let (common, one, two) = (Shelf::new(), Shelf::new(), Shelf::new());
    let mut first = begun(&common, &one, 1e6, "a");
    let mut second = begun(&common, &two, 1e6, "b");
    let (mine, yours) = (named(&first.state, "Mine"), named(&second.state, "Yours"));
    save(&common, &one, &mut first.window, &mine, 2e6).expect("room");
    save(&common, &two, &mut second.window, &yours, 3e6).expect("room");
    for (own, mark, name) in [(&one, "a", "Mine"), (&two, "b", "Yours")] {
        note_open(&common, mark, false);
        let again = begun(&common, own, 4e6, "c");
        assert_eq!(again.state.design.name, name);
        assert_eq!(again.window.mark, mark);
        assert_eq!((again.words, again.other), (None, None));
    }
    // A third window shows the latest, says whose it is, and overwrites neither.
    let three = Shelf::new();
    let mut third = begun(&common, &three, 5e6, "c");
    assert_eq!(third.state.design.name, "Yours");
    assert_eq!(third.other.as_deref(), Some("b"));
    let theirs = named(&third.state, "Theirs");
    save(&common, &three, &mut third.window, &theirs, 6e6).expect("room");
    assert_eq!(names(&common, &third), ["Yours", "Mine"]);
    let other = state_of_window(&common, "b").expect("a state");
    assert_eq!(other.design.name, "Yours");
}

#[test]
fn a_duplicated_window_takes_a_mark_of_its_own_and_neither_is_lost() {
    let (common, one) = (Shelf::new(), Shelf::new());
    let mut first = begun(&common, &one, 1e6, "a");
    let mine = named(&first.state, "Mine");
    save(&common, &one, &mut first.window, &mine, 2e6).expect("room");
    let two = one.copied();
    let mut second = begun(&common, &two, 3e6, "b");
    assert_eq!(second.window.mark, "b");
    assert_eq!(second.other.as_deref(), Some("a"));
    assert_eq!(second.state.design.name, "Mine");
    let copy = named(&second.state, "Copy");
    save(&common, &two, &mut second.window, &copy, 4e6).expect("room");
    let further = typed(&mine, "7");
    save(&common, &one, &mut first.window, &further, 5e6).expect("room");
    note_open(&common, "a", false);
    note_open(&common, "b", false);
    assert_eq!(begun(&common, &one, 6e6, "c").state.design, further.design);
    assert_eq!(begun(&common, &two, 6e6, "d").state.design, copy.design);
}

#[test]
fn what_cannot_be_read_stays_as_it_is_and_can_be_saved() {
    let damaged = "{\"coolpath_state\":99}";
    let (common, own) = (Shelf::new(), Shelf::new());
    let mut first = begun(&common, &own, 1e6, "a");
    let mine = named(&first.state, "Mine");
    save(&common, &own, &mut first.window, &mine, 2e6).expect("room");
    let large = reduce(&mine, Action::Remove(crate::state::List::Conditions, 0));
    save(&common, &own, &mut first.window, &large, 3e6).expect("room");
    note_open(&common, "a", false);
    assert!(common.write(&format!("{SLOT}a"), damaged));
    let mut again = begun(&common, &own, 4e6, "b");
    assert_eq!(again.state.design.name, "Mine", "the version before it");
    assert!(
        again
            .words
            .as_deref()
            .is_some_and(|said| said.contains("set aside"))
    );
    let next = named(&again.state, "Next");
    save(&common, &own, &mut again.window, &next, 5e6).expect("room");
    assert_eq!(common.read(&format!("{SLOT}a")).as_deref(), Some(damaged));
    let (_, unreadable) = kept(&common, &again.window);
    assert_eq!(unreadable, [(format!("{SLOT}a"), damaged.to_owned())]);
}

#[test]
fn the_slot_of_earlier_versions_is_opened_and_left_alone() {
    let earlier = include_str!("../../tests/earlier/state.json");
    let (common, own) = (Shelf::new(), Shelf::new());
    assert!(common.write(SHARED_SLOT, earlier));
    let mut opened = begun(&common, &own, 1e6, "a");
    assert_eq!(opened.words, None);
    assert_eq!(opened.state.design.measured, ["exit.discharge"]);
    let next = named(&opened.state, "Next");
    save(&common, &own, &mut opened.window, &next, 2e6).expect("room");
    assert_eq!(common.read(SHARED_SLOT).as_deref(), Some(earlier));
    // A damaged one is neither opened nor touched.
    let (common, own) = (Shelf::new(), Shelf::new());
    assert!(common.write(SHARED_SLOT, &earlier[..900]));
    let opened = begun(&common, &own, 1e6, "a");
    assert!(opened.state.design == example::design());
    assert!(opened.words.is_some_and(|said| said.contains("set aside")));
    assert_eq!(kept(&common, &opened.window).1.len(), 1);
}

#[test]
fn a_state_that_stops_its_page_is_set_aside_in_its_own_window_only() {
    let (common, own) = (Shelf::new(), Shelf::new());
    let mut first = begun(&common, &own, 1e6, "a");
    let mine = named(&first.state, "Stops");
    save(&common, &own, &mut first.window, &mine, 2e6).expect("room");
    for _ in 0..2 {
        note_open(&common, "a", false);
        // The page begins, and does not come through.
        assert_eq!(open(&common, &own, 3e6, "b").state.design.name, "Stops");
    }
    note_open(&common, "a", false);
    let again = open(&common, &own, 4e6, "b");
    assert!(again.state.design == example::design());
    assert!(
        again
            .words
            .is_some_and(|said| said.contains("stopped the page"))
    );
    assert_eq!(
        state_of_window(&common, "a").expect("kept").design.name,
        "Stops"
    );
    // Two windows that begin at the same time are no sign of harm.
    let (common, one, two) = (Shelf::new(), Shelf::new(), Shelf::new());
    let opened = [open(&common, &one, 1e6, "a"), open(&common, &two, 1e6, "b")];
    assert!(opened.iter().all(|opened| opened.words.is_none()));
}

#[test]
fn full_storage_is_said_at_once_and_after_a_reload_and_loses_nothing() {
    let (common, own) = (Shelf::new(), Shelf::new());
    let mut window = begun(&common, &own, 1e6, "a").window;
    let state = named(&State::default(), "Before");
    save(&common, &own, &mut window, &state, 2e6).expect("room");
    common.room.set(common.used() + 10);
    let more = named(
        &state,
        "A name that is rather longer than there is room for",
    );
    let said = save(&common, &own, &mut window, &more, 2.1e6).expect_err("full");
    assert_eq!(said, Trouble::Rescued);
    assert_eq!(
        state_of_window(&common, "a").expect("kept").design.name,
        "Before"
    );
    note_open(&common, "a", false);
    let again = begun(&common, &own, 3e6, "b");
    assert_eq!(again.state.design, more.design);
    assert!(again.words.is_some_and(|said| said.contains("full")));
    // Neither store has room: the sentence comes again after a reload all the same.
    let none = Shelf::new();
    none.room.set(0);
    let said = save(&common, &none, &mut window, &more, 4e6).expect_err("full");
    assert_eq!(said, Trouble::NoRoom);
    note_open(&common, "a", false);
    let later = begun(&common, &none, 5e6, "c");
    assert_eq!(later.state.design.name, "Before");
    assert!(later.words.is_some_and(|said| said.contains("was full")));
    common.room.set(usize::MAX);
    let mut window = again.window;
    save(&common, &own, &mut window, &more, 6e6).expect("room again");
    note_open(&common, "a", false);
    assert_eq!(begun(&common, &own, 7e6, "d").words, None);
}

#[test]
fn steps_of_undo_give_way_before_anything_is_refused() {
    let (common, own) = (Shelf::new(), Shelf::new());
    let mut window = begun(&common, &own, 1e6, "a").window;
    let mut state = State::default();
    for at in 0..60 {
        state = named(&state, &format!("Name {at}"));
    }
    save(&common, &own, &mut window, &state, 1.01e6).expect("room");
    common.room.set(common.used() - 1000);
    state = named(&state, "Last");
    save(&common, &own, &mut window, &state, 1.02e6).expect("room without steps");
    let found = state_of_window(&common, "a").expect("kept");
    assert_eq!((found.design.name.as_str(), found.past.len()), ("Last", 0));
}

#[test]
fn the_last_ten_states_are_kept_and_older_ones_spread_over_time() {
    let (common, own) = (Shelf::new(), Shelf::new());
    let mut opened = begun(&common, &own, 1e6, "a");
    let mut state = opened.state.clone();
    let last = 100;
    for at in 0..=last {
        state = named(&state, &format!("{at}"));
        let now = 1e6 + f64::from(at) * 3.0 * MINUTE;
        save(&common, &own, &mut opened.window, &state, now).expect("room");
    }
    let names = names(&common, &opened);
    assert_eq!(names.len(), KEPT_MOST);
    for (back, name) in names.iter().take(KEPT_ALWAYS).enumerate() {
        assert_eq!(*name, format!("{}", last as usize - 1 - back));
    }
    assert_eq!(names.last().map(String::as_str), Some("0"), "{names:?}");
}

#[test]
fn a_large_change_keeps_the_state_before_it_at_once() {
    let (common, own) = (Shelf::new(), Shelf::new());
    let mut opened = begun(&common, &own, 1e6, "a");
    let mine = typed(&named(&opened.state, "Mine"), "7");
    save(&common, &own, &mut opened.window, &mine, 1.001e6).expect("room");
    let key = FieldKey::new("inlet.width_m", 0);
    let mut other = example::design();
    for exit in &mut other.installation.exits {
        exit.width.value *= 1.1;
        exit.gap.value *= 1.1;
        exit.discharge *= 0.9;
        exit.jet_angle += 1.0;
    }
    let next = reduce(&mine, Action::Open(Box::new(other)));
    save(&common, &own, &mut opened.window, &next, 1.002e6).expect("room");
    let (found, _) = kept(&common, &opened.window);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].state.drafts[&key], "7");
    assert!(found[0].state.design == mine.design);
}

/// What a window does.
#[derive(Debug, Clone)]
enum Deed {
    Type(u8),
    Replace,
    Reload,
    Crash,
    Duplicate,
    Close,
    New,
}

fn deed() -> impl Strategy<Value = (usize, Deed)> {
    let deed = prop_oneof![
        6 => any::<u8>().prop_map(Deed::Type),
        1 => Just(Deed::Replace),
        2 => Just(Deed::Reload),
        1 => Just(Deed::Crash),
        1 => Just(Deed::Duplicate),
        1 => Just(Deed::Close),
        1 => Just(Deed::New),
    ];
    (0..4_usize, deed)
}

struct Tab {
    own: Shelf,
    opened: Opened,
    state: State,
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_window_overwrites_what_another_typed(deeds in prop::collection::vec(deed(), 1..40)) {
        let common = Shelf::new();
        let mut marks = 0;
        let mut mark = || { marks += 1; format!("w{marks}") };
        let mut now = 1e6;
        let mut tabs: Vec<Tab> = Vec::new();
        for (which, deed) in deeds {
            now += 1000.0;
            if tabs.is_empty() || (matches!(deed, Deed::New) && tabs.len() < 4) {
                let own = Shelf::new();
                let opened = begun(&common, &own, now, &mark());
                let state = opened.state.clone();
                tabs.push(Tab { own, opened, state });
                continue;
            }
            let at = which % tabs.len();
            match deed {
                Deed::Type(letter) => {
                    let tab = &mut tabs[at];
                    let text = format!("{letter} typed at {now}");
                    tab.state = typed(&named(&tab.state, &format!("by {}", tab.opened.window.mark)), &text);
                    save(&common, &tab.own, &mut tab.opened.window, &tab.state, now).expect("room");
                }
                Deed::Replace => {
                    let tab = &mut tabs[at];
                    tab.state = reduce(&tab.state, Action::Example);
                    save(&common, &tab.own, &mut tab.opened.window, &tab.state, now).expect("room");
                }
                Deed::Reload | Deed::Crash => {
                    let tab = &mut tabs[at];
                    // Only a page that ends well says that it is closed.
                    if matches!(deed, Deed::Reload) {
                        note_open(&common, &tab.opened.window.mark, false);
                    }
                    let typed_before = tab.own.read("coolpath:mark").is_some()
                        && state_of_window(&common, &tab.opened.window.mark).is_some();
                    tab.opened = begun(&common, &tab.own, now, &mark());
                    if typed_before {
                        prop_assert!(tab.opened.state.design == tab.state.design);
                        prop_assert_eq!(&tab.opened.state.drafts, &tab.state.drafts);
                    }
                    tab.state = tab.opened.state.clone();
                }
                Deed::Duplicate => {
                    if tabs.len() < 4 {
                        let own = tabs[at].own.copied();
                        let opened = begun(&common, &own, now, &mark());
                        prop_assert!(opened.window.mark != tabs[at].opened.window.mark);
                        let state = opened.state.clone();
                        tabs.push(Tab { own, opened, state });
                    }
                }
                Deed::Close => {
                    let tab = tabs.remove(at);
                    note_open(&common, &tab.opened.window.mark, false);
                }
                Deed::New => {}
            }
            // What stands in each window that has typed is stored under its own mark.
            for tab in &tabs {
                if let Some(stored) = state_of_window(&common, &tab.opened.window.mark) {
                    prop_assert!(stored.design == tab.state.design);
                    prop_assert_eq!(&stored.drafts, &tab.state.drafts);
                }
            }
        }
    }
}
