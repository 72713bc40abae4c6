//! A check on flights says what a calibration says, and compares like with like.

use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Lacking, Reading, Used};
use coolpath_core::prove::calibrate::{Calibration, Scatter, usual_choice};
use coolpath_core::prove::flights::{
    Checked, Figure, FlightPhase, Judged, Reason, Window, WindowTable, check, check_only_windows,
    predict, summary, windows_of,
};
use coolpath_core::prove::log::column_map::ColumnMap;
use coolpath_core::prove::log::{
    Criteria, Kind, Layout, LogReader, Session, Stretch, guess, plain_windows, stretches,
};
use coolpath_core::units::si::{degf, deltaf};
use coolpath_tests::flight_log;
use coolpath_tests::flight_log::Day;
use coolpath_tests::flight_page::data::readings;
use coolpath_tests::table::text::reference_text;
use std::sync::Arc;

fn reference(name: &str) -> String {
    reference_text(&format!("flights/{name}"))
}

fn shared_windows() -> Vec<Window> {
    let text = reference("steady_windows.csv");
    let table = WindowTable::read(&text, &ColumnMap::new()).expect("a table");
    table.windows
}

fn six() -> Design {
    serde_json::from_str(&reference("six_310hp_design.json")).expect("a design")
}

fn of(windows: &[Window], flight: &str) -> Vec<Window> {
    let own = windows.iter().filter(|window| window.flight == flight);
    own.cloned().collect()
}

#[test]
fn the_table_of_flights_is_read_whole() {
    let windows = shared_windows();
    assert_eq!(windows.len(), 90);
    assert_eq!(of(&windows, "F01").len(), 5);
    assert_eq!(of(&windows, "F06").len(), 44);
    assert_eq!(of(&windows, "F08").len(), 16);
    for window in &windows {
        let moment = window.moment().expect("a moment");
        let count = |list: &[Quantity]| list.iter().filter(|q| moment.get(**q).is_some()).count();
        assert_eq!(count(&Quantity::HEADS), 6, "{}", window.reading.name);
        assert_eq!(count(&Quantity::EGTS), 6, "{}", window.reading.name);
        let condition = moment.condition(&six().installation.engine, window.reading.mixture);
        assert!(condition.is_ok(), "{}: {condition:?}", window.reading.name);
    }
    // The exhaust of a cylinder that does not fire is evidence and is not set aside.
    let cold = windows
        .iter()
        .filter_map(|window| window.moment()?.get(Quantity::Egt6))
        .fold(f64::INFINITY, f64::min);
    assert!(cold < degf(200.0), "{cold} K");
    let climbs = windows.iter().filter(|w| w.phase == FlightPhase::Climb);
    assert_eq!(climbs.count(), 2);
}

#[test]
fn the_design_for_these_flights_is_the_engine_that_flew_them() {
    let design = six();
    design.check().expect("a design that can be evaluated");
    let engine = &design.installation.engine;
    assert_eq!(engine.cylinders, 6);
    assert!((engine.rated_power.value - 310.0 * 745.699_871_582).abs() < 1.0);
    let answers = coolpath_core::answer::evaluate::evaluate_all(&design);
    assert!(answers.iter().all(Result::is_ok), "{answers:?}");
}

