//! Where an exit lies, as far as the pressure outside it goes by that.

use serde::{Deserialize, Serialize};

/// Where an exit lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ExitPlace {
    /// Not said: the pressure coefficients are typed.
    #[default]
    Typed,
    /// In the belly, well ahead of the wing's leading edge.
    Belly,
    /// Under the wing, behind its leading edge.
    UnderWing,
    /// At the lower edge of the firewall.
    Firewall,
    /// In the side of the cowl, at the wing root.
    WingRoot,
}

impl ExitPlace {
    pub(super) fn is_typed(&self) -> bool {
        *self == Self::Typed
    }
}
