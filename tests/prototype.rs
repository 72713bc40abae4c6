//! An early prototype of this model, on equal inputs, and a second independent one.
//!
//! 180 hp; 38 in² of inlet with recovery 0.95 and 0.6 q₁ lost inside; 50 in² of exit at C_p −0.1
//! and C_d 0.95; 3 in² of seal leak; heads and fins of the generic engine but with 5.5 inH₂O
//! behind the fins. The prototype used a bare power law for the fins, the second model no
//! thermostat; neither is a measurement, so "close" is what is asked: their own spread, widened
//! for what they did not state (the cooler and its duct). Their figures: `reference/prototype`.

use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::document::condition::{AirKind, Condition, Mixture, Phase, SpeedKind};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{
    Exit, ExitShape, Inlet, InletPosition, InletShape, Lip, Sealing,
};
use coolpath_core::units::typed::{Dimension, UnitSystem, parse};
use coolpath_tests::table::{Table, Tolerance, compare};

fn si(text: &str, dimension: Dimension) -> f64 {
    parse(text, dimension, UnitSystem::Customary).expect("a quantity")
}

fn condition(altitude: &str, oat: &str, speed: &str, share: f64, mixture: Mixture) -> Condition {
    let mut condition = Condition {
        phase: Phase::Cruise,
        air: AirKind::Oat,
        speed: SpeedKind::Calibrated,
        power_share: share,
        rpm: 2500.0,
        mixture,
        ..Condition::default()
    };
    condition.altitude.value = si(altitude, Dimension::Altitude);
    condition.oat.value = si(oat, Dimension::Temperature);
    condition.airspeed.value = si(speed, Dimension::Speed);
    condition
}

fn prototype() -> Design {
    let mut design = Design::default();
    let installation = &mut design.installation;
    installation.airframe.propeller_share = 0.0;
    installation.engine.rated_power.value = si("180 hp", Dimension::Power);
    // What the prototype took for the generic engine and its mixture.
    installation.reference.head.value = si("430 F", Dimension::Temperature);
    installation.engine.full_rich = 1.45;
    installation.reference.drop_four.value = si("5.5 inH2O", Dimension::Pressure);
    let mut inlet = Inlet {
        shape: InletShape::Traced,
        position: InletPosition::ForwardClear,
        recovery_forward: 0.95,
        lip: Lip::Thin,
        diffuser: true,
        // A long diffuser of this ratio leaves 0.6 q₁ to be lost.
        diffuser_ratio: 1.3,
        diffuser_factor: 0.5,
        ..Inlet::default()
    };
    inlet.traced_area.value = si("38 in2", Dimension::Area);
    inlet.diffuser_length.value = 1.0;
    assert!((inlet.diffusion_loss() - 0.6).abs() < 0.01);
    installation.inlets = vec![inlet];
    let mut exit = Exit {
        shape: ExitShape::Traced,
        discharge: 0.95,
        pressure_coefficient: -0.1,
        jet_angle: 0.0,
        ..Exit::default()
    };
    exit.traced_area.value = si("50 in2", Dimension::Area);
    installation.exits = vec![exit];
    installation.decks.sealing = Sealing::MeasuredLeak;
    installation.decks.measured_leak.value = si("3 in2", Dimension::Area);
    installation.decks.overboard_leak.value = 0.0;
    installation.decks.inflow_leak.value = 0.0;
    installation.decks.blast_tubes = 0;
    installation.oil.thermostat = false;
    installation.shutter.fitted = false;
    design.conditions = vec![
        condition("2000 ft", "93 F", "100 kt", 0.97, Mixture::FullRich),
        condition("8000 ft", "60 F", "150 kt", 0.75, Mixture::BestPower),
    ];
    design
}

fn answer(design: &Design, place: usize) -> Answer {
    evaluate(design, place).expect("solved")
}

#[test]
fn a_hot_climb_comes_close_to_the_prototype() {
    let climb = answer(&prototype(), 0);
    compare("a hot climb", |comparison| {
        let table = Table::read("prototype");
        let head_degf = climb.head_mean.value * 1.8 - 459.67;
        comparison.row(&table.row("P01a"), head_degf);
        let drop = Dimension::Pressure
            .shown(UnitSystem::Customary)
            .from_si(climb.baffle_drop.value);
        comparison.row(&table.row("P01b"), drop);
    });
}

#[test]
fn closing_the_exit_in_cruise_costs_heads_and_oil_and_saves_drag_like_both_models_say() {
    let open = prototype();
    let mut closed = open.clone();
    closed.installation.exits[0].traced_area.value *= 0.6;
    let (before, after) = (answer(&open, 1), answer(&closed, 1));
    let heads = (after.head_mean.value - before.head_mean.value) * 1.8;
    let oil = (after.oil.value - before.oil.value) * 1.8;
    let drag = (after.drag.value - before.drag.value) / 4.448_221_615;
    compare("a closed exit lies between both models", |comparison| {
        let table = Table::read("prototype");
        for (quantity, actual) in [("heads", heads), ("oil", oil), ("drag", drag)] {
            let rows = table.rows_where("quantity", quantity);
            assert_eq!(rows.len(), 2, "both models say something of {quantity}");
            let of = |end: fn(f64, f64) -> f64, column: &str| {
                let numbers = rows.iter().map(|row| row.number(column));
                numbers.reduce(end).expect("two rows")
            };
            let tolerance = Tolerance::absolute(of(f64::max, "tolerance"));
            comparison.at_least(quantity, actual, of(f64::min, "value"), tolerance);
            comparison.at_most(quantity, actual, of(f64::max, "value"), tolerance);
        }
    });
}
