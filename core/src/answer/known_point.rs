//! From the one known point of an engine to its conductances and the fins' resistance.
//!
//! The gas side comes from the generic engine at rated power: a share of the fuel's heat at
//! best-power mixture leaves through the fins. At any other point the heat follows the same gas
//! curve and the same charge air. Three kinds of point give the fins, best first: the engine
//! maker's cooling chart, the builder's own readings, or the generic engine itself.

use crate::air::{airspeed, atmosphere};
use crate::answer::gas::{LEVEL_PHI, breathing, gas_temperature, settled_gas_temperature};
use crate::document::installation::{ChartDensity, Engine, Installation, OilProbe, ReferenceKind};
use crate::engine::breathing::manifold_of_share;
use crate::engine::cylinders::{Spreads, excess_k, slopes};
use crate::engine::heads::{CylinderError, FinConductance, FinResistance, Heads};
use crate::engine::mixture;
use crate::engine::oil;
use crate::math::root::bracketed_root;
use crate::path::element::orifice_flow;

/// Exponent of charge flow in the gas-side conductance [-] (from memory, with the exponents of
/// NACA TN 584: head minus air grows as power^0.38).
pub const GAS_EXPONENT: f64 = 0.58;
/// Engine speed over rated speed grows with the cube root of power (propeller law, from memory).
const PROPELLER_LAW: f64 = 1.0 / 3.0;

/// The engine's thermal properties.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownPoint {
    /// Conductance gas → head of the generic engine at rated power, W/K.
    pub gas_w_k: f64,
    /// Effective gas temperature there, K.
    pub gas_k: f64,
    /// Charge air there, kg/s.
    pub charge_kg_s: f64,
    /// Charge temperature there, K.
    pub charge_k: f64,
    /// Mixture there [-].
    pub phi: f64,
    /// Conductance gas → head at the known point itself, W/K.
    pub own_gas_w_k: f64,
    /// Effective gas temperature at the known point itself, K.
    pub own_gas_k: f64,
    /// Conductance head → oil, W/K.
    pub oil_w_k: f64,
    /// Hot oil at the known point, K.
    pub oil_k: f64,
    /// Mean head at the known point, K.
    pub head_k: f64,
    /// Air before the fins at the known point, K.
    pub air_k: f64,
    /// Air through the fins at the known point, kg/s.
    pub flow_kg_s: f64,
    /// Heat of the fins at the known point, W.
    pub fin_heat_w: f64,
    /// σΔp behind the fins at the known point, Pa.
    pub sigma_drop_pa: f64,
    /// Fins → air.
    pub fins: FinConductance,
    /// Resistance of the fins.
    pub resistance: FinResistance,
}

/// The gas side and the way of heat into the oil, from the generic engine at rated power.
#[derive(Debug, Clone, Copy)]
struct GasSide {
    gas_w_k: f64,
    gas_k: f64,
    charge_kg_s: f64,
    charge_k: f64,
    oil_w_k: f64,
    head_k: f64,
    fin_heat_w: f64,
}

/// A point at which heads and fins are known.
struct Measured {
    gas_w_k: f64,
    gas_k: f64,
    phi: f64,
    head_k: f64,
    air_k: f64,
    oil_k: f64,
    flow_kg_s: f64,
    sigma_drop_pa: f64,
    fin_heat_w: f64,
}

/// Mean head of the generic engine, K.
fn generic_head_k(installation: &Installation) -> f64 {
    if installation.engine.cylinders > 4 {
        installation.reference.head_six.value
    } else {
        installation.reference.head.value
    }
}

/// Charge air, kg/s, of a brake power at best-power mixture, W.
fn charge_of_power(engine: &Engine, power_w: f64, speed_ratio: f64, air_k: f64) -> f64 {
    let share = power_w / engine.rated_power.value;
    let manifold_pa = manifold_of_share(share, speed_ratio, air_k);
    breathing(engine).charge_air(manifold_pa, speed_ratio, air_k)
}

fn gas_side(installation: &Installation) -> Result<GasSide, CylinderError> {
    let engine = &installation.engine;
    let power_w = engine.rated_power.value;
    let charge_k = installation.reference.air.value;
    let head_k = generic_head_k(installation);
    let oil_k = installation.oil.reference_oil.value;
    let gas_k = settled_gas_temperature(installation, LEVEL_PHI, charge_k);
    ordered(charge_k, head_k, gas_k, oil_k)?;
    let charge_kg_s = charge_of_power(engine, power_w, 1.0, charge_k);
    let fuel_heat_w = mixture::fuel_flow(charge_kg_s, LEVEL_PHI) * mixture::HEATING_VALUE;
    let to_jets = (oil_heat_share(installation) - installation.oil.heat_share).max(0.0) * power_w;
    let fin_heat_w = installation.reference.fin_heat_share * fuel_heat_w - to_jets;
    let conducted_w = installation.oil.conduction_share * oil_heat_share(installation) * power_w;
    Ok(GasSide {
        // G_gas (T_g − T_h) = Q_fin + Q_ho
        gas_w_k: (fin_heat_w + conducted_w) / (gas_k - head_k),
        gas_k,
        charge_kg_s,
        charge_k,
        oil_w_k: conducted_w / (head_k - oil_k),
        head_k,
        fin_heat_w,
    })
}

