//! A static server for dist/, on this machine only.
//!
//! It does what any plain host does and no more: right types, no long caching, no fallback page,
//! packed for whoever unpacks. It sends no security headers, so what protects the app here is
//! what the page itself carries. A part of a file is answered with the whole of it, as is allowed.

use std::collections::HashMap;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, SystemTime};

use flate2::Compression;
use flate2::write::GzEncoder;

use crate::Outcome;

/// Longest head of a request that is read.
const HEAD_BYTES_MAX: u64 = 16 * 1024;

/// A smaller file fits into the first packets as it is.
const PACKED_FROM_BYTES: usize = 1024;

/// A bound port and the folder behind it.
#[derive(Debug)]
pub(crate) struct Server {
    listener: TcpListener,
    port: u16,
    site: Arc<Site>,
}

/// What is served: the folder, and the first part of the address, `/` or `/name/`.
#[derive(Debug)]
struct Site {
    dist: PathBuf,
    base: String,
    packed: Mutex<HashMap<PathBuf, Packed>>,
}

/// A file as it goes over the wire, and the file it was made from.
#[derive(Debug, Clone)]
struct Packed {
    from: (usize, SystemTime),
    bytes: Arc<Vec<u8>>,
}

/// What a browser asks for.
#[derive(Debug, Default, PartialEq, Eq)]
struct Request {
    method: String,
    target: String,
    unpacks: bool,
}

#[derive(Debug, PartialEq, Eq)]
struct Reply {
    status: &'static str,
    kind: &'static str,
    location: Option<String>,
    packed: bool,
    body: Arc<Vec<u8>>,
}

impl Server {
    /// Errors: the port is taken or may not be used; the sentence says what to do.
    pub(crate) fn bind(port: u16, dist: PathBuf, under: Option<&str>) -> Outcome<Self> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(|error| {
            if error.kind() == std::io::ErrorKind::AddrInUse {
                format!(
                    "Port {port} is taken by another program: stop that one, or choose another with --port N \
                     (--port 0 takes any free one)."
                )
            } else {
                format!("Port {port} cannot be used: {error}.")
            }
        })?;
        let port = listener
            .local_addr()
            .map_err(|error| format!("The port is unknown: {error}."))?
            .port();
        let base = under.map_or_else(|| "/".to_owned(), |name| format!("/{name}/"));
        Ok(Self {
            listener,
            port,
            site: Arc::new(Site::new(dist, base)),
        })
    }

    pub(crate) fn url(&self) -> String {
        format!("http://127.0.0.1:{}{}", self.port, self.site.base)
    }

    /// Serves until the process ends, one thread a connection.
    pub(crate) fn run(self) {
        for stream in self.listener.incoming().flatten() {
            let site = Arc::clone(&self.site);
            // A lost connection is the browser's own business.
            std::thread::spawn(move || site.converse(&stream).unwrap_or_default());
        }
    }
}

impl Site {
    fn new(dist: PathBuf, base: String) -> Self {
        Self {
            dist,
            base,
            packed: Mutex::default(),
        }
    }

    fn converse(&self, mut stream: &TcpStream) -> std::io::Result<()> {
        stream.set_read_timeout(Some(Duration::from_secs(60)))?;
        let mut lines = BufReader::new(stream.take(HEAD_BYTES_MAX)).lines();
        let Some(first) = lines.next().transpose()? else {
            return Ok(());
        };
        let mut request = asked(&first);
        while let Some(line) = lines.next().transpose()?.filter(|line| !line.is_empty()) {
            request.unpacks |= unpacks(&line);
        }
        let reply = self.reply(&request);
        let location = reply
            .location
            .map(|to| format!("Location: {to}\r\n"))
            .unwrap_or_default();
        let packed = if reply.packed {
            "Content-Encoding: gzip\r\n"
        } else {
            ""
        };
        let head = format!(
            "HTTP/1.1 {}\r\nContent-Type: {}\r\nContent-Length: {}\r\n{packed}{location}Vary: Accept-Encoding\r\n\
             Cache-Control: no-cache\r\nConnection: close\r\n\r\n",
            reply.status,
            reply.kind,
            reply.body.len(),
        );
        stream.write_all(head.as_bytes())?;
        if request.method != "HEAD" {
            stream.write_all(&reply.body)?;
        }
        stream.flush()
    }

