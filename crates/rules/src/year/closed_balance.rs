//! **Y13 `closed-balance`** – does the heat of the year add up, so that the run over it can be believed?
//!
//! r = |Q_in − Q_out − Q_store| / Q_in ≤ 0.000 001
//!
//! - r        what does not add up, as a share of what came in   [ppm]
//! - Q_in     heat that came in over the year                    [kWh]
//! - Q_out    heat that went out                                 [kWh]
//! - Q_store  heat that is stored at its end and was not before  [kWh]
//!
//! Source:      conservation of energy.
//! Valid for:   every run over a year.
//! Agreement:   by definition.
//! Not covered: whether the model is right: a wrong conductance adds up as well.

use units::{Kind, Value};

use super::given::judged;
use crate::sources::STEPPED_BALANCE;
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Greatest residual of a run that is believed, as a share of what came in.
const MOST: f64 = 1e-6;

/// The check.
pub static CHECK: Check = Check {
    code: "Y13",
    name: "closed-balance",
    topic: Topic::Year,
    question: "Does the heat of the year add up, so that the run over it can be believed?",
    formula: "r = |Q_in − Q_out − Q_store| / Q_in ≤ 1 ppm",
    symbols: &[
        Symbol { symbol: "r", meaning: "what does not add up, as a share of what came in", kind: Kind::Millionths },
        Symbol { symbol: "Q_in", meaning: "heat that came in over the year", kind: Kind::Energy },
        Symbol { symbol: "Q_out", meaning: "heat that went out", kind: Kind::Energy },
        Symbol { symbol: "Q_store", meaning: "heat stored at its end and not before", kind: Kind::Energy },
    ],
    sources: &[&STEPPED_BALANCE],
    valid: "every run over a year",
    leaves_out: "whether the model is right: a wrong conductance adds up as well",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| {
        let (residual, most) =
            (Value::new(course.residual.abs(), Kind::Millionths), Value::new(MOST, Kind::Millionths));
        let formula = "|Q_in − Q_out − Q_store| / Q_in";
        let step = Step::computed("r", "what does not add up, of what came in", formula, Phrase::new(), residual);
        let finding = Finding::at_most(check, Subject::Cabinet, residual, most, 1.0);
        Some(vec![finding.working(vec![step.from_source(&STEPPED_BALANCE)])])
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::year::testing::Trial;

    #[track_caller]
    fn check(residual: f64, outcome: Outcome) {
        let mut trial = Trial::new();
        trial.course.residual = residual;
        trial.only(&CHECK, outcome);
    }

    #[test]
    fn a_millionth_may_be_left_over_of_either_sign() {
        check(0.99e-6, Outcome::Holds);
        check(-0.99e-6, Outcome::Holds);
        check(1.01e-6, Outcome::Fails);
        check(-1.01e-6, Outcome::Fails);
    }

    #[test]
    fn says_so_outside_its_range() {
        check(f64::NAN, Outcome::OutOfRange);
    }
}
