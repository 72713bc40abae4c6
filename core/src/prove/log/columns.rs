//! Which column holds which quantity: a guess from its name and its numbers.

use crate::document::quantity::{ColumnUnit, Quantity};
use crate::prove::log::column_unit::unit_of;
use crate::prove::log::table::{LogColumn, LogTable};

/// What a column is used for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ColumnUse {
    /// Nothing.
    Nothing,
    /// The clock.
    Clock,
    /// A quantity, in a unit.
    Quantity(Quantity, ColumnUnit),
}

/// Guesses the use of every column; each quantity and the clock are given away once.
#[must_use]
pub fn guess(table: &LogTable) -> Vec<ColumnUse> {
    let words: Vec<Vec<String>> = table
        .columns
        .iter()
        .map(|column| words(&column.name))
        .collect();
    let mut uses = vec![ColumnUse::Nothing; table.columns.len()];
    let best = |score: &dyn Fn(usize) -> u32, taken: &[ColumnUse]| {
        (0..table.columns.len())
            .filter(|at| taken[*at] == ColumnUse::Nothing)
            .map(|at| (score(at), at))
            .filter(|(score, _)| *score > 0)
            // Of equals the first.
            .max_by_key(|(score, at)| (*score, core::cmp::Reverse(*at)))
            .map(|(_, at)| at)
    };
    let clock = best(&|at| clock_score(&table.columns[at], &words[at]), &uses);
    if let Some(at) = clock {
        uses[at] = ColumnUse::Clock;
    }
    for &quantity in Quantity::ALL {
        let score = |at: usize| {
            let column = &table.columns[at];
            // A column that is mostly blank is the second choice.
            let filled = 2 * column.numbers >= table.rows.max(1);
            let named = name_score(quantity, &words[at]);
            match (named, column.numbers) {
                (0, _) | (_, 0) => 0,
                (named, _) => 2 * named + u32::from(filled) * 5,
            }
        };
        if let Some(at) = best(&score, &uses) {
            let unit = unit_of(quantity, &table.columns[at], &words[at]);
            uses[at] = ColumnUse::Quantity(quantity, unit);
        }
    }
    uses
}

/// Words of a column's name, lower case, letters and digits apart.
pub(super) fn words(name: &str) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    let mut last = ' ';
    for c in name.chars() {
        let kind = |c: char| {
            if c.is_ascii_digit() {
                1
            } else if c.is_alphabetic() || matches!(c, '%' | '°' | 'Δ') {
                2
            } else {
                0
            }
        };
        // A capital within a word begins another one: "OilT".
        let hump = last.is_lowercase() && c.is_uppercase();
        if kind(c) != 0 {
            if kind(c) != kind(last) || hump {
                list.push(String::new());
            }
            if let Some(word) = list.last_mut() {
                word.extend(c.to_lowercase());
            }
        }
        last = c;
    }
    list
}

pub(super) fn has(words: &[String], any: &[&str]) -> bool {
    words.iter().any(|word| any.contains(&word.as_str()))
}

/// A column of numbers that falls more often than once in so many rows is no clock: clocks fall
/// where a session begins or where they are set (from memory).
const ROWS_PER_FALL: usize = 20;

/// How often a number is below the one before it.
fn falls(column: &LogColumn) -> usize {
    let numbers = || column.values.iter().filter(|value| value.is_finite());
    numbers()
        .zip(numbers().skip(1))
        .filter(|(a, b)| b < a)
        .count()
}

fn clock_score(column: &LogColumn, words: &[String]) -> u32 {
    let named = has(
        words,
        &["time", "zeit", "clock", "date", "datum", "seconds", "sec"],
    );
    let local = has(words, &["session", "lcl", "local", "elapsed", "system"]);
    let other = has(words, &["utc", "offset", "week", "gps", "date"]);
    let rising = falls(column) * ROWS_PER_FALL <= column.numbers;
    let filled = column.clocks + column.numbers > column.values.len() / 2;
    if !named || !filled {
        return 0;
    }
    let clocks = column.clocks > column.numbers;
    if !clocks && !rising && !has(words, &["session", "elapsed"]) {
        return 0;
    }
    4 + 2 * u32::from(clocks) + 3 * u32::from(local) - 2 * u32::from(other)
}

