//! The oil's heat balance in a condition.

use crate::answer::known_point::oil_heat_share;
use crate::document::condition::Condition;
use crate::document::installation::Installation;
use crate::engine::bypass::Bypass;
use crate::engine::oil;
use crate::path::network::OilLoop;

/// The oil's heat balance at an engine speed and a share of rated power [-].
pub(super) fn oil_loop(
    installation: &Installation,
    condition: &Condition,
    power_share: f64,
) -> OilLoop {
    let inputs = &installation.oil;
    let rated_w = installation.engine.rated_power.value;
    let speed_share = condition.rpm / installation.engine.rated_rpm;
    let not_conducted = (1.0 - inputs.conduction_share) * oil_heat_share(installation);
    OilLoop {
        friction_heat_w: oil::friction_heat(not_conducted * rated_w, speed_share, power_share),
        pump_m3_s: inputs.pump_flow.value * speed_share,
        bypass: inputs.thermostat.then_some(Bypass {
            opens_k: inputs.thermostat_opens.value,
            full_k: inputs.thermostat_full.value,
            leak_share: inputs.thermostat_leak,
        }),
        sump_w_k: inputs.sump_conductance,
    }
}
