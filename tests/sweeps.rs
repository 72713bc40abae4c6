//! Sweeps over outside air, airspeed and exit area.

use coolpath_core::answer::band::bands;
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::sweep::{Swept, crossings, point_band, sweep};
use coolpath_core::document::condition::{AirKind, ShutterPolicy};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{Exit, ExitShape};

const CLIMB: usize = 1;
const CRUISE: usize = 3;
const KNOT: f64 = 1852.0 / 3600.0;

fn fixed(mut design: Design) -> Design {
    for condition in &mut design.conditions {
        condition.shutter = ShutterPolicy::Fixed;
    }
    design
}

fn range(from: f64, to: f64, steps: u32) -> Vec<f64> {
    (0..=steps)
        .map(|step| from + (to - from) * f64::from(step) / f64::from(steps))
        .collect()
}

#[test]
fn a_sweep_passes_through_the_conditions_own_answer() {
    let design = fixed(example::design());
    for place in [CLIMB, CRUISE] {
        let condition = &design.conditions[place];
        let answer = evaluate(&design, place).expect("solved");
        let own = [condition.airspeed.value];
        let points = sweep(&design.installation, condition, Swept::Airspeed, &own);
        assert!((points[0].figures.head_hottest - answer.head_hottest.value).abs() < 1e-7);
        let points = sweep(&design.installation, condition, Swept::ExitArea, &[1.0]);
        assert!((points[0].figures.drag - answer.drag.value).abs() < 1e-7);
        let oat = [answer.outside_air.value];
        let points = sweep(&design.installation, condition, Swept::Oat, &oat);
        assert!((points[0].figures.oil - answer.oil.value).abs() < 1e-7);
    }
}

#[test]
fn at_the_crossing_the_hottest_head_stands_at_its_limit() {
    let design = fixed(example::design());
    let condition = &design.conditions[CLIMB];
    let speeds = range(60.0 * KNOT, 130.0 * KNOT, 140);
    let points = sweep(&design.installation, condition, Swept::Airspeed, &speeds);
    assert_eq!(points.len(), speeds.len());
    let found = crossings(&points);
    assert_eq!(found.len(), 1, "{found:?}");
    let mut there = design.clone();
    there.conditions[CLIMB].airspeed.value = found[0];
    let answer = evaluate(&there, CLIMB).expect("solved");
    assert!(
        answer.head_margin.value.abs() < 0.05,
        "{} K",
        answer.head_margin.value
    );
    // The example climbs at 85 kt, 20 °F too hot: the crossing lies above.
    assert!(found[0] > 85.0 * KNOT);
}

#[test]
fn more_exit_costs_speed_and_hotter_days_heat_heads() {
    let design = fixed(example::design());
    let condition = &design.conditions[CRUISE];
    let points = sweep(
        &design.installation,
        condition,
        Swept::ExitArea,
        &range(0.5, 2.0, 15),
    );
    for pair in points.windows(2) {
        assert!(pair[1].figures.head_hottest < pair[0].figures.head_hottest);
        assert!(pair[1].speed_cost_m_s > pair[0].speed_cost_m_s);
    }
    let oats = range(250.0, 315.0, 13);
    let points = sweep(&design.installation, condition, Swept::Oat, &oats);
    for pair in points.windows(2) {
        assert!(pair[1].figures.head_hottest > pair[0].figures.head_hottest);
    }
    assert!(matches!(condition.air, AirKind::Oat));
}

#[test]
fn every_shape_of_exit_takes_a_net_area() {
    for shape in [
        ExitShape::LipGap,
        ExitShape::Traced,
        ExitShape::Louvers,
        ExitShape::Augmentor,
    ] {
        let mut exit = Exit {
            shape,
            ..Exit::default()
        };
        exit.pipes_area.value = 0.002;
        exit.set_closed_area(0.031);
        assert!((exit.closed_area_m2() - 0.031).abs() < 1e-15, "{shape:?}");
    }
}

#[test]
fn the_bands_of_a_sweep_at_the_conditions_own_speed_are_the_conditions_bands() {
    let design = fixed(example::design());
    let condition = &design.conditions[CRUISE];
    let own = bands(&design, CRUISE).expect("bands").figures;
    let there = point_band(
        &design,
        condition,
        Swept::Airspeed,
        condition.airspeed.value,
    )
    .expect("a solution");
    for (swept, table) in [
        (there.head_hottest, own.head_hottest),
        (there.oil, own.oil),
        (there.baffle_drop, own.baffle_drop),
    ] {
        assert!((swept.below - table.below).abs() < 1e-6 * table.below);
        assert!((swept.above - table.above).abs() < 1e-6 * table.above);
    }
    // What the heads require does not depend on the exit alone: it has a band of its own.
    assert!(there.required_drop.wider() > 0.0 && there.speed_cost.wider() > 0.0);
}
