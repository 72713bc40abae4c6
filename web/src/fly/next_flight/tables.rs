//! Tables of a check: how far each figure is off, and window by window.

use crate::fly::next_flight::words::{difference_of, name};
use crate::kit::format;
use coolpath_core::prove::flights::{Checked, Compared, Figure, Judged, summary};
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use yew::prelude::*;

/// Figures that were read in any window.
fn read(checked: &Checked) -> Vec<Figure> {
    let any = |figure: &Figure| checked.judged.iter().any(|one| one.get(*figure).is_some());
    Figure::all().filter(any).collect()
}

/// A difference with its sign, in whole degrees or two digits of pressure.
fn signed(figure: Figure, si: f64, system: UnitSystem) -> String {
    let shown = difference_of(figure).shown(system).from_si(si);
    if figure.is_pressure() {
        format::signed(shown, 2)
    } else {
        format::signed(shown, 0)
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
    let rows = read(checked)
        .into_iter()
        .filter_map(|figure| Some((figure, summary(&checked.judged, figure)?)));
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label="Check on readings not fitted">
            <table class="narrow-cells">
                <thead><tr>
                    <th scope="col">{ "What" }</th>
                    <th scope="col">{ "Predicted minus read" }</th>
                    <th scope="col">{ "rms" }</th>
                    <th scope="col">{ "rms before this fit" }</th>
                    <th scope="col">{ "In the band" }</th>
                </tr></thead>
                <tbody>{ for rows.map(|(figure, found)| html! {
                    <tr><th scope="row">{ name(figure) }</th>
                        <td>{ signed(figure, found.bias, system) }</td>
                        <td>{ apart(figure, found.rms, system) }</td>
                        <td>{ found.rms_before.map_or_else(|| format::NONE.to_owned(), |before| apart(figure, before, system)) }</td>
                        <td>{ format!("{} of {}", found.inside(), found.count) }</td></tr>
                }) }</tbody>
            </table>
        </div>
    }
}

/// Every window, figure by figure.
pub fn windows(checked: &Checked, named: &dyn Fn(usize) -> String, system: UnitSystem) -> Html {
    let figures = read(checked);
    html! {
        <details>
            <summary>{ format!("Window by window ({})", checked.judged.len()) }</summary>
            <div class="scroll" tabindex="0" role="region" aria-label="Windows not fitted">
                <table>
                    <thead><tr><th scope="col">{ "Window" }</th>
                        { for figures.iter().map(|figure| html! { <th scope="col">{ name(*figure) }</th> }) }</tr></thead>
                    <tbody>{ for checked.judged.iter().map(|judged| html! {
                        <tr><th scope="row">{ title(judged, named) }</th>
                            { for figures.iter().map(|figure| html! { <td>{ cell(*figure, judged.get(*figure), system) }</td> }) }</tr>
                    }) }</tbody>
                </table>
            </div>
        </details>
    }
}

fn title(judged: &Judged, named: &dyn Fn(usize) -> String) -> String {
    let name = named(judged.place);
    if judged.from_s > 0.0 {
        format!("{name}, {:.0} min on", judged.from_s / 60.0)
    } else {
        name
    }
}

fn cell(figure: Figure, one: Option<Compared>, system: UnitSystem) -> String {
    let Some(one) = one else {
        return "not read".to_owned();
    };
    let shown = |si: f64| {
        if figure.is_pressure() {
            format::quantity(si, Dimension::Pressure, system, 2)
        } else {
            format::degrees(si, system)
        }
    };
    format!(
        "{} read; {} predicted, {} to {}: {}",
        shown(one.measured),
        shown(one.predicted),
        shown(one.low),
        shown(one.high),
        if one.is_inside() { "held" } else { "not held" }
    )
}
