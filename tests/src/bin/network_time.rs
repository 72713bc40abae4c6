//! Times of the plain network's solution for `reference/generators/network_timing.py`: of one, solved again
//! and again, and of many that differ; and the pressures of them all.

use coolpath_core::path::decks::{DeckPressures, TwoDecks, deck_pressures};
use coolpath_tests::plain_network::Plain;
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

fn main() {
    let network = Plain::default();
    let found = deck_pressures(&network).expect("pressures");
    let one = micros(MANY, || {
        for _ in 0..MANY {
            let _ = black_box(deck_pressures(black_box(&network)));
        }
    });
    println!("{one:.4} {:.4} {:.4}", found.upper_pa, found.lower_pa);

    let networks: Vec<Plain> = (0..MANY).map(one_of_many).collect();
    let mut solved: Vec<DeckPressures> = vec![found; networks.len()];
    let many = micros(MANY, || {
        for (network, solved) in black_box(&networks).iter().zip(&mut solved) {
            *solved = deck_pressures(network).expect("pressures");
        }
    });
    let worst = networks.iter().zip(&solved).map(|(network, decks)| {
        let upper = network.upper_balance(decks.upper_pa, decks.lower_pa);
        let lower = network.lower_balance(decks.upper_pa, decks.lower_pa);
        upper.abs().max(lower.abs())
    });
    println!("{many:.4} {:e}", worst.fold(0.0, f64::max));
    for decks in &solved {
        println!("{:.9} {:.9}", decks.upper_pa, decks.lower_pa);
    }
}
