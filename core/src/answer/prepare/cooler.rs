//! The oil cooler and its duct, from what the builder knows of them.

use crate::air::atmosphere;
use crate::answer::prepare::error::PrepareError;
use crate::document::condition::Phase;
use crate::document::installation::{
    Cooler, CoolerDischarge, CoolerRating, CoolerSupply, Cover, FinKind, Hose, Installation,
};
use crate::engine::cooler::{AIR_EXPONENT, Conductance, Rating};
use crate::engine::oil;
use crate::path::butterfly;
use crate::path::butterfly::Leakage;
use crate::path::element::{CoolerDuct, Exit, Friction, Inlet};
use crate::path::fin_core;
use crate::path::fin_core::FinCore;
use crate::path::inlet_map::Incidence;
use crate::path::loss;
use crate::path::network::{CoolerBranch, Discharge, FreeStream, Supply};

/// Hot oil at which a cooler's rating is read, K (200 °F).
const RATING_OIL_K: f64 = (200.0 + 459.67) / 1.8;
/// Air temperature of a cooler's rating is not needed: specific heat is constant.
const RATING_DIFFERENCE_K: f64 = 100.0 / 1.8;
/// Face mass flux at which a cooler is estimated from its size, kg/(m²·s).
const SIZE_FLUX: f64 = 9.0;

/// Core resistance, its exponent and conductance from a data sheet or from the core's size.
fn cooler_core(cooler: &Cooler) -> Result<(f64, f64, Conductance), PrepareError> {
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
            let conductance = rating.overall_conductance().map_err(PrepareError::Cooler)?;
            (conductance, rating.air_kg_s, cooler.rated_air_drop.value)
        }
        CoolerRating::FromFins => return Ok(finned(cooler, rated_oil_kg_s)),
        CoolerRating::FromSize => (
            cooler.size_conductance * face_m2 * cooler.depth.value,
            SIZE_FLUX * face_m2,
            cooler.size_drop * cooler.depth.value,
        ),
    };
    // A blanked core is a smaller core.
    let open = cooler.open_share();
    let constant = drop_pa / libm::pow(rated_air_kg_s * open, cooler.core_exponent);
    let conductance = Conductance {
        rated_w_k: rated_w_k * open,
        rated_air_kg_s: rated_air_kg_s * open,
        rated_oil_kg_s,
        air_share: cooler.air_share,
        air_exponent: AIR_EXPONENT,
    };
    Ok((constant, cooler.core_exponent, conductance))
}

/// Dimensions of the core's rows, tubes and fins.
fn fin_core(cooler: &Cooler) -> FinCore {
    FinCore {
        width_m: cooler.face_width.value,
        rows: f64::from(cooler.rows),
        row_pitch_m: cooler.row_pitch.value,
        depth_m: cooler.depth.value,
        tube_m: cooler.tube_height.value,
        fin_pitch_m: cooler.fin_pitch.value,
        fin_m: cooler.fin_thickness.value,
        strip_m: (cooler.fin_kind == FinKind::Offset).then_some(cooler.strip.value),
    }
}

/// Face mass flux about which a core is computed from its fins, kg/(s·m²): what coolers meet in flight.
const FIN_FLUX: f64 = 6.0;

/// Core resistance, its exponent and the conductance from rows, tubes and fins: exact at one mass flux,
/// between half and twice of it by powers, within a tenth.
fn finned(cooler: &Cooler, rated_oil_kg_s: f64) -> (f64, f64, Conductance) {
    let core = fin_core(cooler);
    let open = cooler.open_share();
    let air_kg_s = FIN_FLUX * core.face_m2() * open;
    let exponent = fin_core::exponent_about(FIN_FLUX, |flux| core.drop(flux));
    let drop_pa = cooler.fin_drop_factor * core.drop(FIN_FLUX);
    // 1/UA = 1/(η h A) + 1/(h_oil A_oil); the walls between are neglected.
    let air = 1.0 / core.air_conductance(FIN_FLUX);
    let oil = 1.0 / (cooler.oil_film * core.oil_m2());
    let conductance = Conductance {
        rated_w_k: cooler.fin_conductance_factor * open / (air + oil),
        rated_air_kg_s: air_kg_s,
        rated_oil_kg_s,
        air_share: air / (air + oil),
        air_exponent: fin_core::exponent_about(FIN_FLUX, |flux| core.air_conductance(flux)),
    };
    (
        drop_pa / libm::pow(air_kg_s, exponent),
        exponent,
        conductance,
    )
}

/// What leads the air to the core.
struct AirWay {
    area_m2: f64,
    diameter_m: f64,
    /// Loss of entrance, bends and the way into the core, on the velocity in the duct [-].
    loss: f64,
    length_ratio: f64,
}

