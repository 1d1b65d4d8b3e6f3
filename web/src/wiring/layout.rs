//! Where everything of the one-line diagram is drawn: sources above, what hands power on as bars, each branch a row.
//!
//! A thing's bar hangs under its symbol, and what it feeds branches off to the right, one row each, so that every name can
//! be read without turning one's head. Rectifiers give to the left of the bus, which is a bar like the others.

use rules::network::NodeKind;

use super::things::Thing;

/// Height of a row, px: the least that a finger or a shaky hand meets (WCAG 2.2, 2.5.8).
pub(super) const ROW: f64 = 24.0;
/// The trunk, from the left edge.
const TRUNK: f64 = 16.0;
/// From a bar to the symbol of a branch, without and with a breaker between them.
const BARE: f64 = 26.0;
const GUARDED: f64 = 44.0;
/// From a bar to the breaker of a branch.
const BREAKER: f64 = 17.0;
/// From the symbol of a rectifier to the bus.
const TO_BUS: f64 = 24.0;
/// From the trunk to a second source.
const SECOND: f64 = 52.0;
/// From a symbol to its name.
const NAME: f64 = 15.0;
/// From this width on, and with so many rows, the bus stands beside the load centre instead of below it.
const TWO: (f64, usize) = (700.0, 14);
/// A protector's symbol ends at ground, this much further right.
const GROUND: f64 = 10.0;
/// Right of the figures.
const EDGE: f64 = 4.0;
/// Between the two.
const GUTTER: f64 = 28.0;

/// One thing where it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Placed {
    /// Which.
    pub(super) index: usize,
    /// Middle of its symbol.
    pub(super) x: f64,
    pub(super) y: f64,
    /// Where its name begins, and where its row ends.
    pub(super) name: f64,
    pub(super) end: f64,
    /// Middle of the breaker that feeds it, where one does.
    pub(super) breaker: Option<f64>,
    /// Lower end of its bar, where it has one.
    pub(super) bar: Option<f64>,
    /// Whether it is fed from above rather than from the left.
    pub(super) upright: bool,
}

/// A line from what feeds to what is fed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Link {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) path: String,
}

/// The whole drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Drawing {
    /// In the order of their rows.
    pub(super) placed: Vec<Placed>,
    pub(super) links: Vec<Link>,
    pub(super) height: f64,
}

struct Pen<'a> {
    things: &'a [Thing],
    drawing: Drawing,
    drawn: Vec<bool>,
    row: usize,
    /// Where the rows that are being drawn end.
    end: f64,
    /// Where the second column begins, where there are two.
    second: Option<f64>,
}

/// Draws all things in a space of this width.
pub(super) fn lay(things: &[Thing], width: f64) -> Drawing {
    let two = width >= TWO.0 && things.len() >= TWO.1;
    let second = two.then_some((width + GUTTER) / 2.0);
    let end = second.map_or(width, |second| second - GUTTER) - EDGE;
    let drawing = Drawing::default();
    let mut pen = Pen { things, drawing, drawn: vec![false; things.len()], row: 0, end, second };
    let of_kind = |kind: NodeKind| (0..things.len()).filter(move |index| things[*index].kind == kind);
    for service in of_kind(NodeKind::Service) {
        pen.trunk(service);
    }
    // A plant without rectifiers, and what nothing feeds.
    for root in of_kind(NodeKind::Bus).chain(0..things.len()) {
        if pen.drawn[root] || pen.awaits(root) {
            continue;
        }
        if things[root].kind == NodeKind::Bus {
            pen.bus(root);
        } else {
            pen.subtree(root, TRUNK, None);
        }
    }
    pen.drawing.height = pen.drawing.height.max(pen.row as f64 * ROW);
    pen.drawing
}

