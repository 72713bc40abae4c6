//! "Readings": what was read in flight, a column for each test point, a unit for each quantity.

use crate::fly::path::{StepProps, use_opened};
use crate::fly::reading_cells::{
    Table, cell, flown, mixture, shown_quantities, unit_choice, use_it,
};
use crate::fly::sick::alert;
use crate::fly::test_point::TestPoint;
use crate::kit::controls::{on_text, use_unfolding};
use crate::kit::page::{use_dispatch, use_page};
use crate::part;
use crate::state::{Action, ReadingEdit, readings};
use coolpath_core::document::fault::Spot;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{MAX_READINGS, Reading};
use coolpath_core::language::tr;
use coolpath_core::prove::doubts::flags;
use coolpath_core::prove::flights::sick_in;
use yew::prelude::*;

/// Room below which one test point stands alone instead of the table, CSS pixels.
const NARROW_PX: u32 = 556;

/// The panel; it draws its table only while it stands open.
#[function_component]
pub fn ReadingsPanel(props: &StepProps) -> Html {
    let opened = use_opened(props.next);
    let (open, on_toggle) = use_unfolding();
    let narrow = use_page(|page| page.width < NARROW_PX);
    let shown = Table {
        state: use_page(|page| page.state.clone()),
        edits: use_dispatch().reform(Action::Reading),
    };
    let count = shown.state.design.readings.len();
    html! {
        <details class="section" id="readings" open={opened} ontoggle={on_toggle}>
            <summary>{ if count == 0 { tr("Readings from flight").to_owned() } else { tr!("Readings from flight ({})", count) } }</summary>
            if *open {
                { table(&shown, narrow) }
            }
        </details>
    }
}

fn table(shown: &Table, narrow: bool) -> Html {
    let list = &shown.state.design.readings;
    let full = list.len() >= MAX_READINGS;
    let add = shown.edits.reform(|_: MouseEvent| ReadingEdit::Add);
    html! {
        <>
            <p class="hint">{ tr("Each test point as the instruments showed it. Leave empty what was not read. A fit never sees what is marked “check only”. Power is used first; without it, engine speed with manifold pressure, or fuel flow. Instrument corrections are added before anything is computed. A unit may be typed with a number.") }</p>
            <div class="buttons"><button type="button" onclick={add} disabled={full}>{ tr("Add a test point") }</button></div>
            if !list.is_empty() {
                { alert(&sick_in(&shown.state.design, list), list, shown.state.system) }
                if narrow {
                    { part!(TestPoint { state: shown.state.clone(), edits: shown.edits.clone() }) }
                } else {
                <div class="scroll" tabindex="0" role="region" aria-label={tr("Readings")}>
                    <table class="readings">
                        { head(shown, list) }
                        <tbody>
                            { for shown_quantities(shown).into_iter().map(|quantity| row(shown, quantity)) }
                            <tr><th scope="row">{ tr("Mixture") }</th><td></td>
                                { for (0..list.len()).map(|place| html! { <td>{ mixture(shown, place) }</td> }) }
                                <td></td></tr>
                            <tr><th scope="row">{ tr("Flown") }</th><td></td>
                                { for (0..list.len()).map(|place| html! { <td>{ flown(shown, place) }</td> }) }
                                <td></td></tr>
                        </tbody>
                    </table>
                </div>
                }
                { doubts(shown) }
            }
        </>
    }
}

