//! A stretch: the time between two events, in which the rooms are linear and solved in one piece.

use super::curve::{Band, Curve, Point};
use super::modes::Modes;
use super::search::{Expected, Search};

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
    habits: [Habits; 2],
}

/// Modes kept at once: as many sets of running units as commonly take turns within a step.
const KEPT: usize = 4;

/// How far off the guess was of when the air of a room meets a limit. Cycles are alike: it will be so again.
#[derive(Clone, Debug)]
struct Habits {
    /// Limits met of late, °C.
    limit: [f64; LIMITS],
    /// True over guessed time, the last time each was met.
    bias: [f64; LIMITS],
    next: usize,
}

/// Limits that a cycle commonly meets: of thermostats and of rows of a map.
const LIMITS: usize = 4;

impl Habits {
    const NONE: Self = Self { limit: [f64::NAN; LIMITS], bias: [1.0; LIMITS], next: 0 };

    fn place(&self, limit: f64) -> Option<usize> {
        self.limit.iter().position(|known| *known == limit)
    }

    fn bias(&self, limit: f64) -> f64 {
        self.place(limit).map_or(1.0, |place| self.bias[place])
    }

    fn learn(&mut self, limit: f64, bias: f64) {
        let place = self.place(limit).unwrap_or_else(|| {
            self.next = (self.next + 1) % LIMITS;
            self.limit[self.next] = limit;
            self.next
        });
        self.bias[place] = bias.clamp(0.2, 5.0);
    }
}

/// What became of a stretch.
#[derive(Clone, Copy, Debug)]
pub struct Stretch<const N: usize> {
    /// Its length, s.
    pub seconds: f64,
    /// ∫T of each node over it, K·s.
    pub integral: [f64; N],
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
        Self {
            temperature,
            root,
            link,
            beside,
            source: none,
            loss: none,
            kept: [Modes::NONE; KEPT],
            next: 0,
            habits: [Habits::NONE; 2],
        }
    }

    /// Goes on for `most` seconds, or until the air of a room leaves its band; widens what has been `seen` of each room.
    pub fn go(&mut self, most: f64, bands: &[Band; 2], seen: &mut [Band; 2]) -> Stretch<N> {
        let heat = self.heat();
        let place = self.modes();
        let modes = &self.kept[place];
        // weight = share · Σ share·(heat into the node)
        let mut weight = [[0.0; N]; N];
        for (mode, share) in modes.share.iter().enumerate() {
            let mut slope = 0.0;
            for node in 0..N {
                slope += share[node] * heat[node];
            }
            for node in 0..N {
                weight[node][mode] = share[node] * slope;
            }
        }
        let curve = |room: usize| Curve::new(modes, self.temperature[air(room)], weight[air(room)]);
        let pair = [curve(0), curve(N / 2 - 1)];
        // As many as there are rooms.
        let (curves, bands) = (&pair[..N / 2], &bands[..N / 2]);
        let first = [pair[0].first(), pair[1].first()];
        let search = Search { curves, bands };
        let expected = expected(&self.habits, &first, bands);
        let (gone, event) =
            search.at(&expected, &first, most, seen).unwrap_or_else(|| search.through(&first, most, seen));
        if let Some((room, up)) = event
            && (room, up) == (expected.room, expected.up)
        {
            self.habits[room].learn(bands[room].end(up), gone.seconds / expected.wait);
        }
        let seconds = gone.seconds;
        let twice = modes.twice(&gone);
        let mut stretch = Stretch { seconds, integral: [0.0; N], event };
        for node in 0..N {
            let (mut rise, mut area) = (0.0, 0.0);
            for mode in 0..N {
                rise += weight[node][mode] * gone.once[mode];
                area += weight[node][mode] * twice[mode];
            }
            stretch.integral[node] = self.temperature[node] * seconds + area;
            self.temperature[node] += rise;
        }
        for room in 0..N / 2 {
            seen[room].take(self.temperature[air(room)]);
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

    /// The place of the modes of the present conductances: kept ones, or found anew.
    fn modes(&mut self) -> usize {
        let mut diagonal = [0.0; N];
        for node in 0..N {
            let before = if node > 0 { self.link[node - 1] } else { 0.0 };
            let after = if node + 1 < N { self.link[node] } else { 0.0 };
            diagonal[node] = (self.loss[node] + before + after) * self.root[node] * self.root[node];
        }
        if let Some(place) = self.kept.iter().position(|kept| kept.diagonal == diagonal) {
            return place;
        }
        let place = self.next;
        self.kept[place] = Modes::of(diagonal, &self.beside, &self.root);
        self.next = (place + 1) % KEPT;
        place
    }
}

/// Which room is expected to leave its band first.
fn expected(habits: &[Habits; 2], first: &[Point; 2], bands: &[Band]) -> Expected {
    let mut nearest = Expected { room: 0, up: false, wait: f64::INFINITY, guess: f64::INFINITY };
    for (room, band) in bands.iter().enumerate() {
        let (wait, up) = first[room].leaving(*band);
        if wait < f64::INFINITY {
            let guess = wait * habits[room].bias(band.end(up));
            if guess < nearest.guess {
                nearest = Expected { room, up, wait, guess };
            }
        }
    }
    nearest
}
