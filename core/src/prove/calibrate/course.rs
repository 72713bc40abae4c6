//! First-order lags behind steady states that change, with time constants that follow the flow.

/// One channel of a stretch of flight: times, what the model has in steady state at each, and how
/// fast that is followed there.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Course<'a> {
    /// Times, s, rising.
    pub seconds: &'a [f64],
    /// Model in steady state, SI.
    pub steady: &'a [f64],
    /// Time constant at each time, s.
    pub lags_s: &'a [f64],
}

impl Course<'_> {
    /// What follows, begun at a temperature that was read, K: nothing of it is fitted.
    pub fn begun_at(&self, start: f64) -> Vec<f64> {
        let by = start - self.steady.first().copied().unwrap_or(start);
        moved(self.forced(), &self.fading(), by)
    }

    /// What follows, begun in steady state.
    ///
    /// τ dT/dt + T = s(t), with s straight between the times.
    pub fn forced(&self) -> Vec<f64> {
        let mut forced = Vec::with_capacity(self.seconds.len());
        let mut now = self.steady.first().copied().unwrap_or(0.0);
        for at in 0..self.seconds.len() {
            if let Some((step, lag_s)) = self.step(at) {
                let (from, to) = (self.steady[at - 1], self.steady[at]);
                let slope = (to - from) / step;
                // T₁ = s₁ − τ m + (T₀ − s₀ + τ m) e^{−Δt/τ}
                now = to - lag_s * slope + (now - from + lag_s * slope) * libm::exp(-step / lag_s);
            }
            forced.push(now);
        }
        forced
    }

    /// What is left at each time of a difference at the start, a share of it.
    pub fn fading(&self) -> Vec<f64> {
        // e^{−∫ dt/τ}
        let mut constants = 0.0;
        (0..self.seconds.len())
            .map(|at| {
                if let Some((step, lag_s)) = self.step(at) {
                    constants += step / lag_s;
                }
                libm::exp(-constants)
            })
            .collect()
    }

    /// From the time before to a time, s, and the time constant in between: 1/τ is straight.
    fn step(&self, at: usize) -> Option<(f64, f64)> {
        let before = at.checked_sub(1)?;
        let step = self.seconds[at] - self.seconds[before];
        let rate = 0.5 * (1.0 / self.lags_s[before] + 1.0 / self.lags_s[at]);
        (step > 0.0).then_some((step, 1.0 / rate))
    }
}

/// A course with a difference at its start added as far as it is left.
pub(super) fn moved(mut course: Vec<f64>, fading: &[f64], start: f64) -> Vec<f64> {
    for (value, fading) in course.iter_mut().zip(fading) {
        *value += start * fading;
    }
    course
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ramp_is_followed_one_time_constant_behind() {
        let lag = 30.0;
        let seconds: Vec<f64> = (0..60).map(|at| 10.0 * f64::from(at)).collect();
        let steady: Vec<f64> = seconds.iter().map(|t| 400.0 + 0.1 * t).collect();
        let course = Course {
            seconds: &seconds,
            steady: &steady,
            lags_s: &[lag; 60],
        };
        let end = *course.forced().last().expect("moments");
        assert!((end - (steady[59] - 0.1 * lag)).abs() < 1e-6);
    }

    #[test]
    fn what_is_left_of_the_start_follows_the_time_constants_between() {
        // 1/τ from 0.01 to 0.03 over 50 s: ∫ dt/τ = 1; the same in two pieces.
        for (seconds, rates) in [
            (vec![0.0, 50.0], vec![0.01, 0.03]),
            (vec![0.0, 20.0, 50.0], vec![0.01, 0.018, 0.03]),
        ] {
            let lags_s: Vec<f64> = rates.iter().map(|rate| 1.0 / rate).collect();
            let course = Course {
                seconds: &seconds,
                steady: &vec![400.0; seconds.len()],
                lags_s: &lags_s,
            };
            let left = *course.fading().last().expect("times");
            assert!((left - libm::exp(-1.0)).abs() < 1e-12, "{left}");
            let end = *course.begun_at(500.0).last().expect("times");
            assert!((end - 400.0 - 100.0 * left).abs() < 1e-9, "{end}");
        }
    }
}