fn ordered(air_k: f64, head_k: f64, gas_k: f64, oil_k: f64) -> Result<(), CylinderError> {
    if air_k < head_k && head_k < gas_k && oil_k < head_k {
        return Ok(());
    }
    Err(CylinderError::TemperatureOrder {
        air_k,
        head_k,
        gas_k,
    })
}

impl GasSide {
    /// Conductance gas → head, W/K, at a charge air flow, kg/s.
    fn gas_at(&self, charge_kg_s: f64) -> f64 {
        self.gas_w_k * libm::pow(charge_kg_s / self.charge_kg_s, GAS_EXPONENT)
    }

    /// Heat of the fins, W, at a point: what the gas gives, less what the oil takes.
    fn fin_heat(&self, gas_w_k: f64, gas_k: f64, head_k: f64, oil_k: f64) -> f64 {
        gas_w_k * (gas_k - head_k) - self.oil_w_k * (head_k - oil_k)
    }
}

/// Thermal properties of an installation's engine.
///
/// # Errors
/// [`CylinderError`] if the point's temperatures or flow contradict each other.
///
/// # Example
/// The fins take what the heads give them: G_fin (T_h − T_a) is their heat:
/// ```
/// use coolpath_core::answer::known_point::known_point;
/// use coolpath_core::document::example;
/// use coolpath_core::engine::heads::CylinderError;
///
/// let point = known_point(&example::design().installation)?;
/// let heat = point.fins.at(point.flow_kg_s) * (point.head_k - point.air_k);
/// assert!((heat - point.fin_heat_w).abs() < 1e-6 * point.fin_heat_w);
/// # Ok::<(), CylinderError>(())
/// ```
pub fn known_point(installation: &Installation) -> Result<KnownPoint, CylinderError> {
    let side = gas_side(installation)?;
    let measured = match installation.reference.kind {
        ReferenceKind::Generic => generic(installation, &side),
        ReferenceKind::Chart => chart(installation, &side)?,
        ReferenceKind::Readings => readings(installation, &side)?,
    };
    ordered(
        measured.air_k,
        measured.head_k,
        measured.gas_k,
        measured.oil_k,
    )?;
    Ok(KnownPoint {
        gas_w_k: side.gas_w_k,
        gas_k: side.gas_k,
        charge_kg_s: side.charge_kg_s,
        charge_k: side.charge_k,
        phi: LEVEL_PHI,
        own_gas_w_k: measured.gas_w_k,
        own_gas_k: measured.gas_k,
        oil_w_k: side.oil_w_k,
        oil_k: measured.oil_k,
        head_k: measured.head_k,
        air_k: measured.air_k,
        flow_kg_s: measured.flow_kg_s,
        fin_heat_w: measured.fin_heat_w,
        sigma_drop_pa: measured.sigma_drop_pa,
        fins: fins_through(installation, &measured)?,
        resistance: FinResistance::through(
            measured.sigma_drop_pa,
            measured.flow_kg_s,
            installation.reference.drop_exponent,
        ),
    })
}

fn fins_through(
    installation: &Installation,
    measured: &Measured,
) -> Result<FinConductance, CylinderError> {
    // G_fin = Q_fin / (T_h − T_a)
    FinConductance::through(
        measured.fin_heat_w / (measured.head_k - measured.air_k),
        measured.flow_kg_s,
        installation.reference.conductance_slope,
    )
}

/// Heat into the oil over brake power [-], with or without piston cooling jets.
#[must_use]
pub fn oil_heat_share(installation: &Installation) -> f64 {
    if installation.engine.piston_cooling_jets {
        installation.oil.heat_share_jets
    } else {
        installation.oil.heat_share
    }
}

/// How much the cylinders of an engine differ before they are known one by one.
#[must_use]
pub fn spreads(engine: &Engine) -> Spreads {
    Spreads {
        air: engine.air_spread,
        fuel: engine.fuel_spread(),
        probe_k: engine.probe_spread.value,
    }
}

/// σΔp behind the fins of the generic engine, Pa.
fn generic_drop(installation: &Installation) -> f64 {
    if installation.engine.cylinders > 4 {
        installation.reference.drop_six.value
    } else {
        installation.reference.drop_four.value
    }
}

