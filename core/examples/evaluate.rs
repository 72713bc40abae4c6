//! Reads a design file from standard input and prints one JSON object per condition, in SI units.
//! `--demo` prints the worked example's design file instead.

use coolpath_core::answer::record::records;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use serde_json::Value;
use std::io::Read;
use std::process::ExitCode;

fn main() -> ExitCode {
    if std::env::args().nth(1).as_deref() == Some("--demo") {
        return print(serde_json::to_value(example::design()));
    }
    let mut text = String::new();
    if let Err(error) = std::io::stdin().read_to_string(&mut text) {
        return refuse(&format!("The input could not be read: {error}."));
    }
    let design = match serde_json::from_str::<Design>(text.trim_start_matches('\u{feff}')) {
        Ok(design) => design.renewed().0,
        Err(error) => return refuse(&format!("This is no design file: {error}.")),
    };
    match records(&design) {
        Ok(records) => print(serde_json::to_value(records)),
        Err(error) => refuse(&error.to_string()),
    }
}

/// Keys are printed in the order of the alphabet.
fn print(value: serde_json::Result<Value>) -> ExitCode {
    match value.and_then(|value| serde_json::to_string_pretty(&value)) {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(error) => refuse(&format!("The answer could not be written: {error}.")),
    }
}

fn refuse(message: &str) -> ExitCode {
    eprintln!("{message}");
    ExitCode::FAILURE
}
