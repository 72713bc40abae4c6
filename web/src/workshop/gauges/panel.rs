//! "Gauges": an airspeed indicator across the baffles, taps, and the blow-down test.

use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::panel_field::PanelField;
use crate::part;
use crate::state::panel_texts::{key, typed_or};
use crate::state::{Action, FieldKey};
use crate::workshop::gauges::words;
use coolpath_core::language::tr;
use coolpath_core::units::typed::Dimension;
use yew::prelude::*;

/// The panel.
#[function_component]
pub fn Gauges() -> Html {
    let (discharge, system) = use_page(|page| {
        let decks = &page.design.installation.decks;
        (decks.leak_discharge, page.system())
    });
    let dispatch = use_dispatch();
    let [drop, flow, deck] = use_page(|page| {
        [
            ("gauge-drop", "6.0"),
            ("gauge-flow", ""),
            ("gauge-deck", ""),
        ]
        .map(|(id, usual)| typed_or(&page.state, id, usual))
    });
    let pressure = Dimension::Pressure.shown(system).symbol;
    let leak = if flow.is_empty() && deck.is_empty() {
        None
    } else {
        Some(words::leak(&flow, &deck, discharge, system))
    };
    html! {
        <details class="section" id="gauges" open={true}>
            <summary>{ tr("Gauges: Δp on an airspeed indicator, taps, blow-down test") }</summary>
            <div class="fields">{ part!(PanelField { of: key("gauge-drop"), label: tr!("Δp across the baffles ({})", pressure), usual: "6.0" }) }</div>
            { match words::reading_of(&drop, system) {
                Ok(said) => html! { <p class="headline">{ said }</p> },
                Err(fault) => html! { <p class="fault" role="alert">{ fault }</p> },
            } }
            <details>
                <summary>{ tr("Strip for the instrument") }</summary>
                <table>
                    <thead><tr><th scope="col">{ tr("Indicator") }</th><th scope="col">{ "Δp" }</th></tr></thead>
                    <tbody>{ for words::strip(system).into_iter().map(|(reading, pressure)| html! {
                        <tr><th scope="row">{ reading }</th><td>{ pressure }</td></tr>
                    }) }</tbody>
                </table>
            </details>
            <h3>{ tr("Where to put the taps") }</h3>
            <ul>
                <li>{ tr("Upper deck: to the pitot side. A tube end square to its wall, away from the inlets' jets, such as high at the rear baffle.") }</li>
                <li>{ tr("Lower deck: to the static side. Behind the cylinders, out of the fins' jets and away from the exhaust; not at the exit lip.") }</li>
                <li>{ tr("A piece of sponge or a few small holes in a closed tube end keep the flow from blowing into it. Keep tubes clear of the exhaust and of sharp edges.") }</li>
                <li>{ tr("Use a spare instrument, not the aircraft's own pitot and static lines.") }</li>
            </ul>
            <h3>{ tr("Blow-down test of the upper deck") }</h3>
            <p class="hint">{ tr("Close the inlets, blow a known flow of air into the upper deck, and read its pressure above the room. The cylinders' fins must be covered, or what passes them counts as leak.") }</p>
            <div class="fields">
                { part!(PanelField { of: key("gauge-flow"), label: tr!("Air flow of the blower ({})", system.air_volume_flow().0) }) }
                { part!(PanelField { of: key("gauge-deck"), label: tr!("Pressure in the deck ({})", pressure) }) }
            </div>
            { match leak {
                None => Html::default(),
                Some(Err(fault)) => html! { <p class="fault" role="alert">{ fault }</p> },
                Some(Ok(area_m2)) => html! {
                    <>
                        <p class="headline">{ tr!("Leak area {}", format::quantity(area_m2, Dimension::Area, system, 3)) }</p>
                        <p class="hint">{ tr!("With a discharge coefficient of {:.2} (sharp-edged orifice).", discharge) }</p>
                        <button type="button" onclick={take(&dispatch, area_m2)}>{ tr("Use it as the measured leak") }</button>
                    </>
                },
            } }
        </details>
    }
}

/// Chooses "known from a test" and sets the area.
fn take(dispatch: &Callback<Action>, area_m2: f64) -> Callback<MouseEvent> {
    let dispatch = dispatch.clone();
    Callback::from(move |_: MouseEvent| {
        dispatch.emit(Action::Choose {
            id: "decks.sealing",
            place: 0,
            option: "measured_leak".to_owned(),
        });
        dispatch.emit(Action::Set {
            key: FieldKey::new("decks.measured_leak_m2", 0),
            value: area_m2,
        });
    })
}
