//! The plain network that four other programs solved too (`reference/network_crosscheck.csv`), as a cowl for
//! the product's own solver: one plenum, cylinders, leak, oil branch and exit at constant density.
//!
//! A cowl's air is never incompressible, and it has an oil balance. So its air is slow, whose density is the
//! same throughout to 2e-8, and all that is warm is as warm as the air, so that no heat flows.

use coolpath_core::air::atmosphere;
use coolpath_core::answer::prepare::prepare;
use coolpath_core::document::example;
use coolpath_core::engine::heads::{FinResistance, Heads};
use coolpath_core::path::element::{CoolerDuct, Exit, Friction, Inlet};
use coolpath_core::path::network::{
    CoolerBranch, Cowl, Discharge, FreeStream, OilLoop, Opening, Supply,
};
use coolpath_core::path::openings::Openings;
use coolpath_core::path::state::State;

/// Share of the tables' pressures at which a cowl is solved [-]: air of 0.06 m/s. At constant density every
/// flow goes as the root of the pressures.
pub const SLOW: f64 = 1e-6;

/// Density of the tables' air, kg/m³.
pub const DENSITY: f64 = 1.05;

/// Ram that the slow air has, Pa.
pub const RAM: f64 = SLOW * 0.5 * DENSITY * 3600.0;

const AMBIENT_PA: f64 = 1e5;
const VISCOSITY: f64 = 1.85e-5;
const DUCT_M: f64 = 0.1016;

/// The plain network.
#[derive(Debug, Clone, Copy)]
pub struct Plain {
    /// Area of the inlet, m².
    pub inlet_m2: f64,
    /// Area of the exit, m².
    pub exit_m2: f64,
    /// Loss of the shutter [-].
    pub shutter_loss: f64,
    /// The hose is rough and has friction.
    pub rough_hose: bool,
    /// The cylinders follow a power law.
    pub power_law: bool,
}

impl Default for Plain {
    /// The table's network with its shutter at 30°, a smooth hose and quadratic cylinders.
    fn default() -> Self {
        Self {
            inlet_m2: 0.025,
            exit_m2: 0.040,
            shutter_loss: 3.91,
            rough_hose: false,
            power_law: false,
        }
    }
}

/// An inlet of the tables under a ram pressure, Pa.
#[must_use]
pub fn inlet(area_m2: f64, ram_pa: f64) -> Inlet {
    Inlet {
        area_m2,
        ram_pa,
        diffusion_loss: 0.35,
        reverse_loss: 0.35,
        density: DENSITY,
        ..Inlet::default()
    }
}

impl Plain {
    /// The network as a cowl.
    ///
    /// # Panics
    /// If the example cannot be prepared.
    #[must_use]
    pub fn cowl(&self) -> Cowl {
        let design = example::design();
        let base = prepare(&design.installation, &design.conditions[1]).expect("the example");
        let base = base.cowl;
        // T = p / (R ρ)
        let air_k = atmosphere::density(AMBIENT_PA, 1.0) / DENSITY;
        let mut inlets = Openings::default();
        inlets.push(inlet(self.inlet_m2, RAM));
        let mut exits = Openings::default();
        exits.push(Exit {
            area_m2: self.exit_m2,
            discharge: 1.0,
            velocity_coefficient: 1.0,
            outside_pa: -0.1 * RAM,
            jet_cosine: 1.0,
            ejector: None,
        });
        Cowl {
            stream: FreeStream {
                pressure_pa: AMBIENT_PA,
                temperature_k: air_k,
                total_k: air_k,
                density: DENSITY,
                speed_m_s: 0.06,
                dynamic_pa: RAM,
                impact_pa: RAM,
                propeller_rise_pa: 0.0,
            },
            inlets,
            halves: None,
            fins: self.cylinders(),
            heads: Heads {
                gas_k: air_k,
                ..base.heads
            },
            seal_m2: 0.61 * 0.004,
            blast_m2: 0.0,
            overboard: Opening::default(),
            cabin: Opening::default(),
            induction_kg_s: 0.0,
            lower_induction_kg_s: 0.0,
            inflow: Opening::default(),
            cooler: CoolerBranch {
                duct: self.oil_branch(air_k),
                supply: Supply::UpperDeck,
                discharge: Discharge::LowerDeck,
                preheat_share: 0.0,
                ..base.cooler
            },
            exits,
            exhaust_heat_w: 0.0,
            skin_w_k: 0.0,
            oil: OilLoop {
                friction_heat_w: 0.0,
                sump_w_k: 0.0,
                bypass: None,
                ..base.oil
            },
        }
    }

    fn cylinders(&self) -> FinResistance {
        if self.power_law {
            // Δp = 1500 Pa (W / 1.2 kg/s)^1.8 at the table's pressures
            let sigma = DENSITY / atmosphere::DENSITY_SL;
            return FinResistance::through(1500.0 * SLOW * sigma, 1.2 * SLOW.sqrt(), 1.8);
        }
        // Δp = K/(2 ρ A²) W²
        FinResistance {
            constant: 3.0 / (2.0 * atmosphere::DENSITY_SL * 0.030 * 0.030),
            exponent: 2.0,
        }
    }

    /// The oil branch without a core: a duct with its losses.
    fn oil_branch(&self, air_k: f64) -> CoolerDuct {
        let (friction, length_ratio) = if self.rough_hose {
            (Friction::Roughness(0.02), 1.0 / DUCT_M)
        } else {
            (Friction::Factor(0.0), 0.0)
        };
        CoolerDuct {
            area_m2: std::f64::consts::FRAC_PI_4 * DUCT_M * DUCT_M,
            // Nothing but Re = W D/(A μ) reads it: slow air has the table's in a wider duct.
            diameter_m: DUCT_M * atmosphere::viscosity(air_k) / (VISCOSITY * SLOW.sqrt()),
            fittings_loss: 0.6 + 2.0 * 0.25 + 1.0 + 4.0,
            length_ratio,
            friction,
            shutter_passage: 1.0 / self.shutter_loss.sqrt(),
            core_constant: 0.0,
            core_exponent: 2.0,
            face_m2: 1.0,
            behind_loss: 0.0,
        }
    }
}

/// Pressures, Pa, and flows, kg/s, of a state in the table's columns, at the table's own speed.
#[must_use]
pub fn figures(state: &State) -> [(&'static str, f64); 6] {
    let by = SLOW.sqrt();
    [
        ("plenum_pa", state.trial.upper_pa / SLOW),
        ("lower_pa", state.trial.lower_pa / SLOW),
        ("total_kg_s", state.inlets[0] / by),
        ("cylinder_kg_s", state.fins.flow_kg_s / by),
        ("leak_kg_s", state.seal_kg_s / by),
        ("oil_kg_s", state.cooler.flow_kg_s / by),
    ]
}
