//! From the one known point of an engine to its conductances and the fins' resistance.
//!
//! Three kinds, best first: the engine maker's cooling chart, the builder's own readings, or a
//! generic engine. Each gives air flow, pressure drop, power, head and air temperature; the heat
//! of the fins is a share of the fuel's heat at best-power mixture, since the fuel burned beyond
//! it finds no oxygen.

use crate::air::atmosphere;
use crate::document::installation::{ChartDensity, Installation, ReferenceKind};
use crate::engine::heads::{CylinderError, FinConductance, FinResistance};
use crate::engine::mixture;
use crate::math::root::bracketed_root;
use crate::units::si::degf;

/// Mixture of the generic point and of the fuel whose heat is shared out [-].
const BEST_POWER_PHI: f64 = 1.2;
/// Charge temperature of the table of gas temperatures, K.
const TABLE_CHARGE_K: f64 = degf(80.0);
/// Exponent of charge flow in the gas-side conductance [-] (from memory, with the exponents of
/// NACA TN 584: head minus air grows as power^0.38).
pub const GAS_EXPONENT: f64 = 0.58;

/// The engine's thermal properties, scaled from its known point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownPoint {
    /// Conductance gas → head at the point, W/K.
    pub gas_w_k: f64,
    /// Effective gas temperature at the point, K.
    pub gas_k: f64,
    /// Charge air at the point, kg/s.
    pub charge_kg_s: f64,
    /// Charge temperature at the point, K.
    pub charge_k: f64,
    /// Mixture at the point [-].
    pub phi: f64,
    /// Conductance head → oil, W/K.
    pub oil_w_k: f64,
    /// Hot oil at the point, K.
    pub oil_k: f64,
    /// Mean head at the point, K.
    pub head_k: f64,
    /// Air before the fins at the point, K.
    pub air_k: f64,
    /// Air through the fins at the point, kg/s.
    pub flow_kg_s: f64,
    /// Heat of the fins at the point, W.
    pub fin_heat_w: f64,
    /// σΔp behind the fins at the point, Pa.
    pub sigma_drop_pa: f64,
    /// Fins → air.
    pub fins: FinConductance,
    /// Resistance of the fins.
    pub resistance: FinResistance,
}

struct Measured {
    power_w: f64,
    phi: f64,
    gas_k: f64,
    head_k: f64,
    air_k: f64,
    flow_kg_s: f64,
    sigma_drop_pa: f64,
    fin_heat_w: f64,
}

