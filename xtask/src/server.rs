//! A static server for dist/, on this machine only.
//!
//! It does what any plain host does and no more: right types, no long caching, no fallback page.
//! It sends no security headers, so what protects the app here is what the page itself carries.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use crate::Outcome;

/// Longest head of a request that is read.
const HEAD_BYTES_MAX: u64 = 16 * 1024;

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
}

#[derive(Debug, PartialEq, Eq)]
struct Reply {
    status: &'static str,
    kind: &'static str,
    location: Option<String>,
    body: Vec<u8>,
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
            site: Arc::new(Site { dist, base }),
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
    fn converse(&self, mut stream: &TcpStream) -> std::io::Result<()> {
        stream.set_read_timeout(Some(Duration::from_secs(60)))?;
        let mut lines = BufReader::new(stream.take(HEAD_BYTES_MAX)).lines();
        let Some(request) = lines.next().transpose()? else {
            return Ok(());
        };
        while lines
            .next()
            .transpose()?
            .is_some_and(|line| !line.is_empty())
        {}
        let mut words = request.split(' ');
        let (method, target) = (
            words.next().unwrap_or_default(),
            words.next().unwrap_or_default(),
        );
        let reply = self.reply(method, target);
        let location = reply
            .location
            .map(|to| format!("Location: {to}\r\n"))
            .unwrap_or_default();
        let head = format!(
            "HTTP/1.1 {}\r\nContent-Type: {}\r\nContent-Length: {}\r\n{location}Cache-Control: no-cache\r\n\
             Connection: close\r\n\r\n",
            reply.status,
            reply.kind,
            reply.body.len(),
        );
        stream.write_all(head.as_bytes())?;
        if method != "HEAD" {
            stream.write_all(&reply.body)?;
        }
        stream.flush()
    }

    fn reply(&self, method: &str, target: &str) -> Reply {
        if !matches!(method, "GET" | "HEAD") {
            return plain("405 Method Not Allowed", "Only reading is possible here.");
        }
        let path = target.split(['?', '#']).next().unwrap_or_default();
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
        match std::fs::read(&file) {
            Ok(body) => Reply {
                status: "200 OK",
                kind: kind(&file),
                location: None,
                body,
            },
            Err(_) => plain("404 Not Found", "There is no such file."),
        }
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

fn plain(status: &'static str, sentence: &str) -> Reply {
    Reply {
        status,
        kind: "text/plain; charset=utf-8",
        location: None,
        body: sentence.into(),
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
            Site {
                dist: self.0.join("dist"),
                base: base.into(),
            }
        }
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
        let page = site.reply("GET", "/?from=label#/lot/K3-42");
        assert_eq!(
            (page.status, page.kind),
            ("200 OK", "text/html; charset=utf-8")
        );
        assert_eq!(page.body, b"<p>book</p>");
        assert_eq!(site.reply("GET", "/a%20b.wasm").kind, "application/wasm");
        assert_eq!(
            kind(Path::new("a.webmanifest")),
            "application/manifest+json"
        );
        assert_eq!(site.reply("GET", "/icons/").status, "404 Not Found");
        assert_eq!(site.reply("GET", "/lot/K3-42").status, "404 Not Found");
        assert_eq!(site.reply("POST", "/").status, "405 Method Not Allowed");
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
            assert_eq!(
                site.reply("GET", target).status,
                "404 Not Found",
                "{target}"
            );
        }
    }

    #[test]
    fn under_a_name_only_that_name_is_served() {
        let folder = Folder::new("under");
        let site = folder.site("/book/");
        assert_eq!(site.reply("GET", "/book/").status, "200 OK");
        assert_eq!(site.reply("GET", "/").status, "404 Not Found");
        let redirect = site.reply("GET", "/book");
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
        let head = ask("HEAD /book/ HTTP/1.1\r\nHost: x\r\n\r\n");
        assert!(
            head.contains("Content-Length: 11\r\n") && head.ends_with("\r\n\r\n"),
            "{head}"
        );
    }
}
