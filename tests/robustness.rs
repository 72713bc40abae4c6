//! Random installations over the whole permitted range of every input: solved or refused by name.

use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::document::table;
use coolpath_core::path::report::{Method, SolveError};
use coolpath_tests::random_design::{imbalance, random_design};

const CASES: u64 = 10_000;

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
                if matches!(error, EvaluateError::Solve(SolveError::NotConverged { .. })) {
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
const WORST: [u64; 24] = [
    884_127, 545_485, 893_484, 886_547, 460_711, 703_315, 485_376, 544_197, 277_348, 427_294,
    280_422, 264_764, 58_339, 214_121, 106_824, 218_845, 273_962, 152_138, 1825, 906, 5007, 27_081,
    11_378, 549,
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
            Err(EvaluateError::Solve(SolveError::NoOilBalance)) => {}
            Err(error) => panic!("{seed}: {error}"),
        }
    }
    assert!(solved > WORST.len() / 2, "only {solved} were solved");
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
