//! Serves a folder on this machine, and to this machine only.

use std::fs;
use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, UNIX_EPOCH};

use axum::Router;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::response::{IntoResponse, Response};
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::runtime::{Builder, Runtime};
use tokio::task::JoinHandle;

use crate::request::{self, Target};

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
    Server(io::Error),
}

/// A folder that is being served until this is dropped.
pub struct Server {
    // Only taken by the drop.
    runtime: Option<Runtime>,
    serving: JoinHandle<io::Result<()>>,
    address: SocketAddr,
    prefix: String,
}

/// What is served, and where.
struct Served {
    folder: PathBuf,
    prefix: String,
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
        listener.set_nonblocking(true).map_err(ServeError::Server)?;
        let runtime = Builder::new_multi_thread()
            .enable_io()
            .enable_time()
            .build()
            .map_err(ServeError::Server)?;
        let served = Served {
            folder,
            prefix: prefix.to_owned(),
        };
        let answers = Router::new().fallback(answer).with_state(Arc::new(served));
        let _inside = runtime.enter();
        let listener = tokio::net::TcpListener::from_std(listener).map_err(ServeError::Server)?;
        let serving = runtime.spawn(accept(listener, answers));
        Ok(Self {
            runtime: Some(runtime),
            serving,
            address,
            prefix: prefix.to_owned(),
        })
    }

    /// The page's address.
    pub fn url(&self) -> String {
        format!("http://{}{}", self.address, self.prefix)
    }

    /// Serves until the process ends.
    pub fn run(mut self) {
        if let Some(runtime) = &self.runtime {
            // A server that stopped has nothing left to say.
            let _ = runtime.block_on(&mut self.serving);
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        if let Some(runtime) = self.runtime.take() {
            runtime.shutdown_background();
        }
    }
}

/// How long a request's head may take to arrive.
const HEAD_TIMEOUT: Duration = Duration::from_secs(10);
/// How long to wait where the system gives no more connections.
const NO_CONNECTION: Duration = Duration::from_millis(50);

/// Serves every connection in a task of its own.
async fn accept(listener: tokio::net::TcpListener, answers: Router) -> io::Result<()> {
    loop {
        let Ok((stream, _)) = listener.accept().await else {
            tokio::time::sleep(NO_CONNECTION).await;
            continue;
        };
        let answers = TowerToHyperService::new(answers.clone());
        tokio::spawn(async move {
            // Whoever sends no request in time is let go.
            let _ = http1::Builder::new()
                .timer(TokioTimer::new())
                .header_read_timeout(HEAD_TIMEOUT)
                .serve_connection(TokioIo::new(stream), answers)
                .await;
        });
    }
}

/// Whether a request names this machine as its host: a page of another name that a resolver points
/// here would otherwise read what is served.
fn is_for_this_machine(request: &Request) -> bool {
    let named = request.headers().get(header::HOST);
    let host = named.and_then(|host| host.to_str().ok());
    let mut hosts = host
        .into_iter()
        .chain(request.uri().authority().map(|host| host.as_str()));
    named.is_some() && hosts.all(request::is_loopback)
}

async fn answer(State(served): State<Arc<Served>>, request: Request) -> Response {
    if !matches!(*request.method(), Method::GET | Method::HEAD) {
        return (
            StatusCode::METHOD_NOT_ALLOWED,
            [(header::ALLOW, "GET, HEAD")],
            "Only GET and HEAD are answered.\n",
        )
            .into_response();
    }
    if !is_for_this_machine(&request) {
        return (
            StatusCode::MISDIRECTED_REQUEST,
            "Only this machine is served, as localhost or 127.0.0.1.\n",
        )
            .into_response();
    }
    match request::target(request.uri().path(), &served.prefix) {
        Target::File(name) => file(&served.folder, &name, request.headers()),
        Target::Redirect(address) => (
            StatusCode::PERMANENT_REDIRECT,
            [(header::LOCATION, address)],
        )
            .into_response(),
        Target::Nothing => not_found(),
    }
}

