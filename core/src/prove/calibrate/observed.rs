//! What the readings say, side by side with what the model says of the same moments.

use crate::answer::head_readings::{hottest_reading, mean_reading};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::Solved;
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::{Installation, OilProbe};
use crate::engine::breathing::RATED_MANIFOLD_PA;
use crate::engine::egt;
use crate::path::report::gauge_temperature;
use crate::prove::calibrate::channel::CHANNELS;
use crate::prove::calibrate::channel::Channel;
use crate::prove::calibrate::scatter::INDEPENDENT_S;

/// What the model says in steady state, by [`Channel`], SI.
pub(crate) type Steady = [f64; CHANNELS];

/// Model values of a condition in steady state; `None` if it has no answer.
pub(crate) fn steady(
    installation: &Installation,
    condition: &Condition,
    near: Option<&Solved>,
) -> Option<(Steady, Solved)> {
    let solved = solve_condition(installation, condition, near).ok()?;
    let state = &solved.solution.state;
    let mean = mean_reading(installation, &solved);
    let hottest = hottest_reading(installation, &solved);
    let after = installation.oil.probe == OilProbe::AfterCooler;
    Some((
        [
            mean,
            hottest - mean,
            hottest,
            gauge_temperature(state, after),
            state.trial.upper_pa - state.trial.lower_pa,
            state.trial.upper_pa,
            state.trial.lower_pa,
            exhaust(installation, condition, &solved),
        ],
        solved,
    ))
}

/// Mean exhaust temperature, K.
fn exhaust(installation: &Installation, condition: &Condition, solved: &Solved) -> f64 {
    let engine = &installation.engine;
    engine.egt_peak.value
        + egt::below_peak(solved.prepared.phi / engine.peak_egt)
        + egt::PER_SPEED_K * (condition.rpm / engine.rated_rpm - 1.0)
        + egt::PER_MANIFOLD_K * (solved.prepared.manifold_pa / RATED_MANIFOLD_PA - 1.0)
}

/// One channel of a stretch of flight: times, what was measured, what the model has in steady
/// state at every time.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Course<'a> {
    /// Times, s, rising.
    pub seconds: &'a [f64],
    /// Measured, SI, where it was.
    pub measured: &'a [Option<f64>],
    /// Model in steady state, SI.
    pub steady: &'a [f64],
}

impl Course<'_> {
    /// What the model says at each time, SI, with a first-order lag behind its steady state.
    ///
    /// τ dT/dt + T = s(t), with s straight between the times; the start is the one that fits the
    /// measured values best, since what came before the stretch is unknown.
    pub fn lagged(&self, lag_s: f64) -> Vec<f64> {
        let forced = self.forced(lag_s);
        let (mut of_fading, mut of_miss) = (0.0, 0.0);
        for ((seconds, measured), forced) in self.seconds.iter().zip(self.measured).zip(&forced) {
            if let Some(measured) = measured {
                let weight = self.fading(*seconds, lag_s);
                of_fading += weight * weight;
                of_miss += weight * (measured - forced);
            }
        }
        let start = if of_fading > 0.0 {
            of_miss / of_fading
        } else {
            0.0
        };
        forced
            .iter()
            .zip(self.seconds)
            .map(|(forced, seconds)| forced + start * self.fading(*seconds, lag_s))
            .collect()
    }

    /// The same, begun at a temperature that was read, K: nothing of it is fitted.
    pub fn begun_at(&self, start: f64, lag_s: f64) -> Vec<f64> {
        let by = start - self.steady.first().copied().unwrap_or(start);
        self.forced(lag_s)
            .iter()
            .zip(self.seconds)
            .map(|(forced, seconds)| forced + by * self.fading(*seconds, lag_s))
            .collect()
    }

    /// The same, begun in steady state.
    pub fn forced(&self, lag_s: f64) -> Vec<f64> {
        let mut forced = Vec::with_capacity(self.seconds.len());
        let mut now = self.steady.first().copied().unwrap_or(0.0);
        for (at, &seconds) in self.seconds.iter().enumerate() {
            if at > 0 {
                let step = seconds - self.seconds[at - 1];
                let (from, to) = (self.steady[at - 1], self.steady[at]);
                let slope = (to - from) / step;
                // T₁ = s₁ − τ m + (T₀ − s₀ + τ m) e^{−Δt/τ}
                now = to - lag_s * slope + (now - from + lag_s * slope) * libm::exp(-step / lag_s);
            }
            forced.push(now);
        }
        forced
    }

    /// What is left at a time, s, of a difference at the start, a share of it.
    pub fn fading(&self, seconds: f64, lag_s: f64) -> f64 {
        let begun = self.seconds.first().copied().unwrap_or(0.0);
        libm::exp(-(seconds - begun) / lag_s)
    }
}

