//! What a builder is told where the model leaves its ground, and where caution is due.

use coolpath_core::answer::detonation::DetonationSigns;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::warning::{Warming, Warning};
use coolpath_core::document::condition::{AirKind, Mixture, Phase, ShutterPolicy};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{EngineKind, ReferenceKind};
use coolpath_core::units::si::{degf, hp, inch, knot, lb_hp_h};
use coolpath_core::units::typed::UnitSystem;

const TAKE_OFF: usize = 1;
const CRUISE: usize = 3;

fn answer(place: usize, change: impl Fn(&mut Design)) -> Answer {
    let mut design = example::design();
    change(&mut design);
    evaluate(&design, place).expect("solved")
}

fn names(answer: &Answer) -> Vec<&'static str> {
    answer.warnings.iter().map(Warning::name).collect()
}

fn is_absurd(warning: &Warning) -> bool {
    matches!(warning, Warning::Absurd(_))
}

fn absurd(answer: &Answer) -> Vec<&'static str> {
    let absurd = answer.warnings.iter().filter(|warning| is_absurd(warning));
    absurd.map(Warning::name).collect()
}

#[test]
fn a_usual_aircraft_is_not_called_absurd() {
    for place in 0..6 {
        assert!(absurd(&answer(place, |_| {})).is_empty(), "{place}");
    }
}

#[test]
fn heads_oil_and_exits_that_nobody_flies_are_called_absurd_first() {
    let shut = answer(TAKE_OFF, |design| {
        design.installation.exits[0].gap.value = inch(0.6);
        design.installation.exits[0].pipes_area.value = 0.0;
        for inlet in &mut design.installation.inlets {
            inlet.width.value = inch(9.0);
            inlet.height.value = inch(6.0);
        }
    });
    assert!(shut.head_hottest.value > degf(550.0));
    assert!(names(&shut).contains(&"exit_absurd") && names(&shut).contains(&"heads_absurd"));
    assert!(is_absurd(&shut.warnings[0]));
    // Exits of just over a tenth of the inlets are small, not absurd.
    for (ratio, said) in [(0.105, false), (0.095, true)] {
        let small = answer(CRUISE, |design| {
            let inlets: f64 = design
                .installation
                .inlets
                .iter()
                .map(|at| at.area_m2())
                .sum();
            design.installation.exits[0].set_closed_area(ratio * inlets);
        });
        assert_eq!(names(&small).contains(&"exit_absurd"), said, "{ratio}");
    }
    let hot = answer(TAKE_OFF, |design| {
        design.installation.cooler.duct_diameter.value = inch(0.8);
        design.installation.oil.heat_share = 0.12;
    });
    assert!(hot.oil.value > degf(300.0), "{}", hot.oil.value);
    assert!(absurd(&hot).contains(&"oil_absurd"));
    let above = answer(TAKE_OFF, |design| {
        design.installation.cooler.duct_diameter.value = inch(1.3);
        design.installation.oil.heat_share = 0.12;
        design.installation.oil.conduction_share = 0.0;
    });
    assert!(above.oil_hot.value > above.head_mean.value);
    assert!(absurd(&above).contains(&"oil_above_heads"));
}

#[test]
fn cold_oil_is_warned_of_with_what_warms_it() {
    const COLD: usize = 4;
    let cold = |change: &dyn Fn(&mut Design)| {
        answer(COLD, |design| {
            design.conditions[COLD].oat.value = degf(60.0);
            design.installation.shutter.fitted = false;
            change(design);
        })
    };
    let cold_oil = |change: &dyn Fn(&mut Design)| {
        let warnings = cold(change).warnings;
        warnings.into_iter().find_map(|warning| match warning {
            Warning::ColdOil { below_least, by } => {
                Some((below_least, by, warning.sentence(UnitSystem::Customary)))
            }
            _ => None,
        })
    };
    let oil_k = cold(&|_| {}).oil.value;
    let limits = |design: &mut Design, least_k: f64, wanted_k: f64| {
        design.installation.engine.oil_minimum.value = least_k;
        design.installation.engine.oil_wanted.value = wanted_k;
    };
    let (under_k, over_k) = (oil_k - 0.1, oil_k + 0.1);
    assert_eq!(cold_oil(&|design| limits(design, under_k, under_k)), None);
    let (below, by, sentence) =
        cold_oil(&|design| limits(design, under_k, over_k)).expect("water stays");
    assert_eq!((below, by), (false, Warming::TapeOrShutter));
    assert!(
        sentence.contains("water") && sentence.contains("tape over part"),
        "{sentence}"
    );
    // A descent does not last, but nothing flies with oil below its least.
    let descending = |design: &mut Design, least_k| {
        design.conditions[COLD].phase = Phase::Descent;
        limits(design, least_k, degf(250.0));
    };
    let down_k = cold(&|design| descending(design, degf(32.0))).oil.value;
    assert_eq!(cold_oil(&|design| descending(design, down_k - 0.1)), None);
    let (below, _, sentence) =
        cold_oil(&|design| descending(design, down_k + 0.1)).expect("too cold");
    assert!(
        below && sentence.contains("least temperature"),
        "{sentence}"
    );
    for (opening, expected) in [(0.5, Warming::Shutter), (0.0, Warming::Tape)] {
        let found = cold_oil(&|design| {
            limits(design, degf(32.0), degf(250.0));
            // So little heat that even a shut cooler leaves the oil cold.
            design.installation.oil.heat_share = 0.01;
            design.installation.shutter.fitted = true;
            design.conditions[COLD].shutter = ShutterPolicy::Fixed;
            design.conditions[COLD].shutter_opening = opening;
        });
        assert_eq!(found.expect("too cold").1, expected);
    }
}

