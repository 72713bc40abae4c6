//! What must hold whatever the numbers are: balances, limits, order, scaling.

use coolpath_core::air::atmosphere;
use coolpath_core::air::propeller::slipstream;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::document::condition::Condition;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{
    Exit, ExitShape, Inlet, InletShape, OilProbe, Sealing,
};
use coolpath_core::document::{example, table};
use coolpath_core::path::element::{Inlet as InletElement, loss_drop, nozzle, orifice_flow};
use coolpath_core::path::inlet_map::Incidence;
use coolpath_core::path::solve::solve;
use coolpath_core::units::si::degf;
use coolpath_tests::designs::unregulated;
use fastrand::Rng;

const TAKE_OFF: usize = 1;
const CRUISE: usize = 3;

/// Answers of a condition with one input swept over its whole permitted range.
fn sweep(id: &str, place: usize, condition: usize, design: &Design) -> Vec<(f64, Answer)> {
    let input = table::by_id(id).unwrap_or_else(|| panic!("no input {id}"));
    let (least, most) = input.permitted;
    let steps = 25;
    (0..=steps)
        .filter_map(|step| {
            let share = f64::from(step) / f64::from(steps);
            let value = if least > 0.0 {
                (least * (most / least).powf(share)).clamp(least, most)
            } else {
                least + share * (most - least)
            };
            let mut varied = design.clone();
            assert!(input.set(&mut varied, place, value));
            evaluate(&varied, condition)
                .ok()
                .map(|answer| (value, answer))
        })
        .collect()
}

/// Asserts that a figure moves one way over a sweep; `sign` +1 rising, −1 falling.
fn moves(id: &str, condition: usize, design: &Design, sign: f64, figure: impl Fn(&Answer) -> f64) {
    let answers = sweep(id, 0, condition, design);
    assert!(
        answers.len() > 15,
        "{id}: only {} values have an answer",
        answers.len()
    );
    for pair in answers.windows(2) {
        let (before, after) = (figure(&pair[0].1), figure(&pair[1].1));
        assert!(
            sign * (after - before) >= -1e-9 * before.abs(),
            "{id} from {} to {}: {before} to {after}",
            pair[0].0,
            pair[1].0
        );
    }
    let first = figure(&answers[0].1);
    let last = figure(&answers[answers.len() - 1].1);
    assert!(sign * (last - first) > 0.0, "{id} has no effect");
}

#[test]
fn heads_cool_with_more_exit_more_inlet_more_speed_and_less_power_heat_or_leak() {
    let mut design = unregulated();
    design.installation.exits = vec![Exit {
        shape: ExitShape::Traced,
        ..Exit::default()
    }];
    design.installation.inlets = vec![Inlet {
        shape: InletShape::Traced,
        ..Inlet::default()
    }];
    design.installation.decks.sealing = Sealing::MeasuredLeak;
    let head = |answer: &Answer| answer.head_mean.value;
    for condition in [TAKE_OFF, CRUISE] {
        moves("exit.traced_area_m2", condition, &design, -1.0, head);
        moves("inlet.traced_area_m2", condition, &design, -1.0, head);
        moves("exit.discharge", condition, &design, -1.0, head);
        moves("exit.pressure_coefficient", condition, &design, 1.0, head);
        moves("decks.measured_leak_m2", condition, &design, 1.0, head);
    }
}

#[test]
fn pressure_across_the_baffles_falls_with_a_leak_and_flow_grows_with_the_exit() {
    let mut design = unregulated();
    design.installation.exits = vec![Exit {
        shape: ExitShape::Traced,
        ..Exit::default()
    }];
    design.installation.decks.sealing = Sealing::MeasuredLeak;
    moves(
        "decks.measured_leak_m2",
        TAKE_OFF,
        &design,
        -1.0,
        |answer| answer.baffle_drop.value,
    );
    moves("decks.measured_leak_m2", TAKE_OFF, &design, 1.0, |answer| {
        answer.inlet_flow.value
    });
    moves("exit.traced_area_m2", TAKE_OFF, &design, 1.0, |answer| {
        answer.inlet_flow.value
    });
}

