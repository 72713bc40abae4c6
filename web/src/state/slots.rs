//! Where the page's states are kept, so that none is lost: each window has a slot of its own, and
//! what it overwrites is kept as a version first. Pure; the browser lends the two stores.

use crate::state::differences::differences;
use crate::state::document::{state_at, stored_text};
use crate::state::page::State;
use coolpath_core::document::example;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::math::order;

/// Slot of versions of this page that had one for all windows.
pub const SHARED_SLOT: &str = "coolpath:state";
/// Before a window's mark in the key of its slot.
pub const SLOT: &str = "coolpath:tab:";
/// Before the key of an earlier state.
const VERSION: &str = "coolpath:version:";
/// Before a window's mark in the key that says that the window is open.
const OPEN: &str = "coolpath:open:";
/// What an earlier version of this page could not read.
const SET_ASIDE: &str = "coolpath:unreadable";
/// Says, in as many letters either way, whether the last state found no room.
const ROOM: &str = "coolpath:room";
/// The window's mark, in the store that belongs to it.
const MARK: &str = "coolpath:mark";
/// How often in a row the window began to show its state, and did not come through.
const BEGUN: &str = "coolpath:begun";
/// The window's state, where the common store had no room for it.
const RESCUE: &str = "coolpath:rescue";

/// States that are always kept, besides those of open windows.
pub const KEPT_ALWAYS: usize = 10;
/// States that are kept while there is room, the older ones spread over time.
pub const KEPT_MOST: usize = 20;
/// After so long the state before a change is kept, ms.
const KEEP_AFTER_MS: f64 = 120_000.0;
/// A change of so many inputs at once is one that keeps the state before it.
const MANY_INPUTS: usize = 4;
/// A state that stopped the page so often in a row is not shown again.
const MOST_BEGUN: usize = 2;

/// A store of texts under keys.
pub trait Store {
    /// Text under a key.
    fn read(&self, key: &str) -> Option<String>;
    /// Puts a text under a key; false, and what stood there stays, where it does not fit.
    fn write(&self, key: &str, text: &str) -> bool;
    /// Forgets a key.
    fn remove(&self, key: &str);
    /// All keys.
    fn keys(&self) -> Vec<String>;
}

/// A window of the page.
#[derive(Debug, Clone)]
pub struct Window {
    /// Its mark.
    pub mark: String,
    /// What was stored last, and when, ms.
    last: State,
    last_ms: f64,
    /// When a version was kept last, ms.
    kept_ms: f64,
}

/// A window as it begins.
#[derive(Debug, Clone)]
pub struct Opened {
    /// State to show.
    pub state: State,
    /// The window.
    pub window: Window,
    /// What the builder should know.
    pub words: Option<String>,
    /// Mark of another window, open or lost, whose state this one shows a copy of.
    pub other: Option<String>,
}

/// A kept state.
#[derive(Debug, Clone)]
pub struct Kept {
    /// Its key.
    pub key: String,
    /// When it was stored, ms since 1970; 0 where that is not known.
    pub saved_ms: f64,
    /// The state.
    pub state: State,
    /// Whether another window seems to have it open.
    pub is_open: bool,
}

fn slot(mark: &str) -> String {
    format!("{SLOT}{mark}")
}

/// Opens a window: its own state, else the latest that can be read. Nothing is overwritten.
///
/// # Arguments
/// * `common`, `own` - the browser's store, and the window's part of it
/// * `random` - a mark that no other window has
pub fn open(common: &impl Store, own: &impl Store, now_ms: f64, random: &str) -> Opened {
    let before = own.read(MARK);
    // A window that was duplicated has the mark of one that is open.
    let taken = before
        .clone()
        .filter(|mark| common.read(&format!("{OPEN}{mark}")).is_some());
    let begun = own
        .read(BEGUN)
        .and_then(|count| count.parse().ok())
        .unwrap_or(0_usize);
    let choice = chosen(common, own, before.as_deref(), begun >= MOST_BEGUN);
    let mut words = choice.words;
    if words.is_none() && common.read(ROOM).as_deref() == Some("1") {
        words = Some(tr(NO_ROOM_BEFORE).to_owned());
    }
    let keeps_mark = taken.is_none() && !choice.spares_own;
    let mark = before
        .filter(|_| keeps_mark)
        .unwrap_or_else(|| random.to_owned());
    let count = if choice.spares_own { 1 } else { begun + 1 };
    own.write(MARK, &mark);
    own.write(BEGUN, &count.to_string());
    common.write(&format!("{OPEN}{mark}"), "");
    if common.read(ROOM).is_none() {
        common.write(ROOM, "0");
    }
    let other = taken.or_else(|| {
        let from = choice.from?.strip_prefix(SLOT)?.to_owned();
        let is_open = common.read(&format!("{OPEN}{from}")).is_some();
        (from != mark && is_open).then_some(from)
    });
    Opened {
        window: Window {
            mark,
            last: choice.state.clone(),
            last_ms: choice.saved_ms,
            kept_ms: if choice.saved_ms > 0.0 {
                now_ms.min(choice.saved_ms)
            } else {
                now_ms
            },
        },
        state: choice.state,
        words,
        other,
    }
}

