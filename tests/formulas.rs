//! Formulas by hand: numbers chosen so that no factor is 1 and no term is 0, since a product with 1
//! hides a quotient and a sum with 0 a difference.

use coolpath_core::air::atmosphere;
use coolpath_core::engine::breathing::{
    Breathing, RATED_MANIFOLD_PA, manifold_of_share, share_at_best_power,
};
use coolpath_core::engine::bypass::{Bypass, Passing, Sensed};
use coolpath_core::engine::cooler::{
    Conductance, CoolerError, Rating, Stream, effectiveness, transfer_units,
};
use coolpath_core::engine::cylinders::{OneCylinder, Slopes, Spreads, excess_k, head_of, slopes};
use coolpath_core::engine::heads::{FinConductance, Heads};
use coolpath_core::engine::mixture::{
    HEATING_VALUE, TABLE_CHARGE_K, gas_temperature, relative_power,
};
use coolpath_core::engine::oil::{Viscosity, friction_heat};
use coolpath_core::math::normal::{joint_chance, normal_chance};
use coolpath_core::path::butterfly::{Leakage, disc_loss, passage, source_spread};
use coolpath_core::path::element::{CoolerDuct, Exit, Friction, Inlet};
use coolpath_core::path::inlet_map::Incidence;
use coolpath_core::path::loss::friction_factor;
use coolpath_core::units::si::inhg;
use std::f64::consts::{PI, SQRT_2};

const STANDARD_K: f64 = 288.15;

fn close(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} instead of {expected}, tolerance {tolerance}"
    );
}

#[test]
fn charge_air_follows_pressure_speed_and_temperature() {
    let engine = |compression_ratio: f64| Breathing {
        rated_w: 2e5,
        air_kg_j: 1e-6,
        compression_ratio,
        temperature_exponent: 0.5,
    };
    // Otto efficiencies 0.4738 and 0.4988 (`reference/otto_cycle`)
    close(engine(10.0).rated_air(), 0.2 * 0.4738 / 0.4988, 1e-4);
    // 0.2 kg/s · 0.75 · 0.9 · √0.81
    let warm = STANDARD_K / 0.81;
    let flow = engine(8.5).charge_air(0.75 * RATED_MANIFOLD_PA, 0.9, warm);
    close(flow, 0.1215, 1e-12);
    let pressure = engine(8.5).manifold_of_air(0.1215, 0.9, warm);
    close(pressure, 0.75 * RATED_MANIFOLD_PA, 1e-6);
}

#[test]
fn a_share_of_power_and_a_manifold_pressure_tell_each_other() {
    let warm = STANDARD_K / 0.81;
    // 0.9 · (24 − 4)/(28.8 − 4) · √0.81
    close(
        share_at_best_power(inhg(24.0), 0.9, warm),
        16.2 / 24.8,
        1e-9,
    );
    close(manifold_of_share(16.2 / 24.8, 0.9, warm), inhg(24.0), 1e-6);
    assert_eq!(share_at_best_power(inhg(3.0), 0.9, warm), 0.0);
}

#[test]
fn petrols_heat_is_that_of_the_handbooks_example() {
    // 18 800 Btu/lb at 2326 J/kg each
    close(HEATING_VALUE, 18_800.0 * 2326.0, 1.0);
}

#[test]
fn mixtures_between_and_beyond_the_rows_of_a_table_lie_on_its_lines() {
    // Measured with charge air of 80 °F, 26.667 °C
    close(TABLE_CHARGE_K - 273.15, 26.667, 1e-3);
    // Halfway from 1152 to 1105 °F
    close(gas_temperature(1.25), (1128.5 + 459.67) / 1.8, 1e-9);
    // Halfway from 0.955 to 0.93
    close(relative_power(1.65), 0.9425, 1e-12);
    // The last slope carried on: 0.82 − 0.4 · 0.25, 0.72 − 1.2 · 0.2
    close(relative_power(2.25), 0.72, 1e-12);
    close(relative_power(0.6), 0.48, 1e-12);
}

#[test]
fn the_oils_friction_takes_the_square_of_speed_and_part_of_the_load() {
    // 2000 · 0.25 · (0.7 + 0.3 · 0.8)
    close(friction_heat(2000.0, 0.5, 0.8), 470.0, 1e-9);
}

