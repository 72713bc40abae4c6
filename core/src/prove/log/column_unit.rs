//! In which unit a column stands: by its name, or by the size of its numbers.

use crate::document::quantity::{ColumnUnit, Quantity};
use crate::math::order;
use crate::prove::log::table::LogColumn;
use crate::units::typed::Dimension;

/// Spellings of units in logs beside those that may be typed.
const SPELLINGS: [(&str, &str); 12] = [
    ("gal hr", "gal/h"),
    ("gal hour", "gal/h"),
    ("gallons hour", "gal/h"),
    ("l hr", "L/h"),
    ("l hour", "L/h"),
    ("liters hour", "L/h"),
    ("km hr", "km/h"),
    ("km h", "km/h"),
    ("inch hg", "inHg"),
    ("in hg", "inHg"),
    ("gal h", "gal/h"),
    ("l h", "L/h"),
];

/// The unit that a column's name gives, or the one in which its numbers would be usual.
pub(super) fn unit_of(quantity: Quantity, column: &LogColumn, words: &[String]) -> ColumnUnit {
    let by_size = || {
        let unit = quantity
            .dimension()
            .unit_named(unit_by_size(quantity, column))?;
        Some(ColumnUnit::Plain(unit))
    };
    named_unit(quantity, column, words)
        .or_else(by_size)
        .unwrap_or(quantity.column_units()[0])
}

/// The unit that a column's name gives.
pub(super) fn named_unit(
    quantity: Quantity,
    column: &LogColumn,
    words: &[String],
) -> Option<ColumnUnit> {
    let units = quantity.column_units();
    let named = |text: &str| {
        let found = quantity.dimension().unit_named(text)?;
        units
            .iter()
            .copied()
            .find(|unit| *unit == ColumnUnit::Plain(found))
    };
    // From the end, where units stand: in brackets, then as words.
    for part in column
        .name
        .split(['(', '['])
        .skip(1)
        .collect::<Vec<_>>()
        .into_iter()
        .rev()
    {
        let inside = part.split([')', ']']).next().unwrap_or_default().trim();
        if let Some(unit) = named(inside) {
            return Some(unit);
        }
    }
    let joined = words.join(" ");
    for (spelling, symbol) in SPELLINGS {
        if (joined.ends_with(spelling) || joined.contains(&format!("{spelling} ")))
            && let Some(unit) = named(symbol)
        {
            return Some(unit);
        }
    }
    for pair in words.windows(2).rev() {
        if let Some(unit) = named(&pair.join(" ")).or_else(|| named(&pair.concat())) {
            return Some(unit);
        }
    }
    // A lone letter at the end: "OAT C". A word before it names the quantity.
    if words.len() > 1 {
        return words.last().and_then(|word| named(word));
    }
    None
}

/// Symbol of the unit in which the numbers would be usual.
fn unit_by_size(quantity: Quantity, column: &LogColumn) -> &'static str {
    let mut values: Vec<f64> = column
        .values
        .iter()
        .filter(|value| value.is_finite() && *value != 0.0)
        .collect();
    order::ascending(&mut values);
    let at = |share: f64| {
        values
            .get((share * (values.len().max(1) - 1) as f64) as usize)
            .copied()
            .unwrap_or(0.0)
    };
    match quantity {
        // A head at 260 °C would be past any limit; one that never passes 230 °F was not flown.
        head if head.is_head() => {
            if at(0.95) > 245.0 {
                "°F"
            } else {
                "°C"
            }
        }
        // Exhaust of 1000 °C would be past any engine's, and below 1000 °F none flies.
        egt if egt.is_egt() => {
            if at(0.95) > 1000.0 {
                "°F"
            } else {
                "°C"
            }
        }
        Quantity::Oil => {
            if at(0.95) > 130.0 {
                "°F"
            } else {
                "°C"
            }
        }
        Quantity::Oat => {
            if at(0.5) > 45.0 {
                "°F"
            } else {
                "°C"
            }
        }
        Quantity::Manifold => {
            if at(0.9) > 60.0 {
                "hPa"
            } else {
                "inHg"
            }
        }
        Quantity::FuelFlow => {
            if at(0.9) > 40.0 {
                "L/h"
            } else {
                "gal/h"
            }
        }
        Quantity::BaffleDrop => {
            if at(0.9) > 40.0 {
                "Pa"
            } else {
                "inH₂O"
            }
        }
        other => match other.dimension() {
            Dimension::Altitude => "ft",
            Dimension::Speed => "kt",
            _ => "",
        },
    }
}
