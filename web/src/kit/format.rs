//! Numbers as the page shows them.

use coolpath_core::answer::band::Band;
use coolpath_core::document::limits::LimitKind;
use coolpath_core::language::{self, tr, tr_later};
use coolpath_core::units::feet_inches::{Rounded, sixteenths, whole_millimetres};
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem, rounded_text};

/// What stands where there is no number.
pub const NONE: &str = "–";

/// Step to which temperatures are rounded, shown unit: the model is no finer.
fn temperature_step(system: UnitSystem) -> f64 {
    if system.is_customary(Chosen::Temperature) {
        5.0
    } else {
        2.0
    }
}

fn stepped(value: f64, step: f64) -> f64 {
    // Adding zero turns −0 into 0.
    (value / step).round() * step + 0.0
}

/// A temperature, rounded, with its unit.
#[must_use]
pub fn temperature(kelvin: f64, system: UnitSystem) -> String {
    let unit = Dimension::Temperature.shown(system);
    if !kelvin.is_finite() {
        return NONE.to_owned();
    }
    format!(
        "{:.0} {}",
        stepped(unit.from_si(kelvin), temperature_step(system)),
        unit.symbol
    )
}

/// A temperature difference, rounded, without sign, with its unit.
#[must_use]
pub fn difference(kelvin: f64, system: UnitSystem) -> String {
    let unit = Dimension::TemperatureDifference.shown(system);
    if !kelvin.is_finite() {
        return NONE.to_owned();
    }
    format!(
        "{:.0} {}",
        stepped(unit.from_si(kelvin.abs()), temperature_step(system)),
        unit.symbol
    )
}

/// A margin in words: "20 °F under limit" or "25 °F over personal limit".
#[must_use]
pub fn margin(kelvin: f64, of: LimitKind, system: UnitSystem) -> String {
    let amount = difference(kelvin, system);
    if kelvin >= 0.0 {
        tr!("{} under {}", amount, of.words())
    } else {
        tr!("{} over {}", amount, of.words())
    }
}

/// A number with so many significant digits and a true minus.
#[must_use]
pub fn number(value: f64, digits: i32) -> String {
    language::number(rounded_text(value, digits).replace('-', "−"))
}

/// A quantity with so many digits and its unit.
#[must_use]
pub fn quantity(si: f64, dimension: Dimension, system: UnitSystem, digits: i32) -> String {
    if !si.is_finite() {
        return NONE.to_owned();
    }
    let unit = dimension.shown(system);
    let number = number(unit.from_si(si), digits);
    if unit.symbol.is_empty() {
        number
    } else {
        format!("{number} {}", unit.symbol)
    }
}

/// A length to cut to: sixteenths of an inch, or whole millimetres, with its unit.
#[must_use]
pub fn cut_length(metres: f64, system: UnitSystem, rounded: Rounded) -> String {
    if !metres.is_finite() {
        return NONE.to_owned();
    }
    let unit = Dimension::Length.shown(system);
    let shown = unit.from_si(metres);
    let number = if system.is_customary(Chosen::Length) {
        sixteenths(shown, rounded)
    } else {
        whole_millimetres(shown, rounded)
    };
    format!("{number} {}", unit.symbol)
}

/// A plain ratio.
#[must_use]
pub fn ratio(value: Option<f64>) -> String {
    match value {
        Some(value) if value.is_finite() => language::number(format!("{value:.2}")),
        _ => NONE.to_owned(),
    }
}

/// A band of temperatures, such as "−25 … +35 °F".
#[must_use]
pub fn temperature_band(band: &Band, system: UnitSystem) -> String {
    let unit = Dimension::TemperatureDifference.shown(system);
    let side = |kelvin: f64| {
        let shown = stepped(unit.from_si(kelvin), temperature_step(system));
        format!("{shown:.0}")
    };
    sides(band, side, unit.symbol)
}

/// A band of a quantity, such as "−0.4 … +0.6 inH₂O".
#[must_use]
pub fn quantity_band(band: &Band, dimension: Dimension, system: UnitSystem) -> String {
    let unit = dimension.shown(system);
    sides(band, |si| number(unit.from_si(si), 2), unit.symbol)
}

/// What stands for a side of a band where an end of a range has no answer.
const OPEN: &str = tr_later("open");

fn sides(band: &Band, shown: impl Fn(f64) -> String, unit: &str) -> String {
    let side = |sign: &str, si: f64| {
        if si.is_finite() {
            let text = shown(si);
            let is_none = text.chars().all(|each| matches!(each, '0' | '.' | ','));
            format!("{}{text}", if is_none { "" } else { sign })
        } else {
            tr(OPEN).to_owned()
        }
    };
    format!(
        "{} … {} {unit}",
        side("−", band.below),
        side("+", band.above)
    )
}

