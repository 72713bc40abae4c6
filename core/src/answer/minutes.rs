//! Minute by minute: heads and oil follow their steady temperatures with a lag of their own.
//!
//! dT/dt = (T_steady − T)/τ, solved exactly over each leg. The heads' time constant follows the flows, since metal
//! that little air cools and little gas heats is slow:
//!
//! ```text
//! τ_h = C_h / (G_gas + G_fin(W) + G_ho),   C_h = τ_cruise (0.75^0.58 G_gas,r + G_fin,r + G_ho)
//! ```
//!
//! so that the input holds at three quarters of rated power and the known point's air. The oil's is
//! one number, and what the oil tends to follows the heads, which give it most of its heat:
//!
//! ```text
//! T_o,steady − w (T_h,steady − T_h),   w = G_ho / (G_ho + U),   U = Q_oil / (T_o,steady − T_air)
//! ```
//!
//! In one six's taxi from cold that gives 62, 87 and 131 °F after 80, 240 and 440 s, where its log has 66, 93 and
//! 140 and the oil of settled heads would give some 100, 160 and 200 (derived; fitted to nothing). That warm oil warms
//! the heads is in the steady temperatures only. A calibration finds the oil's time constant without this delay.
//!
//! After shutdown no air moves and no gas heats: heads give heat to the oil and to still air, the
//! oil to the bay. Both heat capacities follow from the time constants of the condition before.
//!
//! The time constants are inputs of the installation ([`Lags`](crate::document::installation::Lags)).

use crate::answer::evaluate::answer;
use crate::answer::known_point::{GAS_EXPONENT, KnownPoint};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::{EvaluateError, Solved, condition_at};
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::math::lag::lag_of_a_lag;
use serde::{Deserialize, Serialize};

/// Share of rated power at which the heads' time constant is stated [-].
const CRUISE_POWER: f64 = 0.75;

/// Most minutes of one leg.
pub const MOST_MINUTES: f64 = 120.0;

/// A condition flown for a while.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Leg {
    /// Place of the condition.
    pub condition: usize,
    /// How long, s.
    pub seconds: f64,
}

/// Temperatures of head and oil, K.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Warmth {
    /// Hottest head as its probe reads it, K.
    pub head_k: f64,
    /// Oil at the gauge, K.
    pub oil_k: f64,
}

/// Where a flight stands at a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Since the start, s.
    pub seconds: f64,
    /// The leg that is flown.
    pub leg: usize,
    /// Temperatures.
    pub warmth: Warmth,
    /// How fast the heads change, K/s.
    pub head_rate_k_s: f64,
}

/// Temperatures over a flight, at the start of each leg, then every so many seconds, and at its
/// end.
///
/// # Arguments
/// * `step_s` - between the moments, s
///
/// # Errors
/// [`EvaluateError`] of the first leg's condition that has no answer.
///
/// # Example
/// Where heads are settled, after one time constant of the oil 1/e of its way is left, after two 1/e²:
/// ```
/// use coolpath_core::answer::evaluate::evaluate;
/// use coolpath_core::answer::minutes::{Leg, Warmth, flight};
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let answer = evaluate(&design, 1)?;
/// let end = answer.oil.value;
/// let start = Warmth { head_k: answer.head_hottest.value, oil_k: end - 100.0 };
/// let constant_s = design.installation.lags.oil;
/// let leg = Leg { condition: 1, seconds: 2.0 * constant_s };
/// let course = flight(&design, &[leg], start, constant_s)?;
/// assert!((end - course[1].warmth.oil_k - 36.7879).abs() < 1e-4);
/// assert!((end - course[2].warmth.oil_k - 13.5335).abs() < 1e-4);
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn flight(
    design: &Design,
    legs: &[Leg],
    start: Warmth,
    step_s: f64,
) -> Result<Vec<Moment>, EvaluateError> {
    design.check().map_err(EvaluateError::Design)?;
    let mut moments = Vec::new();
    let mut now = start;
    let mut begun_s = 0.0;
    for (place, leg) in legs.iter().enumerate() {
        let condition = condition_at(design, leg.condition)?;
        let solved = solve_condition(&design.installation, condition, None)?;
        let steady = answer(&design.installation, condition, &solved);
        let ends = Warmth {
            head_k: steady.head_hottest.value,
            oil_k: steady.oil.value,
        };
        let pull = Pull::toward(ends, &design.installation, &solved);
        let began = now;
        let steps = libm::ceil(leg.seconds / step_s).max(1.0) as u32;
        for step in 0..=steps {
            let elapsed_s = (f64::from(step) * step_s).min(leg.seconds);
            now = pull.after(began, elapsed_s);
            moments.push(Moment {
                seconds: begun_s + elapsed_s,
                leg: place,
                warmth: now,
                head_rate_k_s: (ends.head_k - now.head_k) / pull.heads_s,
            });
        }
        begun_s += leg.seconds;
    }
    Ok(moments)
}