fn some_heads() -> Heads {
    Heads {
        gas_w_k: 100.0,
        gas_k: 900.0,
        oil_w_k: 20.0,
        fins: FinConductance::through(200.0, 0.5, 0.6).expect("air enough"),
    }
}

#[test]
fn heads_answer_to_their_own_air_and_fuel() {
    let heads = some_heads();
    let found = slopes(&heads, 0.5, 1.25, 300.0, 450.0);
    close(found.air_k, 0.6 * 200.0 * (300.0 - 450.0) / 320.0, 1e-9);
    // From 1152 to 1105 °F between φ 1.2 and 1.3
    close(found.fuel_k, 100.0 * 1.25 * (-470.0 / 1.8) / 320.0, 1e-9);

    let own = OneCylinder {
        air: 0.8,
        fuel: 0.1 / 1.2,
        probe_k: 7.0,
    };
    let fin = heads.fins.at(0.4);
    let by_hand = (100.0 * (900.0 - 47.0 / 1.8) + fin * 300.0 + 20.0 * 360.0) / (120.0 + fin);
    close(head_of(&heads, &own, 0.5, 1.2, 300.0, 360.0), by_hand, 1e-9);
}

#[test]
fn fins_that_would_heat_their_air_to_the_heads_own_temperature_are_refused() {
    // 0.5 kg/s carry 502 W/K.
    for conductance_w_k in [600.0, 0.0, -200.0] {
        assert!(FinConductance::through(conductance_w_k, 0.5, 0.6).is_err());
    }
}

#[test]
fn the_slope_of_the_fins_is_that_of_their_curve() {
    let fins = some_heads().fins;
    for flow in [0.2, 0.5, 0.8, 1.7] {
        let step: f64 = 1.0001;
        let rise = (fins.at(flow * step) / fins.at(flow / step)).ln() / (2.0 * step.ln());
        close(fins.slope_at(flow), rise, 1e-7);
    }
    // At the least flow the air takes all it can.
    close(fins.slope_at(1e-6), 1.0, 1e-3);
    assert_eq!(fins.slope_at(0.0), 1.0);
}

#[test]
fn the_hottest_cylinder_stands_above_the_mean_by_its_spreads() {
    // √(3² + 4² + 12²) = 13 K
    let slopes = Slopes {
        air_k: -60.0,
        fuel_k: -40.0,
    };
    let spreads = Spreads {
        air: 0.05,
        fuel: 0.1,
        probe_k: 12.0,
    };
    let excess = |cylinders, deviation| excess_k(&slopes, &spreads, cylinders, deviation);
    close(excess(4, 0.0), 13.0 * 1.0294, 1e-9);
    close(excess(6, 0.0), 13.0 * 1.2672, 1e-9);
    // Tables of order statistics: variance of the largest of four 0.4917, less a quarter
    close(excess(4, 1.0), 13.0 * (1.0294 + 0.2417_f64.sqrt()), 2e-3);
    assert_eq!(excess(1, 0.0), 0.0);
    assert_eq!(excess(4, -9.0), 0.0);
}

#[test]
fn a_valve_in_air_that_warms_the_oil_stands_where_the_hot_oil_puts_it() {
    let valve = Bypass {
        opens_k: 350.0,
        full_k: 360.0,
        leak_share: 0.6,
    };
    let passing = |share| Passing {
        share,
        heat_w_k: 40.0,
        slope_w_k: 0.0,
    };
    let settled = |hot_k, cooling_k_per_w_k| {
        let sensed = Sensed {
            hot_k,
            cooling_k_per_w_k,
        };
        valve.settled(sensed, 1.0, passing).share
    };
    // 0.6 + 0.4 · 6/10
    close(settled(356.0, -0.05), 0.84, 1e-12);
    close(settled(356.0, f64::NAN), 0.84, 1e-12);
    // Delivered 2 K colder
    close(settled(356.0, 0.05), 0.76, 1e-9);
    close(settled(349.0, 0.05), 0.6, 1e-12);
    // A cooler without air takes nothing, a hair beside the balance too.
    for start in [1.0, 0.84 + 1e-9] {
        let sensed = Sensed {
            hot_k: 356.0,
            cooling_k_per_w_k: 0.05,
        };
        let idle = |share| Passing {
            share,
            heat_w_k: 0.0,
            slope_w_k: 0.0,
        };
        let found = valve.settled(sensed, start, idle);
        close(found.share, 0.84, 1e-12);
        assert_eq!(found.heat_w_k, 0.0);
    }
}

