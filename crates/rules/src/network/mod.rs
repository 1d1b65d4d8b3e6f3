//! The network of power: from the sources to every load, as it follows from the build.
//!
//! Whatever needs power is connected by itself, to the nearest thing that gives what it runs on; the user may feed it from
//! elsewhere ([`project::ChosenFeed`]). What finds no source is told as a [`Trouble`]; nothing is left unfed silently.
//! Only what is placed counts, as it does for Heat.
//!
//! service → junction box → disconnect → interlock ← inlet ← generator; interlock → load centre → branches
//! rectifiers → bus → distribution → branches; bus → cut-out → strings, which take from the bus or give to it
//!
//! **Invariant:** a node stands after all that feeds it, so no loop can be written down.

mod flow;
mod grow;
mod places;
mod sources;
#[cfg(test)]
mod tests;

pub use flow::{Conditions, Flow, charge_factor, charge_volts, recharge_power};
pub(crate) use sources::{PLANT, service};

use project::{Fed, ItemId};

use crate::Case;

/// What kind of thing a node is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NodeKind {
    /// The supply at the site.
    Service,
    /// A generator that may be plugged in.
    Generator,
    /// Junction box.
    JunctionBox,
    /// Service disconnect.
    Disconnect,
    /// Generator inlet.
    Inlet,
    /// Interlock of two sources.
    Interlock,
    /// Load centre.
    Panel,
    /// Surge protector.
    Surge,
    /// Outlet for tools.
    Outlet,
    /// Strip of outlets that feeds devices.
    Strip,
    /// Uninterruptible supply.
    Ups,
    /// Rectifiers.
    Rectifier,
    /// Strings of cells.
    Battery,
    /// Low-voltage disconnect.
    CutOut,
    /// The direct-current bus that rectifiers and strings share.
    Bus,
    /// Breakers or fuses of direct-current branches.
    Distribution,
    /// Inverter: direct to alternating current.
    Inverter,
    /// Converter from one direct voltage to another.
    Converter,
    /// A device.
    Load,
    /// A climate unit.
    Unit,
}

/// What flows: its nominal voltage between the conductors of the circuit, and how many of them a breaker opens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Electricity {
    /// Alternating current.
    Alternating {
        /// V.
        volts: f64,
        /// Poles of its breaker: 1 against neutral, 2 or 3 between phases.
        poles: u32,
    },
    /// Direct current.
    Direct {
        /// V, without its sign.
        volts: f64,
    },
}

impl Electricity {
    /// Nominal voltage, V.
    #[must_use]
    pub const fn volts(self) -> f64 {
        match self {
            Self::Alternating { volts, .. } | Self::Direct { volts } => volts,
        }
    }

    /// Whether it is direct current.
    #[must_use]
    pub const fn is_direct(self) -> bool {
        matches!(self, Self::Direct { .. })
    }

    /// Poles of its breaker.
    #[must_use]
    pub const fn poles(self) -> u32 {
        match self {
            Self::Alternating { poles, .. } => poles,
            Self::Direct { .. } => 1,
        }
    }
}

/// Where a node is fed from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feed {
    /// The node before it.
    pub from: usize,
    /// What flows.
    pub flows: Electricity,
    /// The position there that the user asked for.
    pub position: Option<u32>,
    /// Whether the user chose where it comes from.
    pub chosen: bool,
}

/// One thing of the network.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// What it is.
    pub kind: NodeKind,
    /// The input of a device or unit that it stands for; none of a source or the bus.
    pub of: Option<Fed>,
    /// What it is fed from: nothing of a source, two of an interlock, several of the bus.
    pub feeds: Vec<Feed>,
}

impl Node {
    /// The device or unit it stands for.
    #[must_use]
    pub fn item(&self) -> Option<ItemId> {
        self.of.map(Fed::item)
    }
}

/// What went wrong in connecting something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trouble {
    /// Nothing gives what it runs on.
    NoSource(Fed),
    /// The user feeds it from something that gives nothing, or something else.
    WrongSource(Fed, ItemId),
    /// The user feeds it from what it feeds itself.
    Loop(Fed, ItemId),
    /// Everything that could feed it is full; it hangs on the last one all the same.
    Full(Fed, ItemId),
}

/// The network of power of a build.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Network {
    /// Its nodes, each after all that feeds it.
    pub nodes: Vec<Node>,
    /// What went wrong.
    pub troubles: Vec<Trouble>,
}

impl Network {
    /// Connects all that is placed.
    #[must_use]
    pub fn of(case: &Case) -> Self {
        grow::grow(case)
    }

    /// The nodes that a node feeds.
    pub fn fed_by(&self, from: usize) -> impl Iterator<Item = (usize, &Node)> {
        let feeds = move |(_, node): &(usize, &Node)| node.feeds.iter().any(|feed| feed.from == from);
        self.nodes.iter().enumerate().filter(feeds)
    }

    /// The nodes of a kind.
    pub fn of_kind(&self, kind: NodeKind) -> impl Iterator<Item = (usize, &Node)> {
        self.nodes.iter().enumerate().filter(move |(_, node)| node.kind == kind)
    }

    /// Whether a node goes on when the site's alternating current fails: somewhere before it stands a battery, an
    /// uninterruptible supply that holds energy, or a plant elsewhere.
    #[must_use]
    pub fn outlasts(&self, case: &Case, node: usize) -> bool {
        self.goes_on(case, node, true)
    }

    /// The same while strings that are fitted give, or once they give no more.
    #[must_use]
    pub fn goes_on(&self, case: &Case, node: usize, strings: bool) -> bool {
        let of = &self.nodes[node];
        let holds = match of.kind {
            NodeKind::Bus => strings && self.of_kind(NodeKind::Battery).next().is_some(),
            NodeKind::Ups => {
                let device = of.item().and_then(|id| case.device(id));
                device.is_some_and(|device| device.spec.electrical.holds.is_some())
            }
            NodeKind::Service => sources::service(case.project.brief.supply).is_direct(),
            _ => false,
        };
        holds || of.feeds.iter().any(|feed| self.goes_on(case, feed.from, strings))
    }

    /// The node that stands for an input.
    #[must_use]
    pub fn node_of(&self, input: Fed) -> Option<usize> {
        self.nodes.iter().position(|node| node.of == Some(input))
    }
}
