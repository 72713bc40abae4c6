//! The whole air path with heads and oil, against an independent model in another formulation
//! (`reference/generators/full_path.py`: all unknowns at once, flows as unknowns).

use coolpath_core::air::{airspeed, atmosphere, propeller};
use coolpath_core::engine::bypass::Bypass;
use coolpath_core::engine::cooler::Conductance;
use coolpath_core::engine::cooler_pair::{Cores, Join};
use coolpath_core::engine::heads::{FinConductance, FinResistance, Heads};
use coolpath_core::engine::oil;
use coolpath_core::path::drag;
use coolpath_core::path::ejector::Ejector;
use coolpath_core::path::element::{CoolerDuct, Exit, Friction, Inlet};
use coolpath_core::path::inlet_map::Incidence;
use coolpath_core::path::loss;
use coolpath_core::path::network::{
    CoolerBranch, Cowl, Discharge, FreeStream, OilLoop, Opening, Supply,
};
use coolpath_core::path::openings::{MAX_OPENINGS, Openings};
use coolpath_core::path::report::gauge_temperature;
use coolpath_core::path::solve::solve;
use coolpath_core::path::split_deck::{Draws, Halves};
use coolpath_tests::plain_halves::{compare_row, figures};
use coolpath_tests::table::{Case, Table, Tolerance, compare};

fn stream(case: &Case) -> FreeStream {
    let number = |key: &str| case.number(&format!("inputs/{key}"));
    let pressure_pa = number("free_stream/pressure_pa");
    let temperature_k = number("free_stream/temperature_k");
    let speed_m_s = number("free_stream/speed_m_s");
    let density = atmosphere::density(pressure_pa, temperature_k);
    let mach = speed_m_s / atmosphere::speed_of_sound(temperature_k);
    let diameter = (number("propeller/disc_area_m2") / std::f64::consts::FRAC_PI_4).sqrt();
    let rise = propeller::slipstream(
        number("propeller/power_w"),
        number("propeller/efficiency"),
        diameter,
        speed_m_s,
        density,
    )
    .pressure_rise_pa;
    FreeStream {
        pressure_pa,
        temperature_k,
        total_k: airspeed::total_temperature(mach, temperature_k),
        density,
        speed_m_s,
        dynamic_pa: 0.5 * density * speed_m_s * speed_m_s,
        impact_pa: airspeed::compressed_rise(mach, pressure_pa),
        propeller_rise_pa: number("propeller/inlet_share") * rise,
    }
}

fn cores(case: &Case) -> Cores {
    let said = |key: &str| case.value(&format!("inputs/cooler/{key}")).clone();
    let way = |key: &str| {
        if said(key).as_bool().expect("yes or no") {
            Join::Shared
        } else {
            Join::InTurn
        }
    };
    match said("cores").as_str() {
        Some("two") => Cores::Two {
            air: way("air_shared"),
            oil: way("oil_shared"),
        },
        _ => Cores::One,
    }
}

/// Loss behind the core on the velocity in its face [-].
fn behind_loss(case: &Case) -> f64 {
    let number = |key: &str| case.number(&format!("inputs/cooler/{key}"));
    let open = 1.0 - number("plate_share");
    let spreading = loss::sudden_expansion(open) / (open * open);
    if number("gap_m2") > 0.0 {
        let gap = loss::standoff(number("face_m2"), number("gap_m2"), number("gap_discharge"));
        spreading + gap
    } else {
        spreading
    }
}

/// Loss of a plate's opening before the core on the velocity in the duct [-].
fn plate_loss(case: &Case) -> f64 {
    let number = |key: &str| case.number(&format!("inputs/cooler/{key}"));
    let open = 1.0 - number("plate_share");
    let narrowing = number("duct_area_m2") / (open * number("face_m2"));
    loss::sudden_contraction(open) * narrowing * narrowing
}

