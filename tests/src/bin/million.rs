//! A million random designs: what became of them, the slowest, and those that took most states.
//!
//! `cargo run --release -p coolpath-tests --bin million -- [COUNT] [--inside] [--searches] [--worst]`
//!
//! Each number stands with a chance of one in ten at an end of its range, and areas as often next to
//! none; with `--inside` none does. With `--searches` every search is made of each design that has
//! an answer, in its one condition, instead; with `--worst` only the design that took most states of
//! a million is solved, COUNT times.

use coolpath_core::answer::band::bands;
use coolpath_core::answer::evaluate::{Answer, answer};
use coolpath_core::answer::solve_condition::solve_condition_within;
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::decide::climb::{largest_power, mixtures, slowest_airspeed};
use coolpath_core::decide::compare::{Preset, at_equal_heads, difference};
use coolpath_core::decide::shutter_card::{shutter_card, tape_card};
use coolpath_core::decide::size::{Bounds, Demand, SizeError};
use coolpath_core::decide::size::{flap, least_drag, remedies, smallest_exit, spots};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::{exit_reach_m2, inlets_m2, inlets_reach_m2};
use coolpath_core::path::budget::Budget;
use coolpath_core::path::report::{Method, SolveError};
use coolpath_tests::random_design::{imbalance, random_design, random_design_with_ends};
use std::collections::BTreeMap;
use std::time::Instant;

/// Time from which a design is timed again, µs.
const LOOK_AGAIN_MICROS: f64 = 200.0;

/// The design with ends that took most states of a million.
const WORST: u64 = 905_744;

fn main() {
    let has = |flag: &str| std::env::args().any(|text| text == flag);
    let count = std::env::args()
        .nth(1)
        .and_then(|text| text.parse().ok())
        .unwrap_or(1_000_000_u64);
    let drawn = if has("--inside") {
        random_design
    } else {
        random_design_with_ends
    };
    if has("--worst") {
        let design = random_design_with_ends(WORST);
        let micros = timed(|| (0..count).for_each(|_| drop(solved(&design)))).1;
        println!("{:.0} µs each", micros / count as f64);
    } else if has("--searches") {
        searches(count, drawn);
    } else {
        conditions(count, drawn);
    }
}

/// One condition solved, and the states that took.
fn solved(design: &Design) -> (Result<Answer, EvaluateError>, u32) {
    let budget = Budget::of_a_condition();
    if let Err(error) = design.check() {
        return (Err(EvaluateError::Design(error)), 0);
    }
    let (installation, condition) = (&design.installation, &design.conditions[0]);
    let found = solve_condition_within(installation, condition, None, &budget)
        .map(|found| answer(installation, condition, &found));
    (found, budget.spent())
}

/// What a call returns and its time, µs: the middle one of five where it is long, since other work
/// of the machine takes time too.
fn timed<T>(call: impl Fn() -> T) -> (T, f64) {
    let once = || {
        let start = Instant::now();
        let found = call();
        (found, start.elapsed().as_secs_f64() * 1e6)
    };
    let (found, first) = once();
    if first < LOOK_AGAIN_MICROS {
        return (found, first);
    }
    let mut times = [first, once().1, once().1, once().1, once().1];
    times.sort_by(f64::total_cmp);
    (found, times[2])
}

fn conditions(count: u64, drawn: fn(u64) -> Design) {
    let mut became = BTreeMap::<String, u64>::new();
    let mut slow = BTreeMap::<String, u64>::new();
    let mut times: Vec<(f64, u64)> = Vec::with_capacity(count as usize);
    let mut states: Vec<(u32, u64, bool)> = Vec::with_capacity(count as usize);
    let mut unbalanced: Vec<(f64, u64)> = Vec::new();
    for seed in 0..count {
        let design = drawn(seed);
        let ((found, spent), micros) = timed(|| solved(&design));
        times.push((micros, seed));
        states.push((spent, seed, found.is_ok()));
        if let Ok(answer) = &found {
            let (mass, heat) = imbalance(answer);
            unbalanced.push((mass.max(heat), seed));
        }
        let name = outcome(seed, &found);
        if micros > 1000.0 {
            *slow.entry(name.clone()).or_default() += 1;
        }
        *became.entry(name).or_default() += 1;
    }
    times.sort_by(|a, b| a.0.total_cmp(&b.0));
    states.sort_unstable();
    unbalanced.sort_by(|a, b| a.0.total_cmp(&b.0));
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize].0;
    println!("{became:#?}");
    println!("over 1 ms: {slow:#?}");
    println!(
        "median {:.1} µs, 99 % {:.1}, 99.9 % {:.1}, slowest {:.1} µs, over 1 ms {}",
        at(0.5),
        at(0.99),
        at(0.999),
        at(1.0),
        times.iter().filter(|time| time.0 > 1000.0).count()
    );
    println!("least balanced {:?}", last(&unbalanced));
    println!("slowest, µs {:?}", last(&times));
    println!("most states, whether solved {:?}", last(&states));
    let with_answer: Vec<(u32, u64, bool)> = states.into_iter().filter(|one| one.2).collect();
    println!("most states with an answer {:?}", last(&with_answer));
}

