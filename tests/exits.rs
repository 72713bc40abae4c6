//! Exits as they are built: the edge that the air leaves over, a flap by its angle, the pressure
//! outside by attitude, an augmentor.

use coolpath_core::air::atmosphere;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::answer::warning::Warning;
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{
    CoolerDischarge, Exit, ExitEdge, ExitPlace, ExitShape, FlapGiven,
};
use coolpath_core::path::element;
use coolpath_core::units::quantity::{metre, square_metre};
use coolpath_tests::designs::{augmentor, flapped, unregulated};

const GROUND: usize = 0;
const CLIMB: usize = 1;
const CRUISE: usize = 3;

fn answer(design: &Design, place: usize) -> Answer {
    evaluate(design, place).expect("an answer")
}

#[test]
fn an_edge_stands_for_its_own_coefficient_and_nothing_else() {
    let mut design = flapped(25.0);
    type Coefficient = fn(&Exit) -> f64;
    let edges: [(ExitEdge, Coefficient); 4] = [
        (ExitEdge::Sharp, |exit| exit.sharp_discharge),
        (ExitEdge::Ramp, |exit| exit.ramp_discharge),
        (ExitEdge::Rounded, |exit| exit.rounded_discharge),
        (ExitEdge::Louver, |exit| exit.louver_discharge),
    ];
    let mut heads = Vec::new();
    for (edge, coefficient) in edges {
        design.installation.exits[0].edge = edge;
        let by_edge = answer(&design, CLIMB);
        let mut typed = design.clone();
        typed.installation.exits[0].edge = ExitEdge::Typed;
        typed.installation.exits[0].discharge = coefficient(&design.installation.exits[0]);
        assert_eq!(by_edge, answer(&typed, CLIMB), "{edge:?}");
        heads.push((
            coefficient(&design.installation.exits[0]),
            by_edge.head_mean.value,
        ));
    }
    // The more an edge lets through, the cooler the heads.
    heads.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert!(
        heads.windows(2).all(|pair| pair[1].1 < pair[0].1),
        "{heads:?}"
    );
}

#[test]
fn louvers_are_slots_unless_their_coefficient_was_typed() {
    let mut design = flapped(25.0);
    let exit = &mut design.installation.exits[0];
    exit.shape = ExitShape::Louvers;
    exit.edge = ExitEdge::Typed;
    assert_eq!(exit.discharge_coefficient(), exit.louver_discharge);
    let used = |design: &Design, id: &str| {
        coolpath_core::document::table::by_id(id).is_some_and(|input| input.used(design, 0))
    };
    assert!(used(&design, "exit.louver_discharge") && !used(&design, "exit.discharge"));
    design.installation.exits[0].discharge = 0.7;
    assert_eq!(design.installation.exits[0].discharge_coefficient(), 0.7);
    assert!(!used(&design, "exit.louver_discharge") && used(&design, "exit.discharge"));
}

#[test]
fn a_square_edge_passes_no_more_than_a_plane_jet_from_a_narrow_deck() {
    // π/(π+2) from a wide space (textbook) is the least that its range may hold.
    let (low, high) = coolpath_core::document::table::by_id("exit.sharp_discharge")
        .and_then(|input| input.likely)
        .expect("a range");
    let wide = std::f64::consts::PI / (std::f64::consts::PI + 2.0);
    assert!((low - wide).abs() < 0.005 && high < 0.85);
}

#[test]
fn a_flap_opens_by_its_length_and_the_sine_of_its_angle() {
    let exit = &flapped(25.0).installation.exits[0];
    let shut = 0.35 * 0.09 - exit.pipes_area.value;
    assert!((exit.area_m2(0.0) - shut).abs() < 1e-15);
    for (opening, degrees) in [(0.4, 10.0_f64), (1.0, 25.0)] {
        let added = 0.35 * 0.2 * degrees.to_radians().sin();
        assert!((exit.area_m2(opening) - shut - added).abs() < 1e-12);
        assert!(
            (exit.flap_drag_m2(opening)
                - exit.flap_drag * added * degrees.to_radians().sin() / 0.5)
                .abs()
                < 1e-12
        );
    }
}

