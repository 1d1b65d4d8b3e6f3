//! Has the linker write down what refers to what, where the page is to be split into two programs.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    if std::env::var_os("CARGO_FEATURE_SPLIT").is_some() {
        println!("cargo::rustc-link-arg-bins=--emit-relocs");
    }
}
