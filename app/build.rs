//! What the linker leaves in the module for the one who cuts it into parts.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    let cut = std::env::var_os("CARGO_FEATURE_PARTS").is_some();
    if cut && std::env::var_os("CARGO_CFG_TARGET_FAMILY").is_some_and(|family| family == "wasm") {
        println!("cargo::rustc-link-arg-bin=velamen=--emit-relocs");
    }
}
