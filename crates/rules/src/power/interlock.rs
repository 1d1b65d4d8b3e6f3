//! **P14 `interlock`** – can no position of the switches join two sources?
//!
//! n_live ≤ 1 at every node, whatever the switches
//!
//! - n_src   sources of alternating current                                       [–]
//! - n_live  sources that can reach one node at the same time                     [–]
//!
//! Source:      NFPA 70, 702.5, from memory; the network of power, which follows from the build.
//! Valid for:   the service and generators that are plugged in.
//! Agreement:   property test below: every position of every switch.
//! Not covered: neutral and ground of a generator; rectifiers, which share a bus by design.

use std::collections::BTreeSet;

use catalogue::Role;
use units::Kind;

use super::all_fed::CAUTION;
use super::code::{Code, Table};
use super::given::roles;
use crate::network::{Network, NodeKind};
use crate::{Asked, Case, Check, Finding, Step, Subject, Symbol, Topic, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "P14",
    name: "interlock",
    topic: Topic::Power,
    question: "Can no position of the switches join two sources?",
    formula: "n_live ≤ 1",
    symbols: &[
        Symbol { symbol: "n_src", meaning: "sources of alternating current", kind: Kind::Count },
        Symbol { symbol: "n_live", meaning: "sources that can reach one node at the same time", kind: Kind::Count },
    ],
    sources: &[&sources::NFPA_70],
    valid: "the service and generators that are plugged in",
    leaves_out: "neutral and ground of a generator; rectifiers, which share a bus by design",
    caution: Some(CAUTION),
    asked: Some(Asked::Generator),
    run,
};

/// Sources that one interlock keeps apart: one of two, as its part says.
const KEPT_APART: usize = 2;

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let network = &case.network;
    let is_source = |node: &&crate::network::Node| matches!(node.kind, NodeKind::Service | NodeKind::Generator);
    let sources = network.nodes.iter().filter(is_source).count();
    let meeting = most_at_once(network);
    let place = Code::of(case.project.brief.power.code).place(Table::Transfer);
    let steps = vec![
        Step::input("n_src", "sources of alternating current", count(sources)),
        Step::input("n_live", "sources that can reach one node at the same time", count(meeting)).from_source(place),
    ];
    if meeting > 1 {
        let inlet = roles(case).find(|(_, role)| matches!(role, Role::GeneratorInlet { .. }));
        let subject = inlet.map_or(Subject::Supply, |(device, _)| Subject::Device(device.fitted.id));
        let about = inlet.map(|(device, _)| case.name(device)).unwrap_or_default();
        let finding = Finding::fails(check, subject, "generator and service could meet").about(about).working(steps);
        return vec![finding.help("Add an interlock, which lets one of the two through and never both")];
    }
    let crowded = network.of_kind(NodeKind::Interlock).find(|(_, node)| node.feeds.len() > KEPT_APART);
    if let Some(device) = crowded.and_then(|(_, node)| case.device(node.item()?)) {
        let why = "it keeps two sources apart, and more than two lead to it";
        let finding = Finding::fails(check, Subject::Device(device.fitted.id), why).about(case.name(device));
        return vec![finding.working(steps).help("Take one generator inlet only")];
    }
    let why = if sources < 2 { "there is one source only" } else { "the interlock lets one through and never both" };
    vec![Finding::holds(check, Subject::Supply, why).working(steps)]
}

/// How many sources can reach one node at once, over all positions of the interlocks while every other switch is closed:
/// what is apart then is apart when one of those is open, too.
fn most_at_once(network: &Network) -> usize {
    let interlocks: Vec<usize> = network.of_kind(NodeKind::Interlock).map(|(index, _)| index).collect();
    let mut most = 0;
    let mut positions = vec![0; interlocks.len()];
    loop {
        let passes = |node: usize, feed: usize| {
            interlocks.iter().position(|interlock| *interlock == node).is_none_or(|at| positions[at] == feed)
        };
        let live = live_from(network, &passes);
        most = live.iter().map(BTreeSet::len).fold(most, usize::max);
        // The next position, as a number counts on.
        let turned = interlocks.iter().zip(&mut positions).any(|(interlock, position)| {
            *position += 1;
            let turned = *position < network.nodes[*interlock].feeds.len();
            if !turned {
                *position = 0;
            }
            turned
        });
        if !turned {
            return most;
        }
    }
}

