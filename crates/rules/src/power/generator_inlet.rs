//! **P13 `generator-inlet`** – does the generator inlet carry the load, and the start of a compressor?
//!
//! I = u · (1.25 · S_c + S_n) / U ≤ I_inlet,  I_rest + I_start ≤ I_inlet
//!
//! - I        current of the load, what is continuous by 125 %        [A]
//! - I_rest   current of all but the compressor that starts           [A]
//! - I_start  what the largest compressor draws while it starts       [A]
//! - I_inlet  rated current of the inlet                              [A]
//!
//! Source:      [`CODE_LOADS`]; common practice for the start: a generator of the inlet's rating.
//! Valid for:   all loads on at once, but heaters rest while a compressor starts.
//! Not covered: loads that are shed; how far a generator is overloaded for a moment; its fuel.

use catalogue::{ClimateUnit, UnitSort};
use units::{Amperes, Kind};

use super::all_fed::CAUTION;
use super::circuits::{Circuit, Run, rated_current};
use crate::finding::worst_first;
use crate::heat::walls::compartments;
use crate::network::{Electricity, NodeKind, service};
use crate::sources::{CATALOGUE, CODE_LOADS, PRACTICE};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// *Tight* begins at this share of the inlet's rated current.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "P13",
    name: "generator-inlet",
    topic: Topic::Power,
    question: "Does the generator inlet carry the load, and the start of a compressor?",
    formula: "I ≤ I_inlet; I_rest + I_start ≤ I_inlet",
    symbols: &[
        Symbol { symbol: "I", meaning: "current of the load, what is continuous by 125 %", kind: Kind::Current },
        Symbol { symbol: "I_rest", meaning: "current of all but the compressor that starts", kind: Kind::Current },
        Symbol { symbol: "I_start", meaning: "what the largest compressor draws while it starts", kind: Kind::Current },
        Symbol { symbol: "I_inlet", meaning: "rated current of the inlet", kind: Kind::Current },
    ],
    sources: &[&CODE_LOADS, &PRACTICE, &CATALOGUE],
    valid: "all loads on at once, but heaters rest while a compressor starts; a generator of the inlet's rating (common \
            practice)",
    leaves_out: "loads that are shed; how far a generator may be overloaded for a moment; its fuel",
    caution: Some(CAUTION),
    asked: Some(Asked::Generator),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let asked = case.project.brief.power.generator;
    let inlets = case.circuits().circuits.iter().filter(|circuit| circuit.run == Run::Inlet);
    let findings: Vec<Finding> = inlets.flat_map(|circuit| judge(check, case, circuit)).collect();
    if !findings.is_empty() {
        return worst_first(findings);
    }
    let finding = match (asked, service(case.project.brief.supply)) {
        (false, _) => Finding::holds(check, Subject::Supply, "nobody asks for a generator"),
        (true, Electricity::Direct { .. }) => {
            Finding::fails(check, Subject::Supply, "a generator is asked for, and the supply is direct current")
                .help("A supply of alternating current, or no generator, would do")
        }
        (true, Electricity::Alternating { .. }) => {
            let why = "a generator is asked for, and no inlet leads to a load centre or an interlock";
            Finding::fails(check, Subject::Supply, why).help("A generator inlet with an interlock would do")
        }
    };
    vec![finding]
}

fn judge(check: &Check, case: &Case, circuit: &Circuit) -> Vec<Finding> {
    let Some(inlet) = case.network.nodes[circuit.from].item() else { return Vec::new() };
    let subject = Subject::Device(inlet);
    let about = case.device(inlet).map(|device| case.name(device)).unwrap_or_default();
    let Some(rated) = rated_current(case, inlet) else { return Vec::new() };
    let allowed = Step::input("I_inlet", "rated current of the inlet", Amperes(rated)).from_source(&CATALOGUE);
    let help = "An inlet of a larger rated current, or fewer loads, would do";
    let carries = Finding::at_most(check, subject, Amperes(circuit.least_amperes), Amperes(rated), RESERVE)
        .about(about.clone())
        .working(vec![
            Step::input("I", "current of the load, what is continuous by 125 %", Amperes(circuit.least_amperes))
                .from_source(&CODE_LOADS),
            allowed.clone(),
        ])
        .help(help);
    let mut findings = vec![carries];
    match starting(case) {
        Starting::None => {}
        Starting::Unknown(name) => {
            let what = Phrase::from("current that starts ").then(name);
            findings.push(Finding::needs_data(check, subject, what).about(about));
        }
        Starting::Largest { name, amperes, runs } => {
            // Where the cabinet is one room, heaters do not count beside what cools already.
            let heating = if compartments(case) > 1 { heating(case) } else { 0.0 };
            let share = (circuit.load.total() - runs - heating) / circuit.load.total();
            let rest = (circuit.amperes * share).max(0.0);
            let start = Finding::at_most(check, subject, Amperes(rest + amperes), Amperes(rated), 1.0);
            findings.push(start.about(about).help("A unit that starts gently, or a larger inlet, would do").working(
                vec![
                Step::input("I_rest", "current of all but the compressor that starts", Amperes(rest)),
                Step::input("I_start", Phrase::from("start of ").then(name), Amperes(amperes)).from_source(&CATALOGUE),
                Step::computed(
                    "I",
                    "while it starts",
                    "I_rest + I_start",
                    Phrase::new().number(Amperes(rest)).text(" + ").number(Amperes(amperes)),
                    Amperes(rest + amperes),
                )
                .from_source(&PRACTICE),
                allowed,
            ],
            ));
        }
    }
    findings
}

