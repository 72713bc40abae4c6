//! Sizing against brute force, and what it refuses.

use coolpath_core::answer::evaluate::{Limit, evaluate, evaluate_all};
use coolpath_core::answer::minutes::{Leg, Warmth, flight, soak};
use coolpath_core::decide::size::course::{Question, Seek, Sized, Sizes, Sizing};
use coolpath_core::decide::size::{
    Bounds, Demand, Found, SizeError, TurnAround, Wanted, allowance, cruise_drag_n, flap,
    inlets_for_velocity_ratio, least_drag, remedies, smallest_exit,
};
use coolpath_core::document::condition::{AirKind, Phase};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::Sealing;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2, resized};
use coolpath_core::units::si::{degf, hp, inch, inch2, knot};
use coolpath_tests::random_design::random_design;

const BOUNDS: Bounds = Bounds {
    inlets_m2: (inch2(30.0), inch2(90.0)),
    exit_m2: (inch2(25.0), inch2(140.0)),
};

/// The design with all shutters fully open, as sizing judges it.
fn open(mut design: Design) -> Design {
    for condition in &mut design.conditions {
        *condition = condition.with_shutter_open();
    }
    design
}

/// The example with inlets large enough for some exit to hold the take-off climb: with its own
/// 43 in² not even 140 in² of exit does.
fn roomy() -> Design {
    let mut design = example::design();
    design.installation = resized(
        &design.installation,
        inch2(56.0),
        exit_m2(&design.installation),
    );
    design
}

/// Whether every limit holds at a size, by the plain evaluation.
fn holds(design: &Design, inlets: f64, exit: f64) -> bool {
    let mut sized = open(design.clone());
    sized.installation = resized(&design.installation, inlets, exit);
    evaluate_all(&sized).into_iter().all(|answer| {
        let answer = answer.expect("an answer");
        answer.head_margin.value >= 0.0 && answer.oil_margin.value >= 0.0
    })
}

#[test]
fn the_smallest_exit_holds_and_a_slightly_smaller_one_does_not() {
    let design = roomy();
    let demand = Demand::nominal(&design);
    let found = smallest_exit(&design, &demand, BOUNDS.exit_m2).expect("a size");
    assert!((found.inlets_m2 - inlets_m2(&design.installation)).abs() < 1e-12);
    assert!(holds(&design, found.inlets_m2, found.exit_m2));
    assert!(!holds(&design, found.inlets_m2, 0.999 * found.exit_m2));
    assert_eq!(found.binding.wanted, Wanted::Limit(Limit::Head));
    assert_eq!(found.binding.condition, 1, "the take-off climb binds");
}

#[test]
fn inlets_far_below_the_examples_are_too_small_for_any_exit() {
    let mut design = example::design();
    for inlet in &mut design.installation.inlets {
        inlet.width.value *= 0.6;
    }
    let demand = Demand::nominal(&design);
    let refused = smallest_exit(&design, &demand, BOUNDS.exit_m2);
    assert!(matches!(
        refused,
        Err(SizeError::OutOfReach { shortfall, .. }) if shortfall.condition == 1
    ));
}

#[test]
fn least_cruise_drag_is_that_of_a_brute_force_grid() {
    let design = example::design();
    let demand = Demand::nominal(&design);
    let found = least_drag(&design, &demand, &BOUNDS).expect("a size");
    assert!(holds(&design, found.inlets_m2, found.exit_m2));
    let steps = 48;
    let mut least = f64::INFINITY;
    for at in 0..=steps {
        let share = f64::from(at) / f64::from(steps);
        let inlets = BOUNDS.inlets_m2.0 + share * (BOUNDS.inlets_m2.1 - BOUNDS.inlets_m2.0);
        // From the smallest exit up, the first that holds has the least drag of its column.
        for exit_at in 0..=115 {
            let exit = inch2(25.0 + f64::from(exit_at));
            if holds(&design, inlets, exit) {
                let sized = resized(&design.installation, inlets, exit);
                least = least.min(cruise_drag_n(&design, &sized).expect("a drag"));
                break;
            }
        }
    }
    // The grid can only be worse, and by no more than one step of its exit costs.
    assert!(
        found.cruise_drag_n <= least * (1.0 + 1e-6) && found.cruise_drag_n > 0.97 * least,
        "found {} N, grid {least} N",
        found.cruise_drag_n
    );
}