/// Where heads and oil tend in a solved condition, and how fast.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pull {
    ends: Warmth,
    heads_s: f64,
    oil_s: f64,
    /// What a degree of the heads does to the oil [-].
    follows: f64,
}

impl Pull {
    pub(crate) fn toward(ends: Warmth, installation: &Installation, solved: &Solved) -> Self {
        Self {
            ends,
            heads_s: heads_constant(installation, solved),
            oil_s: installation.lags.oil,
            follows: oil_by_heads(solved),
        }
    }

    /// So many seconds after temperatures that it began with.
    pub(crate) fn after(&self, began: Warmth, elapsed_s: f64) -> Warmth {
        let toward = |from: f64, end: f64, constant_s: f64| {
            end + (from - end) * libm::exp(-elapsed_s / constant_s)
        };
        let heads_off_k = began.head_k - self.ends.head_k;
        let late = self.follows * lag_of_a_lag(elapsed_s, self.heads_s, self.oil_s);
        Warmth {
            head_k: toward(began.head_k, self.ends.head_k, self.heads_s),
            oil_k: toward(began.oil_k, self.ends.oil_k, self.oil_s) + heads_off_k * late,
        }
    }
}

/// What a degree of the heads does to the oil in a solved condition [-].
fn oil_by_heads(solved: &Solved) -> f64 {
    let (cowl, state) = (&solved.prepared.cowl, &solved.solution.state);
    let above_air_k = (state.trial.oil_k - cowl.stream.temperature_k).max(1.0);
    let loss_w_k = (state.oil_heat_w / above_air_k).max(0.0);
    let from_heads_w_k = cowl.heads.oil_w_k;
    if from_heads_w_k > 0.0 {
        from_heads_w_k / (from_heads_w_k + loss_w_k)
    } else {
        0.0
    }
}

/// Time constant of the heads in a solved condition, s.
fn heads_constant(installation: &Installation, solved: &Solved) -> f64 {
    installation.lags.heads * slowness(solved)
}

/// Time constant of the heads in a solved condition over that in cruise \[-\].
///
/// # Example
/// Heads that more gas heats and more air cools follow faster:
/// ```
/// use coolpath_core::answer::minutes::slowness;
/// use coolpath_core::answer::solve_condition::solve_condition;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let at = |share: f64| {
///     let mut condition = design.conditions[3].clone();
///     condition.power_share = share;
///     solve_condition(&design.installation, &condition, None).map(|solved| slowness(&solved))
/// };
/// assert!(at(0.9)? < at(0.6)? && at(0.6)? < at(0.3)?);
/// # Ok::<(), coolpath_core::answer::solved::EvaluateError>(())
/// ```
#[must_use]
pub fn slowness(solved: &Solved) -> f64 {
    in_cruise(&solved.prepared.point) / running(solved)
}

/// Heat capacity of the heads, J/K, that the time constant in cruise stands for.
fn heat_capacity(installation: &Installation, point: &KnownPoint) -> f64 {
    installation.lags.heads * in_cruise(point)
}

