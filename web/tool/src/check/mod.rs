//! `coolpath check`: a design fitted on some flights and compared with others, as one JSON object.

pub mod args;
mod input;
mod json;

use crate::check::args::CheckArgs;
use crate::check::input::{Flights, InputError};
use crate::design_file;
use coolpath_core::prove::calibrate::CalibrateError;
use coolpath_core::prove::flights;
use coolpath_core::prove::log::{PLAIN_DEGF_PER_MINUTE, SHORTEST_S};
use serde_json::Value;

/// Columns of the table of windows that stand first.
pub const COLUMNS: [&str; 5] = ["flight", "file", "start_s", "phase", "note"];

/// Why a check has no result.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum CheckError {
    /// A file is at fault.
    #[error(transparent)]
    Input(#[from] InputError),
    /// No window to fit on was found.
    #[error(
        "nothing to fit on in {files}: {looked_for}; --window takes shorter pieces, --no-fit predicts \
         without a fit"
    )]
    NothingToFit {
        /// The files that were read.
        files: String,
        /// What was looked for in them.
        looked_for: String,
    },
    /// No window to predict was found.
    #[error("nothing to predict in {files}: {looked_for}")]
    NothingToPredict {
        /// The files that were read.
        files: String,
        /// What was looked for in them.
        looked_for: String,
    },
    /// The fit failed.
    #[error("the fit failed: {0}")]
    Fit(#[from] CalibrateError),
}

/// Carries a check out.
///
/// # Errors
/// [`CheckError`] with the file and, where one is known, the line.
pub fn run(args: &CheckArgs) -> Result<Value, CheckError> {
    let design = design_file::design(&args.design).map_err(InputError::from)?;
    let mut found = Flights::read(args)?;
    if args.own {
        found.add_own(&args.design, &design);
    }
    if found.on.is_empty() {
        return Err(CheckError::NothingToPredict {
            files: found.read_for_on(),
            looked_for: looked_for(args),
        });
    }
    let windows: Vec<flights::Window> = found.on.iter().map(|own| own.window.clone()).collect();
    let checked = if args.no_fit {
        flights::predict(&design, &windows)
    } else {
        if found.fit.is_empty() && !args.own {
            return Err(CheckError::NothingToFit {
                files: found.read_for_fit(),
                looked_for: looked_for(args),
            });
        }
        let readings: Vec<_> = found.fit.iter().map(|own| own.reading.clone()).collect();
        flights::check(&design, &readings, &windows)?
    };
    Ok(json::object(&checked, &found))
}

