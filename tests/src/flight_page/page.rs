//! The page.

use super::data::{FITTED, Flights, SICK, readings};
use super::mixture::by_mixture;
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
    let whole = &flights.whole;
    let steady = readings(&flights.of(&[FITTED]));
    let mut text = String::new();
    fitted_on(
        &mut text,
        flights,
        &format!("{FITTED}, climbs and descents too"),
        whole,
    )?;
    fitted_on(
        &mut text,
        flights,
        &format!("{FITTED}, steady windows alone"),
        &steady,
    )?;
    write(&mut text, "# Hottest minus mean head over the mixture\n");
    mixtures(&mut text, flights)?;
    write(
        &mut text,
        "# A step of fuel at constant manifold pressure and speed\n",
    );
    step(&mut text, flights)?;
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

fn fitted_on(
    text: &mut String,
    flights: &Flights,
    title: &str,
    fit: &[Reading],
) -> Result<(), CalibrateError> {
    let others = flights.healthy_but(&[FITTED]);
    let found = checked(flights, fit, &others)?;
    let own = flights.of(&[FITTED]);
    let itself = checked(flights, fit, &own)?;
    let sick = SICK.map(|flight| (flight, flights.of(&[flight])));
    let mut of_sick = Vec::new();
    for (_, windows) in &sick {
        of_sick.push(checked(flights, fit, windows)?);
    }
    let _ = (|| -> Written {
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
        rows(text, "the flight's own windows", &itself, &own)?;
        for ((flight, windows), found) in sick.iter().zip(&of_sick) {
            rows(text, flight, found, windows)?;
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
    })();
    Ok(())
}

fn mixtures(text: &mut String, flights: &Flights) -> Result<(), CalibrateError> {
    let mut others = flights.healthy_but(&[FITTED]);
    others.extend(flights.step.iter().skip(1).cloned());
    let whole = checked(flights, &flights.whole, &others)?;
    let _ = by_mixture(
        text,
        &format!("{FITTED}, climbs and descents too"),
        &whole,
        &others,
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

fn step(text: &mut String, flights: &Flights) -> Result<(), CalibrateError> {
    let lean = readings(&flights.of(&[FITTED]));
    let others = readings(&flights.healthy_but(&[FITTED]));
    write(text, "| mean head, °F | measured | predicted |");
    write(text, "|---|---|---|");
    for (title, found) in [
        ("before any fit", predict(&flights.design, &flights.step)),
        (
            "fitted on the same flight's lean windows",
            checked(flights, &lean, &flights.step)?,
        ),
        (
            "fitted on the whole flight",
            checked(flights, &flights.whole, &flights.step)?,
        ),
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
    for figure in Figure::ALL {
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
