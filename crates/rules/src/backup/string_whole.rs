//! **B10 `string-whole`** – do the batteries make whole strings, all alike?
//!
//! n_left = 0;  n_series · n_block ∈ {24 lead; 15, 16 lithium; 38 nickel}
//!
//! - n_left    batteries that make no whole string            [–]
//! - n_series  batteries in series                            [–]
//! - n_block   cells of each                                  [–]
//!
//! Source:      string arithmetic of −48 V plants; common practice.
//! Valid for:   one bus of −48 V.
//! Agreement:   tests/published/backup.toml, T09-01.
//! Not covered: age of the strings: old and new ones side by side share badly.
//!
//! Strings of different chemistry or of different numbers of cells do not share a bus: one would drain into the other.

use project::ItemId;
use units::Kind;

use super::figures::figures;
use super::plant::{Gathered, Strings, unsaid_of};
use crate::power::all_fed::CAUTION;
use crate::sources::{CATALOGUE, CELLS, PRACTICE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count};

/// The check.
pub static CHECK: Check = Check {
    code: "B10",
    name: "string-whole",
    topic: Topic::Backup,
    question: "Do the batteries make whole strings, all alike?",
    formula: "n_left = 0;  n_series · n_block ∈ {24 lead; 15, 16 lithium; 38 nickel}",
    symbols: &[
        Symbol { symbol: "n_left", meaning: "batteries that make no whole string", kind: Kind::Count },
        Symbol { symbol: "n_series", meaning: "batteries in series", kind: Kind::Count },
        Symbol { symbol: "n_block", meaning: "cells of each", kind: Kind::Count },
    ],
    sources: &[&CELLS, &CATALOGUE, &PRACTICE],
    valid: "one bus of −48 V",
    leaves_out: "age of the strings: old and new ones side by side share badly",
    caution: Some(CAUTION),
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let subject = Subject::Supply;
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let gathered = Gathered::of(case);
    if gathered.is_empty() {
        return vec![Finding::holds(check, subject, "no battery is fitted")];
    }
    let mut findings: Vec<Finding> = gathered.odd.iter().map(|id| odd(check, case, *id)).collect();
    findings
        .extend(gathered.strings.iter().filter(|strings| strings.left_over() > 0).map(|some| left(check, case, some)));
    findings.extend(unlike(check, &gathered));
    findings.extend(
        gathered.unsaid.iter().map(|id| Finding::needs_data(check, Subject::Device(*id), unsaid_of(case, *id))),
    );
    if findings.is_empty() {
        let strings: u32 = gathered.strings.iter().map(|strings| strings.count).sum();
        let tells = Finding::tells(check, subject, count(strings as usize));
        findings.push(tells.because("every battery belongs to a whole string"));
    }
    findings[0].working = working(&gathered);
    findings
}

fn odd(check: &Check, case: &Case, id: ItemId) -> Finding {
    let Some(device) = case.device(id) else { return Finding::needs_data(check, Subject::Device(id), "a battery") };
    let cells = device.spec.electrical.cells.map_or(0, |cells| cells.count);
    let Some(of) = device.spec.chemistry.map(figures) else {
        return Finding::needs_data(check, Subject::Device(id), "cells");
    };
    let why =
        format!("{cells} cells of {} make no string of {}, however many are put in series", of.name, wanted(of.string));
    Finding::fails(check, Subject::Device(id), why).about(case.name(device)).help("Choose a battery for −48 V")
}

fn wanted(cells: &[u32]) -> String {
    cells.iter().map(u32::to_string).collect::<Vec<_>>().join(" or ")
}

fn left(check: &Check, case: &Case, strings: &Strings) -> Finding {
    let (left, series) = (strings.left_over(), strings.in_series);
    let last = strings.batteries.last().copied();
    let subject = last.map_or(Subject::Supply, Subject::Device);
    let name = last.and_then(|id| case.device(id)).map(|device| case.name(device)).unwrap_or_default();
    let why = format!("{left} left over: {series} in series make a string of {} cells", strings.cells());
    let help = Phrase::from(format!("{} more, or {left} fewer, would make whole strings", series - left));
    Finding::fails(check, subject, why).about(name).help(help)
}

fn unlike(check: &Check, gathered: &Gathered) -> Option<Finding> {
    let mut whole = gathered.strings.iter().filter(|strings| strings.count > 0);
    let first = whole.next()?;
    let other = whole.find(|strings| strings.chemistry != first.chemistry || strings.cells() != first.cells())?;
    let name = |strings: &Strings| format!("{} cells of {}", strings.cells(), figures(strings.chemistry).name);
    let why = format!("strings of {} and of {} do not share a bus", name(first), name(other));
    Some(Finding::fails(check, Subject::Supply, why).help("Keep to one kind of string"))
}

fn working(gathered: &Gathered) -> Vec<Step> {
    let mut steps = Vec::new();
    for strings in &gathered.strings {
        let name = figures(strings.chemistry).name;
        let of = |number: u32| count(number as usize);
        let meaning = format!("cells of each battery of {name}");
        steps.push(Step::input("n_block", meaning, of(strings.block.count)).from_source(&CATALOGUE));
        steps.push(Step::input("n_series", "in series", of(strings.in_series)).from_source(&CELLS));
        steps.push(Step::input("n", "whole strings", of(strings.count)));
        steps.push(Step::input("n_left", "left over", of(strings.left_over())));
    }
    steps
}

#[cfg(test)]
mod tests {
    use catalogue::Device;

    use super::super::testing::{lead, lithium, plant};
    use super::*;
    use crate::Outcome;

    #[track_caller]
    fn check(batteries: Vec<Device>, outcome: Outcome, strings: Option<f64>) {
        let found = plant(batteries, vec![]).run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{found:?}");
        assert_eq!(found.given.map(|given| given.number), strings, "{found:?}");
    }

    fn blocks(count: usize) -> Vec<Device> {
        std::iter::repeat_n(lead(6, 100.0), count).collect()
    }

    #[test]
    fn four_blocks_make_a_string() {
        check(blocks(4), Outcome::Holds, Some(1.0));
        check(blocks(8), Outcome::Holds, Some(2.0));
        check(blocks(3), Outcome::Fails, None);
        check(blocks(5), Outcome::Fails, None);
        check(vec![lead(24, 100.0), lead(24, 50.0)], Outcome::Holds, Some(2.0));
        check(vec![], Outcome::Holds, None);
    }

    #[test]
    fn blocks_of_different_size_are_not_put_in_series() {
        let mut mixed = blocks(3);
        mixed.push(lead(6, 60.0));
        check(mixed, Outcome::Fails, None);
    }

    #[test]
    fn what_does_not_share_a_bus_is_told() {
        check(vec![lead(24, 100.0), lithium(15, 100.0)], Outcome::Fails, None);
        check(vec![lithium(16, 100.0), lithium(15, 100.0)], Outcome::Fails, None);
        check(vec![lead(5, 100.0)], Outcome::Fails, None);
        check(vec![lithium(8, 100.0), lithium(8, 100.0)], Outcome::Holds, Some(1.0));
    }

    #[test]
    fn asks_for_what_nobody_has_said() {
        let no_cells = Device { electrical: catalogue::Electrical::default(), ..lead(24, 100.0) };
        check(vec![no_cells], Outcome::NeedsData, None);
        check(vec![Device { chemistry: None, ..lead(24, 100.0) }], Outcome::NeedsData, None);
    }
}
