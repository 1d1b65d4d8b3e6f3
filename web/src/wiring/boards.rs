//! Load centres and distributions as they are scheduled: which breaker stands in which position. Plain data, so that it is
//! drawn anew only when it differs.

use project::{Fed, ItemId};
use rules::Case;
use rules::power::circuits::names::phase_letters;
use rules::power::circuits::{Circuit, Circuits, Misplaced, PanelSchedule, phase_letter};
use units::{Kind, System, Value, show};

use super::feeding::is_free;
use super::things::{Thing, things};
use crate::editor::Editor;
use crate::lean::Memo;

/// A load centre or a distribution.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Board {
    /// The device.
    pub(super) device: ItemId,
    /// Its name and place.
    pub(super) name: String,
    /// Whether it is of direct current, whose ways stand one below the other.
    pub(super) direct: bool,
    /// Positions.
    pub(super) positions: u32,
    /// Positions that are taken.
    pub(super) taken: u32,
    /// Rated current of its bus, A.
    pub(super) bus: f64,
    /// Load of all its circuits, VA; of direct current, W.
    pub(super) load: f64,
    /// Load of each phase it has, by letter, VA.
    pub(super) phases: Vec<(char, f64)>,
    /// Its breakers.
    pub(super) breakers: Vec<Breaker>,
}

/// A breaker, and what it feeds.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Breaker {
    /// Its first position; none when no place is left.
    pub(super) position: Option<u32>,
    /// Its poles.
    pub(super) poles: u32,
    /// What it feeds.
    pub(super) load: Option<Fed>,
    /// Whether it may be moved.
    pub(super) free: bool,
    /// The source that the user chose, if he did.
    pub(super) chosen: Option<ItemId>,
    /// Name of what it feeds.
    pub(super) name: String,
    /// Its rated current, A; none when none is large enough.
    pub(super) amperes: Option<f64>,
    /// Size of its conductors, and of the one that grounds.
    pub(super) wire: Option<(&'static str, Option<&'static str>)>,
    /// The phases it hangs on.
    pub(super) legs: String,
    /// What it carries, VA or W.
    pub(super) power: f64,
    /// What it carries, A.
    pub(super) carries: f64,
    /// One way, m.
    pub(super) length: Option<f64>,
    /// Why it does not stand where it was asked for.
    pub(super) misplaced: Option<String>,
}

impl Board {
    /// The breaker that takes a position.
    pub(super) fn at(&self, position: u32) -> Option<&Breaker> {
        self.breakers.iter().find(|breaker| breaker.takes(position, self.direct))
    }

    /// Where a key leads from a position: columns are odd and even, ways of direct current run down.
    pub(super) fn step(&self, from: u32, key: &str) -> Option<u32> {
        let half = self.positions.div_ceil(2);
        let to = match (key, self.direct) {
            ("ArrowUp", false) => from.checked_sub(2)?,
            ("ArrowDown", false) => from + 2,
            ("ArrowLeft", false) if from.is_multiple_of(2) => from - 1,
            ("ArrowRight", false) if !from.is_multiple_of(2) => from + 1,
            ("ArrowUp", true) => from.checked_sub(1)?,
            ("ArrowDown", true) => from + 1,
            ("ArrowLeft", true) => from.checked_sub(half)?,
            ("ArrowRight", true) => from + half,
            _ => return None,
        };
        (1..=self.positions).contains(&to).then_some(to)
    }

    /// Row and column of a position, each counted from 1.
    pub(super) fn cell(&self, position: u32) -> (u32, u32) {
        let half = self.positions.div_ceil(2);
        match self.direct {
            true if position > half => (position - half, 2),
            true => (position, 1),
            false => (position.div_ceil(2), if position.is_multiple_of(2) { 2 } else { 1 }),
        }
    }

    /// Load in words.
    pub(super) fn power_words(&self, power: f64, units: System) -> String {
        let kind = if self.direct { Kind::Power } else { Kind::ApparentPower };
        show(Value::new(power, kind), units).to_string()
    }
}

impl Breaker {
    /// Whether it takes a position: of a load centre every second one, as many as it has poles.
    fn takes(&self, position: u32, direct: bool) -> bool {
        let step = if direct { 1 } else { 2 };
        self.position.is_some_and(|first| (0..self.poles).any(|pole| first + step * pole == position))
    }

    /// "1", "1 and 3".
    pub(super) fn place(&self) -> String {
        let Some(first) = self.position else { return "no position".to_owned() };
        let all: Vec<_> = (0..self.poles).map(|pole| (first + 2 * pole).to_string()).collect();
        all.join("/")
    }

