//! The workshop view: templates, areas, gauges.

use crate::design::area::panel::AreaHelper;
use crate::state::{Action, State};
use crate::workshop::cut::panel::CutPanel;
use crate::workshop::gauges::panel::Gauges;
use crate::workshop::photo::PhotoPanel;
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
    /// What editing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        (!self.shown && !other.shown)
            || (self.shown == other.shown && Rc::ptr_eq(&self.state, &other.state))
    }
}

/// The view.
#[function_component]
pub fn WorkshopView(props: &Props) -> Html {
    let Props {
        state,
        design,
        dispatch,
        ..
    } = props;
    let system = state.system;
    html! {
        <div class="workshop" id="paper">
            <CutPanel design={design.clone()} {system} />
            <PhotoPanel design={design.clone()} {system} dispatch={dispatch.clone()} />
            <AreaHelper design={design.clone()} {system} dispatch={dispatch.clone()} />
            <Gauges design={design.clone()} {system} dispatch={dispatch.clone()} />
        </div>
    }
}