fn exits(case: &Case, stream: &FreeStream) -> Openings<Exit> {
    let number = |key: &str| case.number(&format!("inputs/{key}"));
    let mut exits = Openings::default();
    for place in 0..case.count("inputs/exits") {
        let exit = |key: &str| number(&format!("exits/{place}/{key}"));
        exits.push(Exit {
            area_m2: exit("area_m2"),
            discharge: exit("discharge"),
            velocity_coefficient: exit("velocity_coefficient"),
            outside_pa: exit("pressure_coefficient") * stream.dynamic_pa,
            jet_cosine: exit("angle_deg").to_radians().cos(),
            ejector: (exit("stacks_m2") > 0.0).then(|| Ejector {
                gas_kg_s: exit("gas_kg_s"),
                gas_m3_kg: 1.0 / atmosphere::density(stream.pressure_pa, exit("gas_k")),
                stacks_m2: exit("stacks_m2"),
                pulses: exit("pulses"),
                wall_loss: exit("wall_loss"),
            }),
        });
    }
    exits
}

/// How the stream meets an inlet: straight where the case says nothing.
fn incidence(case: &Case, place: usize) -> Incidence {
    let path = format!("inputs/inlets/{place}");
    if case.value(&path).get("met").is_none() {
        return Incidence::default();
    }
    let met = |key: &str| case.number(&format!("{path}/met/{key}"));
    Incidence::new(
        met("angle_deg"),
        met("crossflow"),
        met("radius_over_height"),
        met("nose"),
        met("factor"),
    )
}

fn cowl(case: &Case) -> Cowl {
    let number = |key: &str| case.number(&format!("inputs/{key}"));
    let stream = stream(case);
    let opening = |name: &str, outside_pa: f64| Opening {
        effective_area_m2: number(&format!("{name}/discharge"))
            * number(&format!("{name}/area_m2")),
        outside_pa,
    };
    let mut inlets = Openings::default();
    for place in 0..case.count("inputs/inlets") {
        let inlet = |key: &str| number(&format!("inlets/{place}/{key}"));
        inlets.push(Inlet {
            area_m2: inlet("area_m2"),
            ram_pa: inlet("ram_share") * stream.impact_pa + stream.propeller_rise_pa,
            lip_loss: inlet("lip_k"),
            diffusion_loss: inlet("downstream_k"),
            reverse_loss: 1.5,
            density: stream.density,
            incidence: incidence(case, place),
        });
    }
    // The other model's oil has one specific heat and a mass flow; here both follow the oil's
    // temperature. The flows are scaled so that heat capacities agree at the case's own oil.
    let oil_k = case.number("expected/oil_k");
    let scale = number("oil/heat_capacity_j_kg_k") / oil::specific_heat(oil_k);
    let reference_flow = number("heads/reference_flow_kg_s");
    let duct_m2 = number("cooler/duct_area_m2");
    let open = 1.0 - number("cooler/plate_share");
    Cowl {
        stream,
        inlets,
        halves: None,
        fins: FinResistance {
            constant: number("fins/resistance"),
            exponent: number("fins/exponent"),
        },
        heads: Heads {
            gas_w_k: number("heads/gas_w_k"),
            gas_k: number("heads/gas_k"),
            oil_w_k: number("heads/oil_w_k"),
            fins: FinConductance::through(number("heads/reference_fin_w_k"), reference_flow, 0.6)
                .expect("a possible known point"),
        },
        seal_m2: opening("seal", 0.0).effective_area_m2,
        blast_m2: opening("blast", 0.0).effective_area_m2,
        overboard: opening(
            "overboard",
            number("overboard/pressure_coefficient") * stream.dynamic_pa,
        ),
        cabin: Opening::default(),
        induction_kg_s: number("induction_kg_s"),
        lower_induction_kg_s: case
            .value("inputs")
            .get("lower_induction_kg_s")
            .and_then(serde_json::Value::as_f64)
            .unwrap_or(0.0),
        inflow: opening("inflow", number("inflow/impact_share") * stream.impact_pa),
        cooler: CoolerBranch {
            duct: CoolerDuct {
                area_m2: duct_m2,
                diameter_m: 1.0,
                fittings_loss: number("cooler/duct_k") + plate_loss(case),
                length_ratio: 0.0,
                friction: Friction::Factor(0.0),
                shutter_passage: if duct_m2 > 0.0 { f64::INFINITY } else { 0.0 },
                core_constant: cores(case).air_drop(number("cooler/core_exponent"))
                    * number("cooler/core_resistance")
                    / open.powf(number("cooler/core_exponent")),
                core_exponent: number("cooler/core_exponent"),
                face_m2: number("cooler/face_m2"),
                behind_loss: behind_loss(case),
            },
            conductance: Conductance {
                rated_w_k: open * number("cooler/ua_w_k"),
                rated_air_kg_s: open * number("cooler/rated_air_kg_s"),
                rated_oil_kg_s: number("cooler/rated_oil_kg_s") * scale,
                air_share: 0.5,
                air_exponent: 0.5,
            },
            supply: Supply::UpperDeck,
            discharge: Discharge::LowerDeck,
            preheat_share: number("cooler/preheat_share"),
            cores: cores(case),
        },
        exits: exits(case, &stream),
        exhaust_heat_w: number("lower_deck/exhaust_heat_w"),
        skin_w_k: number("lower_deck/skin_w_k"),
        oil: OilLoop {
            friction_heat_w: number("oil/friction_heat_w"),
            pump_m3_s: number("oil/flow_kg_s") * scale / oil::density(oil_k),
            bypass: Some(Bypass {
                opens_k: number("oil/thermostat/open_k"),
                full_k: number("oil/thermostat/full_k"),
                leak_share: number("oil/thermostat/leak"),
            }),
            sump_w_k: number("oil/sump_w_k"),
        },
    }
}

