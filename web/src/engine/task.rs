//! The kinds of work that workers share with the page.

use crate::engine::protocol::Part;
use crate::state::json;
use coolpath_core::answer::evaluate::Limit;
use coolpath_core::answer::pieces::Pieces;
use coolpath_core::answer::sampling::Sampling;
use coolpath_core::decide::cut::Needs;
use coolpath_core::decide::duct_length::{DuctLengths, Lengths};
use coolpath_core::decide::next::Observing;
use coolpath_core::decide::size::course::Question;
use coolpath_core::decide::size::map::{Mapping, Report};
use coolpath_core::document::design::Design;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

/// All kinds of work that one part of the program knows.
pub trait Kinds: Serialize + DeserializeOwned {
    /// The part.
    const PART: Part;

    /// Prepares one.
    ///
    /// # Errors
    /// A sentence for the builder.
    fn begin(&self) -> Result<Begun, String>;
}

/// Work in pieces, which begins from nothing but what stands in it.
pub trait Task: Into<Self::Kind> {
    /// The kinds to which it belongs.
    type Kind: Kinds;
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
    type Kind = Work;
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
    type Kind = Work;
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
    type Kind = Work;
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

/// Work in steps, each of which needs the ones before; it too begins from nothing but what stands in it.
pub trait Course: Into<Self::Kind> {
    /// The kinds to which it belongs.
    type Kind: Kinds;
    /// The work under way.
    type Going: Going + 'static;

    /// Prepares it.
    ///
    /// # Errors
    /// A sentence for the builder.
    fn begin(&self) -> Result<Self::Going, String>;
}

/// A course under way.
pub trait Going {
    /// What it finds.
    type Found: Serialize + DeserializeOwned;

    /// Steps done and steps in all, as far as is known; a later part of the course may count anew.
    fn progress(&self) -> (usize, usize);

    /// Does one step; what was found once all are done.
    ///
    /// # Errors
    /// A sentence for the builder.
    fn advance(&mut self) -> Result<Option<Self::Found>, String>;
}

/// A course under way in a worker, which writes what it finds.
pub trait Writing {
    /// Steps done and steps in all, as far as is known.
    fn progress(&self) -> (usize, usize);

    /// Does one step; what was found, as text, once all are done.
    ///
    /// # Errors
    /// A sentence for the builder.
    fn advance(&mut self) -> Result<Option<String>, String>;
}

impl<G: Going> Writing for G {
    fn progress(&self) -> (usize, usize) {
        Going::progress(self)
    }

    fn advance(&mut self) -> Result<Option<String>, String> {
        let found = Going::advance(self)?;
        let written = found.map(|found| json::text(&found));
        written.transpose().map_err(|error| error.to_string())
    }
}

/// A size for the openings, and the map of sizes around it.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Size {
    /// The design.
    pub design: Design,
    /// What is asked.
    pub question: Question,
}

impl Course for Size {
    type Kind = Work;
    type Going = Option<Mapping>;

    fn begin(&self) -> Result<Option<Mapping>, String> {
        self.design.check().map_err(|error| error.to_string())?;
        Ok(Some(Mapping::new(
            self.design.clone(),
            self.question.clone(),
        )))
    }
}

/// Nothing is left of it once it is done.
impl Going for Option<Mapping> {
    type Found = Report;

    fn progress(&self) -> (usize, usize) {
        self.as_ref().map_or((0, 0), Mapping::progress)
    }

    fn advance(&mut self) -> Result<Option<Report>, String> {
        let is_under_way = self.as_mut().is_some_and(Mapping::advance);
        Ok(if is_under_way {
            None
        } else {
            self.take().map(Mapping::finished)
        })
    }
}

/// Lengths of a widening duct behind an inlet.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Ducts {
    /// The design.
    pub design: Design,
    /// Place of the inlet.
    pub inlet: usize,
    /// Place of the condition.
    pub place: usize,
}

impl Course for Ducts {
    type Kind = Work;
    type Going = DuctLengths;

    fn begin(&self) -> Result<DuctLengths, String> {
        DuctLengths::new(&self.design, self.inlet, self.place).map_err(|error| error.to_string())
    }
}

impl Going for DuctLengths {
    type Found = Lengths;

    fn progress(&self) -> (usize, usize) {
        Self::progress(self)
    }

