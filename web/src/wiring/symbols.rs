//! The symbols of the one-line diagram, each drawn about its middle. Shapes as IEC 60617 and IEEE 315 have them (from memory,
//! to be confirmed): contacts drawn open, the fixed contact of a breaker as a cross, of a disconnect as a bar.

use leptos::prelude::*;
use rules::network::NodeKind;

use super::things::{Sort, Thing};
use crate::lean::view;

/// Ground, at the end of a short line to the right.
const GROUND: &str = "M9 0h5M14 -6v12M17 -4v8M20 -2v4";
/// A sine, 8 wide, about its middle.
const SINE: &str = "c1 -4 3 -4 4 0s3 4 4 0";

/// A breaker in a line that runs from left to right.
pub(super) fn breaker() -> AnyView {
    view! {
        <path class="w-gap" d="M-7 0H6" />
        <path class="w-sym" d="M-10 -3L-4 3M-10 3L-4 -3M7 0L-5 -7.5" />
    }
}

/// The symbol of a thing; nothing of one that is a bar alone.
pub(super) fn symbol(thing: &Thing, upright: bool) -> AnyView {
    match (thing.kind, thing.sort) {
        (NodeKind::Service, _) => path("M0 -11V4M-5 -3L0 4L5 -3"),
        (NodeKind::Generator, _) => lettered("G"),
        (NodeKind::JunctionBox, _) => view! {
            <rect class="w-sym w-box" x="-8" y="-8" width="16" height="16" />
            <circle class="w-dot" r="3" />
        },
        (NodeKind::Disconnect, _) => contact(upright, "M-5 -6H5M0 7L-8 -6", "M-6 -5V5M7 0L-6 -8"),
        (NodeKind::CutOut, _) => {
            contact(upright, "M-3.5 -7A3.5 3.5 0 0 0 3.5 -7M0 7L-8 -6", "M-7 -3.5A3.5 3.5 0 0 1 -7 3.5M8 0L-5 -8.5")
        }
        // Plug and socket.
        (NodeKind::Inlet, _) => view! {
            <path class="w-gap" d="M0 -8V8" />
            <rect class="w-dot" x="-2" y="-10" width="4" height="9" />
            <path class="w-sym" d="M-7 -2A7 7 0 0 0 7 -2M0 5V9" />
        },
        // A contact that leaves one source before it meets the other, and the dashes of what holds it.
        (NodeKind::Interlock, _) => view! {
            <path class="w-gap" d="M0 -8V8M0 0H10" />
            <circle class="w-sym w-box" cx="0" cy="-8" r="2" />
            <circle class="w-sym w-box" cx="10" cy="0" r="2" />
            <path class="w-sym" d="M0 9L6 -6" />
            <path class="w-sym w-held" d="M3 2H15" />
        },
        (NodeKind::Surge, _) => view! {
            <path class="w-sym" d=GROUND />
            <rect class="w-sym w-box" x="-9" y="-5" width="18" height="10" />
            <path class="w-sym" d="M-9 0H4M0 -3L5 0L0 3" />
        },
        (NodeKind::Outlet, _) => path("M8 -8A8 8 0 0 0 8 8M0 -8V8M0 0"),
        (NodeKind::Strip, _) => view! {
            <rect class="w-sym w-box" x="-9" y="-6" width="18" height="12" />
            <circle class="w-dot" cx="-5" r="1.6" />
            <circle class="w-dot" r="1.6" />
            <circle class="w-dot" cx="5" r="1.6" />
        },
        (NodeKind::Rectifier, _) => converter(true, false),
        (NodeKind::Inverter, _) => converter(false, true),
        (NodeKind::Converter, _) => converter(false, false),
        (NodeKind::Ups, _) => converter(true, true),
        (NodeKind::Battery, _) => view! {
            <path class="w-gap" d="M-6 0H9" />
            <path class="w-sym" d="M-6 -9V9M2 -9V9" />
            <path class="w-sym w-thick" d="M-2 -4V4M6 -4V4" />
        },
        (NodeKind::Unit, Sort::Heater) => view! {
            <rect class="w-sym w-box" x="-9" y="-5" width="18" height="10" />
            <path class="w-sym" d="M-4.5 -5V5M0 -5V5M4.5 -5V5" />
        },
        (NodeKind::Unit, _) => lettered("M"),
        (NodeKind::Load, Sort::Device(wash)) => {
            view! { <g class=format!("e-dev--{wash}")><rect class="w-sym" x="-9" y="-7" width="18" height="14" /></g> }
        }
        (NodeKind::Load, _) => path("M-9 -7H9V7H-9Z"),
        (NodeKind::Panel | NodeKind::Bus | NodeKind::Distribution, _) => view! { <circle class="w-dot" r="3.2" /> },
    }
}

fn path(d: &'static str) -> AnyView {
    view! { <path class="w-sym" d=d /> }
}

/// A contact in a line from above, or from the left.
fn contact(upright: bool, from_above: &'static str, from_left: &'static str) -> AnyView {
    let (gap, contact) = if upright { ("M0 -6V6", from_above) } else { ("M-6 0H6", from_left) };
    view! {
        <path class="w-gap" d=gap />
        <path class="w-sym" d=contact />
    }
}

/// A machine: a circle with its letter.
fn lettered(letter: &'static str) -> AnyView {
    view! {
        <circle class="w-sym w-box" r="9.5" />
        <text class="w-letter" y="4.8" text-anchor="middle">{letter}</text>
    }
}

/// A converter: a square with what goes in above its diagonal and what comes out below.
fn converter(from_alternating: bool, to_alternating: bool) -> AnyView {
    let sign = |alternating: bool, x: f64, y: f64| {
        let d = if alternating { format!("M{x} {y}{SINE}") } else { format!("M{x} {}h7M{x} {}h7", y - 1.5, y + 1.5) };
        view! { <path class="w-sign" d=d /> }
    };
    view! {
        <rect class="w-sym w-box" x="-10" y="-10" width="20" height="20" />
        <path class="w-sym" d="M-10 10L10 -10" />
        {sign(from_alternating, -8.5, -5.0)}
        {sign(to_alternating, 0.5, 5.5)}
    }
}
