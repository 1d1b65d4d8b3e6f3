//! **H06 `cooling-margin`** – do the fitted units move enough heat out when the air inside is as warm as it may be?
//!
//! Q_need = P + Q_sun − U·A · (T_max − T_out) − Q_d;  Σ k · map(T_max, T_out) ≥ Q_need
//!
//! - Q_need  heat the units have to move out                        [W]
//! - P       heat given off inside                                  [W]
//! - Q_sun   heat the sun brings in                                 [W]
//! - U·A     conductance of the outer faces                         [W/K]
//! - T_max   lowest inlet limit of the devices                      [°C]
//! - T_out   outdoor air at the hottest hour                        [°C]
//! - Q_d     heat that passes to the other bay, as H04 finds it     [W]
//! - k       share of a unit's capacity that altitude leaves        [–]
//!
//! Source:      heat balance; unit maps from the catalogue.
//! Valid for:   as H04. Where a map ends below T_max the units are judged at its end.
//! Agreement:   tests/published/heat.toml, T07-07, exact.
//! Not covered: as H04. The reserve of a tenth is common practice, no source.

use units::{Celsius, Kind, Value};

use super::hottest::{Air, Hottest, Limited, limited, lowest_limit};
use super::hottest_steps::{sun_step, unit_step};
use super::walls::{compartment_name, conductance};
use crate::finding::worst_first;
use crate::sources::{CATALOGUE, FLAT_SUN, HEAT_BALANCE};
use crate::{Asked, Case, Check, Finding, Outcome, Phrase, Step, Subject, Symbol, Topic};

/// Share of the capacity above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "H06",
    name: "cooling-margin",
    topic: Topic::Heat,
    question: "Do the fitted units move enough heat out when the air inside is as warm as it may be?",
    formula: "Σ k · map(T_max, T_out) ≥ P + Q_sun − U·A · (T_max − T_out) − Q_d",
    symbols: &[
        Symbol { symbol: "Q_need", meaning: "heat the units have to move out", kind: Kind::Power },
        Symbol { symbol: "P", meaning: "heat given off inside", kind: Kind::Power },
        Symbol { symbol: "Q_sun", meaning: "heat the sun brings in", kind: Kind::Power },
        Symbol { symbol: "U·A", meaning: "conductance of the outer faces", kind: Kind::Conductance },
        Symbol { symbol: "T_max", meaning: "lowest inlet limit of the devices", kind: Kind::Temperature },
        Symbol { symbol: "T_out", meaning: "outdoor air, hottest hour", kind: Kind::Temperature },
        Symbol { symbol: "Q_d", meaning: "heat that passes to the other bay", kind: Kind::Power },
        Symbol { symbol: "k", meaning: "share of capacity that altitude leaves", kind: Kind::Share },
    ],
    sources: &[&HEAT_BALANCE, &CATALOGUE, &FLAT_SUN],
    valid: "as H04; where a map ends below the limit, the units are judged at its end",
    leaves_out: "as H04",
    caution: None,
    asked: Some(Asked::Hottest),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let hour = match Hottest::of(case) {
        Ok(hour) => hour,
        Err(gap) => return vec![gap.finding(check, Subject::Cabinet)],
    };
    let limits = limited(case);
    let findings: Vec<Finding> =
        (0..hour.gains.len()).map(|index| judge(check, case, &hour, index, lowest_limit(&limits, index))).collect();
    worst_first(findings)
}

