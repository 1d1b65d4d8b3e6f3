//! **F07 `manager-fill`** – does the cable management of each bay take all of its signal cables?
//!
//! φ = Σ n · π · d² / 4 / A,  A = Σ w · t
//!
//! - n     signal cables of a device on rails or shelves                               [–]
//! - d     diameter of one                                                             [mm]
//! - w, t  width and depth of each cable management of the bay                         [mm]
//! - A     cross-section of all cable management of the bay                            [mm²]
//! - φ     share of it that cables fill; at most 50 %, tight above the design 40 %     [–]
//!
//! Source:      [`sources::PRACTICE`]: 40 % design, 50 % at most.
//! Valid for:   all signal cables of a bay pass its fullest place together; round cables. Power is led apart from them.
//! Agreement:   tests/published/fit.toml, T13-05.
//! Not covered: how cables divide between left and right; cables that cross from bay to bay; cables between devices.

use geometry::Model;
use units::{Kind, Value};

use super::cabling::{managed, managers};
use super::room::length;
use super::subjects::{needs_model, worst_and_unfit};
use crate::{Case, Check, Finding, Outcome, Phrase, Step, Subject, Symbol, Topic, bay_letter, count, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F07",
    name: "manager-fill",
    topic: Topic::Fit,
    question: "Does the cable management of each bay take all of its signal cables?",
    formula: "φ = Σ n · π · d² / 4 / A ≤ 50 %",
    symbols: &[
        Symbol { symbol: "n", meaning: "signal cables of the bay's devices", kind: Kind::Count },
        Symbol { symbol: "d", meaning: "diameter of one cable", kind: Kind::Length },
        Symbol { symbol: "A_cables", meaning: "cross-section of all cables", kind: Kind::SmallArea },
        Symbol { symbol: "A", meaning: "cross-section of the bay's cable management", kind: Kind::SmallArea },
        Symbol { symbol: "φ", meaning: "share that cables fill", kind: Kind::Share },
    ],
    sources: &[&sources::PRACTICE],
    valid: "all signal cables of a bay pass its fullest place together; round cables; power is led apart from them",
    leaves_out: "How cables divide between left and right, cables from bay to bay, cables between devices.",
    caution: None,
    asked: None,
    run,
};

/// Most that cables may fill, and what is designed for: common practice, no source.
const MOST: f64 = 0.5;
const DESIGN: f64 = 0.4;

/// One bay and its cables.
struct Cabled {
    bay: usize,
    cables: usize,
    /// Cross-section of the cables, mm².
    section: f64,
    /// Cross-section of the cable management, mm².
    room: f64,
    /// The first device whose cables have no diameter.
    unsaid: Option<String>,
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let Some(model) = &case.model else { return needs_model(check, case) };
    let bays: Vec<Cabled> =
        (0..model.layout.bays.len()).map(|bay| cabled_bay(case, model, bay)).filter(|bay| bay.cables > 0).collect();
    let findings = worst_and_unfit(&bays, |bay| judge(check, bay), |bay, finding| tell(case, bay, finding));
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Cabinet, "no signal cables at the rails")];
    }
    findings
}

fn cabled_bay(case: &Case, model: &Model, bay: usize) -> Cabled {
    let room = managers(case, bay).map(|manager| manager.width.0 * manager.depth.0).sum();
    let mut all = Cabled { bay, cables: 0, section: 0.0, room, unsaid: None };
    for (device, cables) in managed(case, model, bay) {
        let d = cables.diameter.0;
        all.cables += cables.count as usize;
        all.section += f64::from(cables.count) * std::f64::consts::PI * d * d / 4.0;
        if d <= 0.0 && all.unsaid.is_none() {
            all.unsaid = Some(device.spec.name.clone());
        }
    }
    all
}

fn judge(check: &Check, bay: &Cabled) -> Finding {
    let subject = Subject::Bay(bay.bay);
    if bay.room <= 0.0 {
        return Finding::fails(check, subject, format!("no cable management for {} cables", bay.cables));
    }
    if let Some(name) = &bay.unsaid {
        return Finding::needs_data(check, subject, format!("diameter of the cables of {name}"));
    }
    Finding::at_most(check, subject, share(bay.section / bay.room), share(MOST), DESIGN / MOST)
}

