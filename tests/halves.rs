//! An upper deck in two halves: limits, balances, and what a builder expects of it.

use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::answer::why::derivations;
use coolpath_core::decide::compare::Preset;
use coolpath_core::document::condition::ShutterPolicy;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{
    Breathes, CoolerSupply, InletSide, TakeOff, UpperDeck,
};
use coolpath_core::path::report::SolveError;
use coolpath_core::path::solve::solve;
use coolpath_core::path::state::Sides;
use coolpath_tests::random_design::random_design;
use fastrand::Rng;

/// The example with its inlets on their sides and an opening across, m².
fn split(across_m2: f64) -> Design {
    let mut design = example::design();
    let installation = &mut design.installation;
    installation.decks.upper = UpperDeck::Halves;
    installation.decks.across.value = across_m2;
    installation.decks.right_rise = 1.0;
    installation.inlets[0].side = InletSide::Left;
    installation.inlets[1].side = InletSide::Right;
    design
}

fn sides(answer: &Answer) -> Sides {
    answer.state.sides.expect("two halves")
}

fn close(found: f64, expected: f64) -> bool {
    (found - expected).abs() <= 1e-9 * expected.abs().max(1e-3)
}

#[test]
fn a_split_deck_and_one_deck_are_one_change_apart_and_the_bank_before_the_hose_is_hotter() {
    let one = example::design().installation;
    let two = Preset::SplitDeck.applied(&one);
    assert_eq!(two.decks.upper, UpperDeck::Halves);
    assert_eq!(Preset::OneDeck.applied(&one), one);
    let again = Preset::OneDeck.applied(&two);
    let mut design = example::design();
    let head = |design: &Design| evaluate(design, 1).expect("an answer").head_mean;
    let before = head(&design);
    design.installation = again;
    assert_eq!(head(&design), before);
    design.installation = two;
    // Each half has half of each inlet's air; the hose leaves from behind the left bank.
    let found = sides(&evaluate(&design, 1).expect("halves"));
    assert_eq!(found.across_kg_s, 0.0);
    assert!(found.left.head_k > found.right.head_k + 3.0, "{found:?}");
}

#[test]
fn air_drawn_from_the_lower_deck_is_the_same_under_one_deck_and_under_two_joined_widely() {
    let mut one = example::design();
    one.installation.decks.breathes = Breathes::LowerDeck;
    let mut two = split(0.6);
    two.installation.decks.breathes = Breathes::LowerDeck;
    for place in [1, 3] {
        let (one, two) = (evaluate(&one, place), evaluate(&two, place));
        let (one, two) = (one.expect("an answer"), two.expect("halves"));
        let off_k = one.lower_deck_air.value - two.lower_deck_air.value;
        assert!(off_k.abs() < 0.2, "{place}: {off_k}");
        let exits = |answer: &Answer| answer.state.exits[0].flow_kg_s;
        let taken = two.cowl.lower_induction_kg_s;
        let left = two.inlet_flow.value + two.state.inflow_kg_s
            - exits(&two)
            - two.state.overboard_kg_s
            - taken;
        assert!(taken > 0.0 && left.abs() < 1e-7, "{place}: {left:e}");
        assert!((exits(&one) / exits(&two) - 1.0).abs() < 5e-3);
    }
}

#[test]
fn a_large_opening_across_gives_the_answers_of_one_deck() {
    let design = split(0.6);
    for (place, condition) in design.conditions.iter().enumerate() {
        let mut cowl = prepare(&design.installation, condition)
            .expect("a cowl")
            .cowl;
        let halves = cowl.halves.as_mut().expect("two halves");
        halves.across_m2 = 1e5;
        let two = solve(&cowl, None).expect("a solution").state;
        cowl.halves = None;
        let one = solve(&cowl, None).expect("a solution").state;
        for (found, expected) in [
            (two.head_k, one.head_k),
            (two.trial.oil_k, one.trial.oil_k),
            (two.trial.upper_pa, one.trial.upper_pa),
            (two.trial.lower_pa, one.trial.lower_pa),
            (two.fins.flow_kg_s, one.fins.flow_kg_s),
            (two.cooler.flow_kg_s, one.cooler.flow_kg_s),
            (two.lower_k, one.lower_k),
        ] {
            assert!(close(found, expected), "{place}: {found} {expected}");
        }
        let sides = two.sides.expect("two halves");
        assert!(close(sides.left.head_k, sides.right.head_k), "{sides:?}");
    }
    // An opening as large as the bay: the hottest head too, by quadrature instead of four digits.
    let one = evaluate(&example::design(), 1).expect("an answer");
    let two = evaluate(&design, 1).expect("an answer");
    let apart = two.head_hottest.value - one.head_hottest.value;
    assert!(apart.abs() < 0.03, "{apart}");
}

