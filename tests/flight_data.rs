//! Readings corrected to another day, and two sets brought to one condition.

use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::document::condition::Mixture;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{CylinderData, SecondLimit};
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Reading, Values};
use coolpath_core::prove::before_after::{BeforeAfter, BeforeAfterError, ComparedQuantity};
use coolpath_core::prove::calibrate::Scatter;
use coolpath_core::prove::hot_day;
use coolpath_core::prove::hot_day::{CorrectError, Day, RULE_BARREL, RULE_HEAD};
use coolpath_core::units::quantity::metre;
use coolpath_core::units::si::{degf, foot, inch, inh2o, knot};
use coolpath_tests::probes::Probes;
use coolpath_tests::table::{Table, compare};

fn kelvin_to_degf(kelvin: f64) -> f64 {
    kelvin * 1.8 - 459.67
}

#[test]
fn the_rules_correction_matches_the_worked_values() {
    compare("temperatures corrected to the 100 °F day", |comparison| {
        let table = Table::read("cooling_test_rules");
        for (quantity, share) in [
            ("corrected head temperature", RULE_HEAD),
            ("corrected oil temperature", RULE_HEAD),
            ("corrected barrel temperature", RULE_BARREL),
        ] {
            for row in table.rows_where("quantity", quantity) {
                let day = Day::Hot.air(foot(row.input("pressure_altitude_ft")));
                let found = hot_day::by_rule(
                    degf(row.input("reading_degf")),
                    share,
                    degf(row.input("oat_degf")),
                    day,
                );
                comparison.row(&row, kelvin_to_degf(found));
            }
        }
        for row in table.rows_where("quantity", "hot day temperature") {
            let day = Day::Hot.air(foot(row.input("pressure_altitude_ft")));
            comparison.row(&row, kelvin_to_degf(day));
        }
    });
    compare("air of the metric hot day", |comparison| {
        for row in Table::read("cs_22").rows_where("quantity", "hot day temperature") {
            let day = Day::HotMetric.air(row.input("pressure_altitude_m"));
            comparison.row(&row, day - 273.15);
        }
    });
}

fn values(altitude_ft: f64, oat_f: f64, ias_kt: f64, power: f64) -> Values {
    [
        (Quantity::Altitude, foot(altitude_ft)),
        (Quantity::Oat, degf(oat_f)),
        (Quantity::Airspeed, knot(ias_kt)),
        (Quantity::PowerShare, power),
        (Quantity::Rpm, 2500.0),
        (Quantity::Shutter, 1.0),
    ]
    .into_iter()
    .collect()
}

/// A steady reading as a design gives it.
fn reading(truth: &Design, set: &str, mut values: Values) -> Reading {
    let bare = Reading::steady("", values.clone());
    let condition = bare.moments[0]
        .condition(&truth.installation.engine, Mixture::BestPower)
        .expect("complete");
    let solved = solve_condition(&truth.installation, &condition, None).expect("an answer");
    let read = Probes::of(&truth.installation, &solved);
    values.insert(Quantity::Head1, read.mean);
    values.insert(Quantity::Head2, read.hottest());
    values.insert(Quantity::Head3, read.mean - read.above);
    values.insert(Quantity::Oil, read.oil);
    values.insert(Quantity::BaffleDrop, read.drop);
    Reading {
        set: set.to_owned(),
        ..Reading::steady("point", values)
    }
}

#[test]
fn a_reading_of_the_model_is_corrected_by_the_model_to_its_own_hot_day() {
    let mut design = example::design();
    let point = reading(&design, "", values(3000.0, 55.0, 95.0, 0.85));
    let found =
        hot_day::corrected(&design, &point, Day::Hot, &Scatter::default()).expect("corrected");
    let head = found.head.expect("heads");
    // The rule adds exactly what the day is hotter.
    assert!((head.rule - head.reading - (found.day - found.air)).abs() < 1e-9);
    // The model's answer is that of the hot day itself.
    let mut condition = point.moments[0]
        .condition(&design.installation.engine, Mixture::BestPower)
        .expect("complete");
    condition.air = coolpath_core::document::condition::AirKind::HotDay;
    design.conditions.push(condition);
    let hot = evaluate(&design, design.conditions.len() - 1).expect("an answer");
    assert!((head.model - hot.head_hottest.value).abs() < 1e-6);
    let oil = found.oil.expect("oil");
    assert!((oil.model - hot.oil.value).abs() < 1e-6);
    assert!(
        head.band.below > 3.0 && head.band.above < 30.0,
        "{:?}",
        head.band
    );
    let slope = head.slope(found.day - found.air);
    assert!((0.5..1.2).contains(&slope), "{slope}");
    // Each head that was read, and the hottest of them is the hottest.
    let read = point.moments[0].heads().count();
    assert_eq!(found.heads.len(), read);
    let hottest = found
        .heads
        .iter()
        .max_by(|a, b| a.1.reading.total_cmp(&b.1.reading));
    let (_, hottest) = hottest.expect("heads");
    assert!((hottest.model - head.model).abs() < 1e-9 && hottest.rule == head.rule);
    assert!(
        found
            .heads
            .iter()
            .all(|(_, own)| own.limit == head.limit && own.second.is_none())
    );
}

