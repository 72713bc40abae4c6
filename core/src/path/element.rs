//! Elements of the air path: inlet, opening, duct, exit.
//!
//! Pressures are gauge to the free stream's static pressure unless a name says `absolute`.

use crate::air::atmosphere;
use crate::math::fast_power::fast_power;
use crate::path::ejector::Ejector;
use crate::path::inlet_map::Incidence;

/// One inlet, from the free stream into the upper deck.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Inlet {
    /// Area of the opening, m².
    pub area_m2: f64,
    /// Total pressure that stands before the opening, Pa gauge.
    pub ram_pa: f64,
    /// Loss of the lip [-] on the excess of the velocity over the approach speed.
    pub lip_loss: f64,
    /// What is lost of the dynamic pressure at the face: diffuser and dump [-].
    pub diffusion_loss: f64,
    /// Loss of the flow when it runs out through the inlet [-].
    pub reverse_loss: f64,
    /// Density in the opening, kg/m³.
    pub density: f64,
    /// The angle at which the stream meets the opening.
    pub incidence: Incidence,
}

impl Inlet {
    /// Speed, m/s, at which the ram pressure brings the air to the opening.
    ///
    /// # Example
    /// √(2 · 800/1) m/s:
    /// ```
    /// use coolpath_core::path::element::Inlet;
    ///
    /// let inlet = Inlet { ram_pa: 800.0, density: 1.0, ..Inlet::default() };
    /// assert!((inlet.approach_speed() - 40.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn approach_speed(&self) -> f64 {
        // V_a = √(2 H₀ / ρ)
        (2.0 * self.ram_pa.max(0.0) / self.density).sqrt()
    }

    /// Mass flow, kg/s, into an upper deck at `deck_pa` with `deck_density`, kg/m³; negative when
    /// the deck blows out.
    ///
    /// # Example
    /// Half of the face's dynamic pressure is lost: 200 Pa carry √(2 · 200/½) m/s, still slower
    /// than the air approaches, so that the lip costs nothing:
    /// ```
    /// use coolpath_core::path::element::Inlet;
    ///
    /// let inlet = Inlet {
    ///     area_m2: 0.02,
    ///     ram_pa: 800.0,
    ///     lip_loss: 1.0,
    ///     diffusion_loss: 0.5,
    ///     reverse_loss: 1.5,
    ///     density: 1.0,
    ///     ..Inlet::default()
    /// };
    /// assert!((inlet.flow(600.0, 1.0) - 0.02 * 800_f64.sqrt()).abs() < 1e-12);
    /// // A deck 75 Pa above the ram blows out: √(2 · 75/1.5) m/s.
    /// assert!((inlet.flow(875.0, 1.0) + 0.02 * 10.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn flow(&self, deck_pa: f64, deck_density: f64) -> f64 {
        let head_pa = self.ram_pa - deck_pa;
        if head_pa < 0.0 {
            let speed = (-2.0 * head_pa / (deck_density * self.reverse_loss)).sqrt();
            return -deck_density * self.area_m2 * speed;
        }
        self.density * self.area_m2 * self.face_speed(head_pa)
    }

    /// Total pressure, Pa, that a flow uses up, kg/s: what [`Self::flow`] makes of it backward.
    ///
    /// # Example
    /// At 60 m/s, 20 m/s above the approach: ½ (0.5 · 3600 + 1 · 400) Pa:
    /// ```
    /// use coolpath_core::path::element::Inlet;
    ///
    /// let inlet = Inlet {
    ///     area_m2: 0.02,
    ///     ram_pa: 800.0,
    ///     lip_loss: 1.0,
    ///     diffusion_loss: 0.5,
    ///     reverse_loss: 1.5,
    ///     density: 1.0,
    ///     ..Inlet::default()
    /// };
    /// assert!((inlet.drop(0.02 * 60.0, 1.0) - 1100.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn drop(&self, flow_kg_s: f64, deck_density: f64) -> f64 {
        if flow_kg_s < 0.0 {
            return loss_drop(self.reverse_loss, flow_kg_s, self.area_m2, deck_density);
        }
        let speed = flow_kg_s / (self.density * self.area_m2);
        let approach = self.approach_speed();
        // Δ = ½ρ (a V² + K max(0, V − V_a)²), and what the stream's angle costs
        let used = self.used(speed, approach) + self.incidence.lost(speed, approach);
        0.5 * self.density * used
    }

    /// What a speed in the opening, m/s, uses up in a stream square to it, as a speed squared, m²/s².
    fn used(&self, speed: f64, approach: f64) -> f64 {
        let excess = (speed - approach).max(0.0);
        self.diffusion_loss * speed * speed + self.lip_loss * excess * excess
    }

    /// Velocity in the opening, m/s, that uses up a total-pressure difference, Pa.
    fn face_speed(&self, head_pa: f64) -> f64 {
        let va = self.approach_speed();
        let demand = 2.0 * head_pa / self.density;
        let square = self.square_face_speed(demand, va);
        let used = |speed| self.used(speed, va);
        self.incidence.slowed(demand, square, va, used)
    }

    /// The same for a stream square to the opening, from twice that difference over the density, m²/s².
    fn square_face_speed(&self, demand: f64, va: f64) -> f64 {
        let a = self.diffusion_loss;
        let k = self.lip_loss;
        // below the approach speed: a V² = 2Δ/ρ
        if demand <= a * va * va {
            return (demand / a).sqrt();
        }
        // above it: a V² + K (V − V_a)² = 2Δ/ρ
        let sum = a + k;
        let discriminant = k * k * va * va - sum * (k * va * va - demand);
        (k * va + discriminant.max(0.0).sqrt()) / sum
    }
}