#[test]
fn the_whole_path_agrees_with_an_independent_model() {
    compare(
        "the whole path agrees with an independent model",
        |comparison| {
            let cases = Case::read_all("full_path_cases");
            assert!(cases.len() >= 24);
            for case in &cases {
                let cowl = cowl(case);
                let state = solve(&cowl, None)
                    .unwrap_or_else(|error| panic!("{case}: {error:?}"))
                    .state;
                let spillage = case.number("inputs/inlets/0/spillage_k");
                let drag_n = drag::cooling_drag(&cowl, &state, spillage, 0.0).total_n();
                let mut figures: Vec<(String, f64)> = [
                    ("upper_pa", state.trial.upper_pa),
                    ("lower_pa", state.trial.lower_pa),
                    ("fin_kg_s", state.fins.flow_kg_s),
                    ("seal_kg_s", state.seal_kg_s),
                    ("blast_kg_s", state.blast_kg_s),
                    ("cooler_kg_s", state.cooler.flow_kg_s),
                    ("overboard_kg_s", state.overboard_kg_s),
                    ("inflow_kg_s", state.inflow_kg_s),
                    ("upper_k", state.upper_k),
                    ("rear_k", state.fins.out_k),
                    ("lower_k", state.lower_k),
                    ("head_k", state.head_k),
                    ("oil_k", state.trial.oil_k),
                    ("fin_heat_w", state.fins.heat_w),
                    ("cooler_heat_w", state.cooler.heat_w),
                    ("drag_n", drag_n),
                ]
                .map(|(key, value)| (key.to_owned(), value))
                .into();
                for place in 0..case.count("inputs/inlets") {
                    figures.push((format!("inlet_kg_s/{place}"), state.inlets[place]));
                }
                for place in 0..case.count("inputs/exits") {
                    figures.push((format!("exit_kg_s/{place}"), state.exits[place].flow_kg_s));
                    figures.push((format!("exit_m_s/{place}"), state.exits[place].speed_m_s));
                }
                // Air that does not flow has no temperature.
                if state.cooler.flow_kg_s != 0.0 {
                    let delivered = gauge_temperature(&state, true);
                    figures.push(("delivered_k".to_owned(), delivered));
                    figures.push(("cooler_oil_share".to_owned(), state.terms.cooler.share));
                    figures.push(("cooler_in_k".to_owned(), state.cooler.in_k));
                    figures.push(("cooler_out_k".to_owned(), state.cooler.out_k));
                }
                for (key, found) in figures {
                    let expected = case.number(&format!("expected/{key}"));
                    // Ten digits are printed; what is near zero is judged on a usual figure's scale.
                    let usual = if key.contains("kg_s") { 0.1 } else { 1.0 };
                    let tolerance = Tolerance::absolute(1e-8 * expected.abs().max(usual));
                    comparison.value(format!("{case}, {key}"), found, expected, tolerance);
                }
            }
        },
    );
}

