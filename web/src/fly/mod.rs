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
        Rc::ptr_eq(&self.state, &other.state)
            && Rc::ptr_eq(&self.answers, &other.answers)
            && self.width == other.width
            && self.dropped == other.dropped
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
    } = props;
    let (system, width) = (state.system, *width);
    html! {
        <div class="flight-part" id="flight-test">
            <h2>{ "Prove it in flight" }</h2>
            <CardsPanel design={design.clone()} answers={answers.clone()} {system} />
            <ReadingsPanel state={state.clone()} dispatch={dispatch.clone()} />
            <LogPanel dropped={dropped.clone()} {system} {width} dispatch={dispatch.clone()} />
            <CalibratePanel design={design.clone()} {system} {width} dispatch={dispatch.clone()} />
            <HotDayPanel design={design.clone()} {system} />
            <BeforeAfterPanel design={design.clone()} place={state.shown} {system} />
            <ChangesPanel design={design.clone()} dispatch={dispatch.clone()} />
        </div>
    }
}
