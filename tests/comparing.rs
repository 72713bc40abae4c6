//! Comparisons: symmetric, without shared state, and fair at equal heads.

use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::decide::compare::{Preset, at_equal_heads, difference, hardest_for_heads};
use coolpath_core::document::alternative::{Alternative, MAX_ALTERNATIVES};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::SecondLimit;
use coolpath_core::units::quantity::kelvin;

const CLIMB: usize = 1;
const CRUISE: usize = 3;

fn swapped(design: &Design, preset: Preset) -> Design {
    Design {
        installation: preset.applied(&design.installation),
        ..design.clone()
    }
}

#[test]
fn one_against_the_other_is_minus_the_other_against_the_one() {
    let design = example::design();
    for preset in Preset::ALL {
        let other = swapped(&design, preset);
        for place in [CLIMB, CRUISE] {
            let there = difference(&design, &other.installation, place).expect("a difference");
            let back = difference(&other, &design.installation, place).expect("a difference");
            let bands = there.band.each().into_iter().zip(back.band.each());
            let pairs = there.by.each().into_iter().zip(back.by.each());
            for ((a, b), (band, mirrored)) in pairs.zip(bands) {
                let size = a.abs().max(1e-6);
                assert!(
                    (a + b).abs() < 1e-6 * size,
                    "{}: {a} and {b}",
                    preset.name()
                );
                let wide = band.wider().max(1e-6);
                assert!((band.below - mirrored.above).abs() < 1e-5 * wide);
                assert!((band.above - mirrored.below).abs() < 1e-5 * wide);
            }
        }
    }
}

#[test]
fn what_both_share_cancels() {
    let design = example::design();
    let same = difference(&design, &design.installation, CLIMB).expect("a difference");
    assert!(same.by.each().iter().all(|by| *by == 0.0));
    assert!(same.band.each().iter().all(|band| band.wider() == 0.0));
    // A new cooler's heads are far surer as a difference than as a temperature.
    let own = coolpath_core::answer::band::bands(&design, CLIMB).expect("bands");
    let cooler = Preset::BiggerCooler.applied(&design.installation);
    let by = difference(&design, &cooler, CLIMB).expect("a difference");
    assert!(by.band.oil.wider() < 0.5 * own.figures.oil.wider());
    assert!(by.band.head.wider() < 0.1 * own.figures.head_hottest.wider());
}

#[test]
fn options_share_no_state() {
    let mut design = example::design();
    let before = evaluate(&design, CLIMB).expect("an answer");
    design.alternatives = Preset::ALL[..MAX_ALTERNATIVES]
        .iter()
        .map(|preset| Alternative {
            name: preset.name().to_owned(),
            installation: preset.applied(&design.installation),
        })
        .collect();
    for alternative in &design.alternatives {
        difference(&design, &alternative.installation, CLIMB).expect("a difference");
    }
    assert_eq!(evaluate(&design, CLIMB).expect("an answer"), before);
    let text = serde_json::to_string(&design).expect("a text");
    let read: Design = serde_json::from_str(&text).expect("a design");
    assert_eq!(read, design);
    // A file without alternatives is what it was before there were any.
    let plain = serde_json::to_string(&example::design()).expect("a text");
    assert!(!plain.contains("alternatives"));
    design.alternatives.extend_from_within(..1);
    assert!(design.check().is_err(), "five are too many");
}

#[test]
fn a_leak_lowers_drag_at_a_fixed_exit_and_costs_speed_at_equal_heads() {
    let mut design = example::design();
    design.installation = Preset::HardPlenum.applied(&design.installation);
    let worn = Preset::WornSeals.applied(&design.installation);
    let fixed = difference(&design, &worn, CRUISE).expect("a difference");
    assert!(fixed.by.head > 0.0);
    let hardest = hardest_for_heads(&design).expect("a condition");
    assert_eq!(hardest, CLIMB);
    // In cruise, where an exit can make up for the leak.
    let fair = at_equal_heads(&design, &worn, CRUISE)
        .expect("an answer")
        .expect("an exit");
    let equal = difference(&design, &fair, CRUISE).expect("a difference");
    assert!(equal.by.head.abs() < 1e-4, "{} K", equal.by.head);
    assert!(equal.by.speed < 0.0, "{} m/s", equal.by.speed);
    assert!(equal.by.drag > fixed.by.drag);
}

#[test]
fn a_tiny_change_is_within_its_uncertainty_only_if_something_else_could_undo_it() {
    let design = example::design();
    let seals = Preset::WornSeals.applied(&design.installation);
    let by = difference(&design, &seals, CLIMB).expect("a difference");
    // Worn may leak as little as 10 in² and new as much as 12: a difference is not sure.
    assert!(by.band.head.wider() > 0.3 * by.by.head.abs());
    assert!(by.by.head > 0.0);
    let mut wider = design.installation.clone();
    wider.exits[0].gap.value *= 1.02;
    let by = difference(&design, &wider, CLIMB).expect("a difference");
    assert!(!by.within_uncertainty().head, "geometry alone is sure");
}

#[test]
fn seals_leak_what_reports_say_each_within_a_factor_of_two() {
    let mut design = example::design();
    let input = coolpath_core::document::table::by_id("decks.seal_gap_m").expect("an input");
    let square_inch = 0.0254 * 0.0254;
    for (preset, leak, low, high) in [
        (Preset::NewSeals, 6.0, 3.0, 12.0),
        (Preset::WornSeals, 20.0, 10.0, 40.0),
        (Preset::BrokenSeals, 30.0, 15.0, 60.0),
    ] {
        design.installation = preset.applied(&example::design().installation);
        let decks = &design.installation.decks;
        let by_length = |gap: f64| gap * decks.seal_length.value / square_inch;
        let range = design.likely(input, 0).expect("a range");
        for (found, expected) in [
            (decks.seal_area_m2() / square_inch, leak),
            (by_length(range.0), low),
            (by_length(range.1), high),
        ] {
            assert!(
                (found - expected).abs() < 1e-9,
                "{}: {found}",
                preset.name()
            );
        }
    }
    design.installation = Preset::HardPlenum.applied(&design.installation);
    let plenum = design.installation.decks.seal_area_m2() / square_inch;
    assert!((plenum - 1.5).abs() < 1e-9);
}

#[test]
fn heads_are_held_equal_where_they_stand_nearest_to_their_own_limit_in_flight() {
    let mut design = example::design();
    // The hottest heads of all are those of a ground run, for which no exit is sized.
    let ground = &mut design.conditions[0];
    ground.power_share = 1.0;
    let head = |design: &Design, place| evaluate(design, place).expect("an answer").head_hottest;
    assert!(head(&design, 0) > head(&design, CLIMB));
    assert_eq!(hardest_for_heads(&design), Some(CLIMB));
    // A continuous limit counts in cruise and not in the climb, which is hotter.
    let engine = &mut design.installation.engine;
    engine.head_second = SecondLimit::Continuous;
    engine.head_second_limit = kelvin(head(&example::design(), CRUISE).value - 30.0);
    assert!(head(&design, CRUISE) < head(&design, CLIMB));
    assert_eq!(hardest_for_heads(&design), Some(CRUISE));
    design.conditions.truncate(1);
    assert_eq!(hardest_for_heads(&design), Some(0));
}
