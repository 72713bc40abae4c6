//! Power, mixture and charge air of a condition, and the heads that go with them.

use crate::answer::gas::{breathing, gas_temperature};
use crate::answer::known_point::{GAS_EXPONENT, KnownPoint};
use crate::answer::prepare::error::PrepareError;
use crate::document::condition::{Condition, Mixture, Phase, PowerKind};
use crate::document::installation::{Engine, Installation};
use crate::engine::breathing::{manifold_of_share, share_at_best_power};
use crate::engine::egt;
use crate::engine::heads::Heads;
use crate::engine::mixture;

/// Density of aviation petrol, kg/m³ (6.0 lb per US gallon, common practice).
pub(crate) const FUEL_DENSITY: f64 = 6.0 * 0.453_592_37 / 0.003_785_411_784;
/// Least share of rated power: an engine that runs [-].
const LEAST_SHARE: f64 = 0.02;

/// What the engine breathes and burns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Burning {
    /// Brake power, W.
    pub brake_w: f64,
    /// Share of rated power that the same air gives at best power [-].
    pub share: f64,
    /// Equivalence ratio [-].
    pub phi: f64,
    /// Charge air, kg/s.
    pub charge_kg_s: f64,
    /// Manifold pressure, given or implied, Pa.
    pub manifold_pa: f64,
}

/// Air first, then fuel, then power.
///
/// A share of power, or a brake power from a chart, is one at best-power mixture; what another
/// mixture takes from it is not in the share.
///
/// # Arguments
/// * `air_k` - temperature of the air that the engine draws, K
///
/// # Errors
/// [`PrepareError::TwiceByFuel`] if the fuel flow is to give both power and mixture.
pub(super) fn burning(
    installation: &Installation,
    condition: &Condition,
    air_k: f64,
) -> Result<Burning, PrepareError> {
    let engine = &installation.engine;
    let lungs = breathing(engine);
    let speed_ratio = condition.rpm / engine.rated_rpm;
    let fuel_kg_s = condition.fuel_flow.value * FUEL_DENSITY * engine.fuel_flow_scale;
    let brake_share = condition.brake_power.value / lungs.rated_w;
    let (phi, charge_kg_s, manifold_pa) = if condition.power == PowerKind::FuelFlow {
        let phi = named_mixture(engine, condition).ok_or(PrepareError::TwiceByFuel)?;
        let charge_kg_s = fuel_kg_s / mixture::fuel_flow(1.0, phi);
        let manifold_pa = lungs.manifold_of_air(charge_kg_s, speed_ratio, air_k);
        (phi, charge_kg_s, manifold_pa)
    } else {
        let manifold_pa = match condition.power {
            PowerKind::Manifold => condition.manifold.value,
            PowerKind::Brake => manifold_of_share(brake_share, speed_ratio, air_k),
            _ => manifold_of_share(condition.power_share, speed_ratio, air_k),
        };
        let breathed_kg_s = lungs.charge_air(manifold_pa, speed_ratio, air_k);
        match named_mixture(engine, condition) {
            Some(phi) => (phi, breathed_kg_s, manifold_pa),
            None => {
                let idle_kg_s = fuel_kg_s / mixture::fuel_flow(1.0, engine.full_rich);
                let idles = idles(condition, speed_ratio);
                let charge_kg_s = idles * idle_kg_s + (1.0 - idles) * breathed_kg_s;
                let phi = mixture::equivalence_ratio(fuel_kg_s, charge_kg_s);
                let of_air_pa = lungs.manifold_of_air(charge_kg_s, speed_ratio, air_k);
                let implied_pa = if idles > 0.0 { of_air_pa } else { manifold_pa };
                (phi, charge_kg_s, implied_pa)
            }
        }
    };
    let share = match condition.power {
        PowerKind::Share => condition.power_share,
        PowerKind::Brake => brake_share,
        _ => share_at_best_power(manifold_pa, speed_ratio, air_k),
    }
    .max(LEAST_SHARE);
    Ok(Burning {
        // P = e(φ) P_best
        brake_w: share * lungs.rated_w * mixture::relative_power(phi),
        share,
        phi,
        charge_kg_s,
        manifold_pa,
    })
}

