//! Tables of the report: rows of text from a design and its answers. Pure.

use crate::kit::format;
use crate::state::choices;
use coolpath_core::document::design::Design;
use coolpath_core::document::origin::Origin;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::Reading;
use coolpath_core::document::table::Input;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{UnitSystem, rounded_text, text};

/// Rows of a table.
pub type Rows = Vec<Vec<String>>;

/// Name of the entry that an input of a list belongs to.
fn entry_name(design: &Design, input: &Input, place: usize) -> String {
    let named = |name: Option<&String>| name.map_or_else(String::new, |name| format!("{name}: "));
    let installation = &design.installation;
    match input.id.split('.').next() {
        Some("inlet") => named(installation.inlets.get(place).map(|entry| &entry.name)),
        Some("exit") => named(installation.exits.get(place).map(|entry| &entry.name)),
        Some("condition") => named(design.conditions.get(place).map(|entry| &entry.name)),
        _ => String::new(),
    }
}

/// Every number that plays a part: what, value, where it comes from, likely range, source.
#[must_use]
pub fn inputs(design: &Design, system: UnitSystem) -> Rows {
    design
        .places()
        .filter(|(input, place)| input.used(design, *place))
        .filter_map(|(input, place)| {
            let value = input.value(design, place)?;
            let unit = input.dimension.shown(system);
            let shown = |si: f64| rounded_text(unit.from_si(si), 4);
            let whose = Origin::of(design, input, place).words();
            let range = design
                .likely(input, place)
                .map_or_else(String::new, |(low, high)| {
                    tr!("{} to {}", shown(low), shown(high))
                });
            Some(vec![
                format!("{}{}", entry_name(design, input, place), input.label),
                format!("{} {}", text(value, input.dimension, system), unit.symbol),
                whose.to_owned(),
                range,
                input.source.to_owned(),
            ])
        })
        .collect()
}

/// Every choice that was made: what, and the phrase that was taken.
#[must_use]
pub fn choices(design: &Design) -> Rows {
    let mut rows = Rows::new();
    for choice in choices::all() {
        for place in 0.. {
            let Some(taken) = (choice.get)(design, place) else {
                break;
            };
            if !(choice.used)(design, place) {
                continue;
            }
            let phrase = choice
                .options
                .iter()
                .find(|option| option.value == taken)
                .map_or(taken.as_str(), |option| option.phrase());
            rows.push(vec![
                format!("{} ({})", choice.label(), place + 1),
                phrase.to_owned(),
            ]);
        }
    }
    rows
}

/// Every reading's quantities: reading, quantity, as the instrument showed it, corrected.
#[must_use]
pub fn readings(design: &Design, system: UnitSystem) -> Rows {
    design
        .readings
        .iter()
        .flat_map(|reading| reading_rows(design, reading, system))
        .collect()
}

fn reading_rows(design: &Design, reading: &Reading, system: UnitSystem) -> Rows {
    let corrected = reading.corrected(&design.instruments);
    let ends = |list: &[coolpath_core::document::reading::Moment], quantity: Quantity| {
        let unit = quantity.dimension().shown(system);
        let values: Vec<String> = [list.first(), list.last()]
            .into_iter()
            .flatten()
            .filter_map(|moment| moment.get(quantity))
            .map(|si| rounded_text(unit.from_si(si), 4))
            .collect();
        match values.as_slice() {
            [] => None,
            [one] => Some(format!("{one} {}", unit.symbol)),
            [first, last, ..] if reading.is_steady() || first == last => {
                Some(format!("{first} {}", unit.symbol))
            }
            [first, last, ..] => Some(format!("{first} → {last} {}", unit.symbol)),
        }
    };
    let name = if reading.set.is_empty() {
        reading.name.clone()
    } else {
        format!("{} ({})", reading.name, reading.set)
    };
    Quantity::ALL
        .iter()
        .filter_map(|quantity| {
            Some(vec![
                name.clone(),
                quantity.label().to_owned(),
                ends(&reading.moments, *quantity)?,
                ends(&corrected, *quantity)?,
            ])
        })
        .collect()
}