    /// Breaker and conductors in words: "20 A, 12 AWG, AB".
    pub(super) fn words(&self) -> String {
        let breaker = self.amperes.map_or_else(|| "no breaker is large enough".to_owned(), amperes);
        let wire = self.wire.map_or_else(|| "no wire is large enough".to_owned(), |(wire, _)| wire.to_owned());
        let legs = if self.legs.is_empty() { String::new() } else { format!(", {}", self.legs) };
        format!("{breaker}, {wire}{legs}")
    }
}

/// "20 A".
pub(super) fn amperes(amperes: f64) -> String {
    show(Value::new(amperes, Kind::Current), System::Metric).to_string()
}

/// All boards of a case, load centres first.
pub(super) fn boards(case: &Case) -> Vec<Board> {
    let all = case.circuits();
    let things = things(case);
    let board = |panel: &PanelSchedule| {
        let breakers = panel.circuits.iter().filter_map(|index| {
            let circuit = all.circuits.get(*index)?;
            Some(breaker(case, panel, *index, circuit, things.get(circuit.node)?))
        });
        Board {
            device: panel.device,
            name: things.get(panel.hub).map_or_else(String::new, |thing| thing.full.clone()),
            direct: panel.direct,
            positions: panel.positions,
            taken: panel.taken(all),
            bus: panel.bus,
            load: panel.load(all),
            phases: phases(panel, all),
            breakers: breakers.collect(),
        }
    };
    all.panels.iter().map(board).collect()
}

fn phases(panel: &PanelSchedule, all: &Circuits) -> Vec<(char, f64)> {
    if panel.direct || all.phase_count < 2 {
        return Vec::new();
    }
    panel.phases.iter().take(all.phase_count).enumerate().map(|(at, load)| (phase_letter(at), *load)).collect()
}

fn breaker(case: &Case, panel: &PanelSchedule, index: usize, circuit: &Circuit, thing: &Thing) -> Breaker {
    let chosen = case.project.build.feeds.iter().find(|feed| Some(feed.load) == thing.of);
    let conflict = panel.conflicts.iter().find(|conflict| conflict.circuit == index);
    let misplaced = conflict.map(|conflict| match conflict.why {
        Misplaced::Beyond => format!("there is no position {}", conflict.position),
        Misplaced::Taken => format!("position {} is taken", conflict.position),
    });
    Breaker {
        position: circuit.position,
        poles: circuit.poles,
        load: thing.of,
        free: is_free(thing.kind),
        chosen: chosen.and_then(|chosen| chosen.from),
        name: thing.name.clone(),
        amperes: circuit.breaker,
        wire: circuit.wire.map(|wire| (wire.size.name(), wire.ground.map(|ground| ground.name()))),
        legs: phase_letters(circuit),
        power: circuit.load.total(),
        carries: circuit.amperes,
        length: circuit.length,
        misplaced,
    }
}

/// All boards of the project as it is, and as it changes.
pub(super) fn all_boards(editor: Editor) -> Memo<Vec<Board>> {
    Memo::new(move |_| boards(&Case::new(&editor.project(), &editor.catalogue())))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn board(direct: bool) -> Board {
        Board {
            device: ItemId(1),
            name: String::new(),
            direct,
            positions: 12,
            taken: 0,
            bus: 100.0,
            load: 0.0,
            phases: Vec::new(),
            breakers: Vec::new(),
        }
    }

    #[track_caller]
    fn check(direct: bool, from: u32, key: &str, to: Option<u32>) {
        assert_eq!(board(direct).step(from, key), to, "{key} from {from}");
    }

    #[test]
    fn odd_positions_stand_left_of_even_ones() {
        check(false, 3, "ArrowUp", Some(1));
        check(false, 1, "ArrowUp", None);
        check(false, 2, "ArrowUp", None);
        check(false, 11, "ArrowDown", None);
        check(false, 3, "ArrowRight", Some(4));
        check(false, 4, "ArrowRight", None);
        check(false, 4, "ArrowLeft", Some(3));
        assert_eq!((board(false).cell(3), board(false).cell(4)), ((2, 1), (2, 2)));
    }

    #[test]
    fn ways_of_direct_current_run_down() {
        check(true, 3, "ArrowUp", Some(2));
        check(true, 3, "ArrowRight", Some(9));
        check(true, 9, "ArrowLeft", Some(3));
        check(true, 12, "ArrowDown", None);
        assert_eq!((board(true).cell(6), board(true).cell(7)), ((6, 1), (1, 2)));
    }
}
