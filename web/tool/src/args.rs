//! The command line.

use crate::check::args as check;
use crate::check::args::{CheckArgs, CheckArgsError, CheckTask};
use std::ffi::OsString;

/// Port that the page is served on unless another is asked for.
pub const DEFAULT_PORT: u16 = 8420;

/// What the command line says, for people.
pub const HELP: &str = "\
Builds the Coolpath page and serves it on this machine, or checks a design on flights.

Usage: coolpath [build | serve] [--port N] [--open]
       coolpath check --design D.json --fit A.csv --on B.csv

  (none)     build the page, then serve it
  build      only build it, into dist/
  serve      only serve what dist/ holds
  check      fit a design on logs of flights and compare it with others; check --help tells more
  --port N   port to serve on; 8420 unless given, 0 takes any free one
  --open     open the page in the browser
  --help     print this";

/// What to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Task {
    /// Print a text such as [`HELP`].
    Help(&'static str),
    /// Check a design on flights.
    Check(Box<CheckArgs>),
    /// Build the page and nothing else.
    Build,
    /// Serve the page, after building it or as it is.
    Serve {
        /// Whether the page is built first.
        build_first: bool,
        /// Port to serve on; 0 takes any free one.
        port: u16,
        /// Whether the browser is opened on the page.
        open: bool,
    },
}

/// Why a command line was refused.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ArgsError {
    /// A word that means nothing here.
    #[error("`{0}` is not known here; --help lists what is")]
    Unknown(String),
    /// A second command after the first.
    #[error("only one of build, serve and check can be asked for")]
    TwoCommands,
    /// `--port` at the end of the line.
    #[error("--port takes a number from 0 to 65535")]
    PortMissing,
    /// `--port` with something else than a port after it.
    #[error("--port takes a number from 0 to 65535, not `{0}`")]
    Port(String),
    /// An option for serving beside `build`.
    #[error("`build` serves nothing, so {0} does not go with it")]
    NothingServed(&'static str),
    /// The words after `check`.
    #[error(transparent)]
    Check(#[from] CheckArgsError),
}

/// The task that a command line asks for.
///
/// # Arguments
/// * `words` - the command line without the program's own name
///
/// # Errors
/// [`ArgsError`] if a word is not known, or does not fit the others.
pub fn task(words: impl IntoIterator<Item = OsString>) -> Result<Task, ArgsError> {
    let mut command = None;
    let mut port = None;
    let mut open = false;
    let mut words = words
        .into_iter()
        .map(|word| word.to_string_lossy().into_owned());
    while let Some(word) = words.next() {
        match word.as_str() {
            "--help" | "-h" => return Ok(Task::Help(HELP)),
            "check" if command.is_none() && port.is_none() && !open => {
                return Ok(match check::parsed(words)? {
                    CheckTask::Help => Task::Help(check::HELP),
                    CheckTask::Run(args) => Task::Check(args),
                });
            }
            "check" => return Err(ArgsError::TwoCommands),
            "build" | "serve" if command.is_some() => return Err(ArgsError::TwoCommands),
            "build" | "serve" => command = Some(word),
            "--open" => open = true,
            "--port" => port = Some(parsed_port(&words.next().ok_or(ArgsError::PortMissing)?)?),
            other => match other.strip_prefix("--port=") {
                Some(number) => port = Some(parsed_port(number)?),
                None => return Err(ArgsError::Unknown(word)),
            },
        }
    }
    if command.as_deref() == Some("build") {
        return match (port, open) {
            (Some(_), _) => Err(ArgsError::NothingServed("--port")),
            (None, true) => Err(ArgsError::NothingServed("--open")),
            (None, false) => Ok(Task::Build),
        };
    }
    Ok(Task::Serve {
        build_first: command.is_none(),
        port: port.unwrap_or(DEFAULT_PORT),
        open,
    })
}

fn parsed_port(text: &str) -> Result<u16, ArgsError> {
    text.parse().map_err(|_| ArgsError::Port(text.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parsed(line: &str) -> Result<Task, ArgsError> {
        task(line.split_whitespace().map(OsString::from))
    }

    #[test]
    fn no_words_build_and_serve_on_the_default_port() {
        assert_eq!(
            parsed(""),
            Ok(Task::Serve {
                build_first: true,
                port: 8420,
                open: false
            })
        );
    }

    #[test]
    fn serve_builds_nothing() {
        let expected = Task::Serve {
            build_first: false,
            port: 0,
            open: true,
        };
        assert_eq!(parsed("serve --port 0 --open"), Ok(expected.clone()));
        assert_eq!(parsed("--open --port=0 serve"), Ok(expected));
    }

    #[test]
    fn build_takes_no_serving_options() {
        assert_eq!(parsed("build"), Ok(Task::Build));
        assert_eq!(
            parsed("build --port 1"),
            Err(ArgsError::NothingServed("--port"))
        );
        assert_eq!(
            parsed("--open build"),
            Err(ArgsError::NothingServed("--open"))
        );
        assert_eq!(parsed("build serve"), Err(ArgsError::TwoCommands));
    }

    #[test]
    fn a_port_is_a_number_that_fits() {
        for text in ["65536", "-1", "eighty", "80.5"] {
            assert_eq!(
                parsed(&format!("--port {text}")),
                Err(ArgsError::Port(text.to_owned()))
            );
        }
        assert_eq!(parsed("--port"), Err(ArgsError::PortMissing));
    }

    #[test]
    fn help_wins_and_other_words_are_named() {
        assert_eq!(parsed("serve --help"), Ok(Task::Help(HELP)));
        assert_eq!(
            parsed("--prot 1"),
            Err(ArgsError::Unknown("--prot".to_owned()))
        );
    }

    #[test]
    fn what_follows_check_is_its_own() {
        let Ok(Task::Check(args)) = parsed("check --design d.json --fit a.csv --on b.csv") else {
            panic!("a check");
        };
        assert_eq!(args.fit.len(), 1);
        assert_eq!(parsed("check --help"), Ok(Task::Help(check::HELP)));
        assert_eq!(
            parsed("check --on b.csv"),
            Err(ArgsError::Check(CheckArgsError::NoDesign))
        );
        assert_eq!(parsed("build check"), Err(ArgsError::TwoCommands));
    }

    #[test]
    fn help_states_the_default_port() {
        assert!(HELP.contains(&DEFAULT_PORT.to_string()));
    }
}