const NO_ROOM_BEFORE: &str = tr_later(
    "This browser's storage was full when you last typed here: what was \
    typed after that could not be kept. Save to a file, and forget kept designs to make room.",
);
const RESCUED: &str = tr_later(
    "This browser's storage is full: what you typed last is kept only while this \
    window stays open. Save it to a file.",
);

struct Choice {
    state: State,
    saved_ms: f64,
    /// Key that it comes from.
    from: Option<String>,
    /// The window's own slot is left as it is.
    spares_own: bool,
    words: Option<String>,
}

fn chosen(common: &impl Store, own: &impl Store, mark: Option<&str>, stopped: bool) -> Choice {
    let mine = mark.map(slot);
    let mine_text = mine.as_deref().and_then(|key| common.read(key));
    let mut reason = None;
    if stopped {
        reason = Some(tr("they stopped the page").to_owned());
    } else {
        let rescued = own.read(RESCUE).and_then(|text| state_at(&text).ok());
        let stored = mine_text.as_deref().map(state_at);
        let stored_ms = match &stored {
            Some(Ok((_, saved_ms))) => *saved_ms,
            _ => f64::NEG_INFINITY,
        };
        if let Some((state, saved_ms)) = rescued.filter(|(_, saved_ms)| *saved_ms >= stored_ms) {
            return Choice {
                state,
                saved_ms,
                from: mine,
                spares_own: false,
                words: Some(tr(RESCUED).to_owned()),
            };
        }
        match stored {
            Some(Ok((state, saved_ms))) => {
                return Choice {
                    state,
                    saved_ms,
                    from: mine,
                    spares_own: false,
                    words: None,
                };
            }
            Some(Err(error)) => reason = Some(error),
            None => {}
        }
    }
    let spares_own = reason.is_some();
    let skipped = stopped.then(|| mine_text.as_deref().and_then(|text| state_at(text).ok()));
    let skipped = skipped.flatten().map(|(state, _)| state);
    let same = |state: &State| {
        skipped
            .as_ref()
            .is_some_and(|old| old.design == state.design && old.drafts == state.drafts)
    };
    let (all, unreadable) = everything(common);
    let latest = all
        .into_iter()
        .filter(|kept| Some(&kept.key) != mine.as_ref() && !same(&kept.state))
        .max_by(|a, b| a.saved_ms.total_cmp(&b.saved_ms));
    // A window without a slot of its own where nothing but something unreadable is kept.
    if reason.is_none() && latest.is_none() && !unreadable.is_empty() {
        reason = Some(tr("they are damaged, or from a later version of this program").to_owned());
    }
    let shown = match &latest {
        Some(_) => tr("what was kept before them is shown"),
        None => tr("the example is shown"),
    };
    let words = reason.map(|reason| {
        tr!(
            "The inputs stored in this browser could not be used ({}). They are set aside \
             unchanged under “Bring back”, and {}.",
            reason,
            shown
        )
    });
    let (state, saved_ms, from) = latest.map_or_else(
        || (State::default(), 0.0, None),
        |kept| (kept.state, kept.saved_ms, Some(kept.key)),
    );
    Choice {
        state,
        saved_ms,
        from,
        spares_own,
        words,
    }
}

/// Notes that the window has shown its state without harm.
pub fn came_through(own: &impl Store) {
    own.remove(BEGUN);
}

/// Notes that a window is open, or closed.
pub fn note_open(common: &impl Store, mark: &str, is_open: bool) {
    let key = format!("{OPEN}{mark}");
    if is_open {
        common.write(&key, "");
    } else {
        common.remove(&key);
    }
}

/// Why a state could not be kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trouble {
    /// There is no room; it is kept while the window stays open.
    Rescued,
    /// There is no room anywhere.
    NoRoom,
}

impl Trouble {
    /// What the builder should know.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Rescued => tr(RESCUED),
            Self::NoRoom => tr(
                "This browser's storage is full or blocked. What you typed is not kept when the \
                 page is closed. Save it to a file.",
            ),
        }
    }
}

/// Stores a window's state. The state before is kept as a version first where the change is a
/// large one, or the last version is old.
///
/// # Errors
/// [`Trouble`] where there is no room; what was stored before stays.
pub fn save(
    common: &impl Store,
    own: &impl Store,
    window: &mut Window,
    state: &State,
    now_ms: f64,
) -> Result<(), Trouble> {
    let mut kept = true;
    if is_due(window, state, now_ms) {
        kept = keep_version(common, window);
        if kept {
            window.kept_ms = now_ms;
        }
    }
    // A state that is no version must live on in the steps of undo.
    if write_slot(common, &window.mark, state, now_ms, kept) {
        own.remove(RESCUE);
        common.write(ROOM, "0");
        window.last = state.clone();
        window.last_ms = now_ms;
        return Ok(());
    }
    common.write(ROOM, "1");
    let rescued = stored_text(state, now_ms, false).is_ok_and(|text| own.write(RESCUE, &text));
    Err(if rescued {
        Trouble::Rescued
    } else {
        Trouble::NoRoom
    })
}

