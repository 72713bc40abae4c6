//! An oil cooler's core from its rows, tubes and fins: conductance and resistance.
//!
//! ```text
//! ═══════ tube (oil)        row pitch = tube + fins b
//! ││││││││ fins, b high, s apart, of thickness t
//! ═══════ tube
//! ```
//!
//! The air passes channels of s × b along the core's depth. Walls and soldering are taken as perfect; how
//! far a real core is from that stands in two factors, which are inputs.
//!
//! # Sources
//! Plain fins, laminar: Shah and London, Laminar Flow Forced Convection in Ducts, 1978: polynomials for
//! friction (as coded for students of the University of Wisconsin, library) and heat (from memory), both
//! within half a per cent of `reference/fin_duct`, which solves the equations themselves; pressure drop
//! of developing flow: Shah, 1978, its constants from memory. Developing heat transfer: the laminar plate
//! (Pohlhausen), blended by third powers, derived. Offset fins: Manglik and Bergles, Heat Transfer and
//! Pressure Drop Correlations for the Rectangular Offset Strip Fin Compact Heat Exchanger, 1995 (as coded
//! in open programs, library; Re 120 to 10 000). Entry and exit: the relations of [`loss`].

use crate::air::atmosphere;
use crate::path::loss;

/// Temperature at which the air's film is taken, K: some 40 K above a hot day's.
const FILM_K: f64 = 330.0;
/// Conductivity of aluminium fins, W/(m·K) (from memory: 160 to 200 by alloy).
const FIN_CONDUCTIVITY: f64 = 180.0;
const THIRD: f64 = 1.0 / 3.0;

/// The core's dimensions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinCore {
    /// Width of the face, m.
    pub width_m: f64,
    /// Rows of tubes on top of each other, with a layer of fins each [-].
    pub rows: f64,
    /// From one tube to the next, m.
    pub row_pitch_m: f64,
    /// Depth along the air, m.
    pub depth_m: f64,
    /// Height of a tube, outside, m.
    pub tube_m: f64,
    /// From fin to fin, m.
    pub fin_pitch_m: f64,
    /// Thickness of a fin, m.
    pub fin_m: f64,
    /// Length along the air after which fins are offset, m; `None` for plain ones.
    pub strip_m: Option<f64>,
}

/// What the air meets in a channel between fins.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Channel {
    /// Mean film coefficient, W/(m²·K).
    film_w_m2_k: f64,
    /// Friction 4 f L/D on the dynamic pressure in the channel [-].
    friction: f64,
}

/// Efficiency of a straight fin \[-\], its tip adiabatic.
///
/// # Arguments
/// * `film_w_m2_k` - on both of its sides
/// * `conductivity` - of the metal, W/(m·K)
/// * `thickness_m`, `length_m` - from the root to where no heat flows
///
/// # Example
/// m L = 1: tanh 1 = 0.761594:
/// ```
/// use coolpath_core::path::fin_core::fin_efficiency;
///
/// assert!((fin_efficiency(50.0, 100.0, 0.001, 1.0 / 1000_f64.sqrt()) - 0.761_594).abs() < 5e-7);
/// ```
#[must_use]
pub fn fin_efficiency(film_w_m2_k: f64, conductivity: f64, thickness_m: f64, length_m: f64) -> f64 {
    // η = tanh(m L)/(m L),  m² = 2 h/(k t)
    let reach = (2.0 * film_w_m2_k / (conductivity * thickness_m)).sqrt() * length_m;
    if reach < 1e-6 {
        return 1.0;
    }
    // tanh x = −E/(2 + E),  E = e^(−2x) − 1
    let fall = libm::expm1(-2.0 * reach);
    -fall / (2.0 + fall) / reach
}

/// Fanning friction factor times Reynolds number \[-\] of developed laminar flow in a rectangle whose
/// shorter side over its longer one is `aspect` \[-\].
///
/// # Example
/// 24 between plates; 14.23 in a square (textbook):
/// ```
/// use coolpath_core::path::fin_core::rectangle_friction;
///
/// assert_eq!(rectangle_friction(0.0), 24.0);
/// assert!((rectangle_friction(1.0) - 14.23).abs() < 5e-3);
/// ```
#[must_use]
pub fn rectangle_friction(aspect: f64) -> f64 {
    let a = aspect;
    // f Re = 24 (1 − 1.3553 α + 1.9467 α² − 1.7012 α³ + 0.9564 α⁴ − 0.2537 α⁵)
    24.0 * (1.0 + a * (-1.3553 + a * (1.9467 + a * (-1.7012 + a * (0.9564 - 0.2537 * a)))))
}

