//! Set-up, build, serve and test: the only place that knows the tools.
//!
//! `cargo xtask serve` and `cargo xtask test` are the two commands a person needs. Each installs
//! what is missing, says so first, and never builds a tool twice.
#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "the terminal is this program's screen"
)]

mod bench;
mod blame;
mod build;
mod digest;
mod dist;
mod folders;
mod languages;
mod layers;
mod options;
mod parts;
mod precache;
mod run;
mod server;
mod tally;
mod tools;

use std::process::ExitCode;

use folders::Folders;
use options::{Command, Pages, Serving};

/// What a step gives back: a value, or one sentence for the person at the terminal.
type Outcome<T = ()> = Result<T, String>;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match options::read(&words).and_then(obey) {
        Ok(code) => code,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}

fn obey(command: Command) -> Outcome<ExitCode> {
    let folders = Folders::find()?;
    match command {
        Command::Build(pages) => build::release(&folders, None, pages).map(|()| ExitCode::SUCCESS),
        Command::Serve(serving) => serve(&folders, &serving).map(|()| ExitCode::SUCCESS),
        Command::Relist(folder) => precache::write(&folder).map(|()| ExitCode::SUCCESS),
        Command::Bench(measuring) => bench::run(&folders, &measuring).map(|()| ExitCode::SUCCESS),
        Command::Test(wanted) => layers::test(&folders, &wanted),
        Command::Help => {
            println!("{}", options::USAGE);
            Ok(ExitCode::SUCCESS)
        }
    }
}

/// The port is taken first, so that a taken one is reported before the minutes a build takes.
fn serve(folders: &Folders, serving: &Serving) -> Outcome {
    let dist = serving.dist.clone().unwrap_or_else(|| folders.dist());
    let server = server::Server::bind(serving.port, dist, serving.under.as_deref())?;
    if !serving.as_built {
        build::release(folders, None, Pages::All)?;
    }
    println!("Velamen is at {} (stop with Ctrl-C)", server.url());
    server.run();
    Ok(())
}
