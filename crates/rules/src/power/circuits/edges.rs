//! The stretches of conductors between the nodes of the network, and what each is for.

use catalogue::Role;

use super::Run;
use crate::Case;
use crate::network::{Feed, NodeKind};

/// A stretch of conductors that is not sized yet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub node: usize,
    pub feed: usize,
    pub by: Feed,
    pub run: Run,
}

/// Every feed of the network, in its order.
pub(super) fn edges(case: &Case) -> Vec<Edge> {
    let nodes = &case.network.nodes;
    // Whether something before the end of a stretch can switch it off.
    let mut switched = vec![false; nodes.len()];
    let mut edges = Vec::with_capacity(nodes.len());
    for (node, of) in nodes.iter().enumerate() {
        for (feed, by) in of.feeds.iter().enumerate() {
            let run = run(nodes[by.from].kind, of.kind, switched[by.from]);
            edges.push(Edge { node, feed, by: *by, run });
        }
        let before = of.feeds.first().is_some_and(|by| switched[by.from]);
        switched[node] = before || !matches!(of.kind, NodeKind::Service | NodeKind::JunctionBox);
    }
    edges
}

fn run(from: NodeKind, to: NodeKind, switched: bool) -> Run {
    match (from, to) {
        (NodeKind::Generator, _) | (NodeKind::Strip | NodeKind::Ups, _) => Run::Cord,
        (NodeKind::Inlet, _) => Run::Inlet,
        (_, NodeKind::Battery) => Run::String,
        (_, NodeKind::CutOut) | (NodeKind::Rectifier, NodeKind::Bus) | (NodeKind::Bus, NodeKind::Distribution) => {
            Run::Bus
        }
        (_, NodeKind::JunctionBox | NodeKind::Disconnect | NodeKind::Interlock | NodeKind::Panel | NodeKind::Bus) => {
            if switched {
                Run::Feeder
            } else {
                Run::Service
            }
        }
        _ => Run::Branch,
    }
}

/// Rated current of the weakest of what all of the service goes through, A; none when nothing there has a rating.
pub(super) fn main(case: &Case) -> Option<f64> {
    let nodes = &case.network.nodes;
    let of_service = nodes.iter().filter(|node| {
        let of_panel = || node.feeds.iter().any(|feed| nodes[feed.from].kind == NodeKind::Panel);
        match node.kind {
            NodeKind::Disconnect | NodeKind::Interlock => true,
            NodeKind::Panel => !of_panel(),
            _ => false,
        }
    });
    let ratings = of_service.filter_map(|node| rating(case, node.item()?));
    ratings.reduce(f64::min)
}

/// Rated current of a device that has a part in the entry, A.
pub(super) fn rating(case: &Case, id: project::ItemId) -> Option<f64> {
    let role = case.device(id)?.spec.electrical.role.as_ref();
    role.and_then(Role::amperes).map(|amperes| amperes.0)
}
