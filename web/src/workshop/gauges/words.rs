//! Gauges in words: what an indicator across the baffles reads, and a blow-down test. Pure.

use crate::kit::format;
use crate::state::Range;
use coolpath_core::air::airspeed::impact_pressure;
use coolpath_core::language::tr;
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use coolpath_core::workshop::gauge::{indicator_reading, leak_area};

/// Largest pressure that is read here, Pa: some 80 inH₂O, which no cowl and no blower meets.
const MOST_PA: f64 = 20_000.0;

/// What the indicator reads for a typed pressure.
///
/// # Errors
/// A sentence with what is wanted.
pub fn reading_of(pressure: &str, system: UnitSystem) -> Result<String, String> {
    let range = Range {
        label: tr("Δp across the baffles"),
        ends: (0.0, MOST_PA),
        dimension: Dimension::Pressure,
    };
    let drop_pa = range.value(pressure, system)?;
    Ok(tr!(
        "{} across the taps reads {} on an airspeed indicator.",
        format::quantity(drop_pa, Dimension::Pressure, system, 3),
        format::quantity(indicator_reading(drop_pa), Dimension::Speed, system, 3)
    ))
}

/// Rows of the strip: indicator reading and pressure.
#[must_use]
pub fn strip(system: UnitSystem) -> Vec<(String, String)> {
    let unit = Dimension::Speed.shown(system);
    // Steps of some five knots.
    let step = if unit.factor > 0.9 {
        2.0
    } else if unit.factor < 0.3 {
        10.0
    } else {
        5.0
    };
    (6..=26)
        .map(|at| {
            let shown = step * f64::from(at);
            let pressure = impact_pressure(unit.to_si(shown));
            (
                format!("{shown:.0} {}", unit.symbol),
                format::quantity(pressure, Dimension::Pressure, system, 3),
            )
        })
        .collect()
}

/// Leak area, m², of a blow-down test at room temperature.
///
/// # Errors
/// A sentence with what is wanted.
pub fn leak(flow: &str, pressure: &str, discharge: f64, system: UnitSystem) -> Result<f64, String> {
    const ROOM_K: f64 = 293.15;
    let (name, factor) = system.air_volume_flow();
    let flow_m3_s = typed::parse(flow, Dimension::Ratio, system)
        .ok()
        .filter(|shown| *shown > 0.0 && shown * factor < 5.0)
        .ok_or_else(|| tr!("Air flow of the blower must be above zero, in {}", name))?
        * factor;
    let range = Range {
        label: tr("Pressure in the deck"),
        ends: (1.0, MOST_PA),
        dimension: Dimension::Pressure,
    };
    let drop_pa = range.value(pressure, system)?;
    leak_area(flow_m3_s, drop_pa, ROOM_K, discharge)
        .ok_or_else(|| tr("Air flow and pressure must be above zero").to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn six_inches_of_water_are_told_as_95_8_knots_with_a_comma_or_a_unit_too() {
        let said = "6 inH₂O across the taps reads 95.8 kt on an airspeed indicator.";
        for text in ["6", "6,0", "1494.5 Pa"] {
            assert_eq!(reading_of(text, UnitSystem::Customary).as_deref(), Ok(said));
        }
        let told = reading_of("-", UnitSystem::Metric);
        assert_eq!(
            told.err().as_deref(),
            Some("Δp across the baffles must be between 0 and 20000 Pa")
        );
        let strip = strip(UnitSystem::Customary);
        assert_eq!(strip[0].0, "30 kt");
        assert!(
            strip
                .iter()
                .any(|row| row.0 == "95 kt" && row.1.starts_with("5.9"))
        );
    }

    #[test]
    fn a_blow_down_test_gives_an_area_and_rubbish_is_told() {
        // 5 in² at C_d 0.6 and 4 inH₂O (996 Pa) of 20 °C air: 167 ft³/min.
        let area = leak("167", "4", 0.6, UnitSystem::Customary).expect("an area");
        assert!((area / (0.0254 * 0.0254) - 5.0).abs() < 0.02, "{area}");
        assert!(leak("", "4", 0.6, UnitSystem::Customary).is_err());
        let told = leak("10", "0", 0.6, UnitSystem::Metric);
        assert_eq!(
            told.err().as_deref(),
            Some("Pressure in the deck must be between 1 and 20000 Pa")
        );
    }
}