fn head(shown: &Table, list: &[Reading]) -> Html {
    // Undo finds the fields by these ids, which those of a single test point have too.
    let text_field = |(id, label): (&str, String),
                      text: String,
                      edit: fn(usize, String) -> ReadingEdit,
                      place: usize| {
        let emit = shown.edits.clone();
        let on_input = on_text(move |text| {
            emit.emit(edit(place, text));
        });
        html! { <input id={format!("{id}-{place}")} type="text" autocomplete="off" aria-label={label} value={text} oninput={on_input} /> }
    };
    html! {
        <thead>
            <tr><th scope="col">{ tr("Name") }</th><th scope="col">{ tr("Unit") }</th>
                { for list.iter().enumerate().map(|(place, reading)| html! {
                    <th scope="col">{ text_field(("point-name", tr!("Name of reading {}", place + 1)), reading.name.clone(), ReadingEdit::Name, place) }</th>
                }) }
                <th scope="col">{ tr("Correction") }</th></tr>
            <tr><th scope="row">{ tr("Set, such as “old seals”") }</th><td></td>
                { for list.iter().enumerate().map(|(place, reading)| html! {
                    <td>{ text_field(("point-set", tr!("Set of {}", reading.name)), reading.set.clone(), ReadingEdit::Set, place) }</td>
                }) }
                <td></td></tr>
            <tr><th scope="row">{ tr("Use it for") }</th><td></td>
                { for list.iter().enumerate().map(|(place, reading)| html! { <td>{ use_it(shown, place, reading) }</td> }) }
                <td></td></tr>
        </thead>
    }
}

fn row(shown: &Table, quantity: Quantity) -> Html {
    let state = &shown.state;
    let on_correction = {
        let emit = shown.edits.clone();
        on_text(move |text| {
            emit.emit(ReadingEdit::Correction(quantity, text));
        })
    };
    let correction_unit = quantity.correction_dimension().shown(state.system).symbol;
    html! {
        <tr key={quantity.key()}>
            <th scope="row">{ quantity.label() }</th>
            <td>{ unit_choice(shown, quantity) }</td>
            { for state.design.readings.iter().enumerate().map(|(place, reading)| html! { <td>{ cell(shown, place, reading, quantity) }</td> }) }
            <td class="correction">
                <input id={readings::correction_key(quantity).element_id()} type="text" autocomplete="off" aria-label={tr!("Added to {} ({})", quantity.label(), correction_unit)}
                    placeholder={correction_unit} value={readings::correction_text(state, quantity)} oninput={on_correction} />
            </td>
        </tr>
    }
}

/// What is missing or doubtful, each with the readings that it concerns.
fn doubts(shown: &Table) -> Html {
    let design = &shown.state.design;
    let mut said: Vec<(String, Vec<&str>)> = Vec::new();
    for (place, reading) in design.readings.iter().enumerate() {
        if let Some(fault) = shown.state.fault_at(Spot::Reading(place)) {
            said.push((fault.trim_end_matches('.').to_owned(), vec![&reading.name]));
            continue;
        }
        let moments = reading.corrected(&design.instruments);
        let lacking = moments
            .first()
            .and_then(|moment| {
                moment
                    .condition(&design.installation.engine, reading.mixture)
                    .err()
            })
            .map(|lacking| lacking.to_string());
        let doubts = flags(design, reading, &moments);
        for text in lacking
            .into_iter()
            .chain(doubts.iter().map(ToString::to_string))
        {
            match said.iter_mut().find(|(other, _)| *other == text) {
                Some((_, names)) => names.push(&reading.name),
                None => said.push((text, vec![&reading.name])),
            }
        }
    }
    if said.is_empty() {
        return html! { <p class="hint">{ tr("All readings are complete; nothing is doubtful.") }</p> };
    }
    html! {
        <ul class="warnings">
            { for said.into_iter().map(|(text, names)| html! { <li>{ format!("{}: {}", named(&names), ended(&text)) }</li> }) }
        </ul>
    }
}

/// A sentence with its stop.
fn ended(text: &str) -> String {
    if text.ends_with(['.', '?']) {
        text.to_owned()
    } else {
        format!("{text}.")
    }
}

/// Most names before the rest is counted.
const NAMED: usize = 3;

fn named(names: &[&str]) -> String {
    let list: Vec<String> = names
        .iter()
        .take(NAMED)
        .map(|name| format!("“{name}”"))
        .collect();
    let rest = names.len().saturating_sub(NAMED);
    if rest == 0 {
        list.join(", ")
    } else {
        tr!("{} and {} more", list.join(", "), rest)
    }
}
