//! A reading corrected to another day: by the certification rule, and by the model.
//!
//! The rule adds to heads and fluids one degree for each degree by which the day is hotter, and to
//! barrels 0.7 (14 CFR 27.1043(c), 25.1043(d)), with the ambient temperature at the first occurrence
//! of the maximum. The model adds what it finds between the two days at that moment, all else
//! unchanged: same power, same mixture, same indicated airspeed, flap and shutter.

use crate::air::atmosphere;
use crate::answer::band::{Band, bands_of, figures};
use crate::answer::head_readings::each_reading;
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::{EvaluateError, Solved};
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::{CylinderData, Installation, SecondLimit};
use crate::document::limits::Held;
use crate::document::quantity::Quantity;
use crate::document::reading::{Lacking, Moment, Reading};
use crate::language::tr;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::prove::calibrate::scatter::Scatter;
use crate::units::quantity::kelvin;

/// Degrees of a head or of the oil per degree of air by the rule \[-\].
pub const RULE_HEAD: f64 = 1.0;
/// Degrees of a barrel per degree of air by the rule \[-\].
pub const RULE_BARREL: f64 = 0.7;
/// Fall of temperature with altitude on a hot day in feet, K/m: 3.6 °F per 1000 ft.
const LAPSE_FEET: f64 = 3.6 / 1.8 / 304.8;
/// The same in the metric rule, K/m: 6.5 °C per km (CS 22.1047).
const LAPSE_METRIC: f64 = 6.5e-3;

/// The day that a reading is corrected to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Day {
    /// 100 °F at sea level less 3.6 °F per 1000 ft.
    Hot,
    /// 38 °C at sea level less 6.5 °C per km.
    HotMetric,
    /// Another temperature at sea level, K, less 3.6 °F per 1000 ft.
    SeaLevel(f64),
}

impl Day {
    /// Its air temperature, K, at a pressure altitude, m.
    ///
    /// # Example
    /// 82 °F at 5000 ft by the rule in feet, 31.5 °C at 1000 m by the metric one
    /// (`reference/cooling_test_rules`, D01a; `reference/cs_22`, D04a):
    /// ```
    /// use coolpath_core::prove::hot_day::Day;
    /// use coolpath_core::units::si::{degf, foot};
    ///
    /// assert!((Day::Hot.air(foot(5000.0)) - degf(82.0)).abs() < 1e-9);
    /// assert!((Day::HotMetric.air(1000.0) - (273.15 + 31.5)).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn air(self, altitude_m: f64) -> f64 {
        match self {
            Self::Hot => atmosphere::hot_day_temperature(altitude_m),
            Self::HotMetric => 311.15 - LAPSE_METRIC * altitude_m,
            Self::SeaLevel(kelvin) => kelvin - LAPSE_FEET * altitude_m,
        }
    }
}

/// A temperature corrected by the rule, K.
///
/// T' = T + c (T_day − T_air)
///
/// # Example
/// 435 °F read in air of 70 °F at 5000 ft, where the hot day has 82 °F: 447 °F
/// (`reference/cooling_test_rules`, D02a):
/// ```
/// use coolpath_core::prove::hot_day::{RULE_HEAD, by_rule};
/// use coolpath_core::units::si::degf;
///
/// let head = by_rule(degf(435.0), RULE_HEAD, degf(70.0), degf(82.0));
/// assert!((head - degf(447.0)).abs() < 1e-9);
/// ```
#[must_use]
pub fn by_rule(reading_k: f64, share: f64, air_k: f64, day_k: f64) -> f64 {
    reading_k + share * (day_k - air_k)
}

/// One temperature corrected both ways, K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BothWays {
    /// As it was read, with the instrument's correction.
    pub reading: f64,
    /// By the rule.
    pub rule: f64,
    /// By the model.
    pub model: f64,
    /// How far the model's may be off, in about nine cases in ten: assumptions and scatter of the
    /// reading.
    pub band: Band,
    /// The manual's limit.
    pub limit: f64,
    /// A continuous or personal limit beside it, if one was typed.
    pub second: Option<Held>,
}

impl BothWays {
    /// Degrees per degree of air by the model \[-\].
    ///
    /// # Example
    /// 9 K more on a day 12 K hotter:
    /// ```
    /// use coolpath_core::answer::band::Band;
    /// use coolpath_core::prove::hot_day::BothWays;
    ///
    /// let head = BothWays {
    ///     reading: 480.0,
    ///     rule: 492.0,
    ///     model: 489.0,
    ///     band: Band::default(),
    ///     limit: 500.0,
    ///     second: None,
    /// };
    /// assert_eq!(head.slope(12.0), 0.75);
    /// ```
    #[must_use]
    pub fn slope(&self, hotter_k: f64) -> f64 {
        (self.model - self.reading) / hotter_k
    }
}

/// A reading corrected to another day.
#[derive(Debug, Clone, PartialEq)]
pub struct Corrected {
    /// Time of the maximum in the reading, s.
    pub seconds: f64,
    /// Outside air then, K.
    pub air: f64,
    /// Outside air on the other day, K.
    pub day: f64,
    /// Hottest head, if heads were read.
    pub head: Option<BothWays>,
    /// Each head that was read, by its number, the first being 1.
    pub heads: Vec<(u8, BothWays)>,
    /// Oil, if it was read.
    pub oil: Option<BothWays>,
}