#[test]
fn a_check_says_to_the_bit_what_a_calibration_says_of_the_same_conditions() {
    let windows = shared_windows();
    let (fit, on) = (of(&windows, "F01"), of(&windows, "F03"));
    let found = check(&six(), &readings(&fit), &on).expect("a fit");
    let mut design = six();
    design.readings = readings(&fit);
    design.conditions = on
        .iter()
        .map(|window| {
            let moment = window.moment().expect("a moment");
            let engine = &design.installation.engine;
            moment
                .condition(engine, window.reading.mixture)
                .expect("complete")
        })
        .collect();
    let parameters = usual_choice(&design);
    let mut calibration =
        Calibration::new(&design, &parameters, Scatter::default()).expect("readings");
    while calibration.advance(100) {}
    let outcome = calibration.outcome().expect("done").expect("settled");
    assert_eq!(found.judged.len(), on.len());
    for (judged, predicted) in found.judged.iter().zip(&outcome.predicted) {
        assert_eq!(judged.place, predicted.condition);
        for (figure, likely) in [
            (Figure::HeadMean, &predicted.head_mean),
            (Figure::HeadHottest, &predicted.head),
            (Figure::Oil, &predicted.oil),
        ] {
            let compared = judged.get(figure).expect("read");
            // The hottest comes from the cylinders one by one, about the calibrated mean.
            if figure != Figure::HeadHottest {
                assert_eq!(compared.predicted, likely.after, "{figure:?}");
                // What the model itself is off stands in it, once.
                assert_eq!(compared.high, likely.after + likely.either_way);
            }
            let middle = 0.5 * (compared.high + compared.low);
            assert!((middle - compared.predicted).abs() < 1e-9);
        }
    }
    for (own, theirs) in found.fitted.iter().zip(&outcome.fitted) {
        assert_eq!((own.parameter, own.value), (theirs.parameter, theirs.value));
    }
}

/// An aircraft that differs from the example in what a log can show.
fn planted() -> Design {
    let mut truth = example::design();
    truth.installation.exits[0].pressure_coefficient += 0.05;
    truth.installation.reference.head.value += 8.0;
    truth.installation.oil.heat_share *= 1.1;
    truth.installation.lags.heads = 130.0;
    truth
}

/// All stretches of a flight as readings of a log.
fn stretches_of(text: &str, log: &str, used: Used) -> Vec<Reading> {
    let mut reader = LogReader::of(text.to_owned(), Layout::of(text)).expect("a log");
    while reader.advance(1000).expect("rows") {}
    let table = reader.finish().expect("a table");
    let session = &Session::all(&table, &guess(&table), 1.0)[0];
    let found = stretches(session, &Criteria::default());
    let named = |stretch: &Stretch| {
        let mut reading = stretch.reading(session, &stretch.label());
        reading.log = log.to_owned();
        reading.use_for(used);
        reading
    };
    found.iter().map(named).collect()
}

/// The example fitted on one flight of an aircraft, checked on another flight.
fn next_flight(of: &Design, on: &Design) -> (Design, Checked) {
    let mut design = example::design();
    let (first, next) = (
        flight_log::text(of, 3),
        flight_log::text_on(on, 4, &Day::OTHER),
    );
    design.readings = stretches_of(&first, "a.csv", Used::Fit);
    let unseen = stretches_of(&next, "b.csv", Used::CheckOnly);
    assert!(unseen.iter().any(Reading::is_steady));
    assert!(unseen.iter().any(|reading| !reading.is_steady()));
    design.readings.extend(unseen);
    let found = check(&design, &[], &check_only_windows(&design)).expect("a fit");
    (design, found)
}

#[test]
fn the_next_flight_of_the_same_aircraft_is_held_and_of_another_is_not() {
    let (_, same) = next_flight(&planted(), &planted());
    let (held, all) = same.held();
    // Two steady stretches, and a climb and a descent in pieces of two minutes.
    assert!(all > 8, "{all} windows");
    assert!(same.holds() && held * 10 >= all * 9, "{held} of {all}");
    for figure in Figure::MAIN {
        let found = summary(&same.judged, figure).expect("read");
        assert_eq!(found.count, all);
        assert!(found.bias.abs() < deltaf(4.0), "{figure:?}: {found:?}");
        assert!(found.rms < found.rms_before.expect("a fit"), "{figure:?}");
    }
    let drop = summary(&same.judged, Figure::BaffleDrop).expect("read");
    assert!(drop.inside_share > 0.8, "{drop:?}");
    let mut hotter = planted();
    hotter.installation.oil.heat_share *= 1.25;
    let (_, other) = next_flight(&planted(), &hotter);
    assert!(!other.holds(), "{:?}", other.held());
    let oil = summary(&other.judged, Figure::Oil).expect("read");
    assert!(oil.bias < -deltaf(10.0), "{oil:?}");
}

