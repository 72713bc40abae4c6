//! The words after `check`.

use std::path::PathBuf;

/// What `check` understands, for people.
pub const HELP: &str = "\
Fits a design on some flights as the page would, predicts others, and prints one JSON object with
what was read beside what was predicted. Temperatures in K; bias is predicted minus measured.

Usage: coolpath check --design D.json --fit A.csv [--fit ...] --on B.csv [--on ...]
       coolpath check --design D.json --windows F.csv --fit-flight NAME [--fit-flight ...]

  --design FILE         the design, as the page saves it; readings in it count in the fit
  --fit FILE            a log to fit on; can be given again
  --on FILE             a log to compare with; can be given again
  --windows FILE        a table of windows: flight, t0_s, and means with their unit in the name
  --fit-flight NAME     a flight of the table to fit on; can be given again
  --on-flight NAME      a flight of the table to compare with; all that are not fitted on unless
                        given; can be given again
  --except-flight NAME  a flight of the table to leave out; can be given again
  --no-fit              predict with the design as it is
  --steady-only         fit on steady stretches alone, not on the logs' climbs and descents
  --window S            take means of S seconds (20 to 600) in which no head and not the oil moves
                        faster than 4 °F a minute, instead of the steady stretches that the page
                        finds
  --columns FILE        JSON object that tells what columns hold: name to [quantity, unit], such as
                        {\"CHT A\": [\"head_1_k\", \"°F\"], \"Clock\": [\"clock\", \"\"]}
  --help                print this

Exit code: 0 done, 1 failed (the message names file and line), 2 wrong usage.";

/// Shortest and longest plain window, s.
const WINDOW_S: (f64, f64) = (20.0, 600.0);

/// What is to be checked on what.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CheckArgs {
    /// The design.
    pub design: PathBuf,
    /// Logs to fit on.
    pub fit: Vec<PathBuf>,
    /// Logs to compare with.
    pub on: Vec<PathBuf>,
    /// Table of windows.
    pub windows: Option<PathBuf>,
    /// Flights of the table to fit on.
    pub fit_flights: Vec<String>,
    /// Flights of the table to compare with; all others if there are none.
    pub on_flights: Vec<String>,
    /// Flights of the table that are left out.
    pub except_flights: Vec<String>,
    /// Whether the design stays as it is.
    pub no_fit: bool,
    /// Whether climbs and descents of the logs are left out of the fit.
    pub steady_only: bool,
    /// Length of plain windows, s; `None` for the page's steady stretches.
    pub window_s: Option<f64>,
    /// What columns hold.
    pub columns: Option<PathBuf>,
}

/// What follows `check`.
#[derive(Debug, Clone, PartialEq)]
pub enum CheckTask {
    /// Print [`HELP`].
    Help,
    /// Carry it out.
    Run(Box<CheckArgs>),
}