fn last<T>(list: &[T]) -> &[T] {
    &list[list.len().saturating_sub(8)..]
}

/// What became of a design, in words; what should not be is printed with its seed.
fn outcome(seed: u64, found: &Result<Answer, EvaluateError>) -> String {
    match found {
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
        Err(error) => {
            if let EvaluateError::Solve(
                SolveError::NotConverged { .. }
                | SolveError::NoShutterPosition
                | SolveError::GaveUp { .. },
            ) = error
            {
                println!("{error:?}: seed {seed}");
            }
            refusal(error)
        }
    }
}

fn refusal(error: &EvaluateError) -> String {
    let text = format!("{error:?}");
    let words: Vec<&str> = text
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .take(3)
        .collect();
    format!("refused: {}", words.join(" "))
}

#[derive(Debug, Default)]
struct Kinds(BTreeMap<&'static str, Kind>);

impl Kinds {
    fn of(&mut self, name: &'static str) -> &mut Kind {
        self.0.entry(name).or_default()
    }
}

/// What became of the searches of one kind.
#[derive(Debug, Default)]
struct Kind {
    made: u64,
    answered: u64,
    gave_up: Vec<u64>,
    slowest: Vec<(f64, u64)>,
}

impl Kind {
    fn take<T>(&mut self, seed: u64, search: impl Fn() -> Result<T, EvaluateError>) {
        let (found, micros) = timed(search);
        self.made += 1;
        match found {
            Ok(_) => self.answered += 1,
            Err(EvaluateError::Solve(SolveError::GaveUp { .. })) => self.gave_up.push(seed),
            Err(_) => {}
        }
        self.slowest.push((micros, seed));
        if self.slowest.len() > 100 {
            self.shorten();
        }
    }

    fn shorten(&mut self) {
        self.slowest.sort_by(|a, b| b.0.total_cmp(&a.0));
        self.slowest.truncate(4);
    }
}

fn of_size<T>(found: Result<T, SizeError>) -> Result<(), EvaluateError> {
    match found {
        Err(SizeError::Evaluate(error)) => Err(error),
        _ => Ok(()),
    }
}

fn searches(count: u64, drawn: fn(u64) -> Design) {
    let mut kinds = Kinds::default();
    for seed in 0..count {
        let design = drawn(seed);
        if solved(&design).0.is_ok() {
            searched(seed, &design, &mut kinds);
        }
    }
    for (name, mut kind) in kinds.0 {
        kind.shorten();
        println!(
            "{name}: {} made, {} answered, {} gave up {:?}; slowest, µs {:?}",
            kind.made,
            kind.answered,
            kind.gave_up.len(),
            last(&kind.gave_up),
            kind.slowest
        );
    }
}

/// Makes every search of a design that has an answer.
fn searched(seed: u64, design: &Design, kinds: &mut Kinds) {
    let (installation, condition) = (&design.installation, &design.conditions[0]);
    let other = Preset::WornSeals.applied(installation);
    let demand = Demand::nominal(design);
    let limit_k = installation.engine.head_limit.value;
    let bounds = Bounds {
        inlets_m2: inlets_reach_m2(installation),
        exit_m2: exit_reach_m2(installation),
    };
    let oats_k = [280.0];
    kinds.of("bands").take(seed, || bands(design, 0));
    kinds
        .of("difference")
        .take(seed, || difference(design, &other, 0));
    kinds
        .of("equal heads")
        .take(seed, || at_equal_heads(design, &other, 0));
    kinds
        .of("airspeed")
        .take(seed, || slowest_airspeed(installation, condition, limit_k));
    kinds
        .of("power")
        .take(seed, || largest_power(installation, condition, limit_k));
    kinds
        .of("mixtures")
        .take(seed, || mixtures(installation, condition));
    kinds.of("shutter card").take(seed, || {
        shutter_card(design, condition, &oats_k).remove(0).map(drop)
    });
    kinds.of("tape").take(seed, || {
        tape_card(installation, condition, &oats_k)
            .remove(0)
            .map(drop)
    });
    kinds.of("smallest exit").take(seed, || {
        of_size(smallest_exit(design, &demand, bounds.exit_m2))
    });
    kinds
        .of("flap")
        .take(seed, || of_size(flap(design, &demand, bounds.exit_m2)));
    kinds
        .of("least drag")
        .take(seed, || of_size(least_drag(design, &demand, &bounds)));
    kinds
        .of("remedies")
        .take(seed, || of_size(remedies(design, &demand)));
    let exits: Vec<f64> = (1..=14)
        .map(|at| bounds.exit_m2.1 * f64::from(at) / 14.0)
        .collect();
    kinds
        .of("row of sizes")
        .take(seed, || Ok(spots(design, inlets_m2(installation), &exits)));
}
