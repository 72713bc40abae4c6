//! What the head probes read in a solved condition: the mean, the hottest, and each.

use crate::answer::known_point::spreads;
use crate::answer::solved::Solved;
use crate::document::installation::{
    CylinderData, Engine, FinPassages, Installation, PoorerEnd, PoorerSide,
};
use crate::engine::cylinders::{OneCylinder, Slopes, deviation_k, excess_k, head_of, slopes};
use crate::engine::heads::Heads;
use crate::engine::uneven::{Pattern, air_shares, largest};
use crate::language::tr;

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
            let pattern = engine.air_pattern();
            let sides = solved.solution.state.sides;
            mean_reading(installation, solved)
                + match pattern {
                    None if sides.is_none() => excess_k(
                        &slopes_of(solved),
                        &spreads(engine),
                        engine.cylinders,
                        engine.unevenness,
                    ),
                    _ => told_excess_k(engine, &pattern.unwrap_or(EVEN), solved),
                }
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

/// Nothing is told.
const EVEN: Pattern = Pattern {
    side: 1.0,
    end: 1.0,
    one: 1.0,
};

/// Hottest reading above the mean, K, where some cylinders are known to get less air than others.
fn told_excess_k(engine: &Engine, pattern: &Pattern, solved: &Solved) -> f64 {
    let state = &solved.solution.state;
    let healthy = healthy(solved);
    // The poorer side that is told comes first; what is known of the banks goes to its own.
    let banks = state.sides.map(|sides| match engine.poorer_side {
        PoorerSide::Right => [sides.right, sides.left],
        _ => [sides.left, sides.right],
    });
    let heads: Vec<f64> = air_shares(pattern, engine.cylinders)
        .into_iter()
        .enumerate()
        .map(|(place, air)| {
            let own = OneCylinder {
                air,
                fuel: 0.0,
                probe_k: 0.0,
            };
            let flow_kg_s = banks.map_or(state.fins.flow_kg_s, |banks| {
                2.0 * banks[place % 2].fin_kg_s
            });
            let (air_k, oil_k) = (state.fins.in_k, state.trial.oil_k);
            head_of(&healthy, &own, flow_kg_s, solved.prepared.phi, air_k, oil_k)
        })
        .collect();
    let count = heads.len() as f64;
    let mean_k = heads.iter().sum::<f64>() / count;
    let sigma = deviation_k(&slopes_of(solved), &spreads(engine));
    let (largest_k, deviation) = largest(&heads, sigma);
    // Largest minus mean of the readings: var = var(largest) − σ²/N
    let own = libm::sqrt((deviation * deviation - sigma * sigma / count).max(0.0));
    (largest_k - mean_k + engine.unevenness * own).max(0.0)
}