/// All conductances of the heads, W/K, in the cruise that their time constant is stated for.
fn in_cruise(point: &KnownPoint) -> f64 {
    let gas_w_k = point.gas_w_k * libm::pow(CRUISE_POWER, GAS_EXPONENT);
    gas_w_k + point.fins.at(point.flow_kg_s) + point.oil_w_k
}

/// All conductances of the running heads, W/K.
fn running(solved: &Solved) -> f64 {
    let heads = &solved.prepared.cowl.heads;
    heads.gas_w_k + heads.fins.at(solved.solution.state.fins.flow_kg_s) + heads.oil_w_k
}

/// The moment at which a temperature is highest; `None` without moments.
#[must_use]
pub fn peak(moments: &[Moment], of: impl Fn(&Warmth) -> f64) -> Option<&Moment> {
    moments
        .iter()
        .rev()
        .max_by(|a, b| of(&a.warmth).total_cmp(&of(&b.warmth)))
}

/// Step of the heat soak, s.
const SOAK_STEP_S: f64 = 5.0;

/// Temperatures after the engine was stopped, every so many seconds, from a condition that was
/// flown last.
///
/// C_h dT_h/dt = −G_ho (T_h − T_o) − G_still (T_h − T_air), C_o dT_o/dt = G_ho (T_h − T_o) −
/// G_sump (T_o − T_air), with C_h as above and C_o = τ_o Q_oil / (T_o − T_air) of the condition.
/// A rough picture: air in the bay counts as outside air.
///
/// # Errors
/// [`EvaluateError`] if the condition has no answer.
pub fn soak(
    design: &Design,
    condition: usize,
    start: Warmth,
    seconds: f64,
    step_s: f64,
) -> Result<Vec<Moment>, EvaluateError> {
    let condition = condition_at(design, condition)?;
    let solved = solve_condition(&design.installation, condition, None)?;
    Ok(soaked(
        &design.installation,
        &solved,
        start,
        seconds,
        step_s,
    ))
}

/// The same from a condition that is solved already.
pub(crate) fn soaked(
    installation: &Installation,
    solved: &Solved,
    start: Warmth,
    seconds: f64,
    step_s: f64,
) -> Vec<Moment> {
    let lags = &installation.lags;
    let (cowl, state) = (&solved.prepared.cowl, &solved.solution.state);
    let air_k = cowl.stream.temperature_k;
    let heads = &cowl.heads;
    let head_j_k = heat_capacity(installation, &solved.prepared.point);
    let oil_j_k = lags.oil * state.oil_heat_w / (state.trial.oil_k - air_k).max(1.0);
    let to_oil_w_k = lags.still_oil * heads.oil_w_k;
    let to_air_w_k = lags.still_fins * heads.fins.at(solved.prepared.point.flow_kg_s);
    let sump_w_k = cowl.oil.sump_w_k;
    let rates = |now: Warmth| {
        let exchanged_w = to_oil_w_k * (now.head_k - now.oil_k);
        (
            -(exchanged_w + to_air_w_k * (now.head_k - air_k)) / head_j_k,
            (exchanged_w - sump_w_k * (now.oil_k - air_k)) / oil_j_k,
        )
    };
    let moved = |now: Warmth, rate: (f64, f64), by_s: f64| Warmth {
        head_k: now.head_k + rate.0 * by_s,
        oil_k: now.oil_k + rate.1 * by_s,
    };
    let mut moments = Vec::new();
    let (mut now, mut elapsed_s, mut next_s) = (start, 0.0, 0.0);
    loop {
        if elapsed_s >= next_s || elapsed_s >= seconds {
            moments.push(Moment {
                seconds: elapsed_s,
                leg: 0,
                warmth: now,
                head_rate_k_s: rates(now).0,
            });
            next_s += step_s;
        }
        if elapsed_s >= seconds {
            return moments;
        }
        // Midpoint rule.
        let step = SOAK_STEP_S.min(seconds - elapsed_s);
        let middle = moved(now, rates(now), 0.5 * step);
        now = moved(now, rates(middle), step);
        elapsed_s += step;
    }
}

