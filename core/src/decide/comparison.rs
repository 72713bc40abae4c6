//! An alternative beside the design, in steps: with its exit as it is, then at equal heads.

use crate::answer::solved::EvaluateError;
use crate::decide::compare::{Difference, Preset, at_equal_heads, difference, hardest_for_heads};
use crate::document::alternative::Alternative;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::installation::areas::exit_m2;

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

/// An alternative against the design.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Name of the alternative.
    pub name: String,
    /// With its exit as it is.
    pub fixed: Stand,
    /// With its exit re-sized for equal heads; `None` if no exit does that.
    pub equal: Option<Result<Stand, EvaluateError>>,
}

impl Comparison {
    /// With its exit re-sized for equal heads, where there is an answer.
    #[must_use]
    pub fn at_equal_heads(&self) -> Option<&Stand> {
        self.equal.as_ref()?.as_ref().ok()
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
    resized: Option<Result<Installation, EvaluateError>>,
    step: usize,
    made: Option<Comparison>,
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
            made: None,
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
                self.made = Some(Comparison {
                    name: self.alternative.name.clone(),
                    fixed: self.shown(&self.alternative.installation),
                    equal: None,
                });
                None
            }
            1 => {
                let fixed = &self.made.as_ref()?.fixed;
                let level = self.at_level(&self.alternative.installation, fixed);
                self.made.as_mut()?.fixed.level = level;
                None
            }
            2 => {
                self.resized = hardest_for_heads(&self.design).and_then(|hardest| {
                    at_equal_heads(&self.design, &self.alternative.installation, hardest)
                        .transpose()
                });
                None
            }
            3 => {
                let equal = self.resized.as_ref().map(|resized| match resized {
                    Ok(resized) => Ok(self.shown(resized)),
                    Err(error) => Err(error.clone()),
                });
                self.made.as_mut()?.equal = equal;
                None
            }
            _ => {
                let mut made = self.made.take()?;
                if let (Some(Ok(resized)), Some(Ok(equal))) = (&self.resized, &mut made.equal) {
                    equal.level = self.at_level(resized, equal);
                }
                Some(made)
            }
        }
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
