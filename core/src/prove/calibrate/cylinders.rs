//! Each cylinder's air, fuel and probe, from what the heads and exhausts read about their means.
//!
//! With s_a and s_φ the slopes of a head over its own air and fuel, and g that of its EGT, all by the
//! model in each moment's condition:
//!
//! T_i − T̄ = s_a ln a_i + s_φ δ_i + o_i,   EGT_i − mean EGT = g δ_i + l_i
//!
//! Linear least squares, each unknown pulled to zero by its usual spread. Air and probe are told apart
//! only where flow or mixture varies.

use crate::answer::head_readings::slopes_of;
use crate::answer::known_point::spreads;
use crate::answer::minutes::slowness;
use crate::answer::model_error;
use crate::answer::solve_condition::solve_condition;
use crate::document::design::{Calibrated, Design, mark};
use crate::document::installation::{Cylinder, CylinderData};
use crate::document::quantity::Quantity;
use crate::document::reading::{Moment, Reading};
use crate::document::table;
use crate::engine::cylinders::Slopes;
use crate::engine::egt;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::prove::calibrate::course::Course;
use crate::prove::calibrate::scatter::INDEPENDENT_S;
use crate::units::quantity::kelvin_apart;
use crate::units::si::deltaf;
use nalgebra::{Matrix4, Vector4};

/// Standard deviation of an exhaust probe's level, K (60 °F; derived from open flight logs).
const LEVEL_K: f64 = deltaf(60.0);
/// Fewest moments in which a head was read.
const LEAST_MOMENTS: usize = 2;
/// Change over which the slope of the EGT curve is taken \[-\].
const BY: f64 = 0.02;

/// Sums of the normal equations of one cylinder.
#[derive(Clone, Copy)]
struct Sums {
    matrix: Matrix4<f64>,
    right: Vector4<f64>,
    heads: usize,
    /// Independent moments among these.
    independent: f64,
}

impl Sums {
    fn add(&mut self, row: Vector4<f64>, value: f64, deviation: f64, weight: f64) {
        let by = weight / (deviation * deviation);
        self.matrix += row * row.transpose() * by;
        self.right += row * (value * by);
    }
}

/// The design with each cylinder as its readings have it; unchanged where they say too little.
#[must_use]
pub fn with_cylinders(design: &Design) -> Design {
    let engine = &design.installation.engine;
    let count = usize::from(engine.cylinders).min(Quantity::HEADS.len());
    let usual = spreads(engine);
    let priors = Vector4::new(usual.air, usual.fuel, usual.probe_k, LEVEL_K);
    let mut sums = vec![
        Sums {
            matrix: Matrix4::from_diagonal(&priors.map(|deviation| 1.0 / (deviation * deviation))),
            right: Vector4::zeros(),
            heads: 0,
            independent: 0.0,
        };
        count
    ];
    for reading in design.fitted_readings() {
        take(design, reading, &mut sums);
    }
    if sums.iter().filter(|sum| sum.heads >= LEAST_MOMENTS).count() < 2 {
        return design.clone();
    }
    applied(design, &sums)
}

/// What a moment's own air and fuel do to a head and to its exhaust.
struct Row {
    moment: Moment,
    slopes: Slopes,
    slowness: f64,
    of_egt: f64,
}

fn row(design: &Design, reading: &Reading, moment: Moment) -> Option<Row> {
    let engine = &design.installation.engine;
    let condition = reading.condition_of(&moment, engine).ok()?;
    let solved = solve_condition(&design.installation, &condition, None).ok()?;
    let ratio = solved.prepared.phi / engine.peak_egt;
    Some(Row {
        moment,
        slopes: slopes_of(&solved),
        slowness: slowness(&solved),
        // dEGT/dδ = φ/φ_p · d(EGT)/d(φ/φ_p)
        of_egt: ratio * (egt::below_peak(ratio + BY) - egt::below_peak(ratio - BY)) / (2.0 * BY),
    })
}

