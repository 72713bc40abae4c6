//! Cooling drag and what it costs, against the momentum theorem counted by what enters
//! (`reference/generators/drag.py`).

use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::answer::warning::Warning;
use coolpath_core::document::condition::ShutterPolicy;
use coolpath_core::document::example;
use coolpath_core::document::installation::{CoolerDischarge, CoolerSupply};
use coolpath_core::path::drag::{cooling_drag, lossless_speed, speed_cost};
use coolpath_core::path::element::{Exit, ExitFlow, Inlet};
use coolpath_core::path::network::{Cowl, Discharge, Supply};
use coolpath_core::path::openings::Openings;
use coolpath_core::path::solve::solve;
use coolpath_core::path::state::State;
use coolpath_core::units::si::inch2;
use coolpath_tests::designs::augmentor;
use coolpath_tests::table::{Case, Tolerance, compare};

/// Any solved cowl; a case replaces all that drag depends on.
fn some_cowl() -> (Cowl, State) {
    let design = example::design();
    let cowl = prepare(&design.installation, &design.conditions[3])
        .expect("the example")
        .cowl;
    let state = solve(&cowl, None).expect("a solution").state;
    (cowl, state)
}

fn exit(case: &Case, place: &str) -> Exit {
    let number = |key: &str| case.number(&format!("inputs/{place}/{key}"));
    Exit {
        area_m2: number("area_m2"),
        discharge: number("discharge"),
        velocity_coefficient: number("velocity_coefficient"),
        outside_pa: number("outside_pa"),
        jet_cosine: number("angle_deg").to_radians().cos(),
        ejector: None,
    }
}

fn given(case: &Case) -> (Cowl, State) {
    let number = |key: &str| case.number(&format!("inputs/{key}"));
    let (mut cowl, mut state) = some_cowl();
    let stream = &mut cowl.stream;
    stream.pressure_pa = number("stream/pressure_pa");
    stream.temperature_k = number("stream/temperature_k");
    stream.speed_m_s = number("stream/speed_m_s");
    stream.propeller_rise_pa = number("stream/propeller_rise_pa");
    stream.density =
        coolpath_core::air::atmosphere::density(stream.pressure_pa, stream.temperature_k);
    stream.dynamic_pa = 0.5 * stream.density * stream.speed_m_s * stream.speed_m_s;
    cowl.inlets = Openings::default();
    state.inlets = [0.0; 4];
    for place in 0..case.count("inputs/inlets") {
        cowl.inlets.push(Inlet {
            area_m2: number(&format!("inlets/{place}/area_m2")),
            density: cowl.stream.density,
            ..Inlet::default()
        });
        state.inlets[place] = number(&format!("inlets/{place}/flow_kg_s"));
    }
    cowl.exits = Openings::default();
    for place in 0..case.count("inputs/exits") {
        let exit = exit(case, &format!("exits/{place}"));
        cowl.exits.push(exit);
        state.exits[place] = exit.flow(
            number("lower/pressure_pa"),
            number("lower/temperature_k"),
            cowl.stream.pressure_pa,
            cowl.stream.temperature_k,
        );
    }
    let text = |key: &str| case.value(&format!("inputs/cooler/{key}")).clone();
    cowl.cooler.supply = match text("supply").as_str() {
        Some("own inlet") => Supply::OwnInlet(Inlet {
            area_m2: number("cooler/inlet_area_m2"),
            ..Inlet::default()
        }),
        _ => Supply::UpperDeck,
    };
    cowl.cooler.discharge = match text("discharge").as_str() {
        Some("own exit") => Discharge::OwnExit(exit(case, "cooler/exit")),
        _ => Discharge::LowerDeck,
    };
    state.cooler.flow_kg_s = number("cooler/flow_kg_s");
    state.cooler_jet_m_s = case.number("expected/cooler_jet_m_s");
    state.overboard_kg_s = number("overboard_kg_s");
    state.cabin_kg_s = number("cabin_kg_s");
    state.inflow_kg_s = number("inflow_kg_s");
    (cowl, state)
}