fn judge(check: &Check, case: &Case, hour: &Hottest, index: usize, limit: Option<Limited>) -> Finding {
    let subject = if hour.gains.len() == 1 { Subject::Cabinet } else { Subject::Bay(index) };
    let about = compartment_name(case, index);
    let Some(limit) = limit else {
        return Finding::holds(check, subject, "no device sets a limit").about(about);
    };
    let way = hour.worst(index);
    if way.air.len() == 2 && matches!(hour.air(1 - index.min(1)), Air::Above(_)) {
        return Finding::out_of_range(check, subject, "the other bay lies beyond its units' maps").about(about);
    }
    let compartment = &way.compartments[index];
    let at = limit.limit.0.min(compartment.covered_to());
    let need = hour.heat_to_move(way, index, at);
    let capacity = compartment.moved(at);
    let watts = |number: f64| Value::new(number, Kind::Power);

    let device = Phrase::from("inlet limit of ").then(case.name(limit.device));
    let p = hour.gains[index].sum();
    let mut working = vec![Step::input("T_max", device, limit.limit).from_source(&CATALOGUE)];
    if at < limit.limit.0 {
        working.push(Step::input("T_map", "where the units' maps end: judged there", Celsius(at)));
    }
    working.push(Step::input("T_out", "outdoor air, hottest hour", hour.outside));
    working.push(Step::input("P", "heat given off inside", watts(p)));
    working.push(sun_step(way, index));
    let ua = conductance(compartment.conductance);
    working.push(Step::input("U·A", "conductance of the outer faces, H05", ua));
    let to_other = hour.to_other(way, index, at);
    let mut numbers = Phrase::new().number(watts(p)).text(" + ").number(watts(way.sun[index])).text(" − ");
    numbers = numbers.number(ua).text(" × (").number(Celsius(at)).text(" − ").number(hour.outside).text(")");
    if hour.divider > 0.0 {
        working.push(Step::input("Q_d", "heat to the other bay", watts(to_other)));
        numbers = numbers.text(" − ").number(watts(to_other));
    }
    let formula = "P + Q_sun − U·A · (T_max − T_out) − Q_d";
    working.push(
        Step::computed("Q_need", "heat the units have to move out", formula, numbers, watts(need))
            .from_source(&HEAT_BALANCE),
    );
    working.extend(hour.units_of(index).map(|unit| {
        let works = at > unit.mover.starts_above;
        let of_map = if works { unit.mover.capacity.at(at).unwrap_or(0.0) } else { 0.0 };
        unit_step(unit, unit.spec.name.as_str().into(), of_map, "k × map(T_max, T_out)")
    }));

    if need <= 0.0 {
        let why = "the outer faces lose it all";
        return Finding::tells(check, subject, watts(capacity)).because(why).about(about).working(working);
    }
    let finding = Finding::at_least(check, subject, watts(capacity), watts(need), RESERVE);
    if finding.outcome == Outcome::Fails && at < limit.limit.0 {
        let why = Phrase::from("the units' maps end at ").value(Celsius(at)).text(" inside");
        return Finding::out_of_range(check, subject, why).about(about).working(working);
    }
    let more = Phrase::new().value(watts(need - capacity)).text(" more at ").value(Celsius(at)).text(" inside and ");
    let finding = finding.about(about).working(working);
    if finding.outcome == Outcome::Fails {
        finding.help(more.value(hour.outside).text(" outside would do"))
    } else {
        finding
    }
}

#[cfg(test)]
mod tests {
    use project::Sun;

    use super::*;
    use crate::heat::hottest_inside_air;
    use crate::heat::testing::{Desk, in_shade, rack, step, warm};

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome) -> Finding {
        let findings = desk.run(&CHECK);
        assert_eq!(findings[0].outcome, outcome, "{:?}", findings[0]);
        findings[0].clone()
    }

    #[test]
    fn the_hand_calculation_comes_out() {
        let mut desk = in_shade(1000.0, 45.0);
        desk.conditioner(1200.0, 0);
        let finding = check(&desk, Outcome::Holds);
        let need = 1000.0 - 5.0 * step(&finding, "U·A");
        assert!((step(&finding, "Q_need") - need).abs() < 1e-9);
        assert!((finding.margin.unwrap().number - (1200.0 - need)).abs() < 1e-9);
    }

    #[test]
    fn it_agrees_with_the_inside_air_on_both_sides_of_the_limit() {
        for watts in (1..40).map(|step| 50.0 * f64::from(step)) {
            let mut desk = in_shade(watts, 45.0);
            desk.conditioner(800.0, 0);
            let fails = desk.run(&CHECK)[0].outcome == Outcome::Fails;
            let air = desk.run(&hottest_inside_air::CHECK)[0].outcome == Outcome::Fails;
            assert_eq!(fails, air, "at {watts} W");
        }
    }

    #[test]
    fn without_units_the_walls_may_be_enough() {
        check(&in_shade(10.0, 60.0), Outcome::Holds);
        let failing = check(&in_shade(5000.0, 60.0), Outcome::Fails);
        assert_eq!(failing.help.len(), 1);
    }

    #[test]
    fn a_map_that_ends_below_the_limit_is_not_stretched() {
        let build = |watts| {
            let mut desk = in_shade(watts, 55.0);
            desk.conditioner(1000.0, 0);
            desk
        };
        assert_eq!(step(&check(&build(500.0), Outcome::Holds), "T_map"), 50.0);
        assert_eq!(check(&build(5000.0), Outcome::OutOfRange).given, None);
    }

    #[test]
    fn each_bay_is_judged_and_the_worst_leads() {
        let mut desk = Desk::two_bays();
        desk.project.brief.sun = Sun::Shade;
        desk.add(warm(100.0, 60.0), rack(0, 1));
        desk.add(warm(3000.0, 50.0), rack(1, 1));
        let findings = desk.run(&CHECK);
        assert_eq!((findings[0].subject, findings[0].outcome), (Subject::Bay(1), Outcome::Fails));
    }
}