fn looked_for(args: &CheckArgs) -> String {
    if args.whole {
        return format!(
            "no flight of {:.0} minutes with an airspeed",
            SHORTEST_S / 60.0
        );
    }
    if args.own && args.on.is_empty() {
        return "no reading is marked “check only”".to_owned();
    }
    match args.window_s {
        None => "no steady stretch; --window 60 takes shorter pieces".to_owned(),
        Some(seconds) => format!(
            "no {seconds} s in flight in which every temperature moves less than \
             {PLAIN_DEGF_PER_MINUTE} °F a minute"
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::env;
    use std::fmt::Write;
    use std::fs;
    use std::path::{Path, PathBuf};

    fn reference(name: &str) -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../reference/flights")
            .join(name)
    }

    /// A folder for one test's files, emptied at the end.
    struct Folder(PathBuf);

    impl Folder {
        fn new(name: &str) -> Self {
            let id = std::process::id();
            let path = env::temp_dir().join(format!("coolpath-check-{name}-{id}"));
            fs::create_dir_all(&path).expect("a folder");
            Self(path)
        }

        fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
            let path = self.0.join(name);
            fs::write(&path, bytes).expect("a file");
            path
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            // What is left behind harms nothing.
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    /// Six minutes of level flight, temperatures moving by a rate in °F a minute.
    fn log(oil_name: &str, rate: f64) -> String {
        let mut text = format!(
            "Time,Pressure Alt (ft),IAS (kt),OAT (deg C),RPM,MAP (inHg),Fuel Flow (gal/hr),\
             CHT1 (deg F),CHT2 (deg F),CHT3 (deg F),{oil_name}\n"
        );
        for second in 0..360_u32 {
            let warmer = rate * f64::from(second) / 60.0;
            let _ = writeln!(
                text,
                "10:{:02}:{:02},6500,160,10,2500,24,16.5,{:.2},{:.2},{:.2},190",
                second / 60,
                second % 60,
                340.0 + warmer,
                370.0 + warmer,
                352.0 + warmer
            );
        }
        text
    }

    fn args() -> CheckArgs {
        CheckArgs {
            design: reference("six_310hp_design.json"),
            ..CheckArgs::default()
        }
    }

    #[test]
    fn logs_are_fitted_to_and_compared() {
        let folder = Folder::new("logs");
        let one = folder.file("one.csv", log("Oil Temp (deg F)", 0.5).as_bytes());
        let wide: Vec<u8> = log("Oil Temp (deg F)", 0.5)
            .encode_utf16()
            .flat_map(u16::to_le_bytes)
            .collect();
        let two = folder.file("two.csv", &wide);
        let unfitted = CheckArgs {
            no_fit: true,
            on: vec![two],
            ..args()
        };
        let fitted = CheckArgs {
            no_fit: false,
            fit: vec![one],
            ..unfitted.clone()
        };
        let found = run(&fitted).expect("a check");
        assert_eq!(found["windows"].as_array().map(Vec::len), Some(1));
        let window = &found["windows"][0];
        assert_eq!(window["flight"], "two");
        assert_eq!(window["phase"], "level");
        assert_eq!(window["condition"]["rpm"], 2500.0);
        let number = |found: &Value, name: &str| {
            let hottest = &found["windows"][0]["head_hottest"];
            hottest[name].as_f64().expect("a number")
        };
        assert!(number(&found, "low_k") < number(&found, "predicted_k"));
        assert!(number(&found, "predicted_k") < number(&found, "high_k"));
        // What was fitted to is the same flight.
        let miss = |found: &Value| number(found, "predicted_k") - number(found, "measured_k");
        let before = run(&unfitted).expect("a check");
        assert!(miss(&found).abs() < miss(&before).abs());
        assert_eq!(found["summary"]["oil"]["n"], 1);
        let names: Vec<&str> = found["fitted"]
            .as_array()
            .expect("a list")
            .iter()
            .filter_map(|one| one["input"].as_str())
            .collect();
        assert!(names.contains(&"reference.head_six_k"), "{names:?}");
        assert_eq!(found["refused"], serde_json::json!([]));
    }

    #[test]
    fn shorter_pieces_count_where_no_stretch_is_steady() {
        let folder = Folder::new("plain");
        let moving = folder.file("moving.csv", log("Oil Temp (deg F)", 3.0).as_bytes());
        let on = vec![moving];
        let steady = CheckArgs {
            no_fit: true,
            on: on.clone(),
            ..args()
        };
        let told = run(&steady).expect_err("nothing steady").to_string();
        assert!(
            told.contains("moving.csv") && told.contains("--window"),
            "{told}"
        );
        let plain = CheckArgs {
            window_s: Some(60.0),
            ..steady
        };
        let found = run(&plain).expect("a check");
        assert_eq!(found["windows"].as_array().map(Vec::len), Some(5));
        assert_eq!(found["fitted"], serde_json::json!([]));
    }

    #[test]
    fn a_flight_without_a_steady_stretch_is_fitted_whole() {
        let folder = Folder::new("whole");
        let moving = folder.file("moving.csv", log("Oil Temp (deg F)", 3.0).as_bytes());
        let steady = folder.file("steady.csv", log("Oil Temp (deg F)", 0.5).as_bytes());
        let stretches = CheckArgs {
            fit: vec![moving],
            on: vec![steady],
            ..args()
        };
        let told = run(&stretches).expect_err("nothing steady").to_string();
        assert!(told.starts_with("nothing to fit on in"), "{told}");
        let whole = CheckArgs {
            whole: true,
            ..stretches
        };
        let found = run(&whole).expect("a check");
        assert_eq!(found["windows"].as_array().map(Vec::len), Some(1));
        let heads = &found["whole_flights"][0];
        assert_eq!(heads["name"], "mean of the heads");
        assert_eq!(heads["moments"], 23);
        let independent = heads["independent"].as_f64().expect("a number");
        assert!((1.0..15.0).contains(&independent), "{heads}");
        assert_eq!(found["refused"], serde_json::json!([]));
    }

    #[test]
    fn a_column_map_names_what_no_guess_finds() {
        let folder = Folder::new("columns");
        let log = folder.file("log.csv", log("Thermo 7", 0.5).as_bytes());
        let map = folder.file("map.json", br#"{"Thermo 7": ["oil_k", "F"]}"#);
        let bare = CheckArgs {
            no_fit: true,
            on: vec![log],
            ..args()
        };
        assert!(run(&bare).expect("a check")["windows"][0]["oil"].is_null());
        let mapped = CheckArgs {
            columns: Some(map),
            ..bare.clone()
        };
        let found = run(&mapped).expect("a check");
        assert!(found["windows"][0]["oil"]["measured_k"].is_f64());
        for (text, part) in [
            (r#"{"Thermo 8": ["oil_k", "F"]}"#, "Thermo 8"),
            (r#"{"Thermo 7": ["oil", "F"]}"#, "`oil`"),
            (r#"{"Thermo 7": "oil_k"}"#, "line 1"),
        ] {
            let wrong = CheckArgs {
                columns: Some(folder.file("wrong.json", text.as_bytes())),
                ..bare.clone()
            };
            let told = run(&wrong).expect_err("refused").to_string();
            assert!(told.contains("wrong.json") && told.contains(part), "{told}");
        }
    }

    #[test]
    fn a_table_is_split_by_flight() {
        let table = CheckArgs {
            windows: Some(reference("steady_windows.csv")),
            fit_flights: vec!["F01".to_owned()],
            on_flights: vec!["F03".to_owned(), "F12".to_owned()],
            except_flights: vec!["F12".to_owned()],
            ..args()
        };
        let found = run(&table).expect("a check");
        let flights: Vec<&str> = found["windows"]
            .as_array()
            .expect("a list")
            .iter()
            .filter_map(|one| one["flight"].as_str())
            .collect();
        assert_eq!(flights, ["F03"; 5]);
        let nowhere = CheckArgs {
            fit_flights: vec!["F99".to_owned()],
            ..table
        };
        let told = run(&nowhere).expect_err("no such flight").to_string();
        assert!(
            told.contains("steady_windows.csv") && told.contains("F99"),
            "{told}"
        );
    }

    /// Whether what is printed reads as a part of what was found, to the digits that are printed.
    fn is_told(told: &Value, found: &Value) -> bool {
        match (told, found) {
            (Value::Object(told), Value::Object(found)) => told.iter().all(|(key, told)| {
                key == "file" || found.get(key).is_some_and(|found| is_told(told, found))
            }),
            (Value::Array(told), Value::Array(found)) => {
                let mut pairs = told.iter().zip(found);
                told.len() <= found.len() && pairs.all(|(told, found)| is_told(told, found))
            }
            (Value::Number(told), Value::Number(found)) => {
                let (told, found) = (told.as_f64(), found.as_f64());
                // Five digits are printed.
                told.zip(found)
                    .is_some_and(|(told, found)| (told - found).abs() <= 5e-5 * found.abs())
            }
            _ => told == found,
        }
    }

    #[test]
    fn the_designs_own_marks_say_what_is_fitted_and_what_is_compared() {
        let folder = Folder::new("own");
        let table = coolpath_core::prove::flights::WindowTable::read(
            &fs::read_to_string(reference("steady_windows.csv")).expect("a table"),
            &Default::default(),
        );
        let windows = table.expect("a table").windows;
        let text = fs::read_to_string(reference("six_310hp_design.json")).expect("a design");
        let mut design: coolpath_core::document::design::Design =
            serde_json::from_str(&text).expect("a design");
        for window in &windows {
            let check_only = match window.flight.as_str() {
                "F01" => false,
                "F03" => true,
                _ => continue,
            };
            design
                .readings
                .push(coolpath_core::document::reading::Reading {
                    check_only,
                    log: window.flight.clone(),
                    ..window.reading.clone()
                });
        }
        let file = folder.file("own.json", &serde_json::to_vec(&design).expect("JSON"));
        let own = run(&CheckArgs {
            design: file.clone(),
            own: true,
            ..CheckArgs::default()
        })
        .expect("a check");
        let by_table = run(&CheckArgs {
            windows: Some(reference("steady_windows.csv")),
            fit_flights: vec!["F01".to_owned()],
            on_flights: vec!["F03".to_owned()],
            ..args()
        })
        .expect("a check");
        for part in ["fitted", "summary", "held", "of"] {
            assert_eq!(own[part], by_table[part], "{part}");
        }
        // What the page does with the same marks, once it has opened the file.
        let design = design_file::design(&file).expect("a design");
        let mut checking =
            flights::Checking::new(&design, &[], &flights::check_only_windows(&design))
                .expect("a fit");
        while checking.advance(60) {}
        let page = checking.outcome().expect("an outcome");
        let oil = flights::summary(&page.judged, flights::Figure::Oil).expect("read");
        assert_eq!(own["summary"]["oil"]["bias_k"], oil.bias);
        assert_eq!(own["held"], page.held().0);
        let none = run(&CheckArgs {
            design: reference("six_310hp_design.json"),
            own: true,
            ..CheckArgs::default()
        });
        let told = none.expect_err("no marks").to_string();
        assert!(told.contains("check only"), "{told}");
    }

    #[test]
    fn the_guide_shows_what_is_printed() {
        let guide = include_str!("../../README.md");
        let (_, from) = guide.split_once("```json\n").expect("an example");
        let (text, _) = from.split_once("```").expect("its end");
        let told: Value = serde_json::from_str(text).expect("JSON");
        let found = run(&CheckArgs {
            windows: Some(reference("steady_windows.csv")),
            fit_flights: vec!["F01".to_owned()],
            on_flights: vec!["F03".to_owned()],
            ..args()
        });
        let found = found.expect("a check");
        assert!(is_told(&told, &found), "{found:#}");
        assert!(!is_told(&told, &serde_json::json!({ "fitted": [] })));
    }
}
