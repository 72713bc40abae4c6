//! One thing that the program says of the worked example, and the text that stands for it.

use coolpath_core::units::typed::{Dimension, UnitSystem};

/// A number or words.
#[derive(Debug, Clone, PartialEq)]
pub enum Figure {
    /// A number in a unit of the reader's.
    Number {
        /// The number.
        value: f64,
        /// Its unit, which stands behind it; empty where there is none.
        unit: &'static str,
        /// Step to which it is rounded; 0 for as many decimals as the text has.
        step: f64,
    },
    /// Words, which stand as they are.
    Words(String),
}

impl Figure {
    /// A quantity in the unit that the page shows.
    #[must_use]
    pub fn of(si: f64, dimension: Dimension) -> Self {
        let unit = dimension.shown(UnitSystem::Customary);
        Self::Number {
            value: unit.from_si(si),
            unit: unit.symbol,
            step: 0.0,
        }
    }

    /// A temperature, K, or a difference of temperatures, in steps of 5 °F as on the page.
    #[must_use]
    pub fn rounded(kelvin: f64, dimension: Dimension) -> Self {
        let unit = dimension.shown(UnitSystem::Customary);
        Self::Number {
            value: unit.from_si(kelvin),
            unit: unit.symbol,
            step: 5.0,
        }
    }

    /// A number without a unit.
    #[must_use]
    pub fn plain(value: f64) -> Self {
        Self::Number {
            value,
            unit: "",
            step: 0.0,
        }
    }

    /// A chance in steps of five per cent, its ends open.
    #[must_use]
    pub fn odds(share: f64) -> Self {
        Self::Words(match share {
            share if share > 0.95 => "over 95 %".to_owned(),
            share if share < 0.05 => "under 5 %".to_owned(),
            share => format!("{:.0} %", 5.0 * (20.0 * share).round()),
        })
    }

    /// The text that stands for it, with as many decimals as another text of it has.
    #[must_use]
    pub fn text(&self, like: &str) -> String {
        let Self::Number { value, step, .. } = self else {
            let Self::Words(words) = self else {
                return String::new();
            };
            return words.clone();
        };
        let decimals = like
            .split_once('.')
            .map_or(0, |(_, behind)| behind.chars().count());
        let rounded = if *step > 0.0 {
            (value / step).round() * step
        } else {
            *value
        };
        let digits = format!("{:.decimals$}", rounded.abs());
        let (whole, behind) = digits
            .split_once('.')
            .map_or((digits.as_str(), String::new()), |(whole, behind)| {
                (whole, format!(".{behind}"))
            });
        let grouped = if whole.len() > 3 {
            let (thousands, rest) = whole.split_at(whole.len() - 3);
            format!("{thousands},{rest}")
        } else {
            whole.to_owned()
        };
        let is_zero = digits.chars().all(|c| matches!(c, '0' | '.'));
        let sign = match (rounded < 0.0 && !is_zero, like.starts_with('+')) {
            (true, _) => "−",
            (false, true) => "+",
            _ => "",
        };
        format!("{sign}{grouped}{behind}")
    }

    /// The unit behind it.
    #[must_use]
    pub fn unit(&self) -> &'static str {
        match self {
            Self::Number { unit, .. } => unit,
            Self::Words(_) => "",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_has_the_decimals_and_the_sign_of_what_it_is_compared_with() {
        let number = Figure::plain(-1234.56);
        assert_eq!(number.text("1"), "−1,235");
        assert_eq!(number.text("1.2"), "−1,234.6");
        assert_eq!(Figure::plain(0.04).text("+1.2"), "+0.0");
        assert_eq!(Figure::plain(-0.04).text("1.2"), "0.0");
        assert_eq!(Figure::odds(0.163), Figure::Words("15 %".to_owned()));
        let head = Figure::rounded(476.24, Dimension::Temperature);
        assert_eq!((head.text("1").as_str(), head.unit()), ("400", "°F"));
    }
}
