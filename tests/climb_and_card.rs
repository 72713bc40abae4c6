//! Climb help and shutter card: what they name is what an evaluation gives.

use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::solved::ShutterState;
use coolpath_core::answer::sweep::{Swept, crossings, sweep};
use coolpath_core::decide::climb::{Holding, largest_power, mixtures, slowest_airspeed};
use coolpath_core::decide::shutter_card::{MOST_TAPED, Tape, shutter_card, tape_card};
use coolpath_core::document::condition::{Mixture, PowerKind};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{Installation, Oil};
use coolpath_core::units::si::{degf, knot, psi};

const CLIMB: usize = 1;
const CRUISE_CLIMB: usize = 2;
const CRUISE: usize = 3;

fn head_k(design: &Design, place: usize) -> f64 {
    evaluate(design, place)
        .expect("an answer")
        .head_hottest
        .value
}

#[test]
fn the_slowest_airspeed_holds_the_limit_and_is_where_the_pressures_cross() {
    let mut design = example::design();
    let limit = design.installation.engine.head_limit.value;
    let condition = design.conditions[CLIMB].clone();
    let Ok(Holding::From(speed)) = slowest_airspeed(&design.installation, &condition, limit) else {
        panic!("no airspeed");
    };
    design.conditions[CLIMB].airspeed.value = speed;
    assert!((head_k(&design, CLIMB) - limit).abs() < 0.01);
    // The same speed as the crossing of required and available pressure, shutter open.
    let open = condition.with_shutter_open();
    let speeds: Vec<f64> = (0..=40).map(|at| knot(80.0 + f64::from(at))).collect();
    let points = sweep(&design.installation, &open, Swept::Airspeed, &speeds);
    assert!((crossings(&points)[0] - speed).abs() < 0.1);
}

#[test]
fn the_largest_power_holds_the_limit() {
    let mut design = example::design();
    let limit = design.installation.engine.head_limit.value;
    let condition = design.conditions[CLIMB].clone();
    let Ok(Holding::From(share)) = largest_power(&design.installation, &condition, limit) else {
        panic!("no power");
    };
    assert!(share < condition.power_share);
    design.conditions[CLIMB].power = PowerKind::Share;
    design.conditions[CLIMB].power_share = share;
    assert!((head_k(&design, CLIMB) - limit).abs() < 0.01);
    let hot = slowest_airspeed(&design.installation, &condition, degf(100.0));
    assert_eq!(hot, Ok(Holding::Nowhere));
    let cold = largest_power(&design.installation, &condition, degf(900.0));
    assert_eq!(cold, Ok(Holding::Everywhere));
}

#[test]
fn the_largest_power_keeps_the_ratio_of_a_mixture_by_fuel_flow() {
    let mut design = example::design();
    let named = evaluate(&design, CRUISE_CLIMB).expect("an answer");
    let own_share = design.conditions[CRUISE_CLIMB].power_share;
    let by_ratio = |share: f64| {
        let mut design = example::design();
        let condition = &mut design.conditions[CRUISE_CLIMB];
        (condition.mixture, condition.phi) = (Mixture::Ratio, named.mixture);
        condition.power_share = share;
        head_k(&design, CRUISE_CLIMB)
    };
    let flow_m3_s = named.fuel_on_gauge_m3_s(&design.installation.engine);
    let condition = &mut design.conditions[CRUISE_CLIMB];
    condition.mixture = Mixture::FuelFlow;
    condition.fuel_flow.value = flow_m3_s;
    let condition = condition.clone();
    assert!((head_k(&design, CRUISE_CLIMB) - named.head_hottest.value).abs() < 1e-6);
    // The head that a share gives at that ratio is held up to that share.
    for share in [0.3, own_share, 0.9] {
        let found = largest_power(&design.installation, &condition, by_ratio(share));
        let Ok(Holding::From(largest)) = found else {
            panic!("{share}: {found:?}");
        };
        assert!(
            (largest - share).abs() < 1e-4,
            "{largest} instead of {share}"
        );
    }
}

#[test]
fn mixtures_differ_and_the_conditions_own_is_its_answer() {
    let design = example::design();
    let found = mixtures(&design.installation, &design.conditions[CLIMB]).expect("four heads");
    let of = |mixture| {
        found
            .iter()
            .find(|(name, _)| *name == mixture)
            .expect("it")
            .1
    };
    assert!((of(Mixture::FullRich) - head_k(&design, CLIMB)).abs() < 1e-9);
    assert!(of(Mixture::FullRich) < of(Mixture::BestPower));
}

