//! Another way to build the same aeroplane, kept beside the design.

use crate::document::installation::Installation;
use serde::{Deserialize, Serialize};

/// Most alternatives of one design.
pub const MAX_ALTERNATIVES: usize = 4;

/// Another way to build the same aeroplane.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Alternative {
    /// What the builder calls it.
    pub name: String,
    /// The installation.
    pub installation: Installation,
}