#[test]
fn every_stream_pays_once_for_the_momentum_it_loses() {
    compare("drag and speed", |comparison| {
        let cases = Case::read_all("drag_cases");
        assert!(cases.len() >= 12);
        for case in &cases {
            let number = |key: &str| case.number(&format!("inputs/{key}"));
            let (cowl, state) = given(case);
            let parts = cooling_drag(&cowl, &state, number("spillage"), number("flap_drag_m2"));
            let mut figures = vec![("drag_n".to_owned(), parts.total_n())];
            for place in 0..case.count("inputs/exits") {
                figures.push((format!("exit_kg_s/{place}"), state.exits[place].flow_kg_s));
                figures.push((format!("exit_m_s/{place}"), state.exits[place].speed_m_s));
            }
            for (key, found) in figures {
                let expected = case.number(&format!("expected/{key}"));
                // Ten digits are printed.
                let tolerance = Tolerance::absolute(1e-9 * expected.abs());
                comparison.value(format!("{case}, {key}"), found, expected, tolerance);
            }
            let cost = speed_cost(
                number("stream/speed_m_s"),
                parts.total_n(),
                number("induced_share"),
                number("thrust_n"),
            );
            let expected = case.number("expected/speed_cost_m_s");
            // The script's central difference over 2e-4 of the thrust.
            let tolerance = Tolerance::absolute(1e-7 * expected);
            comparison.value(
                format!("{case}, speed"),
                cost.unwrap_or(f64::NAN),
                expected,
                tolerance,
            );
        }
    });
    assert_eq!(speed_cost(60.0, 30.0, 0.25, 0.0), None);
}

#[test]
fn the_cowls_solved_jet_is_the_one_that_drag_counts() {
    // W = ρ C_d A V, from the state that the solver gives.
    let (mut cowl, _) = some_cowl();
    let own = Exit {
        area_m2: 0.008,
        discharge: 0.8,
        velocity_coefficient: 0.97,
        outside_pa: -250.0,
        jet_cosine: 1.0,
        ejector: None,
    };
    cowl.cooler.discharge = Discharge::OwnExit(own);
    let state = solve(&cowl, None).expect("a solution").state;
    let density = coolpath_core::air::atmosphere::density(
        cowl.stream.pressure_pa + own.outside_pa,
        state.cooler.out_k,
    );
    let flow = density * own.discharge * own.area_m2 * state.cooler_jet_m_s;
    assert!(state.cooler.flow_kg_s > 0.0);
    assert!((flow - state.cooler.flow_kg_s).abs() < 1e-12 * flow);
}

#[test]
fn drag_is_steady_where_an_exit_turns_backward() {
    let (cowl, mut state) = some_cowl();
    let mut at = |lower_pa: f64| {
        let exit = cowl.exits.as_slice()[0];
        let ambient = (cowl.stream.pressure_pa, cowl.stream.temperature_k);
        state.exits[0] = exit.flow(exit.outside_pa + lower_pa, 350.0, ambient.0, ambient.1);
        cooling_drag(&cowl, &state, 0.2, 0.0).total_n()
    };
    assert!((at(1e-9) - at(-1e-9)).abs() < 1e-3);
}

/// A cowl whose only exit is an augmentor.
fn with_augmentor() -> (Cowl, State, Exit) {
    let (mut cowl, state) = some_cowl();
    let exit = augmentor();
    cowl.exits = Openings::default();
    cowl.exits.push(exit);
    (cowl, state, exit)
}

