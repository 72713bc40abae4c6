//! The words after `check`.

use clap::Args;
use std::path::PathBuf;

/// What follows the options of `check --help`.
pub const EXAMPLES: &str = "\
Examples:
  coolpath check --design D.json --fit A.csv --on B.csv
  coolpath check --design D.json --fit A.csv --whole --on B.csv
  coolpath check --design D.json --no-fit --on B.csv --window 60
  coolpath check --design D.json --own
  coolpath check --design D.json --windows F.csv --fit-flight F01 --on-flight F03 --csv

One JSON object is printed: what was read beside what was predicted. Temperatures in K; bias is
predicted minus measured. Exit code: 0 done, 1 a file is at fault (the message names it and the
line), 2 wrong usage.";

/// Shortest and longest plain window, s.
const WINDOW_S: (f64, f64) = (20.0, 600.0);

/// What is to be checked on what.
#[derive(Debug, Clone, PartialEq, Default, Args)]
pub struct CheckArgs {
    /// The design, as the page saves it; readings in it count in the fit
    #[arg(long, value_name = "FILE")]
    pub design: PathBuf,
    /// A log to fit on; can be given again
    #[arg(long, value_name = "FILE", required_unless_present_any = ["fit_flights", "no_fit", "own"])]
    pub fit: Vec<PathBuf>,
    /// A log to compare with; can be given again
    #[arg(long, value_name = "FILE", required_unless_present_any = ["windows", "own"])]
    pub on: Vec<PathBuf>,
    /// A table of windows: flight, t0_s, and means with their unit in the name
    #[arg(long, value_name = "FILE")]
    pub windows: Option<PathBuf>,
    /// A flight of the table to fit on; can be given again
    #[arg(long = "fit-flight", value_name = "NAME", requires = "windows")]
    pub fit_flights: Vec<String>,
    /// A flight of the table to compare with; all that are not fitted on unless given; can be
    /// given again
    #[arg(long = "on-flight", value_name = "NAME", requires = "windows")]
    pub on_flights: Vec<String>,
    /// A flight of the table to leave out; can be given again
    #[arg(long = "except-flight", value_name = "NAME", requires = "windows")]
    pub except_flights: Vec<String>,
    /// Compare with the readings that the design marks “check only”, fitted on its others, as the
    /// page does
    #[arg(long)]
    pub own: bool,
    /// Predict with the design as it is
    #[arg(long, conflicts_with_all = ["fit", "fit_flights", "steady_only"])]
    pub no_fit: bool,
    /// Fit on steady stretches alone, not on the logs' climbs and descents
    #[arg(long, requires = "fit")]
    pub steady_only: bool,
    /// Fit on each session of the logs as one flight: every moment from take-off to landing counts,
    /// steady or not
    #[arg(long, requires = "fit", conflicts_with_all = ["steady_only", "no_fit"])]
    pub whole: bool,
    /// Take means of S seconds (20 to 600) in which no head and not the oil moves faster than
    /// 4 °F a minute, instead of the steady stretches that the page finds
    #[arg(long = "window", value_name = "S", value_parser = seconds)]
    pub window_s: Option<f64>,
    /// JSON object that tells what columns hold: name to [quantity, unit], such as
    /// {"CHT A": ["head_1_k", "°F"], "Clock": ["clock", ""]}
    #[arg(long, value_name = "FILE")]
    pub columns: Option<PathBuf>,
}

impl CheckArgs {
    /// What is wrong with the options beside each other, beyond what clap can be told.
    #[must_use]
    pub fn contradiction(&self) -> Option<&'static str> {
        let no_log = self.fit.is_empty() && self.on.is_empty();
        (self.window_s.is_some() && no_log).then_some("--window needs a log, by --fit or --on")
    }
}

fn seconds(text: &str) -> Result<f64, String> {
    text.parse()
        .ok()
        .filter(|seconds| (WINDOW_S.0..=WINDOW_S.1).contains(seconds))
        .ok_or_else(|| format!("seconds from {} to {}", WINDOW_S.0, WINDOW_S.1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::error::{Error, ErrorKind};
    use clap::{CommandFactory, Parser};

    #[derive(Debug, Parser)]
    struct Alone {
        #[command(flatten)]
        args: CheckArgs,
    }

    fn told(line: &str) -> Result<CheckArgs, Error> {
        let words = std::iter::once("check").chain(line.split_whitespace());
        Alone::try_parse_from(words).map(|alone| alone.args)
    }

    fn run(line: &str) -> CheckArgs {
        told(line).unwrap_or_else(|error| panic!("{line}: {error}"))
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
        assert!(run("--design d --fit a --whole --on b").whole);
    }

    #[test]
    fn what_does_not_fit_is_refused_by_name() {
        use ErrorKind::{
            ArgumentConflict, InvalidValue, MissingRequiredArgument, UnknownArgument,
            ValueValidation,
        };
        for (line, kind, named) in [
            (
                "--fit a.csv --on b.csv",
                MissingRequiredArgument,
                "--design",
            ),
            (
                "--design d.json --on b.csv",
                MissingRequiredArgument,
                "--fit",
            ),
            (
                "--design d.json --fit a.csv",
                MissingRequiredArgument,
                "--on",
            ),
            ("--design d.json --fit", InvalidValue, "--fit"),
            ("--design d --design e", ArgumentConflict, "--design"),
            ("--design d --fitt a", UnknownArgument, "--fitt"),
            ("--design d --window soon", ValueValidation, "20 to 600"),
            ("--design d --window 5", ValueValidation, "20 to 600"),
            (
                "--design d --fit a --on b --no-fit",
                ArgumentConflict,
                "--no-fit",
            ),
            (
                "--design d --fit a --on b --whole --steady-only",
                ArgumentConflict,
                "--whole",
            ),
            (
                "--design d --fit a --on b --on-flight F",
                MissingRequiredArgument,
                "--windows",
            ),
            (
                "--design d --windows w --fit-flight F --steady-only",
                MissingRequiredArgument,
                "--fit",
            ),
        ] {
            let error = told(line).expect_err(line);
            assert_eq!(error.kind(), kind, "{line}: {error}");
            assert!(error.to_string().contains(named), "{line}: {error}");
        }
        assert!(run("--design d --own").own);
        let lonely = run("--design d --windows w --fit-flight F --window 60");
        assert!(
            lonely
                .contradiction()
                .is_some_and(|told| told.contains("a log"))
        );
        assert_eq!(
            run("--design d --no-fit --on b --window 60").contradiction(),
            None
        );
    }

    #[test]
    fn every_option_is_explained() {
        let command = Alone::command();
        for argument in command.get_arguments() {
            assert!(argument.get_help().is_some(), "{argument}");
        }
    }
}
