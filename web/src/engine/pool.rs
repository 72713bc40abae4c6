//! The page's workers: as many as the machine has use for, started when long work is first asked for.

use crate::engine::hand::{Hand, State};
use crate::engine::protocol::{Question, Said};
use std::cell::RefCell;

/// Most workers; more of them would only take memory.
const MOST: usize = 4;

thread_local! {
    static HANDS: RefCell<Option<Vec<Hand>>> = const { RefCell::new(None) };
}

/// What can be done with a worker.
pub enum Turn<A> {
    /// It was asked, and will say this.
    Asked(A),
    /// It is busy, or not here yet.
    Later,
    /// It does not work.
    Never,
}

/// Number of workers; starts them where nobody did.
pub fn count() -> usize {
    HANDS.with_borrow_mut(|hands| {
        let started = hands.get_or_insert_with(|| {
            let window = web_sys::window();
            let cores = window.map_or(1.0, |window| window.navigator().hardware_concurrency());
            let wanted = (cores as usize).clamp(1, MOST);
            (0..wanted).map_while(|_| Hand::started()).collect()
        });
        started.len()
    })
}

/// Asks a worker, if it is free.
pub fn ask(at: usize, question: &Question) -> Turn<impl Future<Output = Said> + use<>> {
    HANDS.with_borrow(|hands| {
        let hand = hands.as_ref().and_then(|hands| hands.get(at));
        match hand.map(|hand| (hand, hand.state())) {
            Some((hand, State::Free)) => Turn::Asked(hand.ask(question)),
            Some((_, State::Coming | State::Asked)) => Turn::Later,
            Some((_, State::Gone)) | None => Turn::Never,
        }
    })
}

/// A worker for work in steps, which one of them does alone: a free one first, else one that will be.
pub fn best() -> Option<(usize, State)> {
    let states: Vec<State> =
        HANDS.with_borrow(|hands| hands.iter().flatten().map(Hand::state).collect());
    [State::Free, State::Asked, State::Coming]
        .into_iter()
        .find_map(|wanted| {
            let at = states.iter().position(|state| *state == wanted)?;
            Some((at, wanted))
        })
}
