//! A propeller behind the exit, warm induction air, and the airs that are owed to others.

use coolpath_core::air::propeller::slipstream;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::answer::warning::Warning;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::EngineKind;
use coolpath_core::units::quantity::{kelvin_apart, kg_per_s};
use coolpath_tests::designs::unregulated;

const GROUND: usize = 0;
const CLIMB: usize = 1;
const CRUISE: usize = 3;

fn pusher(share: f64) -> Design {
    let mut design = unregulated();
    design.installation.engine.kind = EngineKind::Pusher;
    design.installation.engine.pusher_suction = share;
    design
}

fn answer(design: &Design, place: usize) -> Answer {
    evaluate(design, place).expect("an answer")
}

fn names(answer: &Answer) -> Vec<&'static str> {
    answer.warnings.iter().map(Warning::name).collect()
}

#[test]
fn at_rest_a_quarter_of_the_propellers_rise_is_suction_before_it_and_half_at_speed() {
    // T/A = 2 ρ v (V + v) and ½ ρ v (2 V + v): their ratio by hand at both ends.
    let rest = slipstream(80e3, 0.85, 1.8, 0.0, 1.1);
    assert!((rest.suction_pa / rest.pressure_rise_pa - 0.25).abs() < 1e-12);
    let fast = slipstream(80e3, 0.85, 1.8, 1000.0, 1.1);
    assert!((fast.suction_pa / fast.pressure_rise_pa - 0.5).abs() < 1e-3);
}

#[test]
fn a_pusher_without_suction_is_a_tractor_whose_propeller_gives_the_inlets_nothing() {
    let mut tractor = unregulated();
    tractor.installation.airframe.propeller_share = 0.0;
    assert_eq!(answer(&pusher(0.0), CRUISE), answer(&tractor, CRUISE));
}

#[test]
fn suction_behind_cools_a_pusher_and_at_rest_it_is_all_that_moves_the_air() {
    let heads: Vec<f64> = [0.0, 0.3, 0.7]
        .iter()
        .map(|&share| answer(&pusher(share), CLIMB).head_mean.value)
        .collect();
    assert!(
        heads[1] < heads[0] - 1.0 && heads[2] < heads[1] - 1.0,
        "{heads:?}"
    );
    let mut still = pusher(0.0);
    still.conditions[GROUND].airspeed.value = 0.0;
    still.conditions[GROUND].wind.value = 0.0;
    assert!(evaluate(&still, GROUND).is_err());
    still.installation.engine.pusher_suction = 0.5;
    let moved = answer(&still, GROUND);
    assert!(moved.fin_flow.value > 0.0);
    let prepared = prepare(&still.installation, &still.conditions[GROUND]).expect("prepared");
    let exit_pa = prepared.cowl.exits.as_slice()[0].outside_pa;
    // Half of a quarter of T/A.
    let area_m2 =
        std::f64::consts::FRAC_PI_4 * still.installation.airframe.propeller_diameter.value.powi(2);
    assert!((exit_pa + 0.125 * prepared.thrust_n / area_m2).abs() < 1e-9 * exit_pa.abs());
}

#[test]
fn an_updraft_engine_is_refused_with_what_is_missing() {
    let mut design = unregulated();
    design.installation.engine.kind = EngineKind::Updraft;
    let said = evaluate(&design, CRUISE)
        .expect_err("a refusal")
        .to_string();
    assert!(said.contains("no source is known"), "{said}");
}

#[test]
fn warm_induction_heats_the_charge_by_what_is_typed_and_the_heads_with_it() {
    let mut warm = unregulated();
    warm.conditions[CRUISE].warm_induction = true;
    warm.conditions[CRUISE].induction_warming = kelvin_apart(40.0);
    let at = |design: &Design| {
        prepare(&design.installation, &design.conditions[CRUISE]).expect("prepared")
    };
    let (cold, hot) = (at(&unregulated()), at(&warm));
    assert!((hot.charge_k - cold.charge_k - 40.0).abs() < 1e-9);
    assert!(
        answer(&warm, CRUISE).head_mean.value
            > answer(&unregulated(), CRUISE).head_mean.value + 2.0
    );
    // Typed, but off: nothing changes.
    warm.conditions[CRUISE].warm_induction = false;
    assert_eq!(answer(&warm, CRUISE), answer(&unregulated(), CRUISE));
}

#[test]
fn warm_induction_air_is_not_taken_from_the_upper_deck() {
    let mut design = unregulated();
    design.installation.decks.induction_from_upper_deck = true;
    let at = |design: &Design| {
        let prepared = prepare(&design.installation, &design.conditions[CRUISE]);
        prepared.expect("prepared").cowl.induction_kg_s
    };
    assert!(at(&design) > 0.0);
    design.conditions[CRUISE].warm_induction = true;
    assert!(at(&design) == 0.0);
}

#[test]
fn a_blast_tube_that_brings_too_little_is_named_in_flight() {
    let mut design = unregulated();
    design.installation.decks.blast_tubes = 2;
    assert!(!names(&answer(&design, CLIMB)).contains(&"blast_short"));
    design.installation.decks.blast_least = kg_per_s(0.05);
    assert!(names(&answer(&design, CLIMB)).contains(&"blast_short"));
    assert!(!names(&answer(&design, GROUND)).contains(&"blast_short"));
    design.installation.decks.blast_tubes = 0;
    assert!(!names(&answer(&design, CLIMB)).contains(&"blast_short"));
}

#[test]
fn hot_air_at_the_fuel_lines_calls_for_a_caution() {
    let mut design = unregulated();
    let kelvin = answer(&design, CRUISE).lower_deck_air.value;
    assert!(kelvin < 377.0 && !names(&answer(&design, CRUISE)).contains(&"fuel_vapour"));
    design.installation.engine.exhaust_heat_share = 0.4;
    let hot = answer(&design, CRUISE);
    // 220 °F
    let expected = hot.lower_deck_air.value > 377.594;
    assert!(expected && names(&hot).contains(&"fuel_vapour"));
}