fn halves(case: &Case) -> Halves {
    let side = |place: String| {
        let value = case.value(&format!("inputs/{place}/side")).clone();
        value.as_str().map(str::to_owned).expect("a side")
    };
    let mut left_share = [0.5; MAX_OPENINGS];
    for (place, share) in left_share
        .iter_mut()
        .take(case.count("inputs/inlets"))
        .enumerate()
    {
        *share = match side(format!("inlets/{place}")).as_str() {
            "left" => 1.0,
            "right" => 0.0,
            _ => 0.5,
        };
    }
    Halves {
        across_m2: case.number("inputs/across/discharge") * case.number("inputs/across/area_m2"),
        left_share,
        cooler_on_left: side("cooler".to_owned()) == "left",
        draws: draws(case),
    }
}

/// Where the airs are taken that a case names with their side.
fn draws(case: &Case) -> Draws {
    let left_share = |air: &str| match case
        .value("inputs")
        .pointer(&format!("/draws/{air}"))
        .map(|side| side.as_str().expect("a side"))
    {
        Some("left") => 1.0,
        Some("right") => 0.0,
        _ => 0.5,
    };
    Draws {
        blast: left_share("blast"),
        cabin: left_share("cabin"),
        induction: left_share("induction"),
    }
}

/// The cowl of a case with its upper deck split.
fn split_cowl(case: &Case) -> Cowl {
    let cabin = case.value("inputs").get("cabin").map(|_| Opening {
        effective_area_m2: case.number("inputs/cabin/discharge")
            * case.number("inputs/cabin/area_m2"),
        outside_pa: 0.0,
    });
    Cowl {
        halves: Some(halves(case)),
        cabin: cabin.unwrap_or_default(),
        ..cowl(case)
    }
}

#[test]
fn an_upper_deck_in_two_halves_agrees_with_an_independent_model() {
    compare(
        "an upper deck in two halves agrees with an independent model",
        |comparison| {
            let cases = Case::read_all("split_deck_cases");
            assert!(cases.len() >= 7);
            for case in &cases {
                let cowl = split_cowl(case);
                let state = solve(&cowl, None)
                    .unwrap_or_else(|error| panic!("{case}: {error:?}"))
                    .state;
                let sides = state.sides.expect("two halves");
                let mut figures: Vec<(String, f64)> = [
                    ("left_upper_pa", sides.left.upper_pa),
                    ("right_upper_pa", sides.right.upper_pa),
                    ("left_fin_kg_s", sides.left.fin_kg_s),
                    ("right_fin_kg_s", sides.right.fin_kg_s),
                    ("left_head_k", sides.left.head_k),
                    ("right_head_k", sides.right.head_k),
                    ("across_kg_s", sides.across_kg_s),
                    ("lower_pa", state.trial.lower_pa),
                    ("lower_k", state.lower_k),
                    ("oil_k", state.trial.oil_k),
                    ("cooler_kg_s", state.cooler.flow_kg_s),
                    ("cooler_in_k", state.cooler.in_k),
                    ("cooler_out_k", state.cooler.out_k),
                ]
                .map(|(key, value)| (key.to_owned(), value))
                .into();
                for place in 0..case.count("inputs/inlets") {
                    figures.push((format!("inlet_kg_s/{place}"), state.inlets[place]));
                }
                for (key, found) in figures {
                    let expected = case.number(&format!("expected/{key}"));
                    let usual = if key.contains("kg_s") { 0.1 } else { 1.0 };
                    let tolerance = Tolerance::absolute(1e-8 * expected.abs().max(usual));
                    comparison.value(format!("{case}, {key}"), found, expected, tolerance);
                }
            }
        },
    );
}

#[test]
fn a_split_deck_with_its_densities_frozen_balances_in_four_independent_solvers() {
    compare(
        "a split deck with its densities frozen balances in four independent solvers",
        |comparison| {
            let table = Table::read("network_frozen");
            for case in &Case::read_all("split_deck_cases") {
                let cowl = split_cowl(case);
                let state = solve(&cowl, None)
                    .unwrap_or_else(|error| panic!("{case}: {error:?}"))
                    .state;
                let rows = table.rows_where("case", case.name());
                assert_eq!(rows.len(), 4, "{case}");
                for row in &rows {
                    compare_row(comparison, case.name(), row, &figures(&cowl, &state));
                }
            }
        },
    );
}
