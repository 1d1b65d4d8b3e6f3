//! Is everything fed, protected and wired?
//!
//! All checks start from the network of power (`network`), which follows from the build.

pub mod all_fed;
pub mod code;
pub mod formulas;
