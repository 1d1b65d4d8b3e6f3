//! What the one-line diagram shows of the network of power: plain data, so that it is drawn anew only when it differs.

use catalogue::{ClimateUnit, DeviceKind, Role, UnitSort};
use geometry::Of;
use project::Fed;
use rules::Case;
use rules::heat::{Draw, UnitDraw};
use rules::network::{Electricity, Flow, Node, NodeKind, Trouble};
use units::System;

use crate::asked::supply_words;
use crate::devices::kind_class;
use crate::editor::Editor;
use crate::lean::Memo;

/// One thing of the diagram.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Thing {
    /// What it is in the network.
    pub(crate) kind: NodeKind,
    /// The input it stands for.
    pub(crate) of: Option<Fed>,
    /// Its name, as short as may be.
    pub(crate) name: String,
    /// Its name and place.
    pub(crate) full: String,
    /// How a load is washed, or what a climate unit does.
    pub(crate) sort: Sort,
    /// What feeds it.
    pub(crate) from: Vec<usize>,
    /// What flows to it.
    pub(crate) flows: Option<Electricity>,
    /// What it takes at most, W.
    pub(crate) power: f64,
    /// What went wrong in feeding it.
    pub(crate) trouble: Option<&'static str>,
}

/// What tells loads from one another on the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sort {
    /// A device, by the class of its kind.
    Device(&'static str),
    /// A climate unit that moves.
    Motor,
    /// A heater.
    Heater,
}

impl Thing {
    /// What is selected with it.
    pub(crate) fn selects(&self) -> Option<Of> {
        Some(match self.of? {
            Fed::Device(id) | Fed::Second(id) => Of::Device(id),
            Fed::Unit(id) => Of::Unit(id),
        })
    }

    /// Whether it holds the breakers or fuses of what it feeds.
    pub(crate) const fn protects(&self) -> bool {
        matches!(self.kind, NodeKind::Panel | NodeKind::Distribution)
    }
}

/// "120 V", "240 V, two poles", "48 V DC".
pub(crate) fn flow_words(flows: Electricity) -> String {
    let volts = format!("{:.0}\u{a0}V", flows.volts());
    match flows {
        Electricity::Direct { .. } => format!("{volts}\u{a0}DC"),
        Electricity::Alternating { poles: 2, .. } => format!("{volts}, two poles"),
        Electricity::Alternating { poles: 3, .. } => format!("{volts}, three poles"),
        Electricity::Alternating { .. } => volts,
    }
}

/// All things of a case, each after what feeds it.
pub(crate) fn things(case: &Case) -> Vec<Thing> {
    let network = &case.network;
    let most = |unit: &ClimateUnit| unit.map.input.iter().flatten().copied().fold(0.0, f64::max);
    let units: Vec<_> = case.units.iter().map(|(fitted, spec)| UnitDraw { of: fitted.id, power: most(spec) }).collect();
    let flow = Flow::of(case, Draw::Most, &units, false);
    let mut things: Vec<Thing> = network
        .nodes
        .iter()
        .enumerate()
        .map(|(index, node)| {
            let (name, full, sort) = named(case, node);
            Thing {
                kind: node.kind,
                of: node.of,
                name,
                full,
                sort,
                from: node.feeds.iter().map(|feed| feed.from).collect(),
                flows: node.feeds.first().map(|feed| feed.flows),
                power: flow.taken.get(index).copied().unwrap_or_default(),
                trouble: network.troubles.iter().find_map(|trouble| told(*trouble, node.of)),
            }
        })
        .collect();
    // Where two are called the same, the place tells them apart.
    let names: Vec<String> = things.iter().map(|thing| thing.name.clone()).collect();
    for thing in &mut things {
        if names.iter().filter(|name| **name == thing.name).count() > 1 {
            thing.name.clone_from(&thing.full);
        }
    }
    things
}

/// What a trouble says about an input, if it is about it.
fn told(trouble: Trouble, input: Option<Fed>) -> Option<&'static str> {
    let (about, words) = match trouble {
        Trouble::NoSource(about) => (about, "nothing feeds it"),
        Trouble::WrongSource(about, _) => (about, "what was chosen does not suit it"),
        Trouble::Loop(about, _) => (about, "it would feed itself"),
        Trouble::Full(about, _) => (about, "no place is left"),
    };
    (Some(about) == input).then_some(words)
}

/// Name, name with place, and sort of a node.
fn named(case: &Case, node: &Node) -> (String, String, Sort) {
    let own = |name: &str| (name.to_owned(), name.to_owned(), Sort::Device(""));
    let Some(input) = node.of else {
        return own(match node.kind {
            NodeKind::Service => supply_words(case.project.brief.supply),
            NodeKind::Generator => "generator",
            _ => "−48\u{a0}V bus",
        });
    };
    if let Fed::Unit(id) = input {
        let unit = case.units.iter().find(|(fitted, _)| fitted.id == id);
        let sort = match unit.map(|(_, spec)| spec.sort) {
            Some(UnitSort::Heater) => Sort::Heater,
            _ => Sort::Motor,
        };
        let name = unit.map_or("", |(_, spec)| &spec.name);
        let place = unit.map_or_else(String::new, |(fitted, _)| crate::build_list::unit_place_words(fitted.at));
        return (name.to_owned(), format!("{name}, {place}"), sort);
    }
    let Some(device) = case.device(input.item()) else { return own("") };
    let (name, full) = (device.spec.name.clone(), case.name(device).shown(System::Metric));
    let input = match input {
        Fed::Second(_) => " (B)",
        _ if device.spec.electrical.two_inputs => " (A)",
        _ => "",
    };
    let washed = match (device.spec.kind, &device.spec.electrical.role) {
        (DeviceKind::Power, Some(Role::Outlet { .. })) => "",
        (kind, _) => kind_class(kind),
    };
    (format!("{name}{input}"), format!("{full}{input}"), Sort::Device(washed))
}

/// All things of the project as it is, and as it changes.
pub(crate) fn all_things(editor: Editor) -> Memo<Vec<Thing>> {
    Memo::new(move |_| things(&Case::new(&editor.project(), &editor.catalogue())))
}

/// Whether each stands on the way from what is selected to its sources.
pub(crate) fn on_way(things: &[Thing], selected: Option<Of>) -> Vec<bool> {
    let mut on: Vec<bool> = things.iter().map(|thing| selected.is_some() && thing.selects() == selected).collect();
    // A thing stands after all that feeds it.
    for index in (0..things.len()).rev() {
        if on[index] {
            for from in &things[index].from {
                on[*from] = true;
            }
        }
    }
    on
}