/// What starts, of the compressors that hang on the service.
enum Starting {
    None,
    /// Nobody has said what one draws.
    Unknown(Phrase),
    Largest {
        name: Phrase,
        amperes: f64,
        /// What it draws when it runs, VA.
        runs: f64,
    },
}

/// Circuits of alternating current that lead to units of a sort.
fn leads_to<'a>(case: &'a Case, sort: UnitSort) -> impl Iterator<Item = (&'a Circuit, &'a ClimateUnit)> {
    let alternating = case.circuits().circuits.iter().filter(|circuit| !circuit.flows.is_direct());
    alternating.filter_map(move |circuit| {
        let node = &case.network.nodes[circuit.node];
        let mut units = case.units.iter().filter(|_| node.kind == NodeKind::Unit);
        let (_, spec) = units.find(|(fitted, spec)| Some(fitted.id) == node.item() && spec.sort == sort)?;
        Some((circuit, *spec))
    })
}

/// Load of all heaters, VA.
fn heating(case: &Case) -> f64 {
    leads_to(case, UnitSort::Heater).map(|(circuit, _)| circuit.load.total()).sum()
}

fn starting(case: &Case) -> Starting {
    let mut largest = Starting::None;
    let mut most = 0.0;
    for (circuit, spec) in leads_to(case, UnitSort::AirConditioner) {
        let name = Phrase::from(spec.name.as_str());
        let Some(starting) = spec.starting else { return Starting::Unknown(name) };
        if starting.0 - circuit.amperes > most {
            most = starting.0 - circuit.amperes;
            largest = Starting::Largest { name, amperes: starting.0, runs: circuit.load.total() };
        }
    }
    largest
}

#[cfg(test)]
mod tests {
    use catalogue::Supply;
    use project::SiteSupply;
    use units::Amperes;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, rack, step};
    use crate::power::testing::{desk, inlet, load, near, panel};

    fn with(va: f64, asked: bool, rated: f64) -> Desk {
        let mut desk = desk(vec![panel(12, 100.0), inlet(rated), load(0.95 * va, Supply::V230Ac)]);
        desk.project.brief.power.generator = asked;
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome) -> Finding {
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{:?}", found.because);
        found
    }

    #[test]
    fn an_inlet_of_30_a_carries_5760_va_for_hours() {
        // Source: handbook T08-32: 240 V · 30 A · 80 %.
        let found = check(&with(5760.0, true, 30.0), Outcome::Tight);
        near(found.given.unwrap().number, 30.0);
        check(&with(5770.0, true, 30.0), Outcome::Fails);
        check(&with(5184.0, false, 30.0), Outcome::Holds);
        check(&with(5190.0, false, 30.0), Outcome::Tight);
    }

    #[test]
    fn the_start_of_a_compressor_counts() {
        let starts = |amperes: Option<f64>| {
            let mut desk = with(2400.0, true, 30.0);
            desk.conditioner(1000.0, 0);
            for unit in desk.catalogue.units.values_mut() {
                unit.starting = amperes.map(Amperes);
            }
            desk
        };
        // 2400 VA at 240 V leaves 20 A.
        check(&starts(Some(20.0)), Outcome::Holds);
        check(&starts(Some(20.1)), Outcome::Fails);
        check(&starts(None), Outcome::NeedsData);
    }

    #[test]
    fn heaters_rest_while_a_compressor_starts_in_another_room() {
        let mut desk = Desk::two_bays();
        desk.add(panel(12, 100.0), rack(0, 1));
        desk.add(inlet(30.0), rack(0, 2));
        desk.conditioner(1000.0, 0);
        desk.heater(2000.0, 1);
        for unit in desk.catalogue.units.values_mut() {
            unit.starting = Some(Amperes(30.0));
        }
        let found = desk.run(&CHECK);
        assert!(found.iter().all(|finding| finding.outcome <= Outcome::Tight), "{found:?}");
        let start = found.iter().find(|finding| finding.working.len() > 2).unwrap();
        near(step(start, "I_rest"), 0.0);
    }

    #[test]
    fn what_is_asked_for_is_there() {
        check(&Desk::new(), Outcome::Holds);
        let mut desk = Desk::new();
        desk.project.brief.power.generator = true;
        assert_eq!(check(&desk, Outcome::Fails).help.len(), 1);
        desk.project.brief.supply = SiteSupply::Remote48Dc;
        check(&desk, Outcome::Fails);
    }
}
