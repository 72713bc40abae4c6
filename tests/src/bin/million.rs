//! A million random designs: what became of them, and the slowest.
//!
//! `cargo run --release -p coolpath-tests --bin million -- [COUNT] [--ends]`
//!
//! With `--ends` each number stands with a chance of one in ten at an end of its range, and areas
//! as often next to none.

use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::path::report::{Method, SolveError};
use coolpath_tests::random_design::{imbalance, random_design, random_design_with_ends};
use std::collections::BTreeMap;
use std::time::Instant;

/// Time from which a design is timed again, µs.
const LOOK_AGAIN_MICROS: f64 = 200.0;

fn main() {
    let count = std::env::args()
        .nth(1)
        .and_then(|text| text.parse().ok())
        .unwrap_or(1_000_000_u64);
    let drawn = if std::env::args().any(|text| text == "--ends") {
        random_design_with_ends
    } else {
        random_design
    };
    let mut became = BTreeMap::<String, u64>::new();
    let mut slow = BTreeMap::<String, u64>::new();
    let mut times: Vec<(f64, u64)> = Vec::with_capacity(count as usize);
    let mut worst = (0.0_f64, 0_u64);
    for seed in 0..count {
        let design = drawn(seed);
        let start = Instant::now();
        let found = evaluate(&design, 0);
        let mut micros = start.elapsed().as_secs_f64() * 1e6;
        if micros > LOOK_AGAIN_MICROS {
            // Other work of the machine takes time too; a design that is slow is so each time.
            for _ in 0..3 {
                let start = Instant::now();
                let again = evaluate(&design, 0);
                micros = micros.min(start.elapsed().as_secs_f64() * 1e6);
                drop(again);
            }
        }
        times.push((micros, seed));
        let name = match &found {
            Ok(answer) => {
                let numbers = [
                    answer.head_hottest.value,
                    answer.oil.value,
                    answer.upper_deck.value,
                    answer.lower_deck.value,
                    answer.drag.value,
                ];
                if numbers.iter().any(|number| !number.is_finite()) {
                    println!("not a number: seed {seed}");
                }
                let (mass, heat) = imbalance(answer);
                if mass.max(heat) > worst.0 {
                    worst = (mass.max(heat), seed);
                }
                let backward = if answer.fin_flow.value < 0.0 {
                    "backward, "
                } else {
                    ""
                };
                let how = match answer.report.method {
                    Method::Newton => "solved by Newton",
                    Method::Relaxed => "solved from rest",
                    _ => {
                        println!("by brackets: seed {seed}");
                        "solved by brackets"
                    }
                };
                format!("{backward}{how}")
            }
            Err(EvaluateError::Solve(SolveError::NotConverged { .. })) => {
                println!("not converged: seed {seed}");
                "not converged".to_owned()
            }
            Err(error) => {
                let text = format!("{error:?}");
                let words: Vec<&str> = text
                    .split(|c: char| !c.is_alphanumeric())
                    .filter(|word| !word.is_empty())
                    .take(3)
                    .collect();
                format!("refused: {}", words.join(" "))
            }
        };
        if micros > 1000.0 {
            *slow.entry(name.clone()).or_default() += 1;
        }
        *became.entry(name).or_default() += 1;
    }
    times.sort_by(|a, b| a.0.total_cmp(&b.0));
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize].0;
    println!("{became:#?}");
    println!("over 1 ms: {slow:#?}");
    println!("largest imbalance {:.1e}, seed {}", worst.0, worst.1);
    println!(
        "median {:.1} µs, 99 % {:.1}, 99.9 % {:.1}, slowest {:.1} µs, over 1 ms {}",
        at(0.5),
        at(0.99),
        at(0.999),
        at(1.0),
        times.iter().filter(|time| time.0 > 1000.0).count()
    );
    println!(
        "slowest seeds {:?}",
        &times[times.len().saturating_sub(8)..]
    );
}