#[test]
fn inlets_for_a_velocity_ratio_have_it_when_evaluated() {
    let design = example::design();
    let found = inlets_for_velocity_ratio(&design, 3, 0.45, BOUNDS.inlets_m2).expect("a size");
    let mut sized = design.clone();
    sized.installation = found.installation;
    let answers = evaluate_all(&sized);
    let ratio = answers[3].as_ref().expect("an answer").inlet_velocity_ratio;
    assert!((ratio.expect("in flight") - 0.45).abs() < 1e-5);
    let refused = inlets_for_velocity_ratio(&design, 3, 3.0, BOUNDS.inlets_m2);
    assert!(matches!(refused, Err(SizeError::RatioOutOfReach { smallest, .. }) if smallest < 3.0));
    let at_rest = inlets_for_velocity_ratio(&design, 0, 0.45, BOUNDS.inlets_m2);
    assert!(matches!(
        at_rest,
        Err(SizeError::NoAirspeed { condition: 0 })
    ));
}

#[test]
fn fourteen_square_inches_for_180_hp_in_a_hot_100_knot_climb_are_refused_for_the_heads() {
    let mut design = example::design();
    design.installation.engine.rated_power.value = hp(180.0);
    design.conditions.truncate(2);
    design.conditions.remove(0);
    design.conditions[0].airspeed.value = knot(100.0);
    design.conditions[0].power_share = 0.95;
    let inlets = inch2(14.0);
    design.installation = resized(&design.installation, inlets, exit_m2(&design.installation));
    let demand = Demand::nominal(&design);
    let Err(SizeError::OutOfReach { shortfall, .. }) =
        smallest_exit(&design, &demand, BOUNDS.exit_m2)
    else {
        panic!("14 in² was accepted");
    };
    assert_eq!(shortfall.wanted, Wanted::Limit(Limit::Head));
    assert!(shortfall.by < -20.0, "{} K", shortfall.by);
    // With the largest exit it is the inlet that is missing, and not still more exit.
    design.installation = resized(&design.installation, inlets, BOUNDS.exit_m2.1);
    let remedies = remedies(&design, &demand).expect("remedies");
    let gain = |words: &str| {
        remedies
            .iter()
            .find(|remedy| remedy.change.contains(words))
            .map(|remedy| remedy.gain)
            .expect("tried")
    };
    assert!(gain("more inlet") > 5.0 * gain("more exit").max(0.1));
    assert!(remedies.windows(2).all(|pair| pair[0].gain >= pair[1].gain));
}

#[test]
fn a_robust_size_is_larger_and_even_chances_ask_for_nothing_more() {
    let design = roomy();
    let mut demand = Demand::nominal(&design);
    let nominal = smallest_exit(&design, &demand, BOUNDS.exit_m2).expect("a size");
    let at = |chance| allowance(&design, 1, chance).expect("an allowance");
    assert!(at(0.5).head_k.abs() < 1e-9);
    assert!(at(0.95).head_k > at(0.9).head_k && at(0.9).head_k > 5.0);
    // Limits lowered by a known amount are held by that amount.
    for allowance in &mut demand.allowances {
        allowance.head_k = 3.0;
    }
    let robust = smallest_exit(&design, &demand, BOUNDS.exit_m2).expect("a size");
    assert!(robust.exit_m2 > nominal.exit_m2);
    let mut sized = open(design);
    sized.installation = robust.installation;
    let answers = evaluate_all(&sized);
    let margin = answers[1].as_ref().expect("an answer").head_margin.value;
    assert!((margin - 3.0).abs() < 0.01, "{margin} K");
}

