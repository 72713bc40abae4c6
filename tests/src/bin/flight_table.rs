//! How well a design fitted on some windows of real flights predicts the others, as tables.
//!
//! `cargo run --release -p coolpath-tests --bin flight_table [-- WINDOWS.csv DESIGN.json]`, by default
//! on `reference/flights`. It computes by the function behind `coolpath check`. Bias is predicted
//! minus measured; °F.

use coolpath_core::document::design::Design;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Moment, Reading};
use coolpath_core::prove::flights::{
    Checked, Figure, Judged, Refused, Window, WindowTable, check, predict, summary,
};
use coolpath_core::prove::log::column_map::ColumnMap;
use coolpath_core::units::si::{deltaf, gal_h};
use std::error::Error;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Flights in which a cylinder was sick.
const SICK: [&str; 2] = ["F06", "F08"];
/// The flight that is fitted to.
const FITTED: &str = "F01";
/// A flight at another mixture, fitted to beside it.
const RICHER: &str = "F12";
/// Fuel flows between which mixtures are told apart, US gal/h.
const MIXTURES: [(&str, f64, f64); 4] = [
    ("lean, below 18", 0.0, 18.0),
    ("18 to 22", 18.0, 22.0),
    ("22 to 26", 22.0, 26.0),
    ("full rich, above 26", 26.0, 100.0),
];

fn main() -> Result<(), Box<dyn Error>> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("../reference/flights");
    let mut words = std::env::args_os().skip(1).map(PathBuf::from);
    let windows_file = words.next();
    let windows_file = windows_file.unwrap_or_else(|| here.join("steady_windows.csv"));
    let design_file = words.next();
    let design_file = design_file.unwrap_or_else(|| here.join("six_310hp_design.json"));
    let text = std::fs::read_to_string(windows_file)?;
    let design: Design = serde_json::from_str(&std::fs::read_to_string(design_file)?)?;
    let mut windows = WindowTable::read(&text, &ColumnMap::new())?.windows;
    windows.iter_mut().for_each(without_doubtful_oil);

    let of = |flights: &[&str]| -> Vec<Window> {
        let own = windows.iter();
        own.filter(|window| flights.contains(&window.flight.as_str()))
            .cloned()
            .collect()
    };
    let healthy = |left_out: &[&str]| -> Vec<Window> {
        let own = windows.iter();
        own.filter(|window| {
            let flight = window.flight.as_str();
            !SICK.contains(&flight) && !left_out.contains(&flight)
        })
        .cloned()
        .collect()
    };

    println!("# Fitted on {FITTED}\n");
    let fit = of(&[FITTED]);
    let others = healthy(&[FITTED]);
    let found = check(&design, &readings(&fit), &others)?;
    fitted(&found);
    head();
    rows("before the fit", &predict(&design, &others), &others);
    rows("other healthy flights", &found, &others);
    rows(
        "the flight itself",
        &check(&design, &readings(&fit), &fit)?,
        &fit,
    );
    for flight in SICK {
        let sick = of(&[flight]);
        rows(flight, &check(&design, &readings(&fit), &sick)?, &sick);
    }
    refused(&found.refused, &others);

    println!("\n# Hottest minus mean head over the mixture\n");
    by_mixture(FITTED, &found, &others);
    let both = of(&[FITTED, RICHER]);
    let rest = healthy(&[FITTED, RICHER]);
    let title = format!("{FITTED} and {RICHER}");
    by_mixture(&title, &check(&design, &readings(&both), &rest)?, &rest);

    println!("\n# One flight left out, fitted on all other healthy ones\n");
    head();
    leave_one_out(&design, &healthy(&[]))
}

/// Takes the oil out of a window whose oil sensor was doubted.
fn without_doubtful_oil(window: &mut Window) {
    if window.note.contains("oil sensor") {
        for moment in Arc::make_mut(&mut window.reading.moments) {
            moment.values.remove(&Quantity::Oil);
        }
    }
}