/// Mass flow, kg/s, through a sharp opening: W = C_d A √(2 ρ Δp), with the sign of Δp.
///
/// # Arguments
/// * `effective_area_m2` - C_d A, m²
/// * `drop_pa` - pressure difference, Pa, of either sign
/// * `density` - upstream density, kg/m³
///
/// # Example
/// 0.01 m² · √(2 · 1 · 800) kg/(s·m²), with the sign of the pressure:
/// ```
/// use coolpath_core::path::element::orifice_flow;
///
/// assert!((orifice_flow(0.01, 800.0, 1.0) - 0.4).abs() < 1e-12);
/// assert!((orifice_flow(0.01, -800.0, 1.0) + 0.4).abs() < 1e-12);
/// ```
#[must_use]
pub fn orifice_flow(effective_area_m2: f64, drop_pa: f64, density: f64) -> f64 {
    (effective_area_m2 * (2.0 * density * drop_pa.abs()).sqrt()).copysign(drop_pa)
}

/// Pressure drop, Pa, of a loss coefficient: Δp = K ½ ρ V² with V = W/(ρ A).
///
/// # Example
/// 10 m/s of air of 1.2 kg/m³, twice its dynamic pressure of 60 Pa:
/// ```
/// use coolpath_core::path::element::loss_drop;
///
/// assert!((loss_drop(2.0, 1.2 * 0.05 * 10.0, 0.05, 1.2) - 120.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn loss_drop(loss: f64, flow_kg_s: f64, area_m2: f64, density: f64) -> f64 {
    let flux = flow_kg_s / area_m2;
    0.5 * loss * flux * flux.abs() / density
}

/// A jet from a total state through a nozzle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Jet {
    /// Mass flow per effective area, kg/(s·m²).
    pub flux: f64,
    /// Velocity in the opening, m/s.
    pub speed_m_s: f64,
}

/// Pressure ratio below which the flow chokes, (2/2.4)^3.5 [-].
const CRITICAL_RATIO: f64 = 0.528_281_787_717_174;