#[test]
fn a_flap_closes_below_the_fixed_exit_and_saves_speed() {
    let design = roomy();
    let demand = Demand::nominal(&design);
    let found = flap(&design, &demand, BOUNDS.exit_m2).expect("a flap");
    assert!(found.closed_m2 < found.fixed_m2 && found.closed_m2 <= found.open_m2);
    assert!(found.saved_m_s.expect("a speed") > 0.0);
    for (place, answer) in evaluate_all(&open(found.design.clone())).iter().enumerate() {
        let answer = answer.as_ref().expect("an answer");
        assert!(
            answer.head_margin.value > -0.01 && answer.oil_margin.value > -0.01,
            "condition {place}"
        );
        let climbs = matches!(answer.phase, Phase::Ground | Phase::Climb);
        assert_eq!(found.design.conditions[place].flap > 0.5, climbs);
    }
}

#[test]
fn worn_seals_need_more_exit_and_a_cold_limit_is_out_of_reach() {
    let mut design = roomy();
    let demand = Demand::nominal(&design);
    let fresh = smallest_exit(&design, &demand, BOUNDS.exit_m2).expect("a size");
    let mut sealed = design.clone();
    sealed.installation.decks.sealing = Sealing::HardPlenum;
    let plenum = smallest_exit(&sealed, &demand, BOUNDS.exit_m2).expect("a size");
    assert!(plenum.exit_m2 < fresh.exit_m2);
    design.installation.engine.head_limit.value = degf(330.0);
    let refused = least_drag(&design, &demand, &BOUNDS);
    assert!(matches!(refused, Err(SizeError::OutOfReach { .. })));
    let bounds = Bounds {
        inlets_m2: (1.0, 0.5),
        ..BOUNDS
    };
    assert_eq!(
        least_drag(&design, &demand, &bounds),
        Err(SizeError::Bounds)
    );
}

/// Whether a sizing's outcome, if there is one, is a design that is not refused.
fn is_fit(design: &Design, found: Result<Found, SizeError>) -> bool {
    found.is_ok_and(|found| {
        let sized = Design {
            installation: found.installation,
            ..design.clone()
        };
        assert_eq!(sized.check(), Ok(()), "{}", design.name);
        true
    })
}

#[test]
fn no_size_is_offered_whose_dimensions_are_not_permitted() {
    let mut design = example::design();
    let installation = &mut design.installation;
    installation.exits[0].width.value = inch(5.0);
    installation.engine.head_limit.value = degf(470.0);
    for inlet in &mut installation.inlets {
        inlet.width.value = inch(7.5);
    }
    let demand = Demand::nominal(&design);
    // A gap of 24 in, which is the most, leaves 114 in² beside the pipes.
    let refused = smallest_exit(&design, &demand, (inch2(130.0), inch2(200.0)));
    let says = refused.expect_err("no such exit").to_string();
    assert!(says.contains("114 in²"), "{says}");
    assert!(is_fit(
        &design,
        smallest_exit(&design, &demand, (inch2(20.0), inch2(200.0)))
    ));
}

#[test]
fn sizes_found_for_random_designs_are_never_refused() {
    let mut found = 0;
    for seed in 0..300 {
        let mut design = random_design(seed);
        design.name = format!("seed {seed}");
        // Limits that some openings hold.
        design.installation.engine.head_limit.value = degf(499.0);
        design.installation.engine.oil_limit.value = degf(259.0);
        let demand = Demand::nominal(&design);
        let mut rng = fastrand::Rng::with_seed(seed);
        let mut around = |area: f64| {
            let low = area * (0.05 + 0.95 * rng.f64());
            (low, low + area * 40.0 * rng.f64() * rng.f64())
        };
        let bounds = Bounds {
            inlets_m2: around(inlets_m2(&design.installation)),
            exit_m2: around(exit_m2(&design.installation)),
        };
        found += usize::from(is_fit(
            &design,
            smallest_exit(&design, &demand, bounds.exit_m2),
        ));
        found += usize::from(is_fit(&design, least_drag(&design, &demand, &bounds)));
        let ratio = inlets_for_velocity_ratio(&design, 0, 0.4, bounds.inlets_m2);
        found += usize::from(is_fit(&design, ratio));
        if let Ok(flapped) = flap(&design, &demand, bounds.exit_m2) {
            assert_eq!(flapped.design.check(), Ok(()), "seed {seed}");
            found += 1;
        }
    }
    assert!(found > 80, "only {found} sizes were found");
}

