//! A propeller behind the exit, warm induction air, and the airs that are owed to others.

use coolpath_core::air::propeller::slipstream;
use coolpath_core::answer::cabin::cabin_air;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::warning::{Warning, full_throttle_share};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{Breathes, EngineKind};
use coolpath_core::units::quantity::{kelvin_apart, kg_per_s};
use coolpath_core::units::typed::UnitSystem;
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

/// The example breathing from the lower deck.
fn below() -> Design {
    let mut design = unregulated();
    design.installation.decks.breathes = Breathes::LowerDeck;
    design
}

#[test]
fn a_charge_from_the_lower_deck_is_as_warm_as_the_deck_and_leaves_it_with_its_air() {
    let design = below();
    for place in 0..design.conditions.len() {
        let condition = &design.conditions[place];
        let solved = solve_condition(&design.installation, condition, None).expect("solved");
        let state = &solved.solution.state;
        let off = solved.prepared.charge_k / state.lower_k - 1.0;
        assert!(off.abs() < 1e-9, "{place}: {off:e}");
        // Mass: what comes into the cowl leaves it by the exits, the leaks and the engine.
        let inlets: f64 = state.inlets.iter().sum();
        let exits: f64 = state.exits.iter().map(|exit| exit.flow_kg_s).sum();
        let drawn = solved.prepared.charge_kg_s;
        let left = inlets + state.inflow_kg_s - exits - state.overboard_kg_s - drawn;
        assert!(
            drawn > 0.0 && left.abs() < 1e-8 * inlets,
            "{place}: {left:e}"
        );
        // Heat: the exits, the leak and the engine's own air carry away what was given.
        let cowl = &solved.prepared.cowl;
        let warmed = |flow: f64, kelvin: f64| {
            flow * coolpath_core::air::atmosphere::SPECIFIC_HEAT * (kelvin - cowl.stream.total_k)
        };
        let given =
            state.fins.heat_w + state.cooler.heat_w + state.sump_heat_w + cowl.exhaust_heat_w;
        let carried = warmed(exits + drawn, state.lower_k)
            + warmed(state.overboard_kg_s, state.upper_k)
            - warmed(state.inflow_kg_s.min(0.0), state.lower_k);
        let balance = given - state.skin_heat_w - carried;
        assert!(balance.abs() < 1e-6 * given, "{place}: {balance} W");
    }
}

#[test]
fn the_same_charge_typed_gives_the_same_heads_but_for_the_air_that_is_drawn() {
    // Typed to the computed warming, from an intake outside: what is left is what the draw does.
    let design = below();
    let solved = solve_condition(&design.installation, &design.conditions[CRUISE], None);
    let solved = solved.expect("solved");
    let mut typed = unregulated();
    typed.conditions[CRUISE].warm_induction = true;
    let warming_k = solved.prepared.charge_k - solved.prepared.cowl.stream.total_k;
    typed.conditions[CRUISE].induction_warming = kelvin_apart(warming_k);
    let outside = answer(&typed, CRUISE);
    let inside = answer(&design, CRUISE);
    assert!((solved.prepared.charge_k - inside.state.lower_k).abs() < 1e-6);
    // Air drawn below the heads lowers the deck's pressure, so that more passes the fins.
    assert!(inside.fin_flow.value > outside.fin_flow.value);
    assert!(inside.head_mean.value < outside.head_mean.value);
    assert!(inside.lower_deck.value < outside.lower_deck.value);
    // The charge costs more than the draw gains.
    assert!(inside.head_mean.value > answer(&unregulated(), CRUISE).head_mean.value);
}

#[test]
fn alternate_air_comes_from_the_lower_deck_where_it_is_on_and_only_there() {
    let mut design = unregulated();
    design.installation.decks.alternate_from_lower_deck = true;
    assert_eq!(answer(&design, CRUISE), answer(&unregulated(), CRUISE));
    design.conditions[CRUISE].warm_induction = true;
    let alternate = answer(&design, CRUISE);
    assert_eq!(alternate, answer(&below(), CRUISE));
    // What is typed counts no more.
    design.conditions[CRUISE].induction_warming = kelvin_apart(5.0);
    let off_k = answer(&design, CRUISE).head_mean.value - alternate.head_mean.value;
    assert!(off_k.abs() < 1e-6, "{off_k:e}");
}

#[test]
fn an_engine_that_hardly_breathes_takes_nothing_from_the_lower_deck() {
    // Of a charge next to none, its draw is none; its temperature alone is left.
    let flow = |scale: f64| {
        let mut design = below();
        design.installation.engine.air_consumption *= scale;
        let prepared = prepare(&design.installation, &design.conditions[CRUISE]);
        prepared.expect("prepared").cowl.lower_induction_kg_s
    };
    assert!((flow(0.5) / flow(1.0) - 0.5).abs() < 1e-12);
    assert_eq!(unregulated().installation.decks.breathes, Breathes::Outside);
    let plain = prepare(
        &unregulated().installation,
        &unregulated().conditions[CRUISE],
    );
    assert_eq!(plain.expect("prepared").cowl.lower_induction_kg_s, 0.0);
}

