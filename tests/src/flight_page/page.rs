//! The page.

use super::data::{FITTED, Flights, SICK, STEP, is_other, readings};
use super::mixture::by_mixture;
use super::predicted::Predicted;
use super::rows::{head, in_degf, rows, rows_of};
use coolpath_core::document::reading::Reading;
use coolpath_core::prove::calibrate::CalibrateError;
use coolpath_core::prove::flights::{Checked, Figure, Judged, Window, check, predict};
use std::fmt::{Result as Written, Write};

/// Fewest windows of a flight that is fitted on by itself.
const ENOUGH: usize = 3;
/// A flight at another mixture, fitted to beside the first.
const RICHER: &str = "F12";

/// The page.
///
/// # Errors
/// [`CalibrateError`] if some flight cannot be fitted on.
pub fn page(flights: &Flights) -> Result<String, CalibrateError> {
    let after = |fit: &[Reading]| Predicted::after(&flights.design, fit, flights.all());
    let whole = after(&flights.whole)?;
    let steady = after(&readings(&flights.of(&[FITTED])))?;
    let mut text = String::new();
    for (title, found) in [
        ("climbs and descents too", &whole),
        ("steady windows alone", &steady),
    ] {
        let _ = fitted_on(&mut text, flights, &format!("{FITTED}, {title}"), found);
    }
    write(&mut text, "# Hottest minus mean head over the mixture\n");
    mixtures(&mut text, flights, &whole)?;
    write(
        &mut text,
        "# A step of fuel at constant manifold pressure and speed\n",
    );
    step(&mut text, flights, &whole, &steady)?;
    write(
        &mut text,
        "# Fitted on one healthy flight, judged on the other healthy ones\n",
    );
    each_in_turn(&mut text, flights)?;
    write(
        &mut text,
        "# One flight left out, fitted on all other healthy ones\n",
    );
    leave_one_out(&mut text, flights)?;
    Ok(text)
}

/// Writing to a text cannot fail.
fn write(text: &mut String, line: &str) {
    let _ = writeln!(text, "{line}");
}

fn checked(flights: &Flights, fit: &[Reading], on: &[Window]) -> Result<Checked, CalibrateError> {
    check(&flights.design, fit, on)
}

fn fitted_on(text: &mut String, flights: &Flights, title: &str, all: &Predicted) -> Written {
    let Predicted {
        windows: others,
        found,
    } = all.part(|_, window| is_other(window));
    writeln!(text, "# Fitted on {title}\n")?;
    for fitted in &found.fitted {
        writeln!(
            text,
            "- {}: {:.4e} (SI), moved {:+.2} prior deviations, {:.0} % of its uncertainty left",
            fitted.parameter.name(),
            fitted.value,
            fitted.moved,
            100.0 * fitted.left
        )?;
    }
    writeln!(text)?;
    head(text, "predicted")?;
    rows(
        text,
        "other healthy flights, before the fit",
        &predict(&flights.design, &others),
        &others,
    )?;
    rows(text, "other healthy flights", &found, &others)?;
    let mut part = |title: &str, flight: &str| {
        let own = all.of(flight);
        rows(text, title, &own.found, &own.windows)
    };
    part("the flight's own windows", FITTED)?;
    for flight in SICK {
        part(flight, flight)?;
    }
    writeln!(text)?;
    for one in &found.refused {
        let window = &others[one.place];
        writeln!(
            text,
            "- refused: {} at {} s: {}",
            window.flight, window.start_s, one.reason
        )?;
    }
    Ok(())
}

fn mixtures(text: &mut String, flights: &Flights, whole: &Predicted) -> Result<(), CalibrateError> {
    let unseen = unseen_mixtures(whole);
    let _ = by_mixture(
        text,
        &format!("{FITTED}, climbs and descents too"),
        &unseen.found,
        &unseen.windows,
    );
    let both = readings(&flights.of(&[FITTED, RICHER]));
    let rest = flights.healthy_but(&[FITTED, RICHER]);
    let found = checked(flights, &both, &rest)?;
    let _ = by_mixture(
        text,
        &format!("{FITTED}'s and {RICHER}'s windows"),
        &found,
        &rest,
    );
    Ok(())
}

/// The other healthy flights, and the richer window of the step, whose mixture the first has nowhere
/// else.
#[must_use]
pub fn unseen_mixtures(all: &Predicted) -> Predicted {
    let last = all.windows.len() - 1;
    all.part(|place, window| is_other(window) || place == last)
}

fn step(
    text: &mut String,
    flights: &Flights,
    whole: &Predicted,
    steady: &Predicted,
) -> Result<(), CalibrateError> {
    let others = readings(&flights.healthy_but(&[FITTED]));
    write(text, "| mean head, °F | measured | predicted |");
    write(text, "|---|---|---|");
    for (title, found) in [
        ("before any fit", predict(&flights.design, &flights.step)),
        (
            "fitted on the same flight's lean windows",
            steady.of(STEP).found,
        ),
        ("fitted on the whole flight", whole.of(STEP).found),
        (
            "fitted on all other healthy flights",
            checked(flights, &others, &flights.step)?,
        ),
    ] {
        if let Some((measured, predicted)) = rise(&found) {
            write(
                text,
                &format!("| {title} | {measured:+.1} | {predicted:+.1} |"),
            );
        }
    }
    write(text, "");
    Ok(())
}

/// By how much the mean head rises from the first window to the second, °F: measured and predicted.
#[must_use]
pub fn rise(found: &Checked) -> Option<(f64, f64)> {
    let [before, after] = found.judged.as_slice() else {
        return None;
    };
    let (before, after) = (before.get(Figure::HeadMean)?, after.get(Figure::HeadMean)?);
    Some((
        1.8 * (after.measured - before.measured),
        1.8 * (after.predicted - before.predicted),
    ))
}

fn each_in_turn(text: &mut String, flights: &Flights) -> Result<(), CalibrateError> {
    let _ = head(text, "fitted on");
    for flight in flights.healthy() {
        let own = flights.of(&[flight]);
        if own.len() < ENOUGH {
            continue;
        }
        let others = flights.healthy_but(&[flight]);
        let found = checked(flights, &readings(&own), &others)?;
        let _ = rows(
            text,
            &format!("{flight}, {} windows", own.len()),
            &found,
            &others,
        );
    }
    write(text, "");
    Ok(())
}

fn leave_one_out(text: &mut String, flights: &Flights) -> Result<(), CalibrateError> {
    let _ = head(text, "left out");
    let mut all: Vec<Judged> = Vec::new();
    let mut refused = 0;
    for flight in flights.healthy() {
        let own = flights.of(&[flight]);
        let rest = flights.healthy_but(&[flight]);
        let found = checked(flights, &readings(&rest), &own)?;
        let _ = rows(text, flight, &found, &own);
        refused += own.len() - found.judged.len();
        all.extend(found.judged);
    }
    let _ = rows_of(text, "all", &all, refused);
    for figure in Figure::MAIN {
        let worst = all
            .iter()
            .filter_map(|judged| in_degf([judged], figure))
            .map(|one| one.rms)
            .fold(0.0, f64::max);
        let line = format!("{}: largest miss of a window {worst:.0} °F.", figure.name());
        write(text, &format!("\n{line}"));
    }
    Ok(())
}
