//! A stretch: the time between two events, in which the rooms are linear and solved in one piece.

use super::curve::{Band, Curve, Turns};
use super::modes::{Gone, Modes};

/// The nodes of the rooms and what acts on them in a stretch. Order: mass, air of one room; mass, air, air, mass of two.
#[derive(Clone, Debug)]
pub struct Nodes<const N: usize> {
    /// °C.
    pub temperature: [f64; N],
    /// 1/√C, √(K/J).
    root: [f64; N],
    /// Conductance to the next node, W/K.
    link: [f64; N],
    /// Entries of the matrix beside its diagonal, 1/s.
    beside: [f64; N],
    /// Heat into each node if all were at 0 °C, W.
    pub source: [f64; N],
    /// Conductance of each node to what has no node, W/K.
    pub loss: [f64; N],
    kept: [Modes<N>; KEPT],
    next: usize,
}

/// Modes kept at once: as many sets of running units as commonly take turns within a step.
const KEPT: usize = 4;

/// What became of a stretch.
#[derive(Clone, Copy, Debug)]
pub struct Stretch<const N: usize> {
    /// Its length, s.
    pub seconds: f64,
    /// ∫T of each node over it, K·s.
    pub integral: [f64; N],
    /// Highest and lowest air of each room within it, °C.
    pub range: [(f64, f64); 2],
    /// The room whose air left its band, and whether upward.
    pub event: Option<(usize, bool)>,
}

/// The node of a room's air.
pub const fn air(room: usize) -> usize {
    1 + room
}

/// The node of a room's mass.
pub const fn mass(room: usize) -> usize {
    3 * room
}

impl<const N: usize> Nodes<N> {
    /// Nodes of these capacities (J/K), each linked to the next (W/K), at these temperatures.
    pub fn new(capacity: [f64; N], link: [f64; N], temperature: [f64; N]) -> Self {
        let root = capacity.map(|capacity| 1.0 / capacity.sqrt());
        let mut beside = [0.0; N];
        for node in 1..N {
            beside[node - 1] = -link[node - 1] * root[node - 1] * root[node];
        }
        let none = [0.0; N];
        Self { temperature, root, link, beside, source: none, loss: none, kept: [Modes::NONE; KEPT], next: 0 }
    }

    /// Goes on for `most` seconds, or until the air of a room leaves its band.
    pub fn go(&mut self, most: f64, bands: &[Band]) -> Stretch<N> {
        let modes = self.modes();
        // Modal slope at the start: g = Σ share·(heat into the node)
        let heat = self.heat();
        let mut slope = [0.0; N];
        for (slope, share) in slope.iter_mut().zip(&modes.share) {
            for node in 0..N {
                *slope += share[node] * heat[node];
            }
        }
        let curve = |room: usize| {
            let node = air(room);
            let mut weight = [0.0; N];
            for mode in 0..N {
                weight[mode] = modes.share[mode][node] * slope[mode];
            }
            Curve { modes: &modes, start: self.temperature[node], weight }
        };
        let mut seconds = most;
        let mut gone = modes.gone(seconds);
        let mut event = None;
        let mut turns = [Turns::default(); 2];
        for (room, band) in bands.iter().enumerate() {
            let curve = curve(room);
            let (first, last) = (curve.first(), curve.point(seconds, &gone));
            turns[room] = curve.turns(&first, &last);
            if let Some((point, up)) = curve.leaves(*band, &first, &last, &turns[room]) {
                event = Some((room, up));
                seconds = point.at;
                gone = modes.gone(seconds);
            }
        }
        self.finish(&modes, &slope, &gone, seconds, event, &turns[..bands.len()])
    }

    /// Moves the nodes to the end of the stretch.
    fn finish(
        &mut self,
        modes: &Modes<N>,
        slope: &[f64; N],
        gone: &Gone<N>,
        seconds: f64,
        event: Option<(usize, bool)>,
        turns: &[Turns],
    ) -> Stretch<N> {
        let twice = modes.twice(seconds, gone);
        let mut stretch = Stretch { seconds, integral: [0.0; N], range: [(0.0, 0.0); 2], event };
        let start = self.temperature;
        for node in 0..N {
            let (mut rise, mut area) = (0.0, 0.0);
            for mode in 0..N {
                let weight = modes.share[mode][node] * slope[mode];
                rise += weight * gone.once[mode];
                area += weight * twice[mode];
            }
            self.temperature[node] += rise;
            stretch.integral[node] = start[node] * seconds + area;
        }
        for (room, turns) in turns.iter().enumerate() {
            let (first, last) = (start[air(room)], self.temperature[air(room)]);
            let (mut low, mut high) = (first.min(last), first.max(last));
            for (at, value) in &turns.points[..turns.count] {
                if *at < seconds {
                    low = low.min(*value);
                    high = high.max(*value);
                }
            }
            stretch.range[room] = (low, high);
        }
        stretch
    }

    /// Heat into each node at the start, W.
    fn heat(&self) -> [f64; N] {
        let t = &self.temperature;
        let mut heat = [0.0; N];
        for node in 0..N {
            heat[node] += self.source[node] - self.loss[node] * t[node];
            if node + 1 < N {
                let across = self.link[node] * (t[node + 1] - t[node]);
                heat[node] += across;
                heat[node + 1] -= across;
            }
        }
        heat
    }

    /// The modes of the present conductances: kept ones, or found anew.
    fn modes(&mut self) -> Modes<N> {
        let mut diagonal = [0.0; N];
        for node in 0..N {
            let before = if node > 0 { self.link[node - 1] } else { 0.0 };
            let after = if node + 1 < N { self.link[node] } else { 0.0 };
            diagonal[node] = (self.loss[node] + before + after) * self.root[node] * self.root[node];
        }
        if let Some(kept) = self.kept.iter().find(|kept| kept.diagonal == diagonal) {
            return *kept;
        }
        let modes = Modes::of(diagonal, &self.beside, &self.root);
        self.kept[self.next] = modes;
        self.next = (self.next + 1) % KEPT;
        modes
    }
}
