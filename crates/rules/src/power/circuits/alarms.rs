//! Alarm terminals, and the places of the ground bars.
//!
//! Which alarms a cabinet tells is common practice, no source: what its sensors tell, and what its power plant, supplies
//! and units tell of themselves.

use catalogue::{Role, UnitSort};
use project::ItemId;

use super::names::node_name;
use crate::network::NodeKind;
use crate::{Case, Phrase};

/// A pair of alarm terminals.
#[derive(Clone, Debug, PartialEq)]
pub struct Alarm {
    /// The first of its two terminals, counted from 1 over all blocks.
    pub terminal: u32,
    /// The block it is on; none when there is no place left.
    pub block: Option<ItemId>,
    /// What it tells.
    pub tells: Phrase,
    /// What tells it.
    pub from: Phrase,
}

/// Every alarm of the cabinet with its terminals.
#[must_use]
pub fn alarms(case: &Case) -> Vec<Alarm> {
    let mut told: Vec<(Phrase, Phrase)> = Vec::new();
    for device in case.devices.iter().filter(|device| device.space.is_some()) {
        if let Some(Role::AlarmPoint { tells }) = &device.spec.electrical.role {
            told.push((tells.as_str().into(), case.name(device)));
        }
    }
    for (index, node) in case.network.nodes.iter().enumerate() {
        let tells: &[&str] = match node.kind {
            NodeKind::Rectifier => &["supply failed", "rectifier failed"],
            NodeKind::Ups => &["supply failed", "on its battery", "uninterruptible supply failed"],
            NodeKind::Inverter => &["inverter failed"],
            NodeKind::Converter => &["converter failed"],
            NodeKind::Surge => &["surge protector spent"],
            NodeKind::CutOut => &["battery cut off"],
            NodeKind::Distribution => &["fuse or breaker open"],
            _ => &[],
        };
        told.extend(tells.iter().map(|tells| (Phrase::from(*tells), node_name(case, index))));
    }
    for (_, spec) in case.units.iter().filter(|(_, spec)| spec.sort != UnitSort::Heater) {
        told.push(("climate unit failed".into(), spec.name.as_str().into()));
    }
    let blocks = places(case, |role| match role {
        Role::AlarmBlock { terminals } => terminals / 2,
        _ => 0,
    });
    let numbered = told.into_iter().zip(1..).enumerate();
    numbered
        .map(|(at, ((tells, from), number))| Alarm {
            terminal: 2 * number - 1,
            block: blocks.get(at).copied(),
            tells,
            from,
        })
        .collect()
}

/// A place on a ground bar.
#[derive(Clone, Debug, PartialEq)]
pub struct GroundPlace {
    /// The bar; none when there is no place left.
    pub bar: Option<ItemId>,
    /// Its place there, counted from 1.
    pub place: u32,
    /// What is bonded there.
    pub bonds: Phrase,
}

/// What is bonded to the ground bars, in the order of their places. Common practice, no source: the electrode, the body,
/// each door, the gear of the service, the return of the plant, and the frame of everything that runs on direct current or
/// converts it.
#[must_use]
pub fn ground_places(case: &Case) -> Vec<GroundPlace> {
    let mut bonded: Vec<Phrase> = vec!["Electrode conductor".into(), "Body of the cabinet".into()];
    for (bay, doors) in case.project.build.bays.iter().enumerate() {
        for (closure, end) in [(doors.front, "front"), (doors.rear, "rear")] {
            if matches!(closure, project::Closure::Door(_)) {
                bonded.push(format!("Door {} {end}", crate::bay_letter(bay)).into());
            }
        }
    }
    for (index, node) in case.network.nodes.iter().enumerate() {
        let direct = node.feeds.first().is_some_and(|feed| feed.flows.is_direct());
        let second = matches!(node.of, Some(project::Fed::Second(_)));
        let bonds = match node.kind {
            NodeKind::Bus => {
                bonded.push("Return of the plant".into());
                false
            }
            NodeKind::Disconnect | NodeKind::Panel | NodeKind::Surge | NodeKind::Rectifier | NodeKind::Ups => true,
            NodeKind::Service | NodeKind::Generator => false,
            _ => direct && !second && node.item().is_some(),
        };
        if bonds {
            bonded.push(node_name(case, index));
        }
    }
    let bars = places(case, |role| match role {
        Role::GroundBar { places } => *places,
        _ => 0,
    });
    let mut numbered = Vec::with_capacity(bonded.len());
    for (at, bonds) in bonded.into_iter().enumerate() {
        let bar = bars.get(at).copied();
        let before = bars.iter().take(at).filter(|one| Some(**one) == bar).count();
        numbered.push(GroundPlace { bar, place: before as u32 + 1, bonds });
    }
    numbered
}

/// The device of each place of a sort, in the order of the build.
fn places(case: &Case, count: impl Fn(&Role) -> u32) -> Vec<ItemId> {
    let placed = case.devices.iter().filter(|device| device.space.is_some());
    let of = placed.filter_map(|device| Some((device.fitted.id, device.spec.electrical.role.as_ref()?)));
    of.flat_map(|(id, role)| std::iter::repeat_n(id, count(role) as usize)).collect()
}
