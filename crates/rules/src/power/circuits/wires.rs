//! The wire list: every conductor with its ends, size, colour, length, label and lugs.
//!
//! Colours. Alternating current of 120, 208 or 240 V: black, red, blue, neutral white, ground green; NFPA 70 fixes white
//! (200.6) and green (250.119), the others are common practice. Of 230 or 400 V: IEC 60446 and 60445, from memory, to be
//! confirmed: brown, black, grey, neutral blue, ground green-yellow. Direct current: common practice, no source: blue for
//! −48 V, red for +24 V, black for the return.
//!
//! Lugs. Common practice, no source: of direct current and of ground, a ring up to 10 AWG and a compression lug with two
//! holes above; of alternating current the plain end is clamped.

use serde::Serialize;

use super::super::code::Size;
use super::names::{circuit_mark, is_feeder, mark};
use super::{Circuit, Circuits};
use crate::Case;
use crate::network::Electricity;

/// What a conductor is in its circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// A phase; 0 for the first.
    Line(usize),
    /// Neutral.
    Neutral,
    /// Equipment grounding conductor.
    Ground,
    /// The live conductor of direct current.
    Live,
    /// Its return.
    Return,
}

impl Part {
    /// Its letters on a label.
    #[must_use]
    pub const fn letters(self) -> &'static str {
        match self {
            Self::Line(0) => "L1",
            Self::Line(1) => "L2",
            Self::Line(_) => "L3",
            Self::Neutral => "N",
            Self::Ground => "G",
            Self::Live => "−",
            Self::Return => "R",
        }
    }
}

/// A conductor of the wire list.
#[derive(Clone, Debug, PartialEq)]
pub struct ListedWire {
    /// Its circuit, as an index.
    pub circuit: usize,
    /// What it is there.
    pub part: Part,
    /// Where it comes from: "LC1-3".
    pub from: String,
    /// Where it leads.
    pub to: String,
    /// Size; none when no size bears what it carries.
    pub size: Option<Size>,
    /// Colour.
    pub colour: &'static str,
    /// Length, m; none when nobody knows where its ends are.
    pub length: Option<f64>,
    /// Label on both ends.
    pub label: String,
    /// How its ends are made.
    pub lug: &'static str,
}

/// The wire list, circuit by circuit.
#[must_use]
pub fn wire_list(case: &Case, all: &Circuits) -> Vec<ListedWire> {
    let mut list = Vec::new();
    for (index, circuit) in all.circuits.iter().enumerate().filter(|(_, circuit)| circuit.is_wired()) {
        let (label, to) = (circuit_mark(case, circuit), mark(case, circuit.node));
        let from = if circuit.position.is_some() { label.clone() } else { mark(case, circuit.from) };
        for part in parts(case, all, circuit) {
            let size = circuit.wire.and_then(|wire| if part == Part::Ground { wire.ground } else { Some(wire.size) });
            list.push(ListedWire {
                circuit: index,
                part,
                from: from.clone(),
                to: to.clone(),
                size,
                colour: colour(circuit.flows, part),
                length: circuit.length,
                label: format!("{label} {}", letters(circuit.flows, part)),
                lug: lug(circuit.flows, part, size),
            });
        }
    }
    list
}

/// The conductors of a circuit.
#[must_use]
pub fn parts(case: &Case, all: &Circuits, circuit: &Circuit) -> Vec<Part> {
    if circuit.flows.is_direct() {
        return vec![Part::Live, Part::Return];
    }
    let on = |leg: &usize| circuit.legs[*leg];
    let hung: Vec<usize> = (0..all.phase_count).filter(on).collect();
    let lines = if hung.is_empty() { (0..circuit.poles as usize).collect() } else { hung };
    let mut parts: Vec<Part> = lines.into_iter().map(Part::Line).collect();
    // A load between phases needs no neutral; whatever feeds others brings it along.
    if circuit.poles == 1 || is_feeder(case, circuit) {
        parts.push(Part::Neutral);
    }
    if circuit.wire.is_some_and(|wire| wire.ground.is_some()) {
        parts.push(Part::Ground);
    }
    parts
}

const fn letters(flows: Electricity, part: Part) -> &'static str {
    match (flows, part) {
        (Electricity::Direct { volts }, Part::Live) if volts < 40.0 => "+",
        _ => part.letters(),
    }
}

/// Colour of a conductor.
#[must_use]
pub fn colour(flows: Electricity, part: Part) -> &'static str {
    match flows {
        Electricity::Direct { volts } => match part {
            Part::Live if volts < 40.0 => "red",
            Part::Live => "blue",
            Part::Ground => "green",
            _ => "black",
        },
        Electricity::Alternating { volts, .. } if is_european(volts) => match part {
            Part::Line(0) => "brown",
            Part::Line(1) => "black",
            Part::Line(_) => "grey",
            Part::Ground => "green-yellow",
            _ => "blue",
        },
        Electricity::Alternating { .. } => match part {
            Part::Line(0) => "black",
            Part::Line(1) => "red",
            Part::Line(_) => "blue",
            Part::Ground => "green",
            _ => "white",
        },
    }
}

/// Whether a voltage is that of countries that follow the IEC.
fn is_european(volts: f64) -> bool {
    (volts - 230.0).abs() < 1.0 || volts > 300.0
}

/// How the ends of a conductor are made.
fn lug(flows: Electricity, part: Part, size: Option<Size>) -> &'static str {
    let clamped = !flows.is_direct() && part != Part::Ground;
    // 10 AWG is 5.26 mm², 6 AWG 13.3, 1/0 AWG 53.5.
    match size.map(Size::area) {
        None => "",
        Some(_) if clamped => "plain end",
        Some(area) if area < 6.0 => "ring, No. 10 stud",
        Some(area) if area < 14.0 => "two-hole lug, 1/4 in stud",
        Some(area) if area < 54.0 => "two-hole lug, 5/16 in stud",
        Some(_) => "two-hole lug, 3/8 in stud",
    }
}