/// A temperature to one degree, for what was read and what is computed from a reading.
#[must_use]
pub fn degrees(kelvin: f64, system: UnitSystem) -> String {
    let symbol = Dimension::Temperature.shown(system).symbol;
    format!("{} {symbol}", whole_degrees(kelvin, system))
}

/// The same without its unit.
#[must_use]
pub fn whole_degrees(kelvin: f64, system: UnitSystem) -> String {
    let unit = Dimension::Temperature.shown(system);
    // Adding zero turns −0 into 0.
    format!("{:.0}", unit.from_si(kelvin).round() + 0.0).replace('-', "−")
}

/// A number with its sign and so many decimals; a change that rounds to nothing has no sign.
#[must_use]
pub fn signed(value: f64, decimals: usize) -> String {
    let text = format!("{:.decimals$}", value.abs());
    if text.bytes().all(|byte| matches!(byte, b'0' | b'.')) {
        return language::number(text);
    }
    let sign = if value < 0.0 { "−" } else { "+" };
    format!("{sign}{}", language::number(text))
}

/// A text in which no line ends between the whole inches and their fraction: a lone 8 of 8 5/16 would be
/// cut to.
#[must_use]
pub fn unbroken(text: &str) -> String {
    let is_fraction = |word: &str| {
        word.split_once('/').is_some_and(|(above, below)| {
            above.parse::<u8>().is_ok() && below.parse::<u8>().is_ok()
        })
    };
    let mut joined = String::new();
    for word in text.split(' ') {
        if !joined.is_empty() {
            joined.push(if is_fraction(word) { '\u{a0}' } else { ' ' });
        }
        joined.push_str(word);
    }
    joined
}

/// A text with a capital letter at its beginning.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// A text with a small letter at its beginning, for the middle of a sentence.
#[must_use]
pub fn uncapitalled(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_inches_stay_with_their_fraction() {
        assert_eq!(
            unbroken("to 8 5/16 × 4 5/8 in"),
            "to 8\u{a0}5/16 × 4\u{a0}5/8 in"
        );
        assert_eq!(unbroken("7/16 in and 3 in"), "7/16 in and 3 in");
    }

    #[test]
    fn a_difference_never_gets_the_offset_of_a_temperature() {
        assert_eq!(difference(25.0, UnitSystem::Customary), "45 °F");
        assert_eq!(
            margin(-25.0, LimitKind::Personal, UnitSystem::Customary),
            "45 °F over personal limit"
        );
        assert_eq!(
            margin(0.0, LimitKind::Redline, UnitSystem::Metric),
            "0 °C under limit"
        );
    }

    #[test]
    fn a_side_without_an_answer_is_open() {
        let band = Band {
            below: 10.0,
            above: f64::INFINITY,
        };
        let text = temperature_band(&band, UnitSystem::Metric);
        assert_eq!(text, "−10 … open °C");
        let text = quantity_band(&band, Dimension::Force, UnitSystem::Metric);
        assert_eq!(text, "−10 … open N");
    }

    #[test]
    fn temperatures_are_rounded_and_no_number_is_shown_for_none() {
        assert_eq!(temperature(273.15 + 100.0, UnitSystem::Customary), "210 °F");
        assert_eq!(temperature(f64::NAN, UnitSystem::Customary), NONE);
        assert_eq!(
            quantity(f64::INFINITY, Dimension::Pressure, UnitSystem::Metric, 3),
            NONE
        );
        assert_eq!(ratio(None), NONE);
    }

    #[test]
    fn a_length_to_cut_to_is_one_that_a_rule_shows() {
        let gap = 2.17 * 0.0254;
        let shown = |system, rounded| cut_length(gap, system, rounded);
        assert_eq!(shown(UnitSystem::Customary, Rounded::Up), "2 3/16 in");
        assert_eq!(shown(UnitSystem::Customary, Rounded::Down), "2 1/8 in");
        assert_eq!(shown(UnitSystem::Metric, Rounded::Up), "56 mm");
        assert_eq!(shown(UnitSystem::Metric, Rounded::Nearest), "55 mm");
        assert_eq!(cut_length(f64::NAN, UnitSystem::Metric, Rounded::Up), NONE);
    }

    #[test]
    fn a_change_that_rounds_to_nothing_has_no_sign() {
        assert_eq!(signed(-0.02, 1), "0.0");
        assert_eq!(signed(-0.06, 1), "−0.1");
        assert_eq!(signed(3.0, 0), "+3");
    }
}
