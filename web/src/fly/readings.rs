//! "Readings": what was read in flight, a column for each test point, a unit for each quantity.

use crate::design::fields::choice_field::ChoiceField;
use crate::fly::path::{StepProps, use_opened};
use crate::fly::used_for;
use crate::kit::controls::{on_option, on_text, use_unfolding};
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::shared::Shared;
use crate::state::{Action, ReadingEdit, State, readings};
use coolpath_core::document::fault::Spot;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{MAX_READINGS, Moment, Reading};
use coolpath_core::prove::doubts::flags;
use coolpath_core::units::typed;
use yew::prelude::*;

/// What the table shows, and where its edits go.
struct Table {
    state: Shared<State>,
    edits: Callback<ReadingEdit>,
}

/// The panel; it draws its table only while it stands open.
#[function_component]
pub fn ReadingsPanel(props: &StepProps) -> Html {
    let opened = use_opened(props.next);
    let (open, on_toggle) = use_unfolding();
    let shown = Table {
        state: use_page(|page| page.state.clone()),
        edits: use_dispatch().reform(Action::Reading),
    };
    let count = shown.state.design.readings.len();
    html! {
        <details class="section" id="readings" open={opened} ontoggle={on_toggle}>
            <summary>{ if count == 0 { "Readings from flight".to_owned() } else { format!("Readings from flight ({count})") } }</summary>
            if *open {
                { table(&shown) }
            }
        </details>
    }
}

fn table(shown: &Table) -> Html {
    let list = &shown.state.design.readings;
    let full = list.len() >= MAX_READINGS;
    let add = shown.edits.reform(|_: MouseEvent| ReadingEdit::Add);
    html! {
        <>
            <p class="hint">{ "One column for each test point, as the instruments showed it. Leave empty what was not read. A fit never sees what is marked “check only”. Power counts first; without it engine speed with manifold pressure, or fuel flow. Instrument corrections go in the last column and are added before anything is computed. A unit may be typed with a number." }</p>
            <div class="buttons"><button type="button" onclick={add} disabled={full}>{ "Add a test point" }</button></div>
            if !list.is_empty() {
                <div class="scroll" tabindex="0" role="region" aria-label="Readings">
                    <table class="readings">
                        { head(shown, list) }
                        <tbody>
                            { for shown_quantities(shown).into_iter().map(|quantity| row(shown, quantity)) }
                            <tr><th scope="row">{ "Mixture" }</th><td></td>
                                { for (0..list.len()).map(|place| html! { <td>{ mixture(shown, place) }</td> }) }
                                <td></td></tr>
                        </tbody>
                    </table>
                </div>
                { doubts(shown) }
            }
        </>
    }
}

/// Heads only for the cylinders that the engine has, or that a reading holds; exhaust only where
/// a reading holds it, since no answer depends on it.
fn shown_quantities(shown: &Table) -> Vec<Quantity> {
    let design = &shown.state.design;
    let cylinders = usize::from(design.installation.engine.cylinders);
    let read = |quantity: Quantity| {
        design
            .readings
            .iter()
            .flat_map(|reading| reading.moments.iter())
            .any(|moment| moment.get(quantity).is_some())
    };
    Quantity::ALL
        .iter()
        .copied()
        .filter(|quantity| {
            let number = Quantity::HEADS.iter().position(|head| head == quantity);
            let wanted = !quantity.is_egt() && number.is_none_or(|number| number < cylinders);
            wanted || read(*quantity)
        })
        .collect()
}

fn head(shown: &Table, list: &[Reading]) -> Html {
    let text_field = |label: String,
                      text: String,
                      edit: fn(usize, String) -> ReadingEdit,
                      place: usize| {
        let emit = shown.edits.clone();
        let on_input = on_text(move |text| {
            emit.emit(edit(place, text));
        });
        html! { <input type="text" autocomplete="off" aria-label={label} value={text} oninput={on_input} /> }
    };
    html! {
        <thead>
            <tr><th scope="col">{ "Name" }</th><th scope="col">{ "Unit" }</th>
                { for list.iter().enumerate().map(|(place, reading)| html! {
                    <th scope="col">{ text_field(format!("Name of reading {}", place + 1), reading.name.clone(), ReadingEdit::Name, place) }</th>
                }) }
                <th scope="col">{ "Add to the reading" }</th></tr>
            <tr><th scope="row">{ "Set, such as “old seals”" }</th><td></td>
                { for list.iter().enumerate().map(|(place, reading)| html! {
                    <td>{ text_field(format!("Set of {}", reading.name), reading.set.clone(), ReadingEdit::Set, place) }</td>
                }) }
                <td></td></tr>
            <tr><th scope="row">{ "Use it for" }</th><td></td>
                { for list.iter().enumerate().map(|(place, reading)| html! { <td>{ use_it(shown, place, reading) }</td> }) }
                <td></td></tr>
        </thead>
    }
}

