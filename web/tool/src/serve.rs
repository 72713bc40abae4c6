//! Serves a folder on this machine, and to this machine only.

use std::fs::File;
use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::path::PathBuf;
use std::sync::Arc;
use std::thread::{self, JoinHandle};

use tiny_http::{Header, Method, Request, Response};

use crate::request::{self, Target};

/// Requests answered at a time; a browser opens six connections to one server.
const WORKERS: usize = 6;

/// Why nothing is served.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServeError {
    /// Another program has the port.
    #[error("port {0} is taken by another program; choose another with --port, or 0 for any")]
    PortTaken(u16),
    /// The system does not give the port.
    #[error("port {port} cannot be opened: {source}")]
    PortRefused {
        /// The port.
        port: u16,
        /// What the system says.
        source: io::Error,
    },
    /// The folder holds no page.
    #[error("{0} holds no index.html; build the page first")]
    NoPage(PathBuf),
    /// The web server did not start.
    #[error("the web server did not start: {0}")]
    Server(Box<dyn std::error::Error + Send + Sync>),
}

/// A folder that is being served until this is dropped.
pub struct Server {
    server: Arc<tiny_http::Server>,
    address: SocketAddr,
    prefix: String,
    workers: Vec<JoinHandle<()>>,
}

impl Server {
    /// Starts to serve a folder in the background.
    ///
    /// # Arguments
    /// * `folder` - the folder, with an `index.html`
    /// * `prefix` - path to serve it under, `/` or such as `/a/b/`
    /// * `port` - port on this machine; 0 takes any free one
    ///
    /// # Errors
    /// [`ServeError`] if the folder holds no page or the port is not to be had.
    pub fn start(folder: PathBuf, prefix: &str, port: u16) -> Result<Self, ServeError> {
        if !folder.join("index.html").is_file() {
            return Err(ServeError::NoPage(folder));
        }
        let listener =
            TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(|source| {
                match source.kind() {
                    io::ErrorKind::AddrInUse => ServeError::PortTaken(port),
                    _ => ServeError::PortRefused { port, source },
                }
            })?;
        let address = listener
            .local_addr()
            .map_err(|source| ServeError::PortRefused { port, source })?;
        let server =
            Arc::new(tiny_http::Server::from_listener(listener, None).map_err(ServeError::Server)?);
        let workers = (0..WORKERS)
            .map(|_| {
                let server = Arc::clone(&server);
                let folder = folder.clone();
                let prefix = prefix.to_owned();
                thread::spawn(move || {
                    while let Ok(request) = server.recv() {
                        answer(request, &folder, &prefix);
                    }
                })
            })
            .collect();
        Ok(Self {
            server,
            address,
            prefix: prefix.to_owned(),
            workers,
        })
    }

    /// The page's address.
    pub fn url(&self) -> String {
        format!("http://{}{}", self.address, self.prefix)
    }

