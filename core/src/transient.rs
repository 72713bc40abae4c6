//! Minute by minute: heads and oil follow their steady temperatures with a lag of their own.
//!
//! dT/dt = (T_steady − T)/τ, solved exactly over each leg. Heads and oil each have one time
//! constant; that the heads' lag delays the oil further, and that warm oil warms the heads, is in
//! the steady temperatures only. Without any air (engine stopped) nothing is computed.
//!
//! The time constants are inputs of the installation ([`Lags`](crate::installation::Lags)).

use crate::design::Design;
use crate::evaluate::{EvaluateError, evaluate};

/// Most minutes of one leg.
pub const MOST_MINUTES: f64 = 120.0;

/// A condition flown for a while.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    /// Place of the condition.
    pub condition: usize,
    /// How long, s.
    pub seconds: f64,
}

/// Temperatures of head and oil, K.
#[derive(Debug, Clone, Copy, PartialEq)]
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
pub fn flight(
    design: &Design,
    legs: &[Leg],
    start: Warmth,
    step_s: f64,
) -> Result<Vec<Moment>, EvaluateError> {
    let (heads_s, oil_s) = (design.installation.lags.heads, design.installation.lags.oil);
    let mut moments = Vec::new();
    let mut now = start;
    let mut begun_s = 0.0;
    for (place, leg) in legs.iter().enumerate() {
        let steady = evaluate(design, leg.condition)?;
        let (head_end, oil_end) = (steady.head_hottest.value, steady.oil.value);
        let began = now;
        let at = |elapsed_s: f64| {
            let toward = |from: f64, end: f64, constant_s: f64| {
                end + (from - end) * libm::exp(-elapsed_s / constant_s)
            };
            Warmth {
                head_k: toward(began.head_k, head_end, heads_s),
                oil_k: toward(began.oil_k, oil_end, oil_s),
            }
        };
        let steps = libm::ceil(leg.seconds / step_s).max(1.0) as u32;
        for step in 0..=steps {
            let elapsed_s = (f64::from(step) * step_s).min(leg.seconds);
            now = at(elapsed_s);
            moments.push(Moment {
                seconds: begun_s + elapsed_s,
                leg: place,
                warmth: now,
                head_rate_k_s: (head_end - now.head_k) / heads_s,
            });
        }
        begun_s += leg.seconds;
    }
    Ok(moments)
}

/// The first time, s, at which a temperature of the flight passes a limit, K, straight between
/// neighbouring moments; `None` if it never does.
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
    use crate::demo;

    const COLD: Warmth = Warmth {
        head_k: 350.0,
        oil_k: 320.0,
    };

    fn climb(minutes: f64) -> Vec<Leg> {
        vec![Leg {
            condition: 1,
            seconds: 60.0 * minutes,
        }]
    }

    #[test]
    fn a_long_leg_ends_at_the_steady_answer_and_one_time_constant_covers_its_share() {
        let design = demo::design();
        let steady = evaluate(&design, 1).expect("an answer");
        let long = flight(&design, &climb(100.0), COLD, 60.0).expect("a flight");
        let end = long.last().expect("moments");
        assert!((end.warmth.head_k - steady.head_hottest.value).abs() < 1e-6);
        assert!((end.warmth.oil_k - steady.oil.value).abs() < 1e-4);
        let short = flight(&design, &climb(100.0 / 60.0), COLD, 10.0);
        let end = *short.expect("a flight").last().expect("moments");
        let share = (end.warmth.head_k - COLD.head_k) / (steady.head_hottest.value - COLD.head_k);
        assert!((share - (1.0 - libm::exp(-1.0))).abs() < 1e-12);
    }

    #[test]
    fn cutting_a_leg_in_two_changes_nothing() {
        let design = demo::design();
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
        let design = demo::design();
        let limit = design.installation.engine.head_limit.value;
        let coarse = flight(&design, &climb(10.0), COLD, 5.0).expect("a flight");
        let found = first_over(&coarse, limit, |warmth| warmth.head_k).expect("too hot");
        let steady = evaluate(&design, 1).expect("an answer").head_hottest.value;
        let exact = 100.0 * libm::log((steady - COLD.head_k) / (steady - limit));
        assert!((found - exact).abs() < 0.5, "{found} and {exact} s");
        assert_eq!(first_over(&coarse, 900.0, |warmth| warmth.head_k), None);
    }
}
