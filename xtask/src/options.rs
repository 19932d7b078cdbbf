//! The words typed after `cargo xtask`, read into a command.

use std::path::PathBuf;

use crate::Outcome;
use crate::layers::Layer;

pub(crate) const USAGE: &str = "\
cargo xtask serve [--port N] [--under NAME] [--as-built] [--dist DIR]
    installs what is missing, builds the app and serves it at http://127.0.0.1:8080/
    --port 0 takes any free port; --under NAME serves it at /NAME/; --as-built skips the build
cargo xtask build [--english]
    installs what is missing and builds the app into dist/; --english leaves the other languages out, for a quick look
cargo xtask relist DIR
    lists the files of a built folder anew, after one of them was changed by hand
cargo xtask bench [--sizes 1000,10000,50000] [--as-built] [--hand]
    builds the app, and measures it in Chromium beside raw storage, with so many lots
    --hand measures taps, scrolling and rooms instead, on a processor six times slower
cargo xtask test [--only fmt,clippy,native,storage,build,e2e]
    installs what is missing and runs every check; the last line is the count";

/// One command with its options.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Command {
    Build(Pages),
    Serve(Serving),
    Relist(PathBuf),
    Bench(Measuring),
    Test(Vec<Layer>),
    Help,
}

/// The languages a page is built in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pages {
    All,
    English,
}

/// How to serve: `port` 0 is any free port, `under` the first folder of the address.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Serving {
    pub(crate) port: u16,
    pub(crate) under: Option<String>,
    pub(crate) as_built: bool,
    pub(crate) dist: Option<PathBuf>,
}

/// What to measure: books of so many lots, by a new build or by the one that is there.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Measuring {
    pub(crate) sizes: Vec<u32>,
    pub(crate) as_built: bool,
    /// Taps, scrolling and rooms instead of storage and files.
    pub(crate) hand: bool,
}

/// Errors: a sentence naming the word that was not understood, and the usage.
pub(crate) fn read(words: &[String]) -> Outcome<Command> {
    let mut rest = words.iter().map(String::as_str);
    let command = rest.next().unwrap_or("help");
    match command {
        "build" => match (rest.next(), rest.next()) {
            (None, _) => Ok(Command::Build(Pages::All)),
            (Some("--english"), None) => Ok(Command::Build(Pages::English)),
            (Some("--english"), Some(word)) | (Some(word), _) => Err(unknown("option", word)),
        },
        "relist" => match (rest.next(), rest.next()) {
            (Some(folder), None) => Ok(Command::Relist(folder.into())),
            (_, Some(word)) => Err(unknown("option", word)),
            (None, None) => Err("relist needs a folder, as in relist dist.".into()),
        },
        "serve" => serving(rest).map(Command::Serve),
        "bench" => measuring(rest).map(Command::Bench),
        "test" => layers(rest).map(Command::Test),
        "help" | "--help" | "-h" => Ok(Command::Help),
        other => Err(unknown("command", other)),
    }
}

fn unknown(what: &str, word: &str) -> String {
    format!("Unknown {what} \"{word}\". There is:\n{USAGE}")
}

fn serving<'a>(mut rest: impl Iterator<Item = &'a str>) -> Outcome<Serving> {
    let mut serving = Serving {
        port: 8080,
        under: None,
        as_built: false,
        dist: None,
    };
    while let Some(word) = rest.next() {
        match word {
            "--as-built" => serving.as_built = true,
            "--port" => {
                let given = rest.next().unwrap_or_default();
                serving.port = given
                    .parse()
                    .map_err(|_| format!("\"{given}\" is not a port number (0 to 65535)."))?;
            }
            "--under" => {
                let given = rest.next().unwrap_or_default().trim_matches('/');
                if given.is_empty() {
                    return Err("--under needs the name of a folder, as in --under book.".into());
                }
                serving.under = Some(given.to_owned());
            }
            "--dist" => {
                let given = rest.next().ok_or("--dist needs a folder.")?;
                serving.dist = Some(given.into());
            }
            other => return Err(unknown("option", other)),
        }
    }
    Ok(serving)
}

