//! The last step of a release build: what depends on the bytes trunk has written.
//!
//! Index.html gets a content-security policy that names the hash of every script written inside
//! it, so that nothing else can run. The same policy goes into `_headers`, the file static hosts
//! read, with `frame-ancestors`, which a meta element cannot carry. Index.html has no integrity
//! value of its own, so changing it here breaks none. It is also told the name of the service
//! worker, which a plain `trunk serve` does not have, gets the start that knows every language
//! in place of trunk's, and the worker's list is made last of all.

use std::path::Path;

use crate::{Outcome, digest, languages, precache};

const CHARSET: &str = "<meta charset=\"utf-8\">";
const POLICY_META: &str = "<meta http-equiv=\"Content-Security-Policy\"";

/// The file static hosts read.
pub(crate) const HEADERS: &str = "_headers";

/// Finishes a folder trunk has just written. Errors: a file is missing, or was finished before.
pub(crate) fn finish(dist: &Path) -> Outcome {
    let index = dist.join("index.html");
    let page = languages::with_start(&read(&index)?, dist)?;
    let policy = policy(&inline_scripts(&page)?);
    write(&index, &with_policy(&page, &policy)?)?;
    precache::write(dist)?;
    write(&dist.join(HEADERS), &headers(&policy))
}

pub(crate) fn read(path: &Path) -> Outcome<String> {
    std::fs::read_to_string(path)
        .map_err(|error| format!("{} cannot be read: {error}.", path.display()))
}

pub(crate) fn write(path: &Path, text: &str) -> Outcome {
    std::fs::write(path, text)
        .map_err(|error| format!("{} cannot be written: {error}.", path.display()))
}

/// The policy a finished page carries.
pub(crate) fn policy_of(page: &str) -> Option<&str> {
    let (_, rest) = page.split_once(POLICY_META)?;
    let (_, policy) = rest.split_once("content=\"")?;
    Some(policy.split_once('"')?.0)
}

/// With what only a header can say.
pub(crate) fn whole_policy(policy: &str) -> String {
    format!("{policy}; frame-ancestors 'none'")
}

/// The policy for a page with these scripts inside it. `'wasm-unsafe-eval'` lets the module
/// compile and nothing more; Trusted Types are left out because Leptos fills templates by markup.
fn policy(scripts: &[&str]) -> String {
    let hashes: String = scripts
        .iter()
        // A browser hashes the text after its parser has turned every line end into one newline.
        .map(|script| {
            format!(
                " '{}'",
                digest::policy_hash(script.replace("\r\n", "\n").as_bytes())
            )
        })
        .collect();
    format!(
        "default-src 'none'; script-src 'self'{hashes} 'wasm-unsafe-eval'; style-src 'self'; connect-src 'self'; \
         img-src 'self' blob: data:; media-src 'self' blob:; worker-src 'self'; manifest-src 'self'; \
         font-src 'self'; base-uri 'none'; form-action 'none'"
    )
}

/// The policy is placed straight after the charset, before anything it has to govern.
fn with_policy(page: &str, policy: &str) -> Outcome<String> {
    if page.contains(POLICY_META) {
        return Err("index.html already carries a content-security policy.".into());
    }
    let (before, after) = page
        .split_once(CHARSET)
        .ok_or_else(|| format!("index.html lacks {CHARSET}."))?;
    if before.contains("<script") || before.contains("<link") {
        return Err(
            "index.html loads something before its charset, out of reach of the policy.".into(),
        );
    }
    Ok(format!(
        "{before}{CHARSET}\n{POLICY_META} content=\"{policy}\">\n\
         <meta name=\"service-worker\" content=\"./{}\">{after}",
        precache::WORKER
    ))
}

fn headers(policy: &str) -> String {
    format!(
        "/*\n  Content-Security-Policy: {}\n  X-Content-Type-Options: nosniff\n  \
         Referrer-Policy: no-referrer\n  Cache-Control: no-cache\n",
        whole_policy(policy)
    )
}

