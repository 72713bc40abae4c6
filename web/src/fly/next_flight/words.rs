//! What a check found, in sentences. Pure.

use coolpath_core::document::design::Design;
use coolpath_core::language::{counted, tr};
use coolpath_core::prove::flights::{Checked, Figure, Source, fitted_on, sources, summary};
use coolpath_core::units::si::deltaf;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};

/// A mean error below this is none worth a word, K (3 °F; the model is no finer).
const SMALL_K: f64 = deltaf(3.0);

/// A figure's name.
#[must_use]
pub fn name(figure: Figure) -> String {
    match figure {
        Figure::HeadMean => tr("mean head").to_owned(),
        Figure::HeadHottest => tr("hottest head").to_owned(),
        Figure::Oil => tr("oil").to_owned(),
        Figure::BaffleDrop => tr("Δp across the baffles").to_owned(),
        Figure::Head(place) => tr!("head {}", place + 1),
    }
}

/// What the difference of two values of a figure measures.
#[must_use]
pub fn difference_of(figure: Figure) -> Dimension {
    if figure.is_pressure() {
        Dimension::Pressure
    } else {
        Dimension::TemperatureDifference
    }
}

fn degrees_apart(kelvin: f64, system: UnitSystem) -> String {
    let unit = Dimension::TemperatureDifference.shown(system);
    format!("{:.0} {}", unit.from_si(kelvin.abs()), unit.symbol)
}

/// The main figures that are off in the mean, such as "oil 6 °F low".
fn off(checked: &Checked, system: UnitSystem) -> String {
    let told: Vec<String> = Figure::MAIN
        .into_iter()
        .filter_map(|figure| Some((figure, summary(&checked.judged, figure)?.bias)))
        .filter(|(_, bias)| bias.abs() >= SMALL_K)
        .map(|(figure, bias)| {
            let by = degrees_apart(bias, system);
            if bias < 0.0 {
                tr!("{} {} low", name(figure), by)
            } else {
                tr!("{} {} high", name(figure), by)
            }
        })
        .collect();
    if told.is_empty() {
        tr!("in the mean within {}", degrees_apart(SMALL_K, system))
    } else {
        told.join(", ")
    }
}

/// What the windows are, beside what the fit saw.
fn of_what(of: &Design, all: usize) -> String {
    let checked = sources(
        of.readings
            .iter()
            .filter(|one| !one.left_out && one.check_only),
    );
    let fitted = fitted_on(of);
    let typed = checked.iter().all(|source| source.log.is_empty());
    let windows = if typed {
        counted(all, "reading", "readings")
    } else {
        counted(all, "window", "windows")
    };
    let is_new = |source: &Source| {
        !source.log.is_empty() && fitted.iter().all(|other| other.log != source.log)
    };
    match checked.len() {
        1 if checked.iter().all(is_new) => tr!("{} of a flight it had not seen", windows),
        logs if checked.iter().all(is_new) => {
            tr!("{} of {} flights it had not seen", windows, logs)
        }
        _ => tr!("{} that the fit had not seen", windows),
    }
}

/// On how many windows every band held what was read, and what is off in the mean: the answer.
#[must_use]
pub fn coverage(checked: &Checked, of: &Design, system: UnitSystem) -> String {
    let (held, all) = checked.held();
    if all == 0 {
        return tr("None of the readings that are marked could be predicted").to_owned();
    }
    let (off, what) = (off(checked, system), of_what(of, all));
    if checked.holds() {
        tr!("Held on {} of {}; {}", held, what, off)
    } else {
        tr!("Did not hold on {} of {}; {}", all - held, what, off)
    }
}

/// Windows from which bands that held may be relied on: of fewer, all hold too often by chance when
/// half of the windows would not (a thirtieth at five).
const ENOUGH: usize = 5;

/// What to make of the answer.
#[must_use]
pub fn advice(checked: &Checked) -> &'static str {
    let bias = |figure| summary(&checked.judged, figure).map_or(0.0, |found| found.bias);
    let low = [Figure::HeadHottest, Figure::Oil]
        .into_iter()
        .any(|figure| bias(figure) <= -SMALL_K);
    match (checked.judged.is_empty(), checked.holds(), low) {
        (true, ..) => tr("Look below at what is missing."),
        (_, true, _) if checked.judged.len() < ENOUGH => {
            tr("It agrees so far, but on too few windows to rely on its bands. Check more of them.")
        }
        (_, true, false) => tr(
            "You can rely on its bands in flying like this. Power, altitude or mixture far from what was flown needs another test.",
        ),
        (_, true, true) => tr(
            "Its bands hold, but it reads low: keep that much more in hand, or mark this flight “fit” \
             and check on the next.",
        ),
        (_, false, true) => tr(
            "It predicts cooler than what was read: do not rely on it. Look for what differed, such as \
             seals, mixture, a probe or a unit, before you fit this flight too.",
        ),
        (_, false, false) => tr(
            "Do not rely on its bands yet. Look for what differed, such as seals, mixture, a probe or a \
             unit, before you fit this flight too.",
        ),
    }
}

