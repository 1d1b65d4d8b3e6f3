//! **P10 `electrode-conductor`** – what leads from the cabinet to the electrodes in the ground?
//!
//! A_el by A_line
//!
//! - A_line  area of the largest line conductor of the service                  [cm²]
//! - A_el    area of the copper conductor to the grounding electrodes           [cm²]
//! - A_rod   that which is enough where it leads to rods, pipes or plates only  [cm²]
//! - n_bar   ground bars                                                        [–]
//!
//! Source:      NFPA 70, Table 250.66 and 250.66(A) of the edition in the brief.
//! Valid for:   a service of alternating current; an electrode conductor of copper.
//! Agreement:   T08-25, T08-26; the edges of the rows, beside the table.
//! Not covered: which electrodes the site has, their resistance, what the operator asks for beyond the code.

use catalogue::Role;
use units::{Kind, Value};

use super::all_fed::CAUTION;
use super::circuits::{Circuit, Run, metal_name};
use super::code::{Code, Size};
use super::given::{mains, roles};
use crate::{Asked, Case, Check, Finding, Step, Subject, Symbol, Topic, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "P10",
    name: "electrode-conductor",
    topic: Topic::Power,
    question: "What leads from the cabinet to the electrodes in the ground?",
    formula: "A_el by A_line",
    symbols: &[
        Symbol { symbol: "A_line", meaning: "largest line conductor of the service", kind: Kind::SmallArea },
        Symbol { symbol: "A_el", meaning: "copper conductor to the electrodes", kind: Kind::SmallArea },
        Symbol {
            symbol: "A_rod",
            meaning: "enough where it leads to rods, pipes or plates only",
            kind: Kind::SmallArea,
        },
        Symbol { symbol: "n_bar", meaning: "ground bars", kind: Kind::Count },
    ],
    sources: &[&sources::NFPA_70],
    valid: "a service of alternating current; an electrode conductor of copper",
    leaves_out: "which electrodes the site has, their resistance, what the operator asks for beyond the code",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

/// The largest conductors of the service; none when nothing of it ends here.
pub(super) fn service<'c>(case: &'c Case<'_>) -> Option<&'c Circuit> {
    let of_service = case.circuits().circuits.iter().filter(|circuit| circuit.run == Run::Service);
    of_service.max_by_key(|circuit| circuit.wire.map(|wire| wire.size))
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    if mains(case.project.brief.supply).volts.is_empty() {
        let why = "the supply is direct current, and grounded where it comes from";
        return vec![Finding::holds(check, Subject::Supply, why)];
    }
    let Some(service) = service(case) else {
        return vec![Finding::holds(check, Subject::Supply, "no conductors of a service end here")];
    };
    let code = Code::of(case.project.brief.power.code);
    let line = service.wire.map(|wire| wire.size);
    let electrode = line.and_then(|line| code.electrode_conductor(line, service.metal));
    let (Some(line), Some(electrode), Some(rod)) = (line, electrode, code.rods_only()) else {
        let why = "the table ends below the conductors of this service";
        return vec![Finding::out_of_range(check, Subject::Supply, why)];
    };
    let area = |size: Size| Value::new(size.area() / 100.0, Kind::SmallArea);
    let enough = electrode.value.min(rod.value);
    let bars = roles(case).filter(|(_, role)| matches!(role, Role::GroundBar { .. })).count();
    let steps = vec![
        Step::input("A_line", format!("line conductor, {} {}", line.name(), metal_name(service.metal)), area(line)),
        Step::input("A_el", format!("to the electrodes, {} copper", electrode.value.name()), area(electrode.value))
            .from_source(electrode.source),
        Step::input("A_rod", format!("to rods, pipes or plates only, {} copper", enough.name()), area(enough))
            .from_source(rod.source),
        Step::input("n_bar", "ground bars", count(bars)),
    ];
    if bars == 0 {
        let finding = Finding::fails(check, Subject::Supply, "there is no ground bar from which it could lead");
        return vec![finding.working(steps).help("Add a ground bar")];
    }
    let size = electrode.value.name();
    vec![Finding::holds(check, Subject::Supply, format!("{size} copper or larger does")).working(steps)]
}

#[cfg(test)]
mod tests {
    use catalogue::Supply;
    use project::SiteSupply;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};
    use crate::power::testing::{desk, disconnect, load, panel, with_role};

    fn entry(amperes: f64, bar: bool) -> Desk {
        let mut devices = vec![disconnect(amperes), panel(12, amperes), load(600.0, Supply::V120Ac)];
        devices.extend(bar.then(|| with_role("Bar", Role::GroundBar { places: 14 })));
        desk(devices)
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, size: Size) {
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.outcome, outcome);
        assert!((step(&found, "A_el") - size.area() / 100.0).abs() < 1e-12, "{:?}", found.working);
    }

    #[test]
    fn the_service_sets_the_size() {
        check(&entry(100.0, true), Outcome::Holds, Size::Awg8);
        check(&entry(200.0, true), Outcome::Holds, Size::Awg4);
        // To rods alone 6 AWG is always enough.
        let large = entry(200.0, true).run(&CHECK).remove(0);
        assert!((step(&large, "A_rod") - Size::Awg6.area() / 100.0).abs() < 1e-12);
    }

    #[test]
    fn without_a_ground_bar_it_has_no_end() {
        check(&entry(100.0, false), Outcome::Fails, Size::Awg8);
    }

    #[test]
    fn a_service_beyond_the_table_gets_no_size() {
        let found = entry(800.0, true).run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::OutOfRange);
        let mut direct = entry(100.0, false);
        direct.project.brief.supply = SiteSupply::Remote48Dc;
        assert_eq!(direct.run(&CHECK)[0].outcome, Outcome::Holds);
        assert_eq!(Desk::new().run(&CHECK)[0].outcome, Outcome::Holds);
    }
}