/// The text of every script without a `src`, in order. Errors: a script element that never ends.
fn inline_scripts(page: &str) -> Outcome<Vec<&str>> {
    let mut scripts = Vec::new();
    let mut rest = page;
    while let Some((_, from_tag)) = rest.split_once("<script") {
        let (attributes, body) = from_tag
            .split_once('>')
            .ok_or("index.html ends inside a script tag.")?;
        let (script, after) = body
            .split_once("</script>")
            .ok_or("index.html has a script without an end.")?;
        if !attributes
            .split_whitespace()
            .any(|attribute| attribute.starts_with("src="))
        {
            scripts.push(script);
        }
        rest = after;
    }
    Ok(scripts)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "<!doctype html><html><head><meta charset=\"utf-8\">\
        <script type=\"module\">start()</script><script src=\"./a.js\"></script></head></html>";

    #[test]
    fn only_scripts_written_inside_the_page_are_hashed() {
        assert_eq!(inline_scripts(PAGE).unwrap(), ["start()"]);
        assert!(inline_scripts("<script>never").is_err());
        assert!(inline_scripts("<p>no script</p>").unwrap().is_empty());
    }

    #[test]
    fn the_policy_names_the_hash_of_the_script() {
        // printf 'start()' | openssl dgst -sha256 -binary | base64
        let expected = "script-src 'self' 'sha256-DIm7WJS6ZKDYe5qFLPy+h4JFI9Bol5QmYC57mt3Fb00=' 'wasm-unsafe-eval'";
        let policy = policy(&["start()"]);
        assert!(policy.contains(expected), "{policy}");
        assert!(
            !policy.contains("unsafe-inline") && !policy.contains("frame-ancestors"),
            "{policy}"
        );
    }

    #[test]
    fn line_ends_are_hashed_as_the_parser_leaves_them() {
        assert_eq!(policy(&["a\r\nb"]), policy(&["a\nb"]));
        assert_ne!(policy(&["a b"]), policy(&["a\nb"]));
    }

    #[test]
    fn the_policy_stands_before_everything_it_governs() {
        let page = with_policy(PAGE, "default-src 'none'").unwrap();
        let at = page.find(POLICY_META).unwrap();
        assert!(at < page.find("<script").unwrap());
        assert!(
            with_policy(&page, "x").is_err(),
            "a second policy would be added"
        );
        assert!(with_policy("<head></head>", "x").is_err());
        assert!(with_policy(&format!("<script></script>{CHARSET}"), "x").is_err());
    }

    #[test]
    fn finishing_writes_the_page_and_the_headers() {
        let dist = std::env::temp_dir().join(format!("velamen-dist-{}", std::process::id()));
        std::fs::create_dir_all(&dist).unwrap();
        let built = PAGE.replace(
            "<script type=\"module\">start()</script>",
            languages::TRUNKS,
        );
        std::fs::write(dist.join("index.html"), built).unwrap();
        for file in [
            "velamen-1a.js",
            "velamen-1a_bg.wasm",
            "velamen-en-2b.js",
            "velamen-en-2b-parts.js",
            "velamen-en-2b_bg.wasm",
            "velamen-en-2b-split_rest.wasm",
        ] {
            std::fs::write(dist.join(file), "abc").unwrap();
        }
        finish(&dist).unwrap();
        let page = std::fs::read_to_string(dist.join("index.html")).unwrap();
        let headers = std::fs::read_to_string(dist.join("_headers")).unwrap();
        assert!(page.contains("default-src 'none'") && page.contains("en: { script: "));
        assert!(headers.starts_with("/*\n  Content-Security-Policy: default-src 'none'"));
        assert!(headers.contains("frame-ancestors 'none'"));
        let scripts = inline_scripts(&page).unwrap();
        assert_eq!(policy_of(&page), Some(policy(&scripts).as_str()));
        assert!(page.contains("<meta name=\"service-worker\" content=\"./service-worker.js\">"));
        let worker = std::fs::read_to_string(dist.join(precache::WORKER)).unwrap();
        assert!(
            worker.contains(&digest::hex(page.as_bytes())),
            "the page is listed as it was left"
        );
        assert!(finish(&dist).is_err());
        std::fs::remove_dir_all(dist).unwrap();
    }
}
