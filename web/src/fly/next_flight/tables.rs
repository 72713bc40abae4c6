//! Tables of a check: how far each figure is off, and window by window.

use crate::charts::table::TableView;
use crate::fly::next_flight::words::{difference_of, name};
use crate::kit::format;
use crate::kit::table_text::TableText;
use crate::part;
use coolpath_core::language::tr;
use coolpath_core::prove::flights::{Checked, Figure, Judged, ReadAndPredicted, summary};
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use yew::prelude::*;

/// Figures that were read in any window.
fn read(checked: &Checked) -> Vec<Figure> {
    let any = |figure: &Figure| checked.judged.iter().any(|one| one.get(*figure).is_some());
    Figure::all().filter(any).collect()
}

/// A difference with its sign and its unit, in whole degrees or two digits of pressure.
fn signed(figure: Figure, si: f64, system: UnitSystem) -> String {
    let apart = apart(figure, si.abs(), system);
    let is_nothing = apart.starts_with("0 ");
    match si {
        _ if is_nothing => apart,
        si if si < 0.0 => format!("−{apart}"),
        _ => format!("+{apart}"),
    }
}

fn apart(figure: Figure, si: f64, system: UnitSystem) -> String {
    let unit = difference_of(figure).shown(system);
    let shown = unit.from_si(si);
    if figure.is_pressure() {
        format!("{} {}", rounded_text(shown, 2), unit.symbol)
    } else {
        format!("{shown:.0} {}", unit.symbol)
    }
}

/// Signed error, root mean square now and before this fit, and how many bands held.
pub fn summaries(checked: &Checked, system: UnitSystem) -> Html {
    let row = |figure: Figure| {
        let found = summary(&checked.judged, figure)?;
        let before = found.rms_before.map_or_else(
            || format::NONE.to_owned(),
            |before| apart(figure, before, system),
        );
        Some(vec![
            name(figure),
            signed(figure, found.bias, system),
            apart(figure, found.rms, system),
            before,
            tr!("{} of {}", found.inside(), found.count),
        ])
    };
    let columns = [
        tr("What"),
        tr("Predicted minus read"),
        tr("rms"),
        tr("rms before this fit"),
        tr("In the band"),
    ];
    let rows = read(checked).into_iter().filter_map(row).collect();
    part!(TableView {
        sheet: TableText::new(tr("Check on readings not fitted"), &columns, rows)
    })
}

/// Every window, figure by figure.
pub fn windows(checked: &Checked, named: &dyn Fn(usize) -> String, system: UnitSystem) -> Html {
    let figures = read(checked);
    let row = |judged: &Judged| {
        let cells = figures
            .iter()
            .map(|figure| cell(*figure, judged.get(*figure), system));
        [title(judged, named)].into_iter().chain(cells).collect()
    };
    let names: Vec<_> = figures.iter().map(|figure| name(*figure)).collect();
    let columns: Vec<&str> = [tr("Window")]
        .into_iter()
        .chain(names.iter().map(AsRef::as_ref))
        .collect();
    let rows = checked.judged.iter().map(row).collect();
    html! {
        <details>
            <summary>{ tr!("Window by window ({})", checked.judged.len()) }</summary>
            { part!(TableView { sheet: TableText::new(tr("Windows not fitted"), &columns, rows) }) }
        </details>
    }
}

/// What a window is called: its reading, and how far into it.
pub fn title(judged: &Judged, named: &dyn Fn(usize) -> String) -> String {
    let name = named(judged.place);
    if judged.from_s > 0.0 {
        tr!("{}, {:.0} min on", name, judged.from_s / 60.0)
    } else {
        name
    }
}

fn cell(figure: Figure, one: Option<ReadAndPredicted>, system: UnitSystem) -> String {
    let Some(one) = one else {
        return tr("not read").to_owned();
    };
    let shown = |si: f64| {
        if figure.is_pressure() {
            format::quantity(si, Dimension::Pressure, system, 2)
        } else {
            format::degrees(si, system)
        }
    };
    tr!(
        "{} read; {} predicted, {} to {}: {}",
        shown(one.measured),
        shown(one.predicted),
        shown(one.low),
        shown(one.high),
        if one.is_inside() {
            tr("held")
        } else {
            tr("not held")
        }
    )
}
