//! The oil's heat balance in a condition.

use crate::answer::known_point::oil_heat_share;
use crate::document::condition::Condition;
use crate::document::installation::Installation;
use crate::engine::bypass::Bypass;
use crate::engine::oil;
use crate::path::network::OilLoop;

/// The oil's heat balance at an engine speed and a brake power, W.
pub(super) fn oil_loop(
    installation: &Installation,
    condition: &Condition,
    brake_w: f64,
) -> OilLoop {
    let inputs = &installation.oil;
    let rated_w = installation.engine.rated_power.value;
    let speed_share = condition.rpm / installation.engine.rated_rpm;
    let not_conducted = (1.0 - inputs.conduction_share) * oil_heat_share(installation);
    OilLoop {
        friction_heat_w: oil::friction_heat(
            not_conducted * rated_w,
            speed_share,
            brake_w / rated_w,
        ),
        pump_m3_s: inputs.pump_flow.value * speed_share,
        bypass: inputs.thermostat.then_some(Bypass {
            opens_k: inputs.thermostat_opens.value,
            full_k: inputs.thermostat_full.value,
            leak_share: inputs.thermostat_leak,
        }),
        sump_w_k: inputs.sump_conductance,
    }
}

#[cfg(test)]
mod tests {
    use crate::answer::prepare::prepare;
    use crate::document::condition::{Mixture, PowerKind};
    use crate::document::example;
    use crate::engine::oil::friction_heat;

    #[test]
    fn the_load_on_the_oil_is_brake_power_not_its_share_at_best_power() {
        let design = example::design();
        let mut condition = design.conditions[0].clone();
        condition.power = PowerKind::Share;
        condition.power_share = 0.75;
        condition.mixture = Mixture::Ratio;
        let friction = |phi: f64| {
            let condition = crate::document::condition::Condition {
                phi,
                ..condition.clone()
            };
            let prepared = prepare(&design.installation, &condition).expect("an engine that runs");
            (prepared.cowl.oil.friction_heat_w, prepared.brake_power_w)
        };
        // e(φ) is 1 at 1.2 and 0.78 at 0.85: 0.7 + 0.3 × 0.75 e over one another, by hand.
        let ((best_w, best_brake_w), (lean_w, lean_brake_w)) = (friction(1.2), friction(0.85));
        assert!((lean_brake_w / best_brake_w - 0.78).abs() < 1e-9);
        let by_hand = (0.7 + 0.3 * 0.75 * 0.78) / (0.7 + 0.3 * 0.75);
        assert!(
            (lean_w / best_w - by_hand).abs() < 1e-9,
            "{}",
            lean_w / best_w
        );
        assert!(
            (friction_heat(1.0, 1.0, 0.75 * 0.78) / friction_heat(1.0, 1.0, 0.75) - by_hand).abs()
                < 1e-12
        );
    }
}