impl Pen<'_> {
    /// Whether something that feeds it is still to be drawn.
    fn awaits(&self, index: usize) -> bool {
        self.things[index].from.iter().any(|from| !self.drawn[*from])
    }

    fn feeds(&self, from: usize) -> Vec<usize> {
        (0..self.things.len()).filter(|index| self.things[*index].from.contains(&from)).collect()
    }

    /// Puts a thing into the next row.
    fn put(&mut self, index: usize, x: f64) -> f64 {
        let y = (self.row as f64 + 0.5) * ROW;
        self.row += 1;
        self.drawn[index] = true;
        let placed = Placed { index, x, y, name: x + NAME, end: self.end, breaker: None, bar: None, upright: true };
        self.drawing.placed.push(placed);
        y
    }

    fn placed(&mut self, index: usize) -> Option<&mut Placed> {
        self.drawing.placed.iter_mut().find(|placed| placed.index == index)
    }

    fn link(&mut self, from: usize, to: usize, path: String) {
        self.drawing.links.push(Link { from, to, path });
    }

    /// From the service down to what has branches.
    fn trunk(&mut self, service: usize) {
        let mut at = service;
        let mut y = self.put(at, TRUNK);
        loop {
            let next = self.feeds(at).into_iter().find(|next| {
                matches!(
                    self.things[*next].kind,
                    NodeKind::JunctionBox
                        | NodeKind::Disconnect
                        | NodeKind::Interlock
                        | NodeKind::Panel
                        | NodeKind::Bus
                ) && !self.drawn[*next]
            });
            let holds = matches!(self.things[at].kind, NodeKind::Panel | NodeKind::Bus);
            let Some(next) = next.filter(|_| !holds) else { break };
            self.branches(at, TRUNK, y, Some(next));
            let seconds: Vec<usize> =
                self.things[next].from.iter().copied().filter(|from| !self.drawn[*from]).collect();
            let seconds: Vec<_> = seconds.into_iter().map(|from| (from, self.second(from))).collect();
            let above = self.placed(at).map_or(y, |placed| placed.y);
            y = self.put(next, TRUNK);
            self.link(at, next, format!("M{TRUNK} {above}V{y}"));
            let aside = TRUNK + SECOND;
            for (from, height) in seconds {
                self.link(from, next, format!("M{aside} {height}V{y}H{TRUNK}"));
                if let Some(placed) = self.placed(next) {
                    placed.name = aside + NAME;
                }
            }
            at = next;
        }
        self.branches(at, TRUNK, y, None);
    }

    /// A second source beside the trunk: generator and inlet, one under the other.
    fn second(&mut self, inlet: usize) -> f64 {
        let x = TRUNK + SECOND;
        let mut above = None;
        for generator in self.things[inlet].from.clone() {
            if !self.drawn[generator] {
                above = Some((generator, self.put(generator, x)));
            }
        }
        let y = self.put(inlet, x);
        if let Some((generator, from)) = above {
            self.link(generator, inlet, format!("M{x} {from}V{y}"));
        }
        y
    }

    /// What a thing feeds, but for one that goes on below: a row each, loads first and rectifiers last.
    fn branches(&mut self, of: usize, x: f64, y: f64, but: Option<usize>) {
        let mut fed: Vec<usize> =
            self.feeds(of).into_iter().filter(|fed| !self.drawn[*fed] && Some(*fed) != but).collect();
        fed.sort_by_key(|fed| (rank(self.things[*fed].kind), *fed));
        let mut end = None;
        let mut bus = None;
        for index in fed {
            if self.things[index].kind == NodeKind::Bus {
                continue;
            }
            let at = self.subtree(index, x, Some((of, y)));
            end = Some(at);
            if self.things[index].kind == NodeKind::Rectifier {
                bus = self.feeds(index).first().copied();
            }
        }
        if let (Some(end), Some(placed)) = (end, self.placed(of)) {
            placed.bar = Some(end);
        }
        if let Some(bus) = bus.filter(|bus| !self.drawn[*bus] && !self.awaits(*bus)) {
            self.bus(bus);
        }
    }

    /// A branch with all that it feeds; the height of its own row.
    fn subtree(&mut self, index: usize, x: f64, from: Option<(usize, f64)>) -> f64 {
        let guarded = from.is_some_and(|(from, _)| self.things[from].protects());
        let own = match from {
            None => x,
            Some(_) if guarded => x + GUARDED,
            Some(_) => x + BARE,
        };
        let surge = self.things[index].kind == NodeKind::Surge;
        let y = self.put(index, own);
        if let Some(placed) = self.placed(index) {
            placed.upright = false;
            placed.name += if surge { GROUND } else { 0.0 };
            placed.breaker = guarded.then_some(x + BREAKER);
        }
        if let Some((from, above)) = from {
            self.link(from, index, format!("M{x} {above}V{y}H{own}"));
        }
        if self.things[index].kind == NodeKind::Rectifier {
            if let Some(placed) = self.placed(index) {
                placed.name = own + TO_BUS + NAME - 4.0;
            }
        } else {
            self.branches(index, own, y, None);
        }
        y
    }

    /// The bus, behind the last of its rectifiers.
    fn bus(&mut self, bus: usize) {
        let from: Vec<(usize, f64, f64)> = self.things[bus]
            .from
            .iter()
            .filter_map(|from| self.drawing.placed.iter().find(|placed| placed.index == *from))
            .map(|placed| (placed.index, placed.x, placed.y))
            .collect();
        let collected = from.iter().map(|(_, x, _)| x + TO_BUS).fold(TRUNK, f64::max);
        let Some(second) = self.second.take().filter(|_| !from.is_empty()) else {
            let y = self.put(bus, collected);
            for (rectifier, left, above) in from {
                self.link(rectifier, bus, format!("M{left} {above}H{collected}V{y}"));
            }
            return self.branches(bus, collected, y, None);
        };
        // Below the last rectifier to the gutter, and up in it, so that no name is crossed.
        let (below, gutter) = ((self.row as f64 + 0.25) * ROW, second - GUTTER / 2.0);
        let first = std::mem::replace(&mut self.row, 0);
        let end = std::mem::replace(&mut self.end, 2.0 * second - GUTTER - EDGE);
        let x = second + 8.0;
        let y = self.put(bus, x);
        for (rectifier, left, above) in from {
            let path = format!("M{left} {above}H{collected}V{below}H{gutter}V{y}H{x}");
            self.link(rectifier, bus, path);
        }
        self.branches(bus, x, y, None);
        self.drawing.height = (self.row as f64 * ROW).max(below + 4.0);
        (self.row, self.end) = (first + 1, end);
    }
}

