//! Openings, nozzle, drag, whole-path cases and the four-solver network.

use coolpath_core::air::{airspeed, atmosphere, propeller};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::document::example;
use coolpath_core::math::root::{RootError, bracketed_root};
use coolpath_core::path::drag::cooling_drag;
use coolpath_core::path::element::{Exit, ExitFlow, Inlet, nozzle, orifice_flow};
use coolpath_core::path::inlet_map::Incidence;
use coolpath_core::path::network::Cowl;
use coolpath_core::path::openings::Openings;
use coolpath_core::path::report::SolveError;
use coolpath_core::path::solve::solve;
use coolpath_core::path::state::State;
use coolpath_tests::plain_network::{Plain, figures, inlet};
use coolpath_tests::table::{Table, Tolerance, compare};

const INCH2: f64 = 0.0254 * 0.0254;
const POUND: f64 = 0.453_592_37;
const INCH_OF_WATER: f64 = 249.088_91;

#[test]
fn a_leak_follows_the_orifice_equation() {
    compare("leak", |comparison| {
        for row in Table::read("leak").rows() {
            let area = row.input("discharge") * row.input("area_in2") * INCH2;
            let drop = row.input("drop_inh2o") * INCH_OF_WATER;
            comparison.row(
                &row,
                orifice_flow(area, drop, atmosphere::DENSITY_SL) / POUND,
            );
        }
    });
    assert_eq!(
        orifice_flow(1e-3, -800.0, 1.2),
        -orifice_flow(1e-3, 800.0, 1.2)
    );
}

#[test]
fn the_nozzle_loses_to_compressibility_what_the_closed_form_says() {
    compare("nozzle", |comparison| {
        for row in Table::read("gas_dynamics").rows() {
            if !row.text("quantity").contains("nozzle") {
                continue;
            }
            let total = 90_000.0;
            let below = row.input("drop_over_total") * total;
            let incompressible = (2.0 * atmosphere::density(total, 400.0) * below).sqrt();
            comparison.row(&row, nozzle(total, 400.0, below).flux / incompressible);
        }
    });
    // Beyond the critical ratio more suction brings no more flow.
    assert_eq!(nozzle(1e5, 300.0, 6e4).flux, nozzle(1e5, 300.0, 9e4).flux);
}

#[test]
fn an_inlet_keeps_the_pressure_that_bernoulli_leaves() {
    compare("static recovery", |comparison| {
        for row in Table::read("inlet_recovery").rows() {
            // With the whole dynamic pressure lost inside, the deck has what stood at the face.
            let inlet = Inlet {
                area_m2: 0.02,
                ram_pa: 0.5 * 1.1 * 60.0 * 60.0,
                lip_loss: 1.0,
                diffusion_loss: 1.0,
                reverse_loss: 1.5,
                density: 1.1,
                incidence: Incidence::default(),
            };
            let flow = row.input("velocity_ratio") * 60.0 * 1.1 * 0.02;
            let deck = bracketed_root(
                |pressure| inlet.flow(pressure, 1.1) - flow,
                0.0,
                inlet.ram_pa,
                1e-12,
            )
            .expect("a deck pressure");
            let recovery = deck.x / inlet.ram_pa;
            comparison.value(
                row.text("id"),
                recovery,
                row.number("value"),
                Tolerance::absolute(1e-12),
            );
        }
    });
}

