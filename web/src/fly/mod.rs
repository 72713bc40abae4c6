//! Proving it in flight: readings, logs, calibration, corrections, cards.

pub mod before_after;
pub mod calibrate;
pub mod changes;
pub mod hot_day;
pub mod log;
pub mod readings;
pub mod test_cards;

use crate::design::answers::Outcome;
use crate::fly::before_after::BeforeAfterPanel;
use crate::fly::calibrate::CalibratePanel;
use crate::fly::changes::ChangesPanel;
use crate::fly::hot_day::HotDayPanel;
use crate::fly::log::panel::LogPanel;
use crate::fly::readings::ReadingsPanel;
use crate::fly::test_cards::panel::CardsPanel;
use crate::state::{Action, State};
use coolpath_core::document::design::Design;
use std::rc::Rc;
use yew::prelude::*;

/// What the part needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// Whether the view is shown; while it is not, nothing is worked out.
    pub shown: bool,
    /// State of the page.
    pub state: Rc<State>,
    /// Design.
    pub design: Rc<Design>,
    /// Its answers.
    pub answers: Rc<Vec<Outcome>>,
    /// Room for charts, CSS pixels.
    pub width: u32,
    /// A log that was dropped on the page.
    pub dropped: Option<web_sys::File>,
    /// What editing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        (!self.shown && !other.shown && self.dropped == other.dropped)
            || (self.shown == other.shown
                && Rc::ptr_eq(&self.state, &other.state)
                && Rc::ptr_eq(&self.answers, &other.answers)
                && self.width == other.width
                && self.dropped == other.dropped)
    }
}

/// The part of the page that is used after the first flight.
#[function_component]
pub fn FlightTest(props: &Props) -> Html {
    let Props {
        state,
        design,
        answers,
        width,
        dropped,
        dispatch,
        ..
    } = props;
    let (system, width) = (state.system, *width);
    let count = design.readings.len();
    let readings = match count {
        0 => "none yet".to_owned(),
        1 => "1 reading".to_owned(),
        count => format!("{count} readings"),
    };
    let fitted = match design.calibrated.len() {
        0 if count == 0 => "needs readings".to_owned(),
        0 => "ready".to_owned(),
        count => format!("{count} values fitted"),
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
                { step(1, "Fly by a card", "prints".to_owned(), true, html! {
                    <CardsPanel design={design.clone()} answers={answers.clone()} {system} />
                }) }
                { step(2, "Take readings, or open a log", readings, count > 0, html! { <>
                    <LogPanel dropped={dropped.clone()} {system} {width} dispatch={dispatch.clone()} />
                    <ReadingsPanel state={state.clone()} dispatch={dispatch.clone()} />
                </> }) }
                { step(3, "Fit the model to them", fitted, !design.calibrated.is_empty(), html! {
                    <CalibratePanel design={design.clone()} {system} {width} dispatch={dispatch.clone()} />
                }) }
                { step(4, "Check against a hot day", ready(1), false, html! {
                    <HotDayPanel design={design.clone()} {system} />
                }) }
                { step(5, "Judge a change: before and after", ready(2), false, html! { <>
                    <BeforeAfterPanel design={design.clone()} place={state.shown} {system} />
                    <ChangesPanel design={design.clone()} dispatch={dispatch.clone()} />
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
