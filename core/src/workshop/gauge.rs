//! Gauges a builder has: an airspeed indicator across the baffles, and a blow-down test.

use crate::air::airspeed;
use crate::air::atmosphere;

/// What an airspeed indicator reads, m/s, with a pressure difference, Pa, across it: its scale is
/// that of the impact pressure at sea level. 6.0 inH₂O read 95.8 kt.
///
/// # Example
/// 6 inH₂O read 95.77 kt (`reference/airspeed`, B04c):
/// ```
/// use coolpath_core::units::si::{inh2o, knot};
/// use coolpath_core::workshop::gauge::indicator_reading;
///
/// assert!((indicator_reading(inh2o(6.0)) - knot(95.77)).abs() < knot(0.02));
/// ```
#[must_use]
pub fn indicator_reading(drop_pa: f64) -> f64 {
    airspeed::calibrated_airspeed(drop_pa.max(0.0))
}

/// Leak area, m², found by blowing a known flow into a closed deck.
///
/// A = Q √(ρ / (2 Δp)) / C_d, from W = C_d A √(2 ρ Δp) and W = ρ Q
///
/// # Arguments
/// * `flow_m3_s` - volume flow of the blower at the deck's own air, m³/s
/// * `drop_pa` - deck above the room, Pa
/// * `air_k` - air temperature, K; standard pressure
/// * `discharge` - C_d of the leak \[-\]
///
/// `None` unless flow and pressure are above zero.
///
/// # Example
/// 612.5 Pa drive standard air of 1.225 kg/m³ at √1000 m/s; √1000/100 m³/s need 0.01 m², and
/// 0.0125 m² of a hole with C_d 0.8:
/// ```
/// use coolpath_core::workshop::gauge::leak_area;
///
/// let area = leak_area(1000_f64.sqrt() / 100.0, 612.5, 288.15, 0.8);
/// assert!(area.is_some_and(|area| (area - 0.0125).abs() < 1e-6));
/// assert_eq!(leak_area(0.3, 0.0, 288.15, 0.8), None);
/// ```
#[must_use]
pub fn leak_area(flow_m3_s: f64, drop_pa: f64, air_k: f64, discharge: f64) -> Option<f64> {
    if !(flow_m3_s > 0.0 && drop_pa > 0.0 && discharge > 0.0) {
        return None;
    }
    let density = atmosphere::density(atmosphere::PRESSURE_SL, air_k);
    Some(flow_m3_s * (density / (2.0 * drop_pa)).sqrt() / discharge)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::{inch2, inh2o, knot};

    #[test]
    fn six_inches_of_water_read_95_8_knots() {
        let reading = indicator_reading(inh2o(6.0)) / knot(1.0);
        assert!((reading - 95.8).abs() < 0.05, "{reading} kt");
        assert_eq!(indicator_reading(-5.0), 0.0);
        let back = airspeed::impact_pressure(indicator_reading(inh2o(6.0)));
        assert!((back - inh2o(6.0)).abs() < 1e-9, "{back} Pa");
    }

    #[test]
    fn a_leak_gives_its_own_area_back() {
        let (area, drop, density) = (
            inch2(5.0),
            inh2o(4.0),
            atmosphere::density(atmosphere::PRESSURE_SL, 288.15),
        );
        let flow = 0.6 * area * (2.0 * drop / density).sqrt();
        let found = leak_area(flow, drop, 288.15, 0.6).expect("an area");
        assert!((found - area).abs() < 1e-12);
        assert_eq!(leak_area(0.0, drop, 288.15, 0.6), None);
    }
}