/// Sweeps an input of one condition.
fn condition_moves(id: &str, at: usize, sign: f64, figure: impl Fn(&Answer) -> f64) {
    let mut design = unregulated();
    design.conditions = vec![design.conditions[at].clone()];
    moves(id, 0, &design, sign, figure);
}

#[test]
fn heads_and_oil_follow_the_outside_air_the_speed_and_the_shutter() {
    // With a share of the propeller's rise, air gets scarcer from rest to a slow roll: the disc
    // loads less before the ram makes up for it. Without it, speed always helps.
    let mut no_propeller = unregulated();
    no_propeller.installation.airframe.propeller_share = 0.0;
    no_propeller.conditions = vec![no_propeller.conditions[CRUISE].clone()];
    moves("condition.airspeed_m_s", 0, &no_propeller, -1.0, |answer| {
        answer.head_mean.value
    });
    condition_moves("condition.oat_k", CRUISE, 1.0, |answer| {
        answer.head_mean.value
    });
    condition_moves("condition.oat_k", CRUISE, 1.0, |answer| {
        answer.oil_hot.value
    });
    condition_moves("condition.oat_k", CRUISE, 1.0, |answer| answer.oil.value);
    condition_moves("condition.power_share", CRUISE, 1.0, |answer| {
        answer.head_mean.value
    });
    condition_moves("condition.shutter_opening", CRUISE, -1.0, |answer| {
        answer.oil.value
    });
}

#[test]
fn the_known_point_is_given_back_at_its_own_flow_air_and_mixture() {
    let design = example::design();
    let prepared = prepare(&design.installation, &design.conditions[TAKE_OFF]).expect("prepared");
    let point = &prepared.point;
    let mut heads = prepared.cowl.heads;
    heads.gas_w_k = point.gas_w_k;
    heads.gas_k = point.gas_k;
    let head_k = heads.temperature(point.flow_kg_s, point.air_k, point.oil_k);
    assert!(
        (head_k - point.head_k).abs() < 1e-9,
        "{head_k} is not {}",
        point.head_k
    );
    let fin_heat = heads.fins.at(point.flow_kg_s) * (head_k - point.air_k);
    assert!((fin_heat - point.fin_heat_w).abs() < 1e-6 * point.fin_heat_w);
}

#[test]
fn without_heat_every_temperature_is_the_total_temperature_outside() {
    let design = unregulated();
    let mut prepared = prepare(&design.installation, &design.conditions[CRUISE]).expect("prepared");
    let cowl = &mut prepared.cowl;
    cowl.heads.gas_w_k = 0.0;
    cowl.oil.friction_heat_w = 0.0;
    cowl.exhaust_heat_w = 0.0;
    cowl.skin_w_k = 0.0;
    let state = solve(cowl, None).expect("solved").state;
    let outside = cowl.stream.total_k;
    for (name, kelvin) in [
        ("upper deck", state.upper_k),
        ("behind fins", state.fins.out_k),
        ("lower deck", state.lower_k),
        ("head", state.head_k),
        ("oil", state.trial.oil_k),
    ] {
        assert!(
            (kelvin - outside).abs() < 1e-6,
            "{name}: {kelvin}, outside {outside}"
        );
    }
}

#[test]
fn a_tight_shutter_passes_no_air_and_a_tight_seal_no_leak() {
    let mut design = unregulated();
    design.installation.decks.sealing = Sealing::MeasuredLeak;
    design.installation.decks.measured_leak.value = 0.0;
    design.installation.shutter.closed_gap = 0.0;
    design.conditions[CRUISE].shutter_opening = 0.0;
    let answer = evaluate(&design, CRUISE).expect("solved");
    assert_eq!(answer.cooler_flow.value, 0.0);
    assert_eq!(answer.leak_flow.value, 0.0);
    // What the oil takes up then leaves through the sump alone.
    let left = answer.oil_heat.value - answer.state.sump_heat_w;
    assert!(
        left.abs() < 1e-6 * answer.oil_heat.value,
        "{left} W are unaccounted for"
    );
}

