//! Nested lines: what is cut first, what is likely right, and what is never to be passed.

use crate::kit::format;
use crate::workshop::cut::advice::{Advice, AtLine, advice};
use crate::workshop::cut::drawing::{Stroke, wrapped};
use coolpath_core::answer::band::bands;
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::verdict::{DEFAULT_CHANCE, judge};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::feet_inches::Rounded;
use coolpath_core::units::typed::UnitSystem;

/// A line of a template.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    /// Cut here first.
    FirstCut,
    /// Likely where it ends.
    Likely,
    /// Never beyond.
    NeverBeyond,
}

impl LineKind {
    /// All of them, the smallest first.
    pub const ALL: [Self; 3] = [Self::FirstCut, Self::Likely, Self::NeverBeyond];

    /// Its name, with how it is drawn.
    #[must_use]
    pub fn legend(self) -> &'static str {
        match self {
            Self::FirstCut => tr("Full line, first cut"),
            Self::Likely => tr("Dashed, likely"),
            Self::NeverBeyond => tr("Dotted, never beyond"),
        }
    }

    /// Which way its lengths are rounded in words: what can be cut away cannot be put back.
    #[must_use]
    pub fn rounded(self) -> Rounded {
        match self {
            Self::FirstCut | Self::NeverBeyond => Rounded::Down,
            Self::Likely => Rounded::Nearest,
        }
    }

    /// How it is drawn.
    #[must_use]
    pub fn stroke(self) -> Stroke {
        match self {
            Self::FirstCut => Stroke::Full,
            Self::Likely => Stroke::Dashed,
            Self::NeverBeyond => Stroke::Dotted,
        }
    }
}

/// A line with its size and what it predicts.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Which.
    pub kind: LineKind,
    /// Area over that of the design \[-\].
    pub factor: f64,
    /// Hottest head over all conditions, K.
    pub head_k: f64,
    /// Where it may lie at most, with every assumption in its range, K.
    pub head_most_k: f64,
    /// How each condition stands with it.
    pub conditions: Vec<AtLine>,
}

/// Letters of a line of text on a template: as many as fit on a sheet.
pub const LETTERS: usize = 105;

impl Line {
    /// What the line promises, and what may be done; `None` without any condition.
    #[must_use]
    pub fn advice(&self, system: UnitSystem) -> Option<Advice> {
        advice(&self.conditions, system)
    }

    /// The hottest head over all conditions that have an answer.
    #[must_use]
    pub fn heads(&self, system: UnitSystem) -> String {
        if self.head_k.is_finite() {
            tr!(
                "hottest head {}, at most {}",
                format::temperature(self.head_k, system),
                format::temperature(self.head_most_k, system)
            )
        } else {
            tr("no answer").to_owned()
        }
    }

    /// What stands beside the line on a template, below what it is, in lines of so many letters.
    #[must_use]
    pub fn promise(&self, system: UnitSystem, letters: usize) -> Vec<String> {
        let Some(advice) = self.advice(system) else {
            return Vec::new();
        };
        let whole = format!("{} {}", advice.sentence(), advice.may);
        wrapped(&whole, letters)
            .into_iter()
            .map(|text| format!("    {text}"))
            .collect()
    }
}

/// Which openings a plan is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Opening {
    /// All inlets together.
    Inlets,
    /// The first exit.
    Exit,
}

/// The design with these openings scaled by an area factor.
#[must_use]
pub fn scaled(design: &Design, opening: Opening, factor: f64) -> Design {
    let mut next = design.clone();
    match opening {
        Opening::Inlets => next
            .installation
            .inlets
            .iter_mut()
            .for_each(|inlet| inlet.scale_area(factor)),
        Opening::Exit => {
            if let Some(exit) = next.installation.exits.first_mut() {
                exit.set_closed_area(factor * exit.closed_area_m2());
            }
        }
    }
    next
}

/// The hottest head of a line, found a condition at a time.
#[derive(Debug, Clone)]
pub struct Hottest {
    design: Design,
    next: usize,
    head_k: f64,
    head_most_k: f64,
    conditions: Vec<AtLine>,
}

impl Hottest {
    /// Nothing found yet, of a design.
    #[must_use]
    pub fn new(design: Design) -> Self {
        Self {
            design,
            next: 0,
            head_k: f64::NEG_INFINITY,
            head_most_k: f64::NEG_INFINITY,
            conditions: Vec::new(),
        }
    }

    /// Takes one more condition; false when all are taken.
    pub fn advance(&mut self) -> bool {
        let place = self.next;
        self.next += 1;
        let Some(condition) = self.design.conditions.get(place) else {
            return false;
        };
        let found = evaluate(&self.design, place).and_then(|answer| {
            let bands = bands(&self.design, place)?;
            Ok((answer, bands))
        });
        let mut at = AtLine {
            condition: condition.name.clone(),
            phase: condition.phase,
            temperatures_k: None,
            outcome: Err(String::new()),
        };
        match found {
            Ok((answer, bands)) => {
                let head = answer.head_hottest.value;
                self.head_k = self.head_k.max(head);
                self.head_most_k = self
                    .head_most_k
                    .max(head + bands.figures.head_hottest.above);
                at.temperatures_k = Some((head, answer.oil.value));
                let installation = &self.design.installation;
                at.outcome = Ok(judge(
                    installation,
                    &answer,
                    Some(&bands),
                    None,
                    DEFAULT_CHANCE,
                ));
            }
            Err(error) => at.outcome = Err(error.to_string()),
        }
        self.conditions.push(at);
        self.next < self.design.conditions.len()
    }

    /// The line that was found.
    #[must_use]
    pub fn line(self, kind: LineKind, factor: f64) -> Line {
        Line {
            kind,
            factor,
            head_k: self.head_k,
            head_most_k: self.head_most_k,
            conditions: self.conditions,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn a_larger_exit_cools_and_the_worst_case_lies_above() {
        let line = |factor: f64| {
            let mut hottest = Hottest::new(scaled(&example::design(), Opening::Exit, factor));
            while hottest.advance() {}
            hottest.line(LineKind::Likely, factor)
        };
        let (small, large) = (line(0.85), line(1.15));
        assert!(small.head_k > large.head_k + 1.0);
        assert!(small.head_most_k > small.head_k + 5.0);
        let twice = scaled(&example::design(), Opening::Inlets, 2.0);
        let area = |design: &Design| design.installation.inlets[0].area_m2();
        assert!((area(&twice) / area(&example::design()) - 2.0).abs() < 1e-12);
    }
}
