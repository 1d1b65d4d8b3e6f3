//! Many subjects, few findings: the worst one in full, and every other that does not hold.

use std::cmp::Ordering;

use crate::{Case, Check, Finding, Outcome, Subject};

/// The finding about the worst subject, then one about each other subject that does not hold, in the order of the subjects.
///
/// `judge` weighs a subject by its figures alone; `tell` adds words and working, and is called only for what is told.
pub(crate) fn worst_and_unfit<T>(
    subjects: &[T],
    judge: impl Fn(&T) -> Finding,
    tell: impl Fn(&T, Finding) -> Finding,
) -> Vec<Finding> {
    let judged: Vec<Finding> = subjects.iter().map(judge).collect();
    let Some(first) = judged.first() else { return Vec::new() };
    let (mut worst, mut so_far) = (0, first);
    for (index, finding) in judged.iter().enumerate() {
        if badness(finding, so_far).is_gt() {
            (worst, so_far) = (index, finding);
        }
    }
    let mut told = Vec::new();
    for (index, (subject, finding)) in subjects.iter().zip(judged).enumerate() {
        if index == worst {
            told.insert(0, tell(subject, finding));
        } else if finding.outcome != Outcome::Holds {
            told.push(tell(subject, finding));
        }
    }
    told
}

/// By outcome, then by how much of the limit is used, then by the margin.
fn badness(one: &Finding, other: &Finding) -> Ordering {
    let used =
        |finding: &Finding| finding.used.unwrap_or(if finding.outcome == Outcome::Fails { f64::INFINITY } else { 0.0 });
    let margin = |finding: &Finding| finding.margin.map_or(0.0, |margin| margin.number);
    one.outcome.cmp(&other.outcome).then(used(one).total_cmp(&used(other))).then(margin(other).total_cmp(&margin(one)))
}

/// What a check says when there is no model to measure.
pub(crate) fn needs_model(check: &Check, case: &Case) -> Vec<Finding> {
    vec![Finding::needs_data(check, Subject::Cabinet, case.missing_parts())]
}

#[cfg(test)]
mod tests {
    use units::{Kind, Value};

    use super::*;
    use crate::fit::height_units::CHECK;

    /// Figures of at most 10 each, tight above 8; gives them in the order they are told.
    #[track_caller]
    fn check(figures: &[f64], told: &[f64]) {
        let count = |number| Value::new(number, Kind::Count);
        let judge = |figure: &f64| Finding::at_most(&CHECK, Subject::Cabinet, count(*figure), count(10.0), 0.8);
        let found = worst_and_unfit(figures, judge, |_, finding| finding);
        let found: Vec<f64> = found.iter().filter_map(|finding| Some(finding.given?.number)).collect();
        assert_eq!(found, told);
    }

    #[test]
    fn tells_the_worst_first_and_then_all_that_do_not_hold_in_their_order() {
        check(&[9.0, 3.0, 12.0, 8.5, 7.0], &[12.0, 9.0, 8.5]);
    }

    #[test]
    fn tells_only_the_worst_while_all_hold() {
        check(&[3.0, 7.0, 5.0, 7.0], &[7.0]);
        check(&[], &[]);
    }
}