#[test]
fn whole_paths_at_given_flow_and_heat_match_the_worked_cases() {
    compare("cases A to D", |comparison| {
        for row in Table::read("path_cases").rows() {
            let h = row.number("pressure_altitude_ft") * 0.3048;
            let p0 = atmosphere::standard_pressure(h);
            let t0 = atmosphere::standard_temperature(h) + row.number("isa_offset_k");
            let density = atmosphere::density(p0, t0);
            let cas = row.number("cas_kt") * 1852.0 / 3600.0;
            let mach = airspeed::mach(airspeed::impact_pressure(cas), p0);
            let speed = mach * atmosphere::speed_of_sound(t0);
            let dynamic = 0.5 * density * speed * speed;
            let ram = airspeed::compressed_rise(mach, p0);
            let flow = row.number("flow_lb_s") * POUND;
            let inlet = Inlet {
                area_m2: row.number("inlet_in2") * INCH2,
                // The whole impact pressure stands before the inlet.
                ram_pa: ram,
                lip_loss: 0.0,
                diffusion_loss: 1.0 - row.number("diffuser_recovery"),
                reverse_loss: 1.5,
                density,
                incidence: Incidence::default(),
            };
            let upper = bracketed_root(
                |pressure| inlet.flow(pressure, density) - flow,
                -ram,
                ram,
                1e-12,
            )
            .expect("an upper deck")
            .x;
            let lower = upper - row.number("fins_inh2o") * INCH_OF_WATER;
            let rise = row.number("heat_kw") * 1e3 / (flow * atmosphere::SPECIFIC_HEAT);
            let total_k = airspeed::total_temperature(mach, t0) + rise;
            let outside = row.number("exit_pressure_coefficient") * dynamic;
            let jet = nozzle(p0 + lower, total_k, lower - outside);
            let area = flow / jet.flux;
            // D = W V₀ − W V₅ − (p₅ − p₀) A₅
            let drag = flow * (speed - jet.speed_m_s) - outside * area;
            let velocity_ratio = flow / (density * inlet.area_m2 * speed);
            comparison.cell(&row, "inlet_velocity_ratio", velocity_ratio);
            comparison.cell(&row, "upper_inh2o", upper / INCH_OF_WATER);
            comparison.cell(&row, "lower_inh2o", lower / INCH_OF_WATER);
            comparison.cell(&row, "temperature_rise_k", rise);
            comparison.cell(&row, "exit_m_s", jet.speed_m_s);
            comparison.cell(&row, "exit_in2", area / INCH2);
            comparison.cell(&row, "drag_n", drag);
            let exit = Exit {
                area_m2: area,
                discharge: 1.0,
                velocity_coefficient: 1.0,
                outside_pa: outside,
                jet_cosine: 1.0,
                ejector: None,
            };
            let through = exit.flow(lower, total_k, p0, t0).flow_kg_s;
            comparison.value("exit element", through, flow, Tolerance::absolute(1e-12));
        }
    });
}

#[test]
fn the_network_matches_four_independent_solvers() {
    compare("network", |comparison| {
        for row in Table::read("network_crosscheck").rows() {
            let shutter_loss = match row.text("shutter_deg") {
                "0" => 0.3,
                "30" => 3.91,
                "50" => 32.6,
                "60" => 118.0,
                other => panic!("no loss for {other}°"),
            };
            let network = Plain {
                shutter_loss,
                rough_hose: row.flag("hose_friction"),
                power_law: row.text("cylinder_law") != "quadratic",
                ..Plain::default()
            };
            let state = solve(&network.cowl(), None).expect("a solution").state;
            // scipy's solvers agree to the digits printed; the water-network codes carry their
            // own unit conversions and friction fits.
            let share = match row.text("solver") {
                solver if solver.starts_with("scipy") => 1e-6,
                solver if solver.contains("pandapipes") => 1e-4,
                _ => 6e-4,
            };
            let place = format!(
                "{}° {} {} {}",
                row.text("shutter_deg"),
                row.text("hose_friction"),
                row.text("cylinder_law"),
                row.text("solver")
            );
            for (column, found) in figures(&state) {
                let expected = row.number(column);
                comparison.value(
                    format!("{place} {column}"),
                    found,
                    expected,
                    Tolerance::absolute(share * expected),
                );
            }
        }
    });
}

#[test]
fn still_air_and_roots_without_bracket_are_errors_by_name() {
    let mut still = Plain::default().cowl();
    still.inlets = Openings::default();
    still
        .inlets
        .push(inlet(0.025, still.exits.as_slice()[0].outside_pa));
    assert!(matches!(
        solve(&still, None),
        Err(SolveError::NoDrivingPressure { .. })
    ));
    let none = bracketed_root(|x| x * x + 1.0, -1.0, 1.0, 1e-12);
    assert!(matches!(none, Err(RootError::NotBracketed { .. })));
    let root = bracketed_root(|x| x.exp() - 2.0, 0.0, 4.0, 1e-14).expect("ln 2");
    assert!((root.x - std::f64::consts::LN_2).abs() < 1e-13 && root.evaluations < 20);
}

