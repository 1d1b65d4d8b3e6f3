//! Where the things of the network stand, and the ways of the cables between them.

use geometry::{Box3, Route};
use project::Fed;

use super::{Network, NodeKind};
use crate::Case;

impl Network {
    /// The box a node takes. The service comes in with the conduit, a generator with its inlet; a bus is where the first
    /// thing stands that it is fed from or feeds.
    #[must_use]
    pub fn place(&self, case: &Case, node: usize) -> Option<Box3> {
        let layout = case.layout()?;
        let of = &self.nodes[node];
        match of.of {
            Some(Fed::Device(id) | Fed::Second(id)) => case.device(id)?.space,
            Some(Fed::Unit(id)) => {
                let (fitted, _) = case.units.iter().find(|(fitted, _)| fitted.id == id)?;
                let (inner, outer) = layout.unit_boxes(fitted, case.catalogue)?;
                inner.or(outer)
            }
            None if of.kind == NodeKind::Service => Some(layout.entry()),
            None if of.kind == NodeKind::Bus => {
                let feeds = of.feeds.iter().map(|feed| feed.from);
                let mut beside = feeds.chain(self.fed_by(node).map(|(fed, _)| fed));
                beside.find_map(|other| self.place_of_device(case, other))
            }
            None => self.fed_by(node).find_map(|(fed, _)| self.place_of_device(case, fed)),
        }
    }

    fn place_of_device(&self, case: &Case, node: usize) -> Option<Box3> {
        case.device(self.nodes[node].item()?)?.space
    }

    /// The way of every cable inside the cabinet.
    #[must_use]
    pub fn ways(&self, case: &Case) -> Vec<Route> {
        let Some(layout) = case.layout() else { return Vec::new() };
        let places: Vec<Option<Box3>> = (0..self.nodes.len()).map(|node| self.place(case, node)).collect();
        let mut ways = Vec::new();
        for (node, of) in self.nodes.iter().enumerate() {
            for feed in &of.feeds {
                if let (Some(from), Some(to)) = (places[feed.from], places[node])
                    && from != to
                {
                    ways.push(layout.route(&from, &to));
                }
            }
        }
        ways
    }
}
