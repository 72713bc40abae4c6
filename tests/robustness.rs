//! Random installations over the whole permitted range of every input: solved or refused by name.

use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::answer::solve_condition::{solve_condition_within, solve_in_search};
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::decide::duct_length::DuctLengths;
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{Breathes, CoolerRating, FinKind};
use coolpath_core::document::table;
use coolpath_core::path::budget::{Budget, CONDITION_STATES};
use coolpath_core::path::report::{Method, SolveError, gauge_temperature};
use coolpath_core::path::solve::solve;
use coolpath_tests::random_design::{imbalance, random_design, random_design_with_ends};

const CASES: u64 = 10_000;

/// Solves random designs after a change of each: how many are solved, and how many otherwise than without it.
fn solved_after(change: fn(&mut Design)) -> (u32, u32) {
    let (mut solved, mut moved, mut worst) = (0, 0, 0.0_f64);
    for seed in 0..CASES / 5 {
        let mut design = random_design(seed);
        let before = evaluate(&design, 0);
        change(&mut design);
        match evaluate(&design, 0) {
            Ok(answer) => {
                solved += 1;
                let (mass, heat) = imbalance(&answer);
                worst = worst.max(mass).max(heat);
                let other = |before: Answer| answer.oil != before.oil;
                moved += u32::from(before.is_ok_and(other));
            }
            Err(EvaluateError::Solve(
                error @ (SolveError::NotConverged { .. }
                | SolveError::NoShutterPosition
                | SolveError::GaveUp { .. }),
            )) => panic!("seed {seed}: {error}"),
            Err(_) => {}
        }
    }
    assert!(worst < 1e-9, "{worst}");
    (solved, moved)
}

#[test]
fn a_stream_at_any_angle_to_the_inlets_is_solved_and_balances_or_is_refused_by_name() {
    let (solved, moved) = solved_after(|design| {
        design.conditions[0].phase = Phase::Climb;
        for inlet in &mut design.installation.inlets {
            inlet.at_angle = true;
        }
    });
    assert!(
        solved > 400 && moved > 100,
        "{solved} solved, {moved} moved"
    );
}

#[test]
fn a_core_of_any_rows_tubes_and_fins_is_solved_and_balances_or_is_refused_by_name() {
    for fin_kind in [FinKind::Offset, FinKind::Plain] {
        let change: fn(&mut Design) = match fin_kind {
            FinKind::Offset => |design| design.installation.cooler.rating = CoolerRating::FromFins,
            FinKind::Plain => |design| {
                design.installation.cooler.rating = CoolerRating::FromFins;
                design.installation.cooler.fin_kind = FinKind::Plain;
            },
        };
        let (solved, moved) = solved_after(change);
        assert!(
            solved > 400 && moved > 100,
            "{solved} solved, {moved} moved"
        );
    }
}

#[test]
fn every_random_design_is_solved_and_balances_or_is_refused_by_name() {
    let mut solved = 0;
    let mut reversed = 0;
    let (mut relaxed, mut bracketed) = (0, 0);
    let mut refused = std::collections::BTreeMap::<String, u32>::new();
    let mut worst = (0.0_f64, 0.0_f64, 0);
    let mut open = Vec::new();
    for seed in 0..CASES {
        let design = random_design(seed);
        match evaluate(&design, 0) {
            Ok(answer) => {
                solved += 1;
                let numbers = [
                    answer.head_mean.value,
                    answer.head_hottest.value,
                    answer.oil.value,
                    answer.upper_deck.value,
                    answer.lower_deck.value,
                    answer.drag.value,
                    answer.inlet_flow.value,
                    answer.lower_deck_air.value,
                ];
                assert!(
                    numbers.iter().all(|n| n.is_finite()),
                    "seed {seed}: {numbers:?}"
                );
                reversed += u32::from(answer.fin_flow.value < 0.0);
                bracketed += u32::from(answer.report.method == Method::Bracketed);
                relaxed += u32::from(answer.report.method == Method::Relaxed);
                let (mass, heat) = imbalance(&answer);
                if mass.max(heat) > worst.0.max(worst.1) {
                    worst = (mass, heat, seed);
                }
            }
            Err(error) => {
                if matches!(
                    error,
                    EvaluateError::Solve(
                        SolveError::NotConverged { .. } | SolveError::NoShutterPosition
                    )
                ) {
                    open.push((seed, error.clone()));
                }
                let kind = format!("{error:?}");
                let name = kind.split(['{', ' ']).next().unwrap_or_default().to_owned();
                *refused.entry(name).or_default() += 1;
            }
        }
    }
    println!(
        "solved {solved}, reversed {reversed}, from rest {relaxed}, bracketed {bracketed}, refused {refused:?}, worst {worst:?}"
    );
    assert!(
        open.is_empty(),
        "{} not closed, such as {:?}",
        open.len(),
        &open[..open.len().min(8)]
    );
    assert!(bracketed < 3, "{bracketed} needed the slow search");
    assert!(
        worst.0 < 1e-9 && worst.1 < 1e-9,
        "mass, heat, seed {worst:?}"
    );
    assert!(
        u64::from(reversed) * 20 > CASES,
        "only {reversed} cases ran backward"
    );
    assert!(
        solved * 5 > CASES * 2,
        "only {solved} cases were solved: {refused:?}"
    );
}