/// Isentropic nozzle from a total state (absolute Pa, K) to a pressure `below_pa` lower, Pa.
///
/// Chokes at the critical ratio. `below_pa` ≥ 0 keeps its precision however small it is.
///
/// # Example
/// A drop of 1 % of the pressure: 0.99463 of the flow √(2 ρ Δp) (`reference/gas_dynamics`, I03a);
/// beyond the critical ratio nothing more comes:
/// ```
/// use coolpath_core::air::atmosphere::density;
/// use coolpath_core::path::element::nozzle;
///
/// let plain = (2.0 * density(100_000.0, 300.0) * 1000.0).sqrt();
/// assert!((nozzle(100_000.0, 300.0, 1000.0).flux / plain - 0.994_63).abs() < 1e-5);
/// assert_eq!(nozzle(100_000.0, 300.0, 60_000.0), nozzle(100_000.0, 300.0, 90_000.0));
/// ```
#[must_use]
pub fn nozzle(total_absolute_pa: f64, total_k: f64, below_pa: f64) -> Jet {
    let ratio_drop = (below_pa / total_absolute_pa).min(1.0 - CRITICAL_RATIO);
    // T₅/T_t = (p₅/p_t)^(2/7);  V₅ = √(2 c_p T_t (1 − T₅/T_t));  ρ₅ = p₅/(R T₅)
    let exponent = (2.0 / 7.0) * libm::log1p(-ratio_drop);
    let cooling = -libm::expm1(exponent);
    let speed_m_s = (2.0 * atmosphere::SPECIFIC_HEAT * total_k * cooling).sqrt();
    let density = atmosphere::density(
        total_absolute_pa * (1.0 - ratio_drop),
        total_k * (1.0 - cooling),
    );
    Jet {
        flux: density * speed_m_s,
        speed_m_s,
    }
}

/// One exit from the lower deck.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Exit {
    /// Geometric area, m².
    pub area_m2: f64,
    /// Discharge coefficient C_d [-]: flow over that of a nozzle without loss or contraction.
    pub discharge: f64,
    /// Velocity coefficient C_v [-]: speed of the jet over that of a nozzle without loss; it touches
    /// no flow, since C_d holds loss and contraction together.
    pub velocity_coefficient: f64,
    /// Pressure outside at the exit, Pa gauge.
    pub outside_pa: f64,
    /// Cosine of the angle between the jet and the flight path [-].
    pub jet_cosine: f64,
    /// Exhaust that draws the air along, if the exit is the mouth of an augmentor.
    pub ejector: Option<Ejector>,
}

/// Flow through one exit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ExitFlow {
    /// Mass flow, kg/s; negative when air is drawn in.
    pub flow_kg_s: f64,
    /// Velocity of a jet without loss, m/s; negative when air is drawn in. Behind an augmentor: what
    /// the jet's momentum gains over that of the exhaust alone, per flow drawn; 0 where none is.
    pub speed_m_s: f64,
}