/// Thermal properties of an installation's engine.
///
/// # Errors
/// [`CylinderError`] if the point's temperatures or flow contradict each other.
pub fn known_point(installation: &Installation) -> Result<KnownPoint, CylinderError> {
    let engine = &installation.engine;
    let measured = match installation.reference.kind {
        ReferenceKind::Generic => generic(installation),
        ReferenceKind::Chart => chart(installation),
        ReferenceKind::Readings => readings(installation)?,
    };
    let Measured {
        power_w,
        phi,
        gas_k,
        head_k,
        air_k,
        flow_kg_s,
        sigma_drop_pa,
        fin_heat_w,
    } = measured;
    let oil_k = installation.oil.reference_oil.value;
    if !(air_k < head_k && head_k < gas_k && oil_k < head_k) {
        return Err(CylinderError::TemperatureOrder {
            air_k,
            head_k,
            gas_k,
        });
    }
    let conducted_w = installation.oil.conduction_share * oil_heat_share(installation) * power_w;
    let fin_w_k = fin_heat_w / (head_k - air_k);
    let slope = installation.reference.conductance_slope;
    Ok(KnownPoint {
        // G_gas (T_g − T_h) = Q_fin + Q_ho
        gas_w_k: (fin_heat_w + conducted_w) / (gas_k - head_k),
        gas_k,
        charge_kg_s: mixture::charge_air(
            power_w,
            engine.air_consumption,
            engine.compression_ratio,
            phi,
        ),
        charge_k: air_k,
        phi,
        oil_w_k: conducted_w / (head_k - oil_k),
        oil_k,
        head_k,
        air_k,
        flow_kg_s,
        fin_heat_w,
        sigma_drop_pa,
        fins: FinConductance::through(fin_w_k, flow_kg_s, slope)?,
        resistance: FinResistance::through(
            sigma_drop_pa,
            flow_kg_s,
            installation.reference.drop_exponent,
        ),
    })
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

/// Heat of the fins, W, at a brake power, W; what piston jets take is missing from it.
fn fin_heat(installation: &Installation, power_w: f64) -> f64 {
    let engine = &installation.engine;
    let air = mixture::charge_air(
        power_w,
        engine.air_consumption,
        engine.compression_ratio,
        BEST_POWER_PHI,
    );
    let fuel_heat = mixture::fuel_flow(air, BEST_POWER_PHI) * mixture::HEATING_VALUE;
    let to_jets = oil_heat_share(installation) - installation.oil.heat_share;
    installation.reference.fin_heat_share * fuel_heat - to_jets.max(0.0) * power_w
}

/// σΔp behind the fins of the generic engine, Pa.
fn generic_drop(installation: &Installation) -> f64 {
    if installation.engine.cylinders > 4 {
        installation.reference.drop_six.value
    } else {
        installation.reference.drop_four.value
    }
}

fn generic(installation: &Installation) -> Measured {
    let reference = &installation.reference;
    let power_w = installation.engine.rated_power.value;
    Measured {
        power_w,
        phi: BEST_POWER_PHI,
        gas_k: reference.gas_temperature.value,
        head_k: reference.head.value,
        air_k: reference.air.value,
        flow_kg_s: reference.flow_per_power * power_w,
        sigma_drop_pa: generic_drop(installation),
        fin_heat_w: fin_heat(installation, power_w),
    }
}

fn chart(installation: &Installation) -> Measured {
    let reference = &installation.reference;
    let power_w = reference.chart_power.value;
    let air_k = reference.chart_air.value;
    let flow_kg_s = reference.chart_flow.value;
    let fin_heat_w = fin_heat(installation, power_w);
    let behind_k = air_k + fin_heat_w / (flow_kg_s * atmosphere::SPECIFIC_HEAT);
    let drop_pa = reference.chart_drop.value;
    let sigma_drop_pa = match reference.chart_density {
        ChartDensity::Rear => drop_pa,
        // σ₃Δp = σ₂Δp · T₂/T₃
        ChartDensity::Front => drop_pa * air_k / behind_k,
        ChartDensity::AsMeasured => {
            let pressure_pa = atmosphere::standard_pressure(reference.chart_altitude.value);
            drop_pa * atmosphere::density(pressure_pa, behind_k) / atmosphere::DENSITY_SL
        }
    };
    Measured {
        power_w,
        phi: reference.chart_mixture,
        gas_k: table_gas(installation, reference.chart_mixture, air_k),
        head_k: reference.chart_head.value,
        air_k,
        flow_kg_s,
        sigma_drop_pa,
        fin_heat_w,
    }
}

/// Gas temperature, K, from the table, at a mixture and a charge temperature, K.
fn table_gas(installation: &Installation, phi: f64, charge_k: f64) -> f64 {
    mixture::gas_temperature(phi) + installation.engine.charge_effect * (charge_k - TABLE_CHARGE_K)
}

fn readings(installation: &Installation) -> Result<Measured, CylinderError> {
    let reference = &installation.reference;
    let power_w = reference.reading_power.value;
    let air_k = reference.reading_oat.value;
    let fin_heat_w = fin_heat(installation, power_w);
    let generic_flow = reference.flow_per_power * installation.engine.rated_power.value;
    let fins = FinResistance::through(
        generic_drop(installation),
        generic_flow,
        reference.drop_exponent,
    );
    let pressure_pa = atmosphere::standard_pressure(reference.reading_altitude.value);
    let behind = |flow: f64| {
        atmosphere::density(
            pressure_pa,
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
        power_w,
        phi: reference.reading_mixture,
        gas_k: table_gas(installation, reference.reading_mixture, air_k),
        head_k: reference.reading_head.value,
        air_k,
        flow_kg_s,
        sigma_drop_pa: drop_pa * behind(flow_kg_s) / atmosphere::DENSITY_SL,
        fin_heat_w,
    })
}
