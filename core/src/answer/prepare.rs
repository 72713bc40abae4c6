//! From the documents to the network: an installation in a condition, in plain SI numbers.

use crate::air::airspeed;
use crate::air::atmosphere;
use crate::air::propeller;
use crate::answer::known_point::{GAS_EXPONENT, KnownPoint, known_point};
use crate::answer::oil_circuit::{cooler_branch, oil_loop, shutter_passage};
use crate::document::condition::{AirKind, Condition, Mixture, Phase, PowerKind, SpeedKind};
use crate::document::installation;
use crate::document::installation::Installation;
use crate::engine::cooler::CoolerError;
use crate::engine::heads::{CylinderError, Heads};
use crate::engine::mixture;
use crate::engine::power;
use crate::path::element::{Exit, Inlet};
use crate::path::network::{Cowl, FreeStream, Opening};
use crate::path::openings::Openings;

/// Why a condition could not be prepared.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PrepareError {
    /// The engine's known point contradicts itself.
    #[error("The engine's known point contradicts itself: {0}.")]
    KnownPoint(#[source] CylinderError),
    /// The cooler's rating is impossible.
    #[error("The cooler's rating asks for more heat than its air and oil flow can carry.")]
    Cooler(#[source] CoolerError),
    /// This fuel flow cannot go with this power.
    #[error(
        "This power cannot burn this fuel flow: {:.1} to {:.1} US gal/h would fit.",
        possible_kg_s.0 / GALLON_PER_HOUR_KG_S,
        possible_kg_s.1 / GALLON_PER_HOUR_KG_S
    )]
    FuelFlow {
        /// Fuel flow, kg/s.
        fuel_kg_s: f64,
        /// Fuel flows that can, kg/s.
        possible_kg_s: (f64, f64),
    },
    /// Power and mixture are both to follow from the one fuel flow.
    #[error("The fuel flow cannot give both power and mixture: give one of them another way.")]
    TwiceByFuel,
    /// The airspeed is beyond the speed of sound's neighbourhood.
    #[error("Mach {mach:.2} is beyond this model (0.6).")]
    TooFast {
        /// Mach number [-].
        mach: f64,
    },
}

/// One US gallon of petrol an hour, kg/s.
const GALLON_PER_HOUR_KG_S: f64 = FUEL_DENSITY * 0.003_785_411_784 / 3600.0;
/// Density of aviation petrol, kg/m³ (6.0 lb per US gallon, common practice).
const FUEL_DENSITY: f64 = 6.0 * 0.453_592_37 / 0.003_785_411_784;
/// Least share of rated power taken from a manifold pressure: an engine that runs [-].
const LEAST_SHARE: f64 = 0.02;
/// Highest Mach number taken [-].
const MACH_MAX: f64 = 0.6;
/// Loss of air that runs out through an inlet: sharp entrance from the deck and a free jet [-].
const REVERSE_INLET_LOSS: f64 = 1.5;

/// A condition in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prepared {
    /// The network with the shutter at a given opening.
    pub cowl: Cowl,
    /// The engine's known point.
    pub point: KnownPoint,
    /// Brake power, W.
    pub brake_power_w: f64,
    /// Equivalence ratio [-].
    pub phi: f64,
    /// Charge air, kg/s.
    pub charge_kg_s: f64,
    /// Charge temperature, K.
    pub charge_k: f64,
    /// Fuel flow, kg/s.
    pub fuel_kg_s: f64,
    /// Pressure altitude, m.
    pub pressure_altitude_m: f64,
    /// Mach number [-].
    pub mach: f64,
    /// Calibrated airspeed, m/s.
    pub calibrated_m_s: f64,
    /// Thrust of the propeller, N.
    pub thrust_n: f64,
    /// The propeller's share is that on the ground.
    pub on_ground: bool,
    /// Tailwind beyond the airspeed, which counts as none, m/s.
    pub tailwind_m_s: f64,
    /// Spillage drag share [-].
    pub spillage: f64,
    /// Drag area of the open flaps, m².
    pub flap_drag_m2: f64,
}

