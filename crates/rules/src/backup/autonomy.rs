//! **B01 `autonomy`** – how long does it carry on without supply, cold and at the end of the batteries' life?
//!
//! t = ∫ t(I) ds;  I = P / V;  C = C_r · S_T · S_age;  t ≥ t_ask
//!
//! - t      time until the strings are used up or taken off             [h]
//! - t_ask  autonomy that the brief asks for                            [h]
//! - P      all that draws from the strings at once, at its most        [W]
//! - V      voltage of the bus, which falls                             [V]
//! - I      current                                                     [A]
//! - C_r    rated capacity of all strings at 25 °C                      [Ah]
//! - S_T    share that is left at the coldest hour                      [–]
//! - S_age  share that is left at the end of life, 0.8                  [–]
//! - C      capacity then                                               [Ah]
//!
//! Source:      Peukert's law, IEEE 485 and makers' figures, from memory; `discharge`.
//! Valid for:   as `discharge`: lead −3.9 to 51.7 °C and a quarter of an hour or longer, lithium −20 to 55 °C and up to 1 C.
//! Agreement:   tests/published/backup.toml by its formulas.
//! Not covered: loads that are shed, uninterruptible supplies (B07), the warmth that the discharge itself gives.
//!
//! What computes or switches and stops at once is told as well, when autonomy is asked for. The reserve of a tenth is common
//! practice, no source.

use project::SiteSupply;
use units::{Hours, Kind};

use super::discharge::{Bank, Discharge, Ending};
use super::figures::END_OF_LIFE;
use super::formulas::{peukert, temperature};
use super::loads::stopping;
use super::plant::{NoPlant, Plant};
use super::temperatures::{Cold, RATED, cold};
use super::words::{amperes, charge, hours, no_plant, ratio, share, times, volts, watts};
use crate::network::NodeKind;
use crate::power::all_fed::CAUTION;
use crate::sources::{CATALOGUE, CELLS, IEEE_485, PEUKERT, PRACTICE};
use crate::{Asked, Case, Check, Finding, Outcome, Phrase, Step, Subject, Symbol, Topic};

/// Share of what is there above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "B01",
    name: "autonomy",
    topic: Topic::Backup,
    question: "How long does it carry on without supply, cold and at the end of the batteries' life?",
    formula: "t = ∫ t(I) ds;  I = P / V;  C = C_r · S_T · S_age;  t ≥ t_ask",
    symbols: &[
        Symbol { symbol: "t", meaning: "time until the strings are used up or taken off", kind: Kind::Time },
        Symbol { symbol: "t_ask", meaning: "autonomy asked for", kind: Kind::Time },
        Symbol { symbol: "P", meaning: "all that draws from the strings at once", kind: Kind::Power },
        Symbol { symbol: "V", meaning: "voltage of the bus, which falls", kind: Kind::Voltage },
        Symbol { symbol: "I", meaning: "current", kind: Kind::Current },
        Symbol { symbol: "C_r", meaning: "rated capacity of all strings at 25 °C", kind: Kind::Charge },
        Symbol { symbol: "S_T", meaning: "share that is left in the cold", kind: Kind::Share },
        Symbol { symbol: "S_age", meaning: "share that is left at the end of life", kind: Kind::Share },
        Symbol { symbol: "C", meaning: "capacity then", kind: Kind::Charge },
    ],
    sources: &[&PEUKERT, &IEEE_485, &CELLS, &CATALOGUE, &PRACTICE],
    valid: "lead −3.9 to 51.7 °C and a quarter of an hour or longer; lithium −20 to 55 °C and up to its capacity in an hour",
    leaves_out: "loads that are shed, uninterruptible supplies (B07), the warmth that the discharge itself gives",
    caution: Some(CAUTION),
    asked: Some(Asked::Autonomy),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let asked = case.project.brief.power.autonomy.filter(|asked| asked.0 > 0.0);
    let mut findings = vec![lead(check, case, asked)];
    if let Some(asked) = asked {
        for id in stopping(case) {
            let name = case.device(id).map(|device| case.name(device)).unwrap_or_default();
            let why = Phrase::from("it stops as soon as the supply fails, and ").value(asked).text(" are asked for");
            let finding = Finding::fails(check, Subject::Device(id), why).about(name);
            findings
                .push(finding.help("Feed it from the plant, by way of an inverter, or from an uninterruptible supply"));
        }
    }
    findings
}

fn lead(check: &Check, case: &Case, asked: Option<Hours>) -> Finding {
    let subject = Subject::Supply;
    let idle = |why: &str| Finding::holds(check, subject, format!("nobody asks for backup{why}"));
    let plant = match (Plant::of(case), asked) {
        (Ok(plant), _) => plant,
        (Err(NoPlant::NoBattery), None) => return idle(", and no battery is fitted"),
        (Err(_), None) => return idle(""),
        (Err(NoPlant::NoBattery), Some(asked)) => return without(check, case, asked),
        (Err(why), Some(_)) => return no_plant(check, why),
    };
    if plant.loads.all() <= 0.0 {
        return Finding::holds(check, subject, "nothing draws from the batteries");
    }
    let cold = match (cold(case), asked) {
        (Ok(cold), _) => cold,
        (Err(_), None) => return idle(""),
        (Err(gap), Some(_)) => return gap.finding(check, subject),
    };
    let Some(bank) = Bank::of(&plant, cold.cells) else {
        let (from, to) = temperature::range(plant.chemistry);
        let why = Phrase::from(format!("cells of {} at ", plant.figures().name)).value(cold.cells);
        let why = why.text(format!("; figures stand from {} to ", celsius(from))).text(format!("{} °C", celsius(to)));
        return Finding::out_of_range(check, subject, why).help("Keep the batteries warmer, or choose other cells");
    };
    let Some(run) = bank.discharge(plant.loads.all()) else { return too_fast(check, &plant, asked) };
    let working = working(&plant, &cold, &bank, &run, asked);
    let reached = Hours(run.hours());
    let Some(asked) = asked else {
        return Finding::tells(check, subject, reached).because("nobody asks for backup").working(working);
    };
    let mut finding = Finding::at_least(check, subject, reached, asked, RESERVE).working(working);
    if finding.outcome == Outcome::Fails {
        // Time grows at least as the capacity does.
        let more = libm::ceil(f64::from(plant.strings) * (asked.0 / reached.0.max(1e-6))) - f64::from(plant.strings);
        if more.is_finite() && more < 1000.0 {
            finding = finding.help(format!("{more} more of its strings would do"));
        }
    }
    finding.help("Less load on the plant, or warmer batteries, would help")
}