/// A head stands off the mean as far as its own air and fuel had time for: what they do lags as the heads.
fn lagged(rows: &mut [Row], heads_s: f64) {
    let seconds: Vec<f64> = rows.iter().map(|row| row.moment.seconds).collect();
    let lags_s: Vec<f64> = rows.iter().map(|row| heads_s * row.slowness).collect();
    let followed = |of: fn(&Row) -> f64| {
        let steady: Vec<f64> = rows.iter().map(of).collect();
        let course = Course {
            seconds: &seconds,
            steady: &steady,
            lags_s: &lags_s,
        };
        course.forced()
    };
    let both = [
        followed(|row| row.slopes.air_k),
        followed(|row| row.slopes.fuel_k),
    ];
    for (at, row) in rows.iter_mut().enumerate() {
        (row.slopes.air_k, row.slopes.fuel_k) = (both[0][at], both[1][at]);
    }
}

fn take(design: &Design, reading: &Reading, sums: &mut [Sums]) {
    let moments = reading.corrected(&design.instruments);
    let weight = if reading.is_steady() {
        1.0
    } else {
        // As many independent moments as time constants.
        ((1.0 + reading.duration_s() / INDEPENDENT_S) / moments.len() as f64).min(1.0)
    };
    let found = moments.into_iter();
    let mut rows: Vec<Row> = found
        .filter_map(|moment| row(design, reading, moment))
        .collect();
    lagged(&mut rows, design.installation.lags.heads);
    for row in &rows {
        let (head_mean, exhaust_mean) = (row.moment.head_mean(), row.moment.exhaust_mean());
        for (place, sum) in sums.iter_mut().enumerate() {
            let heads = row.moment.get(Quantity::HEADS[place]).zip(head_mean);
            if let Some((own, mean)) = heads {
                let slopes = Vector4::new(row.slopes.air_k, row.slopes.fuel_k, 1.0, 0.0);
                sum.add(slopes, own - mean, model_error::HEAD_K, weight);
                sum.heads += 1;
                sum.independent += weight;
            }
            let exhausts = row.moment.get(Quantity::EGTS[place]).zip(exhaust_mean);
            if let Some((own, mean)) = exhausts {
                let slopes = Vector4::new(0.0, row.of_egt, 0.0, 1.0);
                sum.add(slopes, own - mean, egt::SCATTER_K, weight);
            }
        }
    }
}

/// A value within the permitted range of its input.
fn permitted(id: &str, value: f64) -> f64 {
    table::by_id(id).map_or(value, |input| {
        let (least, most) = input.permitted;
        value.clamp(least, most)
    })
}

fn applied(design: &Design, sums: &[Sums]) -> Design {
    let mut next = design.clone();
    next.installation.engine.cylinder_data = CylinderData::Each;
    next.installation.cylinders = vec![Cylinder::default(); sums.len()];
    next.calibrated
        .retain(|note| !note.input.starts_with("cylinder."));
    for (place, sum) in sums.iter().enumerate() {
        let Some(covariance) = sum.matrix.try_inverse() else {
            continue;
        };
        let found = covariance * sum.right;
        let cylinder = &mut next.installation.cylinders[place];
        cylinder.air = permitted("cylinder.air_share", libm::exp(found[0]));
        cylinder.fuel = permitted("cylinder.fuel_trim", found[1]);
        cylinder.probe = kelvin_apart(permitted("cylinder.probe_offset_k", found[2]));
        let values = [cylinder.air, cylinder.fuel, cylinder.probe.value];
        for (at, (id, value)) in ["air_share", "fuel_trim", "probe_offset_k"]
            .iter()
            .zip(values)
            .enumerate()
        {
            // What air and probe do together is known better than either: the sum's own spread
            // stands with the probe, and neither is moved by itself.
            let reach = if at == 2 {
                RANGE_DEVIATIONS * model_error::HEAD_K / libm::sqrt(sum.independent.max(1.0))
            } else {
                0.0
            };
            next.calibrated.push(Calibrated {
                input: mark(&format!("cylinder.{id}"), place),
                value,
                likely: (value - reach, value + reach),
            });
        }
    }
    next
}