impl Prepared {
    /// Sets the shutter to an opening from 0 to 1.
    pub fn set_shutter(&mut self, installation: &Installation, opening: f64) {
        self.cowl.cooler.duct.shutter_passage = shutter_passage(installation, opening);
    }
}

/// Prepares an installation in a condition, with the shutter open.
///
/// # Errors
/// [`PrepareError`] by name.
pub fn prepare(
    installation: &Installation,
    condition: &Condition,
) -> Result<Prepared, PrepareError> {
    let point = known_point(installation).map_err(PrepareError::KnownPoint)?;
    let engine = &installation.engine;
    let airframe = &installation.airframe;
    let air = outside(installation, condition)?;
    let (brake_power_w, phi) = power_and_mixture(installation, condition, air.stream.total_k)?;
    let charge_kg_s = mixture::charge_air(
        brake_power_w,
        engine.air_consumption,
        engine.compression_ratio,
        phi,
    );
    let slipstream = propeller::slipstream(
        brake_power_w,
        airframe.propeller_efficiency,
        airframe.propeller_diameter.value,
        air.stream.speed_m_s,
        air.stream.density,
    );
    let on_ground = condition.phase == Phase::Ground;
    let propeller_share = if on_ground {
        airframe.propeller_share_rest
    } else {
        airframe.propeller_share
    };
    let stream = FreeStream {
        propeller_rise_pa: propeller_share * slipstream.pressure_rise_pa,
        ..air.stream
    };
    let charge_k = stream.total_k;
    let heads = heads(installation, &point, phi, charge_kg_s, charge_k);
    let decks = &installation.decks;
    let discharge = decks.leak_discharge;
    let mut inlets = Openings::default();
    for inlet in &installation.inlets {
        inlets.push(inlet_element(inlet, &stream));
    }
    let mut exits = Openings::default();
    let mut flap_drag_m2 = 0.0;
    for exit in &installation.exits {
        let area_m2 = exit.area_m2(condition.flap);
        exits.push(Exit {
            area_m2,
            discharge: exit.discharge,
            velocity_coefficient: exit.velocity_coefficient,
            outside_pa: exit.outside_coefficient(condition.flap) * stream.dynamic_pa,
            jet_cosine: libm::cos(exit.jet_angle.to_radians()),
        });
        flap_drag_m2 += exit.flap_drag * (area_m2 - exit.closed_area_m2()).max(0.0);
    }
    let cowl = Cowl {
        stream,
        inlets,
        fins: point.resistance,
        heads,
        seal_m2: discharge * decks.seal_area_m2(),
        blast_m2: discharge * decks.blast_area_m2(),
        overboard: Opening {
            effective_area_m2: discharge * decks.overboard_leak.value,
            outside_pa: decks.overboard_pressure * stream.dynamic_pa,
        },
        cabin: Opening {
            effective_area_m2: discharge * decks.cabin_area_m2(),
            outside_pa: 0.0,
        },
        induction_kg_s: if decks.induction_from_upper_deck {
            charge_kg_s
        } else {
            0.0
        },
        inflow: Opening {
            effective_area_m2: discharge * decks.inflow_leak.value,
            outside_pa: decks.inflow_pressure * stream.impact_pa,
        },
        cooler: cooler_branch(installation, &stream).map_err(PrepareError::Cooler)?,
        exits,
        exhaust_heat_w: engine.exhaust_heat_share * brake_power_w,
        skin_w_k: decks.skin_conductance,
        oil: oil_loop(installation, condition, brake_power_w),
    };
    Ok(Prepared {
        cowl,
        point,
        brake_power_w,
        phi,
        charge_kg_s,
        charge_k,
        fuel_kg_s: mixture::fuel_flow(charge_kg_s, phi),
        pressure_altitude_m: air.pressure_altitude_m,
        mach: air.mach,
        calibrated_m_s: airspeed::calibrated_airspeed(stream.impact_pa),
        thrust_n: slipstream.thrust_n,
        on_ground,
        tailwind_m_s: air.tailwind_m_s,
        spillage: airframe.spillage,
        flap_drag_m2,
    })
}

