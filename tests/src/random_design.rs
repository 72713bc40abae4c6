//! Random installations over the whole permitted range of every input.

use coolpath_core::air::atmosphere;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::condition::{
    AirKind, Condition, Mixture, Phase, PowerKind, ShutterPolicy, SpeedKind,
};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{
    ChartDensity, CoolerDischarge, CoolerRating, CoolerSupply, Exit, ExitShape, HeadProbe, Hose,
    Inlet, InletPosition, InletShape, Installation, Lip, OilProbe, ReferenceKind, Sealing,
};
use coolpath_core::document::table::Input;
use coolpath_core::units::typed::Dimension;
use fastrand::Rng;

/// Every tenth case has a wide forward-facing gap into the lower deck.
const REVERSED_EVERY: u64 = 10;

fn one_of<T: Copy>(rng: &mut Rng, choices: &[T]) -> T {
    choices[rng.usize(..choices.len())]
}

/// Log-uniform where the range is positive, else uniform.
fn drawn(rng: &mut Rng, (least, most): (f64, f64)) -> f64 {
    if least > 0.0 && most / least > 1.5 {
        (least.ln() + rng.f64() * (most / least).ln())
            .exp()
            .clamp(least, most)
    } else {
        least + rng.f64() * (most - least)
    }
}

