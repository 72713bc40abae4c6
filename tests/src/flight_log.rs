//! An invented flight as an engine monitor would log it, for the tests of import and calibration.
//!
//! Ten minutes of ground and climb, level cruise at two powers, a descent; heads and oil follow the
//! model of a given design second by second with its time constants, so that a calibration can be
//! asked for what went in.

use coolpath_core::answer::minutes::slowness;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::document::condition::Mixture;
use coolpath_core::document::design::Design;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Moment, Values};
use coolpath_core::units::si::{degf, foot, knot};
use std::fmt::Write;

use crate::probes::Probes;

/// What each second of the flight looks like.
struct Flown {
    altitude_ft: f64,
    oat_f: f64,
    ias_kt: f64,
    power: f64,
}

/// The day of a flight, and how hard it was flown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Day {
    /// OAT at sea level, °F.
    pub oat_f: f64,
    /// Added to the power's share everywhere \[-\].
    pub power_by: f64,
    /// Added to every altitude, ft.
    pub altitude_by_ft: f64,
}

impl Default for Day {
    fn default() -> Self {
        Self {
            oat_f: 82.0,
            power_by: 0.0,
            altitude_by_ft: 0.0,
        }
    }
}

impl Day {
    /// Colder, lower and flown with less power than the usual one.
    pub const OTHER: Self = Self {
        oat_f: 58.0,
        power_by: -0.05,
        altitude_by_ft: -300.0,
    };
}

const CLIMB_S: u32 = 780;
const FIRST_CRUISE_S: u32 = 1980;
const SECOND_CRUISE_S: u32 = 3180;
/// Length of the flight, s.
pub const LENGTH_S: u32 = 3600;

fn flown(day: &Day, second: u32) -> Flown {
    let minutes = |from: u32| f64::from(second - from) / 60.0;
    let (altitude_ft, ias_kt, power) = if second < CLIMB_S {
        (800.0 + 600.0 * minutes(0), 95.0, 0.95 - 0.012 * minutes(0))
    } else if second < FIRST_CRUISE_S {
        (8600.0, 125.0, 0.72)
    } else if second < SECOND_CRUISE_S {
        (8600.0, 115.0, 0.58)
    } else {
        (8600.0 - 700.0 * minutes(SECOND_CRUISE_S), 140.0, 0.40)
    };
    let altitude_ft = altitude_ft + day.altitude_by_ft;
    Flown {
        altitude_ft,
        oat_f: day.oat_f - 3.4 * altitude_ft / 1000.0,
        ias_kt,
        power: power + day.power_by,
    }
}

/// Mean head, hottest above it, oil, K; Δp, Pa; and how much slower the heads are than in cruise.
fn steady(truth: &Design, day: &Day, second: u32) -> [f64; 5] {
    let now = flown(day, second);
    let values: Values = [
        (Quantity::Altitude, foot(now.altitude_ft)),
        (Quantity::Oat, degf(now.oat_f)),
        (Quantity::Airspeed, knot(now.ias_kt)),
        (Quantity::PowerShare, now.power),
        (Quantity::Rpm, 2450.0),
        (Quantity::Shutter, 1.0),
    ]
    .into_iter()
    .collect();
    let moment = Moment {
        seconds: 0.0,
        values,
    };
    let condition = moment
        .condition(&truth.installation.engine, Mixture::BestPower)
        .expect("complete");
    let found = solve_condition(&truth.installation, &condition, None).expect("an answer");
    let read = Probes::of(&truth.installation, &found);
    [read.mean, read.above, read.oil, read.drop, slowness(&found)]
}

/// The log's text: a row a second, comma-separated, mixed units, a dead fifth channel, one spike,
/// heads to 1 °F with noise from a seed.
///
/// # Panics
/// If a moment of the flight has no answer.
#[must_use]
pub fn text(truth: &Design, seed: u64) -> String {
    text_on(truth, seed, &Day::default())
}

/// The same on another day.
///
/// # Panics
/// If a moment of the flight has no answer.
#[must_use]
pub fn text_on(truth: &Design, seed: u64, day: &Day) -> String {
    const EVERY_S: u32 = 15;
    let mut random = fastrand::Rng::with_seed(seed);
    let mut noise = move |size: f64| {
        let sum: f64 = (0..12).map(|_| random.f64()).sum();
        size * (sum - 6.0)
    };
    let ends: Vec<[f64; 5]> = (0..=LENGTH_S / EVERY_S)
        .map(|step| steady(truth, day, (step * EVERY_S).min(LENGTH_S - 1)))
        .collect();
    let lags = &truth.installation.lags;
    let mut now = [degf(340.0), ends[0][1], degf(165.0)];
    let mut text = String::from(
        "Clock,Pressure Alt (ft),IAS (kt),OAT (deg C),RPM,Power (%),CHT1 (deg F),CHT2 (deg F),CHT3 (deg F),\
         CHT4 (deg F),CHT5 (deg F),Oil Temp (deg F),Baffle dP (inH2O),Note\n",
    );
    for second in 0..LENGTH_S {
        let (at, share) = (
            (second / EVERY_S) as usize,
            f64::from(second % EVERY_S) / f64::from(EVERY_S),
        );
        let target: Vec<f64> = (0..5)
            .map(|which| ends[at][which] + share * (ends[at + 1][which] - ends[at][which]))
            .collect();
        let heads_s = lags.heads * target[4];
        for (which, lag) in [heads_s, heads_s, lags.oil].into_iter().enumerate() {
            now[which] += (target[which] - now[which]) / lag;
        }
        let flown = flown(day, second);
        let degf_of = |kelvin: f64| kelvin * 1.8 - 459.67;
        let spike = if second == 900 { 150.0 } else { 0.0 };
        let _ = write!(
            text,
            "{:02}:{:02}:{:02},{:.0},{:.1},{:.1},2450,{:.1}",
            10 + second / 3600,
            second / 60 % 60,
            second % 60,
            flown.altitude_ft,
            flown.ias_kt + noise(0.5),
            (flown.oat_f - 32.0) / 1.8,
            100.0 * flown.power,
        );
        for share in [1.0, -1.0, 1.0 / 3.0, -1.0 / 3.0] {
            let _ = write!(
                text,
                ",{:.0}",
                degf_of(now[0] + share * now[1]) + noise(1.5)
            );
        }
        let drop = target[3] / coolpath_core::units::typed::INCH_OF_WATER_PA;
        let _ = writeln!(
            text,
            ",131,{:.0},{:.2},",
            degf_of(now[2]) + noise(1.0) + spike,
            drop + noise(0.05)
        );
    }
    text
}