#[test]
fn two_signs_of_detonation_call_for_caution_one_does_not() {
    let cool = |design: &mut Design| {
        let condition = &mut design.conditions[CRUISE];
        condition.air = AirKind::Oat;
        condition.oat.value = degf(60.0);
        condition.power_share = 0.70;
        condition.mixture = Mixture::BestPower;
        design.installation.engine.compression_ratio = 8.5;
    };
    type Change = fn(&mut Design);
    type Sign = fn(&DetonationSigns) -> bool;
    let signs: [(Change, Sign); 4] = [
        (
            |design| design.installation.engine.compression_ratio = 9.5,
            |signs| signs.compression,
        ),
        (
            |design| design.installation.engine.ignition_advance = 2.0,
            |signs| signs.advance,
        ),
        (
            |design| {
                design.conditions[CRUISE].power_share = 0.78;
                design.conditions[CRUISE].mixture = Mixture::PeakEgt;
            },
            |signs| signs.mixture,
        ),
        (
            |design| design.conditions[CRUISE].oat.value = degf(101.0),
            |signs| signs.warm_air,
        ),
    ];
    let found = |answer: &Answer| {
        answer.warnings.iter().find_map(|warning| match warning {
            Warning::Detonation { signs } => Some(*signs),
            _ => None,
        })
    };
    for first in 0..signs.len() {
        let one = answer(CRUISE, |design| {
            cool(design);
            signs[first].0(design);
        });
        assert_eq!(found(&one), None, "sign {first} alone");
        for second in first + 1..signs.len() {
            let both = answer(CRUISE, |design| {
                cool(design);
                signs[first].0(design);
                signs[second].0(design);
            });
            let these = found(&both).expect("a caution");
            assert!(signs[first].1(&these) && signs[second].1(&these));
            assert_eq!(these.count(), 2, "{these:?}");
        }
    }
}

#[test]
fn air_that_comes_out_hotter_than_the_heads_is_called_absurd() {
    // Next to no air past an exhaust that gives all it may.
    let stale = answer(TAKE_OFF, |design| {
        design.installation.engine.exhaust_heat_share = 0.4;
        design.installation.decks.skin_conductance = 1.0;
        let exit = &mut design.installation.exits[0];
        exit.pipes_area.value = 0.0;
        exit.gap.value = inch(0.1);
    });
    assert!(stale.lower_deck_air.value > stale.head_mean.value);
    assert!(absurd(&stale).contains(&"air_above_heads"));
}