/// The first time, s, at which a temperature of the flight passes a limit, K, straight between
/// neighbouring moments; `None` if it never does.
///
/// # Example
/// From 380 to 400 K in 10 s, 385 K are passed after a quarter of it:
/// ```
/// use coolpath_core::answer::minutes::{Moment, Warmth, first_over};
///
/// let moment = |seconds: f64, head_k: f64| Moment {
///     seconds,
///     leg: 0,
///     warmth: Warmth { head_k, oil_k: 360.0 },
///     head_rate_k_s: 0.0,
/// };
/// let flight = [moment(0.0, 380.0), moment(10.0, 400.0)];
/// assert_eq!(first_over(&flight, 385.0, |warmth| warmth.head_k), Some(2.5));
/// assert_eq!(first_over(&flight, 385.0, |warmth| warmth.oil_k), None);
/// ```
#[must_use]
pub fn first_over(moments: &[Moment], limit_k: f64, of: impl Fn(&Warmth) -> f64) -> Option<f64> {
    let first = moments
        .iter()
        .position(|moment| of(&moment.warmth) > limit_k)?;
    let after = &moments[first];
    let Some(before) = first.checked_sub(1).map(|at| &moments[at]) else {
        return Some(after.seconds);
    };
    let (low, high) = (of(&before.warmth), of(&after.warmth));
    Some(before.seconds + (after.seconds - before.seconds) * (limit_k - low) / (high - low))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::evaluate::evaluate;
    use crate::document::example;

    const COLD: Warmth = Warmth {
        head_k: 350.0,
        oil_k: 320.0,
    };

    fn constant(design: &Design, place: usize) -> f64 {
        let condition = &design.conditions[place];
        let solved = solve_condition(&design.installation, condition, None).expect("an answer");
        heads_constant(&design.installation, &solved)
    }

    fn climb(minutes: f64) -> Vec<Leg> {
        vec![Leg {
            condition: 1,
            seconds: 60.0 * minutes,
        }]
    }

    #[test]
    fn a_long_leg_ends_at_the_steady_answer_and_one_time_constant_covers_its_share() {
        let design = example::design();
        let steady = evaluate(&design, 1).expect("an answer");
        let long = flight(&design, &climb(100.0), COLD, 60.0).expect("a flight");
        let end = long.last().expect("moments");
        assert!((end.warmth.head_k - steady.head_hottest.value).abs() < 1e-6);
        assert!((end.warmth.oil_k - steady.oil.value).abs() < 1e-4);
        let constant_s = constant(&design, 1);
        let short = flight(&design, &climb(constant_s / 60.0), COLD, 10.0);
        let end = *short.expect("a flight").last().expect("moments");
        let share = (end.warmth.head_k - COLD.head_k) / (steady.head_hottest.value - COLD.head_k);
        assert!((share - (1.0 - libm::exp(-1.0))).abs() < 1e-12);
    }

    #[test]
    fn heads_are_slower_the_less_air_and_gas_pass_them() {
        // Half as slow again to twice as slow at idle (derived from the open logs: 150 to 200 s
        // beside about 90 in cruise), and faster than in cruise at take-off power.
        let mut design = example::design();
        let cruise_s = constant(&design, 3);
        assert!((85.0..125.0).contains(&cruise_s), "{cruise_s}");
        assert!(constant(&design, 1) < 1.1 * cruise_s);
        design.conditions[0].power_share = 0.08;
        design.conditions[0].rpm = 1000.0;
        let idle = constant(&design, 0) / cruise_s;
        assert!((1.5..2.6).contains(&idle), "{idle}");
        // Twice the capacity, twice as slow.
        design.installation.lags.heads *= 2.0;
        assert!((constant(&design, 3) / cruise_s - 2.0).abs() < 1e-12);
    }

    #[test]
    fn a_flight_from_a_steady_ground_run_stays_there_and_its_peak_comes_later() {
        let design = example::design();
        let steady = evaluate(&design, 0).expect("an answer");
        let start = Warmth {
            head_k: steady.head_hottest.value,
            oil_k: steady.oil.value,
        };
        let legs = [(0, 600.0), (1, 360.0), (5, 300.0)]
            .map(|(condition, seconds)| Leg { condition, seconds });
        let moments = flight(&design, &legs, start, 15.0).expect("a flight");
        let hottest = peak(&moments, |warmth| warmth.head_k).expect("moments");
        // The ground run changes nothing; the end of the climb is hottest.
        assert!((moments[3].warmth.head_k - start.head_k).abs() < 1e-9);
        assert_eq!((hottest.seconds, hottest.leg), (960.0, 1));
    }

    #[test]
    fn cutting_a_leg_in_two_changes_nothing() {
        let design = example::design();
        let whole = flight(&design, &climb(6.0), COLD, 60.0).expect("a flight");
        let mut legs = climb(2.5);
        legs.extend(climb(3.5));
        let cut = flight(&design, &legs, COLD, 60.0).expect("a flight");
        let (a, b) = (whole.last().expect("one"), cut.last().expect("one"));
        assert!((a.warmth.head_k - b.warmth.head_k).abs() < 1e-9);
        assert!((a.warmth.oil_k - b.warmth.oil_k).abs() < 1e-9);
        assert_eq!(a.seconds, b.seconds);
    }

    #[test]
    fn the_time_over_the_limit_is_found_between_the_moments() {
        let design = example::design();
        let limit = design.installation.engine.head_limit.value;
        let coarse = flight(&design, &climb(10.0), COLD, 5.0).expect("a flight");
        let found = first_over(&coarse, limit, |warmth| warmth.head_k).expect("too hot");
        let steady = evaluate(&design, 1).expect("an answer").head_hottest.value;
        let constant_s = constant(&design, 1);
        let exact = constant_s * libm::log((steady - COLD.head_k) / (steady - limit));
        assert!((found - exact).abs() < 0.5, "{found} and {exact} s");
        assert_eq!(first_over(&coarse, 900.0, |warmth| warmth.head_k), None);
    }

    #[test]
    fn after_shutdown_heads_cool_slowly_and_the_oil_first_rises() {
        let design = example::design();
        let start = Warmth {
            head_k: 460.0,
            oil_k: 360.0,
        };
        let found = soak(&design, 0, start, 5400.0, 60.0).expect("an answer");
        assert_eq!(found.len(), 91);
        assert_eq!(found[0].warmth, start);
        let heads: Vec<f64> = found.iter().map(|moment| moment.warmth.head_k).collect();
        assert!(heads.windows(2).all(|pair| pair[1] < pair[0]));
        let hottest = found
            .iter()
            .max_by(|a, b| a.warmth.oil_k.total_cmp(&b.warmth.oil_k))
            .expect("moments");
        assert!(hottest.seconds > 0.0 && hottest.warmth.oil_k > start.oil_k + 0.5);
        assert!(hottest.warmth.oil_k < hottest.warmth.head_k);
        let last = found.last().expect("moments").warmth;
        // Toward the outside air of the ground run, 70 °F.
        assert!(last.head_k > 294.2 && last.head_k < 400.0, "{last:?}");
    }

    #[test]
    fn nothing_conducting_keeps_everything_as_it_is() {
        let mut design = example::design();
        design.installation.lags.still_fins = 0.0;
        design.installation.lags.still_oil = 0.0;
        design.installation.oil.sump_conductance = 0.0;
        let found = soak(&design, 1, COLD, 600.0, 60.0).expect("an answer");
        let last = found.last().expect("moments").warmth;
        assert!((last.head_k - COLD.head_k).abs() < 1e-9 && (last.oil_k - COLD.oil_k).abs() < 1e-9);
    }
}
