//! Proving it in flight: readings, logs, calibration, corrections, cards.

pub mod before_after;
pub mod calibrate;
pub mod changes;
pub mod hot_day;
pub mod log;
pub mod readings;
pub mod test_cards;

use crate::fly::before_after::BeforeAfterPanel;
use crate::fly::calibrate::CalibratePanel;
use crate::fly::changes::ChangesPanel;
use crate::fly::hot_day::HotDayPanel;
use crate::fly::log::panel::LogPanel;
use crate::fly::readings::ReadingsPanel;
use crate::fly::test_cards::panel::CardsPanel;
use crate::kit::page::use_page;
use yew::prelude::*;

/// The part of the page that is used after the first flight.
#[function_component]
pub fn FlightTest() -> Html {
    let (count, fitted) =
        use_page(|page| (page.design.readings.len(), page.design.calibrated.len()));
    let readings = match count {
        0 => "none yet".to_owned(),
        1 => "1 reading".to_owned(),
        count => format!("{count} readings"),
    };
    let fit = match fitted {
        0 if count == 0 => "needs readings".to_owned(),
        0 => "ready".to_owned(),
        fitted => format!("{fitted} values fitted"),
    };
    let ready = |least: usize| {
        if count >= least {
            "ready".to_owned()
        } else {
            "needs readings".to_owned()
        }
    };
    html! {
        <div class="flight-part" id="flight-test">
            <ol class="steps">
                { step(1, "Fly by a card", "prints".to_owned(), true, html! { <CardsPanel /> }) }
                { step(2, "Take readings, or open a log", readings, count > 0, html! { <>
                    <LogPanel />
                    <ReadingsPanel />
                </> }) }
                { step(3, "Fit the model to them", fit, fitted > 0, html! { <CalibratePanel /> }) }
                { step(4, "Check against a hot day", ready(1), false, html! { <HotDayPanel /> }) }
                { step(5, "Judge a change: before and after", ready(2), false, html! { <>
                    <BeforeAfterPanel />
                    <ChangesPanel />
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
