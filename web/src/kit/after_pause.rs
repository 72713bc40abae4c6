//! Values that wait for a pause, so that slow parts of the page do not follow every keystroke.

use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// How long nothing changes before what is slow follows, ms: longer than between two keystrokes.
const PAUSE_MS: u64 = 300;

/// A value as it was when it last stood still for a moment; at first as it is.
///
/// Whoever shows what follows from it compares it with the value itself: until both are equal, what
/// is shown is out of date.
#[hook]
pub fn use_after_pause<T: Clone + PartialEq + 'static>(value: &T) -> T {
    let settled = use_state(|| value.clone());
    let latest = use_mut_ref(|| value.clone());
    *latest.borrow_mut() = value.clone();
    {
        let settled = settled.clone();
        use_effect_with(value.clone(), move |value| {
            let value = value.clone();
            spawn_local(async move {
                sleep(Duration::from_millis(PAUSE_MS)).await;
                let still = *latest.borrow() == value;
                if still && *settled != value {
                    settled.set(value);
                }
            });
        });
    }
    (*settled).clone()
}
