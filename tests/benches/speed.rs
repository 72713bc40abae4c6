//! How long things take; DEVELOPERS.md holds the figures and the command.
use coolpath_core::answer::pieces::Pieces;

use coolpath_core::answer::evaluate;
use coolpath_core::answer::sampling::{DEFAULT_DRAWS, DEFAULT_SEED, Sampling};
use coolpath_core::decide::shutter_card::shutter_card;
use coolpath_core::decide::size::{Bounds, Demand, least_drag};
use coolpath_core::document::example;
use coolpath_core::path::solve::solve;
use coolpath_core::prove::calibrate::{Calibration, Scatter, usual_choice};
use coolpath_core::prove::log::{Criteria, Layout, LogReader, Session, guess, stretches};
use coolpath_core::units::si::inch2;
use coolpath_tests::plain_network::Plain;
use coolpath_tests::restless_flight::{Structure, reading, session};
use criterion::{Criterion, criterion_group, criterion_main};
use std::fmt::Write;
use std::hint::black_box;

fn one_condition(c: &mut Criterion) {
    let design = example::design();
    c.bench_function("one condition, shutter fixed", |b| {
        b.iter(|| evaluate::evaluate(black_box(&design), 0));
    });
    c.bench_function("one condition, shutter holding the oil", |b| {
        b.iter(|| evaluate::evaluate(black_box(&design), 3));
    });
}

fn network(c: &mut Criterion) {
    for (name, rough_hose, power_law) in [
        ("network, quadratic", false, false),
        ("network, rough hose and power law", true, true),
    ] {
        let network = Plain {
            rough_hose,
            power_law,
            ..Plain::default()
        };
        let cowl = network.cowl();
        c.bench_function(name, |b| b.iter(|| solve(black_box(&cowl), None)));
    }
}

fn decisions(c: &mut Criterion) {
    let design = example::design();
    c.bench_function("shutter card of a cruise", |b| {
        let oats: Vec<f64> = (0..12).map(|at| 245.0 + 6.0 * f64::from(at)).collect();
        b.iter(|| shutter_card(&design, &design.conditions[3], black_box(&oats)));
    });
    let bounds = Bounds {
        inlets_m2: (inch2(30.0), inch2(90.0)),
        exit_m2: (inch2(25.0), inch2(140.0)),
    };
    let demand = Demand::nominal(&design);
    c.bench_function("both openings for least drag", |b| {
        b.iter(|| least_drag(black_box(&design), &demand, &bounds));
    });
}

fn draws(c: &mut Criterion) {
    let design = example::design();
    let mut group = c.benchmark_group("uncertainty");
    group.sample_size(10);
    group.bench_function("2000 draws of six conditions", |b| {
        b.iter(|| {
            let mut sampling =
                Sampling::new(&design, DEFAULT_DRAWS, DEFAULT_SEED).expect("a design");
            while sampling.advance(100) {}
            sampling.summary(1)
        });
    });
    group.finish();
}

/// Four megabytes of a hundred columns.
fn big_log() -> String {
    let mut text =
        String::from("Time,CHT1 (deg F),CHT2 (deg F),Oil Temp (deg F),IAS (kt),Alt (ft)");
    for column in 6..100 {
        let _ = write!(text, ",Other {column}");
    }
    text.push('\n');
    for second in 0.. {
        if text.len() > 4_000_000 {
            break;
        }
        let _ = write!(text, "{second},380.5,390.5,190.5,120.5,5000.5");
        for column in 6..100 {
            let _ = write!(text, ",{}.5", (second * column) % 1000);
        }
        text.push('\n');
    }
    text
}

fn log(c: &mut Criterion) {
    let text = big_log();
    let mut group = c.benchmark_group("log");
    group.sample_size(10);
    group.bench_function("4 MB of 100 columns, read and windowed", |b| {
        b.iter(|| {
            let mut reader = LogReader::of(text.clone(), Layout::of(&text)).expect("a log");
            while reader.advance(1000).expect("records") {}
            let table = reader.finish().expect("a log");
            let sessions = Session::all(&table, &guess(&table), 1.0);
            sessions
                .iter()
                .map(|session| stretches(session, &Criteria::default()).len())
                .sum::<usize>()
        });
    });
    group.finish();
}

fn whole_flight(c: &mut Criterion) {
    let mut random = fastrand::Rng::with_seed(1);
    let mut design = example::design();
    let flown = session(&design, &Structure::default(), 3600, &mut random);
    design.readings = vec![reading(&flown)];
    let parameters = usual_choice(&design);
    let mut group = c.benchmark_group("calibration");
    group.sample_size(10);
    group.bench_function("a whole flight of an hour", |b| {
        b.iter(|| {
            let mut fit =
                Calibration::new(&design, &parameters, Scatter::default()).expect("a flight");
            while fit.advance(1000) {}
            fit.outcome()
        });
    });
    group.finish();
}

criterion_group!(
    speed,
    one_condition,
    network,
    decisions,
    draws,
    log,
    whole_flight
);
criterion_main!(speed);
