//! The plain network that four other programs solved too (`reference/network_crosscheck.csv`).

use coolpath_core::path::decks::TwoDecks;
use coolpath_core::path::element::orifice_flow;
use coolpath_core::path::loss::friction_factor;

/// The plain network of one plenum, cylinders, leak, oil branch and exit at constant density.
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

const DENSITY: f64 = 1.05;
const VISCOSITY: f64 = 1.85e-5;
const RAM: f64 = 0.5 * DENSITY * 3600.0;
const DUCT_M: f64 = 0.1016;

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

fn through(loss: f64, area: f64, drop: f64) -> f64 {
    orifice_flow(area / loss.sqrt(), drop, DENSITY)
}

impl Plain {
    /// Flow through the cylinders, kg/s, at a drop, Pa.
    pub fn cylinders(&self, drop: f64) -> f64 {
        if self.power_law {
            // Δp = 1500 Pa (ṁ/1.2)^1.8
            return (1.2 * (drop.abs() / 1500.0).powf(1.0 / 1.8)).copysign(drop);
        }
        through(3.0, 0.030, drop)
    }

    /// Flow past the seals, kg/s.
    pub fn leak(drop: f64) -> f64 {
        through(1.0 / (0.61 * 0.61), 0.004, drop)
    }

    /// Flow through the oil branch, kg/s.
    pub fn oil(&self, drop: f64) -> f64 {
        let area = std::f64::consts::FRAC_PI_4 * DUCT_M * DUCT_M;
        let fittings = 0.6 + 2.0 * 0.25 + self.shutter_loss + 1.0 + 4.0;
        let mut loss = fittings;
        let mut flow = through(loss, area, drop);
        if self.rough_hose {
            for _ in 0..60 {
                let reynolds = flow.abs() * DUCT_M / (area * VISCOSITY);
                loss = fittings + friction_factor(reynolds, 0.02) * 1.0 / DUCT_M;
                let next = through(loss, area, drop);
                if (next - flow).abs() <= 1e-15 * flow.abs() {
                    break;
                }
                flow = next;
            }
        }
        flow
    }

    /// Flow between the decks, kg/s.
    pub fn between(&self, drop: f64) -> f64 {
        self.cylinders(drop) + Self::leak(drop) + self.oil(drop)
    }
}

impl TwoDecks for Plain {
    fn upper_balance(&self, upper_pa: f64, lower_pa: f64) -> f64 {
        through(0.35, self.inlet_m2, RAM - upper_pa) - self.between(upper_pa - lower_pa)
    }

    fn lower_balance(&self, upper_pa: f64, lower_pa: f64) -> f64 {
        self.between(upper_pa - lower_pa) - through(1.0, self.exit_m2, lower_pa + 0.1 * RAM)
    }

    fn pressure_bounds(&self) -> (f64, f64) {
        (-0.1 * RAM, RAM)
    }

    fn pressure_floor(&self) -> f64 {
        f64::NEG_INFINITY
    }
}