    fn advance(&mut self) -> Result<Option<Lengths>, String> {
        Self::advance(self).map_err(|error| error.to_string())
    }
}

/// Work under way in a worker.
pub enum Begun {
    /// In pieces.
    Pieces(Box<dyn Pieces>),
    /// In steps.
    Course(Box<dyn Writing>),
}

/// Lists every kind of work of a part once: how a worker is told of it, and what it begins as there.
macro_rules! kinds {
    ($(#[$all:meta])* $name:ident in $part:ident: $($(#[$doc:meta])* $kind:ident begins $form:ident),* $(,)?) => {
        $(#[$all])*
        #[derive(Debug, Clone, Serialize, Deserialize)]
        pub enum $name {
            $($(#[$doc])* $kind($kind)),*
        }

        $(impl From<$kind> for $name {
            fn from(work: $kind) -> Self {
                Self::$kind(work)
            }
        })*

        impl Kinds for $name {
            const PART: Part = Part::$part;

            fn begin(&self) -> Result<Begun, String> {
                Ok(match self {
                    $(Self::$kind(work) => Begun::$form(Box::new(work.begin()?))),*
                })
            }
        }
    };
}
pub(crate) use kinds;

kinds! {
    /// Work before a flight, as it is told a worker.
    Work in Decisions:
    /// Draws.
    Draws begins Pieces,
    /// Draws with readings.
    Observe begins Pieces,
    /// Draws over exits.
    Exits begins Pieces,
    /// A size.
    Size begins Course,
    /// Lengths of a duct.
    Ducts begins Course,
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
            match work.begin().expect("the same work") {
                Begun::Pieces(pieces) => pieces,
                Begun::Course(_) => panic!("pieces"),
            }
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
                of: Draws {
                    draws: 200,
                    ..draws()
                },
                place: 1,
                oil,
            };
            let (shared, own) = (worths(&told(&task)), worths(&alone(&task)));
            assert_eq!(format!("{shared:?}"), format!("{own:?}"));
            assert!(!own.is_empty());
        }
    }

    /// What a course finds in a worker that reads what it was told and writes what it found.
    fn written<C: Course + Clone>(course: &C) -> <C::Going as Going>::Found {
        let text = serde_json::to_string(&course.clone().into()).expect("a text");
        let work: Work = serde_json::from_str(&text).expect("the same work");
        let Ok(Begun::Course(mut going)) = work.begin() else {
            panic!("a course");
        };
        let mut before = 0;
        loop {
            if let Some(text) = going.advance().expect("the example") {
                return serde_json::from_str(&text).expect("the same answer");
            }
            let (done, all) = going.progress();
            assert!(before < done && done <= all);
            before = done;
        }
    }

    fn followed<C: Course>(course: &C) -> <C::Going as Going>::Found {
        let mut going = course.begin().expect("the example");
        loop {
            if let Some(found) = Going::advance(&mut going).expect("the example") {
                return found;
            }
        }
    }

    #[test]
    fn a_size_is_told_to_the_bit_a_refused_one_with_its_reason() {
        use coolpath_core::decide::size::Bounds;
        use coolpath_core::decide::size::course::Seek;
        let mut design = example::design();
        for (seek, known_share) in [(Seek::Both, true), (Seek::Flap, false), (Seek::Exit, false)] {
            if known_share {
                design.measured.push("airframe.propeller_share".to_owned());
            }
            let question = Question {
                seek,
                bounds: Bounds {
                    inlets_m2: (0.014, 0.069),
                    exit_m2: (0.015, 0.094),
                },
                chance: 0.9,
                least_drop_pa: 0.0,
                ratio: 0.45,
                ratio_condition: 0,
                turn_around: None,
            };
            let size = Size {
                design: design.clone(),
                question,
            };
            assert_eq!(written(&size), followed(&size));
        }
    }

    #[test]
    fn lengths_of_a_duct_are_told_to_the_bit() {
        let ducts = Ducts {
            design: example::design(),
            inlet: 0,
            place: 1,
        };
        assert_eq!(written(&ducts), followed(&ducts));
    }

    #[test]
    fn a_design_that_is_refused_is_refused_everywhere_with_the_same_words() {
        let mut task = draws();
        task.design.conditions.clear();
        let alone = task.begin().map(drop);
        assert!(alone.is_err());
        assert_eq!(Work::from(task).begin().map(drop), alone);
    }
}