#[test]
fn the_held_opening_brings_the_gauge_to_the_target() {
    for probe in [OilProbe::AfterCooler, OilProbe::BeforeCooler] {
        let mut design = example::design();
        design.installation.oil.probe = probe;
        let condition = &mut design.conditions[CRUISE];
        if probe == OilProbe::BeforeCooler {
            // The thermostat keeps the oil before the cooler above what it delivers.
            condition.oil_target.value = degf(220.0);
        }
        let condition = &design.conditions[CRUISE];
        let found = solve_condition(&design.installation, condition, None).expect("solved");
        let gauge = found.oil_gauge_k(&design.installation);
        assert!(
            (gauge - condition.oil_target.value).abs() < 1e-6,
            "{probe:?}: {gauge}"
        );
        assert!(found.opening > 0.0 && found.opening < 1.0);
    }
}

#[test]
fn a_cooler_bought_bigger_or_a_duct_made_wider_cools_the_oil_a_narrow_duct_does_not_do() {
    // M03 (common practice): a 4 in hose holds the oil limit on a hot day where 2 in does not.
    let mut design = example::design();
    let margin = |design: &Design| evaluate(design, TAKE_OFF).expect("solved").oil_margin.value;
    let wide = margin(&design);
    design.installation.cooler.duct_diameter.value = 2.0 * 0.0254;
    let narrow = margin(&design);
    assert!(
        wide > 0.0 && narrow < 0.0,
        "4 in: {wide} K, 2 in: {narrow} K"
    );
}

#[test]
fn conditions_do_not_touch_each_other() {
    let design = example::design();
    let mut alone = design.clone();
    alone.conditions = vec![design.conditions[CRUISE].clone()];
    let together = evaluate(&design, CRUISE).expect("solved");
    let single = evaluate(&alone, 0).expect("solved");
    assert_eq!(
        together.head_mean.value.to_bits(),
        single.head_mean.value.to_bits()
    );
    assert_eq!(together.drag.value.to_bits(), single.drag.value.to_bits());
}

#[test]
fn formulas_keep_their_form_under_any_units_of_mass_length_and_time() {
    let mut rng = Rng::with_seed(11);
    let mut scale = || (3.0 * (rng.f64() - 0.5)).exp();
    for _ in 0..500 {
        let (kg, m, s) = (scale(), scale(), scale());
        let pressure = kg / (m * s * s);
        let density = kg / (m * m * m);
        let flow = kg / s;
        let close = |name: &str, a: f64, b: f64| {
            assert!((a - b).abs() < 1e-11 * b.abs(), "{name}: {a} is not {b}");
        };
        let leak = orifice_flow(2e-3, 900.0, 1.1);
        close(
            "orifice",
            orifice_flow(2e-3 * m * m, 900.0 * pressure, 1.1 * density),
            leak * flow,
        );
        close(
            "loss",
            loss_drop(1.7, 0.2 * flow, 8e-3 * m * m, 1.1 * density),
            loss_drop(1.7, 0.2, 8e-3, 1.1) * pressure,
        );
        let inlet = InletElement {
            area_m2: 0.012,
            ram_pa: 1200.0,
            lip_loss: 0.4,
            diffusion_loss: 0.8,
            reverse_loss: 1.5,
            density: 1.1,
            incidence: Incidence::default(),
        };
        let scaled = InletElement {
            area_m2: inlet.area_m2 * m * m,
            ram_pa: inlet.ram_pa * pressure,
            density: inlet.density * density,
            ..inlet
        };
        for deck in [-400.0, 300.0, 1100.0, 1500.0] {
            close(
                "inlet",
                scaled.flow(deck * pressure, 1.05 * density),
                inlet.flow(deck, 1.05) * flow,
            );
        }
        let power = kg * m * m / (s * s * s);
        let here = slipstream(9e4, 0.85, 1.8, 45.0, 1.1);
        let there = slipstream(9e4 * power, 0.85, 1.8 * m, 45.0 * m / s, 1.1 * density);
        close(
            "propeller",
            there.pressure_rise_pa,
            here.pressure_rise_pa * pressure,
        );
    }
}