/// In which order the branches of one bar are drawn.
const fn rank(kind: NodeKind) -> u32 {
    match kind {
        NodeKind::Surge => 0,
        NodeKind::Outlet => 1,
        NodeKind::Load => 3,
        NodeKind::CutOut | NodeKind::Battery => 4,
        NodeKind::Strip | NodeKind::Distribution => 5,
        NodeKind::Converter | NodeKind::Ups => 6,
        NodeKind::Inverter | NodeKind::Panel => 7,
        NodeKind::Rectifier => 8,
        _ => 2,
    }
}

#[cfg(test)]
mod tests {
    use project::new_project;
    use rules::Case;

    use super::super::things::things;
    use super::*;

    /// Each sample, laid out.
    fn check(look: impl Fn(&[Thing], &Drawing)) {
        let catalogue = catalogue::sample();
        let samples = project::samples().into_iter().map(|sample| sample.project);
        for project in samples.chain([new_project(&catalogue)]) {
            let things = things(&Case::new(&project, &catalogue));
            for width in [340.0, 590.0, 1200.0] {
                look(&things, &lay(&things, width));
            }
        }
    }

    #[test]
    fn everything_of_the_network_has_one_row_of_its_own() {
        check(|things, drawing| {
            let mut all: Vec<usize> = drawing.placed.iter().map(|placed| placed.index).collect();
            all.sort_unstable();
            assert_eq!(all, (0..things.len()).collect::<Vec<_>>());
            for (at, one) in drawing.placed.iter().enumerate() {
                let same = |other: &&Placed| (other.y - one.y).abs() < ROW - 1e-9 && (other.end - one.end).abs() < 1e-9;
                assert_eq!(drawing.placed[at + 1..].iter().find(same), None, "{one:?}");
                assert!(one.y + ROW / 2.0 <= drawing.height + 1e-9 && one.name < one.end, "{one:?}");
            }
        });
    }

    #[test]
    fn every_feed_is_a_line() {
        check(|things, drawing| {
            let feeds: usize = things.iter().map(|thing| thing.from.len()).sum();
            assert_eq!(drawing.links.len(), feeds);
            for link in &drawing.links {
                assert!(things[link.to].from.contains(&link.from), "{link:?}");
            }
        });
    }

    #[test]
    fn no_bar_runs_through_the_symbol_of_another() {
        check(|_, drawing| {
            for bar in drawing.placed.iter().filter(|placed| placed.bar.is_some()) {
                let end = bar.bar.unwrap();
                let through = |other: &&Placed| {
                    (other.end - bar.end).abs() < 1e-9
                        && other.index != bar.index
                        && other.y > bar.y
                        && other.y < end
                        && (other.x - bar.x).abs() < 10.0
                };
                assert_eq!(drawing.placed.iter().find(through), None, "{bar:?}");
            }
        });
    }
}
