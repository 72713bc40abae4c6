//! Which units are shown: a ready set, or a choice for each quantity.

use crate::kit::controls::option_field;
use crate::kit::dialog::Dialog;
use crate::kit::page::{use_dispatch, use_page};
use crate::state::Action;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem};
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// Ready sets, each with its name in the markup and what stands for it.
const SETS: [(&str, &str, UnitSystem); 3] = [
    (
        "customary",
        tr_later("in, °F, kt, inH₂O"),
        UnitSystem::Customary,
    ),
    ("metric", tr_later("mm, °C, km/h, Pa"), UnitSystem::Metric),
    ("mixed", tr_later("mm, °C, kt, ft, Pa"), UnitSystem::MIXED),
];

/// Each quantity with its field, the dimension that lists its units, and how many are offered.
const ROWS: [(Chosen, &str, &str, Dimension, usize); 11] = [
    (
        Chosen::Length,
        "unit-length",
        tr_later("Lengths, with areas and volumes"),
        Dimension::Length,
        2,
    ),
    (
        Chosen::Altitude,
        "unit-altitude",
        tr_later("Altitude"),
        Dimension::Altitude,
        2,
    ),
    (
        Chosen::Temperature,
        "unit-temperature",
        tr_later("Temperature"),
        Dimension::Temperature,
        2,
    ),
    (
        Chosen::Speed,
        "unit-speed",
        tr_later("Airspeed"),
        Dimension::Speed,
        4,
    ),
    (
        Chosen::Pressure,
        "unit-pressure",
        tr_later("Air pressure, Δp"),
        Dimension::Pressure,
        5,
    ),
    (
        Chosen::Altimeter,
        "unit-altimeter",
        tr_later("Altimeter setting"),
        Dimension::Altimeter,
        2,
    ),
    (
        Chosen::OilPressure,
        "unit-oil-pressure",
        tr_later("Oil pressure"),
        Dimension::OilPressure,
        3,
    ),
    (
        Chosen::Power,
        "unit-power",
        tr_later("Power, with heat"),
        Dimension::Power,
        3,
    ),
    (
        Chosen::AirFlow,
        "unit-air",
        tr_later("Air flow"),
        Dimension::MassFlow,
        4,
    ),
    (
        Chosen::LiquidFlow,
        "unit-liquid",
        tr_later("Fuel and oil flow"),
        Dimension::FuelFlow,
        2,
    ),
    (
        Chosen::Force,
        "unit-force",
        tr_later("Drag"),
        Dimension::Force,
        2,
    ),
];

/// The list in the header; its last entry opens the dialog.
#[function_component]
pub fn UnitsChoice() -> Html {
    let system = use_page(|page| page.system());
    let dispatch = use_dispatch();
    let open = use_state(|| false);
    let ready = SETS.iter().position(|(.., set)| *set == system);
    // What is not ready has an entry of its own.
    let own = usize::from(ready.is_none());
    let at = ready.unwrap_or(SETS.len());
    let on_change = {
        let open = open.setter();
        let dispatch = dispatch.clone();
        Callback::from(move |event: Event| {
            let Some(list) = event.target_dyn_into::<HtmlSelectElement>() else {
                return;
            };
            let place = usize::try_from(list.selected_index()).unwrap_or(0);
            match SETS.get(place) {
                Some((.., set)) => dispatch.emit(Action::Units(*set)),
                None => {
                    list.set_selected_index(at as i32);
                    open.set(true);
                }
            }
        })
    };
    let on_close = {
        let open = open.setter();
        Callback::from(move |()| open.set(false))
    };
    html! {
        <>
            <label class="visually-hidden" for="units">{ tr("Units") }</label>
            <select id="units" onchange={on_change}>
                { for SETS.iter().enumerate().map(|(place, (value, name, _))| html! {
                    <option key={*value} value={*value} selected={place == at}>{ tr(name) }</option>
                }) }
                if own == 1 { <option key="own" value="own" selected=true>{ tr("Own choice") }</option> }
                <option key="each" value="each">{ tr("Choose each unit …") }</option>
            </select>
            if *open {
                <Dialog title={tr("Units")} {on_close}>{ choices(system, &dispatch) }</Dialog>
            }
        </>
    }
}

fn choices(system: UnitSystem, dispatch: &Callback<Action>) -> Html {
    let set = |(_, name, set): (&str, &'static str, UnitSystem)| {
        let press = dispatch.reform(move |_: MouseEvent| Action::Units(set));
        html! { <button type="button" aria-pressed={(set == system).to_string()} onclick={press}>{ tr(name) }</button> }
    };
    let row = |(chosen, id, label, dimension, count): (Chosen, _, _, Dimension, usize)| {
        let units = dimension.units().iter().take(count);
        let dispatch = dispatch.clone();
        let heard = move |place: usize| {
            dispatch.emit(Action::Units(system.with(chosen, place as u8)));
        };
        let names: Vec<String> = units.map(|unit| unit.symbol.to_owned()).collect();
        option_field(id, tr(label), names, system.place(chosen), heard)
    };
    html! {
        <>
            <div class="segments units-sets" role="group" aria-label={tr("Ready sets of units")}>{ for SETS.map(set) }</div>
            <div class="fields">{ for ROWS.map(row) }</div>
            <p class="hint">{ tr("What the design holds stays the same. A unit may be typed with any number.") }</p>
        </>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_quantity_has_a_row_that_changes_its_own_unit_alone() {
        for (at, (chosen, _, label, dimension, count)) in ROWS.into_iter().enumerate() {
            assert_eq!(chosen, Chosen::ALL[at]);
            for place in 0..count {
                let system = UnitSystem::Customary.with(chosen, place as u8);
                assert_eq!(
                    dimension.shown(system),
                    &dimension.units()[place],
                    "{label}"
                );
                for (other, _, _, dimension, _) in ROWS.iter().filter(|row| row.0 != chosen) {
                    assert_eq!(system.place(*other), 0);
                    assert_eq!(dimension.shown(system), &dimension.units()[0], "{label}");
                }
            }
        }
    }
}