#[test]
fn a_nozzle_keeps_its_precision_down_to_the_smallest_pressure() {
    // W → A √(2 ρ Δp) as Δp → 0
    for drop in [1e-9, 1e-6, 1e-3] {
        let density = atmosphere::density(95_000.0, 300.0);
        let expected = (2.0 * density * drop).sqrt();
        let found = nozzle(95_000.0, 300.0, drop).flux;
        assert!(
            (found - expected).abs() < 1e-7 * expected,
            "{drop} Pa: {found}, {expected}"
        );
    }
}

#[test]
fn measured_inputs_carry_no_band_and_guessed_ones_do() {
    use coolpath_core::answer::band::bands;
    let mut design = example::design();
    let before = bands(&design, CRUISE).expect("bands");
    let widest = before
        .influences
        .iter()
        .max_by(|a, b| {
            let size = |i: &coolpath_core::answer::band::Influence| {
                let [low, high] = i.changes.map(|end| end.map_or(0.0, |end| end.head_mean));
                (high - low).abs()
            };
            size(a).total_cmp(&size(b))
        })
        .expect("some input has a range");
    assert!(before.figures.head_mean.wider() > 1.0);
    design.measured.push(coolpath_core::document::design::mark(
        widest.input.id,
        widest.place,
    ));
    let after = bands(&design, CRUISE).expect("bands");
    assert!(
        after.figures.head_mean.wider() < before.figures.head_mean.wider(),
        "{} measured, band still {}",
        widest.input.id,
        after.figures.head_mean.wider()
    );
    assert_eq!(after.influences.len() + 1, before.influences.len());
}

#[test]
fn a_condition_list_is_evaluated_in_its_order() {
    let mut design = example::design();
    design.conditions.reverse();
    let names: Vec<String> = coolpath_core::answer::evaluate::evaluate_all(&design)
        .into_iter()
        .map(|answer| answer.expect("solved").name)
        .collect();
    let given: Vec<String> = design
        .conditions
        .iter()
        .map(|condition: &Condition| condition.name.clone())
        .collect();
    assert_eq!(names, given);
    assert!(names.len() >= 5);
}

#[test]
fn one_more_square_inch_is_worth_what_a_full_solution_says() {
    use coolpath_core::answer::per_inch::{Opening, worth_of};
    let mut design = unregulated();
    design.installation.exits = vec![Exit {
        shape: ExitShape::Traced,
        ..Exit::default()
    }];
    let condition = &design.conditions[CRUISE];
    let base = solve_condition(&design.installation, condition, None).expect("solved");
    let exit = worth_of(
        &design.installation,
        condition.phase,
        &base,
        Opening::Exit(0),
    )
    .expect("worth");
    let before = evaluate(&design, CRUISE)
        .expect("solved")
        .head_hottest
        .value;
    let inch2 = 0.0254 * 0.0254;
    design.installation.exits[0].traced_area.value += inch2;
    let after = evaluate(&design, CRUISE)
        .expect("solved")
        .head_hottest
        .value;
    assert!(exit.head.value < 0.0 && exit.speed.expect("level flight").value < 0.0);
    // A secant over a whole inch differs from the slope by the curvature.
    assert!((exit.head.value - (after - before)).abs() < 0.05 * (after - before).abs());
}
