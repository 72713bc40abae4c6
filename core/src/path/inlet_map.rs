//! What an inlet's lip makes of a stream that meets the opening at an angle.
//!
//! A sharp lip takes no suction, so that the axial momentum of what enters changes by the pressure over
//! the opening alone. Let V_a be the speed of approach and α its angle to the opening's axis:
//!
//! ```text
//! (p₁ − p₀) + ρ V₁² = ρ V₁ V_a cos α
//! H₀ − H₁ = ½ρ [(V₁ − V_a)² + 4 V₁ V_a sin²(α/2)]
//! ```
//!
//! The first part is the lip loss of an inlet's element, with K = 1, above the speed of
//! approach; below it air spills round the lip outside and costs drag, but nothing inside. The second part
//! is what stands here. It falls due only where the windward lip lets the stream separate inside. Air that is
//! turned away runs outward over the lips, and an angle must first turn that round: at the edge of a thin
//! plate the flow is regular where
//!
//! ```text
//! k 2 sin(α_t/2) = 1 − V₁/V_a + a √(2π r/h)
//! ```
//!
//! Without the last term this is the plane potential flow into a channel of height h between plates of
//! length c, for which k = √(2π c/h); beside a slender round body crossflow doubles, k = 2. The last term
//! is what a nose of radius r tolerates: a parabola in a stream whose edge term is a makes it √(1 + a²)
//! times as fast at its peak, and how much of that a boundary layer stands is from memory. What is lost
//! beyond α_t is
//!
//! ```text
//! Δ = f ½ρ V₁ V_a (2 sin(α/2) − 2 sin(α_t/2))²
//! ```
//!
//! with α_t never below zero: f = 1 is the momentum balance for a long tube behind a sharp lip; a short or
//! widening duct, in which the bubble does not close, loses more.
//!
//! # Sources
//! Momentum balance: as in Fradenburgh and Wyatt, Theoretical Performance Characteristics of Sharp-Lip
//! Inlets at Subsonic Speeds, 1953 (abstract read); its incompressible form and the rest are derived. The
//! numbers a and f are from memory.

/// The angle at which a stream meets an inlet, and what its lip tolerates of it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Incidence {
    /// 2 sin(α/2) of the stream's angle to the opening's axis [-]; 0 square to the stream.
    pub chord: f64,
    /// k: crossflow round the lips over that of the stream [-].
    pub upwash: f64,
    /// a √(2π r/h): what the lip's radius tolerates [-]; 0 for an edge.
    pub rounding: f64,
    /// f: loss over that of the momentum balance [-].
    pub factor: f64,
}

/// Most steps of a search for the speed in the opening; each that gains little halves what is left.
const MAX_STEPS: usize = 80;

