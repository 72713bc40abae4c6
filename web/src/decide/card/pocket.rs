//! A shutter card of two conditions for the pocket or the panel, one page of A6.

use crate::browser::window;
use crate::decide::card::pocket_words;
use crate::decide::card::pocket_words::{Cells, Column};
use crate::decide::card::points::use_points;
use crate::kit::controls::option_field;
use crate::kit::format;
use crate::kit::refused::RefusedNote;
use crate::kit::shared::Shared;
use crate::part;
use coolpath_core::decide::shutter_card::MOST_TAPED;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// What the card is of.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Design.
    pub design: Shared<Design>,
    /// Units.
    pub system: UnitSystem,
    /// Notches of the lever, strips of tape over the core.
    pub counts: (u32, u32),
    /// Whether the design is the one that stands in the page now.
    pub current: bool,
}

/// Class of the page while the card is printed.
const PRINTED: &str = "print-pocket print-a6";

/// The card with what chooses its conditions.
#[function_component]
pub fn PocketCard(props: &Props) -> Html {
    let design = &props.design;
    let chosen = [use_state(|| None::<usize>), use_state(|| None::<usize>)];
    let usual = pocket_words::usual_pair(design);
    let last = design.conditions.len().saturating_sub(1);
    let places = [0, 1].map(|side| chosen[side].unwrap_or(usual[side]).min(last));
    let points = [
        use_points(design, places[0], props.system),
        use_points(design, places[1], props.system),
    ];
    let print = Callback::from(|_: MouseEvent| window::print_only(PRINTED));
    // A card of the design before is never printed.
    let waiting = !props.current || points.iter().any(Option::is_none);
    let names = || design.conditions.iter().map(|one| one.name.clone());
    let field = |side: usize, id: &'static str, label: &'static str| {
        let set = chosen[side].setter();
        option_field(id, label, names(), places[side], move |at| {
            set.set(Some(at))
        })
    };
    let columns: Vec<Column> = places
        .iter()
        .zip(&points)
        .take(if places[0] == places[1] { 1 } else { 2 })
        .filter_map(|(place, points)| {
            Some(Column {
                condition: design.conditions.get(*place)?,
                points: points.as_ref()?,
            })
        })
        .collect();
    html! {
        <div class="pocket">
            <h3>{ tr("For the pocket: two conditions on A6") }</h3>
            <div class="fields card-fields">
                { field(0, "pocket-left", tr("Left column")) }
                { field(1, "pocket-right", tr("Right column")) }
            </div>
            <div class="buttons"><button type="button" onclick={print} disabled={waiting}>{ tr("Print on A6") }</button></div>
            if !columns.is_empty() { { face(props, &columns) } }
        </div>
    }
}

/// The card itself.
fn face(props: &Props, columns: &[Column]) -> Html {
    let Props {
        design,
        system,
        counts,
        ..
    } = props;
    let installation = &design.installation;
    let fitted = installation.shutter.fitted;
    let unit = Dimension::Temperature.shown(*system).symbol;
    let limit = format::degrees(installation.engine.oil_limit.value, *system);
    let held = pocket_words::held(columns, *system);
    let count = if fitted { counts.0 } else { counts.1 };
    let what = if fitted { tr("Notch") } else { tr("Tape") };
    html! {
        <div class="pocket-card">
            <h4>{ format!("{}: {}", design.name, if fitted { tr("shutter") } else { tr("tape on the cooler") }) }</h4>
            { part!(RefusedNote) }
            <p>{ tr!("{} of {} by the OAT on the gauge, to hold {} oil, limit {}; between two rows use the warmer one.", what, count, held, limit) }</p>
            <div class="scroll" tabindex="0" role="region" aria-label={tr("Pocket card")}>
                <table>
                    <thead>
                        <tr><th rowspan="2" scope="col">{ "OAT" }<br />{ unit }</th>
                            { for columns.iter().map(|column| html! { <th class="pocket-name" colspan="2" scope="colgroup">{ column.condition.name.clone() }</th> }) }
                        </tr>
                        <tr>{ for columns.iter().map(|_| html! { <><th scope="col">{ what }</th><th scope="col">{ tr!("Oil, {}", unit) }</th></> }) }</tr>
                    </thead>
                    <tbody>
                        { for pocket_words::rows(design, columns, *counts, *system).into_iter().map(|(oat, cells)| html! {
                            <tr><th scope="row">{ oat }</th>{ for cells.into_iter().map(pair) }</tr>
                        }) }
                    </tbody>
                </table>
            </div>
            <ul>
                { for pocket_words::congealing(columns).into_iter().map(|line| html! { <li>{ line }</li> }) }
                { for pocket_words::jams(design, columns, *system).into_iter().map(|line| html! { <li>{ line }</li> }) }
                if !fitted { <li>{ tr("Tape for one row is too much for every warmer one: take it off before a warmer flight.") }</li> }
                <li>{ tr!("Tape over {:.0} % of the core at most, never all. Watch the gauge: an estimate until flown.", 100.0 * MOST_TAPED) }</li>
            </ul>
        </div>
    }
}

/// Both cells of a condition; oil over its limit says so in a word.
fn pair(cells: Cells) -> Html {
    html! { <>
        <td class="pocket-set">{ cells.set }</td>
        <td class={cells.over.then_some("outside")}>{ cells.oil }if cells.over { { tr(" over") } }</td>
    </> }
}