#[test]
fn halves_that_are_alike_need_no_opening() {
    let mut whole = example::design();
    whole.installation.cooler.supply = CoolerSupply::OwnInlet;
    let mut shut = whole.clone();
    shut.installation.decks.upper = UpperDeck::Halves;
    shut.installation.decks.across.value = 0.0;
    for place in 1..whole.conditions.len() {
        let one = evaluate(&whole, place).expect("an answer");
        let two = evaluate(&shut, place).expect("an answer");
        assert!(close(two.head_mean.value, one.head_mean.value), "{place}");
        assert!(close(two.oil.value, one.oil.value), "{place}");
        assert!(close(two.fin_flow.value, one.fin_flow.value), "{place}");
        let sides = sides(&two);
        assert!(sides.across_kg_s.abs() < 1e-9, "{place}");
        assert!(
            close(sides.left.fin_kg_s, 0.5 * one.fin_flow.value),
            "{place}"
        );
    }
}

#[test]
fn the_bank_before_the_coolers_hose_runs_hotter_and_an_opening_evens_it_out() {
    let mut last = f64::INFINITY;
    for across_m2 in [0.0, 0.002, 0.005, 0.01, 0.03] {
        let design = split(across_m2);
        let answer = evaluate(&design, 1).expect("an answer");
        let sides = sides(&answer);
        let apart = sides.left.head_k - sides.right.head_k;
        assert!(
            apart > 0.0,
            "{across_m2}: the left feeds the cooler: {sides:?}"
        );
        assert!(
            sides.across_kg_s <= 1e-12,
            "air comes from the right: {sides:?}"
        );
        assert!(apart < last, "{across_m2}: {apart} {last}");
        last = apart;
        let mut right = design.clone();
        right.installation.cooler.take_off = TakeOff::Right;
        let mirrored = evaluate(&right, 1).expect("an answer");
        let other = mirrored.state.sides.expect("two halves");
        assert!(
            close(other.right.head_k, sides.left.head_k),
            "{other:?} {sides:?}"
        );
        assert!(close(
            mirrored.head_hottest.value,
            answer.head_hottest.value
        ));
    }
}

/// Air that comes in through the inlets, and all that leaves, kg/s.
fn in_and_out(answer: &Answer) -> (f64, f64) {
    let state = &answer.state;
    let exits: f64 = state.exits.iter().map(|exit| exit.flow_kg_s).sum();
    let out = exits - state.inflow_kg_s
        + state.overboard_kg_s
        + state.cabin_kg_s
        + answer.cowl.induction_kg_s;
    (state.inlets.iter().sum(), out)
}