#[test]
fn a_net_area_with_the_flap_open_is_taken_by_angle_and_by_area() {
    let mut exit = flapped(25.0).installation.exits[0].clone();
    for given in [FlapGiven::Angle, FlapGiven::Area] {
        exit.flap_given = given;
        let wanted = exit.closed_area_m2() + 0.02;
        exit.set_open_area(wanted);
        assert!((exit.area_m2(1.0) - wanted).abs() < 1e-12, "{given:?}");
    }
    // sin θ = 0.02 / (0.35 · 0.2)
    assert!((exit.flap_angle.to_radians().sin() - 0.02 / 0.07).abs() < 1e-12);
}

#[test]
fn a_shut_flap_by_angle_answers_as_one_by_area() {
    let mut design = flapped(25.0);
    design.conditions[CRUISE].flap = 0.0;
    let by_angle = answer(&design, CRUISE);
    design.installation.exits[0].flap_given = FlapGiven::Area;
    assert_eq!(by_angle, answer(&design, CRUISE));
}

#[test]
fn without_the_width_of_a_lip_an_angle_says_nothing() {
    let mut exit = flapped(25.0).installation.exits[0].clone();
    exit.shape = ExitShape::Traced;
    exit.flap_area = square_metre(0.06);
    assert!((exit.area_m2(1.0) - (0.06 - exit.pipes_area.value)).abs() < 1e-15);
}

#[test]
fn a_climbs_own_pressure_moves_the_climb_alone_and_the_grounds_own_the_ground() {
    let plain = flapped(25.0);
    let mut apart = plain.clone();
    let exit = &mut apart.installation.exits[0];
    exit.by_attitude = true;
    exit.climb_pressure = exit.pressure_coefficient;
    exit.ground_pressure = 0.0;
    for place in [GROUND, CLIMB, CRUISE] {
        assert_eq!(answer(&plain, place), answer(&apart, place), "{place}");
    }
    apart.installation.exits[0].climb_pressure = 0.15;
    apart.installation.exits[0].ground_pressure = -0.1;
    assert_eq!(plain.conditions[GROUND].phase, Phase::Ground);
    assert_eq!(answer(&plain, CRUISE), answer(&apart, CRUISE));
    let head = |design: &Design, place| answer(design, place).head_mean.value;
    assert!(head(&apart, CLIMB) > head(&plain, CLIMB) + 0.5);
    assert!(head(&apart, GROUND) < head(&plain, GROUND));
}

#[test]
fn what_a_flap_adds_is_the_same_in_every_attitude() {
    let mut exit = flapped(25.0).installation.exits[0].clone();
    exit.by_attitude = true;
    exit.climb_pressure = 0.1;
    let added =
        |phase| exit.outside_pa(1.0, phase, 900.0, 0.0) - exit.outside_pa(0.0, phase, 900.0, 0.0);
    assert!((added(Phase::Climb) - added(Phase::Cruise)).abs() < 1e-9);
    assert!(added(Phase::Cruise) < 0.0);
}

/// The example whose exit is one augmentor tube round all of the exhaust.
fn augmented(tube_m: f64) -> Design {
    let mut design = flapped(25.0);
    let exit = &mut design.installation.exits[0];
    exit.shape = ExitShape::Augmentor;
    exit.flap = false;
    exit.pipes_area = square_metre(0.0);
    exit.tube_diameter = metre(tube_m);
    exit.stack_count = 2;
    exit.stack_diameter = metre(0.045);
    design
}

#[test]
fn an_augmentor_draws_more_than_a_plain_hole_of_its_annulus() {
    let with = augmented(0.2);
    let mut hole = with.clone();
    let exit = &mut hole.installation.exits[0];
    let annulus = exit.closed_area_m2();
    exit.shape = ExitShape::Traced;
    exit.traced_area = square_metre(annulus);
    let (drawn, plain) = (answer(&with, CLIMB), answer(&hole, CLIMB));
    assert!(drawn.fin_flow.value > plain.fin_flow.value);
    assert!(drawn.head_mean.value < plain.head_mean.value - 1.0);
}