fn use_it(shown: &Table, place: usize, reading: &Reading) -> Html {
    let edits = &shown.edits;
    let remove = edits.reform(move |_: MouseEvent| ReadingEdit::Remove(place));
    html! {
        <>
            { used_for::choice(&format!("Use of {}", reading.name), Some(reading.used()), vec![place], edits) }
            <button type="button" class="quiet" onclick={remove} aria-label={format!("Remove {}", reading.name)}>{ "Remove" }</button>
        </>
    }
}

fn mixture(shown: &Table, place: usize) -> Html {
    let by_fuel = shown.state.design.readings[place]
        .moments
        .iter()
        .all(|moment| {
            moment.get(Quantity::FuelFlow).is_some()
                && (moment.get(Quantity::PowerShare).is_some()
                    || moment.get(Quantity::Manifold).is_some())
        });
    if by_fuel {
        return html! { "by the fuel flow" };
    }
    html! { <ChoiceField id="reading.mixture" {place} /> }
}

fn row(shown: &Table, quantity: Quantity) -> Html {
    let state = &shown.state;
    let unit = readings::unit(state, quantity).symbol();
    let on_unit = {
        let emit = shown.edits.clone();
        on_option(move |option| {
            emit.emit(ReadingEdit::Unit(quantity, option));
        })
    };
    let units = quantity.column_units();
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
            <td>
                if units.len() > 1 {
                    <select aria-label={format!("Unit of {}", quantity.label())} onchange={on_unit}>
                        { for units.iter().map(|choice| {
                            let symbol = choice.symbol();
                            html! { <option value={symbol.clone()} selected={symbol == unit}>{ symbol.clone() }</option> }
                        }) }
                    </select>
                } else {
                    { unit.clone() }
                }
            </td>
            { for state.design.readings.iter().enumerate().map(|(place, reading)| html! { <td>{ cell(shown, place, reading, quantity) }</td> }) }
            <td class="correction">
                <input id={readings::correction_key(quantity).element_id()} type="text" autocomplete="off" aria-label={format!("Added to {} ({correction_unit})", quantity.label())}
                    placeholder={correction_unit} value={readings::correction_text(state, quantity)} oninput={on_correction} />
            </td>
        </tr>
    }
}

fn cell(shown: &Table, place: usize, reading: &Reading, quantity: Quantity) -> Html {
    let state = &shown.state;
    if !reading.is_steady() {
        return html! { <span class="course">{ course(state, reading, quantity) }</span> };
    }
    let text = readings::cell_text(state, place, quantity);
    let fault = readings::cell_value(state, quantity, &text).err();
    let emit = shown.edits.clone();
    let on_input = on_text(move |text| {
        emit.emit(ReadingEdit::Cell(place, quantity, text));
    });
    html! {
        <>
            <input id={readings::cell_key(place, quantity).element_id()} type="text" autocomplete="off" aria-label={format!("{} of {}", quantity.label(), reading.name)}
                value={text} oninput={on_input} aria-invalid={fault.is_some().then_some("true")} />
            if let Some(fault) = fault {
                <p class="fault">{ fault }</p>
            }
        </>
    }
}

/// From the first to the last value of a stretch.
fn course(state: &State, reading: &Reading, quantity: Quantity) -> String {
    let unit = readings::unit(state, quantity);
    let values: Vec<f64> = reading
        .moments
        .iter()
        .filter_map(|moment: &Moment| moment.get(quantity))
        .collect();
    let shown = |si: f64| typed::rounded_text(unit.from_si(si), 4);
    match (values.first(), values.last()) {
        (Some(first), Some(last)) => format!("{} → {}", shown(*first), shown(*last)),
        _ => String::new(),
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
        return html! { <p class="hint">{ "All readings are complete; nothing is doubtful." }</p> };
    }
    html! {
        <ul class="warnings">
            { for said.into_iter().map(|(text, names)| html! { <li>{ format!("{}: {text}.", named(&names)) }</li> }) }
        </ul>
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
        format!("{} and {rest} more", list.join(", "))
    }
}