#[test]
fn what_flows_across_is_what_the_orifice_passes_and_no_air_is_lost() {
    let mut design = split(0.004);
    design.installation.inlets[1].width.value *= 0.7;
    design.conditions[1].shutter = ShutterPolicy::Fixed;
    let answer = evaluate(&design, 1).expect("an answer");
    let sides = sides(&answer);
    let discharge = design.installation.decks.leak_discharge;
    let density = answer.cowl.stream.density;
    let drop = sides.left.upper_pa - sides.right.upper_pa;
    let by_hand = (2.0 * density * drop.abs()).sqrt() * discharge * 0.004 * drop.signum();
    assert!(
        (sides.across_kg_s - by_hand).abs() < 1e-9,
        "{sides:?} {by_hand}"
    );
    let state = &answer.state;
    let fins = sides.left.fin_kg_s + sides.right.fin_kg_s;
    assert!(close(fins, state.fins.flow_kg_s));
    let (inlets, out) = in_and_out(&answer);
    assert!((inlets - out).abs() < 1e-9, "{inlets} {out}");
    // Each bank by itself: what comes down its side leaves through it.
    for (place, side, across) in [
        (0, sides.left, -sides.across_kg_s),
        (1, sides.right, sides.across_kg_s),
    ] {
        let leaks = (2.0 * density * (side.upper_pa - state.trial.lower_pa)).sqrt();
        let leaks = leaks * 0.5 * (answer.cowl.seal_m2 + answer.cowl.blast_m2);
        let cooler = if place == 0 {
            state.cooler.flow_kg_s
        } else {
            0.0
        };
        let rest = state.inlets[place] + across - side.fin_kg_s - leaks - cooler;
        // What is left goes overboard; the density before the leaks is that of the deck, 1 % more.
        assert!(
            (0.0..0.03 * state.inlets[place]).contains(&rest),
            "{place}: {rest}"
        );
    }
}

#[test]
fn the_blade_that_goes_down_cools_its_own_side_in_a_climb_only() {
    let mut design = split(0.0);
    design.installation.cooler.supply = CoolerSupply::OwnInlet;
    design.installation.decks.right_rise = 1.3;
    let climb = evaluate(&design, 1).expect("an answer");
    let apart = |answer: &Answer| sides(answer).left.head_k - sides(answer).right.head_k;
    assert!(apart(&climb) > 0.1, "{}", apart(&climb));
    let cruise = evaluate(&design, 3).expect("an answer");
    assert!(apart(&cruise).abs() < 1e-6, "{}", apart(&cruise));
}

#[test]
fn why_shows_the_hotter_bank_and_what_crosses() {
    let mut design = drawing(0.004, InletSide::Left);
    design.installation.inlets[0].width.value *= 0.8;
    let solved =
        solve_condition(&design.installation, &design.conditions[1], None).expect("an answer");
    let shown = derivations(&design.installation, &solved);
    for derivation in &shown {
        let terms: Vec<f64> = derivation.terms.iter().map(|term| term.value).collect();
        let again = (derivation.recompute)(&terms);
        let apart = (again - derivation.value).abs();
        assert!(
            apart <= 1e-6 * derivation.value.abs(),
            "{}: {again}",
            derivation.answer
        );
    }
    let answers: Vec<&str> = shown.iter().map(|derivation| derivation.answer).collect();
    assert!(
        answers.contains(&"Mean head of the left bank, the hotter"),
        "{answers:?}"
    );
    assert!(
        answers.contains(&"Air from the left half to the right"),
        "{answers:?}"
    );
}

/// Blast tubes, cabin hose and induction from the upper deck, all from one side.
fn drawing(across_m2: f64, side: InletSide) -> Design {
    let mut design = split(across_m2);
    let decks = &mut design.installation.decks;
    decks.cabin_air = true;
    decks.induction_from_upper_deck = true;
    (decks.blast_side, decks.cabin_side, decks.induction_side) = (side, side, side);
    design
}

#[test]
fn draws_from_both_halves_are_left_out_of_files_and_taken_half_and_half() {
    let both = drawing(0.004, InletSide::Both);
    let text = serde_json::to_string(&both.installation.decks).expect("a text");
    assert!(!text.contains("_side"), "{text}");
    let left = drawing(0.004, InletSide::Left);
    let text = serde_json::to_string(&left.installation.decks).expect("a text");
    for name in ["blast_side", "cabin_side", "induction_side"] {
        assert!(text.contains(&format!("\"{name}\":\"left\"")), "{text}");
    }
    // A deck that is not split knows no sides.
    let (mut one, mut sided) = (both, left);
    for design in [&mut one, &mut sided] {
        design.installation.decks.upper = UpperDeck::One;
    }
    let bits = |design: &Design| {
        let answer = evaluate(design, 1).expect("an answer");
        let (flows, oil) = (&answer.state, answer.oil.value);
        [flows.blast_kg_s, flows.cabin_kg_s, flows.head_k, oil].map(f64::to_bits)
    };
    assert_eq!(bits(&one), bits(&sided));
}