#[test]
fn an_augmentor_pays_for_the_air_it_draws_and_for_what_its_exhaust_loses() {
    let (cowl, mut state, _) = with_augmentor();
    let mut exits_n = |flow_kg_s: f64, speed_m_s: f64| {
        state.exits[0] = ExitFlow {
            flow_kg_s,
            speed_m_s,
        };
        cooling_drag(&cowl, &state, 0.2, 0.0).exits_n
    };
    let entering = 0.3 * lossless_speed(&cowl);
    // 0.4 kg/s leave at 52 m/s where the gas alone had 12 N; 100 Pa below the outside over 0.01 m².
    let drawing = entering - 0.96 * 0.9 * (0.4 * 52.0 - 12.0) + 1.0;
    assert!((exits_n(0.3, 8.8 / 0.3) - drawing).abs() < 1e-9);
    // With nothing drawn, 0.1 kg/s of it leave at 25 m/s; so too where air comes in.
    let alone = -0.96 * 0.9 * (2.5 - 12.0) + 1.0;
    assert!((exits_n(0.0, 0.0) - alone).abs() < 1e-9);
    assert!((exits_n(-0.2, -30.0) - alone).abs() < 1e-9);
}

#[test]
fn drag_is_steady_where_an_augmentor_turns_backward() {
    let (cowl, mut state, exit) = with_augmentor();
    let mut at = |above_pa: f64| {
        let ambient = (cowl.stream.pressure_pa, cowl.stream.temperature_k);
        state.exits[0] = exit.flow(exit.rest_pa() + above_pa, 350.0, ambient.0, ambient.1);
        cooling_drag(&cowl, &state, 0.2, 0.0).total_n()
    };
    assert!((at(1e-6) - at(-1e-6)).abs() < 1e-3);
    assert!((at(1e-6) - at(0.0)).abs() < 1e-3);
}

#[test]
fn the_velocity_coefficient_moves_the_drag_and_nothing_else() {
    let design = example::design();
    let mut lossy = design.clone();
    lossy.installation.exits[0].velocity_coefficient = 0.9;
    for place in 0..design.conditions.len() {
        let a = evaluate(&design, place).expect("solved");
        let b = evaluate(&lossy, place).expect("solved");
        assert_eq!(a.state, b.state);
        assert!(b.drag.value > a.drag.value, "{}", a.name);
    }
}

#[test]
fn the_coolers_own_inlet_pays_at_its_lip_for_what_the_ram_does_not_bring_and_says_so() {
    let mut design = example::design();
    let cooler = &mut design.installation.cooler;
    cooler.supply = CoolerSupply::OwnInlet;
    cooler.discharge = CoolerDischarge::OwnExit;
    cooler.own_inlet_area.value = inch2(8.0);
    cooler.own_exit_area.value = inch2(30.0);
    let answer = |recovery: f64, suction: f64, lip: f64| {
        let mut design = design.clone();
        let cooler = &mut design.installation.cooler;
        cooler.own_inlet_recovery = recovery;
        cooler.own_exit_pressure = suction;
        cooler.own_inlet_lip_loss = lip;
        design.conditions[3].shutter = ShutterPolicy::Fixed;
        evaluate(&design, 3).expect("solved")
    };
    let flow = |recovery, suction, lip| answer(recovery, suction, lip).cooler_flow.value;
    let said = |answer: &Answer| {
        let named = |warning: &&Warning| matches!(warning, Warning::CoolerInletOverdrawn { .. });
        answer.warnings.iter().find(named).is_some()
    };
    // Ram enough: the lip has nothing to turn in.
    assert_eq!(flow(0.9, -0.1, 0.0), flow(0.9, -0.1, 1.0));
    assert!(!said(&answer(0.9, -0.1, 0.5)));
    // Hardly any ram, and suction behind.
    assert!(flow(0.02, -1.0, 1.0) < 0.97 * flow(0.02, -1.0, 0.0));
    assert!(said(&answer(0.02, -1.0, 0.5)));
    // An inlet too big spills: k_s ½ ρ A (V₀ − V₁)².
    let spilled = |area: f64| {
        let mut design = design.clone();
        design.installation.cooler.own_inlet_area.value = area;
        evaluate(&design, 3).expect("solved").drag_parts.spillage_n
    };
    assert!(spilled(inch2(60.0)) > spilled(inch2(8.0)) + 1.0);
}