/// Which data the fit used.
#[must_use]
pub fn headline(of: &Design) -> String {
    let told: Vec<String> = fitted_on(of).iter().map(source).collect();
    if told.is_empty() {
        return tr("Fitted on nothing yet").to_owned();
    }
    tr!("Fitted on {}", told.join("; "))
}

fn source(source: &Source) -> String {
    if source.whole_s > 0.0 {
        let minutes = rounded_text(source.whole_s / 60.0, 2);
        return tr!("the whole flight of {} ({} min)", source.log, minutes);
    }
    let minutes = rounded_text(source.stretches_s / 60.0, 2);
    let stretches = counted(
        source.stretches,
        "stretch read all along",
        "stretches read all along",
    );
    let stretches = tr!("{} ({} min)", stretches, minutes);
    if source.log.is_empty() {
        let steady = counted(source.steady, "typed reading", "typed readings");
        return match (source.steady, source.stretches) {
            (_, 0) => steady,
            (0, _) => stretches,
            _ => tr!("{} and {}", steady, stretches),
        };
    }
    let steady = counted(source.steady, "steady stretch", "steady stretches");
    let what = match (source.steady, source.stretches) {
        (_, 0) => steady,
        (0, _) => stretches,
        _ => tr!("{} and {}", steady, stretches),
    };
    tr!("{} of {}", what, source.log)
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;
    use coolpath_core::document::quantity::Quantity;
    use coolpath_core::document::reading::{Reading, Values};
    use coolpath_core::prove::flights::{Checking, check_only_windows};
    use coolpath_core::units::si::{degf, knot};

    fn reading(name: &str, head_degf: f64, check_only: bool) -> Reading {
        let values: Values = [
            (Quantity::PowerShare, 0.75),
            (Quantity::Rpm, 2500.0),
            (Quantity::Airspeed, knot(130.0)),
            (Quantity::Altitude, 1500.0),
            (Quantity::Oat, degf(60.0)),
            (Quantity::HEADS[0], degf(head_degf)),
            (Quantity::HEADS[1], degf(head_degf - 10.0)),
        ]
        .into_iter()
        .collect();
        Reading {
            check_only,
            log: if check_only { "b.csv" } else { "a.csv" }.to_owned(),
            ..Reading::steady(name, values)
        }
    }

    fn found(readings: &[Reading]) -> (Checked, Design) {
        let mut design = example::design();
        design.readings = readings.to_vec();
        let windows = check_only_windows(&design);
        let mut checking = Checking::new(&design, &[], &windows).expect("a fit");
        while checking.advance(60) {}
        (checking.outcome().expect("an outcome"), design)
    }

    #[test]
    fn the_fit_never_sees_what_is_for_checking_and_the_sentence_counts_what_held() {
        let fitted = [reading("a", 380.0, false), reading("b", 381.0, false)];
        let mut readings = fitted.to_vec();
        readings.extend([
            reading("same", 380.0, true),
            reading("far off", 500.0, true),
        ]);
        let (seen, of) = found(&readings);
        let said = coverage(&seen, &of, UnitSystem::Customary);
        assert!(
            said.starts_with("Did not hold on 1 of 2 windows of a flight it had not seen; "),
            "{said}"
        );
        assert!(
            said.contains("hottest head") && said.contains("low"),
            "{said}"
        );
        assert!(advice(&seen).contains("do not rely on it"));
        // What was fitted is what the same readings give alone.
        let (alone, _) = found(&fitted);
        assert!(!alone.fitted.is_empty());
        for (one, other) in alone.fitted.iter().zip(&seen.fitted) {
            assert_eq!(one.value.to_bits(), other.value.to_bits());
        }
        assert_eq!(alone.fitted.len(), seen.fitted.len());
    }

    #[test]
    fn a_flight_that_agrees_is_held_and_the_headline_names_what_was_fitted() {
        let mut readings = vec![
            reading("a", 380.0, false),
            reading("b", 381.0, false),
            reading("c", 380.0, true),
        ];
        let (seen, of) = found(&readings);
        let said = coverage(&seen, &of, UnitSystem::Customary);
        assert!(
            said.starts_with("Held on 1 of 1 window of a flight it had not seen; "),
            "{said}"
        );
        assert_eq!(headline(&of), "Fitted on 2 steady stretches of a.csv");
        let mut whole = of.clone();
        let moments = std::sync::Arc::make_mut(&mut whole.readings[1].moments);
        let later = coolpath_core::document::reading::Moment {
            seconds: 2820.0,
            ..moments[0].clone()
        };
        moments.push(later);
        whole.readings[1].whole = true;
        assert_eq!(
            headline(&whole),
            "Fitted on the whole flight of a.csv (47 min)"
        );
        // A window of a flight that the fit has seen in part is no new flight.
        readings[2].log = "a.csv".to_owned();
        let (seen, of) = found(&readings);
        let said = coverage(&seen, &of, UnitSystem::Metric);
        assert!(
            said.contains("1 window that the fit had not seen"),
            "{said}"
        );
    }
}