/// Nusselt number \[-\] of developed laminar flow in the same rectangle, its walls at one temperature.
///
/// # Example
/// 7.541 between plates; 2.98 in a square (textbook):
/// ```
/// use coolpath_core::path::fin_core::rectangle_nusselt;
///
/// assert_eq!(rectangle_nusselt(0.0), 7.541);
/// assert!((rectangle_nusselt(1.0) - 2.98).abs() < 5e-3);
/// ```
#[must_use]
pub fn rectangle_nusselt(aspect: f64) -> f64 {
    let a = aspect;
    // Nu = 7.541 (1 − 2.610 α + 4.970 α² − 5.119 α³ + 2.702 α⁴ − 0.548 α⁵)
    7.541 * (1.0 + a * (-2.610 + a * (4.970 + a * (-5.119 + a * (2.702 - 0.548 * a)))))
}

impl FinCore {
    /// Height of the fins, m.
    fn fin_height_m(&self) -> f64 {
        self.row_pitch_m - self.tube_m
    }

    /// Air between two fins, m.
    fn spacing_m(&self) -> f64 {
        self.fin_pitch_m - self.fin_m
    }

    /// Face, m².
    #[must_use]
    pub fn face_m2(&self) -> f64 {
        self.width_m * self.rows * self.row_pitch_m
    }

