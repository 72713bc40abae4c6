//! The command line.

use crate::batch::args::{CardArgs, ChancesArgs, CompareArgs, DesignArgs, SizeArgs};
use crate::check::args as check;
use crate::check::args::CheckArgs;
use clap::error::{Error, ErrorKind};
use clap::{Args, CommandFactory, Parser, Subcommand};
use std::ffi::OsString;

/// Port that the page is served on unless another is asked for.
pub const DEFAULT_PORT: u16 = 8420;

const EXAMPLES: &str = "\
Examples:
  coolpath                                  build the page and serve it
  coolpath page --port 0 --open             the same on a free port, in the browser
  coolpath example > design.json            a design file to begin with
  coolpath evaluate design.json --csv       every condition as a row
  coolpath size design.json --find exit     the smallest exit, by the best estimate

Through cargo: cargo run -q --release -- evaluate design.json
Exit code: 0 done, 1 the input is at fault or something asked has no answer, 2 wrong usage.";

/// Sizes the cooling air of an air-cooled flat engine: builds and serves the page, and answers
/// from the command line.
#[derive(Debug, Parser)]
#[command(name = "coolpath", version, after_help = EXAMPLES)]
struct CommandLine {
    #[command(flatten)]
    serving: Serving,
    #[command(subcommand)]
    task: Option<Task>,
}

/// How the page is served.
#[derive(Debug, Clone, PartialEq, Eq, Default, Args)]
pub struct Serving {
    /// Port on this machine, 0 for any free one; 8420 unless given
    #[arg(long, value_name = "N")]
    pub port: Option<u16>,
    /// Open the page in the browser
    #[arg(long)]
    pub open: bool,
}

impl Serving {
    /// The port to serve on.
    #[must_use]
    pub fn port(&self) -> u16 {
        self.port.unwrap_or(DEFAULT_PORT)
    }

    fn or(self, other: &Self) -> Self {
        Self {
            port: self.port.or(other.port),
            open: self.open || other.open,
        }
    }
}

/// What to do.
#[derive(Debug, Clone, PartialEq, Subcommand)]
pub enum Task {
    /// Build the page into dist/ and serve it on this machine (done without any word, too)
    #[command(after_help = "Examples:\n  coolpath page\n  coolpath page --port 0 --open")]
    Page(Serving),
    /// Serve what dist/ holds, without building it
    #[command(after_help = "Example:\n  coolpath serve --port 8000")]
    Serve(Serving),
    /// Build the page into dist/: a folder for any web server, and coolpath.html
    #[command(after_help = "Example:\n  coolpath build")]
    Build,
    /// Build a draft of the page in seconds, large and slow, and serve it: for working on the page
    #[command(after_help = "Example:\n  coolpath draft --open")]
    Draft(Serving),
    /// Build what is handed out into dist/release/: page, licences, checksums
    #[command(
        after_help = "Example:\n  coolpath release && (cd dist/release && sha256sum --check SHA256SUMS)"
    )]
    Release,
    /// Print the worked example's design file
    #[command(after_help = "Example:\n  coolpath example > design.json")]
    Example,
    /// Solve every condition of a design: temperatures, pressures, flows, drag, verdict
    #[command(after_help = "\
Examples:
  coolpath evaluate design.json
  coolpath example | coolpath evaluate - --csv > answers.csv

Exit code 1 also where a condition has no answer; the others are printed all the same.")]
    Evaluate(DesignArgs),
    /// Find openings that hold the limits in every condition, by the best estimate and with a chance
    #[command(after_help = "\
Examples:
  coolpath size design.json
  coolpath size design.json --find exit --chance 0.7
  coolpath size design.json --find ratio --ratio 0.4 --condition 3
  coolpath size design.json --apply nominal > sized.json

Exit code 1 also where no size within the bounds holds every limit by the best estimate.")]
    Size(SizeArgs),
    /// Compare plenum, seals and the design's own alternatives, as they are and at equal heads
    #[command(after_help = "\
Examples:
  coolpath compare design.json --csv
  coolpath compare design.json --condition 2 --preset diffusers --preset bigger-cooler")]
    Compare(CompareArgs),
    /// Shutter card: the opening that holds the oil, over outside air
    #[command(after_help = "\
Examples:
  coolpath card design.json --csv
  coolpath card design.json --condition \"High cruise\" --oat-k 263.15,273.15,283.15")]
    Card(CardArgs),
    /// Draw every assumption from its range: percentiles, chances, what to measure next
    #[command(after_help = "\
Examples:
  coolpath chances design.json
  coolpath chances design.json --draws 10000 --seed 7 --csv")]
    Chances(ChancesArgs),
    /// Fit a design on some flights as the page would, and compare it with others
    #[command(after_help = check::EXAMPLES)]
    Check {
        /// What is to be checked on what.
        #[command(flatten)]
        args: Box<CheckArgs>,
        /// Print the windows as a table instead of JSON
        #[arg(long)]
        csv: bool,
    },
    /// Print the JSON Schema of the design file
    #[command(after_help = "Example:\n  coolpath schema > design.schema.json")]
    Schema,
}