/// A cowl of one inlet as wide as the stream it takes and one exit, nothing else, at a flight speed
/// of 80 m/s in air so stiff that it is incompressible.
fn plain_cowl(flow: f64, speed: f64, exit: Exit) -> (Cowl, State) {
    let design = example::design();
    let mut cowl = prepare(&design.installation, &design.conditions[3])
        .expect("the example")
        .cowl;
    let mut state = solve(&cowl, None).expect("a solution").state;
    cowl.stream.speed_m_s = speed;
    cowl.stream.density = 1.0;
    cowl.stream.propeller_rise_pa = 0.0;
    cowl.inlets = Openings::default();
    cowl.inlets.push(Inlet {
        area_m2: 1.0,
        ..Inlet::default()
    });
    cowl.exits = Openings::default();
    cowl.exits.push(exit);
    state.inlets = [flow, 0.0, 0.0, 0.0];
    state.overboard_kg_s = 0.0;
    state.cabin_kg_s = 0.0;
    state.inflow_kg_s = 0.0;
    (cowl, state)
}

#[test]
fn unheated_drag_matches_the_momentum_theorem_and_exceeds_the_pumping_power() {
    let exit = Exit {
        area_m2: 1.0,
        discharge: 1.0,
        velocity_coefficient: 1.0,
        outside_pa: 0.0,
        jet_cosine: 1.0,
        ejector: None,
    };
    compare("momentum drag", |comparison| {
        for row in Table::read("momentum_drag").rows() {
            let loss = row.input("loss");
            let (speed, density) = (80.0, 1.0);
            let dynamic = 0.5 * density * speed * speed;
            // In the incompressible limit the nozzle's absolute pressure is far above q.
            let huge = 1e18;
            let kelvin = huge / (atmosphere::GAS_CONSTANT * density);
            // Flow and drag of the air that the exit lets out, heated to a temperature.
            let drag_at = |kelvin: f64| {
                let jet = nozzle(huge, kelvin, (1.0 - loss) * dynamic);
                let flow = density * speed;
                let (cowl, mut state) = plain_cowl(flow, speed, exit);
                state.exits[0] = ExitFlow {
                    flow_kg_s: flow,
                    speed_m_s: jet.speed_m_s,
                };
                cooling_drag(&cowl, &state, 0.0, 0.0).total_n()
            };
            match row.text("quantity") {
                "drag coefficient on the area captured" => {
                    comparison.row(&row, drag_at(kelvin) / dynamic);
                }
                "drag power over pumping power" => {
                    comparison.row(&row, drag_at(kelvin) * speed / (loss * dynamic * speed));
                }
                // The heat at which the drag vanishes.
                _ => comparison.row(&row, {
                    let ratio = bracketed_root(|ratio| drag_at(ratio * kelvin), 0.5, 5.0, 1e-14);
                    ratio.map_or(f64::NAN, |root| root.x)
                }),
            }
        }
    });
}

#[test]
fn the_propeller_obeys_its_two_equations_from_rest_to_cruise() {
    let (power, efficiency, diameter, density) = (9e4, 0.85, 1.83, 1.1);
    let area = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    let mut before = f64::INFINITY;
    for step in 0..=140 {
        let speed = f64::from(step);
        let found = propeller::slipstream(power, efficiency, diameter, speed, density);
        let work = found.thrust_n * (speed + found.induced_m_s);
        assert!(
            (work - efficiency * power).abs() < 1e-9 * power,
            "{speed} m/s"
        );
        let momentum = 2.0 * density * area * found.induced_m_s * (speed + found.induced_m_s);
        assert!((momentum - found.thrust_n).abs() < 1e-9 * momentum);
        assert!(found.thrust_n < before, "thrust falls with speed");
        before = found.thrust_n;
    }
    // At rest: T³ = 2 ρ A (η P)²
    let rest = propeller::slipstream(power, efficiency, diameter, 0.0, density).thrust_n;
    let closed = (2.0 * density * area * (efficiency * power).powi(2)).cbrt();
    assert!((rest - closed).abs() < 1e-9 * closed);
    assert_eq!(
        propeller::slipstream(0.0, 0.85, 1.8, 0.0, 1.1).thrust_n,
        0.0
    );
}