#[test]
fn each_head_is_compared_where_each_was_fitted() {
    let (design, found) = next_flight(&planted(), &planted());
    let heads: Vec<Figure> = Figure::all()
        .filter(|figure| matches!(figure, Figure::Head(_)))
        .filter(|figure| summary(&found.judged, *figure).is_some())
        .collect();
    let count = usize::from(design.installation.engine.cylinders);
    assert_eq!(heads, (0..count).map(Figure::Head).collect::<Vec<_>>());
    // The log spreads its heads about their mean: the third is the middle one but one.
    let miss = |place| {
        summary(&found.judged, Figure::Head(place))
            .expect("read")
            .rms
    };
    for place in 0..count {
        assert!(
            miss(place) < deltaf(6.0),
            "head {}: {} K",
            place + 1,
            miss(place)
        );
    }
}

#[test]
fn a_stretch_starts_from_what_was_read_and_nothing_of_it_is_fitted() {
    let (design, found) = next_flight(&planted(), &planted());
    let windows = check_only_windows(&design);
    let climb = windows
        .iter()
        .position(|window| window.phase == FlightPhase::Climb && !window.reading.is_steady())
        .expect("a climb");
    // Later readings of the stretch move no earlier prediction.
    let mut cut = design.clone();
    let place = design
        .readings
        .iter()
        .position(|reading| *reading == windows[climb].reading)
        .expect("the climb");
    let moments = Arc::make_mut(&mut cut.readings[place].moments);
    for moment in moments.iter_mut().skip(20) {
        for quantity in Quantity::HEADS {
            if let Some(head) = moment.values.get_mut(&quantity) {
                *head += 30.0;
            }
        }
    }
    let other = check(&cut, &[], &check_only_windows(&cut)).expect("a fit");
    let of = |found: &Checked| -> Vec<(f64, f64, f64)> {
        let pieces = found.judged.iter().filter(|judged| judged.place == climb);
        pieces
            .map(|judged| {
                let head = judged.get(Figure::HeadMean).expect("read");
                (judged.from_s, head.predicted, head.measured)
            })
            .collect()
    };
    let (before, after) = (of(&found), of(&other));
    assert!(before.len() >= 5, "{before:?}");
    for (one, two) in before.iter().zip(&after) {
        assert_eq!((one.0, one.1), (two.0, two.1));
    }
    let last = |list: &[(f64, f64, f64)]| list.last().expect("pieces").2;
    assert!((last(&after) - last(&before) - 30.0).abs() < 1e-9);
}

#[test]
fn the_hottest_is_compared_with_the_hottest_and_the_mean_with_the_mean() {
    let windows = of(&shared_windows(), "F03");
    let found = predict(&six(), &windows);
    let first = &found.judged[0];
    let measured = |figure| first.get(figure).expect("read").measured;
    let mean = (279.6 + 335.8 + 377.8 + 363.0 + 385.6 + 340.9) / 6.0;
    assert!((measured(Figure::HeadMean) - degf(mean)).abs() < 1e-9);
    assert!((measured(Figure::HeadHottest) - degf(385.6)).abs() < 1e-9);
    assert!((measured(Figure::Oil) - degf(191.5)).abs() < 1e-9);
    // What is compared is no part of the condition.
    assert!(first.condition.contains_key(&Quantity::FuelFlow));
    assert!(!first.condition.contains_key(&Quantity::Oil));
    assert!(!first.condition.contains_key(&Quantity::Head1));
}

#[test]
fn an_instruments_correction_moves_what_was_measured() {
    let windows = of(&shared_windows(), "F03");
    let mut design = six();
    design.instruments.insert(Quantity::Oil, deltaf(-5.0));
    let oil = |found: &Judged| found.get(Figure::Oil).expect("read").measured;
    let (bare, corrected) = (predict(&six(), &windows), predict(&design, &windows));
    let moved = oil(&corrected.judged[0]) - oil(&bare.judged[0]);
    assert!((moved + deltaf(5.0)).abs() < 1e-9);
}