/// Instrument corrections.
#[must_use]
pub fn instruments(design: &Design, system: UnitSystem) -> Rows {
    design
        .instruments
        .iter()
        .map(|(quantity, si)| {
            let dimension = quantity.correction_dimension();
            vec![
                quantity.label().to_owned(),
                format!(
                    "{} {}",
                    text(*si, dimension, system),
                    dimension.shown(system).symbol
                ),
            ]
        })
        .collect()
}

/// Every alternative in every condition: its hottest head, oil and Δp, without bands.
#[must_use]
pub fn alternatives(design: &Design, system: UnitSystem) -> Rows {
    let mut rows = Rows::new();
    for alternative in &design.alternatives {
        let other = Design {
            installation: alternative.installation.clone(),
            alternatives: Vec::new(),
            ..design.clone()
        };
        for (condition, answer) in design
            .conditions
            .iter()
            .zip(coolpath_core::answer::evaluate::evaluate_all(&other))
        {
            let mut row = vec![alternative.name.clone(), condition.name.clone()];
            match answer {
                Ok(answer) => row.extend([
                    format::temperature(answer.head_hottest.value, system),
                    format::temperature(answer.oil.value, system),
                    format::quantity(
                        answer.baffle_drop.value,
                        coolpath_core::units::typed::Dimension::Pressure,
                        system,
                        3,
                    ),
                ]),
                Err(error) => row.extend([error.to_string(), String::new(), String::new()]),
            }
            rows.push(row);
        }
    }
    rows
}

/// A short number that changes with any byte of the design (FNV-1a, 64 bits): it tells two designs
/// apart, and is no seal against forgery. A design that cannot be written has none, and the text says so.
#[must_use]
pub fn fingerprint(design: &Design) -> String {
    number_of(crate::state::document::file_text(design))
}

fn number_of<E: std::fmt::Display>(written: Result<String, E>) -> String {
    let text = match written {
        Ok(text) => text,
        Err(error) => return tr!("without a number, since it cannot be written ({})", error),
    };
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    for byte in text.bytes() {
        hash = (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
    }
    format!("{hash:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;
    use coolpath_core::document::reading::Values;

    #[test]
    fn every_input_in_use_is_in_the_report_with_its_origin_in_plain_words() {
        let mut design = example::design();
        design.measured.push("exit.discharge".to_owned());
        let rows = inputs(&design, UnitSystem::Customary);
        let used = design
            .places()
            .filter(|(input, place)| input.used(&design, *place))
            .count();
        assert_eq!(rows.len(), used);
        assert!(
            rows.iter()
                .all(|row| !row[2].is_empty() && !row[4].is_empty())
        );
        let find = |label: &str| {
            rows.iter()
                .find(|row| row[0].ends_with(label))
                .expect(label)
        };
        assert_eq!(find("Exit discharge coefficient")[2], "measured by you");
        assert!(choices(&design).len() > 15);
    }

    #[test]
    fn readings_stand_there_raw_and_corrected_and_the_fingerprint_follows_any_change() {
        let mut design = example::design();
        let before = fingerprint(&design);
        let values: Values = [(Quantity::Oil, 366.483_333_333_333_3)]
            .into_iter()
            .collect();
        design.readings = vec![Reading::steady("one", values)];
        design.instruments.insert(Quantity::Oil, -5.0);
        let rows = readings(&design, UnitSystem::Customary);
        assert_eq!(rows[0], ["one", "Oil", "200 °F", "191 °F"]);
        assert_eq!(
            instruments(&design, UnitSystem::Customary)[0],
            ["Oil", "-9 °F"]
        );
        assert_ne!(fingerprint(&design), before);
        assert_eq!(fingerprint(&design), fingerprint(&design.clone()));
        let said = number_of(Err("no room"));
        assert!(said.starts_with("without a number") && said.contains("no room"));
    }
}