/// The turn-around through the ground run and both climbs of the example, five minutes each.
fn legs() -> Vec<Leg> {
    [0, 1, 2]
        .map(|condition| Leg {
            condition,
            seconds: 300.0,
        })
        .to_vec()
}

fn sized_with(
    design: &Design,
    seek: Seek,
    bounds: Bounds,
    turn_around: Option<TurnAround>,
) -> Sizes {
    let question = Question {
        seek,
        bounds,
        chance: 0.5,
        least_drop_pa: 0.0,
        ratio: 0.45,
        ratio_condition: 3,
        turn_around,
    };
    Sizing::new(design.clone(), question).finished()
}

/// The example whose builder climbs on mild days only: 60 °F.
fn mild() -> Design {
    let mut design = roomy();
    for condition in &mut design.conditions[1..=2] {
        condition.air = AirKind::Oat;
        condition.oat.value = degf(60.0);
    }
    design
}

fn openings(sizes: &Sizes) -> &Found {
    match &sizes.nominal {
        Ok(Sized::Openings(found)) => found,
        other => panic!("{other:?}"),
    }
}

/// Hottest head and oil while the engine runs in the turn-around, second by second, by the flights of the
/// core with the hot day typed into the conditions.
fn peaks(sized: &Design, soak_s: f64) -> Warmth {
    let mut hot = open(sized.clone());
    for condition in &mut hot.conditions[..=2] {
        condition.air = AirKind::HotDay;
    }
    let ground = evaluate(&hot, 0).expect("an answer");
    let stopped = Warmth {
        head_k: ground.head_hottest.value,
        oil_k: ground.oil.value,
    };
    let stood = soak(&hot, 0, stopped, soak_s, 60.0).expect("an answer");
    let start = stood.last().expect("moments").warmth;
    let moments = flight(&hot, &legs(), start, 1.0).expect("a flight");
    moments.iter().fold(start, |peak, moment| Warmth {
        head_k: peak.head_k.max(moment.warmth.head_k),
        oil_k: peak.oil_k.max(moment.warmth.oil_k),
    })
}

#[test]
fn a_turn_around_that_binds_gets_larger_openings_and_holds_then() {
    let design = mild();
    let asked = TurnAround::new(&design, &legs(), None, 1800.0);
    for seek in [Seek::Exit, Seek::Both] {
        let without = sized_with(&design, seek, BOUNDS, None);
        let with = sized_with(&design, seek, BOUNDS, asked.clone());
        let (small, large) = (openings(&without), openings(&with));
        assert!(without.nominal_turn_around.is_none());
        assert!(
            large.inlets_m2 * large.exit_m2 > 1.02 * small.inlets_m2 * small.exit_m2,
            "{seek:?}: {large:?}"
        );
        let limit_k = design.installation.engine.head_limit.value;
        let of = |found: &Found| {
            let mut sized = design.clone();
            sized.installation = found.installation.clone();
            peaks(&sized, 1800.0)
        };
        assert!(of(small).head_k > limit_k + 1.0);
        let peak = of(large);
        // It is just held: the climb's end decides, five minutes after take-off.
        assert!(
            (limit_k - peak.head_k - large.binding.by).abs() < 1e-3,
            "{peak:?}"
        );
        assert!(
            (0.0..0.05).contains(&large.binding.by),
            "{:?}",
            large.binding
        );
        assert_eq!(large.binding.after_take_off_s, Some(300.0));
        assert_eq!(with.nominal_turn_around.map(|it| it.condition), Some(1));
    }
}

