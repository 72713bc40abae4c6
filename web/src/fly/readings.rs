//! "Readings": what was read in flight, a column for each test point, a unit for each quantity.

use crate::design::fields::choice_field::ChoiceField;
use crate::kit::controls::{on_option, on_text, on_tick, use_unfolding};
use crate::state::choices;
use crate::state::{Action, ReadingEdit, State, readings};
use coolpath_core::document::fault::Spot;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{MAX_READINGS, Moment, Reading};
use coolpath_core::prove::doubts::flags;
use coolpath_core::units::typed;
use std::rc::Rc;
use yew::prelude::*;

/// What the panel needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// State of the page.
    pub state: Rc<State>,
    /// What editing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        let (one, two) = (&self.state, &other.state);
        Rc::ptr_eq(one, two)
            || (one.design == two.design
                && one.drafts == two.drafts
                && one.system == two.system
                && one.column_units == two.column_units)
    }
}

/// The panel; it draws its table only while it stands open.
#[function_component]
pub fn ReadingsPanel(props: &Props) -> Html {
    let (open, on_toggle) = use_unfolding();
    let count = props.state.design.readings.len();
    html! {
        <details class="section" id="readings" ontoggle={on_toggle}>
            <summary>{ if count == 0 { "Readings from flight".to_owned() } else { format!("Readings from flight ({count})") } }</summary>
            if *open {
                { table(props) }
            }
        </details>
    }
}

fn edits(props: &Props) -> Callback<ReadingEdit> {
    props.dispatch.reform(Action::Reading)
}

fn table(props: &Props) -> Html {
    let list = &props.state.design.readings;
    let full = list.len() >= MAX_READINGS;
    let add = edits(props).reform(|_: MouseEvent| ReadingEdit::Add);
    html! {
        <>
            <p class="hint">{ "One column for each test point, as the instruments showed it. Leave empty what was not read. Power counts first; without it engine speed with manifold pressure, or fuel flow. Instrument corrections go in the last column and are added before anything is computed. A unit may be typed with a number." }</p>
            <div class="buttons"><button type="button" onclick={add} disabled={full}>{ "Add a test point" }</button></div>
            if !list.is_empty() {
                <div class="scroll" tabindex="0" role="region" aria-label="Readings">
                    <table class="readings">
                        { head(props, list) }
                        <tbody>
                            { for shown_quantities(props).into_iter().map(|quantity| row(props, quantity)) }
                            <tr><th scope="row">{ "Mixture" }</th><td></td>
                                { for (0..list.len()).map(|place| html! { <td>{ mixture(props, place) }</td> }) }
                                <td></td></tr>
                        </tbody>
                    </table>
                </div>
                { doubts(props) }
            }
        </>
    }
}

/// Heads only for the cylinders that the engine has, or that a reading holds; exhaust only where
/// a reading holds it, since no answer depends on it.
fn shown_quantities(props: &Props) -> Vec<Quantity> {
    let design = &props.state.design;
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

fn head(props: &Props, list: &[Reading]) -> Html {
    let text_field = |label: String,
                      text: String,
                      edit: fn(usize, String) -> ReadingEdit,
                      place: usize| {
        let emit = edits(props);
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
            <tr><th scope="row">{ "Use it" }</th><td></td>
                { for list.iter().enumerate().map(|(place, reading)| html! { <td>{ use_it(props, place, reading) }</td> }) }
                <td></td></tr>
        </thead>
    }
}

fn use_it(props: &Props, place: usize, reading: &Reading) -> Html {
    let emit = edits(props);
    let on_change = {
        let emit = emit.clone();
        on_tick(move |ticked| {
            emit.emit(ReadingEdit::LeaveOut(place, !ticked));
        })
    };
    let remove = emit.reform(move |_: MouseEvent| ReadingEdit::Remove(place));
    html! {
        <>
            <label class="tick"><input type="checkbox" checked={!reading.left_out} onchange={on_change} />{ "use" }</label>
            <button type="button" class="quiet" onclick={remove} aria-label={format!("Remove {}", reading.name)}>{ "Remove" }</button>
        </>
    }
}

fn mixture(props: &Props, place: usize) -> Html {
    let by_fuel = props.state.design.readings[place]
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
    match choices::by_id("reading.mixture") {
        Some(choice) => html! {
            <ChoiceField {choice} {place} state={props.state.clone()} dispatch={props.dispatch.clone()} />
        },
        None => Html::default(),
    }
}

fn row(props: &Props, quantity: Quantity) -> Html {
    let state = &props.state;
    let unit = readings::unit(state, quantity).symbol();
    let on_unit = {
        let emit = edits(props);
        on_option(move |option| {
            emit.emit(ReadingEdit::Unit(quantity, option));
        })
    };
    let units = quantity.column_units();
    let on_correction = {
        let emit = edits(props);
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
            { for state.design.readings.iter().enumerate().map(|(place, reading)| html! { <td>{ cell(props, place, reading, quantity) }</td> }) }
            <td class="correction">
                <input id={readings::correction_key(quantity).element_id()} type="text" autocomplete="off" aria-label={format!("Added to {} ({correction_unit})", quantity.label())}
                    placeholder={correction_unit} value={readings::correction_text(state, quantity)} oninput={on_correction} />
            </td>
        </tr>
    }
}

fn cell(props: &Props, place: usize, reading: &Reading, quantity: Quantity) -> Html {
    let state = &props.state;
    if !reading.is_steady() {
        return html! { <span class="course">{ course(state, reading, quantity) }</span> };
    }
    let text = readings::cell_text(state, place, quantity);
    let fault = readings::cell_value(state, quantity, &text).err();
    let emit = edits(props);
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
fn doubts(props: &Props) -> Html {
    let design = &props.state.design;
    let mut said: Vec<(String, Vec<&str>)> = Vec::new();
    for (place, reading) in design.readings.iter().enumerate() {
        if let Some(fault) = props.state.fault_at(Spot::Reading(place)) {
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
