//! **Y08 `peak-shares`** – where does the heat of the hottest hour of the year come from, and where does it go?
//!
//! Q_dev + Q_sun + Q_env + Q_div + Q_units + Q_store = 0
//!
//! - Q_dev    from the devices, losses of conversion and fans included   [W]
//! - Q_sun    from the sun on the skin                                   [W]
//! - Q_env    through the envelope, sun apart: what the others leave     [W]
//! - Q_div    from the room next door                                    [W]
//! - Q_units  from the units; negative when they cool                    [W]
//! - Q_store  out of devices and air; negative while they warm up        [W]
//! - Q_in     all that comes in: the sum of what is positive             [W]
//!
//! Source:      the run over the year (`course`), means of the hour in which the room is hottest.
//! Valid for:   as Y01.
//! Agreement:   the six sum to zero within a thousandth of Q_in, or the check fails. The run finds Q_env from the others:
//!              whether its balance closes is told by Y13.
//! Not covered: as Y01. Where sun and envelope part is a matter of definition: the sun's share is what would be missing if
//!              the faces had none.
//!
//! Nobody sets a limit: it tells, each room for itself.

use units::{Kind, Value};

use super::given::judged;
use super::rests_on;
use super::words::{joined, room_name, room_subject, watts};
use crate::course::{Course, Peak};
use crate::sources::STEPPED_BALANCE;
use crate::{Case, Check, Finding, Phrase, Step, Symbol, Topic};

/// Share of what comes in that the sum may be off zero.
const CLOSED: f64 = 1e-3;
/// Shares below this are not told in words.
const LEAST_SHARE: f64 = 0.005;

/// The check.
pub static CHECK: Check = Check {
    code: "Y08",
    name: "peak-shares",
    topic: Topic::Year,
    question: "Where does the heat of the hottest hour of the year come from, and where does it go?",
    formula: "Q_dev + Q_sun + Q_env + Q_div + Q_units + Q_store = 0",
    symbols: &[
        Symbol { symbol: "Q_dev", meaning: "from the devices, losses and fans included", kind: Kind::Power },
        Symbol { symbol: "Q_sun", meaning: "from the sun on the skin", kind: Kind::Power },
        Symbol {
            symbol: "Q_env",
            meaning: "through the envelope, sun apart: what the others leave",
            kind: Kind::Power,
        },
        Symbol { symbol: "Q_div", meaning: "from the room next door", kind: Kind::Power },
        Symbol { symbol: "Q_units", meaning: "from the units; negative when they cool", kind: Kind::Power },
        Symbol { symbol: "Q_store", meaning: "out of devices and air; negative while they warm up", kind: Kind::Power },
        Symbol { symbol: "Q_in", meaning: "all that comes in: the sum of what is positive", kind: Kind::Power },
    ],
    sources: rests_on::YEAR,
    valid: "as Y01; means of the hour in which the room is hottest",
    leaves_out: "as Y01; the sun's share is what would be missing if the faces had none, and whether the run closes is told by Y13",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| Some((0..course.rooms.len()).map(|room| tell(check, course, room)).collect()))
}