fn generic(installation: &Installation, side: &GasSide) -> Measured {
    Measured {
        gas_w_k: side.gas_w_k,
        gas_k: side.gas_k,
        phi: LEVEL_PHI,
        head_k: side.head_k,
        air_k: side.charge_k,
        oil_k: installation.oil.reference_oil.value,
        flow_kg_s: installation.reference.flow_per_power * installation.engine.rated_power.value,
        sigma_drop_pa: generic_drop(installation),
        fin_heat_w: side.fin_heat_w,
    }
}

/// The maker's chart: its head is the hottest at its limit, so the mean lies below it.
fn chart(installation: &Installation, side: &GasSide) -> Result<Measured, CylinderError> {
    /// Steps that bring the mean head to rest: each leaves less than a tenth.
    const STEPS: u32 = 6;
    let engine = &installation.engine;
    let reference = &installation.reference;
    let power_w = reference.chart_power.value;
    let air_k = reference.chart_air.value;
    let phi = reference.chart_mixture;
    let speed_ratio = libm::pow(power_w / engine.rated_power.value, PROPELLER_LAW);
    let charge_kg_s = charge_of_power(engine, power_w, speed_ratio, air_k);
    let gas_k = settled_gas_temperature(installation, phi, air_k);
    let oil_k = installation.oil.reference_oil.value;
    let flow_kg_s = reference.chart_flow.value;
    let mut point = Measured {
        gas_w_k: side.gas_at(charge_kg_s),
        gas_k,
        phi,
        head_k: reference.chart_head.value,
        air_k,
        oil_k,
        flow_kg_s,
        sigma_drop_pa: 0.0,
        fin_heat_w: 0.0,
    };
    for _ in 0..STEPS {
        ordered(air_k, point.head_k, gas_k, oil_k)?;
        point.fin_heat_w = side.fin_heat(point.gas_w_k, gas_k, point.head_k, oil_k);
        point.head_k = reference.chart_head.value - excess_at(installation, side, &point)?;
    }
    point.fin_heat_w = side.fin_heat(point.gas_w_k, gas_k, point.head_k, oil_k);
    let behind_k = air_k + point.fin_heat_w / (flow_kg_s * atmosphere::SPECIFIC_HEAT);
    let drop_pa = reference.chart_drop.value;
    point.sigma_drop_pa = match reference.chart_density {
        ChartDensity::Rear => drop_pa,
        // σ₃Δp = σ₂Δp · T₂/T₃
        ChartDensity::Front => drop_pa * air_k / behind_k,
        ChartDensity::AsMeasured => {
            let pressure_pa = atmosphere::standard_pressure(reference.chart_altitude.value);
            drop_pa * atmosphere::density(pressure_pa, behind_k) / atmosphere::DENSITY_SL
        }
    };
    Ok(point)
}

/// Hottest head above the mean at a point, K, of the usual engine.
fn excess_at(
    installation: &Installation,
    side: &GasSide,
    point: &Measured,
) -> Result<f64, CylinderError> {
    let heads = Heads {
        gas_w_k: point.gas_w_k,
        gas_k: point.gas_k,
        oil_w_k: side.oil_w_k,
        fins: fins_through(installation, point)?,
    };
    let slopes = slopes(
        &heads,
        point.flow_kg_s,
        point.phi,
        point.air_k,
        point.head_k,
    );
    let engine = &installation.engine;
    Ok(excess_k(&slopes, &spreads(engine), engine.cylinders, 0.0))
}

/// The builder's own readings, through the balance of the heads at their own condition.
///
/// An engine that breathes from the lower deck had a charge as warm as that deck, which the reading does
/// not tell: it is what leaves the fins, mixed with what leaks past them. The cooler's air, which is about
/// as warm, is left out.
fn readings(installation: &Installation, side: &GasSide) -> Result<Measured, CylinderError> {
    let air = air_of_reading(installation);
    let mut found = readings_with(installation, side, &air, air.total_k)?;
    if !installation.decks.draws_from_lower_deck(false) {
        return Ok(found);
    }
    for _ in 0..CHARGE_ROUNDS {
        let charge_k = lower_deck_k(installation, &air, &found);
        found = readings_with(installation, side, &air, charge_k)?;
    }
    Ok(found)
}

/// Rounds of the charge of an engine that breathes from the lower deck: enough for answers typed back.
const CHARGE_ROUNDS: u32 = 6;

/// Air that a reading was taken in.
struct ReadAir {
    pressure_pa: f64,
    /// Total temperature, K.
    total_k: f64,
}

