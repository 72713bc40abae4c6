//! Long work in short tasks, at any speed of the machine.

use std::time::Duration;
use yew::platform::time::sleep;

/// How long to work before the browser may answer, ms: less than half of what a person notices.
const TASK_MS: f64 = 20.0;

/// How long a piece of a drawing may take that follows a keystroke, whose answer took time before it, ms.
const PICTURE_MS: f64 = 8.0;

/// The pace of a long piece of work.
pub struct Pace {
    since_ms: f64,
    task_ms: f64,
}

impl Pace {
    /// A pace that begins now.
    #[must_use]
    pub fn begun() -> Self {
        Self::of(TASK_MS)
    }

    /// A pace that begins now, of pieces of a drawing.
    #[must_use]
    pub fn of_pictures() -> Self {
        Self::of(PICTURE_MS)
    }

    fn of(task_ms: f64) -> Self {
        Self {
            since_ms: now_ms(),
            task_ms,
        }
    }

    /// Lets the browser answer if it has not been able to for a while; says whether it did.
    pub async fn breathe(&mut self) -> bool {
        let worked_ms = now_ms() - self.since_ms;
        // Without a clock the browser answers every time.
        let due = worked_ms.is_nan() || worked_ms >= self.task_ms;
        if due {
            sleep(Duration::ZERO).await;
            self.since_ms = now_ms();
        }
        due
    }
}

fn now_ms() -> f64 {
    web_sys::window()
        .and_then(|window| window.performance())
        .map_or(f64::NAN, |clock| clock.now())
}
