//! How to measure an assumption, in a sentence for the builder.

use crate::language::tr;

/// How to measure the assumption with an id; common practice where no source is named beside the
/// input itself.
///
/// # Example
/// ```
/// use coolpath_core::decide::chances::how_to_measure;
///
/// assert!(!how_to_measure("exit.pressure_coefficient").is_empty());
/// ```
#[must_use]
pub fn how_to_measure(id: &str) -> &'static str {
    let (group, field) = id.split_once('.').unwrap_or((id, ""));
    match (group, field) {
        ("reference", "drop_exponent" | "conductance_slope") => tr(
            "Two readings in flight at very different airspeeds, same power: Δp and head temperatures.",
        ),
        ("reference", _) => tr(
            "A point of the engine maker's cooling chart; or in steady flight all head temperatures, \
             Δp across the baffles, OAT, power and fuel flow.",
        ),
        ("decks", "seal_gap_m" | "plenum_leak_m2" | "measured_leak_m2" | "leak_discharge") => tr(
            "A blow-down test: push a known air flow into the closed upper deck and read its pressure; \
             a lamp inside in the dark shows where it leaks.",
        ),
        ("decks", "overboard_leak_m2" | "overboard_pressure_coefficient") => {
            tr("Close the spinner gap and cowl joints with tape for one flight and compare Δp.")
        }
        ("decks", id) if id.starts_with("inflow_") => tr(
            "A tap in the lower deck, flown once as it is and once with gear slots and joints taped.",
        ),
        ("decks", "muff_effectiveness") => tr(
            "Thermometers before and behind the muff in steady flight, beside the exhaust temperature.",
        ),
        ("decks", "scoop_recovery" | "filter_drop_pa") => {
            tr("Manifold pressure at full throttle against the outside's, filter in and out.")
        }
        ("decks", _) => tr("Thermometer strips on the inside and outside of the lower cowl."),
        ("exit", id) if id.ends_with("pressure_coefficient") || id == "climb_pressure_rise" => tr(
            "A static tap just behind the exit lip, read against the aircraft's static in climb and cruise.",
        ),
        ("exit", _) => tr(
            "A tap in the lower deck and one behind the lip, with the flow from the inlets' velocity.",
        ),
        ("inlet", _) => tr(
            "An open tube facing forward inside the inlet and a tap in the upper deck, both against \
             the airspeed indicator's total pressure.",
        ),
        ("engine", "head_spread_k" | "spread_air_share") => tr(
            "Probes on every head; then swap the hottest cylinder's baffle or fuel nozzle and see \
             whether the heat stays.",
        ),
        ("engine", "probe_bias_k" | "ring_bias_k") => {
            tr("The probe in boiling water, then beside a second probe on the same head.")
        }
        ("engine", "full_rich_phi" | "best_power_phi" | "peak_egt_phi" | "lean_of_peak_phi") => tr(
            "A fuel-flow meter at that setting: type the fuel flow instead of naming the mixture.",
        ),
        ("engine", "air_consumption_kg_j") => tr(
            "Fuel flow at best power and a power you are sure of, from the engine maker's chart.",
        ),
        ("engine", "unevenness" | "air_spread" | "probe_spread_k") | ("cylinder", _) => tr(
            "Head and exhaust temperatures of every cylinder at two mixtures, from the monitor's log.",
        ),
        ("engine", "fuel_flow_scale") => {
            tr("Fuel shown against fuel filled in over a few flights.")
        }
        ("engine", _) => tr("A log of one climb with head temperatures, fuel flow and rpm."),
        ("oil", "thermostat_opens_k" | "thermostat_full_k" | "thermostat_leak_share") => tr(
            "The valve in a pan of hot oil with a thermometer: when it begins to move, when it is seated.",
        ),
        ("oil", _) => tr(
            "A second oil probe: before and after the cooler, with the oil flow from its data sheet.",
        ),
        ("cooler", "rated_heat_per_100degf_w" | "rated_air_drop_pa") => {
            tr("The cooler maker's data sheet for this very part.")
        }
        ("cooler", "preheat_share" | "baffle_preheat_share") => {
            tr("A thermometer in the hose just before the cooler.")
        }
        ("cooler", _) => tr(
            "Taps before and behind the cooler's core in flight, and oil probes before and after it.",
        ),
        ("shutter", _) => {
            tr("Fly with the shutter shut, half open and open, and note oil temperature each time.")
        }
        ("condition", "egt_below_peak_k" | "phi") => {
            tr("Lean slowly with one exhaust probe in view, note its peak, then the setting flown.")
        }
        ("condition", "oat_k" | "isa_offset_k") => {
            tr("A second thermometer in the shade beside the gauge, in flight.")
        }
        ("condition", "airspeed_m_s") => {
            tr("Level runs on three headings against a satellite receiver's ground speed.")
        }
        ("condition", _) => tr(
            "Engine speed and manifold pressure by checked instruments, and the manual's power chart.",
        ),
        ("lags", _) => tr("A log of one climb: calibrate with it."),
        ("airframe", "propeller_share" | "propeller_share_rest") => {
            tr("A tap in the upper deck during a static run-up: its pressure against rpm.")
        }
        ("airframe", _) => tr("Level speed runs at two powers, both ways, same altitude."),
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::table;

    #[test]
    fn every_assumption_has_a_way_to_measure_it() {
        for input in table::all().filter(|input| input.likely.is_some()) {
            assert!(!how_to_measure(input.id).is_empty(), "{}", input.id);
        }
    }
}
