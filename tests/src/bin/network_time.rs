//! Time of the plain network's solution, µs, for `reference/generators/network_timing.py`.

use coolpath_core::path::decks::deck_pressures;
use coolpath_tests::plain_network::Plain;
use std::hint::black_box;
use std::time::Instant;

fn main() {
    const ROUNDS: u32 = 200_000;
    let network = Plain {
        shutter_loss: 3.91,
        rough_hose: false,
        power_law: false,
    };
    let found = deck_pressures(&network).expect("pressures");
    let start = Instant::now();
    for _ in 0..ROUNDS {
        let _ = black_box(deck_pressures(black_box(&network)));
    }
    let micros = start.elapsed().as_secs_f64() * 1e6 / f64::from(ROUNDS);
    println!("{micros:.4} {:.4} {:.4}", found.upper_pa, found.lower_pa);
}
