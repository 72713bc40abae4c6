//! Values that follow later, so that slow parts of the page do not hold up a keystroke.

use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// How long nothing changes before what is slow follows, ms: longer than between two keystrokes.
const PAUSE_MS: u64 = 300;

/// A frame of a screen that shows sixty a second, and a little more, ms.
const FRAME_MS: u64 = 20;

/// When a value is followed.
#[derive(Clone, Copy, PartialEq)]
enum When {
    /// Once it has stood still.
    AfterPause,
    /// Once the browser has had time to paint.
    AFrameLater,
}

/// A value as it was when it last stood still for a moment; at first as it is.
///
/// Whoever shows what follows from it compares it with the value itself: until both are equal, what
/// is shown is out of date.
#[hook]
pub fn use_after_pause<T: Clone + PartialEq + 'static>(value: &T) -> T {
    use_later(value, When::AfterPause)
}

/// A value as it was a frame ago; at first as it is. What was typed and the numbers that follow are
/// painted before what takes long to draw, which skips the values that it has no time for.
#[hook]
pub fn use_a_frame_later<T: Clone + PartialEq + 'static>(value: &T) -> T {
    use_later(value, When::AFrameLater)
}

#[hook]
fn use_later<T: Clone + PartialEq + 'static>(value: &T, when: When) -> T {
    let settled = use_state_eq(|| value.clone());
    let latest = use_mut_ref(|| value.clone());
    *latest.borrow_mut() = value.clone();
    {
        let settled = settled.clone();
        use_effect_with(value.clone(), move |value| {
            let value = value.clone();
            spawn_local(async move {
                let wait_ms = match when {
                    When::AfterPause => PAUSE_MS,
                    When::AFrameLater => FRAME_MS,
                };
                sleep(Duration::from_millis(wait_ms)).await;
                let now = latest.borrow().clone();
                if when == When::AFrameLater || now == value {
                    settled.set(now);
                }
            });
        });
    }
    (*settled).clone()
}
