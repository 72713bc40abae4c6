//! Long work that the page shows: begun, told how far it is, stopped, abandoned for a newer one.

use crate::kit::short_tasks::Pace;
use coolpath_core::language::tr;
use std::cell::Cell;
use std::future::Future;
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// What is shown of a job: how far it is as `P`, what it found as `D`.
#[derive(Debug, Clone, PartialEq)]
pub enum Shown<P, D> {
    /// It was not begun.
    Nothing,
    /// It is under way.
    Working(P),
    /// It was stopped.
    Stopped,
    /// It cannot be done, for this reason.
    Fault(String),
    /// It is done.
    Done(D),
}

/// Why a job ended before it was done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum End {
    /// It was stopped, or another one has begun since; what it found is of no use.
    Abandoned,
    /// It came to no end.
    Stopped,
    /// A sentence for the builder.
    Fault(String),
}

impl From<String> for End {
    fn from(fault: String) -> Self {
        Self::Fault(fault)
    }
}

/// A job of a panel; one at a time.
pub struct Job<P, D> {
    shown: UseStateHandle<Shown<P, D>>,
    latest: Rc<Cell<u64>>,
}

impl<P, D> Clone for Job<P, D> {
    fn clone(&self) -> Self {
        Self {
            shown: self.shown.clone(),
            latest: self.latest.clone(),
        }
    }
}

/// A job, abandoned with the panel that asked for it.
#[hook]
pub fn use_job<P: 'static, D: 'static>() -> Job<P, D> {
    let shown = use_state(|| Shown::Nothing);
    let latest = use_mut_ref(|| Rc::new(Cell::new(0)));
    let latest = latest.borrow().clone();
    {
        let latest = latest.clone();
        use_effect_with((), move |()| move || abandon(&latest));
    }
    Job { shown, latest }
}

fn abandon(latest: &Cell<u64>) {
    latest.set(latest.get() + 1);
}

impl<P: 'static, D: 'static> Job<P, D> {
    /// What is shown of it.
    #[must_use]
    pub fn shown(&self) -> &Shown<P, D> {
        &self.shown
    }

    /// What it found.
    #[must_use]
    pub fn done(&self) -> Option<&D> {
        match &*self.shown {
            Shown::Done(found) => Some(found),
            _ => None,
        }
    }

    /// Begins it; one under way is abandoned. What is shown stays until the work tells or ends.
    pub fn start<F>(&self, work: impl FnOnce(Run<P, D>) -> F)
    where
        F: Future<Output = Result<D, End>> + 'static,
    {
        abandon(&self.latest);
        let run = Run {
            mine: self.latest.get(),
            latest: self.latest.clone(),
            shown: self.shown.setter(),
        };
        let work = work(run.clone());
        spawn_local(async move {
            // Neither what asked for it nor the picture of what it found shares a task with the work.
            if run.rest().await.is_err() {
                return;
            }
            let ended = work.await;
            sleep(Duration::ZERO).await;
            match ended {
                Ok(found) => run.show(Shown::Done(found)),
                Err(End::Fault(fault)) => run.show(Shown::Fault(fault)),
                Err(End::Stopped) => run.show(Shown::Stopped),
                Err(End::Abandoned) => {}
            }
        });
    }

    /// Abandons it, and shows nothing of it.
    pub fn clear(&self) {
        abandon(&self.latest);
        self.shown.set(Shown::Nothing);
    }

    /// Stops it.
    #[must_use]
    pub fn stop(&self) -> Callback<MouseEvent> {
        let job = self.clone();
        Callback::from(move |_| {
            abandon(&job.latest);
            job.shown.set(Shown::Stopped);
        })
    }

    /// How far it is, or why there is nothing; what it found is the panel's to show.
    pub fn told(&self, working: impl FnOnce(&P) -> Html) -> Html {
        match &*self.shown {
            Shown::Nothing | Shown::Done(_) => Html::default(),
            Shown::Working(progress) => working(progress),
            Shown::Stopped => html! { <p>{ tr("Stopped. Nothing was changed.") }</p> },
            Shown::Fault(fault) => html! { <p class="fault" role="alert">{ fault }</p> },
        }
    }

    /// The button that stops it.
    pub fn stop_button(&self) -> Html {
        html! { <button type="button" class="quiet" onclick={self.stop()}>{ tr("Stop") }</button> }
    }
}

impl<D: 'static> Job<(usize, usize), D> {
    /// How far a job is that counts its steps, and the button that stops it.
    pub fn counted(&self, label: &'static str) -> Html {
        self.told(|(done, all)| {
            html! {
                <p>
                    <progress value={done.to_string()} max={all.to_string()} aria-label={label} />
                    { tr!(" {} of {} ", done, all) }
                    { self.stop_button() }
                </p>
            }
        })
    }
}

/// A job as its own work sees it.
pub struct Run<P, D> {
    mine: u64,
    latest: Rc<Cell<u64>>,
    shown: UseStateSetter<Shown<P, D>>,
}

impl<P, D> Clone for Run<P, D> {
    fn clone(&self) -> Self {
        Self {
            mine: self.mine,
            latest: self.latest.clone(),
            shown: self.shown.clone(),
        }
    }
}

impl<P: 'static, D: 'static> Run<P, D> {
    fn show(&self, shown: Shown<P, D>) {
        if self.latest.get() == self.mine {
            self.shown.set(shown);
        }
    }

    /// Tells how far it is.
    pub fn tell(&self, progress: P) {
        self.show(Shown::Working(progress));
    }

    /// Waits, in which the browser may answer.
    ///
    /// # Errors
    /// The job was abandoned meanwhile.
    pub async fn wait(&self, time: Duration) -> Result<(), End> {
        sleep(time).await;
        self.goes_on()
    }

    /// Whether it still goes on.
    ///
    /// # Errors
    /// The job was abandoned.
    pub fn goes_on(&self) -> Result<(), End> {
        if self.latest.get() == self.mine {
            Ok(())
        } else {
            Err(End::Abandoned)
        }
    }

    /// Lets the browser answer.
    ///
    /// # Errors
    /// The job was abandoned meanwhile.
    pub async fn rest(&self) -> Result<(), End> {
        self.wait(Duration::ZERO).await
    }

    /// Lets the browser answer if it has not been able to for a while; says whether it did.
    ///
    /// # Errors
    /// The job was abandoned meanwhile.
    pub async fn breathe(&self, pace: &mut Pace) -> Result<bool, End> {
        let rested = pace.breathe().await;
        self.goes_on().map(|()| rested)
    }
}
