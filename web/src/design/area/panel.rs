//! "Add up an area": an opening from pieces, less pipes and brackets, with each step.

use crate::design::area::rows;
use crate::design::area::rows::{Kind, Row};
use crate::kit::controls::{on_option, on_text, on_tick};
use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::state::{Action, FieldKey};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{ExitShape, InletShape};
use coolpath_core::units::typed::{Dimension, UnitSystem};
use coolpath_core::workshop::area;
use coolpath_core::workshop::area::Piece;
use yew::prelude::*;

/// Most pieces of one opening.
const MOST_ROWS: usize = 12;

/// The helper.
#[function_component]
pub fn AreaHelper() -> Html {
    let (design, system) = use_page(|page| (page.design.clone(), page.system()));
    let dispatch = use_dispatch();
    let rows = use_state(|| vec![Row::default()]);
    let change = {
        let rows = rows.clone();
        Callback::from(move |(at, row): (usize, Row)| {
            let mut next = (*rows).clone();
            if let Some(slot) = next.get_mut(at) {
                *slot = row;
            }
            rows.set(next);
        })
    };
    let add = {
        let rows = rows.clone();
        Callback::from(move |_: MouseEvent| {
            let mut next = (*rows).clone();
            next.push(Row {
                blocks: true,
                kind: Kind::Circle,
                ..Row::default()
            });
            rows.set(next);
        })
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
            <summary>{ "Add up an area" }</summary>
            <p class="hint">{ "Measure square to the flow. Take away what stands in the opening: pipes, hoses, brackets." }</p>
            { for rows.iter().enumerate().map(|(at, row)| row_view(at, row, rows.len(), &change, &rows, system)) }
            <button type="button" class="quiet" disabled={rows.len() >= MOST_ROWS} onclick={add}>{ "Add a piece" }</button>
            <div aria-live="polite">
                { match sum {
                    _ if untouched => html! { <p class="hint">{ "Type the lengths of the first piece." }</p> },
                    Err(fault) => html! { <p class="fault">{ fault }</p> },
                    Ok(sum) => html! {
                        <>
                            <ol>{ for sum.steps.iter().map(|step| html! { <li>{ rows::step_words(step, system) }</li> }) }</ol>
                            <p class="headline">{ format!("Net area {}", format::quantity(sum.net_m2, Dimension::Area, system, 4)) }</p>
                            <p class="hint">{ sum.steps.first().map(|step| rows::string_words(step, system)) }</p>
                            <div class="buttons">{ takers(&design, &dispatch, sum.net_m2) }</div>
                        </>
                    },
                } }
            </div>
        </details>
    }
}

fn row_view(
    at: usize,
    row: &Row,
    count: usize,
    change: &Callback<(usize, Row)>,
    rows: &UseStateHandle<Vec<Row>>,
    system: UnitSystem,
) -> Html {
    let unit = Dimension::Length.shown(system).symbol;
    let kind_id = format!("area-kind-{at}");
    let on_kind = {
        let (row, change) = (row.clone(), change.clone());
        on_option(move |option| {
            if let Some(kind) = Kind::ALL.into_iter().find(|kind| kind.phrase() == option) {
                change.emit((
                    at,
                    Row {
                        kind,
                        ..row.clone()
                    },
                ));
            }
        })
    };
    let blocks_id = format!("area-blocks-{at}");
    let on_blocks = {
        let (row, change) = (row.clone(), change.clone());
        on_tick(move |ticked| {
            change.emit((
                at,
                Row {
                    blocks: ticked,
                    ..row.clone()
                },
            ));
        })
    };
    let remove = {
        let rows = rows.clone();
        Callback::from(move |_: MouseEvent| {
            let mut next = (*rows).clone();
            next.remove(at);
            rows.set(next);
        })
    };
    html! {
        <div class="entry" role="group" aria-label={format!("Piece {}", at + 1)}>
            <div class="fields">
                <div class="field">
                    <label for={kind_id.clone()}>{ format!("Piece {}", at + 1) }</label>
                    <select id={kind_id} onchange={on_kind}>
                        { for Kind::ALL.into_iter().map(|kind| html! {
                            <option value={kind.phrase()} selected={kind == row.kind}>{ kind.phrase() }</option>
                        }) }
                    </select>
                </div>
                { for row.kind.lengths().iter().enumerate().map(|(which, name)| {
                    let id = format!("area-{at}-{which}");
                    let (row, change) = (row.clone(), change.clone());
                    let text = row.texts[which].clone();
                    let on_input = on_text(move |text| {
                            let mut row = row.clone();
                            row.texts[which] = text;
                            change.emit((at, row));
                        });
                    html! {
                        <div class="field">
                            <label for={id.clone()}>{ *name }<span class="unit">{ format!(" ({unit})") }</span></label>
                            <input {id} type="text" inputmode="decimal" autocomplete="off" value={text} oninput={on_input} />
                        </div>
                    }
                }) }
            </div>
            <label class="tick" for={blocks_id.clone()}>
                <input id={blocks_id} type="checkbox" checked={row.blocks} onchange={on_blocks} />{ "stands in the opening: take it away" }
            </label>
            if count > 1 {
                <button type="button" class="quiet" aria-label={format!("Remove piece {}", at + 1)} onclick={remove}>{ "Remove" }</button>
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
            <p class="hint">{ "To use it, let an inlet or an exit be given by its traced area." }</p>
        };
    }
    html! {
        { for all.into_iter().map(|(id, place, name, value)| {
            let action = Action::Set { key: FieldKey::new(id, place), value };
            html! {
                <button type="button" onclick={dispatch.reform(move |_: MouseEvent| action.clone())}>{ format!("Use it for “{name}”") }</button>
            }
        }) }
    }
}
