//! **P16 `conduit-fill`** – which conduit do the conductors of the service need, and do the gland plates let it in?
//!
//! Σ A_i ≤ φ · A_conduit,  d_thread ≤ d_hole
//!
//! - n          conductors in the conduit: line, neutral and ground                  [–]
//! - Σ A_i      their area with insulation of type THWN                              [cm²]
//! - φ          share that may be filled                                             [–]
//! - A_conduit  whole inside area of the smallest conduit that does                  [cm²]
//! - d_thread   outside diameter of its fitting's thread                             [mm]
//! - d_knock    knock-out of its trade size                                          [mm]
//! - d_hole     largest knock-out of the gland plates                                [mm]
//!
//! Source:      NFPA 70, Chapter 9, Tables 1, 4 and 5 of the edition in the brief; UL 514B and ASME B1.20.1, from memory.
//! Valid for:   rigid plastic conduit of schedule 40, which of the usual sorts has the least room; runs longer than 24 in.
//! Agreement:   T08-28 to T08-31; both sides of each limit below.
//! Not covered: branches inside the cabinet, which run without conduit; bends; jam ratio; knock-outs in walls; cables with a
//!              sheath; whether the knock-out is still free (F11).

use units::{Kind, Value};

use super::all_fed::CAUTION;
use super::circuits::Circuit;
use super::code::{Code, Conduit, ConduitSort, Entry, Size, knock_out};
use super::electrode_conductor::service;
use super::given::mains;
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "P16",
    name: "conduit-fill",
    topic: Topic::Power,
    question: "Which conduit do the conductors of the service need, and do the gland plates let it in?",
    formula: "Σ A_i ≤ φ · A_conduit;  d_thread ≤ d_hole",
    symbols: &[
        Symbol { symbol: "n", meaning: "conductors in the conduit: line, neutral and ground", kind: Kind::Count },
        Symbol { symbol: "Σ A_i", meaning: "their area with insulation of type THWN", kind: Kind::SmallArea },
        Symbol { symbol: "φ", meaning: "share that may be filled", kind: Kind::Share },
        Symbol { symbol: "A_conduit", meaning: "whole inside area of the conduit", kind: Kind::SmallArea },
        Symbol { symbol: "d_thread", meaning: "outside diameter of its fitting's thread", kind: Kind::Length },
        Symbol { symbol: "d_knock", meaning: "knock-out of its trade size", kind: Kind::Length },
        Symbol { symbol: "d_hole", meaning: "largest knock-out of the gland plates", kind: Kind::Length },
    ],
    sources: &[&sources::NFPA_70, &sources::KNOCK_OUTS, &sources::CATALOGUE],
    valid: "rigid plastic conduit of schedule 40, which of the usual sorts has the least room; runs longer than 24 in",
    leaves_out: "branches inside the cabinet, which run without conduit; bends; jam ratio; knock-outs in walls; cables with \
                 a sheath; whether the knock-out is still free (F11)",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

/// What lies in the conduit of the service.
struct Filled {
    line: Size,
    lines: u32,
    ground: Option<Size>,
    area: f64,
}

impl Filled {
    fn of(case: &Case, service: &Circuit) -> Option<Self> {
        let code = Code::of(case.project.brief.power.code);
        let mains = mains(case.project.brief.supply);
        let wire = service.wire?;
        // Before the disconnect a bonding jumper of the size of the electrode conductor lies beside them: 250.102(C), from
        // memory.
        let jumper = || code.electrode_conductor(wire.size, service.metal).map(|entry| entry.value);
        let ground = if mains.volts.is_empty() { wire.ground } else { wire.ground.or_else(jumper) };
        let area = |size: Size| code.insulated_area(size).map(|entry| entry.value);
        let ground_area = ground.map_or(Some(0.0), area)?;
        let area = f64::from(mains.poles) * area(wire.size)? + ground_area;
        Some(Self { line: wire.size, lines: mains.poles, ground, area })
    }

    fn count(&self) -> u32 {
        self.lines + u32::from(self.ground.is_some())
    }

    fn named(&self) -> String {
        let ground = self.ground.map(|ground| format!(" and {}", ground.name())).unwrap_or_default();
        format!("{} × {}{ground}", self.lines, self.line.name())
    }
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let Some(service) = service(case) else {
        return vec![Finding::holds(check, Subject::Supply, "no conductors of a service end here")];
    };
    let code = Code::of(case.project.brief.power.code);
    let filled = Filled::of(case, service);
    let conduit =
        filled.as_ref().and_then(|filled| code.conduit_for(ConduitSort::RigidPlastic, filled.area, filled.count()));
    let (Some(filled), Some(conduit)) = (filled, conduit) else {
        let why = "the tables end below the conductors of this service";
        return vec![Finding::out_of_range(check, Subject::GlandPlates, why)];
    };
    vec![through_the_plates(check, case, conduit, working(code, &filled, conduit))]
}