struct Outside {
    stream: FreeStream,
    pressure_altitude_m: f64,
    mach: f64,
    tailwind_m_s: f64,
}

fn outside(installation: &Installation, condition: &Condition) -> Result<Outside, PrepareError> {
    let pressure_altitude_m =
        atmosphere::pressure_altitude(condition.altitude.value, condition.altimeter_setting.value);
    let pressure_pa = atmosphere::standard_pressure(pressure_altitude_m);
    let airframe = &installation.airframe;
    // In flight the airspeed holds the wind already.
    let wind = if condition.phase == Phase::Ground {
        condition.wind.value
    } else {
        0.0
    };
    let against = condition.airspeed.value + wind;
    let (typed, tailwind_m_s) = (against.max(0.0), (-against).max(0.0));
    let calibrated = match condition.speed {
        SpeedKind::True => None,
        SpeedKind::Calibrated => Some(typed),
        // On the ground at rest a correction means nothing.
        SpeedKind::Indicated if condition.airspeed.value == 0.0 => Some(typed),
        SpeedKind::Indicated => Some((typed + airframe.position_error.value).max(0.0)),
    };
    let mach_of_calibrated =
        calibrated.map(|cas| airspeed::mach(airspeed::impact_pressure(cas), pressure_pa));
    let temperature_k = match condition.air {
        AirKind::HotDay => atmosphere::hot_day_temperature(pressure_altitude_m),
        AirKind::IsaOffset => {
            atmosphere::standard_temperature(pressure_altitude_m) + condition.isa_offset.value
        }
        AirKind::Oat => {
            let shown = condition.oat.value;
            // T = T_shown / (1 + 0.2 r M²), or T_shown − r V²/(2 c_p)
            match mach_of_calibrated {
                Some(mach) => shown / (1.0 + 0.2 * airframe.oat_recovery * mach * mach),
                None => {
                    shown
                        - airframe.oat_recovery * typed * typed / (2.0 * atmosphere::SPECIFIC_HEAT)
                }
            }
        }
    };
    let sound = atmosphere::speed_of_sound(temperature_k);
    let mach = mach_of_calibrated.unwrap_or(typed / sound);
    if mach > MACH_MAX {
        return Err(PrepareError::TooFast { mach });
    }
    let density = atmosphere::density(pressure_pa, temperature_k);
    let speed_m_s = mach * sound;
    Ok(Outside {
        stream: FreeStream {
            pressure_pa,
            temperature_k,
            total_k: airspeed::total_temperature(mach, temperature_k),
            density,
            speed_m_s,
            dynamic_pa: 0.5 * density * speed_m_s * speed_m_s,
            impact_pa: airspeed::compressed_rise(mach, pressure_pa),
            propeller_rise_pa: 0.0,
        },
        pressure_altitude_m,
        mach,
        tailwind_m_s,
    })
}