    fn reply(&self, request: &Request) -> Reply {
        if !matches!(request.method.as_str(), "GET" | "HEAD") {
            return plain("405 Method Not Allowed", "Only reading is possible here.");
        }
        let path = request.target.split(['?', '#']).next().unwrap_or_default();
        if format!("{path}/") == self.base {
            let location = Some(self.base.clone());
            return Reply {
                location,
                ..plain("308 Permanent Redirect", "The address ends in a slash.")
            };
        }
        let Some(file) = path
            .strip_prefix(&self.base)
            .and_then(|inner| self.file(inner))
        else {
            return plain("404 Not Found", "There is no such file.");
        };
        let Ok(body) = std::fs::read(&file) else {
            return plain("404 Not Found", "There is no such file.");
        };
        let kind = kind(&file);
        let small = (request.unpacks && body.len() >= PACKED_FROM_BYTES && packs_well(kind))
            .then(|| self.packed(&file, &body))
            .flatten();
        Reply {
            status: "200 OK",
            kind,
            location: None,
            packed: small.is_some(),
            body: small.unwrap_or_else(|| Arc::new(body)),
        }
    }

    /// The file packed: once, and again when it has changed. Nothing where that cannot be known or done.
    fn packed(&self, file: &Path, body: &[u8]) -> Option<Arc<Vec<u8>>> {
        let from = (body.len(), std::fs::metadata(file).ok()?.modified().ok()?);
        // Whoever comes meanwhile for the same file waits for it instead of packing it too.
        let mut all = self.packed.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(packed) = all.get(file).filter(|packed| packed.from == from) {
            return Some(Arc::clone(&packed.bytes));
        }
        let mut encoder = GzEncoder::new(Vec::new(), Compression::default());
        encoder.write_all(body).ok()?;
        let bytes = Arc::new(encoder.finish().ok()?);
        let packed = Packed {
            from,
            bytes: Arc::clone(&bytes),
        };
        all.insert(file.to_owned(), packed);
        Some(bytes)
    }

    /// The file of an address inside the site; nothing for one that would lead out of the folder.
    fn file(&self, inner: &str) -> Option<PathBuf> {
        let inner = decoded(inner)?;
        let mut file = self.dist.clone();
        for part in inner.split('/').filter(|part| !part.is_empty()) {
            if part == ".." || part == "." || part.contains(['\\', '\0', ':']) {
                return None;
            }
            file.push(part);
        }
        Some(if file.is_dir() {
            file.join("index.html")
        } else {
            file
        })
    }
}

fn asked(first: &str) -> Request {
    let mut words = first.split(' ').map(str::to_owned);
    Request {
        method: words.next().unwrap_or_default(),
        target: words.next().unwrap_or_default(),
        unpacks: false,
    }
}

/// Whether a line of the head says that gzip is understood.
fn unpacks(line: &str) -> bool {
    let Some((name, value)) = line.split_once(':') else {
        return false;
    };
    name.eq_ignore_ascii_case("accept-encoding")
        && value.split(',').any(|way| {
            let mut parts = way.split(';').map(str::trim);
            let gzip = parts
                .next()
                .is_some_and(|name| name.eq_ignore_ascii_case("gzip"));
            let never = |weight: &str| {
                weight
                    .strip_prefix("q=")
                    .is_some_and(|weight| weight.chars().all(|digit| matches!(digit, '0' | '.')))
            };
            gzip && !parts.any(never)
        })
}

/// Pictures and letters are packed already.
fn packs_well(kind: &str) -> bool {
    !(kind.starts_with("image/") || kind.starts_with("font/")) || kind == "image/svg+xml"
}