#[test]
fn a_draw_on_the_left_lowers_its_pressure_and_warms_its_bank_and_no_air_is_lost() {
    type Taken = fn(&mut Design);
    let draws: [(&str, Taken); 4] = [
        ("tubes", |design| {
            design.installation.decks.blast_side = InletSide::Left;
        }),
        ("hose", |design| {
            design.installation.decks.cabin_side = InletSide::Left;
        }),
        ("induction", |design| {
            design.installation.decks.induction_side = InletSide::Left;
        }),
        ("all", |design| {
            *design = drawing(design.installation.decks.across.value, InletSide::Left);
        }),
    ];
    for (name, take) in draws {
        for across_m2 in [0.0, 0.0005] {
            let both = drawing(across_m2, InletSide::Both);
            let mut left = both.clone();
            take(&mut left);
            let before = sides(&evaluate(&both, 1).expect("an answer"));
            let answer = evaluate(&left, 1).expect("an answer");
            let after = sides(&answer);
            let told = format!("{name} {across_m2}: {before:?} {after:?}");
            assert!(after.left.upper_pa < before.left.upper_pa - 1.0, "{told}");
            assert!(after.right.upper_pa > before.right.upper_pa + 1.0, "{told}");
            assert!(after.left.head_k > before.left.head_k + 0.05, "{told}");
            assert!(after.right.head_k < before.right.head_k - 0.05, "{told}");
            let (inlets, out) = in_and_out(&answer);
            assert!((inlets - out).abs() < 1e-9, "{name}: {inlets} {out}");
        }
    }
    // What leaves through the tubes and the hose is driven by its own half's pressure.
    let answer = evaluate(&drawing(0.0005, InletSide::Left), 1).expect("an answer");
    let (cowl, state, left) = (&answer.cowl, &answer.state, sides(&answer).left);
    let density = coolpath_core::air::atmosphere::density(
        cowl.stream.pressure_pa + left.upper_pa,
        cowl.stream.total_k,
    );
    let through = |area_m2: f64, drop_pa: f64| area_m2 * (2.0 * density * drop_pa).sqrt();
    let tubes = through(cowl.blast_m2, left.upper_pa - state.trial.lower_pa);
    let hose = through(cowl.cabin.effective_area_m2, left.upper_pa);
    assert!(
        close(state.blast_kg_s, tubes),
        "{} {tubes}",
        state.blast_kg_s
    );
    assert!(close(state.cabin_kg_s, hose), "{} {hose}", state.cabin_kg_s);
}

#[test]
fn with_a_very_large_opening_the_side_of_a_draw_makes_no_difference() {
    let solved = |side: InletSide, opening_m2: f64| {
        let design = drawing(0.6, side);
        let mut cowl = prepare(&design.installation, &design.conditions[1])
            .expect("a cowl")
            .cowl;
        let discharge = design.installation.decks.leak_discharge;
        cowl.halves.as_mut().expect("two halves").across_m2 = discharge * opening_m2;
        solve(&cowl, None).expect("a solution").state
    };
    // Through 10 m² what crosses still needs some 1e-4 Pa, which changes the tubes' air by 9e-8; the mean head
    // does not feel it. That drop goes with the square of the area.
    for (opening_m2, all) in [(10.0, false), (1e3, true)] {
        let both = solved(InletSide::Both, opening_m2);
        for side in [InletSide::Left, InletSide::Right] {
            let one = solved(side, opening_m2);
            let told = |found: f64, expected: f64| {
                assert!(
                    close(found, expected),
                    "{opening_m2} {side:?}: {found} {expected}"
                );
            };
            told(one.head_k, both.head_k);
            if all {
                told(one.trial.oil_k, both.trial.oil_k);
                told(one.lower_k, both.lower_k);
                told(one.trial.upper_pa, both.trial.upper_pa);
                told(one.fins.flow_kg_s, both.fins.flow_kg_s);
                told(one.blast_kg_s, both.blast_kg_s);
                told(one.cabin_kg_s, both.cabin_kg_s);
                let [one, both] = [one, both].map(|state| state.sides.expect("two halves"));
                told(one.left.head_k, both.left.head_k);
                told(one.right.head_k, both.right.head_k);
            }
        }
    }
}