#[test]
fn a_coolers_rating_and_its_conductance_tell_each_other() {
    // 0.54749 at one transfer unit and a capacity ratio of ½ (`reference/crossflow_examples`, K01a)
    let rating = |air_kg_s: f64, oil_kg_s: f64| Rating {
        heat_w: 0.54749 * 1500.0 * 50.0,
        inlet_difference_k: 50.0,
        air_kg_s,
        oil_kg_s,
        air_specific_heat: 1000.0,
        oil_specific_heat: 2000.0,
    };
    for (air, oil) in [(1.5, 1.5), (3.0, 0.75)] {
        let found = rating(air, oil).overall_conductance().expect("possible");
        close(found, 1500.0, 0.1);
    }
    let cooler = Conductance {
        rated_w_k: 1500.0,
        rated_air_kg_s: 1.5,
        rated_oil_kg_s: 1.5,
        air_share: 0.6,
        air_exponent: 0.5,
    };
    // A quarter of the air: 1500/(0.6 · 2 + 0.4); 1/32 of the oil: 32^0.4 = 4
    close(cooler.at(0.375, 1.5), 937.5, 1e-9);
    close(cooler.at(1.5, 1.5 / 32.0), 1500.0 / 2.2, 1e-9);
    let stream = |flow_kg_s: f64, specific_heat: f64| Stream {
        flow_kg_s,
        specific_heat,
    };
    let heat =
        |oil_kg_s: f64| cooler.heat_per_kelvin(stream(1.5, 1000.0), stream(oil_kg_s, 2000.0));
    close(heat(1.5).0, 0.54749 * 1500.0, 0.01);
    // Its slope is that of the curve.
    let step: f64 = 1.0001;
    for oil in [0.2, 0.75, 1.5, 6.0] {
        let rise = (heat(oil * step).0 / heat(oil / step).0).ln() / (2.0 * step.ln());
        close(heat(oil).1, rise, 1e-6);
    }
    assert_eq!(heat(0.0), (0.0, 0.0));
    for (air, oil) in [(0.0, 1.5), (-0.1, 1.5), (1.5, 0.0), (1.5, -0.1)] {
        assert_eq!(cooler.at(air, oil), 0.0);
    }
    // A stream that keeps its temperature: 1 − 1/e of the other's
    let huge = |oil_kg_s: f64| cooler.heat_per_kelvin(stream(1.5, 1000.0), stream(oil_kg_s, 2e13));
    close(huge(1.5).0, 1500.0 * 0.632_121, 1e-3);
    let rise = (huge(1.5 * step).0 / huge(1.5 / step).0).ln() / (2.0 * step.ln());
    close(huge(1.5).1, rise, 1e-6);
    let airy = |oil_kg_s: f64| cooler.heat_per_kelvin(stream(1.5, 1e13), stream(oil_kg_s, 1000.0));
    close(airy(1.5).0, 1500.0 * 0.632_121, 1e-3);
    let rise = (airy(1.5 * step).0 / airy(1.5 / step).0).ln() / (2.0 * step.ln());
    close(airy(1.5).1, rise, 1e-6);
    // A thousand millionth of everything is a cooler like any other.
    let tiny = Conductance {
        rated_w_k: 1.5e-6,
        rated_air_kg_s: 1.5e-9,
        rated_oil_kg_s: 1.5e-9,
        air_share: 0.6,
        air_exponent: 0.5,
    };
    let found = tiny.heat_per_kelvin(stream(1.5e-9, 1000.0), stream(1.5e-9, 2000.0));
    close(found.0 * 1e9, 0.54749 * 1500.0, 0.01);
}

#[test]
fn a_rating_beyond_reach_is_told_what_it_asks_of_the_smaller_stream() {
    // 100 and 4000 W/K: 6000 W at 50 K are 1.2 of what the smaller could take.
    for (air_kg_s, oil_kg_s) in [(0.1, 2.0), (4.0, 0.05)] {
        let rating = Rating {
            heat_w: 6000.0,
            inlet_difference_k: 50.0,
            air_kg_s,
            oil_kg_s,
            air_specific_heat: 1000.0,
            oil_specific_heat: 2000.0,
        };
        let Err(CoolerError::ImpossibleRating {
            effectiveness,
            largest,
        }) = rating.overall_conductance()
        else {
            panic!("{air_kg_s} kg/s of air were enough");
        };
        close(effectiveness, 1.2, 1e-12);
        close(largest, 1.0, 1e-12);
    }
}

