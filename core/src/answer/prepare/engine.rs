//! Power, mixture and charge air of a condition, and the heads that go with them.

use crate::answer::gas::{breathing, gas_temperature};
use crate::answer::known_point::{GAS_EXPONENT, KnownPoint};
use crate::answer::prepare::error::PrepareError;
use crate::document::condition::{Condition, Mixture, Phase, PowerKind};
use crate::document::installation::{Engine, Installation};
use crate::engine::breathing::{Breathing, manifold_of_share, share_at_best_power};
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
        let named = named_mixture(engine, condition);
        let phi_of = |charge_kg_s| {
            named.unwrap_or_else(|| mixture::equivalence_ratio(fuel_kg_s, charge_kg_s))
        };
        let idle_kg_s = match (named, condition.power) {
            (None, _) => Some(fuel_kg_s / mixture::fuel_flow(1.0, engine.full_rich)),
            (Some(_), PowerKind::Manifold) => Some(idle_air(&lungs, speed_ratio)),
            // A share that was typed is what the engine gives.
            (Some(_), _) => None,
        };
        match (idle_kg_s, idles(condition, speed_ratio)) {
            (Some(idle_kg_s), idles) if idles > 0.0 => {
                let charge_kg_s = idles * idle_kg_s + (1.0 - idles) * breathed_kg_s;
                let of_air_pa = lungs.manifold_of_air(charge_kg_s, speed_ratio, air_k);
                (phi_of(charge_kg_s), charge_kg_s, of_air_pa)
            }
            _ => (phi_of(breathed_kg_s), breathed_kg_s, manifold_pa),
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

/// Charge air of an idle over the rated charge air [-], and the speed over rated speed [-] at which that was
/// (derived: about that in one six's taxi at 1120 of 2700 rpm, its air from the fuel flow at full rich).
const IDLE_AIR: f64 = 0.11;
const IDLE_AIR_SPEED: f64 = 1120.0 / 2700.0;

/// Charge air, kg/s, of an idle whose fuel flow is not known: it grows with the engine's speed.
fn idle_air(lungs: &Breathing, speed_ratio: f64) -> f64 {
    // W = 0.11 W_r (n/n_r)/0.415
    IDLE_AIR * lungs.rated_air() * speed_ratio / IDLE_AIR_SPEED
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
    use crate::units::quantity::{cubic_metre_per_s, pascal, watt};
    use crate::units::si::{gal_h, hp, inhg};

    /// A condition on the ground by manifold pressure, with a mixture by fuel flow.
    fn ground(speed_ratio: f64) -> Condition {
        Condition {
            phase: Phase::Ground,
            power: PowerKind::Manifold,
            mixture: Mixture::FuelFlow,
            manifold: pascal(inhg(13.2)),
            fuel_flow: cubic_metre_per_s(gal_h(2.0)),
            rpm: speed_ratio * example::design().installation.engine.rated_rpm,
            ..Condition::default()
        }
    }

    fn burnt(condition: &Condition) -> Burning {
        burning(&example::design().installation, condition, 288.15).expect("an engine")
    }

    /// Nothing jumps where an idle begins and ends.
    fn expect_continuous(at: impl Fn(f64) -> Burning) {
        for ratio in [0.45, 0.6] {
            let [below, above] = [ratio - 1e-6, ratio + 1e-6].map(&at);
            assert!((below.charge_kg_s / above.charge_kg_s - 1.0).abs() < 1e-4);
            assert!((below.share / above.share - 1.0).abs() < 1e-3, "{ratio}");
        }
    }

    #[test]
    fn an_idle_takes_its_air_from_the_fuel() {
        let on_the_ground = |speed_ratio| burnt(&ground(speed_ratio));
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
        expect_continuous(on_the_ground);
    }

    #[test]
    fn an_idle_with_a_named_mixture_breathes_as_one_idles_whatever_its_manifold_pressure() {
        let named = |speed_ratio: f64| Condition {
            mixture: Mixture::FullRich,
            ..ground(speed_ratio)
        };
        // The six's taxi, of whose fuel flow the share of air was derived: both ways give about one power.
        let mut six = example::design().installation;
        six.engine.rated_power = watt(hp(310.0));
        six.engine.rated_rpm = 2700.0;
        six.engine.cylinders = 6;
        let taxi = |mixture: Mixture| {
            let condition = Condition {
                mixture,
                fuel_flow: cubic_metre_per_s(gal_h(3.65)),
                rpm: 1120.0,
                ..ground(0.4)
            };
            burning(&six, &condition, 288.15).expect("an engine")
        };
        let [by_name, by_fuel] = [Mixture::FullRich, Mixture::FuelFlow].map(taxi);
        assert!((by_name.phi - by_fuel.phi).abs() < 1e-9);
        let rated_air = breathing(&six.engine).rated_air();
        assert!((by_name.charge_kg_s / rated_air - 0.11).abs() < 1e-12);
        // What that fuel takes of this engine's air by the default air consumption; the source says about 0.11.
        assert!((by_fuel.charge_kg_s / rated_air - 0.105).abs() < 5e-4);
        let hp_of = |burning: &Burning| burning.brake_w / hp(1.0);
        assert!(
            (hp_of(&by_name) - hp_of(&by_fuel)).abs() < 2.0,
            "{} and {} hp",
            hp_of(&by_name),
            hp_of(&by_fuel)
        );
        // Air and power go together, as everywhere.
        let back = manifold_of_share(by_name.share, 1120.0 / 2700.0, 288.15);
        assert!((back / by_name.manifold_pa - 1.0).abs() < 1e-12);
        expect_continuous(|speed_ratio| burnt(&named(speed_ratio)));
        // In the air, and by a share that was typed, nothing idles.
        let flying = burnt(&Condition {
            phase: Phase::Descent,
            ..named(0.4)
        });
        assert_eq!(flying.manifold_pa, inhg(13.2));
        let shared = burnt(&Condition {
            power: PowerKind::Share,
            power_share: 0.08,
            ..named(0.4)
        });
        assert_eq!(shared.manifold_pa, manifold_of_share(0.08, 0.4, 288.15));
    }
}