#[test]
fn next_to_no_exhaust_leaves_a_mouth_and_a_tube() {
    // Cold gas of the least permitted pulses from wide stacks pushes next to nothing: what is left of
    // the augmentor's gain falls with the square of the gas's volume flow.
    let suction = |kelvin: f64, stack_m: f64| {
        let mut design = augmented(0.25);
        let exit = &mut design.installation.exits[0];
        exit.gas_temperature.value = kelvin;
        exit.pulses = 1.0;
        exit.stack_diameter = metre(stack_m);
        let prepared = prepare(&design.installation, &design.conditions[CRUISE]).expect("prepared");
        let exit = prepared.cowl.exits.as_slice()[0];
        exit.outside_pa - exit.rest_pa()
    };
    // Momentum goes with the volume: hotter gas from narrower stacks draws more.
    assert!((suction(900.0, 0.04) / suction(600.0, 0.04) - 1.5).abs() < 1e-9);
    assert!(suction(600.0, 0.08) < 0.3 * suction(600.0, 0.04));
}

#[test]
fn a_wider_tube_is_found_for_a_net_area() {
    let mut exit = augmented(0.2).installation.exits[0].clone();
    exit.set_closed_area(0.03);
    assert!((exit.closed_area_m2() - 0.03).abs() < 1e-12);
    // A = π/4 D² − 2 · π/4 · 0.045²
    let by_hand = ((0.03 + 2.0 * std::f64::consts::FRAC_PI_4 * 0.045 * 0.045)
        / std::f64::consts::FRAC_PI_4)
        .sqrt();
    assert!((exit.tube_diameter.value - by_hand).abs() < 1e-12);
}

#[test]
fn what_leaves_an_augmentor_is_named_hot() {
    let told = answer(&augmented(0.2), CLIMB);
    let kelvin = told.warnings.iter().find_map(|warning| match warning {
        Warning::AugmentorHot { mixed_k } => Some(*mixed_k),
        _ => None,
    });
    let kelvin = kelvin.expect("a caution");
    assert!(
        kelvin > told.lower_deck_air.value && kelvin < 950.0,
        "{kelvin}"
    );
}

#[test]
fn an_augmentor_passes_what_the_momentum_of_its_tube_lets_through() {
    let exit = augmentor();
    // The gas brings 12 N to 0.01 m² and keeps 1.1 · 0.1 kg/s · 25 m/s of them.
    let rest_pa = -100.0 - (12.0 - 2.75) / 0.01;
    assert!((exit.rest_pa() - rest_pa).abs() < 1e-9);
    // For 0.3 kg/s of 0.9 m³/kg, at 36 m/s in the mouth:
    // ½ ρ V²/C_d² = 1125 Pa, less W V/A = 1080 Pa, and 1.1 (0.4 · 52 − 0.1 · 25) N/A = 2013 Pa
    let inside_pa = rest_pa + 1125.0 - 1080.0 + 2013.0;
    let inside_k = 0.9 * 1e5 / atmosphere::GAS_CONSTANT;
    let flow = exit.flow(inside_pa, inside_k, 1e5 - inside_pa, 280.0);
    assert!((flow.flow_kg_s - 0.3).abs() < 1e-12, "{flow:?}");
    // 0.4 kg/s at 52 m/s less the gas's 12 N, per 0.3 kg/s
    assert!((flow.speed_m_s - 8.8 / 0.3).abs() < 1e-9, "{flow:?}");
    // Gas and air fill the tube.
    assert!((exit.jet_area_m2() - 0.01).abs() < 1e-15);
}

#[test]
fn an_augmentors_flow_turns_without_a_jump() {
    let exit = augmentor();
    let flow = |above_pa: f64| exit.flow(exit.rest_pa() + above_pa, 350.0, 95_000.0, 280.0);
    assert!(flow(1e-6).flow_kg_s > 0.0 && flow(-1e-6).flow_kg_s < 0.0);
    assert!((flow(1e-9).flow_kg_s - flow(-1e-9).flow_kg_s).abs() < 1e-6);
    assert_eq!(flow(0.0), element::ExitFlow::default());
}

