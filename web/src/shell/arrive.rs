//! Arriving at the place that a link leads to, while what stands above it is still being drawn.

use crate::browser::window::{go_to, on_hand, place_of, scroll_to};
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};

/// How long the place is kept in sight: a view has what its jobs find by then, also on a slow machine.
const LOOKS: u32 = 60;
const BETWEEN_LOOKS: Duration = Duration::from_millis(50);

thread_local! {
    /// Arrivals so far: a later one ends those before it.
    static ARRIVALS: Cell<u32> = const { Cell::new(0) };
}

/// Goes to an element as soon as it is here, and keeps it in sight while what stands above it grows, until a hand
/// touches the page or another place is gone to.
pub fn arrive(id: &'static str) {
    ARRIVALS.set(ARRIVALS.get().wrapping_add(1));
    let mine = ARRIVALS.get();
    let was_touched = Rc::new(Cell::new(false));
    let end = {
        let was_touched = was_touched.clone();
        on_hand(move || was_touched.set(true))
    };
    spawn_local(async move {
        let mut stood = None;
        for _ in 0..LOOKS {
            let stands = place_of(id);
            let has_left = stood.is_some() && stands.is_none();
            if was_touched.get() || has_left || ARRIVALS.get() != mine {
                break;
            }
            if stood.is_none() && stands.is_some() {
                go_to(id);
            } else if !is_same(stood, stands) {
                scroll_to(id);
            }
            stood = stands;
            sleep(BETWEEN_LOOKS).await;
        }
        end();
    });
}

/// Whether nothing has grown.
fn is_same(before: Option<(f64, i32)>, now: Option<(f64, i32)>) -> bool {
    const ROUNDING_PX: f64 = 1.0;
    match (before, now) {
        (Some((stood, long)), Some((stands, longer))) => {
            (stands - stood).abs() < ROUNDING_PX && long == longer
        }
        _ => before == now,
    }
}