/// A reading made ready: the moments that are conditions, and what was measured in them.
#[derive(Debug, Clone)]
pub(crate) struct Observed {
    /// Place of the reading in the design.
    pub place: usize,
    /// Times, s.
    pub seconds: Vec<f64>,
    /// The moments as conditions.
    pub conditions: Vec<Condition>,
    /// Measured, by channel.
    pub measured: Vec<Vec<Option<f64>>>,
    /// What the model says of each moment at the start.
    pub first: Vec<Steady>,
    /// Solutions to start from.
    pub near: Vec<Solved>,
    /// Moments that could not be used.
    pub unusable: usize,
}

impl Observed {
    fn empty(place: usize) -> Self {
        Self {
            place,
            seconds: Vec::new(),
            conditions: Vec::new(),
            measured: vec![Vec::new(); CHANNELS],
            first: Vec::new(),
            near: Vec::new(),
            unusable: 0,
        }
    }

    /// Takes a moment in; a condition without an answer is counted and left out.
    fn take(
        &mut self,
        installation: &Installation,
        seconds: f64,
        condition: Option<Condition>,
        measured: impl Fn(Channel) -> Option<f64>,
    ) {
        let answered = condition.and_then(|condition| {
            let (values, solution) = steady(installation, &condition, None)?;
            Some((condition, values, solution))
        });
        let Some((condition, values, solution)) = answered else {
            self.unusable += 1;
            return;
        };
        self.seconds.push(seconds);
        self.conditions.push(condition);
        self.first.push(values);
        self.near.push(solution);
        for (slot, channel) in self.measured.iter_mut().zip(Channel::ALL) {
            slot.push(measured(channel));
        }
    }

    /// The conditions of the moments, each with a solution near its own.
    pub fn moments(&self) -> impl Iterator<Item = (&Condition, &Solved)> {
        self.conditions.iter().zip(&self.near)
    }

    /// How many independent readings each of a channel's moments counts as \[-\]: n moments of a
    /// stretch count as 1 + duration/120 s.
    pub fn weight(&self, channel: Channel) -> f64 {
        let count = self.measured[channel as usize].iter().flatten().count();
        match (self.seconds.first(), self.seconds.last()) {
            (Some(first), Some(last)) if count > 0 => {
                ((1.0 + (last - first) / INDEPENDENT_S) / count as f64).min(1.0)
            }
            _ => 0.0,
        }
    }
}

/// Readings of a design that have something to compare and are not left out; of one that no
/// instruments can have shown no moment is used.
pub(crate) fn observed(design: &Design) -> Vec<Observed> {
    let engine = &design.installation.engine;
    let own = design.readings.iter().enumerate();
    own.filter(|(_, reading)| !reading.left_out)
        .map(|(place, reading)| {
            let mut found = Observed::empty(place);
            if !design.is_sound_reading(place) {
                found.unusable = reading.moments.len();
                return found;
            }
            for moment in reading.corrected(&design.instruments) {
                let condition = reading.condition_of(&moment, engine).ok();
                let measured = |channel: Channel| channel.measured(&moment);
                found.take(&design.installation, moment.seconds, condition, measured);
            }
            found
        })
        .collect()
}

/// The design's own conditions that have an answer, each as a reading in which nothing was read.
pub(crate) fn conditions(design: &Design) -> Vec<Observed> {
    let own = design.conditions.iter().enumerate();
    own.map(|(place, condition)| {
        let mut found = Observed::empty(place);
        found.take(&design.installation, 0.0, Some(condition.clone()), |_| None);
        found
    })
    .filter(|found| !found.conditions.is_empty())
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_is_followed_exactly_and_its_start_is_found() {
        let lag = 100.0;
        let seconds: Vec<f64> = (0..40).map(|at| 15.0 * f64::from(at)).collect();
        let truth: Vec<f64> = seconds
            .iter()
            .map(|t| 480.0 - 60.0 * libm::exp(-t / lag))
            .collect();
        let measured: Vec<Option<f64>> = truth.iter().copied().map(Some).collect();
        let course = Course {
            seconds: &seconds,
            measured: &measured,
            steady: &[480.0; 40],
        };
        for (model, truth) in course.lagged(lag).iter().zip(&truth) {
            assert!((model - truth).abs() < 1e-9, "{model} and {truth}");
        }
        let wrong = course.lagged(50.0);
        assert!((wrong[10] - truth[10]).abs() > 1.0);
    }

    #[test]
    fn a_ramp_is_followed_one_time_constant_behind() {
        let lag = 30.0;
        let seconds: Vec<f64> = (0..60).map(|at| 10.0 * f64::from(at)).collect();
        let steady: Vec<f64> = seconds.iter().map(|t| 400.0 + 0.1 * t).collect();
        let course = Course {
            seconds: &seconds,
            measured: &[None; 60],
            steady: &steady,
        };
        let end = *course.lagged(lag).last().expect("moments");
        assert!((end - (steady[59] - 0.1 * lag)).abs() < 1e-6);
    }
}