/// Whether the first number behind one of the words is that of a quantity's cylinder; a number
/// before it is the engine's.
fn number_follows(words: &[String], after: &[&str], quantity: Quantity) -> bool {
    let label = quantity.label();
    let number = label.rsplit(' ').next().unwrap_or(label);
    words
        .iter()
        .position(|word| after.contains(&word.as_str()))
        .and_then(|at| {
            words[at..]
                .iter()
                .find(|word| word.bytes().all(|b| b.is_ascii_digit()))
        })
        .is_some_and(|word| word == number)
}

/// How well a name fits a quantity; 0 if it does not.
fn name_score(quantity: Quantity, words: &[String]) -> u32 {
    let any = |list: &[&str]| has(words, list);
    // Numbers that a pilot sets are no readings.
    if any(&[
        "selected", "sel", "target", "bug", "command", "limit", "cmd", "flag",
    ]) {
        return 0;
    }
    match quantity {
        head if head.is_head() => {
            let named = any(&["cht", "cht's"])
                || (any(&["head"]) && any(&["temp", "temperature", "cyl", "cylinder"]));
            let after = ["cht", "head", "cyl", "cylinder"];
            let fits = named && !any(&["egt"]) && number_follows(words, &after, head);
            6 * u32::from(fits)
        }
        egt if egt.is_egt() => {
            let named = any(&["egt", "egt's"])
                || (any(&["exhaust"]) && any(&["temp", "temperature", "gas", "cyl", "cylinder"]));
            let after = ["egt", "exhaust", "cyl", "cylinder"];
            let fits = named && !any(&["cht"]) && number_follows(words, &after, egt);
            6 * u32::from(fits)
        }
        Quantity::Oil => {
            let pressure = any(&[
                "press", "pressure", "p", "psi", "bar", "qty", "quantity", "level",
            ]);
            if any(&["oil", "öl", "oel", "huile", "aceite"]) && !pressure {
                4 + 2 * u32::from(any(&["t", "temp", "temperature"]))
            } else {
                0
            }
        }
        Quantity::Oat => {
            if any(&["oat"]) {
                6
            } else if any(&["outside", "ambient", "außenluft", "außen"])
                && any(&["temp", "temperature", "air"])
            {
                5
            } else {
                0
            }
        }
        Quantity::Airspeed => {
            if any(&["ias", "kias"]) {
                6
            } else if any(&["airspeed", "cas"]) && !any(&["true", "ground"]) {
                4 + 2 * u32::from(any(&["indicated", "ind"]))
            } else {
                0
            }
        }
        Quantity::Altitude => {
            if any(&["density", "gps", "vnav", "agl", "ground", "ap", "fd"]) {
                0
            } else if any(&["alt", "altitude", "höhe", "hoehe", "altp", "palt"]) {
                4 + 2 * u32::from(any(&["pressure", "altp", "palt", "p"]))
            } else {
                0
            }
        }
        Quantity::Rpm => 5 * u32::from(any(&["rpm", "drehzahl"])),
        Quantity::Manifold => 5 * u32::from(any(&["map", "manifold", "ladedruck", "mp"])),
        Quantity::FuelFlow => {
            let flow = any(&["ff", "fflow"]) || (any(&["fuel"]) && any(&["flow"]));
            5 * u32::from(flow && !any(&["press", "pressure"]))
        }
        Quantity::PowerShare => {
            let share = any(&["%", "percent", "pct", "%pwr", "%power"]);
            let power = any(&["power", "pwr", "pow", "%pwr", "%power", "leistung"]);
            if power && share {
                6
            } else {
                3 * u32::from(any(&["%pwr", "pwr"]))
            }
        }
        Quantity::BaffleDrop => {
            let named = any(&["baffle", "baffles", "δp", "dp", "plenum"])
                || (any(&["delta", "diff"]) && any(&["p", "press", "pressure"]));
            5 * u32::from(named && !any(&["fuel", "oil", "upper", "lower"]))
        }
        Quantity::UpperDeck => {
            5 * u32::from(any(&["upper"]) && any(&["deck", "plenum", "p", "press", "pressure"]))
        }
        Quantity::LowerDeck => {
            5 * u32::from(any(&["lower"]) && any(&["deck", "cowl", "p", "press", "pressure"]))
        }
        Quantity::Flap => 5 * u32::from(any(&["cowl"]) && any(&["flap", "flaps"])),
        Quantity::Shutter => 5 * u32::from(any(&["shutter", "butterfly"])),
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(columns: &[(&str, f64)]) -> LogTable {
        LogTable {
            columns: columns
                .iter()
                .map(|(name, value)| LogColumn {
                    name: (*name).to_owned(),
                    values: [*value; 4].into_iter().collect(),
                    numbers: 4,
                    ..LogColumn::default()
                })
                .collect(),
            rows: 4,
            ..LogTable::default()
        }
    }

    fn shown(columns: &[(&str, f64)]) -> Vec<String> {
        guess(&table(columns))
            .into_iter()
            .map(|found| match found {
                ColumnUse::Nothing => "-".to_owned(),
                ColumnUse::Clock => "clock".to_owned(),
                ColumnUse::Quantity(quantity, unit) => {
                    format!("{} {}", quantity.key(), unit.symbol())
                }
            })
            .collect()
    }

    #[test]
    fn names_with_units_are_understood_each_column_by_itself() {
        let found = shown(&[
            ("Session Time", 1.0),
            ("Indicated Airspeed (knots)", 100.0),
            ("Pressure Altitude (ft)", 3500.0),
            ("OAT (deg C)", 15.0),
            ("Oil Temp (deg F)", 190.0),
            ("CHT 4 (deg C)", 190.0),
            ("EGT 4 (deg C)", 720.0),
            ("Fuel Flow 1 (gal/hr)", 9.0),
            ("Manifold Pressure (inHg)", 24.0),
            ("Oil Press (PSI)", 75.0),
            ("Percent Power", 65.0),
        ]);
        assert_eq!(
            found,
            [
                "clock",
                "airspeed_m_s kt",
                "altitude_m ft",
                "oat_k °C",
                "oil_k °F",
                "head_4_k °C",
                "egt_4_k °C",
                "fuel_flow_m3_s gal/h",
                "manifold_pa inHg",
                "-",
                "power_share %",
            ]
        );
    }

    #[test]
    fn short_names_take_their_unit_from_the_size_of_the_numbers() {
        let found = shown(&[
            ("CHT1", 171.0),
            ("CHT2", 380.0),
            ("OIL_T", 85.0),
            ("OIL_P", 60.0),
            ("OAT", 12.0),
            ("FF", 95.0),
            ("MAP", 24.0),
        ]);
        assert_eq!(
            found,
            [
                "head_1_k °C",
                "head_2_k °F",
                "oil_k °C",
                "-",
                "oat_k °C",
                "fuel_flow_m3_s L/h",
                "manifold_pa inHg",
            ]
        );
    }

    #[test]
    fn exhaust_is_told_from_heads_and_its_unit_from_its_size() {
        let found = shown(&[
            ("E1 EGT2", 1380.0),
            ("E1 CHT2", 350.0),
            ("EGT 3", 760.0),
            ("Exhaust Gas Temp Cyl 5 (deg F)", 1390.0),
            ("EGT", 1400.0),
            ("egt6_F", 273.0),
        ]);
        assert_eq!(
            found,
            [
                "egt_2_k °F",
                "head_2_k °F",
                "egt_3_k °C",
                "egt_5_k °F",
                "-",
                "egt_6_k °F",
            ]
        );
    }

    #[test]
    fn plain_seconds_that_begin_again_are_a_clock_and_what_goes_up_and_down_is_none() {
        let of = |value: fn(usize) -> f64| {
            let column = LogColumn {
                name: "Time".to_owned(),
                values: (0..200).map(value).collect(),
                numbers: 200,
                ..LogColumn::default()
            };
            let table = LogTable {
                columns: vec![column],
                rows: 200,
                ..LogTable::default()
            };
            guess(&table)[0]
        };
        assert_eq!(of(|row| (row % 100) as f64), ColumnUse::Clock);
        assert_eq!(of(|row| (row % 7) as f64), ColumnUse::Nothing);
    }

    #[test]
    fn what_a_pilot_sets_is_no_reading_and_doubles_are_given_away_once() {
        let found = shown(&[
            ("Selected Airspeed (kt)", 100.0),
            ("Airspeed (kt)", 101.0),
            ("IAS (kt)", 102.0),
            ("RPM L", 2400.0),
            ("RPM R", 2400.0),
            ("Density Altitude (ft)", 2400.0),
        ]);
        assert_eq!(found, ["-", "-", "airspeed_m_s kt", "rpm rpm", "-", "-"]);
    }
}
