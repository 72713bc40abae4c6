//! Times one evaluation, the whole example and its bands, in microseconds.

use coolpath_core::answer::{band, evaluate};
use coolpath_core::decide::size::{Bounds, Demand, allowance, least_drag};
use coolpath_core::document::example;
use coolpath_core::units::si::inch2;
use std::hint::black_box;
use std::time::Instant;

fn main() {
    let design = example::design();
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
    let bounds = Bounds {
        inlets_m2: (inch2(30.0), inch2(90.0)),
        exit_m2: (inch2(25.0), inch2(140.0)),
    };
    let demand = Demand::nominal(&design);
    time("both openings for least drag, nominal", &|| {
        let _ = black_box(least_drag(black_box(&design), &demand, &bounds));
    });
    time("allowances of all conditions", &|| {
        for place in 0..design.conditions.len() {
            let _ = black_box(allowance(black_box(&design), place, 0.9));
        }
    });
}
