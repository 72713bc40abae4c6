//! The process that passes commands on to the browser.

use std::env;
use std::io::{BufRead, BufReader};
use std::process::{Child, ChildStdout, Command, Stdio};

use super::BrowserError;

/// A browser that tests run in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Program {
    /// Chromium, by chromedriver.
    Chromium,
    /// Firefox, by geckodriver.
    Firefox,
}

impl Program {
    /// The program that takes commands: its variable and its usual name.
    fn driver(self) -> (&'static str, &'static str) {
        match self {
            Self::Chromium => ("CHROMEDRIVER", "chromedriver"),
            Self::Firefox => ("GECKODRIVER", "geckodriver"),
        }
    }
}

/// A driver on a free port, ended when dropped.
pub struct Driver {
    process: Child,
    port: u16,
    // Held open: the process would end when writing to a closed pipe.
    _output: BufReader<ChildStdout>,
}

impl Driver {
    /// Starts the program that `CHROMEDRIVER` or `GECKODRIVER` names, or else the usual one.
    ///
    /// Several that begin at once may find the same port free; the one that comes late ends without having named
    /// any, and is started anew.
    pub fn start(browser: Program) -> Result<Self, BrowserError> {
        const MOST: usize = 3;
        for _ in 1..MOST {
            match Self::started(browser) {
                Err(BrowserError::NoPort) => {}
                other => return other,
            }
        }
        Self::started(browser)
    }

    fn started(browser: Program) -> Result<Self, BrowserError> {
        let (variable, usual) = browser.driver();
        let program = env::var_os(variable).unwrap_or_else(|| usual.into());
        let mut process = Command::new(program)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(BrowserError::Start)?;
        let mut output = BufReader::new(process.stdout.take().ok_or(BrowserError::NoPort)?);
        let port = announced_port(&mut output);
        if port.is_none() {
            let _ = process.kill();
            let _ = process.wait();
        }
        Ok(Self {
            process,
            port: port.ok_or(BrowserError::NoPort)?,
            _output: output,
        })
    }

    /// Address for commands.
    pub fn url(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

fn announced_port(output: &mut impl BufRead) -> Option<u16> {
    output
        .lines()
        .map_while(Result::ok)
        .find_map(|line| port_in(&line))
}

fn port_in(line: &str) -> Option<u16> {
    let (_, rest) = line
        .split_once("successfully on port ")
        .or_else(|| line.split_once("Listening on 127.0.0.1:"))?;
    rest.trim_end_matches('.').parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_port_is_read_from_the_announcement() {
        let output = "Starting driver 1.2.3 on port 0\n\
                      It was started successfully on port 40123.\n";
        assert_eq!(announced_port(&mut output.as_bytes()), Some(40123));
        let other = "1700000000000\tgeckodriver\tINFO\tListening on 127.0.0.1:4455\n";
        assert_eq!(announced_port(&mut other.as_bytes()), Some(4455));
        assert_eq!(announced_port(&mut "failed\n".as_bytes()), None);
    }
}