/// Speed over rated speed [-] up to which an engine on the ground idles, and from which its manifold pressure tells
/// its air (from memory: taxi and a run-up).
const IDLE_SPEED: (f64, f64) = (0.45, 0.6);

/// How far the manifold pressure says nothing of the air, 1 at idle [-]: residual gas takes the room (from memory), and an
/// idle is set rich. In one six's taxi (13.2 inHg, 1120 rpm, 3.65 gal/h) the line gives 0.19 of the rated air, the fuel at
/// full rich 0.11: the hottest head then settles at 359 °F instead of 398, where the log tends to 305 to 340.
fn idles(condition: &Condition, speed_ratio: f64) -> f64 {
    if condition.phase != Phase::Ground {
        return 0.0;
    }
    let (idle, runs) = IDLE_SPEED;
    ((runs - speed_ratio) / (runs - idle)).clamp(0.0, 1.0)
}

/// Equivalence ratio [-] of a mixture that was named; `None` where the fuel flow gives it.
fn named_mixture(engine: &Engine, condition: &Condition) -> Option<f64> {
    let by_egt =
        |rich| engine.peak_egt * egt::ratio_below_peak(condition.egt_below_peak.value, rich);
    Some(match condition.mixture {
        Mixture::FullRich => engine.full_rich,
        Mixture::BestPower => engine.best_power,
        Mixture::PeakEgt => engine.peak_egt,
        Mixture::LeanOfPeak => engine.lean_of_peak,
        Mixture::RichByEgt => by_egt(true),
        Mixture::LeanByEgt => by_egt(false),
        Mixture::Ratio => condition.phi,
        Mixture::FuelFlow => return None,
    })
}

/// The heads in a condition.
pub(super) fn heads(
    installation: &Installation,
    point: &KnownPoint,
    burning: &Burning,
    charge_k: f64,
) -> Heads {
    Heads {
        // G_gas = G_gas,r (W_ch / W_ch,r)^0.58
        gas_w_k: point.gas_w_k * libm::pow(burning.charge_kg_s / point.charge_kg_s, GAS_EXPONENT),
        gas_k: gas_temperature(installation, burning.phi, charge_k),
        oil_w_k: point.oil_w_k,
        fins: point.fins,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::example;
    use crate::units::quantity::{cubic_metre_per_s, pascal};
    use crate::units::si::{gal_h, inhg};

    /// What burns on the ground by manifold pressure and fuel flow.
    fn on_the_ground(speed_ratio: f64) -> Burning {
        let design = example::design();
        let condition = Condition {
            phase: Phase::Ground,
            power: PowerKind::Manifold,
            mixture: Mixture::FuelFlow,
            manifold: pascal(inhg(13.2)),
            fuel_flow: cubic_metre_per_s(gal_h(2.0)),
            rpm: speed_ratio * design.installation.engine.rated_rpm,
            ..Condition::default()
        };
        burning(&design.installation, &condition, 288.15).expect("an engine")
    }

    #[test]
    fn an_idle_takes_its_air_from_the_fuel() {
        let rich = example::design().installation.engine.full_rich;
        let idle = on_the_ground(0.4);
        assert!((idle.phi - rich).abs() < 1e-12);
        // Two gallons an hour at that mixture
        let air = gal_h(2.0) * FUEL_DENSITY / (0.068 * rich);
        assert!(
            (idle.charge_kg_s / air - 1.0).abs() < 1e-3,
            "{}",
            idle.charge_kg_s
        );
        // A run-up breathes by its manifold pressure.
        let run_up = on_the_ground(0.7);
        let lungs = breathing(&example::design().installation.engine);
        let breathed = lungs.charge_air(inhg(13.2), 0.7, 288.15);
        assert!((run_up.charge_kg_s / breathed - 1.0).abs() < 1e-12);
        assert_eq!(run_up.manifold_pa, inhg(13.2));
        // In between nothing jumps.
        for ratio in [0.45, 0.6] {
            let [below, above] = [ratio - 1e-6, ratio + 1e-6].map(on_the_ground);
            assert!((below.charge_kg_s / above.charge_kg_s - 1.0).abs() < 1e-4);
            assert!((below.share / above.share - 1.0).abs() < 1e-3, "{ratio}");
        }
    }
}
