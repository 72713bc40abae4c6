//! What the builder asks of the sizing: typed texts, and the request that they make. Pure.

use crate::state::panel_texts::key;
use crate::state::{FieldKey, Range, State, panel_texts};
use coolpath_core::decide::size::course::{Question, Seek};
use coolpath_core::decide::size::{Bounds, USUAL_VELOCITY_RATIO};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
use coolpath_core::language::tr;
use coolpath_core::units::si::inch2;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};

/// One typed text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Text {
    /// Smallest permitted inlets.
    InletsLeast,
    /// Largest permitted inlets.
    InletsMost,
    /// Smallest permitted exit.
    ExitLeast,
    /// Largest permitted exit.
    ExitMost,
    /// Chance that each limit is held, per cent.
    Chance,
    /// Least pressure across the baffles.
    Drop,
    /// Inlet velocity ratio sought.
    Ratio,
}

impl Text {
    /// All texts in the order of the form.
    pub const ALL: [Self; 7] = [
        Self::InletsLeast,
        Self::InletsMost,
        Self::ExitLeast,
        Self::ExitMost,
        Self::Chance,
        Self::Drop,
        Self::Ratio,
    ];

    /// Its label and its dimension.
    #[must_use]
    pub fn meaning(self) -> (&'static str, Dimension) {
        match self {
            Self::InletsLeast => (tr("All inlets, at least"), Dimension::Area),
            Self::InletsMost => (tr("All inlets, at most"), Dimension::Area),
            Self::ExitLeast => (tr("Exit (net), at least"), Dimension::Area),
            Self::ExitMost => (tr("Exit (net), at most"), Dimension::Area),
            Self::Chance => (tr("Chance that both limits hold"), Dimension::Percent),
            Self::Drop => (tr("Minimum Δp (optional)"), Dimension::Pressure),
            Self::Ratio => (tr("Target inlet velocity ratio"), Dimension::Ratio),
        }
    }

    /// Key under which its text is kept.
    #[must_use]
    pub fn key(self) -> FieldKey {
        key(&format!("size-{self:?}").to_lowercase())
    }

    /// Permitted range, SI.
    fn range(self) -> (f64, f64) {
        match self {
            Self::Chance => (0.5, 0.99),
            Self::Drop => (0.0, 5000.0),
            Self::Ratio => (0.05, 2.0),
            _ => (inch2(1.0), 1000.0 * inch2(1.0)),
        }
    }

    fn place(self) -> usize {
        Self::ALL.iter().position(|text| *text == self).unwrap_or(0)
    }
}

/// The typed texts and the locks.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    texts: [String; 7],
    /// The inlets stay as they are.
    pub inlets_locked: bool,
    /// The exit stays as it is.
    pub exit_locked: bool,
    /// The hot turn-around must hold the limits too.
    pub turn_around: bool,
    /// Condition whose velocity ratio is meant.
    pub condition: usize,
}

impl Request {
    /// A request for an installation: the usual bounds about its openings, both limits held in nine cases
    /// of ten, the usual velocity ratio.
    #[must_use]
    pub fn about(installation: &Installation, system: UnitSystem) -> Self {
        let area = |m2: f64| rounded_text(Dimension::Area.shown(system).from_si(m2), 3);
        let usual = Bounds::usual(installation);
        Self {
            texts: [
                area(usual.inlets_m2.0),
                area(usual.inlets_m2.1),
                area(usual.exit_m2.0),
                area(usual.exit_m2.1),
                "90".to_owned(),
                "0".to_owned(),
                rounded_text(USUAL_VELOCITY_RATIO, 3),
            ],
            inlets_locked: false,
            exit_locked: false,
            turn_around: false,
            condition: 0,
        }
    }

    /// A request for a design, its velocity ratio meant for the first level condition.
    #[must_use]
    pub fn of(design: &Design, system: UnitSystem) -> Self {
        Self {
            condition: design.first_level().unwrap_or(0),
            ..Self::about(&design.installation, system)
        }
    }