#[test]
fn a_displacement_that_its_engine_cannot_fill_is_warned_of_one_that_is_not_given_is_not() {
    // Six pounds of air per horsepower and hour at 8.5:1, swept every other turn at 2700 rpm.
    let with = |displacement_m3: f64| {
        answer(CRUISE, |design| {
            let engine = &mut design.installation.engine;
            engine.rated_power.value = hp(180.0);
            engine.rated_rpm = 2700.0;
            engine.compression_ratio = 8.5;
            engine.air_consumption = lb_hp_h(6.0);
            engine.displacement.value = displacement_m3;
        })
    };
    let said =
        |displacement_m3| names(&with(displacement_m3)).contains(&"displacement_does_not_fit");
    let air_kg_s = 180.0 * 6.0 * 0.453_592_37 / 3600.0;
    let of_filling = |filling: f64| air_kg_s / filling / (1.225 * 2700.0 / 60.0 / 2.0);
    assert!(!said(0.0));
    // A flat four of this power has 5.9 L.
    assert!(!said(0.0059));
    for (filling, expected) in [(0.74, true), (0.76, false), (1.19, false), (1.21, true)] {
        assert_eq!(said(of_filling(filling)), expected, "{filling}");
    }
    let sentences: Vec<String> = with(of_filling(1.5))
        .warnings
        .iter()
        .map(|warning| warning.sentence(UnitSystem::Customary))
        .collect();
    let words = "breathes 0.3 lb/s, by the displacement 0.2 lb/s at sea level, so that its cylinders would fill to 150 %";
    assert!(
        sentences.iter().any(|at| at.contains(words)),
        "{sentences:?}"
    );
    for place in 0..6 {
        assert!(!names(&answer(place, |_| {})).contains(&"displacement_does_not_fit"));
    }
}

#[test]
fn a_reading_below_half_of_rated_power_is_warned_of_no_other_known_point_is() {
    let said = |kind: ReferenceKind, share: f64| {
        let found = answer(CRUISE, |design| {
            let rated_w = design.installation.engine.rated_power.value;
            let reference = &mut design.installation.reference;
            reference.kind = kind;
            reference.reading_power.value = share * rated_w;
            // As cool as a reading at little power is.
            reference.reading_head.value = degf(340.0);
        });
        let mut warnings = found.warnings.iter();
        let it = warnings.find(|warning| warning.name() == "reading_at_low_power");
        it.map(|warning| warning.sentence(UnitSystem::Customary))
    };
    let low = said(ReferenceKind::Readings, 0.45).expect("a warning");
    assert!(low.contains("at 45 % of rated power"), "{low}");
    assert_eq!(said(ReferenceKind::Readings, 0.501), None);
    for kind in [ReferenceKind::Generic, ReferenceKind::Chart] {
        assert_eq!(said(kind, 0.45), None);
    }
}

#[test]
fn at_rest_without_wind_a_pusher_is_told_that_nothing_drives_the_air_not_that_an_input_is_wrong() {
    const GROUND: usize = 0;
    let said = |phase: Phase, change: &dyn Fn(&mut Design)| {
        let found = answer(GROUND, |design| {
            design.installation.engine.kind = EngineKind::Pusher;
            design.conditions[GROUND].phase = phase;
            change(design);
        });
        let sentences = found.warnings.iter().filter(|at| is_absurd(at));
        let sentences: Vec<String> = sentences
            .map(|at| at.sentence(UnitSystem::Customary))
            .collect();
        (absurd(&found), sentences.join(" "))
    };
    let (names, words) = said(Phase::Ground, &|_| {});
    assert_eq!(names, ["at_rest"]);
    assert!(
        words.contains("Face the wind") && !words.contains("wrong"),
        "{words}"
    );
    // With the power of a run-up the heads are absurd as well, which is said once.
    let run_up = |design: &mut Design| {
        design.conditions[GROUND].power_share = 0.9;
        design.conditions[GROUND].rpm = 2500.0;
    };
    assert_eq!(said(Phase::Ground, &run_up).0, ["at_rest"]);
    // A wind that drives the air: what is absurd then is a number.
    let windy = |design: &mut Design| {
        run_up(design);
        design.conditions[GROUND].wind.value = knot(15.0);
    };
    let (names, words) = said(Phase::Ground, &windy);
    assert!(
        names.contains(&"oil_absurd") && !names.contains(&"at_rest"),
        "{names:?}"
    );
    assert!(words.contains("wrong input"), "{words}");
    // In the air no airspeed is a wrong input.
    let (names, words) = said(Phase::Climb, &|_| {});
    assert!(
        !names.is_empty() && !names.contains(&"at_rest"),
        "{names:?}"
    );
    assert!(words.contains("wrong input"), "{words}");
    // A propeller before the inlets drives the air at rest, too.
    let tractor = |design: &mut Design| {
        run_up(design);
        design.installation.engine.kind = EngineKind::AirCooledFlat;
        design.installation.oil.heat_share = 0.12;
    };
    let (names, _) = said(Phase::Ground, &tractor);
    assert!(
        names.contains(&"oil_absurd") && !names.contains(&"at_rest"),
        "{names:?}"
    );
}