/// A file of the folder, packed where a packed copy lies beside it and the browser takes it; nothing but
/// its mark where the browser has it already.
fn file(folder: &Path, name: &Path, headers: &HeaderMap) -> Response {
    let header_of = |name| headers.get(name).and_then(|value| value.to_str().ok());
    let listed = header_of(header::ACCEPT_ENCODING).unwrap_or("");
    let Some(plain) = found(&folder.join(name), folder) else {
        return not_found();
    };
    let packed = |(encoding, ending): (&'static str, &str)| {
        let mut packed_name = name.as_os_str().to_owned();
        packed_name.push(ending);
        let copy = request::takes(encoding, listed)
            .then(|| found(&folder.join(packed_name), folder))
            .flatten()?;
        // A copy that is older than its file was made of another.
        (copy.changed >= plain.changed).then_some((copy, encoding))
    };
    // The smallest first.
    let best = [("br", ".br"), ("gzip", ".gz")]
        .into_iter()
        .find_map(packed);
    let (sent, encoding) = best.unwrap_or((plain, "identity"));
    let mark = format!("\"{:x}\"", sent.changed.as_nanos());
    let mut response = if header_of(header::IF_NONE_MATCH) == Some(mark.as_str()) {
        StatusCode::NOT_MODIFIED.into_response()
    } else {
        let kind = [(header::CONTENT_TYPE, request::media_type(name))];
        match fs::read(&sent.path) {
            Ok(bytes) => (kind, bytes).into_response(),
            Err(_) => return not_found(),
        }
    };
    let set = response.headers_mut();
    for (name, value) in [
        (header::CACHE_CONTROL, "no-cache"),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::VARY, "accept-encoding"),
        (header::CONTENT_ENCODING, encoding),
    ] {
        if value != "identity" {
            set.insert(name, HeaderValue::from_static(value));
        }
    }
    if let Ok(mark) = HeaderValue::from_str(&mark) {
        set.insert(header::ETAG, mark);
    }
    response
}

/// A file, and since when it is as it is.
struct Found {
    path: PathBuf,
    /// Since 1970.
    changed: Duration,
}

/// A regular file that lies in the folder even after links are followed.
fn found(path: &Path, folder: &Path) -> Option<Found> {
    let path = path.canonicalize().ok()?;
    let data = fs::metadata(&path).ok()?;
    if !path.starts_with(folder.canonicalize().ok()?) || !data.is_file() {
        return None;
    }
    let changed = data.modified().ok()?;
    Some(Found {
        path,
        changed: changed.duration_since(UNIX_EPOCH).unwrap_or_default(),
    })
}

