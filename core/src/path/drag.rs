//! Cooling drag by the momentum theorem.
//!
//! D = Σ over exits [W V_s − W V₅ cos θ − (p₅ − p₀) A₅] + overboard W V_s + spillage + flap, where
//! V_s = √(V₀² + 2 s (T/A)/ρ) is the speed at which the air would leave if nothing were lost: air
//! that carries a share of the propeller's work must give it back.
//!
//! # Sources
//! Momentum theorem: textbook; that its power is never below the pumping power: Becker, The
//! High-Speed Frontier, NASA SP-445, ch. 5 (checked in the tests). Spillage and flap shares are
//! from memory. The result is an estimate.

use crate::path::network::{Cowl, Discharge};
use crate::path::state::State;

/// Cooling drag and its parts, N.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Drag {
    /// Momentum and pressure at the exits.
    pub exits_n: f64,
    /// Momentum lost by air that leaks overboard or goes to the cabin.
    pub overboard_n: f64,
    /// Air turned away at the inlets.
    pub spillage_n: f64,
    /// External drag of open flaps.
    pub flap_n: f64,
}

impl Drag {
    /// Sum of the parts, N.
    #[must_use]
    pub fn total_n(&self) -> f64 {
        self.exits_n + self.overboard_n + self.spillage_n + self.flap_n
    }
}

/// Speed, m/s, that a drag costs in level flight at constant power; `None` without thrust.
///
/// # Arguments
/// * `speed_m_s` - true airspeed, m/s
/// * `drag_n` - the drag, N, or a change of it
/// * `induced_share` - induced over total drag [-]
/// * `thrust_n` - thrust, equal to the total drag in level flight, N
#[must_use]
pub fn speed_cost(speed_m_s: f64, drag_n: f64, induced_share: f64, thrust_n: f64) -> Option<f64> {
    // ΔV = V D / ((3 − 4 i) D_total)
    (thrust_n > 0.0).then(|| speed_m_s * drag_n / ((3.0 - 4.0 * induced_share) * thrust_n))
}

/// Speed, m/s, at which the entering air would leave without loss.
#[must_use]
pub fn lossless_speed(cowl: &Cowl) -> f64 {
    let stream = &cowl.stream;
    // V_s = √(V₀² + 2 s (T/A) / ρ)
    (stream.speed_m_s * stream.speed_m_s + 2.0 * stream.propeller_rise_pa / stream.density).sqrt()
}

/// Cooling drag of a state.
///
/// # Arguments
/// * `spillage_share` - k_s [-]
/// * `flap_drag_m2` - drag area of the open flaps, m²
#[must_use]
pub fn cooling_drag(cowl: &Cowl, state: &State, spillage_share: f64, flap_drag_m2: f64) -> Drag {
    let lossless = lossless_speed(cowl);
    let stream = &cowl.stream;
    let mut drag = Drag::default();
    for (exit, flow) in cowl.exits.as_slice().iter().zip(&state.exits) {
        // An exit that draws air in gives no jet: what it draws loses all its speed.
        let (jet, taken) = if flow.flow_kg_s >= 0.0 {
            (flow.speed_m_s * exit.jet_cosine, flow.flow_kg_s)
        } else {
            (0.0, -flow.flow_kg_s)
        };
        drag.exits_n += taken * (lossless - jet) - exit.outside_pa * exit.area_m2;
    }
    if let Discharge::OwnExit(exit) = cowl.cooler.discharge {
        let flow = state.cooler.flow_kg_s;
        let jet = state.cooler_jet_m_s.max(0.0);
        drag.exits_n += flow.abs() * (lossless - jet) - exit.outside_pa * exit.area_m2;
    }
    drag.overboard_n = (state.overboard_kg_s.max(0.0) + state.cabin_kg_s.max(0.0)) * lossless;
    for (inlet, flow) in cowl.inlets.as_slice().iter().zip(&state.inlets) {
        let face = flow.max(0.0) / (stream.density * inlet.area_m2);
        let turned = (stream.speed_m_s - face).max(0.0);
        // D_s = k_s ½ ρ A₁ (V₀ − V₁)²
        drag.spillage_n += spillage_share * 0.5 * stream.density * inlet.area_m2 * turned * turned;
    }
    drag.flap_n = flap_drag_m2 * stream.dynamic_pa;
    drag
}