fn readings(windows: &[Window]) -> Vec<Reading> {
    let own = windows.iter();
    own.map(|window| window.reading.clone()).collect()
}

fn fitted(found: &Checked) {
    for fitted in &found.fitted {
        println!(
            "- {}: {:.4} (SI), moved {:+.2} prior deviations, {:.0} % of its uncertainty left",
            fitted.parameter.name(),
            fitted.value,
            fitted.moved,
            100.0 * fitted.left
        );
    }
    println!();
}

fn head() {
    println!("| predicted | what | windows | bias | rms | held | refused |");
    println!("|---|---|---|---|---|---|---|");
}

fn rows(title: &str, found: &Checked, windows: &[Window]) {
    print_rows(title, &found.judged, windows.len() - found.judged.len());
}

fn print_rows<'a>(
    title: &str,
    judged: impl IntoIterator<Item = &'a Judged> + Clone,
    refused: usize,
) {
    for figure in Figure::ALL {
        let Some(found) = summary(judged.clone(), figure) else {
            println!("| {title} | {} | 0 | | | | {refused} |", figure.name());
            continue;
        };
        println!(
            "| {title} | {} | {} | {:+.1} | {:.1} | {:.0} % | {refused} |",
            figure.name(),
            found.count,
            found.bias / deltaf(1.0),
            found.rms / deltaf(1.0),
            100.0 * found.inside_share
        );
    }
}

fn refused(refused: &[Refused], windows: &[Window]) {
    println!();
    for one in refused {
        let window = &windows[one.place];
        println!(
            "- refused: {} at {} s: {}",
            window.flight, window.start_s, one.reason
        );
    }
}

fn by_mixture(title: &str, found: &Checked, windows: &[Window]) {
    println!("| fitted on {title}: fuel flow, gal/h | windows | measured | predicted | refused |");
    println!("|---|---|---|---|---|");
    for (name, least, most) in MIXTURES {
        let within = |window: &Window| {
            let flow = window
                .moment()
                .and_then(|m: &Moment| m.get(Quantity::FuelFlow));
            flow.is_some_and(|flow| (gal_h(least)..gal_h(most)).contains(&flow))
        };
        let own: Vec<(f64, f64)> = found
            .judged
            .iter()
            .filter(|judged| within(&windows[judged.place]))
            .filter_map(|judged| {
                let (hottest, mean) = (
                    judged.get(Figure::HeadHottest)?,
                    judged.get(Figure::HeadMean)?,
                );
                Some((
                    (hottest.measured - mean.measured) / deltaf(1.0),
                    (hottest.predicted - mean.predicted) / deltaf(1.0),
                ))
            })
            .collect();
        let all = windows.iter().filter(|window| within(window)).count();
        let count = own.len() as f64;
        let measured = own.iter().map(|one| one.0).sum::<f64>() / count;
        let predicted = own.iter().map(|one| one.1).sum::<f64>() / count;
        let lost = all - own.len();
        if own.is_empty() {
            println!("| {name} | 0 | | | {lost} |");
        } else {
            println!(
                "| {name} | {} | {measured:.1} | {predicted:.1} | {lost} |",
                own.len()
            );
        }
    }
    println!();
}

fn leave_one_out(design: &Design, windows: &[Window]) -> Result<(), Box<dyn Error>> {
    let mut flights: Vec<&str> = windows.iter().map(|w| w.flight.as_str()).collect();
    flights.dedup();
    let mut all: Vec<Judged> = Vec::new();
    for flight in &flights {
        let (own, rest): (Vec<Window>, Vec<Window>) = windows
            .iter()
            .cloned()
            .partition(|window| window.flight == *flight);
        let found = check(design, &readings(&rest), &own)?;
        rows(flight, &found, &own);
        all.extend(found.judged);
    }
    print_rows("all", &all, windows.len() - all.len());
    Ok(())
}