    /// Share of the face that the air passes \[-\].
    ///
    /// # Example
    /// Fins 8 of 10 mm high, 1.8 of 2 mm free:
    /// ```
    /// use coolpath_core::path::fin_core::FinCore;
    ///
    /// let core = FinCore {
    ///     width_m: 0.2,
    ///     rows: 10.0,
    ///     row_pitch_m: 0.010,
    ///     depth_m: 0.05,
    ///     tube_m: 0.002,
    ///     fin_pitch_m: 0.002,
    ///     fin_m: 0.0002,
    ///     strip_m: None,
    /// };
    /// assert!((core.free_share() - 0.72).abs() < 1e-12);
    /// assert!((core.oil_m2() - 0.2).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn free_share(&self) -> f64 {
        self.fin_height_m() / self.row_pitch_m * self.spacing_m() / self.fin_pitch_m
    }

    /// Area of the tubes' flat sides, which the oil wets and the fins stand on, m².
    #[must_use]
    pub fn oil_m2(&self) -> f64 {
        2.0 * self.rows * self.width_m * self.depth_m
    }

    /// Conductance from the tubes to the air, W/K, at a mass flux in the face, kg/(s·m²).
    ///
    /// # Example
    /// Without fins, slots 8 mm high and long enough: Nu = 7.541 on twice the height, over 40 m² of tubes:
    /// ```
    /// use coolpath_core::air::atmosphere::conductivity;
    /// use coolpath_core::path::fin_core::FinCore;
    ///
    /// let bare = FinCore {
    ///     width_m: 0.2,
    ///     rows: 10.0,
    ///     row_pitch_m: 0.010,
    ///     depth_m: 10.0,
    ///     tube_m: 0.002,
    ///     fin_pitch_m: 1e3,
    ///     fin_m: 1e-9,
    ///     strip_m: None,
    /// };
    /// let by_hand = 7.541 * conductivity(330.0) / 0.016 * 40.0;
    /// assert!((bare.air_conductance(0.02) / by_hand - 1.0).abs() < 0.01);
    /// ```
    #[must_use]
    pub fn air_conductance(&self, face_flux: f64) -> f64 {
        let film = self.channel(face_flux).film_w_m2_k;
        let (height, spacing) = (self.fin_height_m(), self.spacing_m());
        // Heat comes from the tubes on both sides, and none crosses the middle.
        let efficiency = fin_efficiency(film, FIN_CONDUCTIVITY, self.fin_m, 0.5 * height);
        let channels = self.rows * self.width_m / self.fin_pitch_m;
        // G = h L N (2 s + η 2 b)
        film * self.depth_m * channels * 2.0 * (spacing + efficiency * height)
    }

    /// Pressure drop, Pa, at a mass flux in the face, kg/(s·m²), and standard density.
    #[must_use]
    pub fn drop(&self, face_flux: f64) -> f64 {
        let free = self.free_share();
        let flux = face_flux / free;
        let ends = loss::sudden_contraction(free) + loss::sudden_expansion(free);
        // Δp = (4 f L/D + K_c + K_e) G²/(2ρ)
        (self.channel(face_flux).friction + ends) * flux * flux / (2.0 * atmosphere::DENSITY_SL)
    }

    fn channel(&self, face_flux: f64) -> Channel {
        match self.strip_m {
            None => self.plain(face_flux),
            Some(strip_m) => self.offset(face_flux, strip_m),
        }
    }

    fn plain(&self, face_flux: f64) -> Channel {
        let (height, spacing) = (self.fin_height_m(), self.spacing_m());
        let diameter = 2.0 * height * spacing / (height + spacing);
        let aspect = (spacing / height).min(height / spacing);
        let reynolds = self.reynolds(face_flux, diameter);
        let prandtl = prandtl();
        // Nu³ = Nu_∞³ + (0.664 √(Re D/L) Pr^⅓)³
        let plate = 0.664 * (reynolds * diameter / self.depth_m).sqrt() * libm::pow(prandtl, THIRD);
        let developed = rectangle_nusselt(aspect);
        let nusselt = libm::pow(
            developed * developed * developed + plate * plate * plate,
            THIRD,
        );
        // f Re = 3.44/√x⁺ + (K/(4 x⁺) + (f Re)_∞ − 3.44/√x⁺)/(1 + C/x⁺²),  x⁺ = L/(D Re)
        let along = self.depth_m / (diameter * reynolds);
        let excess = 0.674 + aspect * (1.668 - 0.912 * aspect);
        let bend = 2.9e-5 + aspect * (4.63e-4 - 2.02e-4 * aspect);
        let entry = 3.44 / along.sqrt();
        let late = 0.25 * excess / along + rectangle_friction(aspect) - entry;
        let friction_reynolds = entry + late / (1.0 + bend / (along * along));
        Channel {
            film_w_m2_k: nusselt * atmosphere::conductivity(FILM_K) / diameter,
            // 4 f L/D = 4 (f Re) x⁺
            friction: 4.0 * friction_reynolds * along,
        }
    }

    fn offset(&self, face_flux: f64, strip_m: f64) -> Channel {
        let (height, spacing, thick) = (self.fin_height_m(), self.spacing_m(), self.fin_m);
        // D = 4 s b l/(2 (s l + b l + t b) + t s)
        let wetted =
            2.0 * (spacing * strip_m + height * strip_m + thick * height) + thick * spacing;
        let diameter = 4.0 * spacing * height * strip_m / wetted;
        let reynolds = self.reynolds(face_flux, diameter);
        let (alpha, delta, gamma) = (spacing / height, thick / strip_m, thick / spacing);
        let logs = [reynolds, alpha, delta, gamma].map(libm::log);
        let powers = |by: [f64; 4]| {
            let sum = by
                .iter()
                .zip(&logs)
                .fold(0.0, |sum, (by, log)| sum + by * log);
            libm::exp(sum)
        };
        // Offset strips: a power, and its rise beyond the laminar range.
        let factor = |times: f64, by: [f64; 4], rise: f64, rising: [f64; 4]| {
            times * powers(by) * libm::pow(1.0 + rise * powers(rising), 0.1)
        };
        // j = 0.6522 Re^−0.5403 α^−0.1541 δ^0.1499 γ^−0.0678 [1 + 5.269·10⁻⁵ Re^1.340 α^0.504 δ^0.456 γ^−1.055]^0.1
        let colburn = factor(
            0.6522,
            [-0.5403, -0.1541, 0.1499, -0.0678],
            5.269e-5,
            [1.340, 0.504, 0.456, -1.055],
        );
        // f = 9.6243 Re^−0.7422 α^−0.1856 δ^0.3053 γ^−0.2659 [1 + 7.669·10⁻⁸ Re^4.429 α^0.920 δ^3.767 γ^0.236]^0.1
        let friction = factor(
            9.6243,
            [-0.7422, -0.1856, 0.3053, -0.2659],
            7.669e-8,
            [4.429, 0.920, 3.767, 0.236],
        );
        let flux = face_flux / self.free_share();
        Channel {
            // h = j G c_p Pr^(−2/3)
            film_w_m2_k: colburn * flux * atmosphere::SPECIFIC_HEAT
                / libm::pow(prandtl(), 2.0 * THIRD),
            friction: 4.0 * friction * self.depth_m / diameter,
        }
    }

    fn reynolds(&self, face_flux: f64, diameter_m: f64) -> f64 {
        // Re = G D/μ
        face_flux / self.free_share() * diameter_m / atmosphere::viscosity(FILM_K)
    }
}

/// Prandtl number of the air's film \[-\].
fn prandtl() -> f64 {
    atmosphere::SPECIFIC_HEAT * atmosphere::viscosity(FILM_K) / atmosphere::conductivity(FILM_K)
}

/// Exponent of a flow, between half and twice a flow, of what grows with it \[-\].
///
/// # Example
/// √: ½.
/// ```
/// use coolpath_core::path::fin_core::exponent_about;
///
/// assert!((exponent_about(9.0, |flux| flux.sqrt()) - 0.5).abs() < 1e-12);
/// ```
#[must_use]
pub fn exponent_about(flow: f64, grown: impl Fn(f64) -> f64) -> f64 {
    libm::log(grown(2.0 * flow) / grown(0.5 * flow)) / libm::log(4.0)
}
