//! The kinds of work that workers share with the page.

use coolpath_core::answer::evaluate::Limit;
use coolpath_core::answer::pieces::Pieces;
use coolpath_core::answer::sampling::Sampling;
use coolpath_core::decide::cut::Needs;
use coolpath_core::decide::next::Observing;
use coolpath_core::document::design::Design;
use serde::{Deserialize, Serialize};

/// Work that begins from nothing but what stands in it.
pub trait Task: Into<Work> {
    /// The work under way.
    type Begun: Pieces + 'static;

    /// Prepares it.
    ///
    /// # Errors
    /// A sentence for the builder.
    fn begin(&self) -> Result<Self::Begun, String>;
}

/// Draws of every assumption, in every condition.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Draws {
    /// The design.
    pub design: Design,
    /// Draws in all.
    pub draws: usize,
    /// What the numbers of chance follow from.
    pub seed: u64,
}

impl Task for Draws {
    type Begun = Sampling;

    fn begin(&self) -> Result<Sampling, String> {
        Sampling::new(&self.design, self.draws, self.seed).map_err(|error| error.to_string())
    }
}

/// Draws of an answer and of what could be read before it.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Observe {
    /// The draws.
    pub of: Draws,
    /// Place of the condition.
    pub place: usize,
    /// Whether it is asked about the oil, not the hottest head.
    pub oil: bool,
}

impl Task for Observe {
    type Begun = Observing;

    fn begin(&self) -> Result<Observing, String> {
        let asked = if self.oil { Limit::Oil } else { Limit::Head };
        let Draws {
            design,
            draws,
            seed,
        } = &self.of;
        Observing::new(design, self.place, asked, *draws, *seed).map_err(|error| error.to_string())
    }
}

/// What exits hold in the draws; what is cut already does not bound them.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Exits {
    /// The draws.
    pub of: Draws,
}

impl Task for Exits {
    type Begun = Needs;

    fn begin(&self) -> Result<Needs, String> {
        let Draws {
            design,
            draws,
            seed,
        } = &self.of;
        Needs::new(design, f64::INFINITY, *draws, *seed).map_err(|error| error.to_string())
    }
}

/// Any of them, as it is told a worker.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub enum Work {
    /// Draws.
    Draws(Draws),
    /// Draws with readings.
    Observe(Observe),
    /// Draws over exits.
    Exits(Exits),
}

impl From<Draws> for Work {
    fn from(task: Draws) -> Self {
        Self::Draws(task)
    }
}

impl From<Observe> for Work {
    fn from(task: Observe) -> Self {
        Self::Observe(task)
    }
}

impl From<Exits> for Work {
    fn from(task: Exits) -> Self {
        Self::Exits(task)
    }
}

impl Work {
    /// Prepares it.
    ///
    /// # Errors
    /// A sentence for the builder.
    pub fn begin(&self) -> Result<Box<dyn Pieces>, String> {
        Ok(match self {
            Self::Draws(task) => Box::new(task.begin()?),
            Self::Observe(task) => Box::new(task.begin()?),
            Self::Exits(task) => Box::new(task.begin()?),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    /// The numbers of a task's pieces found by several workers, each of which reads what it was told.
    fn told<T: Task + Clone>(task: &T) -> T::Begun {
        let text = serde_json::to_string(&task.clone().into()).expect("a text");
        let workers = [(); 3].map(|()| {
            let work: Work = serde_json::from_str(&text).expect("the same work");
            work.begin().expect("the same work")
        });
        let mut begun = task.begin().expect("the example");
        let (_, all) = begun.progress();
        let blocks: Vec<Vec<f64>> = (0..all)
            .step_by(7)
            .enumerate()
            // The last first.
            .rev()
            .map(|(at, from)| workers[at % 3].numbers(from..all.min(from + 7)))
            .collect();
        for block in blocks.iter().rev() {
            begun.take(block);
        }
        assert_eq!(begun.progress(), (all, all));
        begun
    }

    fn alone<T: Task>(task: &T) -> T::Begun {
        let mut begun = task.begin().expect("the example");
        while begun.advance(11) {}
        begun
    }

    fn draws() -> Draws {
        Draws {
            design: example::design(),
            draws: 40,
            seed: 5,
        }
    }

    #[test]
    fn several_workers_draw_what_one_draws_to_the_bit() {
        let (shared, own) = (told(&draws()), alone(&draws()));
        for place in 0..6 {
            assert_eq!(shared.drawn(place), own.drawn(place));
        }
    }

    #[test]
    fn several_workers_find_the_margins_of_one_to_the_bit() {
        let task = Exits { of: draws() };
        assert_eq!(told(&task).table(), alone(&task).table());
    }

    #[test]
    fn several_workers_rank_what_to_measure_as_one_does() {
        use coolpath_core::decide::next::worths;
        for oil in [false, true] {
            let task = Observe {
                of: draws(),
                place: 1,
                oil,
            };
            let (shared, own) = (worths(&told(&task)), worths(&alone(&task)));
            assert_eq!(format!("{shared:?}"), format!("{own:?}"));
            assert!(!own.is_empty());
        }
    }

    #[test]
    fn a_design_that_is_refused_is_refused_everywhere_with_the_same_words() {
        let mut task = draws();
        task.design.conditions.clear();
        let alone = task.begin().err().expect("a refusal");
        let told = Work::from(task).begin().err().expect("a refusal");
        assert_eq!(alone, told);
    }
}