fn air_way(cooler: &Cooler) -> AirWay {
    let face_m2 = cooler.faces_m2();
    if cooler.supply.is_on_baffle() {
        // A hole as large as the core.
        return AirWay {
            area_m2: face_m2,
            diameter_m: (face_m2 / core::f64::consts::FRAC_PI_4).sqrt(),
            loss: cooler.entrance_loss,
            length_ratio: 0.0,
        };
    }
    let diameter_m = cooler.duct_diameter.value;
    let area_m2 = core::f64::consts::FRAC_PI_4 * diameter_m * diameter_m;
    let into_core = if face_m2 >= area_m2 {
        loss::sudden_expansion(area_m2 / face_m2)
    } else {
        let narrowing = area_m2 / face_m2;
        loss::sudden_contraction(face_m2 / area_m2) * narrowing * narrowing
    };
    AirWay {
        area_m2,
        diameter_m,
        loss: cooler.entrance_loss + f64::from(cooler.bends) * cooler.bend_loss + into_core,
        length_ratio: cooler.duct_length.value / diameter_m,
    }
}

/// Loss of a plate's opening before the core, on the velocity in a duct of an area, m² [-].
fn plate_loss(cooler: &Cooler, duct_m2: f64) -> f64 {
    if cooler.cover == Cover::Tape {
        return 0.0;
    }
    let open = cooler.open_share();
    // The coefficient stands on the velocity in the opening: K (A_duct / A_open)²
    let narrowing = duct_m2 / (open * cooler.faces_m2());
    loss::sudden_contraction(open) * narrowing * narrowing
}

/// Loss of the way out behind the core, on the velocity in its face [-]: air from the part behind a
/// plate's opening spreads over the whole face, then turns out through a gap before a wall.
fn behind_loss(cooler: &Cooler) -> f64 {
    let spreading = match cooler.cover {
        Cover::Tape => 0.0,
        Cover::Plate => {
            let open = cooler.open_share();
            loss::sudden_expansion(open) / (open * open)
        }
    };
    let gap = cooler.standoff_area_m2().map_or(0.0, |gap_m2| {
        loss::standoff(cooler.faces_m2(), gap_m2, cooler.standoff_discharge)
    });
    spreading + gap
}

/// The cooler's branch in a phase.
///
/// # Arguments
/// * `propeller_pa` - pressure rise of the propeller, Pa
pub(super) fn cooler_branch(
    installation: &Installation,
    stream: &FreeStream,
    phase: Phase,
    propeller_pa: f64,
) -> Result<CoolerBranch, PrepareError> {
    let cooler = &installation.cooler;
    let (core_constant, core_exponent, conductance) = cooler_core(cooler)?;
    let cores = cooler.second.cores();
    let way = air_way(cooler);
    let own_inlet_loss = match cooler.supply {
        CoolerSupply::UpperDeck | CoolerSupply::RearBaffle | CoolerSupply::FrontBaffle => 0.0,
        CoolerSupply::OwnInlet => {
            let widening = way.area_m2 / cooler.own_inlet_area.value;
            (widening - 1.0).max(0.0) * (widening - 1.0).max(0.0)
        }
    };
    Ok(CoolerBranch {
        duct: CoolerDuct {
            area_m2: way.area_m2,
            diameter_m: way.diameter_m,
            fittings_loss: way.loss + own_inlet_loss + plate_loss(cooler, way.area_m2),
            length_ratio: way.length_ratio,
            friction: match cooler.hose {
                Hose::Reinforced => Friction::Factor(cooler.hose_friction),
                Hose::Smooth => Friction::Roughness(cooler.tube_roughness),
            },
            shutter_passage: shutter_passage(installation, 1.0),
            core_constant: core_constant * cores.air_drop(core_exponent),
            core_exponent,
            face_m2: cooler.faces_m2(),
            behind_loss: behind_loss(cooler),
        },
        conductance,
        cores,
        supply: match cooler.supply {
            CoolerSupply::UpperDeck | CoolerSupply::RearBaffle | CoolerSupply::FrontBaffle => {
                Supply::UpperDeck
            }
            CoolerSupply::OwnInlet => Supply::OwnInlet(Inlet {
                area_m2: cooler.own_inlet_area.value,
                ram_pa: cooler.own_inlet_recovery * stream.impact_pa + stream.propeller_rise_pa,
                lip_loss: cooler.own_inlet_lip_loss,
                // What is lost behind the lip stands in the duct's fittings, either way.
                diffusion_loss: 0.0,
                reverse_loss: 0.0,
                density: stream.density,
                incidence: Incidence::default(),
            }),
        },
        discharge: match cooler.discharge {
            CoolerDischarge::LowerDeck => Discharge::LowerDeck,
            CoolerDischarge::OwnExit => Discharge::OwnExit(Exit {
                area_m2: cooler.own_exit_area.value,
                discharge: cooler.own_exit_discharge,
                velocity_coefficient: cooler.own_exit_velocity,
                outside_pa: cooler.own_outside_pa(phase, stream.dynamic_pa, propeller_pa),
                jet_cosine: 1.0,
                ejector: None,
            }),
        },
        preheat_share: cooler.preheated_share(),
    })
}

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
