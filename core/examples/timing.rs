//! Times one evaluation, the whole example and its bands, in microseconds.

use coolpath_core::{band, demo, evaluate};
use std::hint::black_box;
use std::time::Instant;

fn main() {
    let design = demo::design();
    let rounds = 300;
    let time = |name: &str, work: &dyn Fn()| {
        let start = Instant::now();
        for _ in 0..rounds {
            work();
        }
        println!(
            "{name}: {:.1} µs",
            start.elapsed().as_secs_f64() * 1e6 / f64::from(rounds)
        );
    };
    time("one condition, shutter fixed", &|| {
        let _ = black_box(evaluate::evaluate(black_box(&design), 0));
    });
    time("one condition, shutter held", &|| {
        let _ = black_box(evaluate::evaluate(black_box(&design), 3));
    });
    time("all conditions", &|| {
        black_box(evaluate::evaluate_all(black_box(&design)));
    });
    time("bands of all conditions", &|| {
        for place in 0..design.conditions.len() {
            let _ = black_box(band::bands(black_box(&design), place));
        }
    });
}
