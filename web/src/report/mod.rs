//! Paper that leaves the page: templates, an area from a photograph, the report.

pub mod panel;
pub mod tables;

use crate::design::answers::{BandSet, Outcome};
use crate::report::panel::ReportPanel;
use crate::state::{Action, State};
use crate::workshop::cut::panel::CutPanel;
use crate::workshop::photo::PhotoPanel;
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
    /// Their bands.
    pub bands: Rc<BandSet>,
    /// What editing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.state, &other.state)
            && Rc::ptr_eq(&self.answers, &other.answers)
            && Rc::ptr_eq(&self.bands, &other.bands)
    }
}

/// The part.
#[function_component]
pub fn Paper(props: &Props) -> Html {
    let Props {
        state,
        design,
        answers,
        bands,
        dispatch,
    } = props;
    let system = state.system;
    html! {
        <div class="paper-part" id="paper">
            <h2>{ "Cut and print" }</h2>
            <CutPanel design={design.clone()} {system} />
            <PhotoPanel design={design.clone()} {system} dispatch={dispatch.clone()} />
            <ReportPanel design={design.clone()} answers={answers.clone()} bands={bands.clone()} {system} />
        </div>
    }
}