    /// What stands in a field.
    #[must_use]
    pub fn text(&self, which: Text) -> &str {
        &self.texts[which.place()]
    }

    /// The request with another text in a field.
    #[must_use]
    pub fn with(mut self, which: Text, typed: String) -> Self {
        self.texts[which.place()] = typed;
        self
    }

    /// The request with what was typed in its fields.
    #[must_use]
    pub fn typed(self, state: &State) -> Self {
        Text::ALL.into_iter().fold(self, |request, which| {
            match panel_texts::typed(state, &which.key()) {
                Some(text) => request.with(which, text),
                None => request,
            }
        })
    }

    /// Value of a field, SI.
    ///
    /// # Errors
    /// A sentence with the permitted range.
    pub fn value(&self, which: Text, system: UnitSystem) -> Result<f64, String> {
        let (label, dimension) = which.meaning();
        let range = Range {
            label,
            ends: which.range(),
            dimension,
        };
        range.value(self.text(which), system)
    }

    /// The request as numbers, without the turn-around, whose minutes stand elsewhere.
    ///
    /// # Errors
    /// A sentence for the first field that is no value, or whose bounds are out of order.
    pub fn question(
        &self,
        seek: Seek,
        design: &Design,
        system: UnitSystem,
    ) -> Result<Question, String> {
        let value = |which| self.value(which, system);
        let mut inlets = (value(Text::InletsLeast)?, value(Text::InletsMost)?);
        let mut exit = (value(Text::ExitLeast)?, value(Text::ExitMost)?);
        if self.inlets_locked {
            let own = inlets_m2(&design.installation);
            inlets = (own, own);
        }
        if self.exit_locked {
            let own = exit_m2(&design.installation);
            exit = (own, own);
        }
        if inlets.0 > inlets.1 || exit.0 > exit.1 {
            return Err(tr("The smallest area must not be larger than the largest").to_owned());
        }
        Ok(Question {
            seek,
            bounds: Bounds {
                inlets_m2: inlets,
                exit_m2: exit,
            },
            chance: value(Text::Chance)?,
            least_drop_pa: value(Text::Drop)?,
            ratio: value(Text::Ratio)?,
            ratio_condition: self.condition,
            turn_around: None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn texts_with_commas_and_units_make_numbers_and_rubbish_is_told() {
        let design = example::design();
        let request = Request::about(&design.installation, UnitSystem::Customary)
            .with(Text::Ratio, "0,4".to_owned())
            .with(Text::ExitMost, "700 cm²".to_owned());
        let numbers = request
            .question(Seek::Both, &design, UnitSystem::Customary)
            .expect("numbers");
        assert!((numbers.ratio - 0.4).abs() < 1e-12);
        assert!((numbers.bounds.exit_m2.1 - 0.07).abs() < 1e-9);
        let told = request
            .with(Text::Chance, "sure".to_owned())
            .question(Seek::Both, &design, UnitSystem::Customary)
            .expect_err("told");
        assert!(told.starts_with("Chance that both limits hold must be between 50 and 99"));
    }

    #[test]
    fn every_text_is_one_that_the_state_keeps() {
        for which in Text::ALL {
            assert!(panel_texts::is_known(&which.key()), "{which:?}");
        }
    }

    #[test]
    fn a_lock_is_the_openings_own_area_and_bounds_keep_their_order() {
        let design = example::design();
        let mut request = Request::about(&design.installation, UnitSystem::Metric);
        request.inlets_locked = true;
        let numbers = request
            .question(Seek::Both, &design, UnitSystem::Metric)
            .expect("numbers");
        let own = inlets_m2(&design.installation);
        assert_eq!(numbers.bounds.inlets_m2, (own, own));
        let request = request.with(Text::ExitMost, "2 in²".to_owned());
        assert!(
            request
                .question(Seek::Both, &design, UnitSystem::Metric)
                .is_err()
        );
    }
}