/// The head that gets the least air by what is told, and that air over the mean's [-]; `None` where
/// nothing is told, or where the cylinders are known one by one.
#[must_use]
pub fn worst_fed(engine: &Engine) -> Option<(String, f64)> {
    let pattern = engine.air_pattern()?;
    let air = air_shares(&pattern, engine.cylinders).first().copied()?;
    let head = match (engine.poorer_end, engine.poorer_side) {
        (PoorerEnd::Neither, PoorerSide::Neither) => tr("head"),
        (PoorerEnd::Front, PoorerSide::Neither) => tr("front head"),
        (PoorerEnd::Rear, PoorerSide::Neither) => tr("rear head"),
        (PoorerEnd::Neither, PoorerSide::Left) => tr("left head"),
        (PoorerEnd::Neither, PoorerSide::Right) => tr("right head"),
        (PoorerEnd::Front, PoorerSide::Left) => tr("front left head"),
        (PoorerEnd::Front, PoorerSide::Right) => tr("front right head"),
        (PoorerEnd::Rear, PoorerSide::Left) => tr("rear left head"),
        (PoorerEnd::Rear, PoorerSide::Right) => tr("rear right head"),
    };
    let name = match engine.fin_passages {
        FinPassages::Clear => head.to_owned(),
        FinPassages::CastingFlash => tr!("{} with the flash", head),
        FinPassages::Debris => tr!("{} under the debris", head),
    };
    Some((name, air))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::solve_condition::solve_condition;
    use crate::document::example;

    /// Hottest above the mean in the climb, K, after a change of the example's engine.
    fn excess(change: impl FnOnce(&mut Engine)) -> f64 {
        let mut design = example::design();
        change(&mut design.installation.engine);
        let solved =
            solve_condition(&design.installation, &design.conditions[1], None).expect("an answer");
        hottest_reading(&design.installation, &solved) - mean_reading(&design.installation, &solved)
    }

    #[test]
    fn what_is_told_of_the_air_raises_the_hottest_head_and_its_place_has_a_name() {
        let usual = excess(|_| {});
        let left = excess(|engine| engine.poorer_side = PoorerSide::Left);
        let right = excess(|engine| engine.poorer_side = PoorerSide::Right);
        assert!(
            (left - right).abs() < 1e-12 && left > usual + 0.2,
            "{usual} {left}"
        );
        let both = excess(|engine| {
            engine.poorer_side = PoorerSide::Left;
            engine.poorer_end = PoorerEnd::Front;
        });
        assert!(both > left + 0.2, "{left} {both}");
        let debris = excess(|engine| engine.fin_passages = FinPassages::Debris);
        let flash = excess(|engine| engine.fin_passages = FinPassages::CastingFlash);
        assert!(debris > flash && flash > usual, "{usual} {flash} {debris}");
        let mut engine = example::design().installation.engine;
        assert_eq!(worst_fed(&engine), None);
        engine.poorer_side = PoorerSide::Left;
        engine.poorer_end = PoorerEnd::Front;
        let (name, air) = worst_fed(&engine).expect("told");
        assert_eq!(name, "front left head");
        // Of four: 0.92 · 0.90, 0.90, 0.92 and 1.
        assert!(
            (air - 0.828 / (0.25 * (0.828 + 0.90 + 0.92 + 1.0))).abs() < 1e-12,
            "{air}"
        );
        engine.cylinder_data = CylinderData::Each;
        assert_eq!(worst_fed(&engine), None);
    }

    #[test]
    fn alike_shares_give_what_is_given_when_nothing_is_told() {
        let usual = excess(|_| {});
        let alike = excess(|engine| {
            engine.poorer_side = PoorerSide::Left;
            engine.poorer_side_air = 1.0;
        });
        // Four digits of the tables, of a deviation of some 20 K.
        assert!((usual - alike).abs() < 0.01, "{usual} {alike}");
        let uneven = excess(|engine| {
            engine.poorer_side = PoorerSide::Left;
            engine.poorer_side_air = 1.0;
            engine.unevenness = 1.0;
        });
        let usual = excess(|engine| engine.unevenness = 1.0);
        assert!((usual - uneven).abs() < 0.02, "{usual} {uneven}");
    }

    #[test]
    fn a_third_less_air_on_one_head_costs_what_is_reported() {
        // Reported: 15 % less air on one head about +20 °F, 30 % less about +43 °F.
        for (kept, reported_f) in [(0.85, 20.0), (0.70, 43.0)] {
            let mut design = example::design();
            let engine = &mut design.installation.engine;
            engine.fin_passages = FinPassages::Debris;
            engine.debris_air = kept;
            // One head alone: no other differences.
            engine.air_spread = 0.0;
            engine.carburettor_spread = 0.0;
            engine.probe_spread.value = 0.0;
            let solved = solve_condition(&design.installation, &design.conditions[1], None)
                .expect("an answer");
            let above_f = 1.8
                * (hottest_reading(&design.installation, &solved)
                    - mean_reading(&design.installation, &solved));
            // Of four heads the mean takes a quarter.
            let alone_f = above_f / 0.75;
            assert!(
                (alone_f / reported_f - 1.0).abs() < 0.35,
                "{kept}: {alone_f}"
            );
        }
    }
}