/// Writes the window's slot; where room is short with fewer versions, and if they may go without
/// the steps of undo.
fn write_slot(
    common: &impl Store,
    mark: &str,
    state: &State,
    now_ms: f64,
    steps_may_go: bool,
) -> bool {
    let key = slot(mark);
    let write = |with_steps: bool| {
        stored_text(state, now_ms, with_steps).is_ok_and(|text| common.write(&key, &text))
    };
    if write(true) {
        return true;
    }
    thin(common, KEPT_ALWAYS);
    write(true) || (steps_may_go && write(false))
}

fn is_due(window: &Window, state: &State, now_ms: f64) -> bool {
    let before = &window.last;
    let is_same = before.design == state.design && before.drafts == state.drafts;
    let is_untouched_example = before.drafts.is_empty() && before.design == example::design();
    if is_same || is_untouched_example {
        return false;
    }
    now_ms - window.kept_ms >= KEEP_AFTER_MS || is_large(before, state)
}

fn is_large(before: &State, state: &State) -> bool {
    let found = differences(before.into(), state.into());
    let (old, new) = (&before.design, &state.design);
    let shorter = |old: usize, new: usize| new < old;
    found.iter().filter(|one| one.is_input).count() >= MANY_INPUTS
        || shorter(old.installation.inlets.len(), new.installation.inlets.len())
        || shorter(old.installation.exits.len(), new.installation.exits.len())
        || shorter(old.conditions.len(), new.conditions.len())
        || shorter(old.alternatives.len(), new.alternatives.len())
        || shorter(old.readings.len(), new.readings.len())
}

/// Keeps what was stored last as a version, under a key that no other has.
fn keep_version(common: &impl Store, window: &Window) -> bool {
    let Ok(text) = stored_text(&window.last, window.last_ms, false) else {
        return false;
    };
    let mut number = 0;
    let key = loop {
        let key = format!("{VERSION}{:.0}-{}-{number}", window.last_ms, window.mark);
        match common.read(&key) {
            None => break key,
            Some(there) if there == text => return true,
            Some(_) => number += 1,
        }
    };
    if !common.write(&key, &text) {
        thin(common, KEPT_ALWAYS);
        return common.write(&key, &text);
    }
    thin(common, KEPT_MOST);
    true
}

/// Everything kept that can be read, and what cannot be: keys and texts as they stand.
fn everything(common: &impl Store) -> (Vec<Kept>, Vec<(String, String)>) {
    let (mut kept, mut unreadable) = (Vec::new(), Vec::new());
    for key in common.keys() {
        let is_ours = key == SHARED_SLOT
            || [SLOT, VERSION, SET_ASIDE]
                .iter()
                .any(|prefix| key.starts_with(prefix));
        if !is_ours {
            continue;
        }
        let Some(text) = common.read(&key) else {
            continue;
        };
        match state_at(&text) {
            Ok((state, saved_ms)) => {
                let mark = key.strip_prefix(SLOT);
                let is_open =
                    mark.is_some_and(|mark| common.read(&format!("{OPEN}{mark}")).is_some());
                kept.push(Kept {
                    key,
                    saved_ms,
                    state,
                    is_open,
                });
            }
            Err(_) => unreadable.push((key, text)),
        }
    }
    (kept, unreadable)
}

/// What can be brought back, the latest first, and what cannot be read: keys and texts.
#[must_use]
pub fn kept(common: &impl Store, window: &Window) -> (Vec<Kept>, Vec<(String, String)>) {
    let mine = slot(&window.mark);
    let (mut kept, unreadable) = everything(common);
    kept.retain(|one| one.key != mine);
    order::by_number(&mut kept, |slot| -slot.saved_ms);
    kept.dedup_by(|older, newer| {
        let (older, newer) = (&older.state, &newer.state);
        older.design == newer.design && older.drafts == newer.drafts
    });
    (kept, unreadable)
}

/// Whether any state is kept, this window's own among them, or something that cannot be read.
#[must_use]
pub fn holds_any(common: &impl Store) -> bool {
    let (kept, unreadable) = everything(common);
    !(kept.is_empty() && unreadable.is_empty())
}

/// Forgets states until no more than so many are left beside those of open windows: never one of
/// the latest ten, and of the others the one that lies closest to its neighbour.
fn thin(common: &impl Store, most: usize) {
    let (mut kept, _) = everything(common);
    kept.retain(|one| !one.is_open);
    order::by_number(&mut kept, |slot| -slot.saved_ms);
    while kept.len() > most.max(KEPT_ALWAYS) {
        let gap = |at: &usize| kept[at - 1].saved_ms - kept[*at].saved_ms;
        let closest = (KEPT_ALWAYS..kept.len()).min_by(|a, b| gap(a).total_cmp(&gap(b)));
        let Some(closest) = closest else { return };
        common.remove(&kept.remove(closest).key);
    }
}

/// The latest state of another window.
#[must_use]
pub fn state_of_window(common: &impl Store, mark: &str) -> Option<State> {
    let text = common.read(&slot(mark))?;
    Some(state_at(&text).ok()?.0)
}
