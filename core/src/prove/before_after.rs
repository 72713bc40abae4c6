//! Before and after: two sets of readings brought to one condition, so that one change can be
//! judged on different days.
//!
//! Each reading is compared with what the model says of the same moments; what the model says of
//! the chosen condition, scaled by that comparison, is the reading brought there:
//!
//! T' = T₀ + r (T_model − T₀) with r = (T_read − T_air) / (T_read,model − T_air), and
//! Δp' = r Δp_model with r = Δp_read / Δp_read,model
//!
//! Over a stretch of flight r is the factor that fits the lagged temperatures best, whatever they
//! began at. Readings weigh by what they tell of r.
//!
//! The same design stands for both sets: what was changed between them must not be typed into it
//! in between.

use crate::answer::band::{Band, uncertain};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::EvaluateError;
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::table::Input;
use crate::language::tr;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::prove::calibrate::channel::Channel;
use crate::prove::calibrate::course::Course;
use crate::prove::calibrate::observed::{Observed, SLOWNESS, Steady, observed, steady};
use crate::prove::calibrate::scatter::Scatter;

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ComparedQuantity {
    /// Mean of the heads.
    HeadMean,
    /// Oil.
    Oil,
    /// Pressure across the baffles.
    BaffleDrop,
}

/// Number of quantities compared.
const COMPARED: usize = 3;

impl ComparedQuantity {
    /// All of them.
    pub const ALL: [Self; COMPARED] = [Self::HeadMean, Self::Oil, Self::BaffleDrop];

    fn channels(self) -> &'static [Channel] {
        match self {
            Self::HeadMean => &[Channel::HeadMean, Channel::HeadAlone],
            Self::Oil => &[Channel::Oil],
            Self::BaffleDrop => &[Channel::BaffleDrop],
        }
    }
}

/// Why two sets cannot be compared.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BeforeAfterError {
    /// A set has no complete reading.
    #[error("{}", tr!("No complete reading in the set “{}”.", .set))]
    NoReadings {
        /// Name of the set.
        set: String,
    },
    /// The condition has no answer.
    #[error("{0}")]
    Evaluate(#[source] EvaluateError),
}

/// A set's value at the chosen condition, SI; `None` where it was not read.
type Values = [Option<f64>; COMPARED];

/// Difference of one quantity between the sets, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// What is compared.
    pub compared: ComparedQuantity,
    /// Before, at the chosen condition.
    pub before: f64,
    /// After, at the chosen condition.
    pub after: f64,
    /// How far the difference may be off, in about nine cases in ten.
    pub band: Band,
}

impl Difference {
    /// After less before.
    #[must_use]
    pub fn change(&self) -> f64 {
        self.after - self.before
    }

    /// Whether the change is larger than its uncertainty.
    ///
    /// # Example
    /// 6 K cooler, and it might be 4 K warmer than that: still cooler; by 8 K it might be none:
    /// ```
    /// use coolpath_core::answer::band::Band;
    /// use coolpath_core::prove::before_after::{ComparedQuantity, Difference};
    ///
    /// let found = |above: f64| Difference {
    ///     compared: ComparedQuantity::Oil,
    ///     before: 370.0,
    ///     after: 364.0,
    ///     band: Band { below: 4.0, above },
    /// };
    /// assert_eq!(found(4.0).change(), -6.0);
    /// assert!(found(4.0).is_clear());
    /// assert!(!found(8.0).is_clear());
    /// ```
    #[must_use]
    pub fn is_clear(&self) -> bool {
        let change = self.change();
        if change < 0.0 {
            -change > self.band.above
        } else {
            change > self.band.below
        }
    }
}