/// The worst of a million (`--bin million`): slowest, least balanced, or where other ways to solve
/// them once failed; forward, backward and hardly flowing at all.
const WORST: [u64; 11] = [
    416_525, 389_929, 828_273, 197_254, 992_964, 96_685, 141_024, 127_244, 639_334, 304_729, 15_671,
];

/// Largest share of its own streams that a balance may lack where decks differ by a millionth of the
/// span and rounding stops the last steps: the solver accepts 1e-9 of the scales. Everywhere else 1e-9.
const ROUNDED: f64 = 1e-8;

#[test]
fn the_worst_of_a_million_balance_or_are_refused_by_name() {
    let mut solved = 0;
    for seed in WORST {
        match evaluate(&random_design(seed), 0) {
            Ok(answer) => {
                solved += 1;
                let (mass, heat) = imbalance(&answer);
                assert!(
                    mass < ROUNDED && heat < ROUNDED,
                    "{seed}: {mass:e} {heat:e}"
                );
            }
            Err(EvaluateError::Solve(SolveError::NoOilBalance) | EvaluateError::Prepare(_)) => {}
            Err(error) => panic!("{seed}: {error}"),
        }
    }
    assert!(solved > WORST.len() / 2, "only {solved} were solved");
}

/// The worst of a million with ends of ranges and areas next to none, and whether each has an
/// answer: most states, least balanced, or swinging with the oil for ever unless it is held.
const WORST_WITH_ENDS: [(u64, bool); 17] = [
    (905_744, true),
    (507_546, true),
    (43_446, true),
    (989_897, true),
    (933_264, true),
    (516_639, true),
    (430_441, true),
    (65_663, true),
    (139_308, true),
    (409_853, true),
    (134_825, false),
    (636_797, false),
    (647_488, false),
    (298_337, false),
    (207_446, false),
    (480_024, false),
    (212_053, false),
];

/// States that the worst of them may take.
const MOST_STATES: u32 = 11_000;

#[test]
fn the_worst_with_ends_keep_their_answers_and_take_few_states() {
    let (mut most, mut least_balanced) = ((0, 0), (0.0_f64, 0));
    for (seed, has_answer) in WORST_WITH_ENDS {
        let design = random_design_with_ends(seed);
        let budget = Budget::of_a_condition();
        let condition = &design.conditions[0];
        let found = solve_condition_within(&design.installation, condition, None, &budget);
        assert_eq!(found.is_ok(), has_answer, "{seed}: {:?}", found.err());
        if let Err(error) = found {
            let expected = EvaluateError::Solve(SolveError::NoOilBalance);
            assert_eq!(error, expected, "{seed}");
        } else {
            let (mass, heat) = imbalance(&evaluate(&design, 0).expect("an answer"));
            if mass.max(heat) > least_balanced.0 {
                least_balanced = (mass.max(heat), seed);
            }
        }
        most = most.max((budget.spent(), seed));
    }
    assert!(
        most.0 < MOST_STATES && MOST_STATES < CONDITION_STATES,
        "{most:?}"
    );
    assert!(least_balanced.0 < ROUNDED, "{least_balanced:?}");
}

/// States that may still be worked out before a spent budget is noticed.
const NOTICED: u32 = 20;

#[test]
fn a_budget_that_does_not_last_is_refused_by_its_name() {
    let design = random_design_with_ends(WORST_WITH_ENDS[0].0);
    let condition = &design.conditions[0];
    for states in [1, 10, 100, 1000, 5000] {
        let budget = Budget::of(states);
        let found = solve_condition_within(&design.installation, condition, None, &budget);
        let Err(EvaluateError::Solve(SolveError::GaveUp { states: said })) = found else {
            panic!("{states}: {found:?}");
        };
        assert!(
            (states..states + NOTICED).contains(&said),
            "{said} of {states}"
        );
        // A search whose budget is spent solves nothing any more, however easy.
        let easy = coolpath_core::document::example::design();
        let next = solve_in_search(&easy.installation, &easy.conditions[0], None, &budget);
        assert!(
            matches!(next, Err(EvaluateError::Solve(SolveError::GaveUp { .. }))),
            "{next:?}"
        );
    }
}

