//! What of a state is compared with another, live or kept.

use crate::state::page::{Drafts, Snapshot, State};
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;

/// A state as it is compared.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// Design.
    pub design: &'a Design,
    /// Typed texts.
    pub drafts: &'a Drafts,
    /// Units shown.
    pub system: UnitSystem,
}

impl<'a> From<&'a State> for View<'a> {
    fn from(state: &'a State) -> Self {
        Self {
            design: &state.design,
            drafts: &state.drafts,
            system: state.system,
        }
    }
}

impl<'a> From<&'a Snapshot> for View<'a> {
    fn from(snapshot: &'a Snapshot) -> Self {
        Self {
            design: &snapshot.design,
            drafts: &snapshot.drafts,
            system: snapshot.system,
        }
    }
}
