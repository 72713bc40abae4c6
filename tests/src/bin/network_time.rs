//! Times of the plain network's solution by the product's solver, for `reference/generators/network_timing.py`:
//! of one, solved again and again, and of many that differ; and the pressures of them all.

use coolpath_core::path::network::Cowl;
use coolpath_core::path::solve::solve;
use coolpath_core::path::state::State;
use coolpath_tests::plain_network::{Plain, SLOW, figures};
use std::hint::black_box;
use std::time::Instant;

/// Networks that differ, and turns of which the fastest counts.
const MANY: u32 = 12_000;
const TURNS: u32 = 40;

/// The fastest of all turns for each of `count` solutions, µs.
fn micros(count: u32, mut turn: impl FnMut()) -> f64 {
    let timed = |_| {
        let start = Instant::now();
        turn();
        start.elapsed().as_secs_f64() * 1e6 / f64::from(count)
    };
    (0..TURNS).map(timed).fold(f64::INFINITY, f64::min)
}

/// One of the many: its shutter from open to shut, its inlet and exit scattered evenly.
fn one_of_many(place: u32) -> Plain {
    let at = f64::from(place);
    Plain {
        shutter_loss: 0.3 * (118.0_f64 / 0.3).powf(at / f64::from(MANY - 1)),
        inlet_m2: 0.015 + 0.020 * (at * 0.618_033_988_75).fract(),
        exit_m2: 0.025 + 0.030 * (at * 0.754_877_666_25).fract(),
        ..Plain::default()
    }
}

/// Pressures of plenum and lower deck at the table's own speed, Pa.
fn pressures(state: &State) -> String {
    let [(_, plenum_pa), (_, lower_pa), ..] = figures(state);
    format!("{plenum_pa:.9} {lower_pa:.9}")
}

/// The larger of what is left over of both decks' flows, at the table's own speed, kg/s.
fn left_over(state: &State) -> f64 {
    let left = &state.residual;
    left.upper_kg_s.abs().max(left.lower_kg_s.abs()) / SLOW.sqrt()
}

fn main() {
    let cowl = Plain::default().cowl();
    let found = solve(&cowl, None).expect("a solution").state;
    let one = micros(MANY, || {
        for _ in 0..MANY {
            let _ = black_box(solve(black_box(&cowl), None));
        }
    });
    println!("{one:.4} {}", pressures(&found));

    let cowls: Vec<Cowl> = (0..MANY).map(|place| one_of_many(place).cowl()).collect();
    let mut solved: Vec<State> = vec![found; cowls.len()];
    let many = micros(MANY, || {
        for (cowl, solved) in black_box(&cowls).iter().zip(&mut solved) {
            *solved = solve(cowl, None).expect("a solution").state;
        }
    });
    let worst = solved.iter().map(left_over).fold(0.0, f64::max);
    println!("{many:.4} {worst:e}");
    for state in &solved {
        println!("{}", pressures(state));
    }
}