#[test]
fn a_turn_around_that_does_not_bind_leaves_the_size_as_it_is_to_the_bit() {
    // The example's own climbs are steady on the hot day already.
    let design = roomy();
    let asked = TurnAround::new(&design, &legs(), None, 1800.0);
    for seek in [Seek::Exit, Seek::Both] {
        let without = sized_with(&design, seek, BOUNDS, None);
        let with = sized_with(&design, seek, BOUNDS, asked.clone());
        assert_eq!(openings(&with), openings(&without));
        assert_eq!(with.robust.is_some(), without.robust.is_some());
        let margin = with.nominal_turn_around.expect("it was asked about");
        assert!(margin.by >= 0.0 && margin.after_take_off_s.is_some());
    }
    // A velocity ratio asks nothing of the limits.
    let wide = Bounds {
        inlets_m2: (inch2(20.0), inch2(200.0)),
        ..BOUNDS
    };
    assert_eq!(
        sized_with(&design, Seek::Ratio, wide, asked),
        sized_with(&design, Seek::Ratio, wide, None)
    );
}

#[test]
fn a_turn_around_out_of_reach_is_told_with_the_moment_that_is_missed() {
    let design = mild();
    // So hot when it is stopped that a short stand leaves the oil over its limit at the start, whatever
    // the openings.
    let stopped = Warmth {
        head_k: degf(420.0),
        oil_k: degf(250.0),
    };
    let asked = TurnAround::new(&design, &legs(), Some(stopped), 300.0);
    let sizes = sized_with(&design, Seek::Both, BOUNDS, asked);
    let Err(SizeError::OutOfReach { shortfall, .. }) = sizes.nominal else {
        panic!("{:?}", sizes.nominal);
    };
    assert_eq!(shortfall.wanted, Wanted::Limit(Limit::Oil));
    assert_eq!(shortfall.after_take_off_s, Some(-300.0));
    assert!(shortfall.by < 0.0);
}

#[test]
fn a_flap_holds_the_turn_around_with_its_open_area() {
    let design = mild();
    let asked = TurnAround::new(&design, &legs(), None, 1800.0);
    let of = |turn_around| match sized_with(&design, Seek::Flap, BOUNDS, turn_around).nominal {
        Ok(Sized::Flap(flap)) => *flap,
        other => panic!("{other:?}"),
    };
    let (without, with) = (of(None), of(asked));
    assert!(with.open_m2 > 1.02 * without.open_m2);
    assert!((with.closed_m2 / without.closed_m2 - 1.0).abs() < 1e-9);
    assert!(with.open_binding.after_take_off_s.is_some());
    assert!(
        peaks(&with.design, 1800.0).head_k < design.installation.engine.head_limit.value + 0.01
    );
}

#[test]
fn a_size_with_confidence_has_the_chance_that_was_asked_for_of_both_limits_together() {
    let mut both_bind = mild();
    let engine = &mut both_bind.installation.engine;
    engine.oil_limit.value = degf(236.0);
    let mut tried = 0;
    for (name, design) in [("mild", mild()), ("both bind", both_bind)] {
        for seek in [Seek::Exit, Seek::Both] {
            for chance in [0.6, 0.75, 0.85] {
                let question = Question {
                    seek,
                    bounds: Bounds {
                        inlets_m2: (inch2(20.0), inch2(200.0)),
                        exit_m2: (inch2(25.0), inch2(300.0)),
                    },
                    chance,
                    least_drop_pa: 0.0,
                    ratio: 0.45,
                    ratio_condition: 3,
                    turn_around: None,
                };
                let found = Sizing::new(design.clone(), question).finished();
                let Some(Ok(_)) = found.robust else { continue };
                tried += 1;
                println!("{name} {seek:?} {chance}: {:.4}", found.robust_chance);
                assert!(
                    found.robust_chance >= chance,
                    "{name}, {seek:?}: {} for {chance}",
                    found.robust_chance
                );
            }
        }
    }
    assert!(tried >= 6, "{tried}");
}