#[test]
fn a_cooler_that_gives_up_nothing_or_everything_is_none() {
    for ratio in [0.0, 0.5, 1.0] {
        for wanted in [0.0, -0.1, 1.0, f64::NAN] {
            assert!(
                transfer_units(wanted, ratio).is_err(),
                "{wanted} at {ratio}"
            );
        }
    }
}

#[test]
fn crossflow_is_the_smaller_of_two_poisson_numbers() {
    // C NTU ε = E min(N₁, N₂) with means NTU and C NTU. Next to nothing of one against 300 of the
    // other is always the smaller.
    close(effectiveness(300.0, 2.5e-6 / 300.0), 1.0, 1e-13);
    // Equal means: ε = 1 − e^(−z) (I₀(z) + I₁(z)), z = 2 NTU, by Hankel's series for a large z
    let z: f64 = 600.0;
    let apart = (2.0 - 1.0 / (4.0 * z) - 3.0 / (64.0 * z * z)) / (2.0 * PI * z).sqrt();
    close(effectiveness(300.0, 1.0), 1.0 - apart, 1e-9);
}

#[test]
fn a_cooler_larger_than_any_gives_what_300_units_give() {
    let cooler = Conductance {
        rated_w_k: 1e7,
        rated_air_kg_s: 1.0,
        rated_oil_kg_s: 0.5,
        air_share: 0.5,
        air_exponent: 0.5,
    };
    let heat = |air_w_k: f64, oil_w_k: f64| {
        let (air, oil) = (air_w_k / 1000.0, oil_w_k / 2000.0);
        let stream = |flow_kg_s, specific_heat| Stream {
            flow_kg_s,
            specific_heat,
        };
        cooler.heat_per_kelvin(stream(air, 1000.0), stream(oil, 2000.0))
    };
    let reached = 1000.0 * effectiveness(300.0, 1.0 / 1.1);
    close(heat(1000.0, 1100.0).0, reached, 1e-9);
    close(heat(1100.0, 1000.0).0, reached, 1e-9);
    // The oil's film counts for nothing then.
    let step: f64 = 1.0001;
    let (less, more) = (heat(1000.0, 1100.0 / step), heat(1000.0, 1100.0 * step));
    let rise = (more.0 / less.0).ln() / (2.0 * step.ln());
    close(heat(1000.0, 1100.0).1, rise, 1e-6);
}

#[test]
fn an_oil_thins_as_it_warms_and_never_below_one() {
    for (at_40_cst, at_100_cst) in [(10.0, 10.0), (2.0, 1.0)] {
        assert!(Viscosity::from_two_points(at_40_cst, at_100_cst).is_err());
    }
}

#[test]
fn a_shutters_published_losses_differ_by_what_the_sources_do() {
    let tight = Leakage {
        closed_gap: 0.0,
        drilled_share: 0.0,
    };
    // Half open is 45°: 18.7 (`reference/weisbach_butterfly`), and sources differ by a factor of 2.
    for (exponent, loss) in [(-0.5, 18.7 / SQRT_2), (0.0, 18.7), (0.5, 18.7 * SQRT_2)] {
        let open = passage(0.5, tight, exponent);
        close(1.0 / (open * open), loss, 1e-9);
    }
    // From 2 at 45° to 3.5 at 60°: 50° lies a third of the way of their logarithms.
    close(source_spread(50.0), 2.0 * 1.75_f64.powf(1.0 / 3.0), 1e-12);
    // A gap of 0.12 lets through 0.62 · 0.12/(1 − 0.62 · 0.12), holes as much again.
    let leaky = Leakage {
        closed_gap: 0.12,
        drilled_share: 0.12,
    };
    close(passage(0.0, leaky, 0.0), 2.0 * 0.0744 / 0.9256, 1e-12);
}

