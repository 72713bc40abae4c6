//! All comparisons as one table for other programs: a row for each difference. Pure.

use crate::decide::compare::words::ROWS;
use crate::kit::format;
use crate::kit::table_text::TableText;
use coolpath_core::answer::band::Band;
use coolpath_core::decide::comparison::{Comparison, NotAtEqualHeads, Stand};
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};

/// What a row holds.
const COLUMNS: [&str; 8] = [
    tr_later("Alternative"),
    tr_later("Exit"),
    tr_later("What"),
    tr_later("Unit"),
    tr_later("Difference"),
    tr_later("From"),
    tr_later("To"),
    tr_later("Note"),
];

/// How the exit of an alternative at equal heads is called.
const RESIZED: &str = tr_later("re-sized for equal heads");

/// The table.
#[must_use]
pub fn all(made: &[Comparison], system: UnitSystem) -> TableText {
    let mut rows = Vec::new();
    for one in made {
        rows.extend(stand_rows(&one.name, tr("as it is"), &one.fixed, system));
        match &one.equal {
            Ok(stand) => rows.extend(stand_rows(&one.name, tr(RESIZED), stand, system)),
            Err(why) => rows.push(no_row(&one.name, why)),
        }
    }
    TableText::new(tr("Comparison"), &COLUMNS.map(tr), rows)
}

/// Why an alternative does not stand at equal heads.
fn no_row(name: &str, why: &NotAtEqualHeads) -> Vec<String> {
    let cells = [
        name,
        tr(RESIZED),
        tr("Exit, net"),
        "",
        "",
        "",
        "",
        &why.to_string(),
    ];
    cells.map(str::to_owned).to_vec()
}

fn stand_rows(name: &str, exit: &str, stand: &Stand, system: UnitSystem) -> Vec<Vec<String>> {
    let row = |what: &str, dimension: Dimension, cells: [String; 4]| {
        let unit = dimension.shown(system).symbol.to_owned();
        let begin = vec![name.to_owned(), exit.to_owned(), what.to_owned(), unit];
        [begin, cells.to_vec()].concat()
    };
    let difference = |what: &str, dimension: Dimension, by: f64, band: &Band, within: bool| {
        let number = |si: f64| {
            if si.is_finite() {
                rounded_text(dimension.shown(system).from_si(si), 3)
            } else {
                format::NONE.to_owned()
            }
        };
        let note = if within { tr("too close to call") } else { "" };
        let cells = [
            number(by),
            number(by - band.below),
            number(by + band.above),
            note.to_owned(),
        ];
        row(what, dimension, cells)
    };
    let refused = |what: &str, dimension: Dimension, why: String| {
        let none = String::new;
        row(what, dimension, [none(), none(), none(), why])
    };
    let area = Dimension::Area;
    let net = rounded_text(area.shown(system).from_si(stand.exit_m2), 3);
    let none = String::new;
    let mut rows = vec![row(
        tr("Exit, net"),
        area,
        [net, none(), none(), tr("its area").to_owned()],
    )];
    match &stand.shown {
        Ok(found) => {
            let within = found.within_uncertainty().each();
            let (by, band) = (found.by.each(), found.band.each());
            rows.extend(ROWS.iter().enumerate().map(|(at, (what, dimension))| {
                difference(tr(what), *dimension, by[at], &band[at], within[at])
            }));
        }
        Err(error) => rows.push(refused(tr("Temperatures"), ROWS[0].1, error.to_string())),
    }
    const SPEED: &str = tr_later("Speed in level flight");
    match &stand.level {
        Some(Ok(found)) => rows.push(difference(
            tr(SPEED),
            Dimension::Speed,
            found.by.speed,
            &found.band.speed,
            found.within_uncertainty().speed,
        )),
        Some(Err(error)) => rows.push(refused(tr(SPEED), Dimension::Speed, error.to_string())),
        None => {}
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::table_text::Between;
    use coolpath_core::decide::comparison::{Comparing, standing};
    use coolpath_core::document::example;

    #[test]
    fn every_difference_is_a_number_with_its_band_and_no_name_is_computed() {
        let design = example::design();
        let mut alternative = standing(&design).remove(0);
        alternative.name = "=1+1".to_owned();
        let mut work = Comparing::new(&design, &alternative, 1);
        let made = loop {
            if let Some(made) = work.advance() {
                break made;
            }
        };
        let sheet = all(std::slice::from_ref(&made), UnitSystem::Customary);
        assert!(sheet.rows.iter().all(|row| row.len() == COLUMNS.len()));
        let heads = sheet
            .rows
            .iter()
            .find(|row| row[2] == "Hottest head")
            .expect("a row");
        let number = |at: usize| heads[at].parse::<f64>().expect("a number");
        assert!(
            number(5) <= number(4) && number(4) <= number(6),
            "{heads:?}"
        );
        let by = made.fixed.shown.as_ref().expect("an answer").by.head;
        assert!(
            (number(4) - 1.8 * by).abs() <= 0.006 * (1.8 * by).abs(),
            "{heads:?}"
        );
        let text = sheet.text(Between::Comma, false, None);
        assert!(text.contains("\r\n'=1+1,as it is,"), "{text}");
    }
}