/// Brake power, W, and equivalence ratio [-].
fn power_and_mixture(
    installation: &Installation,
    condition: &Condition,
    charge_k: f64,
) -> Result<(f64, f64), PrepareError> {
    let engine = &installation.engine;
    let rated_w = engine.rated_power.value;
    let (air, ratio) = (engine.air_consumption, engine.compression_ratio);
    let fuel_kg_s = condition.fuel_flow.value * FUEL_DENSITY;
    let by_fuel = condition.mixture == Mixture::FuelFlow;
    match condition.power {
        PowerKind::Share | PowerKind::Brake => {
            let power_w = if condition.power == PowerKind::Share {
                condition.power_share * rated_w
            } else {
                condition.brake_power.value
            };
            Ok((
                power_w,
                equivalence_ratio(installation, condition, power_w)?,
            ))
        }
        PowerKind::Manifold => {
            let share = power::share_at_best_power(
                condition.manifold.value,
                condition.rpm / engine.rated_rpm,
                charge_k,
            );
            let best_w = share.max(LEAST_SHARE) * rated_w;
            // At constant air flow the mixture changes the power: e(φ) P_best.
            let phi = if by_fuel {
                let air_kg_s = mixture::charge_air(best_w, air, ratio, engine.best_power)
                    * mixture::relative_power(engine.best_power);
                let phi = fuel_kg_s / mixture::fuel_flow(air_kg_s, 1.0);
                let (leanest, richest) = mixture::GAS_TABLE_RANGE;
                if !(leanest..=richest).contains(&phi) {
                    return Err(PrepareError::FuelFlow {
                        fuel_kg_s,
                        possible_kg_s: (
                            mixture::fuel_flow(air_kg_s, leanest),
                            mixture::fuel_flow(air_kg_s, richest),
                        ),
                    });
                }
                phi
            } else {
                equivalence_ratio(installation, condition, best_w)?
            };
            Ok((best_w * mixture::relative_power(phi), phi))
        }
        PowerKind::FuelFlow if by_fuel => Err(PrepareError::TwiceByFuel),
        PowerKind::FuelFlow => {
            let phi = equivalence_ratio(installation, condition, rated_w)?;
            Ok((power::of_fuel_flow(fuel_kg_s, air, ratio, phi), phi))
        }
    }
}

fn equivalence_ratio(
    installation: &Installation,
    condition: &Condition,
    brake_power_w: f64,
) -> Result<f64, PrepareError> {
    let engine = &installation.engine;
    Ok(match condition.mixture {
        Mixture::FullRich => engine.full_rich,
        Mixture::BestPower => engine.best_power,
        Mixture::PeakEgt => engine.peak_egt,
        Mixture::LeanOfPeak => engine.lean_of_peak,
        Mixture::FuelFlow => {
            let fuel_kg_s = condition.fuel_flow.value * FUEL_DENSITY;
            let (air, ratio) = (engine.air_consumption, engine.compression_ratio);
            let fuel_at = |phi: f64| {
                mixture::fuel_flow(mixture::charge_air(brake_power_w, air, ratio, phi), phi)
            };
            let (leanest, richest) = mixture::GAS_TABLE_RANGE;
            mixture::mixture_of_fuel_flow(fuel_kg_s, brake_power_w, air, ratio).ok_or(
                PrepareError::FuelFlow {
                    fuel_kg_s,
                    possible_kg_s: (fuel_at(leanest), fuel_at(richest)),
                },
            )?
        }
    })
}

fn heads(
    installation: &Installation,
    point: &KnownPoint,
    phi: f64,
    charge_kg_s: f64,
    charge_k: f64,
) -> Heads {
    let engine = &installation.engine;
    let break_in = if engine.break_in {
        engine.break_in_shift.value
    } else {
        0.0
    };
    // T_g = T_g,r + T_g(φ) − T_g(φ_r) + c (T_ch − T_ch,r) + shifts
    let gas_k = point.gas_k + mixture::gas_temperature(phi) - mixture::gas_temperature(point.phi)
        + engine.charge_effect * (charge_k - point.charge_k)
        + engine.ignition_advance * engine.advance_effect
        + break_in;
    Heads {
        // G_gas = G_gas,r (W_ch / W_ch,r)^0.58
        gas_w_k: point.gas_w_k * libm::pow(charge_kg_s / point.charge_kg_s, GAS_EXPONENT),
        gas_k,
        oil_w_k: point.oil_w_k,
        fins: point.fins,
    }
}

fn inlet_element(inlet: &installation::Inlet, stream: &FreeStream) -> Inlet {
    Inlet {
        area_m2: inlet.area_m2(),
        // H₀ = k qc + s T/A
        ram_pa: inlet.recovery() * stream.impact_pa + stream.propeller_rise_pa,
        lip_loss: inlet.lip_loss(),
        diffusion_loss: inlet.diffusion_loss(),
        reverse_loss: REVERSE_INLET_LOSS,
        density: stream.density,
    }
}