fn celsius(number: f64) -> String {
    format!("{number}").replace('-', "−")
}

/// Autonomy is asked for, and no battery is there.
fn without(check: &Check, case: &Case, asked: Hours) -> Finding {
    let subject = Subject::Supply;
    let brief = &case.project.brief;
    if matches!(brief.supply, SiteSupply::Remote48Dc | SiteSupply::Remote24Dc) {
        return Finding::holds(check, subject, "the plant elsewhere carries it");
    }
    let holds = |id| case.device(id).is_some_and(|device| device.spec.electrical.holds.is_some());
    let mut supplies = case.network.of_kind(NodeKind::Ups);
    if supplies.any(|(_, node)| node.item().is_some_and(holds)) {
        return Finding::holds(check, subject, "uninterruptible supplies alone carry it; B07 judges them");
    }
    let finding = Finding::at_least(check, subject, Hours(0.0), asked, RESERVE);
    finding.because("no battery is fitted").help("Strings on the −48 V bus, with rectifiers to charge them, would do")
}

/// The current is beyond the method: how short it lasts is known all the same.
fn too_fast(check: &Check, plant: &Plant, asked: Option<Hours>) -> Finding {
    let (shortest, law) = match plant.figures().exponent {
        Some(_) => (peukert::SHORTEST, "a quarter of an hour, below which Peukert's law gives no figure"),
        None => (1.0, "an hour: the current is above the rated capacity in an hour, beyond the method"),
    };
    let why = format!("it lasts less than {law}");
    match asked {
        Some(asked) if asked.0 >= shortest => {
            Finding::fails(check, Subject::Supply, why).help("More strings, or less load on the plant, would help")
        }
        _ => Finding::out_of_range(check, Subject::Supply, why),
    }
}

fn working(plant: &Plant, cold: &Cold, bank: &Bank, run: &Discharge, asked: Option<Hours>) -> Vec<Step> {
    let of = plant.figures();
    let mut steps = Vec::new();
    if let Some(asked) = asked {
        steps.push(Step::input("t_ask", "autonomy asked for", asked));
    }
    let loads = plant.loads;
    let of_strings =
        format!("{} of {} cells of {}, at the {} h rate", plant.strings, plant.cells, of.name, plant.rate_hours);
    steps.push(Step::input("P", "all that draws from the strings, losses and growth included", watts(loads.all())));
    steps.push(Step::input("C_r", of_strings, charge(plant.amp_hours)).from_source(&CATALOGUE));
    steps.extend(cold.steps.iter().cloned());
    let left = temperature::share(plant.chemistry, cold.cells.0).unwrap_or(0.0);
    let source = if plant.chemistry == catalogue::Chemistry::Lead { &IEEE_485 } else { &CELLS };
    steps.push(Step::input("S_T", "share of the capacity in the cold", share(left)).from_source(source));
    steps.push(Step::input("S_age", "share at the end of life", share(END_OF_LIFE)).from_source(source));
    let numbers = times(charge(plant.amp_hours), ratio(left)).text(" × ").number(ratio(plant.health));
    let capacity = charge(bank.amp_hours());
    steps.push(Step::computed("C", "capacity then", "C_r · S_T · S_age", numbers, capacity));
    steps.push(Step::input("V_end", "voltage at which the strings are taken off", volts(plant.cut_off)));
    if let Some(first) = run.moments.first() {
        steps.push(Step::input("I_0", "current at the start", amperes(first.amperes)));
    }
    steps.push(Step::input("V_1", "voltage of the bus at the end", volts(run.end_volts())));
    let ending = match run.ending {
        Ending::Used => "until what may be used is used",
        Ending::CutOff => "until the strings are taken off",
    };
    let step = Step::computed("t", ending, "∫ t(I) ds", Phrase::new(), hours(run.hours()));
    steps.push(step.from_source(if of.exponent.is_some() { &PEUKERT } else { &CELLS }));
    let new = Plant { health: 1.0, ..plant.clone() };
    if let Some(fresh) = Bank::of(&new, RATED).and_then(|bank| bank.discharge(loads.all())) {
        steps.push(Step::input("t_new", "when new and at 25 °C", hours(fresh.hours())));
    }
    if loads.ordinary < loads.all()
        && let Some(longer) = bank.discharge(loads.ordinary)
    {
        steps.push(Step::input("t_use", "cold and old, but with the devices in ordinary use", hours(longer.hours())));
    }
    steps
}

#[cfg(test)]
mod tests;
