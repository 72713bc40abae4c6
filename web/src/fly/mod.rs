//! Proving it in flight: readings, logs, calibration, corrections, cards.

pub mod before_after;
pub mod calibrate;
pub mod changes;
pub mod hot_day;
pub mod log;
pub mod next_flight;
pub mod path;
mod reading_cells;
pub mod readings;
pub mod sick;
pub mod test_cards;
mod test_point;
pub mod used_for;
mod whole_flights;

use crate::fly::before_after::BeforeAfterPanel;
use crate::fly::calibrate::CalibratePanel;
use crate::fly::changes::ChangesPanel;
use crate::fly::hot_day::HotDayPanel;
use crate::fly::log::panel::LogPanel;
use crate::fly::next_flight::panel::NextFlightPanel;
use crate::fly::path::Next;
use crate::fly::readings::ReadingsPanel;
use crate::fly::test_cards::panel::CardsPanel;
use crate::kit::page::use_page;
use crate::kit::shared::Shared;
use crate::part;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use yew::prelude::*;

/// The part of the page that is used after the first flight.
#[function_component]
pub fn FlightTest() -> Html {
    let design = use_page(|page| page.design.clone());
    // The last check, and the design that it was of.
    let held = use_state(|| None::<(Shared<Design>, String)>);
    let on_checked = {
        let held = held.clone();
        Callback::from(move |found| held.set(Some(found)))
    };
    let next = path::next(&design);
    let (count, fitted) = (design.readings.len(), design.calibrated.len());
    let told = held.as_ref().filter(|(of, _)| *of == design);
    let checked = told.map_or_else(|| path::check(&design), |(_, said)| said.clone());
    let ready = if count > 0 {
        tr("ready").to_owned()
    } else {
        tr("needs readings").to_owned()
    };
    html! {
        <div class="flight-part" id="flight-test">
            <ol class="steps">
                { step(1, tr("Fly by a card"), tr("prints").to_owned(), true, part!(CardsPanel)) }
                { step(2, tr("Take readings, or open a log"), path::readings(&design), count > 0, html! { <>
                    { part!(LogPanel) }
                    { part!(ReadingsPanel { next: next == Next::Readings }) }
                </> }) }
                { step(3, tr("Fit the model to them"), path::fit(&design), fitted > 0, part!(CalibratePanel { next: next == Next::Fit })) }
                { step(4, tr("Check it on the next flight"), checked, told.is_some(), part!(NextFlightPanel { next: next == Next::Check, on_checked })) }
                { step(5, tr("Correct to a hot day"), ready, false, part!(HotDayPanel)) }
                { step(6, tr("Judge a change: before and after"), path::sets(&design), false, html! { <>
                    { part!(BeforeAfterPanel) }
                    { part!(ChangesPanel) }
                </> }) }
            </ol>
        </div>
    }
}

/// One step of the path with its state.
fn step(number: usize, title: &'static str, state: String, done: bool, content: Html) -> Html {
    html! {
        <li class={classes!("step", done.then_some("step-done"))}>
            <div class="step-head">
                <span class="step-number" aria-hidden="true">{ number }</span>
                <h2>{ title }</h2>
                <span class="step-state">{ state }</span>
            </div>
            { content }
        </li>
    }
}