impl Exit {
    /// Area of the jet where it is narrowest, m²; never more than the opening.
    ///
    /// # Example
    /// A jet that contracts to C_d/C_v = 0.6/0.96 of its opening:
    /// ```
    /// use coolpath_core::path::element::Exit;
    ///
    /// let exit = Exit {
    ///     area_m2: 0.04,
    ///     discharge: 0.6,
    ///     velocity_coefficient: 0.96,
    ///     ..Exit::default()
    /// };
    /// assert!((exit.jet_area_m2() - 0.025).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn jet_area_m2(&self) -> f64 {
        if let Some(ejector) = &self.ejector {
            return self.area_m2 + ejector.stacks_m2;
        }
        // A_j = A C_c,  C_c = C_d / C_v
        self.area_m2 * (self.discharge / self.velocity_coefficient).min(1.0)
    }

    /// Pressure inside, Pa gauge, at which nothing flows: that outside, less what an augmentor draws.
    #[must_use]
    pub fn rest_pa(&self) -> f64 {
        let drawn_pa = self
            .ejector
            .map_or(0.0, |ejector| ejector.suction_pa(self.area_m2));
        self.outside_pa - drawn_pa
    }

    /// Flow from a space at `inside_pa` (gauge) and `inside_k`; outside stand `ambient_pa`
    /// (absolute static) and, brought to rest, `ambient_k`.
    ///
    /// # Example
    /// 1 % below the deck's 100 kPa, at 300 K: C_d A √(2 ρ Δp) · 0.99463 (`reference/gas_dynamics`, I03a):
    /// ```
    /// use coolpath_core::air::atmosphere::density;
    /// use coolpath_core::path::element::Exit;
    ///
    /// let exit = Exit {
    ///     area_m2: 0.05,
    ///     discharge: 0.8,
    ///     velocity_coefficient: 1.0,
    ///     outside_pa: 0.0,
    ///     jet_cosine: 1.0,
    ///     ejector: None,
    /// };
    /// let plain = 0.8 * 0.05 * (2.0 * density(100_000.0, 300.0) * 1000.0).sqrt();
    /// let out = exit.flow(1000.0, 300.0, 99_000.0, 280.0);
    /// assert!((out.flow_kg_s / plain - 0.994_63).abs() < 1e-5);
    /// ```
    #[must_use]
    pub fn flow(&self, inside_pa: f64, inside_k: f64, ambient_pa: f64, ambient_k: f64) -> ExitFlow {
        let below_pa = inside_pa - self.rest_pa();
        if let Some(ejector) = self.ejector
            && below_pa >= 0.0
        {
            let volume = 1.0 / atmosphere::density(ambient_pa + inside_pa, inside_k);
            let flow_kg_s = ejector.drawn(below_pa, self.area_m2, self.discharge, volume);
            let gained_n = ejector.added_momentum_n(flow_kg_s, self.area_m2, volume);
            let speed_m_s = if flow_kg_s > 0.0 {
                gained_n / flow_kg_s
            } else {
                0.0
            };
            return ExitFlow {
                flow_kg_s,
                speed_m_s,
            };
        }
        let (jet, sign) = if below_pa >= 0.0 {
            (nozzle(ambient_pa + inside_pa, inside_k, below_pa), 1.0)
        } else {
            (
                nozzle(ambient_pa + self.outside_pa, ambient_k, -below_pa),
                -1.0,
            )
        };
        ExitFlow {
            flow_kg_s: sign * self.discharge * self.area_m2 * jet.flux,
            speed_m_s: sign * jet.speed_m_s,
        }
    }
}

/// The oil cooler's air side: duct, shutter and core in series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolerDuct {
    /// Duct area, m².
    pub area_m2: f64,
    /// Duct diameter, m.
    pub diameter_m: f64,
    /// Loss of entrance, bends and expansion into the core [-] on the duct velocity.
    pub fittings_loss: f64,
    /// Length over diameter [-].
    pub length_ratio: f64,
    /// Wall friction.
    pub friction: Friction,
    /// Inverse loss √(1/K) of the shutter [-]; infinite when none is fitted, 0 when tight.
    pub shutter_passage: f64,
    /// C of the core in σΔp = C Wⁿ, Pa/(kg/s)ⁿ, σ of the mean specific volume.
    pub core_constant: f64,
    /// n of the core [-].
    pub core_exponent: f64,
    /// Area of the core's face, m².
    pub face_m2: f64,
    /// Loss of the way out behind the core [-] on the velocity in its face, at the density there.
    pub behind_loss: f64,
}

/// Wall friction of a duct.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Friction {
    /// A Darcy friction factor [-], the same at every flow.
    Factor(f64),
    /// Roughness height over diameter [-], with the friction factor by Colebrook.
    Roughness(f64),
}

impl CoolerDuct {
    /// Whether nothing can pass.
    #[must_use]
    pub fn is_tight(&self) -> bool {
        self.shutter_passage <= 0.0
    }