#[test]
fn a_draw_that_the_exits_must_feed_turns_them_round_and_still_balances() {
    let mut design = below();
    // Next to nothing comes down past the fins: the exit feeds the engine.
    for inlet in &mut design.installation.inlets {
        inlet.width.value = 0.0127;
        inlet.height.value = 0.0127;
    }
    design.installation.decks.inflow_leak.value = 0.0;
    let turned = answer(&design, CLIMB);
    assert!(
        names(&turned).contains(&"reversed_exit"),
        "{:?}",
        names(&turned)
    );
    assert!(turned.state.exits[0].flow_kg_s < 0.0);
}

#[test]
fn a_filter_takes_from_full_throttle_and_a_scoops_ram_gives_to_it_and_nothing_else_moves() {
    let with = |recovery: f64, drop_pa: f64| {
        let mut design = unregulated();
        let decks = &mut design.installation.decks;
        decks.breathes = Breathes::Scoop;
        decks.scoop_recovery = recovery;
        decks.filter_drop.value = drop_pa;
        answer(&design, CRUISE)
    };
    let plain = answer(&unregulated(), CRUISE);
    assert_eq!(plain.full_throttle, None);
    let (clean, dirty) = (with(0.7, 250.0), with(0.7, 1500.0));
    assert!(dirty.full_throttle < clean.full_throttle);
    assert_eq!(clean.head_mean, plain.head_mean);
    assert_eq!(clean.oil, plain.oil);
    assert_eq!(clean.drag, plain.drag);
    // No ram: p_m = p₀ − σ Δp_r by hand.
    let stream = &plain.cowl.stream;
    let sigma = stream.density / coolpath_core::air::atmosphere::DENSITY_SL;
    let by_hand = full_throttle_share(sigma * (1.0 - sigma * 1500.0 / stream.pressure_pa));
    let found = with(0.0, 1500.0).full_throttle.expect("told");
    assert!((found - by_hand).abs() < 1e-12);
    // Neither ram nor filter: nothing is told that is not told of any intake.
    assert_eq!(with(0.0, 0.0).full_throttle, None);
}

#[test]
fn warm_thin_air_from_the_lower_deck_leaves_less_at_full_throttle() {
    let sigma =
        |answer: &Answer| answer.cowl.stream.density / coolpath_core::air::atmosphere::DENSITY_SL;
    let answer = answer(&below(), CRUISE);
    let share = answer.full_throttle.expect("told");
    assert!(
        share < full_throttle_share(sigma(&answer)) - 0.05,
        "{share}"
    );
}

#[test]
fn a_muff_warms_the_cabins_air_by_its_share_and_calls_for_a_detector() {
    let at = |effectiveness: f64, diameter_m: f64| {
        let mut design = unregulated();
        let decks = &mut design.installation.decks;
        decks.cabin_air = true;
        decks.cabin_muff = true;
        decks.muff_effectiveness = effectiveness;
        decks.cabin_diameter.value = diameter_m;
        answer(&design, CRUISE)
    };
    let warm = at(0.12, 0.04);
    let cabin = warm.cabin.expect("cabin air");
    assert_eq!(cabin.flow_kg_s, warm.state.cabin_kg_s);
    let balance_w = cabin.flow_kg_s
        * coolpath_core::air::atmosphere::SPECIFIC_HEAT
        * (cabin.air_k - warm.state.upper_k);
    assert!((balance_w - cabin.heat_w).abs() < 1e-9 * cabin.heat_w);
    // Exhaust of 1,300 to 1,500 °F: 110 to 190 °F above the outside's 50 °F.
    let degf = 1.8 * cabin.air_k - 459.67;
    assert!((150.0..280.0).contains(&degf), "{degf}");
    assert!(names(&warm).contains(&"cabin_heat"));
    let said = warm
        .warnings
        .iter()
        .find(|it| it.name() == "cabin_heat")
        .expect("said");
    for word in ["carbon monoxide", "detector", "maintenance manual"] {
        assert!(said.sentence(UnitSystem::Metric).contains(word), "{word}");
    }
    // A muff that warms nothing, a hose without one, a hose of no width.
    let cold = at(0.0, 0.04);
    assert_eq!(cold.cabin.map(|it| it.air_k), Some(cold.state.upper_k));
    assert!(!names(&cold).contains(&"cabin_heat"));
    assert_eq!(at(0.12, 0.0).cabin, None);
    assert_eq!(answer(&unregulated(), CRUISE).cabin, None);
    // The more muff, the warmer, nothing else moved.
    let warmer = at(0.25, 0.04);
    assert!(warmer.cabin.expect("cabin air").air_k > cabin.air_k + 20.0);
    assert_eq!(warmer.head_mean, warm.head_mean);
}

#[test]
fn cabin_air_that_runs_into_the_cowl_is_none() {
    let mut design = unregulated();
    design.installation.decks.cabin_air = true;
    design.installation.decks.cabin_muff = true;
    let condition = &design.conditions[CRUISE];
    let solved = solve_condition(&design.installation, condition, None).expect("solved");
    let mut state = solved.solution.state;
    state.cabin_kg_s = -0.01;
    assert_eq!(
        cabin_air(&design.installation, &solved.prepared, &state),
        None
    );
}
