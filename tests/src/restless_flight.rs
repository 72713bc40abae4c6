//! Invented flights that never settle: power, speed and climb change before the heads have followed.
//!
//! The steady temperatures of every few seconds are the model's of a given design; heads and oil follow
//! them second by second, and what the instruments show errs with a memory. A [`Structure`] makes the
//! world another than the model's.

use coolpath_core::answer::minutes::slowness;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::document::condition::{Condition, Mixture};
use coolpath_core::document::design::Design;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Moment, Reading, Values};
use coolpath_core::prove::calibrate::Scatter;
use coolpath_core::prove::log::{Channel, Fate, Session, whole_flight};
use coolpath_core::units::quantity::{kelvin, metre_per_s};
use coolpath_core::units::si::{degf, foot, knot};
use coolpath_core::units::typed::INCH_OF_WATER_PA;

use crate::probes::Probes;

/// Between two steady states that are worked out, s.
const EVERY_S: u32 = 5;
/// Shortest and longest leg, s.
const LEG_S: (u32, u32) = (40, 90);
/// Memory of what the instruments miss, s.
pub const MEMORY_S: f64 = 60.0;
/// What the hottest head stands above the mean errs by a share of itself, so that it stays the hottest:
/// of the usual 20 °F as much as a head may be off.
const ABOVE_SHARE: f64 = 0.3;
/// Where other exponents change nothing: power's share, and airspeed, m/s.
const ABOUT: (f64, f64) = (0.75, knot(110.0));

/// A normal number (Box and Muller).
pub fn normal(random: &mut fastrand::Rng) -> f64 {
    let (u, v) = (1.0 - random.f64(), random.f64());
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

/// What the world does that the model does not know.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Structure {
    /// Added to the exponents of what follows from power \[-\].
    pub power_exponent: f64,
    /// Added to the exponents of what follows from airspeed \[-\].
    pub speed_exponent: f64,
    /// Time constant of the head probes behind the heads, s.
    pub probe_lag_s: f64,
    /// Exponent over power's share of what the oil stands above the air, beside the model's \[-\].
    pub oil_exponent: f64,
    /// What head probes read too much, K.
    pub probe_k: f64,
    /// What the outside air probe reads too much, K.
    pub air_k: f64,
}

impl Structure {
    /// The condition that the world makes of what is flown.
    fn of(&self, flown: &Condition) -> Condition {
        let (share, speed_m_s) = ABOUT;
        let mut there = flown.clone();
        there.power_share = share * (flown.power_share / share).powf(1.0 + self.power_exponent);
        let speed = flown.airspeed.value / speed_m_s;
        there.airspeed = metre_per_s(speed_m_s * speed.powf(1.0 + self.speed_exponent));
        there.oat = kelvin(flown.oat.value - self.air_k);
        there
    }
}

/// Mean head, hottest above it, oil, K; Δp, Pa; and how much slower the heads are than in cruise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settled {
    /// Mean of the heads as probes read them, K.
    pub mean: f64,
    /// Hottest above it, K.
    pub above: f64,
    /// Oil, K.
    pub oil: f64,
    /// Δp across the baffles, Pa.
    pub drop: f64,
    /// Time constant of the heads over that in cruise \[-\].
    pub slowness: f64,
}

/// What a world settles to in a condition; `None` where it has no answer.
#[must_use]
pub fn settled(truth: &Design, structure: &Structure, flown: &Condition) -> Option<Settled> {
    let installation = &truth.installation;
    let found = solve_condition(installation, &structure.of(flown), None).ok()?;
    let read = Probes::of(installation, &found);
    let air_k = flown.oat.value;
    Some(Settled {
        mean: read.mean + structure.probe_k,
        above: read.above,
        oil: air_k
            + (read.oil - air_k) * (flown.power_share / ABOUT.0).powf(structure.oil_exponent),
        drop: read.drop,
        slowness: slowness(&found),
    })
}

