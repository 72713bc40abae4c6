//! The oil, its cooler and its shutter: from the documents to the network.

use crate::air::atmosphere;
use crate::answer::known_point::oil_heat_share;
use crate::document::condition::Condition;
use crate::document::installation::{
    Cooler, CoolerDischarge, CoolerRating, CoolerSupply, Hose, Installation,
};
use crate::engine::bypass::Bypass;
use crate::engine::cooler::{Conductance, CoolerError, Rating};
use crate::engine::oil;
use crate::path::butterfly;
use crate::path::butterfly::Leakage;
use crate::path::element::{CoolerDuct, Exit, Friction, Inlet};
use crate::path::loss;
use crate::path::network::{CoolerBranch, Discharge, FreeStream, OilLoop, Supply};

/// Hot oil at which a cooler's rating is read, K (200 °F).
const RATING_OIL_K: f64 = (200.0 + 459.67) / 1.8;
/// Air temperature of a cooler's rating is not needed: specific heat is constant.
const RATING_DIFFERENCE_K: f64 = 100.0 / 1.8;
/// Face mass flux at which a cooler is estimated from its size, kg/(m²·s).
const SIZE_FLUX: f64 = 9.0;

/// Inverse loss of the shutter [-] at an opening from 0 to 1; infinite without a shutter.
#[must_use]
pub fn shutter_passage(installation: &Installation, opening: f64) -> f64 {
    let fitted = &installation.shutter;
    if !fitted.fitted {
        return f64::INFINITY;
    }
    let leakage = Leakage {
        closed_gap: fitted.closed_gap,
        drilled_share: fitted.drilled_share,
    };
    butterfly::passage(opening, leakage, fitted.table_choice)
}

/// The oil's heat balance at an engine speed and a brake power, W.
pub(crate) fn oil_loop(
    installation: &Installation,
    condition: &Condition,
    brake_power_w: f64,
) -> OilLoop {
    let inputs = &installation.oil;
    let rated_w = installation.engine.rated_power.value;
    let speed_share = condition.rpm / installation.engine.rated_rpm;
    let not_conducted = (1.0 - inputs.conduction_share) * oil_heat_share(installation);
    OilLoop {
        friction_heat_w: oil::friction_heat(
            not_conducted * rated_w,
            speed_share,
            brake_power_w / rated_w,
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

/// Core resistance and conductance from a data sheet or from the core's size.
fn core(cooler: &Cooler) -> Result<(f64, Conductance), CoolerError> {
    let rated_oil_kg_s = cooler.rated_oil_flow.value * oil::density(RATING_OIL_K);
    let face_m2 = cooler.face_width.value * cooler.core_height_m();
    let (rated_w_k, rated_air_kg_s, drop_pa) = match cooler.rating {
        CoolerRating::Rated => {
            let rating = Rating {
                heat_w: cooler.rated_heat.value,
                inlet_difference_k: RATING_DIFFERENCE_K,
                air_kg_s: cooler.rated_air_flow.value,
                oil_kg_s: rated_oil_kg_s,
                air_specific_heat: atmosphere::SPECIFIC_HEAT,
                oil_specific_heat: oil::specific_heat(RATING_OIL_K),
            };
            let conductance = rating.overall_conductance()?;
            (conductance, rating.air_kg_s, cooler.rated_air_drop.value)
        }
        CoolerRating::FromSize => (
            cooler.size_conductance * face_m2 * cooler.depth.value,
            SIZE_FLUX * face_m2,
            cooler.size_drop * cooler.depth.value,
        ),
    };
    // A blanked core is a smaller core.
    let open = 1.0 - cooler.blanked_share;
    let constant = drop_pa / libm::pow(rated_air_kg_s * open, cooler.core_exponent);
    let conductance = Conductance {
        rated_w_k: rated_w_k * open,
        rated_air_kg_s: rated_air_kg_s * open,
        rated_oil_kg_s,
        air_share: cooler.air_share,
    };
    Ok((constant, conductance))
}

/// The cooler's branch of the network, its shutter open.
///
/// # Errors
/// [`CoolerError`] if the rating is impossible.
pub(crate) fn cooler_branch(
    installation: &Installation,
    stream: &FreeStream,
) -> Result<CoolerBranch, CoolerError> {
    let cooler = &installation.cooler;
    let (core_constant, conductance) = core(cooler)?;
    let diameter_m = cooler.duct_diameter.value;
    let area_m2 = core::f64::consts::FRAC_PI_4 * diameter_m * diameter_m;
    let face_m2 = cooler.face_width.value * cooler.core_height_m();
    let into_core = if face_m2 >= area_m2 {
        loss::sudden_expansion(area_m2 / face_m2)
    } else {
        let narrowing = area_m2 / face_m2;
        loss::sudden_contraction(face_m2 / area_m2) * narrowing * narrowing
    };
    let own_inlet_loss = match cooler.supply {
        CoolerSupply::UpperDeck => 0.0,
        CoolerSupply::OwnInlet => {
            let widening = area_m2 / cooler.own_inlet_area.value;
            (widening - 1.0).max(0.0) * (widening - 1.0).max(0.0)
        }
    };
    Ok(CoolerBranch {
        duct: CoolerDuct {
            area_m2,
            diameter_m,
            fittings_loss: cooler.entrance_loss
                + f64::from(cooler.bends) * cooler.bend_loss
                + into_core
                + own_inlet_loss,
            length_ratio: cooler.duct_length.value / diameter_m,
            friction: match cooler.hose {
                Hose::Reinforced => Friction::Factor(cooler.hose_friction),
                Hose::Smooth => Friction::Roughness(cooler.tube_roughness),
            },
            shutter_passage: shutter_passage(installation, 1.0),
            core_constant,
            core_exponent: cooler.core_exponent,
        },
        conductance,
        supply: match cooler.supply {
            CoolerSupply::UpperDeck => Supply::UpperDeck,
            CoolerSupply::OwnInlet => Supply::OwnInlet(Inlet {
                area_m2: cooler.own_inlet_area.value,
                ram_pa: cooler.own_inlet_recovery * stream.impact_pa + stream.propeller_rise_pa,
                lip_loss: cooler.own_inlet_lip_loss,
                // What is lost behind the lip stands in the duct's fittings, either way.
                diffusion_loss: 0.0,
                reverse_loss: 0.0,
                density: stream.density,
            }),
        },
        discharge: match cooler.discharge {
            CoolerDischarge::LowerDeck => Discharge::LowerDeck,
            CoolerDischarge::OwnExit => Discharge::OwnExit(Exit {
                area_m2: cooler.own_exit_area.value,
                discharge: cooler.own_exit_discharge,
                velocity_coefficient: cooler.own_exit_velocity,
                outside_pa: cooler.own_exit_pressure * stream.dynamic_pa,
                jet_cosine: 1.0,
            }),
        },
        preheat_share: cooler.preheat_share,
    })
}
