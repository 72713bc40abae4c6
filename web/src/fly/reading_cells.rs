//! Cells of readings: what the table and the single test point both show.

use crate::design::fields::choice_field::ChoiceField;
use crate::fly::used_for;
use crate::kit::controls::{on_option, on_text};
use crate::kit::shared::Shared;
use crate::part;
use crate::state::{ReadingEdit, State, choices, readings};
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Moment, Reading};
use coolpath_core::language::tr;
use coolpath_core::units::typed;
use yew::prelude::*;

/// What the table shows, and where its edits go.
pub(super) struct Table {
    /// The page's state.
    pub state: Shared<State>,
    /// Hears what is edited.
    pub edits: Callback<ReadingEdit>,
}

/// Heads only for the cylinders that the engine has, or that a reading holds; exhaust only where
/// a reading holds it, since no answer depends on it.
pub(super) fn shown_quantities(shown: &Table) -> Vec<Quantity> {
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

/// What a reading is used for, and a button that removes it.
pub(super) fn use_it(shown: &Table, place: usize, reading: &Reading) -> Html {
    let edits = &shown.edits;
    let remove = edits.reform(move |_: MouseEvent| ReadingEdit::Remove(place));
    html! {
        <>
            { used_for::choice(&tr!("Use of {}", reading.name), Some(reading.used()), vec![place], edits) }
            <button type="button" class="quiet" onclick={remove} aria-label={tr!("Remove {}", reading.name)}>{ tr("Remove") }</button>
        </>
    }
}

/// Its mixture, where no fuel flow tells it.
pub(super) fn mixture(shown: &Table, place: usize) -> Html {
    let by_fuel = shown.state.design.readings[place]
        .moments
        .iter()
        .all(|moment| {
            moment.get(Quantity::FuelFlow).is_some()
                && (moment.get(Quantity::PowerShare).is_some()
                    || moment.get(Quantity::Manifold).is_some())
        });
    if by_fuel {
        return html! { tr("by the fuel flow") };
    }
    part!(ChoiceField {
        id: "reading.mixture",
        place
    })
}

/// Whether it climbed, where no course of the altitude tells it: the air meets the openings otherwise.
pub(super) fn flown(shown: &Table, place: usize) -> Html {
    if !choices::by_id(FLOWN).is_some_and(|choice| (choice.used)(&shown.state.design, place)) {
        return html! { tr("by the altitude") };
    }
    part!(ChoiceField { id: FLOWN, place })
}

/// The choice of it.
const FLOWN: &str = "reading.flown";

/// Its field for a quantity, or the course of a stretch.
pub(super) fn cell(shown: &Table, place: usize, reading: &Reading, quantity: Quantity) -> Html {
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
            <input id={readings::cell_key(place, quantity).element_id()} type="text" autocomplete="off" aria-label={tr!("{} of {}", quantity.label(), reading.name)}
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

/// The unit in which a quantity is typed, to choose where there are several.
pub(super) fn unit_choice(shown: &Table, quantity: Quantity) -> Html {
    let unit = readings::unit(&shown.state, quantity);
    let units = quantity.column_units();
    if units.len() < 2 {
        return html! { <span>{ unit.label() }</span> };
    }
    let edits = shown.edits.clone();
    let on_unit = on_option(move |option| edits.emit(ReadingEdit::Unit(quantity, option)));
    html! {
        <select aria-label={tr!("Unit of {}", quantity.label())} onchange={on_unit}>
            { for units.iter().map(|choice| {
                let symbol = choice.symbol();
                html! { <option value={symbol} selected={*choice == unit}>{ choice.label() }</option> }
            }) }
        </select>
    }
}