/// Beyond this, 440 °F, oil burns, and its density and specific heat here are of no oil.
const HOTTEST_OIL_K: f64 = 500.0;

#[test]
fn the_gauge_behind_the_cooler_never_falls_as_the_oils_heat_rises() {
    let (mut regulated, mut designs) = (0, 0);
    for seed in 0..3000 {
        let mut design = random_design(seed);
        design.installation.oil.thermostat = true;
        let Ok(prepared) = prepare(&design.installation, &design.conditions[0]) else {
            continue;
        };
        let mut cowl = prepared.cowl;
        let usual_w = cowl.oil.friction_heat_w;
        let mut near = None;
        let mut before = f64::NEG_INFINITY;
        for step in 0..24 {
            cowl.oil.friction_heat_w = usual_w * 0.1 * 1.22_f64.powi(step);
            let Ok(found) = solve(&cowl, near) else {
                break;
            };
            if found.state.trial.oil_k > HOTTEST_OIL_K {
                break;
            }
            let shown = gauge_temperature(&found.state, true);
            assert!(
                shown > before - 1e-6,
                "seed {seed}, step {step}: {before} to {shown}"
            );
            before = shown;
            near = Some(found.start());
            let share = found.state.terms.cooler.share;
            regulated +=
                u32::from(share > cowl.oil.bypass.map_or(1.0, |b| b.leak_share) && share < 1.0);
        }
        designs += u32::from(near.is_some());
    }
    assert!(designs > 1000 && regulated > 1000, "{designs} {regulated}");
}

#[test]
fn every_input_has_an_ordered_range_around_its_default() {
    for input in table::all() {
        let (least, most) = input.permitted;
        assert!(
            least < most && least <= input.default && input.default <= most,
            "{}",
            input.id
        );
        if let Some((low, high)) = input.likely {
            assert!(
                least <= low && low <= input.default && input.default <= high && high <= most,
                "{}: likely {low}..{high} about {}",
                input.id,
                input.default
            );
        }
        assert!(
            !input.label.is_empty() && !input.source.is_empty(),
            "{}",
            input.id
        );
    }
}

#[test]
fn the_lengths_of_a_duct_are_found_for_any_design_or_refused_by_name() {
    let (mut found, mut refused) = (0, 0);
    for seed in 0..200 {
        let search = DuctLengths::new(&random_design(seed), 0, 0);
        match search.and_then(DuctLengths::finished) {
            Ok(lengths) => {
                found += 1;
                let ducts = lengths.rows.iter().flat_map(|row| [&row.own, &row.best]);
                for duct in ducts {
                    assert!((0.0..1.0).contains(&duct.recovery), "{seed}: {duct:?}");
                    assert!(duct.answered.head_k.is_finite(), "{seed}: {duct:?}");
                }
                for row in &lengths.rows {
                    assert!(
                        row.best.recovery >= row.own.recovery - 1e-9,
                        "{seed}: {row:?}"
                    );
                }
            }
            Err(error) => {
                refused += 1;
                assert!(error.to_string().len() > 20, "{seed}: {error}");
            }
        }
    }
    assert!(
        found > 40 && refused > 40,
        "{found} found, {refused} refused"
    );
}

#[test]
fn random_engines_that_breathe_from_the_lower_deck_meet_its_warmth_or_are_refused_by_name() {
    let (mut solved, mut missed) = (0, Vec::new());
    for seed in 0..1500 {
        let mut design = random_design(seed);
        design.installation.decks.induction_from_upper_deck = false;
        design.installation.decks.breathes = Breathes::LowerDeck;
        design.conditions[0].warm_induction = false;
        match evaluate(&design, 0) {
            Ok(answer) => {
                solved += 1;
                let (mass, heat) = imbalance(&answer);
                assert!(mass < 1e-6 && heat < 1e-6, "{seed}: {mass:e} {heat:e}");
            }
            Err(EvaluateError::Solve(SolveError::NotConverged { residual, .. })) => {
                missed.push((seed, residual));
            }
            Err(_) => {}
        }
    }
    assert!(solved > 400, "{solved}");
    assert!(missed.is_empty(), "{solved} solved, not {missed:?}");
}
