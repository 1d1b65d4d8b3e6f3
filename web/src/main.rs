//! The page: the only crate that knows a browser.
//!
//! **Invariant:** computes nothing about cabinets. It holds one [`editor::Editor`]; what is shown is derived from it, and
//! every change goes through it.

// Written out in a view, a closure is kept behind one type by the library; named, it would need code of its own.
#![allow(clippy::redundant_closure)]

mod answered;
mod app;
mod asked;
mod bench;
mod build_list;
mod built;
mod charts;
mod course;
mod devices;
mod editor;
mod elevations;
mod entry;
mod keys;
mod later;
mod lean;
mod live;
mod mark;
mod measure;
mod model_view;
mod parts;
mod project_menu;
mod selection;
mod start;
mod store;
mod styles;
mod title_block;
mod view_state;
mod warm;
mod wiring;

fn main() {
    console_error_panic_hook::set_once();
    leptos::mount::mount_to_body(app::App);
    start::take_down_placeholder();
}