/// A part of a peak: symbol, word, meaning, W.
type Part = (&'static str, &'static str, &'static str, f64);

/// The six parts of a peak.
fn parts(peak: &Peak) -> [Part; 6] {
    [
        ("Q_dev", "devices", "from the devices", peak.devices),
        ("Q_sun", "sun", "from the sun on the skin", peak.sun),
        ("Q_env", "envelope", "through the envelope, sun apart: what the others leave", peak.envelope),
        ("Q_div", "room next door", "from the room next door", peak.divider),
        ("Q_units", "units", "from the units", peak.units),
        ("Q_store", "store", "out of devices and air", peak.stored),
    ]
}

fn tell(check: &Check, course: &Course, room: usize) -> Finding {
    let peak = &course.peaks[room];
    let parts = parts(peak);
    let incoming = parts.iter().fold(0.0, |sum, part| sum + part.3.max(0.0));
    let rest = parts.iter().fold(0.0, |sum, part| sum + part.3);

    let mut working: Vec<_> =
        parts.iter().map(|(symbol, _, meaning, heat)| Step::input(symbol, *meaning, watts(*heat))).collect();
    let sum = Phrase::new();
    let sum = parts.iter().enumerate().fold(sum, |sum, (at, part)| {
        let sign = match (at, part.3 < 0.0) {
            (0, false) => "",
            (0, true) => "−",
            (_, false) => " + ",
            (_, true) => " − ",
        };
        sum.text(sign).number(watts(part.3.abs()))
    });
    let formula = "Q_dev + Q_sun + Q_env + Q_div + Q_units + Q_store";
    working.push(Step::computed("Q", "what is left over", formula, sum, watts(rest)).from_source(&STEPPED_BALANCE));
    let positive = parts.iter().filter(|part| part.3 > 0.0).fold(Phrase::new(), |sum, part| {
        let plus = if sum.is_empty() { "" } else { " + " };
        sum.text(plus).number(watts(part.3))
    });
    working.push(Step::computed("Q_in", "all that comes in", "Σ max(Q, 0)", positive, watts(incoming)));

    let about = joined(room_name(course, room), climate::when(peak.hour as usize).into());
    let subject = room_subject(course, room);
    let finding = if rest.abs() > CLOSED * incoming {
        let why = Phrase::new().value(watts(rest)).text(" are left over: the parts do not sum to zero");
        Finding::fails(check, subject, why)
    } else {
        let told = shares(&parts, "in: ", incoming).text("; ").then(shares(&parts, "out: ", -incoming));
        Finding::tells(check, subject, watts(incoming)).because(told)
    };
    finding.about(about).working(working)
}

/// The shares of one sign in words: "in: devices 61.5 %, sun 38.5 %".
fn shares(parts: &[Part], head: &str, whole: f64) -> Phrase {
    let told = parts.iter().map(|part| (part.1, part.3 / whole)).filter(|(_, share)| *share >= LEAST_SHARE);
    let (mut phrase, mut before) = (Phrase::from(head), "");
    for (word, share) in told {
        phrase = phrase.text(before).text(word).text(" ").value(Value::new(share, Kind::Share));
        before = ", ";
    }
    if before.is_empty() { phrase.text("nothing") } else { phrase }
}

#[cfg(test)]
mod tests {
    use units::System;

    use super::*;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;
    use crate::{Outcome, Subject};

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome, words: &str) -> Finding {
        let finding = trial.lead(&CHECK, outcome);
        let because = finding.because.shown(System::Metric).replace('\u{a0}', " ");
        assert!(because.contains(words), "{because}");
        finding
    }

    #[test]
    fn the_parts_sum_to_zero_and_are_told_as_shares() {
        // 400 + 250 in; 150 + 480 + 20 out.
        let words = "in: devices 61.5 %, sun 38.5 %; out: envelope 23.1 %, units 73.8 %, store 3.1 %";
        let finding = check(&Trial::new(), Outcome::Holds, words);
        assert_eq!((step(&finding, "Q"), step(&finding, "Q_in")), (0.0, 650.0));
        assert_eq!(finding.given, Some(watts(650.0)));
        let working = finding.working.iter().find(|step| step.symbol == "Q").unwrap();
        assert_eq!(working.numbers.shown(System::Metric), "400 + 250 − 150 + 0 − 480 − 20");
    }

    #[test]
    fn fails_where_the_parts_do_not_sum_to_zero() {
        let mut trial = Trial::new();
        trial.course.peaks[0].stored = -20.6;
        check(&trial, Outcome::Holds, "in:");
        trial.course.peaks[0].stored = -20.7;
        assert_eq!(check(&trial, Outcome::Fails, "left over").given, None);
    }

    #[test]
    fn each_room_is_told() {
        let findings = Trial::two_rooms().run(&CHECK);
        assert_eq!(findings.iter().map(|one| one.subject).collect::<Vec<_>>(), [Subject::Bay(0), Subject::Bay(1)]);
    }

    #[test]
    fn a_room_without_heat_has_no_shares() {
        let mut trial = Trial::new();
        let zero = Peak { hour: 0, devices: 0.0, sun: 0.0, envelope: 0.0, divider: 0.0, units: 0.0, stored: 0.0 };
        trial.course.peaks[0] = zero;
        check(&trial, Outcome::Holds, "in: nothing; out: nothing");
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut trial = Trial::new();
        trial.course.peaks[0].sun = f64::NAN;
        check(&trial, Outcome::OutOfRange, "beyond any cabinet");
    }
}