    /// Pressure drop of the core, Pa, at a positive flow, kg/s, where its mean specific volume is
    /// that of the standard density.
    ///
    /// # Example
    /// σΔp = 2000 · 0.3² Pa:
    /// ```
    /// use coolpath_core::path::element::{CoolerDuct, Friction};
    ///
    /// let duct = CoolerDuct {
    ///     area_m2: 0.01,
    ///     diameter_m: 0.1,
    ///     fittings_loss: 0.5,
    ///     length_ratio: 10.0,
    ///     friction: Friction::Factor(0.02),
    ///     shutter_passage: f64::INFINITY,
    ///     core_constant: 2000.0,
    ///     core_exponent: 2.0,
    ///     face_m2: 0.02,
    ///     behind_loss: 0.0,
    /// };
    /// assert!((duct.core_drop(0.3) - 180.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn core_drop(&self, flow_kg_s: f64) -> f64 {
        // σΔp = C Wⁿ
        self.core_constant * fast_power(flow_kg_s, self.core_exponent)
    }

    /// Pressure drop of duct and shutter without the core, Pa, at a positive flow, kg/s.
    ///
    /// # Arguments
    /// * `duct_density` - in the duct, kg/m³
    /// * `duct_k` - temperature in the duct, K (for the friction)
    ///
    /// # Example
    /// K = 0.5 + 0.02 · 10 + 1/0.5² = 4.7 at 20 m/s: 4.7 · ½ · 1 · 400 Pa:
    /// ```
    /// use coolpath_core::path::element::{CoolerDuct, Friction};
    ///
    /// let duct = CoolerDuct {
    ///     area_m2: 0.01,
    ///     diameter_m: 0.1,
    ///     fittings_loss: 0.5,
    ///     length_ratio: 10.0,
    ///     friction: Friction::Factor(0.02),
    ///     shutter_passage: 0.5,
    ///     core_constant: 2000.0,
    ///     core_exponent: 2.0,
    ///     face_m2: 0.02,
    ///     behind_loss: 0.0,
    /// };
    /// assert!((duct.duct_drop(0.2, 1.0, 300.0) - 940.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn duct_drop(&self, flow_kg_s: f64, duct_density: f64, duct_k: f64) -> f64 {
        let factor = match self.friction {
            Friction::Factor(f) => f,
            Friction::Roughness(roughness) => {
                // Re = W D / (A μ)
                let reynolds =
                    flow_kg_s * self.diameter_m / (self.area_m2 * atmosphere::viscosity(duct_k));
                crate::path::loss::friction_factor(reynolds, roughness)
            }
        };
        let shutter = 1.0 / (self.shutter_passage * self.shutter_passage);
        let loss = self.fittings_loss + factor * self.length_ratio + shutter;
        // Δp = K ½ ρ V²
        loss_drop(loss, flow_kg_s, self.area_m2, duct_density)
    }

    /// Pressure drop of the way out behind the core, Pa, at a positive flow, kg/s, and the density
    /// there, kg/m³.
    ///
    /// # Example
    /// Twice the dynamic pressure of 0.2 kg/s through 0.02 m² at 1 kg/m³, 10 m/s:
    /// ```
    /// use coolpath_core::path::element::{CoolerDuct, Friction};
    ///
    /// let duct = CoolerDuct {
    ///     area_m2: 0.01,
    ///     diameter_m: 0.1,
    ///     fittings_loss: 0.5,
    ///     length_ratio: 10.0,
    ///     friction: Friction::Factor(0.02),
    ///     shutter_passage: f64::INFINITY,
    ///     core_constant: 2000.0,
    ///     core_exponent: 2.0,
    ///     face_m2: 0.02,
    ///     behind_loss: 2.0,
    /// };
    /// assert!((duct.behind_drop(0.2, 1.0) - 100.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn behind_drop(&self, flow_kg_s: f64, density: f64) -> f64 {
        loss_drop(self.behind_loss, flow_kg_s, self.face_m2, density)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_an_inlet_uses_up_at_its_flow_is_what_drove_it() {
        let inlet = Inlet {
            area_m2: 0.02,
            ram_pa: 1500.0,
            lip_loss: 0.4,
            diffusion_loss: 0.3,
            reverse_loss: 1.5,
            density: 1.1,
            incidence: Incidence::new(25.0, 3.0, 0.0, 1.6, 2.0),
        };
        // Out of the inlet, at rest, below the approach speed, at it, above it.
        for deck_pa in [4000.0, 1600.0, 1500.0, 1400.0, 1050.0, 700.0, -2000.0] {
            let flow = inlet.flow(deck_pa, 0.9);
            let used = inlet.drop(flow, 0.9);
            assert!(
                (used - (1500.0 - deck_pa)).abs() < 1e-9,
                "{deck_pa}: {used}"
            );
        }
    }
}