fn tell(case: &Case, bay: &Cabled, finding: Finding) -> Finding {
    let letter = bay_letter(bay.bay);
    let mut steps = vec![Step::input("n", "signal cables of the bay's devices", count(bay.cables))];
    if bay.unsaid.is_none() {
        steps.push(Step::computed(
            "A_cables",
            "cross-section of all cables",
            "Σ n · π · d² / 4",
            Phrase::new(),
            small_area(bay.section),
        ));
    }
    for manager in managers(case, bay.bay) {
        let numbers = Phrase::new().value(manager.width).text(" · ").value(manager.depth);
        let area = small_area(manager.width.0 * manager.depth.0);
        steps.push(
            Step::computed("w · t", manager.name.as_str(), "w · t", numbers, area).from_source(&sources::CATALOGUE),
        );
    }
    if bay.room > 0.0 && bay.unsaid.is_none() {
        let numbers = Phrase::new().number(small_area(bay.section)).text(" / ").number(small_area(bay.room));
        steps.push(Step::computed(
            "φ",
            "share that cables fill",
            "A_cables / A",
            numbers,
            share(bay.section / bay.room),
        ));
        steps.push(Step::input("φ_design", "what is designed for", share(DESIGN)).from_source(&sources::PRACTICE));
        steps.push(Step::input("φ_max", "most", share(MOST)).from_source(&sources::PRACTICE));
    }
    let fitted = managers(case, bay.bay).count();
    let mut finding = finding.about(format!("bay {letter}")).working(steps);
    if finding.outcome != Outcome::NeedsData {
        if fitted < 2 {
            let beside =
                case.layout().and_then(|layout| layout.bays.get(bay.bay)).map_or(0.0, |bay| bay.beside_rails());
            let side = if fitted == 0 { "cable management" } else { "cable management on the other side too" };
            finding = finding.help(
                Phrase::from(format!("Fit {side} in bay {letter}: "))
                    .value(length(beside))
                    .text(" are free beside the rails"),
            );
        }
        if let Some(name) = larger(case, bay) {
            finding = finding.help(format!("Take {name} on both sides of bay {letter}"));
        }
    }
    finding
}

/// The smallest cable management that, left and right, keeps to the design share and fits beside the rails.
fn larger(case: &Case, bay: &Cabled) -> Option<String> {
    let beside = case.layout()?.bays.get(bay.bay)?.beside_rails();
    let enough = |manager: &&catalogue::Manager| {
        manager.width.0 <= beside && bay.section <= DESIGN * 2.0 * manager.width.0 * manager.depth.0
    };
    let least = case.catalogue.managers.values().filter(enough).min_by(|a, b| a.width.0.total_cmp(&b.width.0))?;
    Some(least.name.clone())
}

fn share(share: f64) -> Value {
    Value::new(share, Kind::Share)
}

/// From mm² to the cm² that small areas are kept in.
fn small_area(square_mm: f64) -> Value {
    Value::new(square_mm / 100.0, Kind::SmallArea)
}

#[cfg(test)]
mod tests {
    use catalogue::{Cables, Manager, ManagerSort, Trade};
    use units::{Kilograms, Millimetres};

    use super::super::trial::words;
    use super::*;
    use crate::heat::testing::{Desk, device, rack, step};

    fn manager(side: f64) -> Manager {
        Manager {
            name: format!("Fingers {side}"),
            sort: ManagerSort::Fingers,
            width: Millimetres(side),
            depth: Millimetres(side),
            bend_radius: Millimetres(30.0),
            mass_per_unit: Kilograms(0.1),
            trade: Trade::default(),
        }
    }

    /// So many cables of this diameter and one cable management of 50 × 50 mm.
    fn desk(count: u32, diameter: f64) -> Desk {
        let mut desk = Desk::new();
        desk.catalogue.managers.insert("small".into(), manager(50.0));
        desk.project.build.bays[0].manager_left = Some("small".into());
        let mut one = device(1);
        one.cables = Some(Cables { count, diameter: Millimetres(diameter), bend_radius: Millimetres(0.0) });
        desk.add(one, rack(0, 5));
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, share: Option<f64>) -> Finding {
        let [finding] = desk.run(&CHECK).try_into().unwrap();
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        match (share, finding.given) {
            (Some(share), Some(given)) => assert!((given.number - share).abs() < 1e-4, "{} for {share}", given.number),
            (share, given) => assert_eq!(share.is_some(), given.is_some()),
        }
        finding
    }

    #[test]
    fn is_tight_above_the_design_share_and_fails_above_half() {
        // π · 10² / 4 = 78.54 mm² each, in 2500 mm².
        check(&desk(12, 10.0), Outcome::Holds, Some(0.376_99));
        check(&desk(13, 10.0), Outcome::Tight, Some(0.408_41));
        check(&desk(15, 10.0), Outcome::Tight, Some(0.471_24));
        let finding = check(&desk(16, 10.0), Outcome::Fails, Some(0.502_65));
        assert!((step(&finding, "A_cables") - 12.566).abs() < 1e-3);
        assert!(words(&finding.help[0]).contains("on the other side"));
        assert_eq!(words(&finding.help[1]), "Take Fingers 50 on both sides of bay A");
    }

    #[test]
    fn adds_up_both_sides() {
        let mut desk = desk(16, 10.0);
        desk.project.build.bays[0].manager_right = Some("small".into());
        check(&desk, Outcome::Holds, Some(0.251_33));
    }

    #[test]
    fn cables_without_cable_management_fail() {
        let mut desk = desk(48, 6.0);
        desk.project.build.bays[0].manager_left = None;
        let finding = check(&desk, Outcome::Fails, None);
        assert_eq!(words(&finding.said()), "fails: no cable management for 48 cables");
    }

    #[test]
    fn power_cables_are_led_apart() {
        let mut desk = desk(48, 6.0);
        if let project::DeviceWhat::Own(device) = &mut desk.project.build.devices[0].what {
            device.kind = catalogue::DeviceKind::Power;
        }
        check(&desk, Outcome::Holds, None);
    }

    #[test]
    fn says_so_when_nobody_has_said_how_thick_they_are() {
        let finding = check(&desk(48, 0.0), Outcome::NeedsData, None);
        assert_eq!(words(&finding.because), "diameter of the cables of Box");
    }
}