/// Why a reading cannot be corrected.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CorrectError {
    /// It holds neither a head nor oil.
    #[error("{}", tr("it holds neither a head nor oil"))]
    NoTemperature,
    /// Something is missing for the model.
    #[error("{0}")]
    Lacking(#[source] Lacking),
    /// The model has no answer on one of the days.
    #[error("{0}")]
    Evaluate(#[source] EvaluateError),
}

/// A reading corrected to a day.
///
/// # Errors
/// [`CorrectError`] says what is missing.
pub fn corrected(
    design: &Design,
    reading: &Reading,
    day: Day,
    scatter: &Scatter,
) -> Result<Corrected, CorrectError> {
    let moments = reading.corrected(&design.instruments);
    let moment = reading
        .hottest(&moments)
        .filter(|moment| moment.head_hottest().is_some() || moment.get(Quantity::Oil).is_some())
        .ok_or(CorrectError::NoTemperature)?;
    let here = reading
        .condition_of(moment, &design.installation.engine)
        .map_err(CorrectError::Lacking)?;
    let nominal =
        solve_condition(&design.installation, &here, None).map_err(CorrectError::Evaluate)?;
    let air_k = nominal.prepared.cowl.stream.temperature_k;
    let day_k = day.air(nominal.prepared.pressure_altitude_m);
    // The thermometer's rise with speed stays what it was.
    let there = Condition {
        oat: kelvin(here.oat.value + day_k - air_k),
        ..here.clone()
    };
    let moved = |installation: &Installation, solution: &Solved| match solve_condition(
        installation,
        &there,
        Some(solution),
    ) {
        Ok(then) => gains(installation, solution, &then),
        Err(_) => [f64::NAN; GAINS],
    };
    let by = moved(&design.installation, &nominal);
    if by[HOTTEST].is_nan() {
        let error = solve_condition(&design.installation, &there, Some(&nominal)).err();
        return Err(error.map_or(CorrectError::NoTemperature, CorrectError::Evaluate));
    }
    let bands = bands_of(design, &here, &nominal, moved);
    let engine = &design.installation.engine;
    let second = |second: SecondLimit, kelvin: f64| second.kind().map(|kind| Held { kelvin, kind });
    let both = |reading: f64, by: f64, band: Band, limit: Limited| {
        let own = RANGE_DEVIATIONS * limit.scatter_k;
        BothWays {
            reading,
            rule: by_rule(reading, RULE_HEAD, air_k, day_k),
            model: reading + by,
            band: Band {
                below: libm::hypot(band.below, own),
                above: libm::hypot(band.above, own),
            },
            limit: limit.redline_k,
            second: limit.second,
        }
    };
    let head_limit = Limited {
        scatter_k: scatter.head_k,
        redline_k: engine.head_limit.value,
        second: second(engine.head_second, engine.head_second_limit.value),
    };
    let oil_limit = Limited {
        scatter_k: scatter.oil_k,
        redline_k: engine.oil_limit.value,
        second: second(engine.oil_second, engine.oil_second_limit.value),
    };
    let read = hottest_oil(&moments).or_else(|| moment.get(Quantity::Oil));
    let heads = Quantity::HEADS.into_iter().enumerate();
    Ok(Corrected {
        seconds: moment.seconds,
        air: air_k,
        day: day_k,
        head: moment
            .head_hottest()
            .map(|hottest| both(hottest, by[HOTTEST], bands[HOTTEST], head_limit)),
        heads: heads
            .filter_map(|(place, head)| {
                let kelvin = moment.get(head)?;
                let (gain, band) = if engine.cylinder_data == CylinderData::Each {
                    (by[EACH + place], bands[EACH + place])
                } else {
                    (
                        between(moment, kelvin, by[MEAN], by[HOTTEST]),
                        bands[HOTTEST],
                    )
                };
                Some((place as u8 + 1, both(kelvin, gain, band, head_limit)))
            })
            .collect(),
        oil: read.map(|oil| both(oil, by[OIL], bands[OIL], oil_limit)),
    })
}

/// Limits of a quantity and the scatter of its readings.
#[derive(Debug, Clone, Copy)]
struct Limited {
    scatter_k: f64,
    redline_k: f64,
    second: Option<Held>,
}

/// Places in a list of gains: hottest head, oil, mean of the heads, then each head.
const HOTTEST: usize = 0;
const OIL: usize = 1;
const MEAN: usize = 2;
const EACH: usize = 3;
const GAINS: usize = EACH + Quantity::HEADS.len();

/// What the model finds between two days, K; zero for a head that it does not know by itself.
fn gains(installation: &Installation, now: &Solved, then: &Solved) -> [f64; GAINS] {
    let (one, other) = (figures(installation, now), figures(installation, then));
    let mut gains = [0.0; GAINS];
    gains[HOTTEST] = other.head_hottest - one.head_hottest;
    gains[OIL] = other.oil - one.oil;
    gains[MEAN] = other.head_mean - one.head_mean;
    let each = each_reading(installation, now);
    for (slot, (before, after)) in gains[EACH..]
        .iter_mut()
        .zip(each.iter().zip(each_reading(installation, then)))
    {
        *slot = after - before;
    }
    gains
}

/// Gain of a head that the model does not know by itself, K: straight between those of the mean and of the
/// hottest, by where it was read between them.
fn between(moment: &Moment, kelvin: f64, mean_by: f64, hottest_by: f64) -> f64 {
    let (Some(mean), Some(hottest)) = (moment.head_mean(), moment.head_hottest()) else {
        return hottest_by;
    };
    if hottest - mean < 1.0 {
        return hottest_by;
    }
    mean_by + (hottest_by - mean_by) * (kelvin - mean) / (hottest - mean)
}

/// The hottest oil of a reading, K.
fn hottest_oil(moments: &[Moment]) -> Option<f64> {
    moments
        .iter()
        .filter_map(|moment| moment.get(Quantity::Oil))
        .max_by(f64::total_cmp)
}