#[test]
fn a_mirrored_installation_gives_mirrored_answers() {
    let mut left = drawing(0.002, InletSide::Left);
    left.installation.decks.induction_side = InletSide::Right;
    left.installation.inlets[0].width.value *= 0.9;
    let mut right = left.clone();
    let decks = &mut right.installation.decks;
    (decks.blast_side, decks.cabin_side) = (InletSide::Right, InletSide::Right);
    decks.induction_side = InletSide::Left;
    right.installation.inlets.swap(0, 1);
    right.installation.inlets[0].side = InletSide::Left;
    right.installation.inlets[1].side = InletSide::Right;
    right.installation.cooler.take_off = TakeOff::Right;
    let (one, other) = (evaluate(&left, 1), evaluate(&right, 1));
    let (one, other) = (one.expect("an answer"), other.expect("an answer"));
    let (a, b) = (sides(&one), sides(&other));
    assert!((a.left.head_k - a.right.head_k).abs() > 1.0, "{a:?}");
    for (found, expected) in [
        (b.right.head_k, a.left.head_k),
        (b.left.head_k, a.right.head_k),
        (b.right.upper_pa, a.left.upper_pa),
        (b.left.upper_pa, a.right.upper_pa),
        (b.right.fin_kg_s, a.left.fin_kg_s),
        (-b.across_kg_s, a.across_kg_s),
        (other.state.blast_kg_s, one.state.blast_kg_s),
        (other.state.cabin_kg_s, one.state.cabin_kg_s),
        (other.oil.value, one.oil.value),
        (other.head_hottest.value, one.head_hottest.value),
    ] {
        assert!(close(found, expected), "{found} {expected}: {a:?} {b:?}");
    }
}

#[test]
fn random_designs_in_two_halves_are_solved_or_refused_by_name() {
    let mut rng = Rng::with_seed(18);
    let (mut solved, mut reversed, mut lost) = (0, 0, Vec::new());
    for at in 0..3000 {
        let design = random_design(at);
        let (mut installation, condition) = (design.installation, &design.conditions[0]);
        if solve_condition(&installation, condition, None).is_err() {
            continue;
        }
        installation.decks.upper = UpperDeck::Halves;
        installation.decks.across.value = 0.02 * rng.f64() * rng.f64();
        for inlet in &mut installation.inlets {
            inlet.side = [InletSide::Both, InletSide::Left, InletSide::Right][rng.usize(..3)];
        }
        let side = |by: u64| [InletSide::Both, InletSide::Left, InletSide::Right][by as usize % 3];
        let decks = &mut installation.decks;
        (decks.blast_side, decks.cabin_side) = (side(at), side(at / 3));
        decks.induction_side = side(at / 9);
        match solve_condition(&installation, condition, None) {
            Ok(halves) => {
                solved += 1;
                let sides = halves.solution.state.sides.expect("two halves");
                assert!(sides.left.head_k.is_finite() && sides.right.head_k.is_finite());
            }
            Err(EvaluateError::Solve(SolveError::HalvesReversed)) => reversed += 1,
            Err(error) => lost.push((at, error.to_string())),
        }
    }
    // About one in fifty stops where an inlet's or a leak's flow turns; it is refused, never shown.
    assert!(
        solved > 500 && reversed > 100,
        "{solved} solved, {reversed} reversed"
    );
    println!("{solved} solved, {reversed} reversed, {} lost", lost.len());
    assert!(lost.len() * 33 < solved + reversed, "{lost:?}");
}