    /// Serves until the process ends.
    pub fn run(mut self) {
        for worker in self.workers.drain(..) {
            // A worker that panicked has said so; the others go on.
            let _ = worker.join();
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        for _ in &self.workers {
            self.server.unblock();
        }
        for worker in self.workers.drain(..) {
            let _ = worker.join();
        }
    }
}

fn answer(request: Request, folder: &std::path::Path, prefix: &str) {
    let sent = if !matches!(request.method(), Method::Get | Method::Head) {
        let refusal = Response::from_string("Only GET and HEAD are answered.\n")
            .with_status_code(405)
            .with_header(header("Allow", "GET, HEAD"));
        request.respond(refusal)
    } else {
        match request::target(request.url(), prefix) {
            Target::File(name) => {
                let media_type = request::media_type(&name);
                match opened(&folder.join(&name), folder) {
                    Some(file) => request.respond(
                        Response::from_file(file)
                            .with_header(header("Content-Type", media_type))
                            .with_header(header("Cache-Control", "no-cache"))
                            .with_header(header("X-Content-Type-Options", "nosniff")),
                    ),
                    None => request.respond(not_found()),
                }
            }
            Target::Redirect(address) => request.respond(
                Response::from_string("")
                    .with_status_code(308)
                    .with_header(header("Location", &address)),
            ),
            Target::Nothing => request.respond(not_found()),
        }
    };
    // A browser that closes the connection early is no fault.
    drop(sent);
}

/// A regular file that lies in the folder even after links are followed.
fn opened(path: &std::path::Path, folder: &std::path::Path) -> Option<File> {
    let real = path.canonicalize().ok()?;
    let inside = real.starts_with(folder.canonicalize().ok()?) && real.is_file();
    if inside { File::open(real).ok() } else { None }
}

fn not_found() -> Response<io::Cursor<Vec<u8>>> {
    Response::from_string("There is no such file.\n").with_status_code(404)
}

fn header(name: &str, value: &str) -> Header {
    Header::from_bytes(name, value).expect("names and values here are plain ASCII")
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::io::{Read, Write};
    use std::net::TcpStream;

    use super::*;

    struct Served {
        folder: PathBuf,
        server: Server,
    }

    impl Served {
        fn new(name: &str, prefix: &str) -> Self {
            let folder =
                std::env::temp_dir().join(format!("coolpath-serve-{name}-{}", std::process::id()));
            fs::create_dir_all(&folder).unwrap();
            fs::write(folder.join("index.html"), "<p>page").unwrap();
            fs::write(folder.join("a.wasm"), b"\0asm").unwrap();
            let server = Server::start(folder.clone(), prefix, 0).unwrap();
            Self { folder, server }
        }

        /// The whole answer to a request line, with lower-case header names.
        fn answer(&self, line: &str) -> String {
            let mut stream = TcpStream::connect(self.server.address).unwrap();
            write!(
                stream,
                "{line} HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n"
            )
            .unwrap();
            let mut answer = String::new();
            stream.read_to_string(&mut answer).unwrap();
            answer.to_lowercase()
        }
    }

    impl Drop for Served {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.folder);
        }
    }

    #[test]
    fn a_file_is_sent_with_its_type() {
        let served = Served::new("type", "/");
        let page = served.answer("GET /");
        assert!(page.starts_with("http/1.1 200"), "{page}");
        assert!(page.contains("content-type: text/html; charset=utf-8"));
        assert!(page.ends_with("<p>page"));
        let program = served.answer("GET /a.wasm");
        assert!(program.contains("content-type: application/wasm\r\n"));
    }

    #[test]
    fn head_sends_no_body_and_other_methods_are_refused() {
        let served = Served::new("methods", "/");
        let head = served.answer("HEAD /");
        assert!(
            head.starts_with("http/1.1 200") && head.ends_with("\r\n\r\n"),
            "{head}"
        );
        for method in ["POST", "PUT", "DELETE", "OPTIONS"] {
            let answer = served.answer(&format!("{method} /"));
            assert!(answer.starts_with("http/1.1 405"), "{answer}");
            assert!(answer.contains("allow: get, head"));
        }
    }

    #[test]
    fn a_prefix_is_completed_and_nothing_lies_above_it() {
        let served = Served::new("prefix", "/a/b/");
        assert!(served.answer("GET /a/b/").ends_with("<p>page"));
        let redirect = served.answer("GET /a/b");
        assert!(redirect.starts_with("http/1.1 308") && redirect.contains("location: /a/b/"));
        assert!(served.answer("GET /").starts_with("http/1.1 404"));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_out_of_the_folder_is_not_followed() {
        let served = Served::new("link", "/");
        std::os::unix::fs::symlink("/etc/hostname", served.folder.join("link.txt")).unwrap();
        assert!(served.answer("GET /link.txt").starts_with("http/1.1 404"));
        assert!(
            served
                .answer("GET /../etc/hostname")
                .starts_with("http/1.1 404")
        );
    }

    #[test]
    fn a_taken_port_is_an_error_that_names_it() {
        let served = Served::new("taken", "/");
        let port = served.server.address.port();
        let error = Server::start(served.folder.clone(), "/", port)
            .err()
            .expect("taken");
        assert!(matches!(error, ServeError::PortTaken(taken) if taken == port));
        assert!(
            error
                .to_string()
                .contains(&format!("port {port} is taken by another program"))
        );
    }

    #[test]
    fn a_folder_without_a_page_is_refused() {
        let error = Server::start(std::env::temp_dir().join("coolpath-none"), "/", 0)
            .err()
            .expect("refused");
        assert!(error.to_string().contains("build the page first"));
    }

    #[test]
    fn a_dropped_server_frees_its_port() {
        let served = Served::new("dropped", "/");
        let address = served.server.address;
        drop(served);
        // The listening thread ends a moment after it is told to.
        let freed = (0..500).any(|_| {
            thread::sleep(std::time::Duration::from_millis(10));
            TcpStream::connect(address).is_err()
        });
        assert!(freed, "{address} still answers");
    }
}
