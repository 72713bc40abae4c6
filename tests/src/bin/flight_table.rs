//! How well a design fitted on some flights predicts others, as a page of text; or what it takes from
//! a log to fit on.
//!
//! ```text
//! cargo run -q --release -p coolpath-tests --bin flight_table > reference/flights/flight_table.md
//! cargo run -q --release -p coolpath-tests --bin flight_table -- stretches LOG.csv
//! ```
//!
//! The second prints a log's steady stretches, climbs and descents as readings of a design:
//! `reference/flights/f01_stretches.json` was made so.

use coolpath_core::document::reading::Reading;
use coolpath_tests::flight_page::data::{Flights, stretches_of};
use coolpath_tests::flight_page::page::page;
use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        [] => print!("{}", page(&Flights::read())?),
        ["stretches", log] => print!("{}", lines(&stretches_of(&std::fs::read_to_string(log)?))?),
        _ => return Err("nothing, or: stretches LOG.csv".into()),
    }
    Ok(())
}

/// A JSON list with a reading's moments on a line each.
fn lines(readings: &[Reading]) -> serde_json::Result<String> {
    let mut all = Vec::new();
    for reading in readings {
        let text = serde_json::to_string(reading)?;
        all.push(text.replace("{\"seconds\"", "\n  {\"seconds\""));
    }
    Ok(format!("[\n{}\n]\n", all.join(",\n")))
}
