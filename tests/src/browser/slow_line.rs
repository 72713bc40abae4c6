//! A slow line to a site: what a browser's own throttle leaves out (service workers) it slows too.

use std::io::{self, Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use super::{BrowserError, Site};

/// From a request's way to the server until its answer begins.
const LATENCY: Duration = Duration::from_millis(560);
/// What the line carries, bytes a second, all connections together.
const BYTES_PER_SECOND: f64 = 180e3;
/// Bytes sent at once.
const PIECE: usize = 4096;

/// A built page behind a slow line.
pub struct SlowLine {
    address: SocketAddr,
    _site: Site,
}

impl SlowLine {
    /// Puts a slow line before a site.
    ///
    /// # Errors
    /// [`BrowserError`] if no port can be had.
    pub fn to(site: Site) -> Result<Self, BrowserError> {
        let refused = |source| BrowserError::File {
            path: "a port of this machine".into(),
            source,
        };
        let listener = TcpListener::bind(("127.0.0.1", 0)).map_err(refused)?;
        let address = listener.local_addr().map_err(refused)?;
        let far = site
            .url()
            .trim_start_matches("http://")
            .trim_end_matches('/')
            .to_owned();
        let line = Arc::new(Mutex::new(Instant::now()));
        // Ends with the process: a listener has no other way to be told.
        thread::spawn(move || {
            for near in listener.incoming().flatten() {
                if let Ok(server) = TcpStream::connect(&far) {
                    let _ = joined(near, server, line.clone());
                }
            }
        });
        Ok(Self {
            address,
            _site: site,
        })
    }

    /// The page's address.
    pub fn url(&self) -> String {
        format!("http://{}/", self.address)
    }
}

/// Carries what both ends of a connection say, each in a thread of its own.
fn joined(near: TcpStream, server: TcpStream, line: Arc<Mutex<Instant>>) -> io::Result<()> {
    let (asking, answering) = (near.try_clone()?, server.try_clone()?);
    thread::spawn(move || carried(asking, answering, |_| thread::sleep(LATENCY)));
    thread::spawn(move || {
        carried(server, near, |bytes| {
            let took = Duration::from_secs_f64(bytes as f64 / BYTES_PER_SECOND);
            let until = {
                let Ok(mut free) = line.lock() else { return };
                *free = (*free).max(Instant::now()) + took;
                *free
            };
            thread::sleep(until.saturating_duration_since(Instant::now()));
        });
    });
    Ok(())
}

fn carried(mut from: TcpStream, mut to: TcpStream, before_each: impl Fn(usize)) {
    let mut piece = [0; PIECE];
    loop {
        match from.read(&mut piece) {
            Ok(0) | Err(_) => break,
            Ok(read) => {
                before_each(read);
                if to.write_all(&piece[..read]).is_err() {
                    break;
                }
            }
        }
    }
    let _ = to.shutdown(std::net::Shutdown::Write);
}