/// A comparison under way: one assumption a step.
#[derive(Debug)]
pub struct BeforeAfter {
    design: Design,
    sets: [Vec<Observed>; 2],
    condition: Condition,
    scatter: Scatter,
    nominal: [Values; 2],
    bands: [Band; COMPARED],
    assumptions: Vec<(&'static Input, usize, (f64, f64))>,
    done: usize,
}

impl BeforeAfter {
    /// A comparison of two sets of a design's readings at one of its conditions.
    ///
    /// # Errors
    /// [`BeforeAfterError`] if a set is empty or the condition has no answer.
    pub fn new(
        design: &Design,
        names: [&str; 2],
        condition: &Condition,
        scatter: Scatter,
    ) -> Result<Self, BeforeAfterError> {
        solve_condition(&design.installation, condition, None)
            .map_err(BeforeAfterError::Evaluate)?;
        let all = observed(design);
        let of = |name: &str| -> Vec<Observed> {
            all.iter()
                .filter(|found| design.readings[found.place].set.trim() == name)
                .filter(|found| !found.conditions.is_empty())
                .cloned()
                .collect()
        };
        let sets = names.map(of);
        for (set, name) in sets.iter().zip(names) {
            if set.is_empty() {
                return Err(BeforeAfterError::NoReadings {
                    set: name.to_owned(),
                });
            }
        }
        let mut comparison = Self {
            assumptions: uncertain(design)
                .map(|(input, place, _, range)| (input, place, range))
                .collect(),
            design: design.clone(),
            sets,
            condition: condition.clone(),
            scatter,
            nominal: [[None; COMPARED]; 2],
            bands: [Band::default(); COMPARED],
            done: 0,
        };
        let (nominal, deviations) = comparison.brought(design);
        comparison.nominal = nominal;
        for (band, deviation) in comparison.bands.iter_mut().zip(deviations) {
            let own = RANGE_DEVIATIONS * deviation;
            *band = Band {
                below: own,
                above: own,
            };
        }
        Ok(comparison)
    }

    /// Assumptions considered, and in all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.done, self.assumptions.len())
    }

    /// Considers one more assumption; false when all are.
    pub fn advance(&mut self) -> bool {
        let Some(&(input, place, (low, high))) = self.assumptions.get(self.done) else {
            return false;
        };
        let mut varied = self.design.clone();
        for end in [low, high] {
            input.set(&mut varied, place, end);
            let (moved, _) = self.brought(&varied);
            for (at, band) in self.bands.iter_mut().enumerate() {
                let change = |values: &[Values; 2]| Some(values[1][at]? - values[0][at]?);
                if let (Some(own), Some(moved)) = (change(&self.nominal), change(&moved)) {
                    band.add(moved - own);
                }
            }
        }
        self.done += 1;
        self.done < self.assumptions.len()
    }

    /// The differences; those of quantities that only one set has are left out.
    #[must_use]
    pub fn differences(&self) -> Vec<Difference> {
        ComparedQuantity::ALL
            .into_iter()
            .enumerate()
            .filter_map(|(at, compared)| {
                Some(Difference {
                    compared,
                    before: self.nominal[0][at]?,
                    after: self.nominal[1][at]?,
                    band: self.bands[at],
                })
            })
            .collect()
    }

    /// Both sets brought to the condition by a design, and the deviation of each difference from
    /// the scatter of the readings alone.
    fn brought(&self, design: &Design) -> ([Values; 2], [f64; COMPARED]) {
        let mut values = [[None; COMPARED]; 2];
        let mut squares = [0.0; COMPARED];
        let Some((there, solution)) = steady(&design.installation, &self.condition, None) else {
            return (values, squares);
        };
        let air_k = solution.prepared.cowl.stream.temperature_k;
        for (values, set) in values.iter_mut().zip(&self.sets) {
            for (at, factor) in self.factors(design, set).into_iter().enumerate() {
                let Some((channel, Factor { ratio, information })) = factor else {
                    continue;
                };
                let above = if channel.is_pressure() { 0.0 } else { air_k };
                let reach = there[channel as usize] - above;
                values[at] = Some(above + ratio * reach);
                squares[at] += reach * reach / information;
            }
        }
        (values, squares.map(f64::sqrt))
    }

