//! How long each circuit is: along risers and ring, and before the cabinet as the brief says.

use geometry::Box3;
use project::Fed;

use super::{Circuit, END_ALLOWANCE, Run};
use crate::Case;
use crate::network::{Node, NodeKind};

/// Measures every circuit, one way, m.
pub(super) fn measure(case: &Case, circuits: &mut [Circuit]) {
    let Some(layout) = case.layout() else { return };
    let boxes: Vec<Option<Box3>> = case.network.nodes.iter().map(|node| place(case, node)).collect();
    for circuit in circuits.iter_mut().filter(|circuit| circuit.run != Run::Cord) {
        let outside = case.network.nodes[circuit.from].kind == NodeKind::Service;
        let run = if outside { case.project.brief.power.service_run.0 } else { 0.0 };
        let inside = boxes[circuit.from].as_ref().zip(boxes[circuit.node].as_ref());
        circuit.length = inside.map(|(from, to)| run + layout.route_length(from, to) / 1000.0 + 2.0 * END_ALLOWANCE);
    }
}

/// Where a node stands. The bus is a bar at the first distribution or else at the first rectifiers or strings.
fn place(case: &Case, node: &Node) -> Option<Box3> {
    match (node.kind, node.of) {
        (NodeKind::Service | NodeKind::Generator, _) => Some(case.layout()?.entry()),
        (NodeKind::Bus, _) => [NodeKind::Distribution, NodeKind::Rectifier, NodeKind::Battery]
            .into_iter()
            .find_map(|kind| case.network.of_kind(kind).next())
            .and_then(|(_, at)| case.device(at.item()?)?.space),
        (_, Some(Fed::Unit(id))) => {
            let (fitted, _) = case.units.iter().find(|(fitted, _)| fitted.id == id)?;
            let (outer, inner) = case.layout()?.unit_boxes(fitted, case.catalogue)?;
            inner.or(outer)
        }
        (_, Some(of)) => case.device(of.item())?.space,
        (_, None) => None,
    }
}
