//! "Add up an area": an opening from pieces, less pipes and brackets, with each step.

use crate::design::area::rows;
use crate::design::area::rows::{Kind, Row};
use crate::kit::controls::on_option;
use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::panel_field::PanelField;
use crate::part;
use crate::state::panel_texts::{MOST_PIECES, length_key};
use crate::state::{Action, FieldKey};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{ExitShape, InletShape};
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use coolpath_core::workshop::area;
use coolpath_core::workshop::area::Piece;
use yew::prelude::*;

/// The helper.
#[function_component]
pub fn AreaHelper() -> Html {
    let (design, system) = use_page(|page| (page.design.clone(), page.system()));
    let dispatch = use_dispatch();
    let rows = use_page(|page| rows::typed(&page.state));
    let change = {
        let before = rows.len();
        dispatch.reform(move |next: Vec<Row>| Action::Note(rows::notes(&next, before)))
    };
    let add = {
        let mut next = rows.clone();
        next.push(Row {
            blocks: true,
            kind: Kind::Circle,
            ..Row::default()
        });
        change.reform(move |_: MouseEvent| next.clone())
    };
    let untouched = rows.iter().all(|row| row.texts[0].is_empty());
    let pieces: Result<Vec<Piece>, String> = rows
        .iter()
        .enumerate()
        .map(|(at, row)| row.piece(at, system))
        .collect();
    let sum = pieces.and_then(|pieces| area::sum(&pieces).map_err(|error| error.to_string()));
    html! {
        <details class="section" id="area-helper" open={true}>
            <summary>{ tr("Add up an area") }</summary>
            <p class="hint">{ tr("Measure square to the flow. Take away what stands in the opening: pipes, hoses, brackets.") }</p>
            { for (0..rows.len()).map(|at| row_view(at, &rows, &change, system)) }
            <button type="button" class="quiet" disabled={rows.len() >= MOST_PIECES} onclick={add}>{ tr("Add a piece") }</button>
            <div aria-live="polite">
                { match sum {
                    _ if untouched => html! { <p class="hint">{ tr("Type the lengths of the first piece.") }</p> },
                    Err(fault) => html! { <p class="fault">{ fault }</p> },
                    Ok(sum) => html! {
                        <>
                            <ol>{ for sum.steps.iter().map(|step| html! { <li>{ rows::step_words(step, system) }</li> }) }</ol>
                            <p class="headline">{ tr!("Net area {}", format::quantity(sum.net_m2, Dimension::Area, system, 4)) }</p>
                            <p class="hint">{ sum.steps.first().map(|step| rows::string_words(step, system)) }</p>
                            <div class="buttons">{ takers(&design, &dispatch, sum.net_m2) }</div>
                        </>
                    },
                } }
            </div>
        </details>
    }
}

fn row_view(at: usize, rows: &[Row], change: &Callback<Vec<Row>>, system: UnitSystem) -> Html {
    let unit = Dimension::Length.shown(system).symbol;
    let row = &rows[at];
    let kind_id = format!("area-kind-{at}");
    let on_kind = {
        let (rows, change) = (rows.to_vec(), change.clone());
        on_option(move |option| {
            if let Some(kind) = Kind::named(&option) {
                let mut next = rows.clone();
                next[at].kind = kind;
                change.emit(next);
            }
        })
    };
    let blocks_id = format!("area-blocks-{at}");
    let on_blocks = {
        let mut next = rows.to_vec();
        next[at].blocks = !row.blocks;
        change.reform(move |_: Event| next.clone())
    };
    let remove = {
        let mut next = rows.to_vec();
        next.remove(at);
        change.reform(move |_: MouseEvent| next.clone())
    };
    html! {
        <div class="entry" role="group" aria-label={tr!("Piece {}", at + 1)}>
            <div class="fields">
                <div class="field">
                    <label for={kind_id.clone()}>{ tr!("Piece {}", at + 1) }</label>
                    <select id={kind_id} onchange={on_kind}>
                        { for Kind::ALL.into_iter().map(|kind| html! {
                            <option value={kind.name()} selected={kind == row.kind}>{ kind.phrase() }</option>
                        }) }
                    </select>
                </div>
                { for row.kind.lengths().into_iter().enumerate().map(|(which, name)| part!(PanelField { of: length_key(at, which), label: name, unit, usual: rows::usual(which) })) }
            </div>
            <label class="tick" for={blocks_id.clone()}>
                <input id={blocks_id} type="checkbox" checked={row.blocks} onchange={on_blocks} />{ tr("stands in the opening: take it away") }
            </label>
            if rows.len() > 1 {
                <button type="button" class="quiet" aria-label={tr!("Remove piece {}", at + 1)} onclick={remove}>{ tr("Remove") }</button>
            }
        </div>
    }
}

/// Buttons that give the area to an opening that is given by its traced area.
fn takers(design: &Design, dispatch: &Callback<Action>, net_m2: f64) -> Html {
    let installation = &design.installation;
    let inlets = installation
        .inlets
        .iter()
        .enumerate()
        .filter(|(_, inlet)| inlet.shape == InletShape::Traced)
        .map(|(place, inlet)| ("inlet.traced_area_m2", place, inlet.name.clone(), net_m2));
    let exits = installation
        .exits
        .iter()
        .enumerate()
        .filter(|(_, exit)| exit.shape == ExitShape::Traced)
        // The exit takes its own pipes away; the sum has done so already.
        .map(|(place, exit)| {
            (
                "exit.traced_area_m2",
                place,
                exit.name.clone(),
                net_m2 + exit.pipes_area.value,
            )
        });
    let all: Vec<_> = inlets.chain(exits).collect();
    if all.is_empty() {
        return html! {
            <p class="hint">{ tr("To use it, let an inlet or an exit be given by its traced area.") }</p>
        };
    }
    html! {
        { for all.into_iter().map(|(id, place, name, value)| {
            let action = Action::Set { key: FieldKey::new(id, place), value };
            html! {
                <button type="button" onclick={dispatch.reform(move |_: MouseEvent| action.clone())}>{ tr!("Use it for “{}”", name) }</button>
            }
        }) }
    }
}
