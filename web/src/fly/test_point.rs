//! One test point at a time, its fields large enough for a thumb: what a narrow screen has in place of
//! the table of readings.

use crate::fly::reading_cells::{
    Table, cell, flown, mixture, shown_quantities, unit_choice, use_it,
};
use crate::kit::controls::name_field;
use crate::kit::shared::Shared;
use crate::state::{ReadingEdit, State, readings};
use coolpath_core::document::quantity::Quantity;
use coolpath_core::language::{tr, tr_later};
use yew::prelude::*;

/// What is asked first, in its order; all else stands behind "More".
const FIRST: [(&str, &[Quantity]); 2] = [
    (
        tr_later("Air and speed"),
        &[Quantity::Altitude, Quantity::Oat, Quantity::Airspeed],
    ),
    (
        tr_later("Power: per cent, or engine speed with manifold pressure, or fuel flow"),
        &[
            Quantity::PowerShare,
            Quantity::Rpm,
            Quantity::Manifold,
            Quantity::FuelFlow,
        ],
    ),
];

/// What the view needs.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The page's state.
    pub state: Shared<State>,
    /// Hears what is edited.
    pub edits: Callback<ReadingEdit>,
}

/// The test point that is chosen, with buttons to the ones beside it.
#[function_component]
pub fn TestPoint(props: &Props) -> Html {
    let chosen = use_state(|| 0_usize);
    let list = &props.state.design.readings;
    let last = list.len().saturating_sub(1);
    let place = (*chosen).min(last);
    let Some(reading) = list.get(place) else {
        return Html::default();
    };
    let shown = Table {
        state: props.state.clone(),
        edits: props.edits.clone(),
    };
    let go = |to: usize| {
        let chosen = chosen.clone();
        Callback::from(move |_: MouseEvent| chosen.set(to))
    };
    let edit = |edit: fn(usize, String) -> ReadingEdit| {
        let edits = props.edits.clone();
        move |text| edits.emit(edit(place, text))
    };
    let all = shown_quantities(&shown);
    let heat = |quantity: &Quantity| quantity.is_head() || *quantity == Quantity::Oil;
    let asked = |quantity: &Quantity| FIRST.iter().any(|(_, list)| list.contains(quantity));
    let rest: Vec<Quantity> = all
        .iter()
        .copied()
        .filter(|quantity| !heat(quantity) && !asked(quantity))
        .collect();
    let temperatures: Vec<Quantity> = all.iter().copied().filter(heat).collect();
    let fields = |quantities: &[Quantity]| {
        quantities
            .iter()
            .map(|quantity| field(&shown, place, *quantity))
            .collect::<Html>()
    };
    html! {
        <div class="test-point">
            <div class="test-point-steps">
                <button type="button" disabled={place == 0} onclick={go(place.saturating_sub(1))} aria-label={tr("Test point before")}>{ "‹" }</button>
                <strong aria-live="polite">{ tr!("{} of {}", place + 1, list.len()) }</strong>
                <button type="button" disabled={place >= last} onclick={go(place + 1)} aria-label={tr("Next test point")}>{ "›" }</button>
            </div>
            { name_field(format!("point-name-{place}"), tr("Name"), &reading.name, edit(ReadingEdit::Name)) }
            { for FIRST.iter().map(|(title, quantities)| html! {
                <fieldset><legend>{ tr(title) }</legend>{ fields(quantities) }</fieldset>
            }) }
            <fieldset><legend>{ tr("Temperatures") }</legend>{ fields(&temperatures) }</fieldset>
            <fieldset><legend>{ tr("Mixture") }</legend>{ mixture(&shown, place) }</fieldset>
            <fieldset><legend>{ tr("Flown") }</legend>{ flown(&shown, place) }</fieldset>
            <details>
                <summary>{ tr("More") }</summary>
                { name_field(format!("point-set-{place}"), tr("Set, such as “old seals”"), &reading.set, edit(ReadingEdit::Set)) }
                { fields(&rest) }
                { use_it(&shown, place, reading) }
            </details>
        </div>
    }
}

fn field(shown: &Table, place: usize, quantity: Quantity) -> Html {
    let Some(reading) = shown.state.design.readings.get(place) else {
        return Html::default();
    };
    html! {
        <div class="field" key={quantity.key()}>
            <label for={readings::cell_key(place, quantity).element_id()}>{ quantity.label() }</label>
            <div class="test-point-field">
                { cell(shown, place, reading, quantity) }
                { unit_choice(shown, quantity) }
            </div>
        </div>
    }
}
