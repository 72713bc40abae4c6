//! Fit and errors in turn: the fit weighs what was read by its errors, which what it leaves tells.

use crate::prove::calibrate::channel::Channel;
use crate::prove::calibrate::fit::Calibration;
use crate::prove::calibrate::outcome::OverFlights;
use crate::prove::calibrate::problem::{Known, stepped};
use crate::prove::calibrate::tuning::Tuning;

/// Rounds of fit and errors.
const MOST_ROUNDS: usize = 4;
/// A change of a logarithm of deviation or memory that needs no other round.
const SETTLED: f64 = 0.05;

impl Calibration {
    /// The search for how errors are correlated about a set of values; `None` where no whole flight is
    /// fitted, or enough has been tried.
    pub(super) fn tuned_at(&self, x: &[f64]) -> Option<Tuning> {
        let whole = self.readings.iter().any(|reading| reading.whole);
        let known = self.known.iter().find(|known| known.x == x)?;
        let moved = &known.slopes.as_ref()?.moved;
        (whole && self.rounds < MOST_ROUNDS).then(|| Tuning {
            x: x.to_vec(),
            series: self.series(&self.placed(x), &known.steady),
            moved: moved
                .iter()
                .enumerate()
                .map(|(at, steady)| self.series(&self.placed(&stepped(x, at)), steady))
                .collect(),
            errors: self.errors,
            channel: 0,
        })
    }

    /// One channel more; at the end the fit goes on with what was found, or has settled.
    pub(super) fn tune(&mut self) {
        let Some(mut tuning) = self.tuning.take() else {
            return;
        };
        if tuning.advance(&self.assumed) {
            self.tuning = Some(tuning);
            return;
        }
        self.rounds += 1;
        let far = |one: f64, other: f64| libm::log(one / other).abs() > SETTLED;
        let pairs = self
            .errors
            .over_a_flight
            .iter()
            .zip(&tuning.errors.over_a_flight);
        let anew = pairs
            .into_iter()
            .any(|(old, new)| far(old.deviation, new.deviation) || far(old.memory_s, new.memory_s));
        if !anew {
            self.settled = Some(Ok(tuning.x));
            return;
        }
        self.errors = tuning.errors;
        self.go_on_from(tuning.x);
    }

    /// Keeps what is known at a set of values, as the errors now weigh it.
    fn go_on_from(&mut self, x: Vec<f64>) {
        let mut known = core::mem::take(&mut self.known);
        known.retain(|known| known.x == x);
        for mut own in known {
            own.residuals = self.residuals(&self.placed(&own.x), &own.x, &own.steady);
            own.slopes = own
                .slopes
                .take()
                .map(|slopes| self.slopes(&own, slopes.moved));
            self.known.push(own);
        }
        self.from = x;
    }

    /// How each channel errs over the whole flights.
    pub(super) fn whole_flights(&self, x: &[f64], known: &Known) -> Vec<OverFlights> {
        let series = self.series(&self.placed(x), &known.steady);
        Channel::ALL
            .into_iter()
            .filter_map(|channel| {
                let error = self.errors.over_a_flight[channel as usize];
                let mut found = OverFlights {
                    channel,
                    moments: 0,
                    seconds: 0.0,
                    error,
                    independent: 0.0,
                };
                for own in series
                    .iter()
                    .filter(|own| own.is_correlated() && own.channel == channel)
                {
                    found.moments += own.seconds.len();
                    found.seconds +=
                        own.seconds.last().unwrap_or(&0.0) - own.seconds.first().unwrap_or(&0.0);
                    found.independent += error.independent(&own.seconds);
                }
                (found.moments > 0).then_some(found)
            })
            .collect()
    }
}