#[test]
fn tape_that_holds_gives_the_target_when_evaluated_and_less_is_needed_on_warmer_days() {
    let design = example::design();
    let condition = &design.conditions[CRUISE];
    let oats: Vec<f64> = (0..14)
        .map(|at| degf(-20.0 + 10.0 * f64::from(at)))
        .collect();
    let card = tape_card(&design.installation, condition, &oats);
    let mut before = MOST_TAPED;
    let mut held = 0;
    for (oat, tape) in oats.iter().zip(card) {
        let share = match tape.expect("an answer") {
            Tape::Holds(share) => share,
            Tape::NoneTooHot => 0.0,
            Tape::MostTooCold => MOST_TAPED,
        };
        assert!(share <= before + 1e-6);
        before = share;
        if share > 0.0 && share < MOST_TAPED {
            held += 1;
            let mut taped = design.clone();
            taped.installation.cooler.blanked_share = share;
            taped.conditions[CRUISE] = condition.with_shutter_open();
            taped.conditions[CRUISE].oat.value = *oat;
            let oil = evaluate(&taped, CRUISE).expect("an answer").oil.value;
            assert!((oil - condition.oil_target.value).abs() < 0.05);
        }
    }
    assert!(held > 3, "{held} points hold");
}

#[test]
fn the_card_names_jams_bypass_and_congealing() {
    let design = example::design();
    let condition = &design.conditions[CRUISE];
    let oats = [degf(-40.0), degf(60.0), degf(110.0)];
    let card: Vec<_> = shutter_card(&design, condition, &oats)
        .into_iter()
        .map(|point| point.expect("an answer"))
        .collect();
    for point in &card {
        assert!(point.oil_jammed_shut.value >= point.oil.value - 1e-6);
        assert!(point.oil_jammed_open.value <= point.oil.value + 1e-6);
        assert!((0.0..=1.0).contains(&point.oil_through_cooler));
    }
    assert!(matches!(card[2].state, ShutterState::OpenTooHot { .. }));
    // Cold cores are named; warm ones are not.
    assert!(card[2].congealing.is_none());
    let mut thick = design.clone();
    // The least that may be typed: 5 psi.
    thick.installation.oil.drop_limit.value = psi(5.0);
    let point = shutter_card(&thick, condition, &oats[..1])[0]
        .clone()
        .expect("an answer");
    assert!(point.congealing.is_some());
}

#[test]
fn the_cards_band_holds_its_opening_and_counts_all_assumptions() {
    let design = example::design();
    let condition = &design.conditions[CRUISE];
    let oats = [250.0, 265.0, condition.oat.value];
    for point in shutter_card(&design, condition, &oats) {
        let point = point.expect("an answer");
        let (low, high) = point.opening_band;
        assert!(low <= point.opening && point.opening <= high, "{point:?}");
        // Not the disc's table alone.
        assert!(high - low > 0.2, "{point:?}");
    }
    // Where one assumption alone moves the opening beyond it, the band is no narrower than that.
    let warm = Design {
        installation: Installation {
            oil: Oil {
                heat_share: 0.12,
                ..design.installation.oil.clone()
            },
            ..design.installation.clone()
        },
        ..design.clone()
    };
    let at = |design: &Design| {
        shutter_card(design, condition, &[244.26])[0]
            .clone()
            .expect("an answer")
    };
    assert!(
        at(&design).opening_band.1 > at(&warm).opening,
        "{:?}",
        at(&design)
    );
}

#[test]
fn power_by_fuel_flow_or_by_share_is_the_same_condition() {
    let mut design = example::design();
    let by_share = evaluate(&design, CRUISE).expect("an answer");
    let condition = &mut design.conditions[CRUISE];
    condition.power = PowerKind::FuelFlow;
    // 6.0 lb per US gallon, as the core has it.
    let density = 6.0 * 0.453_592_37 / 0.003_785_411_784;
    condition.fuel_flow.value = by_share.fuel_flow.value / density;
    let by_fuel = evaluate(&design, CRUISE).expect("an answer");
    assert!((by_fuel.brake_power.value - by_share.brake_power.value).abs() < 1e-6);
    assert!((by_fuel.head_hottest.value - by_share.head_hottest.value).abs() < 1e-6);
    design.conditions[CRUISE].mixture = Mixture::FuelFlow;
    let refused = evaluate(&design, CRUISE).expect_err("both from one number");
    assert!(refused.to_string().contains("cannot give both"));
}

#[test]
fn manifold_pressure_and_fuel_flow_give_power_and_mixture_together() {
    let mut design = example::design();
    let condition = &mut design.conditions[CRUISE];
    condition.power = PowerKind::Manifold;
    condition.rpm = 2400.0;
    let named = evaluate(&design, CRUISE).expect("an answer");
    design.conditions[CRUISE].mixture = Mixture::FuelFlow;
    let density = 6.0 * 0.453_592_37 / 0.003_785_411_784;
    design.conditions[CRUISE].fuel_flow.value = named.fuel_flow.value / density;
    let by_fuel = evaluate(&design, CRUISE).expect("an answer");
    assert!((by_fuel.mixture - named.mixture).abs() < 1e-9);
    assert!((by_fuel.brake_power.value - named.brake_power.value).abs() < 1e-6);
    assert!((0.6..0.8).contains(&(named.brake_power.value / 111_854.98)));
}
