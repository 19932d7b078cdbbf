//! A module for the phone carries no names of functions.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    if std::env::var_os("CARGO_CFG_TARGET_FAMILY").is_some_and(|family| family == "wasm") {
        println!("cargo::rustc-link-arg-bin=paperwork=--strip-all");
    }
}
