//! What a single change is worth: of the power the power alone, of the mixture the mixture alone.

use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::decide::climb::mixtures;
use coolpath_core::decide::size::{Demand, remedies};
use coolpath_core::document::condition::{Condition, Mixture, PowerKind};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::units::quantity::{cubic_metre_per_s, watt};
use coolpath_core::units::si::degf;

const HIGH_CRUISE: usize = 3;
/// Rated power of the example, W.
fn rated_w() -> f64 {
    example::design().installation.engine.rated_power.value
}

/// The example in its high cruise alone, whose heads are what is missed.
fn high_cruise(change: impl FnOnce(&mut Condition)) -> Design {
    let mut design = example::design();
    design.installation.engine.head_limit.value = degf(300.0);
    design.installation.engine.oil_limit.value = degf(300.0);
    let mut condition = design.conditions[HIGH_CRUISE].with_shutter_open();
    change(&mut condition);
    design.conditions = vec![condition];
    design
}

/// Hottest head, K.
fn head_k(design: &Design) -> f64 {
    evaluate(design, 0).expect("an answer").head_hottest.value
}

/// What a remedy takes from the hottest head, K.
fn taken_k(design: &Design, change: &str) -> f64 {
    let found = remedies(design, &Demand::nominal(design)).expect("remedies");
    let remedy = found.iter().find(|remedy| remedy.change == change);
    remedy.expect("that change").gain
}

#[test]
fn a_tenth_less_power_is_nine_tenths_of_the_share_at_the_mixture_it_had() {
    // A mixture, and what the same cruise is when it is typed in another way.
    for phi in [1.6, 1.2, 0.94, 0.85] {
        let by_ratio = |share: f64| {
            high_cruise(|condition| {
                condition.power_share = share;
                (condition.mixture, condition.phi) = (Mixture::Ratio, phi);
            })
        };
        let own = by_ratio(0.70);
        let answer = evaluate(&own, 0).expect("an answer");
        let expected_k = answer.head_hottest.value - head_k(&by_ratio(0.63));
        let engine = &own.installation.engine;
        let flow = answer.fuel_on_gauge_m3_s(engine);
        let same = [
            own.clone(),
            high_cruise(|condition| {
                (condition.mixture, condition.phi) = (Mixture::Ratio, phi);
                condition.power = PowerKind::Brake;
                condition.brake_power = watt(0.70 * rated_w());
            }),
            high_cruise(|condition| {
                (condition.mixture, condition.phi) = (Mixture::Ratio, phi);
                condition.power = PowerKind::FuelFlow;
                condition.fuel_flow = cubic_metre_per_s(flow);
            }),
            high_cruise(|condition| {
                condition.mixture = Mixture::FuelFlow;
                condition.fuel_flow = cubic_metre_per_s(flow);
            }),
        ];
        for design in &same {
            let taken_k = taken_k(design, "a tenth less power");
            assert!(
                (taken_k - expected_k).abs() < 1e-6,
                "φ {phi}, {:?} and {:?}: {taken_k} instead of {expected_k} K",
                design.conditions[0].power,
                design.conditions[0].mixture
            );
        }
    }
}

#[test]
fn full_rich_keeps_the_power_that_the_fuel_flow_gave() {
    for mixture in [Mixture::BestPower, Mixture::PeakEgt, Mixture::LeanOfPeak] {
        let by_share = high_cruise(|condition| condition.mixture = mixture);
        let answer = evaluate(&by_share, 0).expect("an answer");
        let flow = answer.fuel_on_gauge_m3_s(&by_share.installation.engine);
        let by_flow = high_cruise(|condition| {
            condition.mixture = mixture;
            condition.power = PowerKind::FuelFlow;
            condition.fuel_flow = cubic_metre_per_s(flow);
        });
        let rich = high_cruise(|condition| condition.mixture = Mixture::FullRich);
        let expected_k = answer.head_hottest.value - head_k(&rich);
        let taken_k = taken_k(&by_flow, "full rich mixture");
        assert!(
            (taken_k - expected_k).abs() < 1e-6,
            "{mixture:?}: {taken_k} instead of {expected_k} K"
        );
        // As the help for the climb has it.
        let installation = &by_flow.installation;
        let of = |design: &Design| mixtures(installation, &design.conditions[0]).expect("heads");
        for ((named, by_flow_k), (_, by_share_k)) in of(&by_flow).into_iter().zip(of(&by_share)) {
            assert!(
                (by_flow_k - by_share_k).abs() < 1e-6,
                "{mixture:?}, {named:?}"
            );
        }
    }
}