fn plain(status: &'static str, sentence: &str) -> Reply {
    Reply {
        status,
        kind: "text/plain; charset=utf-8",
        location: None,
        packed: false,
        body: Arc::new(sentence.into()),
    }
}

/// Undoes %xx. Nothing for a broken escape or text that is not UTF-8.
fn decoded(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let digits = [rest.next()?, rest.next()?];
            bytes.push(u8::from_str_radix(std::str::from_utf8(&digits).ok()?, 16).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

/// The media type by the file's ending. A module that is not `application/wasm` is not compiled
/// while it loads, and a script of the wrong type is refused.
pub(crate) fn kind(file: &Path) -> &'static str {
    match file
        .extension()
        .and_then(|ending| ending.to_str())
        .unwrap_or_default()
    {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "csv" => "text/csv; charset=utf-8",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Folder(PathBuf);

    impl Folder {
        fn new(name: &str) -> Self {
            let path = std::env::temp_dir().join(format!("velamen-{name}-{}", std::process::id()));
            std::fs::create_dir_all(path.join("dist/icons")).unwrap();
            std::fs::write(path.join("dist/index.html"), "<p>book</p>").unwrap();
            std::fs::write(path.join("dist/a b.wasm"), [0, 97]).unwrap();
            std::fs::write(path.join("secret.txt"), "no").unwrap();
            Self(path)
        }

        fn site(&self, base: &str) -> Site {
            Site::new(self.0.join("dist"), base.into())
        }
    }

    fn get(target: &str) -> Request {
        asked(&format!("GET {target} HTTP/1.1"))
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            std::fs::remove_dir_all(&self.0).unwrap();
        }
    }

    #[test]
    fn files_come_with_their_type_and_folders_with_their_index() {
        let folder = Folder::new("types");
        let site = folder.site("/");
        let page = site.reply(&get("/?from=label#/lot/K3-42"));
        assert_eq!(
            (page.status, page.kind),
            ("200 OK", "text/html; charset=utf-8")
        );
        assert_eq!(page.body.as_slice(), b"<p>book</p>");
        assert_eq!(site.reply(&get("/a%20b.wasm")).kind, "application/wasm");
        assert_eq!(
            kind(Path::new("a.webmanifest")),
            "application/manifest+json"
        );
        assert_eq!(site.reply(&get("/icons/")).status, "404 Not Found");
        assert_eq!(site.reply(&get("/lot/K3-42")).status, "404 Not Found");
        assert_eq!(
            site.reply(&asked("POST / HTTP/1.1")).status,
            "405 Method Not Allowed"
        );
    }

    #[test]
    fn no_address_leads_out_of_the_folder() {
        let folder = Folder::new("out");
        let site = folder.site("/");
        for target in [
            "/../secret.txt",
            "/%2e%2e/secret.txt",
            "/icons/../../secret.txt",
            "/..%2fsecret.txt",
            "/%zz",
        ] {
            assert_eq!(site.reply(&get(target)).status, "404 Not Found", "{target}");
        }
    }

    #[test]
    fn what_is_large_comes_packed_to_whoever_unpacks() {
        let folder = Folder::new("packed");
        let site = folder.site("/");
        let module = folder.0.join("dist/a b.wasm");
        let first = vec![7; 5000];
        std::fs::write(&module, &first).unwrap();
        std::fs::write(folder.0.join("dist/icons/a.png"), &first).unwrap();
        let ask = |target: &str| Request {
            unpacks: true,
            ..get(target)
        };
        let whole = |reply: &Reply| {
            let mut bytes = Vec::new();
            flate2::read::GzDecoder::new(reply.body.as_slice())
                .read_to_end(&mut bytes)
                .unwrap();
            bytes
        };
        let packed = site.reply(&ask("/a%20b.wasm"));
        assert!(packed.packed && packed.body.len() < 500, "{packed:?}");
        assert_eq!(
            (packed.kind, whole(&packed)),
            ("application/wasm", first.clone())
        );
        let again = site.reply(&ask("/a%20b.wasm"));
        assert!(Arc::ptr_eq(&packed.body, &again.body), "packed once");
        for asked in [get("/a%20b.wasm"), ask("/icons/a.png")] {
            let plain = site.reply(&asked);
            assert!(!plain.packed && *plain.body == first, "{asked:?}");
        }
        assert!(!site.reply(&ask("/")).packed, "too small to gain");
        // A build that was made while it is served.
        std::fs::write(&module, vec![8; 6000]).unwrap();
        assert_eq!(whole(&site.reply(&ask("/a%20b.wasm"))), vec![8; 6000]);
    }

    #[test]
    fn who_unpacks_says_so() {
        for line in [
            "Accept-Encoding: gzip, deflate, br",
            "accept-encoding: br;q=1.0, gzip;q=0.8",
        ] {
            assert!(unpacks(line), "{line}");
        }
        for line in [
            "Accept-Encoding: br",
            "Accept-Encoding: gzip;q=0.0, br",
            "Accept: gzip",
            "gzip",
        ] {
            assert!(!unpacks(line), "{line}");
        }
    }

    #[test]
    fn under_a_name_only_that_name_is_served() {
        let folder = Folder::new("under");
        let site = folder.site("/book/");
        assert_eq!(site.reply(&get("/book/")).status, "200 OK");
        assert_eq!(site.reply(&get("/")).status, "404 Not Found");
        let redirect = site.reply(&get("/book"));
        assert_eq!(
            (redirect.status, redirect.location.as_deref()),
            ("308 Permanent Redirect", Some("/book/"))
        );
    }

    #[test]
    fn a_taken_port_is_said_in_a_sentence() {
        let folder = Folder::new("port");
        let first = Server::bind(0, folder.0.clone(), None).unwrap();
        let sentence = Server::bind(first.port, folder.0.clone(), None).unwrap_err();
        assert!(
            sentence.starts_with(&format!("Port {} is taken", first.port)),
            "{sentence}"
        );
    }

    #[test]
    fn a_whole_conversation_works_over_the_wire() {
        let folder = Folder::new("wire");
        let server = Server::bind(0, folder.0.join("dist"), Some("book")).unwrap();
        let port = server.port;
        assert_eq!(server.url(), format!("http://127.0.0.1:{port}/book/"));
        std::thread::spawn(move || server.run());
        let ask = |request: &str| {
            let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
            stream.write_all(request.as_bytes()).unwrap();
            let mut answer = String::new();
            stream.read_to_string(&mut answer).unwrap();
            answer
        };
        let answer = ask("GET /book/ HTTP/1.1\r\nHost: x\r\n\r\n");
        assert!(
            answer.starts_with("HTTP/1.1 200 OK\r\nContent-Type: text/html"),
            "{answer}"
        );
        assert!(answer.ends_with("\r\n\r\n<p>book</p>"), "{answer}");
        std::fs::write(folder.0.join("dist/long.css"), "a{}".repeat(1000)).unwrap();
        let long = "/book/long.css HTTP/1.1\r\nHost: x\r\nRange: bytes=0-9\r\n";
        let plain = ask(&format!("GET {long}\r\n"));
        assert!(
            plain.starts_with("HTTP/1.1 200 OK") && plain.contains("Vary: Accept-Encoding\r\n"),
            "{plain}"
        );
        assert!(plain.contains("Content-Length: 3000\r\n") && !plain.contains("Content-Encoding"));
        let packed = ask(&format!("HEAD {long}Accept-Encoding: gzip\r\n\r\n"));
        assert!(packed.contains("Content-Encoding: gzip\r\n"), "{packed}");
        assert!(!packed.contains("Content-Length: 3000\r\n"), "{packed}");
        let head = ask("HEAD /book/ HTTP/1.1\r\nHost: x\r\n\r\n");
        assert!(
            head.contains("Content-Length: 11\r\n") && head.ends_with("\r\n\r\n"),
            "{head}"
        );
    }
}