    /// The factor of each quantity over a set's readings.
    fn factors(&self, design: &Design, set: &[Observed]) -> [Option<(Channel, Factor)>; COMPARED] {
        let mut sums: [Option<(Channel, Factor)>; COMPARED] = [None; COMPARED];
        let lags = &design.installation.lags;
        for reading in set {
            let Some((model, air)) = followed(design, reading) else {
                continue;
            };
            for (sum, compared) in sums.iter_mut().zip(ComparedQuantity::ALL) {
                for &channel in compared.channels() {
                    let own: Vec<f64> = model
                        .iter()
                        .map(|values| values[channel as usize])
                        .collect();
                    let slowness: Vec<f64> = model.iter().map(|values| values[SLOWNESS]).collect();
                    let lags_s = channel.lags_s(lags, &slowness);
                    let lags_s = lags_s.filter(|_| reading.seconds.len() > 1);
                    let scatter = self.scatter.of(channel);
                    let found = factor(reading, channel, &own, &air, lags_s.as_deref(), scatter);
                    if let Some(found) = found {
                        *sum = Some((channel, sum.map_or(found, |(_, old)| old.with(found))));
                    }
                }
            }
        }
        sums
    }
}

/// What a reading says of r, and how much it tells: the reciprocal of its variance.
#[derive(Debug, Clone, Copy)]
struct Factor {
    ratio: f64,
    information: f64,
}

impl Factor {
    fn with(self, other: Self) -> Self {
        let information = self.information + other.information;
        Self {
            ratio: (self.ratio * self.information + other.ratio * other.information) / information,
            information,
        }
    }
}

/// Model values and outside air, K, at each moment of a reading; `None` if one has no answer.
fn followed(design: &Design, reading: &Observed) -> Option<(Vec<Steady>, Vec<f64>)> {
    reading
        .moments()
        .map(|(condition, near)| {
            let (values, solution) = steady(&design.installation, condition, Some(near))?;
            Some((values, solution.prepared.cowl.stream.temperature_k))
        })
        .collect()
}

/// The factor of one reading's channel; `lags_s` is `None` where it follows at once.
fn factor(
    reading: &Observed,
    channel: Channel,
    model: &[f64],
    air: &[f64],
    lags_s: Option<&[f64]>,
    scatter: f64,
) -> Option<Factor> {
    let measured = &reading.measured[channel as usize];
    let course = |steady, lags_s| Course {
        seconds: &reading.seconds,
        steady,
        lags_s,
    };
    // Temperatures count above the air, which the lag smooths too.
    let base = if channel.is_pressure() {
        vec![0.0; air.len()]
    } else {
        air.to_vec()
    };
    let above: Vec<f64> = model.iter().zip(&base).map(|(m, base)| m - base).collect();
    let (reach, base, fading) = match lags_s {
        Some(lags_s) => (
            course(&above, lags_s).forced(),
            course(&base, lags_s).forced(),
            course(model, lags_s).fading(),
        ),
        None => (above, base, vec![0.0; air.len()]),
    };
    // Least squares of y − base = r reach + a fading, a only where there is a lag.
    let (mut rr, mut ra, mut aa, mut ry, mut ay) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (at, measured) in measured.iter().enumerate() {
        let Some(measured) = measured else { continue };
        let (y, r) = (measured - base[at], reach[at]);
        let a = fading[at];
        rr += r * r;
        ra += r * a;
        aa += a * a;
        ry += r * y;
        ay += a * y;
    }
    let (own, with) = if aa > 0.0 {
        (rr - ra * ra / aa, ry - ra * ay / aa)
    } else {
        (rr, ry)
    };
    (own > 0.0).then(|| Factor {
        ratio: with / own,
        information: reading.weight(channel) * own / (scatter * scatter),
    })
}