/// Why the words after `check` were refused.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum CheckArgsError {
    /// A word that means nothing here.
    #[error("`{0}` is not known to check; check --help lists what is")]
    Unknown(String),
    /// An option at the end of the line that takes a value.
    #[error("{0} takes a value")]
    Missing(&'static str),
    /// An option that is given once was given again.
    #[error("{0} is given once only")]
    Twice(&'static str),
    /// A length that is none.
    #[error("--window takes seconds from 20 to 600, not `{0}`")]
    Window(String),
    /// No design.
    #[error("check needs --design")]
    NoDesign,
    /// Nothing to fit on.
    #[error("check needs --fit or --fit-flight to fit on, or --no-fit")]
    NoFit,
    /// Nothing to compare with.
    #[error("check needs --on or --windows to compare with")]
    NoOn,
    /// Two options that contradict each other.
    #[error("{0} does not go with {1}")]
    Against(&'static str, &'static str),
    /// An option that needs another.
    #[error("{0} needs {1}")]
    Needs(&'static str, &'static str),
}

/// Options that take a value, in the order of [`HELP`].
const VALUED: [&str; 9] = [
    "--design",
    "--fit",
    "--on",
    "--windows",
    "--fit-flight",
    "--on-flight",
    "--except-flight",
    "--window",
    "--columns",
];

/// What the words after `check` ask for.
///
/// # Errors
/// [`CheckArgsError`] if a word is not known, lacks its value or does not fit the others.
pub fn parsed(words: impl IntoIterator<Item = String>) -> Result<CheckTask, CheckArgsError> {
    let mut args = CheckArgs::default();
    let mut design = None;
    let mut words = words.into_iter();
    while let Some(word) = words.next() {
        match word.as_str() {
            "--help" | "-h" => return Ok(CheckTask::Help),
            "--no-fit" => args.no_fit = true,
            "--steady-only" => args.steady_only = true,
            _ => {
                let (name, joined) = match word.split_once('=') {
                    Some((name, value)) => (name, Some(value.to_owned())),
                    None => (word.as_str(), None),
                };
                let Some(option) = VALUED.into_iter().find(|option| *option == name) else {
                    return Err(CheckArgsError::Unknown(word));
                };
                let value = joined
                    .or_else(|| words.next())
                    .ok_or(CheckArgsError::Missing(option))?;
                take(&mut args, &mut design, option, value)?;
            }
        }
    }
    args.design = design.ok_or(CheckArgsError::NoDesign)?;
    fitting(&args)?;
    Ok(CheckTask::Run(Box::new(args)))
}

fn take(
    args: &mut CheckArgs,
    design: &mut Option<PathBuf>,
    option: &'static str,
    value: String,
) -> Result<(), CheckArgsError> {
    match option {
        "--design" => once(design, option, value.into()),
        "--windows" => once(&mut args.windows, option, value.into()),
        "--columns" => once(&mut args.columns, option, value.into()),
        "--window" => {
            let seconds = value
                .parse()
                .ok()
                .filter(|seconds| (WINDOW_S.0..=WINDOW_S.1).contains(seconds))
                .ok_or(CheckArgsError::Window(value))?;
            once(&mut args.window_s, option, seconds)
        }
        "--fit" => {
            args.fit.push(value.into());
            Ok(())
        }
        "--on" => {
            args.on.push(value.into());
            Ok(())
        }
        "--fit-flight" => {
            args.fit_flights.push(value);
            Ok(())
        }
        "--on-flight" => {
            args.on_flights.push(value);
            Ok(())
        }
        _ => {
            args.except_flights.push(value);
            Ok(())
        }
    }
}

fn once<T>(slot: &mut Option<T>, option: &'static str, value: T) -> Result<(), CheckArgsError> {
    match slot.replace(value) {
        None => Ok(()),
        Some(_) => Err(CheckArgsError::Twice(option)),
    }
}

/// Whether what was asked for goes together.
fn fitting(args: &CheckArgs) -> Result<(), CheckArgsError> {
    let flights = [
        ("--fit-flight", &args.fit_flights),
        ("--on-flight", &args.on_flights),
        ("--except-flight", &args.except_flights),
    ];
    let lonely = flights.iter().find(|(_, names)| !names.is_empty());
    if let (None, Some((option, _))) = (&args.windows, lonely) {
        return Err(CheckArgsError::Needs(option, "--windows"));
    }
    if args.no_fit {
        for (option, given) in [
            ("--fit", !args.fit.is_empty()),
            ("--fit-flight", !args.fit_flights.is_empty()),
            ("--steady-only", args.steady_only),
        ] {
            if given {
                return Err(CheckArgsError::Against(option, "--no-fit"));
            }
        }
    } else if args.fit.is_empty() && args.fit_flights.is_empty() {
        return Err(CheckArgsError::NoFit);
    }
    if args.on.is_empty() && args.windows.is_none() {
        return Err(CheckArgsError::NoOn);
    }
    if args.steady_only && args.fit.is_empty() {
        return Err(CheckArgsError::Needs("--steady-only", "--fit"));
    }
    if args.window_s.is_some() && args.fit.is_empty() && args.on.is_empty() {
        return Err(CheckArgsError::Needs("--window", "a log"));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(line: &str) -> Result<CheckTask, CheckArgsError> {
        parsed(line.split_whitespace().map(str::to_owned))
    }

    fn run(line: &str) -> CheckArgs {
        match told(line) {
            Ok(CheckTask::Run(args)) => *args,
            other => panic!("{line}: {other:?}"),
        }
    }

    #[test]
    fn logs_and_tables_are_taken_however_often_they_are_given() {
        let args =
            run("--design d.json --fit a.csv --fit=b.csv --on c.csv --window 60 --steady-only");
        assert_eq!(args.fit, [PathBuf::from("a.csv"), PathBuf::from("b.csv")]);
        assert_eq!(args.on, [PathBuf::from("c.csv")]);
        assert_eq!((args.window_s, args.steady_only), (Some(60.0), true));
        let args = run("--windows w.csv --fit-flight A --design=d.json --except-flight B");
        assert_eq!(args.windows, Some(PathBuf::from("w.csv")));
        assert_eq!(args.fit_flights, ["A"]);
        assert_eq!(args.except_flights, ["B"]);
        assert!(run("--no-fit --design d.json --on c.csv").no_fit);
        assert_eq!(told("--fit a.csv --help"), Ok(CheckTask::Help));
    }

    #[test]
    fn what_does_not_fit_is_refused_by_name() {
        use CheckArgsError::{Against, Missing, Needs, Twice, Unknown, Window};
        for (line, expected) in [
            ("--fit a.csv --on b.csv", CheckArgsError::NoDesign),
            ("--design d.json --on b.csv", CheckArgsError::NoFit),
            ("--design d.json --fit a.csv", CheckArgsError::NoOn),
            ("--design d.json --fit", Missing("--fit")),
            ("--design d --design e", Twice("--design")),
            ("--design d --fitt a", Unknown("--fitt".to_owned())),
            ("--design d --window soon", Window("soon".to_owned())),
            ("--design d --window 5", Window("5".to_owned())),
            (
                "--design d --fit a --on b --no-fit",
                Against("--fit", "--no-fit"),
            ),
            (
                "--design d --fit a --on b --on-flight F",
                Needs("--on-flight", "--windows"),
            ),
            (
                "--design d --windows w --fit-flight F --steady-only",
                Needs("--steady-only", "--fit"),
            ),
            (
                "--design d --windows w --fit-flight F --window 60",
                Needs("--window", "a log"),
            ),
        ] {
            assert_eq!(told(line), Err(expected), "{line}");
        }
    }

    #[test]
    fn help_names_every_option() {
        for option in VALUED
            .into_iter()
            .chain(["--no-fit", "--steady-only", "--help"])
        {
            assert!(HELP.contains(&format!("\n  {option} ")), "{option}");
        }
    }
}