#[test]
fn every_window_is_judged_or_refused_with_its_reason() {
    let windows = shared_windows();
    let fit = readings(&of(&windows, "F01"));
    let mut on: Vec<Window> = windows.into_iter().filter(|w| w.flight != "F01").collect();
    let without_air = Arc::make_mut(&mut on[3].reading.moments);
    without_air[0].values.remove(&Quantity::Oat);
    Arc::make_mut(&mut on[5].reading.moments).clear();
    let found = check(&six(), &fit, &on).expect("a fit");
    let mut places: Vec<usize> = found.judged.iter().map(|one| one.place).collect();
    places.extend(found.refused.iter().map(|one| one.place));
    places.sort_unstable();
    assert_eq!(places, (0..on.len()).collect::<Vec<_>>());
    let reason = |place: usize| {
        let own = found.refused.iter().find(|one| one.place == place);
        own.map(|one| one.reason.clone())
    };
    let missing = Reason::Lacking(Lacking::Quantity(Quantity::Oat));
    assert_eq!(reason(3), Some(missing));
    assert_eq!(reason(5), Some(Reason::Empty));
}

/// A flight that a design flew, as windows.
fn flown(truth: &Design, seed: u64) -> (Session, Vec<Window>) {
    let text = flight_log::text(truth, seed);
    let mut reader = LogReader::of(text.clone(), Layout::of(&text)).expect("a log");
    while reader.advance(1000).expect("a log") {}
    let table = reader.finish().expect("a log");
    let mut sessions = Session::all(&table, &guess(&table), 1.0);
    let session = sessions.swap_remove(0);
    let found: Vec<_> = stretches(&session, &Criteria::default())
        .into_iter()
        .filter(|stretch| stretch.kind == Kind::Steady)
        .collect();
    let windows = windows_of("invented", &session, &found);
    (session, windows)
}

#[test]
fn a_design_fitted_on_one_flight_predicts_another_of_the_same_aircraft() {
    let design = example::design();
    let mut truth = design.clone();
    truth.installation.reference.head.value -= deltaf(15.0);
    truth.installation.oil.heat_share += 0.01;
    let (_, first) = flown(&truth, 1);
    let (_, second) = flown(&truth, 2);
    assert!(first.len() >= 2 && second.len() >= 2);
    let found = check(&design, &readings(&first), &second).expect("a fit");
    assert!(found.refused.is_empty() && found.unused.is_empty());
    let unfitted = predict(&design, &second);
    for figure in Figure::MAIN {
        let after = summary(&found.judged, figure).expect("read");
        let before = summary(&unfitted.judged, figure).expect("read");
        assert_eq!(after.count, second.len());
        // Noise of 1 to 1.5 °F, readings to 1 °F, and what is left of the lag in two minutes.
        assert!(after.rms < deltaf(3.0), "{figure:?}: {after:?}");
        assert!(before.rms > 2.0 * after.rms, "{figure:?}: {before:?}");
        assert_eq!(after.inside_share, 1.0, "{figure:?}: {after:?}");
    }
}

#[test]
fn plain_windows_know_climb_and_descent() {
    let (session, _) = flown(&example::design(), 1);
    let windows = windows_of("invented", &session, &plain_windows(&session, 60.0));
    let of = |phase| {
        windows
            .iter()
            .filter(|window| window.phase == phase)
            .count()
    };
    assert!(of(FlightPhase::Level) > 20);
    // The climb of 13 minutes warms the heads at first; the descent cools them.
    assert!(of(FlightPhase::Climb) > 3, "{}", of(FlightPhase::Climb));
    assert_eq!(of(FlightPhase::Ground), 0);
    for (one, next) in windows.iter().zip(&windows[1..]) {
        assert!(next.start_s >= one.start_s + 60.0);
    }
}
