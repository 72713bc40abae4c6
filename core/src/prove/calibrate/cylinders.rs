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
use crate::answer::solve_condition::solve_condition;
use crate::document::condition::Condition;
use crate::document::design::{Calibrated, Design, mark};
use crate::document::installation::{Cylinder, CylinderData};
use crate::document::quantity::Quantity;
use crate::document::reading::Moment;
use crate::engine::egt;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::units::quantity::kelvin_apart;
use crate::units::si::deltaf;
use nalgebra::{Matrix4, Vector4};

/// How far a head may scatter about the model in one moment, K (9 °F, as any single head).
const HEAD_SCATTER_K: f64 = deltaf(9.0);
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
        };
        count
    ];
    for reading in design.fitted_readings() {
        let moments = reading.corrected(&design.instruments);
        let weight = if reading.is_steady() {
            1.0
        } else {
            // As many independent moments as time constants.
            ((1.0 + reading.duration_s() / 120.0) / moments.len() as f64).min(1.0)
        };
        for moment in &moments {
            if let Ok(condition) = reading.condition_of(moment, engine) {
                take(design, moment, &condition, weight, &mut sums);
            }
        }
    }
    if sums.iter().filter(|sum| sum.heads >= LEAST_MOMENTS).count() < 2 {
        return design.clone();
    }
    applied(design, &sums)
}

fn take(design: &Design, moment: &Moment, condition: &Condition, weight: f64, sums: &mut [Sums]) {
    let engine = &design.installation.engine;
    let Ok(solved) = solve_condition(&design.installation, condition, None) else {
        return;
    };
    let slopes = slopes_of(&solved);
    let ratio = solved.prepared.phi / engine.peak_egt;
    // dEGT/dδ = φ/φ_p · d(EGT)/d(φ/φ_p)
    let of_egt = ratio * (egt::below_peak(ratio + BY) - egt::below_peak(ratio - BY)) / (2.0 * BY);
    let (head_mean, exhaust_mean) = (moment.head_mean(), moment.exhaust_mean());
    for (place, sum) in sums.iter_mut().enumerate() {
        if let (Some(own), Some(mean)) = (moment.get(Quantity::HEADS[place]), head_mean) {
            let row = Vector4::new(slopes.air_k, slopes.fuel_k, 1.0, 0.0);
            sum.add(row, own - mean, HEAD_SCATTER_K, weight);
            sum.heads += 1;
        }
        if let (Some(own), Some(mean)) = (moment.get(Quantity::EGTS[place]), exhaust_mean) {
            let row = Vector4::new(0.0, of_egt, 0.0, 1.0);
            sum.add(row, own - mean, egt::SCATTER_K, weight);
        }
    }
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
        cylinder.air = libm::exp(found[0]).clamp(0.3, 2.0);
        cylinder.fuel = found[1].clamp(-0.4, 0.4);
        cylinder.probe = kelvin_apart(found[2].clamp(-deltaf(120.0), deltaf(120.0)));
        let values = [cylinder.air, cylinder.fuel, cylinder.probe.value];
        for (at, (id, value)) in ["air_share", "fuel_trim", "probe_offset_k"]
            .iter()
            .zip(values)
            .enumerate()
        {
            // What air and probe do together is known better than either: the sum's own spread
            // stands with the probe, and neither is moved by itself.
            let reach = if at == 2 {
                RANGE_DEVIATIONS * HEAD_SCATTER_K / libm::sqrt(sum.heads.max(1) as f64)
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
