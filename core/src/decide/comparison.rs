//! An alternative beside the design, in steps: with its exit as it is, then at equal heads.

use crate::answer::solved::EvaluateError;
use crate::decide::compare::{Difference, Preset, at_equal_heads, difference, hardest_for_heads};
use crate::document::alternative::Alternative;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::installation::areas::exit_m2;
use crate::language::tr;

/// Changes that stand beside every design, without the one that it has already.
const STANDING: [Preset; 3] = [Preset::HardPlenum, Preset::NewSeals, Preset::WornSeals];

/// An alternative against the design, at one exit or another.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    /// Net area of its first exit, m².
    pub exit_m2: f64,
    /// Difference in the condition that is shown.
    pub shown: Result<Difference, EvaluateError>,
    /// Difference in the first level condition, for the speed.
    pub level: Option<Result<Difference, EvaluateError>>,
}

/// Why an alternative does not stand at equal heads.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NotAtEqualHeads {
    /// From a fifth to five times its area no exit does that.
    #[error("{}", tr("no exit brings the heads there"))]
    NoExit,
    /// Whether one does is not known.
    #[error(transparent)]
    NoAnswer(#[from] EvaluateError),
}

/// An alternative against the design.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Name of the alternative.
    pub name: String,
    /// With its exit as it is.
    pub fixed: Stand,
    /// With its exit re-sized for equal heads.
    pub equal: Result<Stand, NotAtEqualHeads>,
}

impl Comparison {
    /// With its exit re-sized for equal heads, where there is an answer.
    #[must_use]
    pub fn at_equal_heads(&self) -> Option<&Stand> {
        self.equal.as_ref().ok()
    }
}

/// The alternatives that always stand beside a design: a plenum, new and worn seals, without the
/// one that it has already.
#[must_use]
pub fn standing(design: &Design) -> Vec<Alternative> {
    with_presets(design, &[])
}

/// The alternatives that always stand beside a design, and presets that were asked for: each once, and
/// none that changes nothing.
#[must_use]
pub fn with_presets(design: &Design, asked: &[Preset]) -> Vec<Alternative> {
    let own = &design.installation;
    let mut list: Vec<Alternative> = Vec::new();
    for preset in STANDING.iter().chain(asked) {
        let installation = preset.applied(own);
        let is_there = list.iter().any(|one| one.name == preset.name());
        if !is_there && !is_as_before(own, &installation) {
            list.push(Alternative {
                name: preset.name().to_owned(),
                installation,
            });
        }
    }
    list
}

/// Whether a change leaves an installation as it is, its seals to rounding.
fn is_as_before(own: &Installation, changed: &Installation) -> bool {
    let mut sealed = own.clone();
    sealed.decks = changed.decks.clone();
    let (before, after) = (own.decks.seal_area_m2(), changed.decks.seal_area_m2());
    let alike =
        own.decks.sealing == changed.decks.sealing && (before - after).abs() <= 1e-9 * before.abs();
    alike && sealed == *changed
}

/// A comparison under way, in steps.
pub struct Comparing {
    design: Design,
    alternative: Alternative,
    place: usize,
    level: Option<usize>,
    resized: Option<Result<Installation, NotAtEqualHeads>>,
    step: usize,
    fixed: Option<Stand>,
    equal: Option<Result<Stand, NotAtEqualHeads>>,
}

impl Comparing {
    /// One alternative against a design in the condition at a place.
    #[must_use]
    pub fn new(design: &Design, alternative: &Alternative, place: usize) -> Self {
        Self {
            design: design.clone(),
            alternative: alternative.clone(),
            place,
            level: design.first_level(),
            resized: None,
            step: 0,
            fixed: None,
            equal: None,
        }
    }

    fn shown(&self, installation: &Installation) -> Stand {
        Stand {
            exit_m2: exit_m2(installation),
            shown: difference(&self.design, installation, self.place),
            level: None,
        }
    }

    /// In the first level condition, which may be the one that is shown.
    fn at_level(
        &self,
        installation: &Installation,
        stand: &Stand,
    ) -> Option<Result<Difference, EvaluateError>> {
        let level = self.level?;
        Some(if level == self.place {
            stand.shown.clone()
        } else {
            difference(&self.design, installation, level)
        })
    }

    /// Does one step; the comparison when all is done.
    pub fn advance(&mut self) -> Option<Comparison> {
        let step = self.step;
        self.step += 1;
        match step {
            0 => {
                self.fixed = Some(self.shown(&self.alternative.installation));
                None
            }
            1 => {
                let fixed = self.fixed.as_ref()?;
                let level = self.at_level(&self.alternative.installation, fixed);
                self.fixed.as_mut()?.level = level;
                None
            }
            2 => {
                self.resized = Some(self.with_equal_heads());
                None
            }
            3 => {
                self.equal = Some(match self.resized.as_ref()? {
                    Ok(resized) => Ok(self.shown(resized)),
                    Err(why) => Err(why.clone()),
                });
                None
            }
            _ => {
                let mut equal = self.equal.take()?;
                if let (Some(Ok(resized)), Ok(equal)) = (&self.resized, &mut equal) {
                    equal.level = self.at_level(resized, equal);
                }
                Some(Comparison {
                    name: self.alternative.name.clone(),
                    fixed: self.fixed.take()?,
                    equal,
                })
            }
        }
    }

    /// The alternative with its exit re-sized. Where no condition of the design can be judged, the one
    /// that is shown tells why.
    fn with_equal_heads(&self) -> Result<Installation, NotAtEqualHeads> {
        let hardest = hardest_for_heads(&self.design).unwrap_or(self.place);
        at_equal_heads(&self.design, &self.alternative.installation, hardest)?
            .ok_or(NotAtEqualHeads::NoExit)
    }

    /// Whether there is nothing left to do.
    #[must_use]
    pub fn is_done(&self) -> bool {
        self.step > 4
    }

    /// All steps that are left, at once; `None` if it was done before.
    ///
    /// # Example
    /// Worn seals leave the heads hotter:
    /// ```
    /// use coolpath_core::decide::comparison::{Comparing, standing};
    /// use coolpath_core::document::example;
    ///
    /// let design = example::design();
    /// let worn = standing(&design).pop().expect("worn seals");
    /// let made = Comparing::new(&design, &worn, 3).finished().expect("made");
    /// assert!(made.fixed.shown.is_ok_and(|found| found.by.head > 0.0));
    /// ```
    pub fn finished(mut self) -> Option<Comparison> {
        let mut made = None;
        while made.is_none() && !self.is_done() {
            made = self.advance();
        }
        made
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::example;
    use crate::units::quantity::metre;

    #[test]
    fn an_exit_that_does_not_exist_is_told_apart_from_an_answer_that_does_not() {
        let design = example::design();
        let equal = |changed: Installation| {
            let other = Alternative {
                name: String::new(),
                installation: changed,
            };
            Comparing::new(&design, &other, 1)
                .finished()
                .expect("a comparison")
                .equal
        };
        let mut leaky = design.installation.clone();
        leaky.decks.seal_gap = metre(0.02);
        assert_eq!(equal(leaky), Err(NotAtEqualHeads::NoExit));
        let mut without = design.installation.clone();
        without.inlets.clear();
        assert!(matches!(equal(without), Err(NotAtEqualHeads::NoAnswer(_))));
    }
}
