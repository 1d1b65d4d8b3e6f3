//! Being written.
fn main() {}
