//! The equations that are shown give the answers that are shown.

use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::why::derivations;
use coolpath_core::document::condition::{Phase, ShutterPolicy};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{
    CoolerDischarge, CoolerSupply, EngineKind, ExitPlace, Lip, OilProbe,
};
use coolpath_core::document::{example, table};

fn designs() -> Vec<Design> {
    let mut own_path = example::design();
    own_path.installation.cooler.supply = CoolerSupply::OwnInlet;
    own_path.installation.cooler.discharge = CoolerDischarge::OwnExit;
    own_path.installation.oil.probe = OilProbe::BeforeCooler;
    own_path.installation.decks.induction_from_upper_deck = true;
    own_path.installation.engine.break_in = true;
    own_path.installation.engine.ignition_advance = 3.0;
    let mut shut = example::design();
    for condition in &mut shut.conditions {
        condition.shutter = ShutterPolicy::Fixed;
        condition.shutter_opening = 0.0;
    }
    let mut askew = example::design();
    for inlet in &mut askew.installation.inlets {
        inlet.lip = Lip::Thin;
        inlet.at_angle = true;
        inlet.climb_angle = 20.0;
    }
    vec![example::design(), own_path, shut, askew]
}

/// Designs whose pressures outside are given by attitude or by the exit's place.
fn by_attitude() -> Vec<Design> {
    let mut apart = example::design();
    apart.installation.exits[0].by_attitude = true;
    apart.installation.exits[0].flap = true;
    apart.installation.exits[0].ground_pressure = -0.1;
    apart.installation.decks.outside_by_attitude = true;
    apart.installation.decks.inflow_ground = 0.2;
    for condition in &mut apart.conditions {
        condition.flap = 0.5;
    }
    let mut placed = apart.clone();
    placed.installation.exits[0].place = ExitPlace::WingRoot;
    placed.installation.engine.kind = EngineKind::Pusher;
    vec![apart, placed]
}

#[test]
fn every_shown_equation_gives_its_answer_from_its_shown_values() {
    let plain = designs().into_iter().map(|design| (design, 10));
    for (design, count) in plain.chain(by_attitude().into_iter().map(|design| (design, 12))) {
        for condition in &design.conditions {
            let solved = solve_condition(&design.installation, condition, None).expect("solved");
            let list = derivations(&design.installation, &solved);
            let askew = design.installation.inlets[0].at_angle && condition.phase == Phase::Climb;
            assert_eq!(list.len(), count + usize::from(askew));
            for derivation in list {
                let values: Vec<f64> = derivation.terms.iter().map(|term| term.value).collect();
                let found = (derivation.recompute)(&values);
                let scale = derivation.value.abs().max(1e-3);
                assert!(
                    (found - derivation.value).abs() < 1e-8 * scale,
                    "{}, {}: {found}, shown {}",
                    condition.name,
                    derivation.answer,
                    derivation.value
                );
                for term in &derivation.terms {
                    let plain = |text: &str| text.replace(['(', ')', ' '], "");
                    assert!(
                        term.symbol == "±"
                            || plain(derivation.equation).contains(&plain(term.symbol)),
                        "{} is not in {}",
                        term.symbol,
                        derivation.equation
                    );
                    if let Some(id) = term.input {
                        assert!(table::by_id(id).is_some(), "{id}");
                    }
                }
            }
        }
    }
}

#[test]
fn the_derivations_end_at_the_answers_of_the_evaluation() {
    let design = example::design();
    let answer = evaluate(&design, 3).expect("solved");
    let solved =
        solve_condition(&design.installation, &design.conditions[3], None).expect("solved");
    let of = |name: &str| {
        derivations(&design.installation, &solved)
            .into_iter()
            .find(|derivation| derivation.answer == name)
            .expect("it is derived")
            .value
    };
    for (name, value) in [
        ("Mean head", answer.head_mean.value),
        ("Oil at the gauge", answer.oil.value),
        ("Pressure across the baffles", answer.baffle_drop.value),
        ("Air through the inlets", answer.inlet_flow.value),
        ("Cooling drag", answer.drag.value),
        ("Heat into the oil", answer.oil_heat.value),
    ] {
        assert!((of(name) - value).abs() < 1e-7 * value.abs(), "{name}");
    }
}
