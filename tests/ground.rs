//! On the ground: what the propeller and the wind bring to the inlets.

use coolpath_core::air::propeller::slipstream;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::answer::warning::Warning;
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::path::report::SolveError;
use coolpath_core::units::si::knot;

const GROUND: usize = 0;

fn solved(design: &Design) -> Answer {
    evaluate(design, GROUND).expect("solved")
}

#[test]
fn at_rest_the_inlets_get_their_own_share_of_the_propellers_rise() {
    let mut design = example::design();
    let airframe = &mut design.installation.airframe;
    airframe.propeller_share = 0.0;
    airframe.propeller_share_rest = 0.4;
    let answer = solved(&design);
    let airframe = &design.installation.airframe;
    let rise = slipstream(
        answer.brake_power.value,
        airframe.propeller_efficiency,
        airframe.propeller_diameter.value,
        0.0,
        answer.cowl.stream.density,
    )
    .pressure_rise_pa;
    assert!((answer.ram.value - 0.4 * rise).abs() < 1e-9 * rise);
    // In flight the other share counts.
    design.conditions[GROUND].phase = Phase::Descent;
    design.conditions[GROUND].airspeed.value = 20.0;
    let flying = solved(&design);
    assert_eq!(flying.cowl.stream.propeller_rise_pa, 0.0);
}

#[test]
fn without_a_share_or_wind_nothing_moves_the_air_and_wind_moves_it() {
    let mut design = example::design();
    design.installation.airframe.propeller_share_rest = 0.0;
    let refused = evaluate(&design, GROUND);
    assert!(matches!(
        refused,
        Err(EvaluateError::Solve(SolveError::NoDrivingPressure { .. }))
    ));
    design.conditions[GROUND].wind.value = knot(12.0);
    let windy = solved(&design);
    let stream = &windy.cowl.stream;
    assert!((stream.impact_pa - 0.5 * 1.225 * knot(12.0).powi(2)).abs() < 0.01 * stream.impact_pa);
}

#[test]
fn wind_adds_to_the_speed_on_the_ground_only_and_a_tailwind_beyond_it_counts_as_none() {
    let mut design = example::design();
    let head_at = |design: &mut Design, wind_kt: f64| {
        design.conditions[GROUND].wind.value = knot(wind_kt);
        solved(design)
    };
    let still = head_at(&mut design, 0.0);
    let nose = head_at(&mut design, 15.0);
    assert!(nose.head_hottest.value < still.head_hottest.value);
    let tail = head_at(&mut design, -15.0);
    assert_eq!(tail.state, still.state);
    let beyond = tail.warnings.iter().find_map(|warning| match warning {
        Warning::Tailwind { beyond_m_s } => Some(*beyond_m_s),
        _ => None,
    });
    assert!((beyond.expect("a warning") - knot(15.0)).abs() < 1e-12);
    let said = |answer: &Answer| answer.warnings.iter().any(|at| at.name() == "tailwind");
    assert!(!said(&still) && !said(&nose));
    // Rolling as fast as the wind blows along: still air; faster: the difference.
    design.conditions[GROUND].airspeed.value = knot(20.0);
    let rolling = head_at(&mut design, -15.0);
    assert!(!said(&rolling));
    assert!((rolling.true_airspeed.value - knot(5.0)).abs() < 0.05 * knot(5.0));
    // In flight the airspeed holds the wind already.
    let mut flying = example::design();
    let calm = evaluate(&flying, 3).expect("solved");
    flying.conditions[3].wind.value = knot(30.0);
    assert_eq!(evaluate(&flying, 3).expect("solved").state, calm.state);
}