/// Hash of an input's name and place: each input draws by its own seed, so that a new row of the
/// table leaves all other numbers of a design as they were.
fn name_hash(id: &str, place: usize) -> u64 {
    let bytes = id.bytes().chain((place as u64).to_le_bytes());
    // FNV-1a, textbook constants.
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// An installation in a condition, drawn from a seed over every permitted range.
#[must_use]
pub fn random_design(seed: u64) -> Design {
    with_ends(seed, 0.0)
}

/// Chance with which each number stands at an end of its range in designs drawn with ends.
pub const ENDS: f64 = 0.1;
/// Area that is nearly none, as a share of the widest permitted.
const NEARLY_NONE: f64 = 1e-6;

/// The same, each number with a chance at an end of its permitted range; areas that may be none are
/// as often nearly none.
#[must_use]
pub fn random_design_with_ends(seed: u64) -> Design {
    with_ends(seed, ENDS)
}

/// An end of a range, or next to none of an area.
fn end(rng: &mut Rng, input: &Input) -> f64 {
    let (least, most) = input.permitted;
    let may_be_none = input.dimension == Dimension::Area && least <= 0.0;
    if rng.bool() {
        most
    } else if may_be_none && rng.bool() {
        NEARLY_NONE * most
    } else {
        least
    }
}

fn with_ends(seed: u64, ends: f64) -> Design {
    let mut rng = Rng::with_seed(seed);
    let mut design = Design::default();
    let installation = &mut design.installation;
    choose_openings(&mut rng, installation);
    choose_engine(&mut rng, installation);
    choose_decks_and_oil(&mut rng, installation);
    design.conditions = vec![chosen_condition(&mut rng)];
    draw_numbers(&mut rng, &mut design, seed, ends);
    keep_bounds(&mut rng, &mut design);
    if seed.is_multiple_of(REVERSED_EVERY) {
        reverse(&mut design, &mut rng);
    }
    design
}

fn choose_openings(rng: &mut Rng, installation: &mut Installation) {
    installation.inlets = (0..=rng.usize(..3))
        .map(|_| Inlet {
            shape: one_of(
                rng,
                &[InletShape::Rectangle, InletShape::Ring, InletShape::Traced],
            ),
            position: one_of(
                rng,
                &[
                    InletPosition::ForwardClear,
                    InletPosition::BehindBladeRoot,
                    InletPosition::BellyScoop,
                    InletPosition::Flush,
                ],
            ),
            lip: one_of(rng, &[Lip::Thin, Lip::Blunt, Lip::Rounded]),
            diffuser: rng.bool(),
            ..Inlet::default()
        })
        .collect();
    installation.exits = (0..=rng.usize(..3))
        .map(|_| Exit {
            shape: one_of(
                rng,
                &[ExitShape::LipGap, ExitShape::Traced, ExitShape::Louvers],
            ),
            flap: rng.bool(),
            ..Exit::default()
        })
        .collect();
}

fn choose_engine(rng: &mut Rng, installation: &mut Installation) {
    installation.engine.cylinders = one_of(rng, &[4, 6]);
    installation.engine.piston_cooling_jets = rng.bool();
    installation.engine.break_in = rng.bool();
    installation.engine.head_probe =
        one_of(rng, &[HeadProbe::BayonetWell, HeadProbe::UnderPlugRing]);
    installation.reference.kind = one_of(
        rng,
        &[
            ReferenceKind::Generic,
            ReferenceKind::Chart,
            ReferenceKind::Readings,
        ],
    );
    installation.reference.chart_density = one_of(
        rng,
        &[
            ChartDensity::Front,
            ChartDensity::Rear,
            ChartDensity::AsMeasured,
        ],
    );
}

fn choose_decks_and_oil(rng: &mut Rng, installation: &mut Installation) {
    installation.decks.sealing = one_of(
        rng,
        &[
            Sealing::HardPlenum,
            Sealing::FlexibleSeals,
            Sealing::MeasuredLeak,
        ],
    );
    installation.decks.induction_from_upper_deck = rng.bool();
    installation.decks.cabin_air = rng.bool();
    installation.oil.thermostat = rng.bool();
    installation.oil.probe = one_of(rng, &[OilProbe::AfterCooler, OilProbe::BeforeCooler]);
    installation.cooler.rating = one_of(rng, &[CoolerRating::Rated, CoolerRating::FromSize]);
    installation.cooler.supply = one_of(
        rng,
        &[
            CoolerSupply::UpperDeck,
            CoolerSupply::UpperDeck,
            CoolerSupply::OwnInlet,
        ],
    );
    installation.cooler.discharge = one_of(
        rng,
        &[
            CoolerDischarge::LowerDeck,
            CoolerDischarge::LowerDeck,
            CoolerDischarge::OwnExit,
        ],
    );
    installation.cooler.hose = one_of(rng, &[Hose::Reinforced, Hose::Smooth]);
    installation.shutter.fitted = rng.bool();
}

fn chosen_condition(rng: &mut Rng) -> Condition {
    Condition {
        phase: one_of(
            rng,
            &[Phase::Ground, Phase::Climb, Phase::Cruise, Phase::Descent],
        ),
        air: one_of(rng, &[AirKind::Oat, AirKind::HotDay, AirKind::IsaOffset]),
        speed: one_of(
            rng,
            &[SpeedKind::Indicated, SpeedKind::Calibrated, SpeedKind::True],
        ),
        power: one_of(
            rng,
            &[
                PowerKind::Share,
                PowerKind::Brake,
                PowerKind::Manifold,
                PowerKind::FuelFlow,
            ],
        ),
        mixture: one_of(
            rng,
            &[
                Mixture::FullRich,
                Mixture::BestPower,
                Mixture::PeakEgt,
                Mixture::LeanOfPeak,
                Mixture::FuelFlow,
            ],
        ),
        shutter: one_of(rng, &[ShutterPolicy::Fixed, ShutterPolicy::HoldOil]),
        ..Condition::default()
    }
}

/// Draws every number of a design, each with the given chance at an end of its range.
fn draw_numbers(rng: &mut Rng, design: &mut Design, seed: u64, ends: f64) {
    let places: Vec<_> = design.places().collect();
    // The known point's numbers must fit together: half of the cases keep them.
    let keep_point = rng.bool();
    // Second limits move no answer: not drawn, so that each number keeps its design.
    let moves = |id: &str| {
        !matches!(
            id,
            "engine.head_second_limit_k"
                | "engine.oil_second_limit_k"
                | "engine.oil_minimum_k"
                | "engine.oil_wanted_k"
        )
    };
    for (input, place) in places.into_iter().filter(|(input, _)| moves(input.id)) {
        if !(keep_point && input.id.starts_with("reference.")) {
            let mut own = Rng::with_seed(seed ^ name_hash(input.id, place));
            let value = if ends > 0.0 && own.f64() < ends {
                end(&mut own, input)
            } else {
                drawn(&mut own, input.permitted)
            };
            input.set(design, place, value);
        }
    }
}

/// Numbers that bound each other are drawn inside each other's bounds.
fn keep_bounds(rng: &mut Rng, design: &mut Design) {
    for exit in &mut design.installation.exits {
        exit.pipes_area.value = 0.0;
        let opening = exit.area_m2(0.0).min(exit.area_m2(1.0));
        exit.pipes_area.value = opening.min(0.15) * 0.95 * rng.f64();
    }
    let oil = &mut design.installation.oil;
    if oil.thermostat_opens.value > oil.thermostat_full.value {
        std::mem::swap(
            &mut oil.thermostat_opens.value,
            &mut oil.thermostat_full.value,
        );
    }
}

/// Opens a wide ram gap into the lower deck and leaves the inlets little ram.
fn reverse(design: &mut Design, rng: &mut Rng) {
    let decks = &mut design.installation.decks;
    decks.inflow_leak.value = 0.05;
    decks.inflow_pressure = 0.9 + 0.1 * rng.f64();
    for inlet in &mut design.installation.inlets {
        inlet.position = InletPosition::Flush;
        inlet.recovery_flush = 0.1 * rng.f64();
    }
    design.installation.airframe.propeller_share = 0.0;
    design.installation.airframe.propeller_share_rest = 0.0;
    for exit in &mut design.installation.exits {
        exit.pressure_coefficient = 0.5;
        exit.flap = false;
    }
    let condition = &mut design.conditions[0];
    condition.airspeed.value = condition.airspeed.value.max(40.0);
    condition.speed = SpeedKind::Calibrated;
}

/// Mass and heat left over, each as a share of what flows.
#[must_use]
pub fn imbalance(answer: &Answer) -> (f64, f64) {
    let (cowl, state) = (&answer.cowl, &answer.state);
    let cp = atmosphere::SPECIFIC_HEAT;
    let outside = cowl.stream.total_k;
    let mut mass = 0.0;
    let mut mass_scale = 1e-12;
    let mut heat = 0.0;
    let mut heat_scale = 1e-6;
    let mut stream = |inward: f64, deck_k: f64| {
        let carried_k = if inward >= 0.0 { outside } else { deck_k };
        mass += inward;
        mass_scale += inward.abs();
        heat += inward * cp * (carried_k - outside);
        heat_scale += (inward * cp * (carried_k - outside)).abs();
    };
    for flow in state.inlets {
        stream(flow, state.upper_k);
    }
    for exit in state.exits {
        stream(-exit.flow_kg_s, state.lower_k);
    }
    stream(-state.overboard_kg_s, state.upper_k);
    stream(-state.cabin_kg_s, state.upper_k);
    stream(-cowl.induction_kg_s, state.upper_k);
    stream(-cowl.lower_induction_kg_s, state.lower_k);
    stream(state.inflow_kg_s, state.lower_k);
    use coolpath_core::path::network::{Discharge, Supply};
    let cooler = state.cooler;
    if cowl.cooler.supply != Supply::UpperDeck {
        let leaves_k = if cooler.flow_kg_s < 0.0 {
            cooler.out_k
        } else {
            outside
        };
        stream(cooler.flow_kg_s, leaves_k);
    }
    if cowl.cooler.discharge != Discharge::LowerDeck {
        let leaves_k = if cooler.flow_kg_s >= 0.0 {
            cooler.out_k
        } else {
            outside
        };
        stream(-cooler.flow_kg_s, leaves_k);
    }
    let given = state.fins.heat_w + state.cooler.heat_w + state.sump_heat_w + cowl.exhaust_heat_w
        - state.skin_heat_w;
    heat += given;
    heat_scale += state.fins.heat_w.abs() + cowl.exhaust_heat_w.abs() + state.skin_heat_w.abs();
    (mass.abs() / mass_scale, heat.abs() / heat_scale)
}