/// What is flown second by second: altitude, OAT, airspeed, power's share.
fn flown(seconds: u32, random: &mut fastrand::Rng) -> Vec<[f64; 4]> {
    let (mut altitude_ft, mut rows) = (2500.0, Vec::new());
    let sea_f = 45.0 + 45.0 * random.f64();
    let (mut ias_kt, mut power, mut slow) = (95.0, 0.9, false);
    while rows.len() < seconds as usize {
        let leg = random.u32(LEG_S.0..LEG_S.1);
        let climb_ft_s =
            (if altitude_ft > 6000.0 { -1.0 } else { 1.0 }) * (6.0 + 6.0 * random.f64());
        // Slow and fast in turn, so that no two minutes are at one speed.
        slow = !slow;
        let to_kt = if slow { 80.0 } else { 115.0 } + 20.0 * random.f64();
        let to_power = 0.45 + 0.5 * random.f64();
        for _ in 0..leg {
            altitude_ft += climb_ft_s;
            ias_kt += (to_kt - ias_kt) / 25.0;
            power += (to_power - power) / 10.0;
            rows.push([
                foot(altitude_ft),
                degf(sea_f - 3.4 * altitude_ft / 1000.0),
                knot(ias_kt),
                power,
            ]);
        }
    }
    rows.truncate(seconds as usize);
    rows
}

fn values(row: &[f64; 4]) -> Values {
    [
        (Quantity::Altitude, row[0]),
        (Quantity::Oat, row[1]),
        (Quantity::Airspeed, row[2]),
        (Quantity::PowerShare, row[3]),
        (Quantity::Rpm, 2500.0),
        (Quantity::Shutter, 1.0),
        (Quantity::Flap, 0.0),
    ]
    .into_iter()
    .collect()
}

/// What an instrument misses from second to second.
struct Missing {
    deviation: f64,
    now: f64,
}

impl Missing {
    fn new(deviation: f64, random: &mut fastrand::Rng) -> Self {
        Self {
            deviation,
            now: deviation * normal(random),
        }
    }

    fn next(&mut self, random: &mut fastrand::Rng) -> f64 {
        let left = (-1.0 / MEMORY_S).exp();
        let new = (1.0 - left * left).sqrt() * self.deviation;
        self.now = left * self.now + new * normal(random);
        self.now
    }
}

/// A flight of so many seconds as a session of a log.
///
/// # Panics
/// If a moment of it has no answer.
#[must_use]
pub fn session(
    truth: &Design,
    structure: &Structure,
    seconds: u32,
    random: &mut fastrand::Rng,
) -> Session {
    let rows = flown(seconds, random);
    let ends: Vec<Settled> = (0..=seconds / EVERY_S)
        .map(|step| {
            let row = &rows[((step * EVERY_S) as usize).min(rows.len() - 1)];
            let moment = Moment {
                seconds: 0.0,
                values: values(row),
            };
            let condition = moment
                .condition(&truth.installation.engine, Mixture::BestPower)
                .expect("complete");
            settled(truth, structure, &condition).expect("an answer")
        })
        .collect();
    let scatter = Scatter::default();
    let deviations = [
        scatter.head_k,
        ABOVE_SHARE,
        scatter.oil_k,
        scatter.pressure_pa,
    ];
    let mut missing = deviations.map(|deviation| Missing::new(deviation, random));
    let lags = &truth.installation.lags;
    let mut now = [degf(330.0), ends[0].above, degf(150.0)];
    let mut probe = [now[0], now[1]];
    let mut columns: Vec<(Quantity, Vec<f64>)> = Vec::new();
    let mut put = |quantity: Quantity, value: f64| match columns
        .iter_mut()
        .find(|(other, _)| *other == quantity)
    {
        Some((_, list)) => list.push(value),
        None => columns.push((quantity, vec![value])),
    };
    for (second, row) in rows.iter().enumerate() {
        let step = EVERY_S as usize;
        let (at, share) = (second / step, (second % step) as f64 / f64::from(EVERY_S));
        let between = |of: fn(&Settled) -> f64| {
            let (from, to) = (of(&ends[at]), of(&ends[(at + 1).min(ends.len() - 1)]));
            from + share * (to - from)
        };
        for (quantity, value) in values(row) {
            put(quantity, value);
        }
        let [mean, above, oil, drop] = [0, 1, 2, 3].map(|which: usize| missing[which].next(random));
        let shown = if structure.probe_lag_s > 0.0 {
            probe
        } else {
            [now[0], now[1]]
        };
        for (head, part) in Quantity::HEADS
            .into_iter()
            .zip([1.0, -1.0, 1.0 / 3.0, -1.0 / 3.0])
        {
            put(head, shown[0] + mean + part * shown[1] * (1.0 + above));
        }
        put(Quantity::Oil, now[2] + oil);
        put(Quantity::BaffleDrop, between(|one| one.drop) + drop);
        let heads_s = lags.heads * between(|one| one.slowness);
        // Half a second twice.
        for _ in 0..2 {
            now[0] += 0.5 * (between(|one| one.mean) - now[0]) / heads_s;
            now[1] += 0.5 * (between(|one| one.above) - now[1]) / heads_s;
            now[2] += 0.5 * (between(|one| one.oil) - now[2]) / lags.oil;
            if structure.probe_lag_s > 0.0 {
                probe[0] += 0.5 * (now[0] - probe[0]) / structure.probe_lag_s;
                probe[1] += 0.5 * (now[1] - probe[1]) / structure.probe_lag_s;
            }
        }
    }
    Session {
        rows: 0..rows.len(),
        seconds: (0..seconds).map(f64::from).collect(),
        channels: columns
            .into_iter()
            .map(|(quantity, values)| Channel {
                quantity,
                values,
                set_aside: Vec::new(),
                fate: Fate::Kept,
            })
            .collect(),
    }
}

