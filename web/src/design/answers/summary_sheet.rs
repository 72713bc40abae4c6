//! The answers of all conditions as a table that leaves the page: every number a column of its own.
//! Pure.

use crate::design::answers::summary::{held_words, shutter_words};
use crate::kit::format;
use crate::kit::page::{BandSet, Outcome, known_bands};
use crate::kit::table_text::TableText;
use coolpath_core::answer::band::{Band, Bands};
use coolpath_core::answer::evaluate::{Answer, Limit};
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// Heads of the columns. The likely range is nine cases in ten.
const COLUMNS: [&str; 18] = [
    tr_later("Condition"),
    tr_later("Hottest CHT"),
    tr_later("CHT, likely from"),
    tr_later("CHT, likely to"),
    tr_later("Oil temperature"),
    tr_later("Oil, likely from"),
    tr_later("Oil, likely to"),
    tr_later("Oil held"),
    tr_later("Closest limit"),
    tr_later("Margin"),
    "Δp",
    tr_later("Δp, likely from"),
    tr_later("Δp, likely to"),
    tr_later("Air"),
    tr_later("Shutter"),
    tr_later("Cooling drag"),
    tr_later("Speed cost"),
    tr_later("No answer because"),
];

/// The table.
#[must_use]
pub fn sheet(
    design: &Design,
    answers: &[Outcome],
    bands: &BandSet,
    system: UnitSystem,
) -> TableText {
    let rows = design.conditions.iter().zip(answers).enumerate();
    let rows = rows.map(|(place, (condition, outcome))| {
        let mut row = vec![condition.name.clone()];
        match outcome {
            Ok(answer) => {
                row.extend(cells(answer, known_bands(bands, place), system));
            }
            Err(error) => {
                row.resize(COLUMNS.len() - 1, String::new());
                row.push(error.to_string());
            }
        }
        row
    });
    TableText::new(tr("Answers"), &COLUMNS.map(tr), rows.collect())
}

/// A number with the ends of its likely range.
fn with_ends(si: f64, band: Option<Band>, shown: &dyn Fn(f64) -> String) -> [String; 3] {
    let ends = band.map(|band| [si - band.below, si + band.above]);
    let [low, high] = ends.map_or_else(Default::default, |ends| ends.map(shown));
    [shown(si), low, high]
}

fn cells(answer: &Answer, bands: Option<&Bands>, system: UnitSystem) -> Vec<String> {
    let figures = bands.map(|bands| &bands.figures);
    let temperature = |kelvin: f64| format::temperature(kelvin, system);
    let of = |si: f64, dimension: Dimension| format::quantity(si, dimension, system, 3);
    let pressure = |si: f64| of(si, Dimension::Pressure);
    let (what, margin) = match answer.binding {
        Limit::Head => (tr("CHT"), answer.head_margin.value),
        Limit::Oil => (tr("oil"), answer.oil_margin.value),
    };
    let head = figures.map(|figures| figures.head_hottest);
    let oil = figures.map(|figures| figures.oil);
    let drop = figures.map(|figures| figures.baffle_drop);
    let sign = if margin < 0.0 { "−" } else { "" };
    [
        with_ends(answer.head_hottest.value, head, &temperature).to_vec(),
        with_ends(answer.oil.value, oil, &temperature).to_vec(),
        vec![
            held_words(answer).trim_start_matches(", ").to_owned(),
            what.to_owned(),
            format!("{sign}{}", format::difference(margin, system)),
        ],
        with_ends(answer.baffle_drop.value, drop, &pressure).to_vec(),
        vec![
            of(answer.inlet_flow.value, Dimension::MassFlow),
            shutter_words(answer, system),
            of(answer.drag.value, Dimension::Force),
            answer
                .speed_cost
                .map_or_else(String::new, |cost| of(cost.value, Dimension::Speed)),
            String::new(),
        ],
    ]
    .concat()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::table_text::Between;
    use coolpath_core::answer::band::bands;
    use coolpath_core::answer::evaluate::evaluate;
    use coolpath_core::document::example;
    use std::rc::Rc;

    #[test]
    fn every_condition_is_a_row_of_numbers_with_units_in_the_head() {
        let mut design = example::design();
        design.conditions.truncate(2);
        design.conditions[0].name = "@hot; \"day\"".to_owned();
        let answers: Vec<Outcome> = (0..2)
            .map(|place| evaluate(&design, place).map(Rc::new))
            .collect();
        let bands: BandSet = (0..2)
            .map(|place| bands(&design, place).map(Rc::new))
            .collect();
        let sheet = sheet(&design, &answers, &bands, UnitSystem::Customary);
        assert!(sheet.rows.iter().all(|row| row.len() == COLUMNS.len()));
        let text = sheet.text(Between::Comma, true, None);
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines.len(), 3);
        assert!(lines[0].contains("Hottest CHT, °F"), "{}", lines[0]);
        assert!(lines[0].contains("Cooling drag, lbf"), "{}", lines[0]);
        assert!(
            lines[1].starts_with("\"'@hot; \"\"day\"\"\";"),
            "{}",
            lines[1]
        );
        let cells: Vec<&str> = lines[2].split(';').collect();
        let number = |at: usize| cells[at].replace(',', ".").parse::<f64>().expect(cells[at]);
        assert!(
            number(2) <= number(1) && number(1) <= number(3),
            "{cells:?}"
        );
        assert!(
            number(11) <= number(10) && number(10) <= number(12),
            "{cells:?}"
        );
    }

    #[test]
    fn a_condition_without_an_answer_says_why() {
        let mut design = example::design();
        design.installation.exits.clear();
        let answers: Vec<Outcome> = vec![evaluate(&design, 0).map(Rc::new)];
        let sheet = sheet(&design, &answers, &Vec::new(), UnitSystem::Metric);
        assert_eq!(sheet.rows.len(), 1);
        let why = sheet.rows[0].last().expect("a cell");
        assert!(!why.is_empty() && sheet.rows[0].len() == COLUMNS.len());
    }
}
