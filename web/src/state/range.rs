//! A typed number and the range in which it must lie. Pure.

use coolpath_core::language::tr;
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, ParseError, UnitSystem};

/// What a typed number is called, what it measures, and between which ends it must lie.
#[derive(Debug, Clone, Copy)]
pub struct Range<'a> {
    /// What it is called.
    pub label: &'a str,
    /// Smallest and largest value, SI.
    pub ends: (f64, f64),
    /// What it measures.
    pub dimension: Dimension,
}

impl Range<'_> {
    /// Value of a typed text, SI.
    ///
    /// # Errors
    /// A sentence with the range in the units shown.
    pub fn value(&self, text: &str, system: UnitSystem) -> Result<f64, String> {
        match typed::parse(text, self.dimension, system) {
            Ok(value) => self.held(value).ok_or_else(|| self.must(system)),
            Err(ParseError::UnknownUnit { unit }) => {
                Err(tr!("{}; “{}” is no unit for it", self.must(system), unit))
            }
            Err(_) => Err(self.must(system)),
        }
    }

    /// A value in the range; an end that is typed as it is shown may miss it by rounding.
    #[must_use]
    pub fn held(&self, value: f64) -> Option<f64> {
        let (least, most) = self.ends;
        let slack = 1e-9 * (most - least);
        (value >= least - slack && value <= most + slack).then(|| value.clamp(least, most))
    }

    /// What is said of a text that is no value in the range: a sentence without its point.
    #[must_use]
    pub fn must(&self, system: UnitSystem) -> String {
        let unit = self.dimension.shown(system);
        let end = |si: f64, most: bool| inward(unit.from_si(si), self.decimals(), most);
        let space = if unit.symbol.is_empty() { "" } else { " " };
        tr!(
            "{} must be between {} and {}{}{}",
            tr(self.label),
            end(self.ends.0, false),
            end(self.ends.1, true),
            space,
            unit.symbol
        )
    }

    /// Decimals of an end where they do not follow from its size.
    fn decimals(&self) -> Option<i32> {
        (self.dimension == Dimension::Temperature).then_some(0)
    }
}

/// An end of a range to four digits, or so many decimals: rounded into the range, so that it may be typed
/// as it stands.
fn inward(end: f64, decimals: Option<i32>, most: bool) -> String {
    if end == 0.0 {
        return "0".to_owned();
    }
    let decimals = decimals.unwrap_or_else(|| 3 - end.abs().log10().floor() as i32);
    let scale = 10_f64.powi(decimals.clamp(0, 12));
    let whole = end * scale;
    // What a conversion of units leaves is none of the end.
    let nearest = whole.round();
    let rounded = if (whole - nearest).abs() < 1e-6 * nearest.abs().max(1.0) {
        nearest
    } else if most {
        whole.floor()
    } else {
        whole.ceil()
    };
    typed::rounded_text(rounded / scale, 15).replace('-', "−")
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::units::si::degf;

    const WARM: Range<'static> = Range {
        label: "Air",
        ends: (230.0, 600.0),
        dimension: Dimension::Temperature,
    };

    #[test]
    fn the_range_is_told_in_the_units_that_are_shown() {
        let said = |system| WARM.must(system);
        assert_eq!(
            said(UnitSystem::Customary),
            "Air must be between −45 and 620 °F"
        );
        assert_eq!(
            said(UnitSystem::Metric),
            "Air must be between −43 and 326 °C"
        );
        let area = Range {
            label: "Exit",
            ends: (0.0254 * 0.0254, 0.645_16),
            dimension: Dimension::Area,
        };
        assert_eq!(
            area.must(UnitSystem::Customary),
            "Exit must be between 1 and 1000 in²"
        );
        assert_eq!(
            area.must(UnitSystem::Metric),
            "Exit must be between 6.452 and 6451 cm²"
        );
    }

    #[test]
    fn an_end_may_be_typed_as_it_is_told() {
        let oil = Range {
            ends: (degf(80.0), degf(800.0)),
            ..WARM
        };
        for range in [WARM, oil] {
            for system in [UnitSystem::Customary, UnitSystem::Metric] {
                let said = range.must(system);
                let ends = said
                    .trim_start_matches("Air must be between ")
                    .trim_end_matches(['°', 'F', 'C', ' ']);
                for end in ends.split(" and ") {
                    assert!(range.value(end, system).is_ok(), "{end}: {said}");
                }
            }
        }
        assert!(oil.value("79.9", UnitSystem::Customary).is_err());
        let told = oil.value("90 kt", UnitSystem::Customary);
        assert_eq!(
            told.err().as_deref(),
            Some("Air must be between 80 and 800 °F; “kt” is no unit for it")
        );
    }
}
