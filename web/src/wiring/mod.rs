//! Supply and backup as they are drawn and changed: the one-line diagram, breakers, wires and
//! terminals, from what a device is fed,
//! and how the batteries run down.
//! **Invariant:** shows what the network of power holds; every change is an edit.

mod boards;
mod breakers;
mod discharge;
mod feeding;
mod layout;
mod one_line;
mod symbols;
mod things;
mod wires;

pub(crate) use breakers::Breakers;
pub(crate) use discharge::Discharge;
pub(crate) use feeding::FeedFields;
pub(crate) use one_line::{Chosen, OneLine};
pub(crate) use wires::{Terminals, Wires};