impl Incidence {
    /// A stream at an angle to the opening's axis, degrees.
    ///
    /// # Arguments
    /// * `upwash` - k: crossflow round the lips over that of the stream [-]
    /// * `radius_over_height` - radius of the lip over the height of the opening [-]
    /// * `nose` - a: edge term that a rounded lip stands [-]
    /// * `factor` - f: loss over that of the momentum balance [-]
    ///
    /// # Example
    /// 60° has a chord of 1; a radius of 1/(2π) of the height tolerates a itself:
    /// ```
    /// use coolpath_core::path::inlet_map::Incidence;
    /// use core::f64::consts::PI;
    ///
    /// let met = Incidence::new(60.0, 3.0, 0.5 / PI, 1.6, 2.0);
    /// assert!((met.chord - 1.0).abs() < 1e-12);
    /// assert!((met.rounding - 1.6).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn new(
        angle_deg: f64,
        upwash: f64,
        radius_over_height: f64,
        nose: f64,
        factor: f64,
    ) -> Self {
        Self {
            chord: 2.0 * libm::sin((0.5 * angle_deg).to_radians()),
            upwash,
            rounding: nose * (2.0 * core::f64::consts::PI * radius_over_height).sqrt(),
            factor,
        }
    }

    /// Chord, 2 sin(α_t/2), of the angle that the lip tolerates at a velocity ratio V₁/V_a \[-\].
    ///
    /// # Example
    /// Half of the approach speed leaves ½ for a thin edge, over a crossflow of 2.5; at that speed and above
    /// none is left:
    /// ```
    /// use coolpath_core::path::inlet_map::Incidence;
    ///
    /// let thin = Incidence { chord: 0.1, upwash: 2.5, rounding: 0.0, factor: 1.0 };
    /// assert!((thin.tolerated_chord(0.5) - 0.2).abs() < 1e-12);
    /// assert_eq!(thin.tolerated_chord(1.2), 0.0);
    /// ```
    #[must_use]
    pub fn tolerated_chord(&self, velocity_ratio: f64) -> f64 {
        // 2 sin(α_t/2) = (1 − V₁/V_a + a √(2π r/h)) / k
        ((1.0 - velocity_ratio + self.rounding) / self.upwash).max(0.0)
    }

    /// What the angle costs, as a speed squared, m²/s²: Δ = ½ρ times it.
    ///
    /// # Arguments
    /// * `speed_m_s` - in the opening
    /// * `approach_m_s` - at which the air comes to it
    ///
    /// # Example
    /// A thin lip that takes in air as fast as it comes, at an angle of 60°: 30 · 30 · 1 m²/s², the momentum
    /// balance's 2 V₁ V_a (1 − cos α):
    /// ```
    /// use coolpath_core::path::inlet_map::Incidence;
    ///
    /// let thin = Incidence::new(60.0, 3.0, 0.0, 1.6, 1.0);
    /// assert!((thin.lost(30.0, 30.0) - 900.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn lost(&self, speed_m_s: f64, approach_m_s: f64) -> f64 {
        if self.chord <= 0.0 || speed_m_s <= 0.0 || approach_m_s <= 0.0 {
            return 0.0;
        }
        let beyond = self.chord - self.tolerated_chord(speed_m_s / approach_m_s);
        let beyond = beyond.max(0.0);
        self.factor * speed_m_s * approach_m_s * beyond * beyond
    }

    /// Share of the total pressure before an inlet that is left in its opening \[-\].
    ///
    /// # Arguments
    /// * `lip_loss` - K, on the velocity in excess of that of approach [-]
    /// * `velocity_ratio` - speed in the opening over that of approach [-]
    ///
    /// # Example
    /// A thin lip that draws the air in half again as fast as it comes loses ¼ by momentum; more slowly,
    /// nothing:
    /// ```
    /// use coolpath_core::path::inlet_map::Incidence;
    ///
    /// let straight = Incidence::default();
    /// assert!((straight.recovery_at_throat(1.0, 1.5) - 0.75).abs() < 1e-12);
    /// assert_eq!(straight.recovery_at_throat(1.0, 0.6), 1.0);
    /// ```
    #[must_use]
    pub fn recovery_at_throat(&self, lip_loss: f64, velocity_ratio: f64) -> f64 {
        let excess = (velocity_ratio - 1.0).max(0.0);
        // η = 1 − K max(0, V₁/V_a − 1)² − f V₁/V_a (2 sin(α/2) − 2 sin(α_t/2))²
        1.0 - lip_loss * excess * excess - self.lost(velocity_ratio, 1.0)
    }

    /// Speed in the opening, m/s, at which `used` and what the angle costs add up to a demand, m²/s².
    ///
    /// # Arguments
    /// * `demand` - twice the pressure difference over the density, m²/s²
    /// * `square_m_s` - the speed that uses it up in a stream square to the opening
    /// * `used` - what a speed uses up in such a stream, m²/s²; never falls with the speed
    pub(crate) fn slowed(
        &self,
        demand: f64,
        square_m_s: f64,
        approach_m_s: f64,
        used: impl Fn(f64) -> f64,
    ) -> f64 {
        if self.lost(square_m_s, approach_m_s) <= 0.0 {
            return square_m_s;
        }
        let over = |speed: f64| used(speed) + self.lost(speed, approach_m_s) - demand;
        let (mut low, mut high) = (0.0, square_m_s);
        let mut speed = square_m_s;
        let mut before = f64::INFINITY;
        for _ in 0..MAX_STEPS {
            let excess = over(speed);
            if excess > 0.0 {
                high = speed;
            } else {
                low = speed;
            }
            // The secant over a millionth of the speed; halves where that leads out or gains little.
            let by = 1e-6 * speed;
            let step = excess * by / (over(speed) - over(speed - by));
            if step.abs() <= 1e-15 * square_m_s {
                break;
            }
            let next = speed - step;
            let inside = next > low && next < high && step.abs() < 0.5 * before;
            let next = if inside { next } else { 0.5 * (low + high) };
            before = (next - speed).abs();
            speed = next;
        }
        speed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_slowed_speed_uses_up_the_demand() {
        let approach = 50.0;
        for (chord, rounding) in [(0.05, 0.0), (0.3, 0.1), (0.8, 0.0), (0.5, 0.7)] {
            let met = Incidence {
                chord,
                upwash: 3.0,
                rounding,
                factor: 2.0,
            };
            let used = |speed: f64| {
                let excess = (speed - approach).max(0.0);
                0.7 * speed * speed + excess * excess
            };
            for square in [1.0, 10.0, 30.0, 49.0, 50.0, 55.0, 90.0] {
                let demand = used(square);
                let slowed = met.slowed(demand, square, approach, used);
                let left = used(slowed) + met.lost(slowed, approach) - demand;
                assert!(left.abs() < 1e-12 * demand, "{chord} {square}: {left}");
                assert!(slowed <= square);
            }
        }
    }
}