fn air_of_reading(installation: &Installation) -> ReadAir {
    let reference = &installation.reference;
    let pressure_pa = atmosphere::standard_pressure(reference.reading_altitude.value);
    let indicated = reference.reading_airspeed.value;
    let calibrated = if indicated > 0.0 {
        (indicated + installation.airframe.position_error.value).max(0.0)
    } else {
        0.0
    };
    let mach = airspeed::mach(airspeed::impact_pressure(calibrated), pressure_pa);
    let shown_k = reference.reading_oat.value;
    let static_k = shown_k / (1.0 + 0.2 * installation.airframe.oat_recovery * mach * mach);
    ReadAir {
        pressure_pa,
        total_k: airspeed::total_temperature(mach, static_k),
    }
}

/// Air of the lower deck at a reading, K, as far as it tells.
fn lower_deck_k(installation: &Installation, air: &ReadAir, found: &Measured) -> f64 {
    let decks = &installation.decks;
    let gaps_m2 = decks.leak_discharge * (decks.seal_area_m2() + decks.blast_area_m2());
    let leak_kg_s = orifice_flow(
        gaps_m2,
        installation.reference.reading_drop.value,
        atmosphere::density(air.pressure_pa, air.total_k),
    );
    let warmed = found.fin_heat_w / atmosphere::SPECIFIC_HEAT;
    air.total_k + warmed / (found.flow_kg_s + leak_kg_s)
}

/// The readings with a charge of a temperature, K.
fn readings_with(
    installation: &Installation,
    side: &GasSide,
    air: &ReadAir,
    charge_k: f64,
) -> Result<Measured, CylinderError> {
    let engine = &installation.engine;
    let reference = &installation.reference;
    let air_k = air.total_k;
    let power_w = reference.reading_power.value;
    let speed_ratio = reference.reading_rpm / engine.rated_rpm;
    let phi = reference.reading_mixture;
    let charge_kg_s = charge_of_power(engine, power_w, speed_ratio, charge_k);
    let gas_w_k = side.gas_at(charge_kg_s);
    let gas_k = gas_temperature(installation, phi, charge_k);
    let head_k = reference.reading_head.value - engine.head_reading_bias_k();
    // A manual's chart of power holds at best power.
    let brake_w = power_w * mixture::relative_power(phi);
    let oil_k = hot_oil(installation, side, brake_w, speed_ratio, head_k);
    ordered(air_k, head_k, gas_k, oil_k)?;
    let fin_heat_w = side.fin_heat(gas_w_k, gas_k, head_k, oil_k);
    let generic_flow = reference.flow_per_power * engine.rated_power.value;
    let fins = FinResistance::through(
        generic_drop(installation),
        generic_flow,
        reference.drop_exponent,
    );
    let behind = |flow: f64| {
        atmosphere::density(
            air.pressure_pa,
            air_k + fin_heat_w / (flow * atmosphere::SPECIFIC_HEAT),
        )
    };
    let drop_pa = reference.reading_drop.value;
    // C Wⁿ / σ₃(W) = Δp, rising in W
    let root = bracketed_root(
        |ln_flow| {
            let flow = libm::exp(ln_flow);
            libm::log(fins.drop(flow, behind(flow)) / drop_pa)
        },
        libm::log(generic_flow * 1e-3),
        libm::log(generic_flow * 1e2),
        1e-14,
    )
    .map_err(|_| CylinderError::FlowTooSmall {
        effectiveness: f64::INFINITY,
    })?;
    let flow_kg_s = libm::exp(root.x);
    Ok(Measured {
        gas_w_k,
        gas_k,
        phi,
        head_k,
        air_k,
        oil_k,
        flow_kg_s,
        sigma_drop_pa: drop_pa * behind(flow_kg_s) / atmosphere::DENSITY_SL,
        fin_heat_w,
    })
}

/// Hot oil, K, where the gauge reads after the cooler: all heat of the oil leaves between the two.
fn hot_oil(
    installation: &Installation,
    side: &GasSide,
    brake_w: f64,
    speed_ratio: f64,
    head_k: f64,
) -> f64 {
    let oil = &installation.oil;
    let gauge_k = installation.reference.reading_oil.value;
    if oil.probe == OilProbe::BeforeCooler {
        return gauge_k;
    }
    let capacity =
        oil.pump_flow.value * speed_ratio * oil::density(gauge_k) * oil::specific_heat(gauge_k);
    let not_conducted = (1.0 - oil.conduction_share) * oil_heat_share(installation);
    let rated_w = installation.engine.rated_power.value;
    let friction_w = oil::friction_heat(not_conducted * rated_w, speed_ratio, brake_w / rated_w);
    // ṁ c (T_hot − T_gauge) = Q_friction + G_ho (T_h − T_hot)
    (capacity * gauge_k + friction_w + side.oil_w_k * head_k) / (capacity + side.oil_w_k)
}
