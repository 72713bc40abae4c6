//! Why: cooling drag and its parts.

use crate::answer::solved::Solved;
use crate::answer::why::derivation::{Derivation, term};
use crate::language::tr;
use crate::path::drag::cooling_drag;
use crate::units::typed::Dimension;

pub(super) fn drag(solved: &Solved) -> Derivation {
    let prepared = &solved.prepared;
    let parts = cooling_drag(
        &prepared.cowl,
        &solved.solution.state,
        prepared.spillage,
        prepared.flap_drag_m2,
    );
    Derivation {
        answer: tr("Cooling drag"),
        symbol: "D",
        equation: "D = D_exits + D_overboard + D_spillage + D_flap",
        source: tr("momentum theorem; spillage and flap from memory"),
        terms: vec![
            term(
                "D_exits",
                "Σ W (V_s − C_v V₅ cos θ) − (p₅ − p₀) A_j",
                parts.exits_n,
                Dimension::Force,
                None,
            ),
            term(
                "D_overboard",
                tr("leaks, cabin air, air out of an inlet: W V_s"),
                parts.overboard_n,
                Dimension::Force,
                None,
            ),
            term(
                "D_spillage",
                tr("air turned away at the inlets"),
                parts.spillage_n,
                Dimension::Force,
                Some("airframe.spillage"),
            ),
            term(
                "D_flap",
                tr("open flaps"),
                parts.flap_n,
                Dimension::Force,
                None,
            ),
        ],
        value: parts.total_n(),
        dimension: Dimension::Force,
        recompute: |t| t[0] + t[1] + t[2] + t[3],
    }
}