/// From which sources each node is live while `passes` says which feeds of which node are closed. What converts power, and
/// the direct-current side, joins nothing.
fn live_from(network: &Network, passes: &dyn Fn(usize, usize) -> bool) -> Vec<BTreeSet<usize>> {
    let mut live: Vec<BTreeSet<usize>> = Vec::with_capacity(network.nodes.len());
    for (index, node) in network.nodes.iter().enumerate() {
        let from = match node.kind {
            NodeKind::Service | NodeKind::Generator => BTreeSet::from([index]),
            NodeKind::Rectifier
            | NodeKind::Ups
            | NodeKind::Inverter
            | NodeKind::Converter
            | NodeKind::Bus
            | NodeKind::Distribution
            | NodeKind::CutOut
            | NodeKind::Battery => BTreeSet::new(),
            _ => {
                let closed = node.feeds.iter().enumerate().filter(|(feed, _)| passes(index, *feed));
                closed.filter_map(|(_, feed)| live.get(feed.from)).flatten().copied().collect()
            }
        };
        live.push(from);
    }
    live
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, rack};
    use crate::power::testing::{disconnect, inlet, interlock, panel};

    fn desk(disconnects: u32, inlets: u32, interlocks: u32, panels: u32) -> Desk {
        let mut desk = Desk::new();
        let parts = (0..disconnects).map(|_| disconnect(100.0));
        let parts = parts.chain((0..inlets).map(|_| inlet(30.0)));
        let parts = parts.chain((0..interlocks).map(|_| interlock()));
        for (at, part) in parts.chain((0..panels).map(|_| panel(12, 100.0))).enumerate() {
            desk.add(part, rack(0, at as u32 + 1));
        }
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, said: &str) {
        let found = desk.run(&CHECK).remove(0);
        assert_eq!((found.outcome, found.because.shown(units::System::Metric).as_str()), (outcome, said));
    }

    #[test]
    fn two_sources_need_an_interlock() {
        check(&desk(1, 0, 0, 1), Outcome::Holds, "there is one source only");
        check(&desk(1, 1, 0, 1), Outcome::Fails, "generator and service could meet");
        check(&desk(1, 1, 1, 1), Outcome::Holds, "the interlock lets one through and never both");
        check(&desk(1, 2, 1, 1), Outcome::Fails, "it keeps two sources apart, and more than two lead to it");
    }

    /// Every position of every switch, with the disconnects open or closed and the interlocks in any position or none.
    fn worst_of_all_positions(network: &Network) -> usize {
        let switches: Vec<(usize, usize)> = network
            .nodes
            .iter()
            .enumerate()
            .filter(|(_, node)| matches!(node.kind, NodeKind::Disconnect | NodeKind::Interlock))
            .map(|(index, node)| (index, node.feeds.len()))
            .collect();
        let states: usize = switches.iter().map(|(_, feeds)| feeds + 1).product();
        let in_state = |mut state: usize| {
            let mut positions = std::collections::BTreeMap::new();
            for (index, feeds) in &switches {
                positions.insert(*index, state % (feeds + 1));
                state /= feeds + 1;
            }
            // The last position lets nothing through.
            let live = live_from(network, &|node, feed| positions.get(&node).is_none_or(|position| *position == feed));
            live.iter().map(BTreeSet::len).max().unwrap_or(0)
        };
        (0..states).map(in_state).max().unwrap_or(0)
    }

    proptest! {
        #[test]
        fn no_position_joins_two_sources_behind_an_interlock(
            disconnects in 0_u32..3, inlets in 0_u32..3, interlocks in 1_u32..3, panels in 0_u32..3,
        ) {
            let worst = desk(disconnects, inlets, interlocks, panels).with(|case| worst_of_all_positions(&case.network));
            prop_assert!(worst <= 1, "{worst} sources at one node");
        }

        #[test]
        fn what_is_told_is_the_worst_of_all_positions(
            disconnects in 0_u32..3, inlets in 0_u32..3, interlocks in 0_u32..3, panels in 0_u32..3,
        ) {
            desk(disconnects, inlets, interlocks, panels).with(|case| {
                prop_assert_eq!(most_at_once(&case.network), worst_of_all_positions(&case.network));
                Ok(())
            })?;
        }
    }
}