/// The example without a shutter's regulation, its leak into the lower deck wide enough to count and its
/// cooler with an exit of its own.
fn leaky() -> Design {
    let mut design = unregulated();
    design.installation.decks.inflow_leak = square_metre(0.002);
    design.installation.cooler.discharge = CoolerDischarge::OwnExit;
    design
}

#[test]
fn equal_values_by_attitude_are_one_value_to_the_bit_below_the_lower_deck_and_at_the_coolers_exit()
{
    let plain = leaky();
    let mut apart = plain.clone();
    let decks = &mut apart.installation.decks;
    decks.outside_by_attitude = true;
    decks.inflow_climb = decks.inflow_pressure;
    decks.inflow_ground = 0.0;
    let cooler = &mut apart.installation.cooler;
    cooler.own_exit_by_attitude = true;
    cooler.own_exit_climb = cooler.own_exit_pressure;
    cooler.own_exit_ground = 0.0;
    for place in [GROUND, CLIMB, CRUISE] {
        assert_eq!(answer(&plain, place), answer(&apart, place), "{place}");
    }
}

#[test]
fn more_pressure_outside_the_lower_deck_heats_the_heads_in_its_own_attitude_alone() {
    let head = |design: &Design, place| answer(design, place).head_mean.value;
    let with = |climb: f64, ground: f64| {
        let mut design = leaky();
        let decks = &mut design.installation.decks;
        decks.outside_by_attitude = true;
        decks.inflow_climb = climb;
        decks.inflow_ground = ground;
        design
    };
    let heads = |place, of: [Design; 3]| of.map(|design| head(&design, place));
    let climb = heads(CLIMB, [with(-0.3, 0.0), with(0.3, 0.0), with(0.9, 0.0)]);
    assert!(
        climb[0] + 0.1 < climb[1] && climb[1] + 0.1 < climb[2],
        "{climb:?}"
    );
    let ground = heads(GROUND, [with(0.3, -0.3), with(0.3, 0.0), with(0.3, 0.6)]);
    assert!(ground[0] < ground[1] && ground[1] < ground[2], "{ground:?}");
    assert_eq!(answer(&with(0.9, 0.6), CRUISE), answer(&leaky(), CRUISE));
}

#[test]
fn suction_at_the_coolers_own_exit_in_a_climb_cools_the_oil_there_alone() {
    let with = |climb: f64| {
        let mut design = leaky();
        design.installation.cooler.own_exit_by_attitude = true;
        design.installation.cooler.own_exit_climb = climb;
        design
    };
    let oil = |climb: f64| answer(&with(climb), CLIMB).oil.value;
    assert!(oil(-0.3) + 0.3 < oil(0.0) && oil(0.0) + 0.3 < oil(0.3));
    assert_eq!(answer(&with(0.3), CRUISE), answer(&leaky(), CRUISE));
}

#[test]
fn a_place_beside_the_wing_stands_for_its_own_coefficients() {
    type Level = fn(&Exit) -> f64;
    let places: [(ExitPlace, Level); 4] = [
        (ExitPlace::Belly, |it| it.belly_pressure),
        (ExitPlace::UnderWing, |it| it.under_wing_pressure),
        (ExitPlace::Firewall, |it| it.firewall_pressure),
        (ExitPlace::WingRoot, |it| it.wing_root_pressure),
    ];
    for (place, level) in places {
        for by_attitude in [false, true] {
            let mut placed = flapped(25.0);
            let exit = &mut placed.installation.exits[0];
            (exit.place, exit.by_attitude) = (place, by_attitude);
            let mut typed = placed.clone();
            let exit = &mut typed.installation.exits[0];
            exit.place = ExitPlace::Typed;
            exit.pressure_coefficient = level(exit);
            exit.climb_pressure = level(exit) + exit.climb_rise;
            for at in [GROUND, CLIMB, CRUISE] {
                assert_eq!(answer(&placed, at), answer(&typed, at), "{place:?} {at}");
            }
        }
    }
}
