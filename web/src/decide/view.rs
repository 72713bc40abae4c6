//! The decide view: each job as question, answer and picture, then what supports them.

use crate::decide::card::panel::CardPanel;
use crate::decide::chances::SurePanel;
use crate::decide::climb::ClimbPanel;
use crate::decide::compare::panel::ComparePanel;
use crate::decide::minutes::panel::FlightPanel;
use crate::decide::size::panel::SizePanel;
use crate::state::{Action, State};
use coolpath_core::document::design::Design;
use std::rc::Rc;
use yew::prelude::*;

/// What the view needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// Whether the view is shown; while it is not, nothing is worked out.
    pub shown: bool,
    /// State of the page.
    pub state: Rc<State>,
    /// Design.
    pub design: Rc<Design>,
    /// Room for charts, CSS pixels.
    pub width: u32,
    /// What editing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        (!self.shown && !other.shown)
            || (self.shown == other.shown
                && Rc::ptr_eq(&self.state, &other.state)
                && self.width == other.width)
    }
}

/// The view.
#[function_component]
pub fn DecideView(props: &Props) -> Html {
    let Props {
        state,
        design,
        width,
        dispatch,
        ..
    } = props;
    let (system, width, place) = (state.system, *width, state.shown);
    html! {
        <div class="decide">
            <SizePanel design={design.clone()} {system} {width} dispatch={dispatch.clone()} />
            <ComparePanel design={design.clone()} {place} {system} {width} dispatch={dispatch.clone()} />
            <CardPanel design={design.clone()} {place} {system} {width} />
            <ClimbPanel design={design.clone()} {place} {system} />
            <FlightPanel design={design.clone()} {system} state={state.clone()} dispatch={dispatch.clone()} {width} />
            <SurePanel design={design.clone()} {place} {system} {width} />
        </div>
    }
}