/// The session as the text of a log.
#[must_use]
pub fn text(session: &Session) -> String {
    let unit = |quantity: Quantity, si: f64| match quantity {
        Quantity::Altitude => format!("{:.0}", si / foot(1.0)),
        Quantity::Airspeed => format!("{:.1}", si / knot(1.0)),
        Quantity::PowerShare => format!("{:.1}", 100.0 * si),
        Quantity::BaffleDrop => format!("{:.2}", si / INCH_OF_WATER_PA),
        Quantity::Rpm | Quantity::Shutter | Quantity::Flap => format!("{si:.0}"),
        _ => format!("{:.1}", si * 1.8 - 459.67),
    };
    let shown: Vec<&Channel> = session
        .channels
        .iter()
        .filter(|channel| ![Quantity::Shutter, Quantity::Flap].contains(&channel.quantity))
        .collect();
    let name = |quantity: Quantity| match quantity {
        Quantity::Altitude => "Pressure Alt (ft)".to_owned(),
        Quantity::Airspeed => "IAS (kt)".to_owned(),
        Quantity::Oat => "OAT (deg F)".to_owned(),
        Quantity::PowerShare => "Power (%)".to_owned(),
        Quantity::Rpm => "RPM".to_owned(),
        Quantity::Oil => "Oil Temp (deg F)".to_owned(),
        Quantity::BaffleDrop => "Baffle dP (inH2O)".to_owned(),
        head => {
            let place = Quantity::HEADS.iter().position(|other| *other == head);
            format!("CHT{} (deg F)", place.unwrap_or(0) + 1)
        }
    };
    let names: Vec<String> = shown.iter().map(|channel| name(channel.quantity)).collect();
    let mut text = format!("Time,{}\n", names.join(","));
    for (row, seconds) in session.seconds.iter().enumerate() {
        let cells: Vec<String> = shown
            .iter()
            .map(|channel| unit(channel.quantity, channel.values[row]))
            .collect();
        text.push_str(&format!("{seconds:.0},{}\n", cells.join(",")));
    }
    text
}

/// The session as one reading.
///
/// # Panics
/// If it does not fly.
#[must_use]
pub fn reading(session: &Session) -> Reading {
    let flight = whole_flight(session).expect("a flight");
    Reading {
        log: "restless.csv".to_owned(),
        ..flight.reading(session, &flight.label())
    }
}
