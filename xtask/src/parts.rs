//! The page's module in parts: what the first screen needs, and the rest, which is loaded once that stands.
//!
//! The compiler links one module and leaves in it what it knew of who needs what. A well-kept library cuts it at the
//! functions the app marks (`app/src/rest/doors.rs`); wasm-bindgen then makes the first part ready for the page. Names begin
//! with a stem that stands for the linked module and the tools, so that no two builds share a name by chance.

use std::fs::File;
use std::io::Write;
use std::path::Path;
use std::time::Duration;

use flate2::Compression;
use flate2::write::GzEncoder;

use crate::folders::Folders;
use crate::{Outcome, digest, dist, run};

/// The app's feature that marks where to cut.
pub(crate) const FEATURE: &str = "parts";

/// How the name of the part with everything but the first screen ends.
pub(crate) const REST: &str = "-split_rest.wasm";

/// Letters of a file's name that stand for its bytes.
const NAME_LETTERS: usize = 16;

/// For making the first part ready.
const LIMIT: Duration = Duration::from_secs(10 * 60);

/// What a phone fetches before its first screen, gzipped: the first part and its script.
pub(crate) const FIRST_MAX_KB: usize = 400;

/// What a part weighs on its way to a phone.
pub(crate) struct Weight {
    pub(crate) first_kb: usize,
    pub(crate) rest_kb: usize,
}

impl std::fmt::Display for Weight {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{} kB before the first screen (at most {FIRST_MAX_KB}), {} kB behind it, gzipped",
            self.first_kb, self.rest_kb
        )
    }
}

/// Cuts what cargo has linked and lays the parts into dist/, under names that begin with `velamen-LANGUAGE-`.
pub(crate) fn lay(folders: &Folders, log: Option<&File>, language: &str) -> Outcome<Weight> {
    let built = folders
        .target
        .join("wasm32-unknown-unknown/wasm-release/velamen.wasm");
    let linked = read(&built)?;
    let stem = stem(language, &linked, &folders.wasm_bindgen_version);
    let work = folders.target.join("parts").join(language);
    let _ = std::fs::remove_dir_all(&work);
    std::fs::create_dir_all(&work)
        .map_err(|error| format!("{} cannot be made: {error}.", work.display()))?;
    let first = work.join(format!("{stem}.wasm"));
    let loader = format!("{stem}-parts.js");
    let later = cut(&linked, &work, &first, &loader, &format!("./{stem}.js"))?;
    let mut bind = folders.command("wasm-bindgen");
    bind.args(["--target", "web", "--no-typescript", "--keep-lld-exports"])
        .args(["--remove-name-section", "--remove-producers-section"])
        .args(["--out-name", &stem, "--out-dir"])
        .arg(folders.dist())
        .arg(&first);
    match log {
        None => run::shown(&mut bind)?,
        Some(log) if run::logged(&mut bind, log, LIMIT)? => {}
        Some(_) => return Err("wasm-bindgen could not make the page's first part.".into()),
    }
    let mut script = String::from_utf8(read(&work.join(&loader))?)
        .map_err(|_| format!("{loader} is not text."))?;
    let mut rest = 0;
    for name in later {
        let bytes = bare(&read(&work.join(&name))?)?;
        let named = format!("{stem}-{name}");
        if script.matches(&format!("\"./{name}\"")).count() != 1 {
            return Err(format!("{loader} loads {name} not once."));
        }
        script = script.replace(&format!("\"./{name}\""), &format!("\"./{named}\""));
        write(&folders.dist().join(named), &bytes)?;
        rest += packed(&bytes);
    }
    let script = in_pieces(
        &script,
        &dist::read(&folders.root.join("assets/pieces.js"))?,
    )?;
    write(&folders.dist().join(&loader), script.as_bytes())?;
    let mut first = packed(script.as_bytes());
    for ending in [".js", "_bg.wasm"] {
        first += packed(&read(&folders.dist().join(format!("{stem}{ending}")))?);
    }
    Ok(Weight {
        first_kb: first.div_ceil(1_000),
        rest_kb: rest.div_ceil(1_000),
    })
}

/// The loader with our own way from the answer to the module.
fn in_pieces(loader: &str, way: &str) -> Outcome<String> {
    const THEIRS: &str = "WebAssembly.instantiateStreaming(src, imports)";
    if loader.matches(THEIRS).count() != 1 {
        return Err(format!("The loader of the parts says {THEIRS} not once."));
    }
    Ok(format!(
        "{way}{}",
        loader.replace(THEIRS, "joined(src, imports)")
    ))
}