fn working(code: &'static Code, filled: &Filled, conduit: Entry<Conduit>) -> Vec<Step> {
    let square_cm = |square_mm: f64| Value::new(square_mm / 100.0, Kind::SmallArea);
    let meaning = format!("area of {} with insulation", filled.named());
    let mut area = Step::input("Σ A_i", meaning, square_cm(filled.area));
    if let Some(line) = code.insulated_area(filled.line) {
        area = area.from_source(line.source);
    }
    let mut steps = vec![Step::input("n", "conductors in the conduit", count(filled.count() as usize)), area];
    if let Some(share) = code.fill_share(filled.count()) {
        let value = Value::new(share.value, Kind::Share);
        steps.push(Step::input("φ", "share that may be filled", value).from_source(share.source));
    }
    let meaning = format!("inside area of plastic conduit of trade size {}", conduit.value.trade);
    steps.push(Step::input("A_conduit", meaning, square_cm(conduit.value.area)).from_source(conduit.source));
    steps
}

/// Whether the conduit's fitting goes through a knock-out of the gland plates.
fn through_the_plates(check: &Check, case: &Case, conduit: Entry<Conduit>, mut steps: Vec<Step>) -> Finding {
    let length = |mm: f64| Value::new(mm, Kind::Length);
    let trade = conduit.value.trade;
    let Some(knock_out) = knock_out(trade) else {
        let why = format!("the knock-out of trade size {trade} is not known here");
        return Finding::out_of_range(check, Subject::GlandPlates, why).working(steps);
    };
    let thread = length(knock_out.value.thread);
    steps.push(Step::input("d_thread", "outside diameter of its thread", thread).from_source(knock_out.source));
    let knock = length(knock_out.value.diameter);
    steps.push(Step::input("d_knock", "knock-out of its trade size", knock).from_source(knock_out.source));
    let why = format!("conduit of trade size {trade} in");
    let plates = case.project.build.bays.iter().flat_map(|bay| &bay.gland_plates);
    let parts = plates.filter_map(|plate| case.catalogue.gland_plates.get(&plate.part));
    let holes = parts.filter(|part| part.knock_outs > 0).map(|part| part.knock_out.0);
    let Some(hole) = holes.reduce(f64::max) else {
        let why = format!("{why}; no gland plate is there to compare with");
        return Finding::tells(check, Subject::GlandPlates, knock).because(why).working(steps);
    };
    steps.push(Step::input("d_hole", "largest knock-out of the gland plates", length(hole)));
    let help = Phrase::from("Add a gland plate with knock-outs of ").value(knock);
    let finding = Finding::at_most(check, Subject::GlandPlates, thread, length(hole), 1.0);
    finding.because(why).working(steps).help(help)
}

#[cfg(test)]
mod tests {
    use catalogue::{GlandPlate, Supply};
    use project::FittedGlandPlate;
    use units::Millimetres;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};
    use crate::power::testing::{desk, disconnect, load, panel};

    fn entry(amperes: f64) -> Desk {
        desk(vec![disconnect(amperes), panel(12, amperes), load(600.0, Supply::V120Ac)])
    }

    /// A service of 100 A with a gland plate of knock-outs of so many mm, none when 0.
    #[track_caller]
    fn check(hole: f64, outcome: Outcome) -> Finding {
        let mut desk = entry(100.0);
        if hole > 0.0 {
            let shipped = catalogue::sample();
            let (_, plate) = shipped.gland_plates.into_iter().next().unwrap();
            let plate = GlandPlate { knock_outs: 4, knock_out: Millimetres(hole), ..plate };
            desk.catalogue.gland_plates.insert("plate".into(), plate);
            let fitted = FittedGlandPlate { part: "plate".into(), used: 0 };
            desk.project.build.bays[0].gland_plates.push(fitted);
        }
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome, "{hole} mm");
        found
    }

    #[test]
    fn the_conduit_follows_from_its_conductors() {
        let found = check(0.0, Outcome::Holds);
        // Three of 3 AWG and a jumper of 8 AWG: 0.3285 in², of which 40 % of 0.832 in² hold 0.3328.
        assert!((step(&found, "Σ A_i") - 0.3285 * 6.4516).abs() < 1e-9);
        assert!((step(&found, "A_conduit") - 0.832 * 6.4516).abs() < 1e-9);
        assert!((step(&found, "d_knock") - 1.362 * 25.4).abs() < 1e-9);
    }

    #[test]
    fn the_fitting_goes_through_the_knock_out() {
        check(33.5, Outcome::Holds);
        check(33.4, Outcome::Fails);
    }

    #[test]
    fn says_nothing_past_the_tables() {
        let found = entry(800.0).run(&CHECK).remove(0);
        assert_eq!((found.outcome, found.given), (Outcome::OutOfRange, None));
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