#[test]
fn a_disc_nearly_closed_leaves_a_slot_that_narrows_as_its_gap() {
    // 1 − sin θ = 2 sin²(45° − θ/2): from 70° to 80° the gap shrinks by (sin 10°/sin 5°)² = 4 cos² 5°.
    let narrowing = 4.0 * 5.0_f64.to_radians().cos().powi(2);
    close(disc_loss(80.0), 751.0 * narrowing * narrowing, 1e-6);
}

#[test]
fn fittings_friction_and_shutter_of_a_duct_add() {
    let duct = CoolerDuct {
        area_m2: 0.01,
        diameter_m: 0.1,
        fittings_loss: 0.5,
        length_ratio: 10.0,
        friction: Friction::Factor(0.02),
        shutter_passage: 0.4,
        core_constant: 2000.0,
        core_exponent: 1.5,
        face_m2: 0.02,
        behind_loss: 0.0,
    };
    // 0.5 + 0.02 · 10 + 1/0.4² = 6.95, at 20 m/s in 1.1 kg/m³
    close(duct.duct_drop(0.22, 1.1, 300.0), 6.95 * 220.0, 1e-9);
    // 2000 · 0.25^1.5
    close(duct.core_drop(0.25), 250.0, 1e-9);
}

#[test]
fn ram_brings_thin_air_faster() {
    let inlet = Inlet {
        area_m2: 0.02,
        ram_pa: 800.0,
        lip_loss: 0.5,
        diffusion_loss: 0.25,
        reverse_loss: 1.5,
        density: 0.64,
        incidence: Incidence::default(),
    };
    // √(2 · 800/0.64)
    close(inlet.approach_speed(), 50.0, 1e-12);
    // At 70 m/s, 20 above the approach: 0.32 · (0.25 · 4900 + 0.5 · 400) Pa
    let used = 0.32 * 1425.0;
    close(inlet.drop(0.64 * 0.02 * 70.0, 0.9), used, 1e-9);
    close(inlet.flow(800.0 - used, 0.9), 0.64 * 0.02 * 70.0, 1e-12);
}

#[test]
fn the_friction_of_rough_pipes_solves_colebrooks_equation() {
    for (reynolds, roughness) in [(4e3, 0.0), (1e5, 0.0), (1e5, 1e-3), (2e6, 0.02)] {
        let root = friction_factor(reynolds, roughness).sqrt();
        // 1/√f = −2 log₁₀(ε/3.7 + 2.51/(Re √f))
        let right = -2.0 * (roughness / 3.7 + 2.51 / (reynolds * root)).log10();
        close(1.0 / root, right, 1e-12);
    }
    // Halfway between Re 2040 and 4000: the mean of 64/2040 and the turbulent one
    let mean = 0.5 * (64.0 / 2040.0 + friction_factor(4000.0, 1e-3));
    close(friction_factor(3020.0, 1e-3), mean, 1e-12);
}

#[test]
fn an_exit_under_pressure_from_outside_draws_air_in() {
    let exit = Exit {
        area_m2: 0.05,
        discharge: 0.8,
        velocity_coefficient: 0.9,
        outside_pa: 1000.0,
        jet_cosine: 0.95,
        ejector: None,
    };
    // 1 % of 100 kPa: 0.99463 of √(2 ρ Δp) (`reference/gas_dynamics`, I03a)
    let flux = 0.99463 * (2.0 * atmosphere::density(1e5, 280.0) * 1000.0).sqrt();
    let drawn = exit.flow(0.0, 350.0, 99_000.0, 280.0);
    close(drawn.flow_kg_s, -0.8 * 0.05 * flux, 1e-5);
    assert!(drawn.speed_m_s < 0.0);
}

#[test]
fn variables_that_are_one_have_the_smaller_ones_chance() {
    assert_eq!(joint_chance(0.5, 1.0, 1.0), normal_chance(0.5));
    assert_eq!(joint_chance(-1.0, 0.5, -1.0), 0.0);
    // A correlation that rounding took past 1 is 1.
    assert_eq!(joint_chance(0.5, 1.0, 1.0 + 1e-12), normal_chance(0.5));
    assert_eq!(joint_chance(-1.0, 0.5, -1.0 - 1e-12), 0.0);
    // Φ(1) + Φ(0.5) − 1 with 0.841345 and 0.691462
    close(joint_chance(1.0, 0.5, -1.0), 0.532_807, 1e-6);
}
