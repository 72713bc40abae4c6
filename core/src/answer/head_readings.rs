//! What the head probes read in a solved condition: the mean, the hottest, and each.

use crate::answer::known_point::spreads;
use crate::answer::solved::Solved;
use crate::document::installation::{CylinderData, Installation};
use crate::engine::cylinders::{OneCylinder, Slopes, excess_k, head_of, slopes};
use crate::engine::heads::Heads;

/// Mean of the heads as their probes read it, K.
#[must_use]
pub fn mean_reading(installation: &Installation, solved: &Solved) -> f64 {
    mean_of_firing(solved) + installation.engine.head_reading_bias_k()
}

/// Mean head of the cylinders that fire, K.
fn mean_of_firing(solved: &Solved) -> f64 {
    let state = &solved.solution.state;
    if solved.prepared.firing >= 1.0 {
        return state.head_k;
    }
    healthy(solved).temperature_with(state.terms.fin_w_k, 0.0, state.fins.in_k, state.trial.oil_k)
}

/// The heads of the cylinders that fire.
fn healthy(solved: &Solved) -> Heads {
    let heads = solved.prepared.cowl.heads;
    Heads {
        gas_w_k: heads.gas_w_k / solved.prepared.firing,
        ..heads
    }
}

/// Hottest head as its probe reads it, K.
///
/// Of cylinders that are known one by one it is the largest; of others the mean plus what the
/// largest of as many usual cylinders stands above it on average, or plus a spread that was typed.
#[must_use]
pub fn hottest_reading(installation: &Installation, solved: &Solved) -> f64 {
    let engine = &installation.engine;
    match engine.cylinder_data {
        CylinderData::Unknown => {
            let slopes = slopes_of(solved);
            mean_reading(installation, solved)
                + excess_k(
                    &slopes,
                    &spreads(engine),
                    engine.cylinders,
                    engine.unevenness,
                )
        }
        CylinderData::Spread => {
            hottest_by_spread(installation, solved) + engine.head_reading_bias_k()
        }
        CylinderData::Each => each_reading(installation, solved)
            .into_iter()
            .fold(f64::NEG_INFINITY, f64::max),
    }
}

/// Each head as its probe reads it, K, number 1 first; empty where they are not known one by one.
#[must_use]
pub fn each_reading(installation: &Installation, solved: &Solved) -> Vec<f64> {
    let engine = &installation.engine;
    if engine.cylinder_data != CylinderData::Each {
        return Vec::new();
    }
    let all = cylinders(installation);
    let state = &solved.solution.state;
    let healthy = healthy(solved);
    let heads: Vec<f64> = all
        .iter()
        .map(|own| {
            head_of(
                &healthy,
                own,
                state.fins.flow_kg_s,
                solved.prepared.phi,
                state.fins.in_k,
                state.trial.oil_k,
            )
        })
        .collect();
    let mean = heads.iter().sum::<f64>() / heads.len() as f64;
    let about = mean_reading(installation, solved) - mean;
    heads
        .iter()
        .zip(&all)
        .map(|(head_k, own)| head_k + about + own.probe_k)
        .collect()
}

/// What a head does when its own air or fuel changes, in a solved condition.
#[must_use]
pub(crate) fn slopes_of(solved: &Solved) -> Slopes {
    let state = &solved.solution.state;
    slopes(
        &healthy(solved),
        state.fins.flow_kg_s,
        solved.prepared.phi,
        state.fins.in_k,
        mean_of_firing(solved),
    )
}

/// The cylinders of an engine that are known one by one, their air and fuel about the mean.
fn cylinders(installation: &Installation) -> Vec<OneCylinder> {
    let count = usize::from(installation.engine.cylinders);
    let mut all: Vec<OneCylinder> = installation
        .cylinders
        .iter()
        .take(count)
        .map(|cylinder| OneCylinder {
            air: cylinder.air,
            fuel: cylinder.fuel,
            probe_k: cylinder.probe.value,
        })
        .collect();
    all.resize(
        count.max(1),
        OneCylinder {
            air: 1.0,
            fuel: 0.0,
            probe_k: 0.0,
        },
    );
    let share = 1.0 / all.len() as f64;
    let air: f64 = all.iter().map(|own| own.air * share).sum();
    let fuel: f64 = all.iter().map(|own| own.fuel * share).sum();
    for own in &mut all {
        own.air /= air;
        own.fuel -= fuel;
    }
    all
}

/// Hottest head, K, from a typed spread between the heads, without the probe's bias.
fn hottest_by_spread(installation: &Installation, solved: &Solved) -> f64 {
    let engine = &installation.engine;
    let state = &solved.solution.state;
    let point = &solved.prepared.point;
    let heads = &solved.prepared.cowl.heads;
    let above_mean = 0.5 * engine.head_spread.value;
    let by_air = engine.spread_air_share * above_mean;
    let by_gas = above_mean - by_air;
    // At the known point: fewer fins raise the head by `by_air`, hotter gas by `by_gas`.
    let fin = point.fins.at(point.flow_kg_s);
    let hotter = point.head_k + by_air;
    let fin_factor = (point.own_gas_w_k * (point.own_gas_k - hotter)
        - point.oil_w_k * (hotter - point.oil_k))
        / (fin * (hotter - point.air_k));
    let sum = point.own_gas_w_k + fin_factor * fin + point.oil_w_k;
    let gas_shift_k = by_gas * sum / point.own_gas_w_k;
    heads.temperature_with(
        fin_factor.max(0.05) * state.terms.fin_w_k,
        gas_shift_k,
        state.fins.in_k,
        state.trial.oil_k,
    )
}
