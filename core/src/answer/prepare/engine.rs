//! Power, mixture and charge air of a condition, and the heads that go with them.

use crate::answer::gas::{breathing, gas_temperature};
use crate::answer::known_point::{GAS_EXPONENT, KnownPoint};
use crate::answer::prepare::error::PrepareError;
use crate::document::condition::{Condition, Mixture, PowerKind};
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
        let charge_kg_s = lungs.charge_air(manifold_pa, speed_ratio, air_k);
        let phi = named_mixture(engine, condition)
            .unwrap_or_else(|| mixture::equivalence_ratio(fuel_kg_s, charge_kg_s));
        (phi, charge_kg_s, manifold_pa)
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
