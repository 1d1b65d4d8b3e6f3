//! **B08 `hydrogen`** – how much air does the hydrogen of the batteries ask for, and which openings?
//!
//! Q = 0.05 · Σ n · I_gas · C · 10⁻³;  A = 28 · Q
//!
//! - Q      air flow through the room of the batteries, on boost                                  [m³/h]
//! - n      cells                                                                                 [–]
//! - I_gas  valve-regulated lead 1 on float, 8 on boost; vented nickel 5 and 50                   [mA/Ah]
//! - C      rated capacity                                                                        [Ah]
//! - A      free area of the opening below, and of that above as much                             [cm²]
//!
//! Source:      IEC 62485-2 (EN 50272-2 before), read in public pages; the currents of nickel from memory.
//! Valid for:   natural air flow through openings on opposite sides.
//! Agreement:   tests/published/backup.toml, T09-12 to T09-14, exact.
//! Not covered: whether the cabinet has these openings: none are drawn, so this check tells what is asked for and does not
//!              judge it. A room that units keep shut needs them all the same. Sealed lithium gives no hydrogen in use.

use project::ItemId;
use units::{CubicMetresPerHour, Kind, Value};

use super::HYDROGEN_CAUTION;
use super::formulas::hydrogen::{Gas, flow, gas, opening};
use super::plant::unsaid_of;
use crate::heat::heat_sources::{Room, room};
use crate::heat::walls::{compartment_name, compartments};
use crate::network::NodeKind;
use crate::sources::{CATALOGUE, IEC_62485_2};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "B08",
    name: "hydrogen",
    topic: Topic::Backup,
    question: "How much air does the hydrogen of the batteries ask for, and which openings?",
    formula: "Q = 0.05 · Σ n · I_gas · C · 10⁻³;  A = 28 · Q",
    symbols: &[
        Symbol { symbol: "Q", meaning: "air flow through the room of the batteries", kind: Kind::AirFlow },
        Symbol { symbol: "n", meaning: "cells", kind: Kind::Count },
        Symbol { symbol: "C", meaning: "rated capacity", kind: Kind::Charge },
        Symbol {
            symbol: "A",
            meaning: "free area of the opening below, and of that above as much",
            kind: Kind::SmallArea,
        },
    ],
    sources: &[&IEC_62485_2, &CATALOGUE],
    valid: "natural air flow through openings on opposite sides",
    leaves_out: "whether the cabinet has these openings, which are not drawn",
    caution: Some(HYDROGEN_CAUTION),
    asked: None,
    run,
};

/// What the batteries of a room ask for.
struct Asking {
    room: Room,
    float: f64,
    boost: f64,
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    vec![case.lacking(check).unwrap_or_else(|| judge(check, case))]
}

fn judge(check: &Check, case: &Case) -> Finding {
    let subject = Subject::Supply;
    let mut asking: Vec<Asking> = Vec::new();
    let mut sealed = false;
    let batteries = case.network.of_kind(NodeKind::Battery).filter_map(|(_, node)| case.device(node.item()?));
    for device in batteries {
        let (Some(chemistry), Some(room)) = (device.spec.chemistry, room(case, device)) else {
            return unsaid(check, case, device.fitted.id);
        };
        let Some(Gas { float, boost }) = gas(chemistry) else {
            sealed = true;
            continue;
        };
        let Some(cells) = device.spec.electrical.cells else { return unsaid(check, case, device.fitted.id) };
        let of = |gas: f64| flow(f64::from(cells.count), gas, cells.amp_hours);
        match asking.iter_mut().find(|asking| asking.room == room) {
            Some(asking) => {
                asking.float += of(float);
                asking.boost += of(boost);
            }
            None => asking.push(Asking { room, float: of(float), boost: of(boost) }),
        }
    }
    let Some(most) = asking.iter().max_by(|a, b| a.boost.total_cmp(&b.boost)) else {
        let why = if sealed { "sealed lithium gives no hydrogen in use" } else { "no battery is fitted" };
        return Finding::holds(check, subject, why);
    };
    let area = |flow: f64| Value::new(opening(flow), Kind::SmallArea);
    let mut steps = Vec::new();
    for one in &asking {
        let place = match one.room {
            Room::Plinth => Phrase::from("the plinth"),
            Room::Compartment(index) if compartments(case) > 1 => compartment_name(case, index),
            Room::Compartment(_) => Phrase::from("the cabinet"),
        };
        let meaning = |words: &str| Phrase::from(words).then(place.clone());
        steps.push(
            Step::input("Q_float", meaning("air flow on float, "), CubicMetresPerHour(one.float))
                .from_source(&IEC_62485_2),
        );
        steps.push(
            Step::input("Q", meaning("air flow on boost, "), CubicMetresPerHour(one.boost)).from_source(&IEC_62485_2),
        );
        let numbers = Phrase::from("28 × ").number(CubicMetresPerHour(one.boost));
        let meaning = meaning("each opening, below and above, ");
        steps.push(Step::computed("A", meaning, "28 · Q", numbers, area(one.boost)).from_source(&IEC_62485_2));
    }
    let why =
        Phrase::from("asks for openings of ").value(area(most.boost)).text(" each, below and above; none are drawn");
    Finding::tells(check, subject, area(most.boost)).because(why).working(steps)
}

fn unsaid(check: &Check, case: &Case, id: ItemId) -> Finding {
    Finding::needs_data(check, Subject::Device(id), unsaid_of(case, id))
}

#[cfg(test)]
mod tests {
    use catalogue::Chemistry;

    use super::super::testing::{battery, direct, lead, lithium, plant};
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};

    #[track_caller]
    fn check(desk: &Desk, area: Option<f64>) {
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::Holds, "{found:?}");
        let near = match (found.given, area) {
            (Some(given), Some(area)) => (given.number - area).abs() < 1e-9,
            (given, area) => given.is_none() && area.is_none(),
        };
        assert!(near, "{found:?} instead of {area:?}");
    }

    #[test]
    fn openings_grow_with_the_capacity() {
        // 0.05 · 24 · 8 · 100 / 1000 = 0.96 m³/h, 26.88 cm²
        check(&plant(vec![lead(24, 100.0)], vec![]), Some(26.88));
        check(&plant(vec![lead(24, 150.0), lead(24, 150.0)], vec![]), Some(80.64));
        check(&plant(vec![battery(Chemistry::Nickel, 38, 100.0)], vec![]), Some(266.0));
    }

    #[test]
    fn sealed_lithium_and_no_battery_ask_for_nothing() {
        check(&plant(vec![lithium(15, 100.0)], vec![]), None);
        check(&plant(vec![], vec![direct(1.0)]), None);
    }

    #[test]
    fn rooms_are_told_apart() {
        let mut desk = plant(vec![lead(24, 100.0)], vec![]);
        let place = desk.plinth();
        desk.add(lead(24, 200.0), place);
        check(&desk, Some(53.76));
        assert!((step(&desk.run(&CHECK)[0], "A") - 26.88).abs() < 1e-9);
    }

    #[test]
    fn asks_what_the_cells_are() {
        let silent = catalogue::Device { chemistry: None, ..lead(24, 100.0) };
        assert_eq!(plant(vec![silent], vec![]).run(&CHECK)[0].outcome, Outcome::NeedsData);
    }
}