fn not_found() -> Response {
    (StatusCode::NOT_FOUND, "There is no such file.\n").into_response()
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::io::{Read, Write};
    use std::net::TcpStream;

    use super::*;

    struct Site {
        folder: PathBuf,
        server: Server,
    }

    impl Site {
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
            self.answer_with(line, "")
        }

        /// The same with a line of the head.
        fn answer_with(&self, line: &str, head: &str) -> String {
            let mut stream = TcpStream::connect(self.server.address).unwrap();
            write!(
                stream,
                "{line} HTTP/1.1\r\nHost: localhost\r\n{head}Connection: close\r\n\r\n"
            )
            .unwrap();
            let mut answer = String::new();
            stream.read_to_string(&mut answer).unwrap();
            answer.to_lowercase()
        }
    }

    impl Drop for Site {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.folder);
        }
    }

    #[test]
    fn a_packed_copy_goes_to_whoever_takes_it_and_what_is_known_is_not_sent_again() {
        let site = Site::new("packed", "/");
        fs::write(site.folder.join("a.wasm.gz"), b"packed").unwrap();
        let plain = site.answer("GET /a.wasm");
        assert!(!plain.contains("content-encoding") && plain.ends_with("\0asm"));
        let packed = site.answer_with("GET /a.wasm", "Accept-Encoding: br, gzip\r\n");
        assert!(packed.contains("content-encoding: gzip") && packed.ends_with("packed"));
        fs::write(site.folder.join("a.wasm.br"), b"smaller").unwrap();
        let smallest = site.answer_with("GET /a.wasm", "Accept-Encoding: gzip, br\r\n");
        assert!(smallest.contains("content-encoding: br") && smallest.ends_with("smaller"));
        assert!(packed.contains("content-type: application/wasm"));
        let mark = packed.split("etag: ").nth(1).expect("a mark");
        let mark = mark.lines().next().expect("a line");
        let again = site.answer_with(
            "GET /a.wasm",
            &format!("Accept-Encoding: gzip\r\nIf-None-Match: {mark}\r\n"),
        );
        assert!(again.starts_with("http/1.1 304") && !again.contains("packed"));
        let other = site.answer_with("GET /a.wasm", "If-None-Match: \"1\"\r\n");
        assert!(other.starts_with("http/1.1 200"));
        std::thread::sleep(Duration::from_millis(20));
        fs::write(site.folder.join("a.wasm"), b"\0new").unwrap();
        let newer = site.answer_with("GET /a.wasm", "Accept-Encoding: gzip\r\n");
        assert!(newer.ends_with("\0new"), "the copy is of the file before");
    }

    #[test]
    fn a_file_is_sent_with_its_type() {
        let site = Site::new("type", "/");
        let page = site.answer("GET /");
        assert!(page.starts_with("http/1.1 200"), "{page}");
        assert!(page.contains("content-type: text/html; charset=utf-8"));
        assert!(page.ends_with("<p>page"));
        let program = site.answer("GET /a.wasm");
        assert!(program.contains("content-type: application/wasm\r\n"));
    }

    #[test]
    fn head_sends_no_body_and_other_methods_are_refused() {
        let site = Site::new("methods", "/");
        let head = site.answer("HEAD /");
        assert!(
            head.starts_with("http/1.1 200") && head.ends_with("\r\n\r\n"),
            "{head}"
        );
        for method in ["POST", "PUT", "DELETE", "OPTIONS"] {
            let answer = site.answer(&format!("{method} /"));
            assert!(answer.starts_with("http/1.1 405"), "{answer}");
            assert!(answer.contains("allow: get, head"));
        }
    }

    /// Browsers open connections before they need them, and leave them open.
    #[test]
    fn idle_connections_keep_no_other_waiting() {
        let site = Site::new("idle", "/");
        for _ in 0..20 {
            let open: Vec<_> = (0..16)
                .map(|_| TcpStream::connect(site.server.address).unwrap())
                .collect();
            for mut stream in &open {
                stream
                    .set_read_timeout(Some(std::time::Duration::from_secs(5)))
                    .unwrap();
                write!(stream, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n").unwrap();
                let mut start = [0; 12];
                stream.read_exact(&mut start).unwrap();
                assert_eq!(&start, b"HTTP/1.1 200");
            }
        }
    }

    fn asked(site: &Site, head: &str) -> String {
        let mut stream = TcpStream::connect(site.server.address).unwrap();
        write!(stream, "{head}Connection: close\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }

    #[test]
    fn only_this_machines_names_are_answered() {
        let site = Site::new("hosts", "/");
        let port = site.server.address.port();
        for host in ["localhost", "LOCALHOST", "127.0.0.1", "[::1]"] {
            for host in [host.to_owned(), format!("{host}:{port}")] {
                let answer = asked(&site, &format!("GET / HTTP/1.1\r\nHost: {host}\r\n"));
                assert!(answer.starts_with("HTTP/1.1 200"), "{host}: {answer}");
            }
        }
        for host in [
            "example.org",
            "localhost.example.org",
            "127.0.0.1.example.org",
            "here",
            "",
        ] {
            let answer = asked(&site, &format!("GET / HTTP/1.1\r\nHost: {host}\r\n"));
            assert!(answer.starts_with("HTTP/1.1 421"), "{host}: {answer}");
            assert!(!answer.contains("<p>page"));
        }
        let none = asked(&site, "GET / HTTP/1.0\r\n");
        assert!(!none.contains("<p>page"), "{none}");
        let head = "GET http://example.org/ HTTP/1.1\r\nHost: localhost\r\n";
        assert!(asked(&site, head).contains(" 421"));
    }

    #[test]
    fn a_request_that_does_not_come_to_its_end_is_let_go() {
        let site = Site::new("slow", "/");
        let mut stream = TcpStream::connect(site.server.address).unwrap();
        write!(stream, "GET / HTTP/1.1\r\nHost: local").unwrap();
        stream
            .set_read_timeout(Some(HEAD_TIMEOUT + Duration::from_secs(5)))
            .unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).expect("closed in time");
        assert!(!String::from_utf8_lossy(&answer).contains(" 200"));
    }

    #[test]
    fn a_prefix_is_completed_and_nothing_lies_above_it() {
        let site = Site::new("prefix", "/a/b/");
        assert!(site.answer("GET /a/b/").ends_with("<p>page"));
        let redirect = site.answer("GET /a/b");
        assert!(redirect.starts_with("http/1.1 308") && redirect.contains("location: /a/b/"));
        assert!(site.answer("GET /").starts_with("http/1.1 404"));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_out_of_the_folder_is_not_followed() {
        let site = Site::new("link", "/");
        std::os::unix::fs::symlink("/etc/hostname", site.folder.join("link.txt")).unwrap();
        assert!(site.answer("GET /link.txt").starts_with("http/1.1 404"));
        assert!(
            site.answer("GET /../etc/hostname")
                .starts_with("http/1.1 404")
        );
    }

    #[test]
    fn a_taken_port_is_an_error_that_names_it() {
        let site = Site::new("taken", "/");
        let port = site.server.address.port();
        let error = Server::start(site.folder.clone(), "/", port)
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
        let site = Site::new("dropped", "/");
        let address = site.server.address;
        drop(site);
        // The listening thread ends a moment after it is told to.
        let freed = (0..500).any(|_| {
            std::thread::sleep(std::time::Duration::from_millis(10));
            TcpStream::connect(address).is_err()
        });
        assert!(freed, "{address} still answers");
    }
}
