//! Answers of the model, typed back as the builder's own readings, are given back.

use coolpath_core::answer::evaluate::{Answer, answer};
use coolpath_core::answer::known_point::known_point;
use coolpath_core::answer::prepare::PrepareError;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::document::condition::{AirKind, Mixture, Phase};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{Breathes, OilProbe, ReferenceKind};
use coolpath_core::engine::heads::CylinderError;
use coolpath_core::units::quantity::{kelvin, watt};
use coolpath_core::units::si::{degf, deltaf};

/// A design whose known point is what a condition of it answers.
fn typed_back(design: &Design, place: usize, answer: &Answer) -> Design {
    let mut typed = design.clone();
    let condition = &design.conditions[place];
    let rated = design.installation.engine.rated_power.value;
    let point = &mut typed.installation.reference;
    point.kind = ReferenceKind::Readings;
    point.reading_drop = answer.baffle_drop;
    point.reading_head = answer.head_mean;
    point.reading_power = watt(condition.power_share * rated);
    point.reading_oat = condition.oat;
    point.reading_altitude = condition.altitude;
    point.reading_airspeed = condition.airspeed;
    point.reading_rpm = condition.rpm;
    point.reading_mixture = answer.mixture;
    point.reading_oil = answer.oil;
    typed
}

/// Solved past the check of what may be typed: on the ground the pressure lies below what a gauge tells.
fn answered(design: &Design, place: usize) -> Result<Answer, EvaluateError> {
    let condition = &design.conditions[place];
    let solved = solve_condition(&design.installation, condition, None)?;
    Ok(answer(&design.installation, condition, &solved))
}

/// Conditions of the example in which a builder would read, on a day with an OAT.
fn designs() -> Vec<Design> {
    let base = example::design();
    let mut all = vec![base.clone()];
    let mut six = base.clone();
    six.installation.engine.cylinders = 6;
    six.installation.engine.rated_power =
        watt(6.0 / 4.0 * base.installation.engine.rated_power.value);
    for inlet in &mut six.installation.inlets {
        inlet.scale_area(1.5);
    }
    six.installation.exits[0].gap.value *= 1.4;
    all.push(six);
    let mut before = base;
    before.installation.oil.probe = OilProbe::BeforeCooler;
    all.push(before);
    for design in &mut all {
        for condition in &mut design.conditions {
            if condition.air == AirKind::HotDay {
                condition.air = AirKind::Oat;
                condition.oat = kelvin(degf(93.0));
            }
        }
    }
    all
}

#[test]
fn answers_typed_back_as_readings_are_given_back_within_one_degree() {
    for design in designs() {
        for place in 0..design.conditions.len() {
            for mixture in [
                Mixture::FullRich,
                Mixture::BestPower,
                Mixture::PeakEgt,
                Mixture::LeanOfPeak,
            ] {
                let mut own = design.clone();
                own.conditions[place].mixture = mixture;
                let first = answered(&own, place).expect("an answer");
                let again = match answered(&typed_back(&own, place, &first), place) {
                    Ok(again) => again,
                    // So little air is no base for a flight: it is refused, not taken wrongly.
                    Err(EvaluateError::Prepare(PrepareError::KnownPoint(
                        CylinderError::FlowTooSmall { .. },
                    ))) if design.conditions[place].phase == Phase::Ground => continue,
                    Err(error) => panic!("{}, {mixture:?}: {error}", first.name),
                };
                let mut given_back = vec![
                    ("mean head", first.head_mean, again.head_mean, 1.0),
                    ("oil", first.oil, again.oil, 1.0),
                ];
                // The hottest is not typed: its distance from the mean follows the slope of the
                // conductance, which one point does not tell and is taken anew there. On the ground,
                // at a fifth of the flow, that is another slope altogether.
                if first.phase != Phase::Ground {
                    let (one, two) = (first.head_hottest, again.head_hottest);
                    given_back.push(("hottest head", one, two, 2.0));
                }
                for (what, one, two, degf) in given_back {
                    let miss = (two.value - one.value) / deltaf(1.0);
                    assert!(
                        miss.abs() <= degf,
                        "{}, {mixture:?}, {what}: {miss:+.2} °F",
                        first.name
                    );
                }
            }
        }
    }
}

/// The reading does not tell how warm the lower deck was, and what is taken for it leaves the cooler's air and
/// the sump out. A charge as cold as the outside air would be 15 to 38 °F off.
#[test]
fn answers_of_an_engine_that_breathes_the_lower_deck_are_given_back_within_one_degree() {
    for mut design in designs() {
        design.installation.decks.breathes = Breathes::LowerDeck;
        for place in [1, 2, 3, 4] {
            design.conditions[place].mixture = Mixture::BestPower;
            let told = answered(&design, place).expect("an answer");
            let typed = typed_back(&design, place, &told);
            let found = answered(&typed, place).expect("an answer");
            let off_k = found.head_mean.value - told.head_mean.value;
            assert!(off_k.abs() < deltaf(1.0), "{place}: {off_k} K");
            // The charge matters: the same reading of an engine with an intake of its own is another point.
            let mut cold = typed.clone();
            cold.installation.decks.breathes = Breathes::default();
            let point = |design: &Design| known_point(&design.installation).expect("a point");
            assert!(point(&cold).own_gas_k < point(&typed).own_gas_k - deltaf(20.0));
        }
    }
}
