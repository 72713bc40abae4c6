//! The report view.

pub mod panel;
pub mod tables;

use crate::design::answers::{BandSet, Outcome};
use crate::report::panel::ReportPanel;
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use std::rc::Rc;
use yew::prelude::*;

/// What the view needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// Whether the view is shown; while it is not, nothing is worked out.
    pub shown: bool,
    /// Design.
    pub design: Rc<Design>,
    /// Its answers.
    pub answers: Rc<Vec<Outcome>>,
    /// Their bands.
    pub bands: Rc<BandSet>,
    /// Units.
    pub system: UnitSystem,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        (!self.shown && !other.shown)
            || (self.shown == other.shown
                && Rc::ptr_eq(&self.answers, &other.answers)
                && Rc::ptr_eq(&self.bands, &other.bands)
                && self.system == other.system)
    }
}

/// The view.
#[function_component]
pub fn ReportView(props: &Props) -> Html {
    let Props {
        design,
        answers,
        bands,
        system,
        ..
    } = props;
    html! {
        <ReportPanel design={design.clone()} answers={answers.clone()} bands={bands.clone()} system={*system} />
    }
}
