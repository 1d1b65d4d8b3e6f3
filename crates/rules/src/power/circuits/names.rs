//! What circuits and their ends are called.

use super::{Circuit, is_line};
use crate::network::NodeKind;
use crate::{Case, Phrase};

/// The letters a node is called by on labels, with its number among its like: "LC1". Our own.
#[must_use]
pub fn mark(case: &Case, node: usize) -> String {
    let nodes = &case.network.nodes;
    let Some(of) = nodes.get(node) else { return String::new() };
    // The second input of a device is marked as the first, with a B.
    if let Some(project::Fed::Second(id)) = of.of
        && let Some(first) = case.network.node_of(project::Fed::Device(id))
    {
        return mark(case, first) + "B";
    }
    let letters = match of.kind {
        NodeKind::Service => return "SERVICE".to_owned(),
        NodeKind::Bus => return "BUS".to_owned(),
        NodeKind::Generator => "GEN",
        NodeKind::JunctionBox => "JB",
        NodeKind::Disconnect => "SD",
        NodeKind::Inlet => "GI",
        NodeKind::Interlock => "TI",
        NodeKind::Panel => "LC",
        NodeKind::Surge => "SP",
        NodeKind::Outlet => "OUT",
        NodeKind::Strip => "ST",
        NodeKind::Ups => "UPS",
        NodeKind::Rectifier => "REC",
        NodeKind::Battery => "BAT",
        NodeKind::CutOut => "CO",
        NodeKind::Distribution => "DD",
        NodeKind::Inverter => "INV",
        NodeKind::Converter => "CNV",
        NodeKind::Load => "L",
        NodeKind::Unit => "CU",
    };
    let number = nodes[..=node].iter().filter(|one| one.kind == of.kind).count();
    format!("{letters}{number}")
}

/// Name and place of a node in words.
#[must_use]
pub fn node_name(case: &Case, node: usize) -> Phrase {
    let Some(of) = case.network.nodes.get(node) else { return Phrase::new() };
    let second = matches!(of.of, Some(project::Fed::Second(_)));
    let item = of.item();
    let device = item.and_then(|id| case.device(id)).map(|device| case.name(device));
    let unit = || {
        let found = case.units.iter().find(|(fitted, _)| Some(fitted.id) == item);
        found.map(|(_, spec)| Phrase::from(spec.name.as_str()))
    };
    match device.or_else(unit) {
        Some(name) if second => name.text(", second input"),
        Some(name) => name,
        None => match of.kind {
            NodeKind::Generator => "Generator".into(),
            NodeKind::Bus => "Direct-current bus".into(),
            _ => "Service".into(),
        },
    }
}

/// What a circuit is called on its labels: where it comes from and its positions, "LC1-1/3", or where it leads.
#[must_use]
pub fn circuit_mark(case: &Case, circuit: &Circuit) -> String {
    let from = mark(case, circuit.from);
    let positions: Vec<String> = circuit.positions().map(|position| position.to_string()).collect();
    if positions.is_empty() {
        format!("{from}-{}", mark(case, circuit.node))
    } else {
        format!("{from}-{}", positions.join("/"))
    }
}

/// The phases of a circuit in letters: "A", "AB"; empty where there is only one.
#[must_use]
pub fn phase_letters(circuit: &Circuit) -> String {
    (0..3).filter(|leg| circuit.legs[*leg]).map(super::phase_letter).collect()
}

/// The device or unit, or else the supply, that a finding about a circuit is about.
#[must_use]
pub fn subject(case: &Case, node: usize) -> crate::Subject {
    match case.network.nodes.get(node).and_then(|of| of.of) {
        Some(project::Fed::Unit(id)) => crate::Subject::Unit(id),
        Some(project::Fed::Device(id) | project::Fed::Second(id)) => crate::Subject::Device(id),
        None => crate::Subject::Supply,
    }
}

/// Whether a circuit brings all phases and the neutral of the service.
#[must_use]
pub fn is_feeder(case: &Case, circuit: &Circuit) -> bool {
    is_line(case.network.nodes[circuit.node].kind) || circuit.run == super::Run::Inlet
}

/// 1.25 · `I_c` + `I_n` with its numbers; of a converter what it draws at its rating.
#[must_use]
pub fn least_numbers(case: &Case, circuit: &Circuit) -> Phrase {
    use units::Amperes;
    let load = circuit.load;
    let share = if load.total() > 0.0 { circuit.amperes / load.total() } else { 0.0 };
    let by_load = share * load.least();
    if circuit.least_amperes > by_load + 1e-9 {
        let rated = Amperes(circuit.least_amperes / super::loads::CONTINUOUS);
        let whole = match case.network.nodes[circuit.node].kind {
            NodeKind::Load => ", all of its load",
            _ => ", at its rating",
        };
        return Phrase::from("1.25 · ").number(rated).text(whole);
    }
    let (continuous, other) = (Amperes(share * load.continuous), Amperes(share * load.other));
    Phrase::from("1.25 · ").number(continuous).text(" + ").number(other)
}