#[test]
fn heads_known_one_by_one_gain_what_the_model_finds_for_each_and_meet_both_limits() {
    let mut design = example::design();
    let engine = &mut design.installation.engine;
    engine.cylinder_data = CylinderData::Each;
    engine.head_second = SecondLimit::Continuous;
    engine.head_second_limit.value = engine.head_limit.value - 10.0;
    design.installation.cylinders = vec![Default::default(); 4];
    design.installation.cylinders[1].air = 0.8;
    design.installation.cylinders[3].air = 1.2;
    let point = reading(&design, "", values(3000.0, 55.0, 95.0, 0.85));
    let found =
        hot_day::corrected(&design, &point, Day::Hot, &Scatter::default()).expect("corrected");
    let mut condition = point.moments[0]
        .condition(&design.installation.engine, Mixture::BestPower)
        .expect("complete");
    design.conditions.push(condition.clone());
    condition.air = coolpath_core::document::condition::AirKind::HotDay;
    design.conditions.push(condition);
    let count = design.conditions.len();
    let [now, then] = [count - 2, count - 1].map(|at| evaluate(&design, at).expect("an answer"));
    assert!(!found.heads.is_empty());
    for (number, own) in &found.heads {
        let place = usize::from(*number) - 1;
        let gain = then.heads[place].value - now.heads[place].value;
        assert!(
            (own.model - own.reading - gain).abs() < 1e-6,
            "head {number}"
        );
        let second = own.second.expect("a continuous limit");
        assert!((own.limit - second.kelvin - 10.0).abs() < 1e-9);
    }
}

#[test]
fn the_maximum_counts_at_its_first_occurrence() {
    let design = example::design();
    let mut point = reading(&design, "", values(3000.0, 55.0, 95.0, 0.85));
    let moments = std::sync::Arc::make_mut(&mut point.moments);
    for (second, oat, hotter) in [(60.0, 50.0, 20.0), (120.0, 45.0, 20.0), (180.0, 40.0, 5.0)] {
        let mut next = moments[0].clone();
        next.seconds = second;
        next.values.insert(Quantity::Oat, degf(oat));
        *next.values.get_mut(&Quantity::Head2).expect("a head") += hotter;
        moments.push(next);
    }
    let found =
        hot_day::corrected(&design, &point, Day::Hot, &Scatter::default()).expect("corrected");
    assert_eq!(found.seconds, 60.0);
    let bare = Reading::steady("bare", values(3000.0, 55.0, 95.0, 0.85));
    let none = hot_day::corrected(&design, &bare, Day::Hot, &Scatter::default());
    assert_eq!(none, Err(CorrectError::NoTemperature));
}

fn compared(
    design: &Design,
    names: [&str; 2],
) -> Vec<coolpath_core::prove::before_after::Difference> {
    let mut comparison = BeforeAfter::new(design, names, &design.conditions[1], Scatter::default())
        .expect("both sets");
    while comparison.advance() {}
    comparison.differences()
}

#[test]
fn the_same_aircraft_on_two_days_has_not_changed() {
    let mut design = example::design();
    design.readings = vec![
        reading(&design, "old", values(3000.0, 90.0, 95.0, 0.85)),
        reading(&design, "new", values(6000.0, 30.0, 120.0, 0.70)),
    ];
    for difference in compared(&design, ["old", "new"]) {
        let ComparedQuantity::HeadMean = difference.compared else {
            continue;
        };
        assert!(difference.change().abs() < 1e-6, "{difference:?}");
        assert!(!difference.is_clear());
    }
}

#[test]
fn new_seals_show_on_different_days_as_much_as_the_model_says() {
    let mut design = example::design();
    let worn = {
        let mut worn = design.clone();
        worn.installation.decks.seal_gap = metre(inch(20.0 / 80.0));
        worn
    };
    design.readings = vec![
        reading(&worn, "old seals", values(3000.0, 85.0, 95.0, 0.85)),
        reading(&worn, "old seals", values(5000.0, 75.0, 110.0, 0.75)),
        reading(&design, "new seals", values(3000.0, 60.0, 95.0, 0.85)),
        reading(&design, "new seals", values(5000.0, 50.0, 110.0, 0.75)),
    ];
    let climb = |design: &Design| {
        let mut design = design.clone();
        // The readings' own mixture: fuel at full rich is another matter.
        design.conditions[1].mixture = Mixture::BestPower;
        evaluate(&design, 1).expect("an answer")
    };
    let found = compared(&design, ["old seals", "new seals"]);
    let of = |compared: ComparedQuantity| {
        *found
            .iter()
            .find(|difference| difference.compared == compared)
            .expect("read")
    };
    let (old, new) = (climb(&worn), climb(&design));
    let head = of(ComparedQuantity::HeadMean);
    let truth = new.head_mean.value - old.head_mean.value;
    println!(
        "heads {:.1} K, truth {truth:.1} K, band {:?}",
        head.change(),
        head.band
    );
    assert!(truth < -3.0);
    assert!(head.change() < 0.0 && head.is_clear());
    assert!(
        (head.change() - truth).abs() < 0.25 * truth.abs(),
        "{head:?}, {truth}"
    );
    let drop = of(ComparedQuantity::BaffleDrop);
    let truth = new.baffle_drop.value - old.baffle_drop.value;
    println!("Δp {:.0} Pa, truth {truth:.0} Pa", drop.change());
    assert!(truth > inh2o(0.2) && (drop.change() - truth).abs() < 0.25 * truth);
    let none = BeforeAfter::new(
        &design,
        ["old seals", "plenum"],
        &design.conditions[1],
        Scatter::default(),
    );
    assert_eq!(
        none.err(),
        Some(BeforeAfterError::NoReadings {
            set: "plenum".to_owned()
        })
    );
}
