//! Cooling drag by the momentum theorem.
//!
//! The control volume is the stream tube of all air that enters the cowl, from far upstream to
//! where each stream leaves. What enters carries V_s = √(V₀² + 2 s (T/A)/ρ), the speed at which it
//! would leave if nothing were lost: air that carries a share of the propeller's work must give it
//! back. Each stream leaves once, and is charged where it leaves:
//!
//! ```text
//! D = Σ W_in V_s − Σ jets [W C_v V₅ cos θ + (p₅ − p₀) A_j]          A_j = A C_d / C_v
//!   = Σ jets [W (V_s − C_v V₅ cos θ) − (p₅ − p₀) A_j] + Σ others W V_s
//! ```
//!
//! The second line holds since Σ W_in = Σ W_out. Jets are the exits and the cooler's own; the others,
//! whose speed is lost, are what leaks overboard, out of the lower deck, goes to the cabin, or runs
//! out backward through an inlet. Induction air leaves through the engine, which pays for it.
//!
//! Air that enters backward through an exit leaves elsewhere and is paid for there; the exit itself
//! keeps (p₅ − p₀) A_j, for that pressure stands over the opening whichever way the air goes, and
//! the drag is steady through no flow. So does an augmentor keep what its exhaust loses as it fills the
//! tube without drawing anything. Such air, and what leaks in, may have missed the propeller:
//! charged with V_s it pays at most W (V_s − V₀) too much.
//!
//! Spillage, D_s = k_s ½ ρ A₁ (V₀ − V₁)² at each inlet, the cooler's own among them, and open flaps
//! come on top.
//!
//! # Sources
//! Momentum theorem: textbook; that its power is never below the pumping power: Becker, The
//! High-Speed Frontier, NASA SP-445, ch. 5 (checked in the tests). Spillage and flap shares are
//! from memory. The result is an estimate.

use crate::path::element::{Exit, Inlet};
use crate::path::network::{Cowl, Discharge, Supply};
use crate::path::state::State;

/// Cooling drag and its parts, N.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Drag {
    /// Momentum and pressure at the exits.
    pub exits_n: f64,
    /// Momentum lost by air that leaves without a jet: leaks, cabin, backward through an inlet.
    pub overboard_n: f64,
    /// Air turned away at the inlets.
    pub spillage_n: f64,
    /// External drag of open flaps.
    pub flap_n: f64,
}

impl Drag {
    /// Sum of the parts, N.
    ///
    /// # Example
    /// 20 + 5 + 3 + 2 N:
    /// ```
    /// use coolpath_core::path::drag::Drag;
    ///
    /// let drag = Drag { exits_n: 20.0, overboard_n: 5.0, spillage_n: 3.0, flap_n: 2.0 };
    /// assert_eq!(drag.total_n(), 30.0);
    /// ```
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
///
/// # Example
/// 30 of 1000 N at 80 m/s, a quarter of it induced: 80 · 30/(2 · 1000) m/s:
/// ```
/// use coolpath_core::path::drag::speed_cost;
///
/// assert_eq!(speed_cost(80.0, 30.0, 0.25, 1000.0), Some(1.2));
/// assert_eq!(speed_cost(80.0, 30.0, 0.25, 0.0), None);
/// ```
#[must_use]
pub fn speed_cost(speed_m_s: f64, drag_n: f64, induced_share: f64, thrust_n: f64) -> Option<f64> {
    // ΔV = V D / ((3 − 4 i) D_total)
    (thrust_n > 0.0).then(|| speed_m_s * drag_n / ((3.0 - 4.0 * induced_share) * thrust_n))
}

/// Speed, m/s, at which the entering air would leave without loss.
///
/// # Example
/// 30 m/s of flight and 800 Pa of the propeller in air of 1 kg/m³: √(900 + 1600) m/s:
/// ```
/// use coolpath_core::answer::prepare::{PrepareError, prepare};
/// use coolpath_core::document::example;
/// use coolpath_core::path::drag::lossless_speed;
///
/// let design = example::design();
/// let mut cowl = prepare(&design.installation, &design.conditions[1])?.cowl;
/// cowl.stream.speed_m_s = 30.0;
/// cowl.stream.propeller_rise_pa = 800.0;
/// cowl.stream.density = 1.0;
/// assert!((lossless_speed(&cowl) - 50.0).abs() < 1e-12);
/// # Ok::<(), PrepareError>(())
/// ```
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
        drag.exits_n += exit_drag(exit, flow.flow_kg_s, flow.speed_m_s, lossless);
    }
    let cooler_kg_s = state.cooler.flow_kg_s;
    if let Discharge::OwnExit(exit) = cowl.cooler.discharge {
        drag.exits_n += exit_drag(&exit, cooler_kg_s, state.cooler_jet_m_s, lossless);
    }
    let out_of_inlets: f64 = state.inlets.iter().map(|flow| (-flow).max(0.0)).sum();
    let out_of_cooler_inlet = match cowl.cooler.supply {
        Supply::OwnInlet(_) => (-cooler_kg_s).max(0.0),
        Supply::UpperDeck => 0.0,
    };
    drag.overboard_n = lossless
        * (state.overboard_kg_s.max(0.0)
            + state.cabin_kg_s.max(0.0)
            + (-state.inflow_kg_s).max(0.0)
            + out_of_inlets
            + out_of_cooler_inlet);
    let spilled = |inlet: &Inlet, flow_kg_s: f64| {
        let face = flow_kg_s.max(0.0) / (stream.density * inlet.area_m2);
        let turned = (stream.speed_m_s - face).max(0.0);
        // D_s = k_s ½ ρ A₁ (V₀ − V₁)²
        spillage_share * 0.5 * stream.density * inlet.area_m2 * turned * turned
    };
    for (inlet, flow) in cowl.inlets.as_slice().iter().zip(&state.inlets) {
        drag.spillage_n += spilled(inlet, *flow);
    }
    if let Supply::OwnInlet(inlet) = cowl.cooler.supply {
        drag.spillage_n += spilled(&inlet, cooler_kg_s);
    }
    drag.flap_n = flap_drag_m2 * stream.dynamic_pa;
    drag
}

/// Drag of one exit, N: its jet, and the pressure over its opening.
fn exit_drag(exit: &Exit, flow_kg_s: f64, ideal_m_s: f64, lossless_m_s: f64) -> f64 {
    // What enters here backward is charged where it leaves.
    let leaving = flow_kg_s.max(0.0);
    let jet = exit.velocity_coefficient * ideal_m_s;
    // What an augmentor takes from the exhaust's own push counts against it, also where it draws nothing.
    let alone_n = match exit.ejector {
        Some(ejector) if leaving <= 0.0 => ejector.added_momentum_n(0.0, exit.area_m2, 0.0),
        _ => 0.0,
    };
    // W (V_s − C_v V₅ cos θ) − (p₅ − p₀) A_j
    leaving * (lossless_m_s - jet * exit.jet_cosine)
        - exit.velocity_coefficient * alone_n * exit.jet_cosine
        - exit.outside_pa * exit.jet_area_m2()
}