/// Bytes on the wire.
fn packed(bytes: &[u8]) -> usize {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    // Writing into memory does not fail; what did would weigh as it is.
    match encoder.write_all(bytes).and_then(|()| encoder.finish()) {
        Ok(packed) => packed.len(),
        Err(_) => bytes.len(),
    }
}

/// The names of the later parts, in `work`.
fn cut(
    linked: &[u8],
    work: &Path,
    first: &Path,
    loader: &str,
    script: &str,
) -> Outcome<Vec<String>> {
    let loader = format!("./{loader}");
    let mut options = wasm_split_cli_support::Options::new(linked);
    options.output_dir = work;
    options.main_out_path = first;
    options.link_name = &loader;
    options.main_module = script;
    let parts = wasm_split_cli_support::transform(options)
        .map_err(|error| format!("The page's module cannot be cut: {error:#}."))?;
    let mut names: Vec<String> = parts
        .split_modules
        .iter()
        .filter_map(|path| Some(path.file_name()?.to_str()?.to_owned()))
        .collect();
    names.sort_unstable();
    if names.is_empty() {
        return Err(
            "The page's module has no part to be loaded later: was it built with parts?".into(),
        );
    }
    Ok(names)
}

fn stem(language: &str, linked: &[u8], tool: &str) -> String {
    let sums = format!("{tool} {}", digest::hex(linked));
    let sum = digest::hex(sums.as_bytes());
    format!(
        "velamen-{language}-{}",
        sum.get(..NAME_LETTERS).unwrap_or(&sum)
    )
}

/// A module without its custom sections: names of functions are of no use to a phone.
fn bare(module: &[u8]) -> Outcome<Vec<u8>> {
    const HEAD: usize = 8;
    const CUSTOM: u8 = 0;
    let broken = || "A part of the page is not a module.".to_owned();
    let mut kept = module.get(..HEAD).ok_or_else(broken)?.to_vec();
    let mut at = HEAD;
    while let Some(kind) = module.get(at) {
        let (length, used) = number(module.get(at + 1..).unwrap_or_default()).ok_or_else(broken)?;
        let end = at + 1 + used + length;
        let section = module.get(at..end).ok_or_else(broken)?;
        if *kind != CUSTOM {
            kept.extend_from_slice(section);
        }
        at = end;
    }
    Ok(kept)
}

/// A number as modules write lengths (LEB128), and how many bytes it took.
fn number(bytes: &[u8]) -> Option<(usize, usize)> {
    let mut value = 0;
    for (place, byte) in bytes.iter().take(5).enumerate() {
        value |= usize::from(byte & 0x7f) << (7 * place);
        if byte & 0x80 == 0 {
            return Some((value, place + 1));
        }
    }
    None
}

fn read(path: &Path) -> Outcome<Vec<u8>> {
    std::fs::read(path).map_err(|error| format!("{} cannot be read: {error}.", path.display()))
}

fn write(path: &Path, bytes: &[u8]) -> Outcome {
    std::fs::write(path, bytes)
        .map_err(|error| format!("{} cannot be written: {error}.", path.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_loader_takes_our_way_to_the_module() {
        let theirs = "return async (imports) => (WebAssembly.instantiateStreaming(src, imports));";
        let ours = in_pieces(theirs, "function joined() {}\n").unwrap();
        assert_eq!(
            ours,
            "function joined() {}\nreturn async (imports) => (joined(src, imports));"
        );
        assert!(in_pieces("return 0;", "").is_err());
    }

    #[test]
    fn a_module_loses_its_names_and_nothing_else() {
        let head = b"\0asm\x01\0\0\0";
        let names = [0, 5, 4, b'n', b'a', b'm', b'e'];
        let types = [1, 4, 1, 0x60, 0, 0];
        let module = [head.as_slice(), &names, &types, &names].concat();
        assert_eq!(bare(&module).unwrap(), [head.as_slice(), &types].concat());
        assert!(bare(b"\0asm").is_err());
        assert!(bare(&[head.as_slice(), &[1, 9, 0]].concat()).is_err());
    }

    #[test]
    fn lengths_are_read_as_modules_write_them() {
        // The example of the specification's definition of LEB128: 624485 is e5 8e 26.
        assert_eq!(number(&[0xe5, 0x8e, 0x26, 0]), Some((624_485, 3)));
        assert_eq!(number(&[0x80]), None);
    }

    #[test]
    fn another_module_or_another_tool_is_another_name() {
        let name = stem("en", b"abc", "0.2");
        assert!(
            name.starts_with("velamen-en-") && name.len() == 27,
            "{name}"
        );
        assert_ne!(name, stem("en", b"abd", "0.2"));
        assert_ne!(name, stem("en", b"abc", "0.3"));
    }
}
