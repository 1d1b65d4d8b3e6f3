//! The long work, done beside the page so that the page never stalls: what the two say to one another ([`Order`],
//! [`Word`]), and the [`Desk`] that takes orders and works in small pieces.
//!
//! **Invariant:** knows no browser; `main.rs` alone does, and carries the words across. Whatever arrives is answered, and
//! never makes it panic. The page uses the words only, so nothing of the work is in what it loads first.

mod climates;
mod desk;
mod run;
mod words;

pub use desk::Desk;
pub use words::{Climate, Order, Word, packed, unpacked};