fn measuring<'a>(mut rest: impl Iterator<Item = &'a str>) -> Outcome<Measuring> {
    let mut measuring = Measuring {
        sizes: vec![1_000, 10_000, 50_000],
        as_built: false,
        hand: false,
    };
    while let Some(word) = rest.next() {
        match word {
            "--as-built" => measuring.as_built = true,
            "--hand" => measuring.hand = true,
            "--sizes" => {
                let given = rest.next().unwrap_or_default();
                let sizes: Result<Vec<u32>, _> = given.split(',').map(str::parse).collect();
                measuring.sizes = sizes
                    .map_err(|_| format!("\"{given}\" is not a list of numbers, as 1000,10000."))?;
            }
            other => return Err(unknown("option", other)),
        }
    }
    Ok(measuring)
}

fn layers<'a>(mut rest: impl Iterator<Item = &'a str>) -> Outcome<Vec<Layer>> {
    let mut wanted = Layer::ALL.to_vec();
    while let Some(word) = rest.next() {
        if word != "--only" {
            return Err(unknown("option", word));
        }
        let names: Vec<&str> = rest
            .next()
            .unwrap_or_default()
            .split(',')
            .map(str::trim)
            .collect();
        if let Some(stranger) = names
            .iter()
            .find(|name| Layer::ALL.iter().all(|layer| layer.name() != **name))
        {
            return Err(unknown("layer", stranger));
        }
        wanted.retain(|layer| names.contains(&layer.name()));
    }
    Ok(wanted)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(line: &str) -> Outcome<Command> {
        let words: Vec<String> = line.split_whitespace().map(str::to_owned).collect();
        read(&words)
    }

    #[test]
    fn serve_takes_8080_unless_told() {
        let plain = Serving {
            port: 8080,
            under: None,
            as_built: false,
            dist: None,
        };
        assert_eq!(typed("serve"), Ok(Command::Serve(plain)));
        let told = Serving {
            port: 0,
            under: Some("book".into()),
            as_built: true,
            dist: None,
        };
        assert_eq!(
            typed("serve --port 0 --under /book/ --as-built"),
            Ok(Command::Serve(told))
        );
    }

    #[test]
    fn bench_takes_sizes() {
        let told = Measuring {
            sizes: vec![10, 20],
            as_built: true,
            hand: true,
        };
        assert_eq!(
            typed("bench --sizes 10,20 --as-built --hand"),
            Ok(Command::Bench(told))
        );
        assert!(typed("bench --sizes many").unwrap_err().contains("many"));
    }

    #[test]
    fn relist_takes_one_folder() {
        assert_eq!(typed("relist dist"), Ok(Command::Relist("dist".into())));
        assert!(typed("relist").unwrap_err().contains("a folder"));
        assert!(typed("relist dist more").is_err());
    }

    #[test]
    fn only_keeps_the_order_of_the_layers() {
        assert_eq!(
            typed("test --only native,fmt"),
            Ok(Command::Test(vec![Layer::Fmt, Layer::Native]))
        );
        assert_eq!(typed("test"), Ok(Command::Test(Layer::ALL.to_vec())));
    }

    #[test]
    fn an_unknown_word_is_named_with_what_there_is() {
        for line in [
            "measure",
            "bench --slow",
            "serve --fast",
            "test --only fmt,nativ",
            "build now",
        ] {
            let sentence = typed(line).unwrap_err();
            assert!(
                sentence.starts_with("Unknown ") && sentence.contains("cargo xtask serve"),
                "{sentence}"
            );
        }
        assert!(typed("serve --port many").unwrap_err().contains("many"));
        assert!(typed("serve --port 70000").is_err());
    }
}