impl Default for Task {
    fn default() -> Self {
        Self::Page(Serving::default())
    }
}

/// The task that a command line asks for.
///
/// # Arguments
/// * `words` - the command line without the program's own name
///
/// # Errors
/// [`Error`] if a word is not known or does not fit the others, and where help or the version was
/// asked for.
pub fn task(words: impl IntoIterator<Item = OsString>) -> Result<Task, Error> {
    let name = std::iter::once(OsString::from("coolpath"));
    let line = CommandLine::try_parse_from(name.chain(words))?;
    let before = line.serving;
    let refused = |kind, told: &str| Err(CommandLine::command().error(kind, told));
    match line.task.unwrap_or_default() {
        Task::Page(own) => Ok(Task::Page(own.or(&before))),
        Task::Serve(own) => Ok(Task::Serve(own.or(&before))),
        Task::Draft(own) => Ok(Task::Draft(own.or(&before))),
        _ if before != Serving::default() => refused(
            ErrorKind::ArgumentConflict,
            "--port and --open go with `page`, `serve` and `draft` alone: nothing else serves",
        ),
        Task::Check { args, csv } => match args.contradiction() {
            Some(told) => refused(ErrorKind::MissingRequiredArgument, told),
            None => Ok(Task::Check { args, csv }),
        },
        task => Ok(task),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parsed(line: &str) -> Result<Task, ErrorKind> {
        task(line.split_whitespace().map(OsString::from)).map_err(|error| error.kind())
    }

    fn serving(port: Option<u16>, open: bool) -> Serving {
        Serving { port, open }
    }

    #[test]
    fn no_words_build_and_serve_on_the_default_port() {
        let task = parsed("").expect("a task");
        assert_eq!(task, Task::Page(serving(None, false)));
        assert_eq!(parsed("page"), Ok(task));
        assert_eq!(Serving::default().port(), 8420);
        assert_eq!(parsed("--open"), Ok(Task::Page(serving(None, true))));
    }

    #[test]
    fn serving_options_stand_on_either_side_of_the_word() {
        let expected = Task::Serve(serving(Some(0), true));
        assert_eq!(parsed("serve --port 0 --open"), Ok(expected.clone()));
        assert_eq!(parsed("--open --port=0 serve"), Ok(expected));
        let expected = Task::Draft(serving(Some(1), true));
        assert_eq!(parsed("--open draft --port 1"), Ok(expected));
    }

    #[test]
    fn what_serves_nothing_takes_no_serving_options() {
        assert_eq!(parsed("build"), Ok(Task::Build));
        assert_eq!(parsed("build --port 1"), Err(ErrorKind::UnknownArgument));
        assert_eq!(parsed("--open build"), Err(ErrorKind::ArgumentConflict));
        assert_eq!(
            parsed("--port 1 evaluate d.json"),
            Err(ErrorKind::ArgumentConflict)
        );
        assert!(parsed("build serve").is_err());
    }

    #[test]
    fn a_port_is_a_number_that_fits() {
        for text in ["65536", "-1", "eighty", "80.5"] {
            assert!(parsed(&format!("--port={text}")).is_err(), "{text}");
        }
        assert!(parsed("--port").is_err());
    }

    #[test]
    fn help_wins_and_other_words_are_refused() {
        assert_eq!(parsed("serve --help"), Err(ErrorKind::DisplayHelp));
        assert_eq!(parsed("--version"), Err(ErrorKind::DisplayVersion));
        assert_eq!(parsed("--prot 1"), Err(ErrorKind::UnknownArgument));
        assert_eq!(parsed("nothing"), Err(ErrorKind::InvalidSubcommand));
    }

    #[test]
    fn what_follows_check_is_its_own() {
        let Ok(Task::Check { args, csv }) = parsed("check --design d.json --fit a.csv --on b.csv")
        else {
            panic!("a check");
        };
        assert_eq!((args.fit.len(), csv), (1, false));
        assert_eq!(
            parsed("check --on b.csv"),
            Err(ErrorKind::MissingRequiredArgument)
        );
        let lonely = "check --design d --windows w --fit-flight F --window 60";
        assert_eq!(parsed(lonely), Err(ErrorKind::MissingRequiredArgument));
    }

    #[test]
    fn every_word_has_help_with_an_example() {
        let mut command = CommandLine::command();
        command.build();
        command.clone().debug_assert();
        for word in command
            .get_subcommands()
            .filter(|word| word.get_name() != "help")
        {
            let after = word.get_after_help().map(ToString::to_string);
            assert!(after.is_some_and(|text| text.contains("Example")), "{word}");
            for argument in word.get_arguments() {
                assert!(argument.get_help().is_some(), "{word}: {argument}");
            }
        }
        let long = CommandLine::command().render_help().to_string();
        assert!(long.contains(&DEFAULT_PORT.to_string()));
    }
}
