//! **W03 `shipping-mass`** – may it be carried as it ships: mass, pallet, height?
//!
//! m_ship = m + m_eyes + m_pallet
//!
//! - m_ship    shipping mass                                    [kg]
//! - m         equipped mass, from W01                          [kg]
//! - m_eyes    lifting eyes that are taken off later            [kg]
//! - m_pallet  pallet                                           [kg]
//!
//! Source:      the solids of the model; limits of the brief; the pallet's own limit.
//! Valid for:   shipped equipped, standing upright.
//! Not covered: packing, straps, axle loads.

use catalogue::Pallet;
use geometry::Model;
use project::Build;
use units::{Kind, Millimetres};

use super::equipped_mass::RESERVE;
use super::sums::{CAUTION, heaviest, helped, kilograms, mass_step, millimetres, whole};
use crate::finding::worst_first;
use crate::sources::{CATALOGUE, GEOMETRY};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "W03",
    name: "shipping-mass",
    topic: Topic::Weight,
    question: "May it be carried as it ships: mass, pallet, height?",
    formula: "m_ship = m + m_pallet",
    symbols: &[
        Symbol { symbol: "m_ship", meaning: "shipping mass", kind: Kind::Mass },
        Symbol { symbol: "m", meaning: "equipped, with lifting eyes", kind: Kind::Mass },
        Symbol { symbol: "m_pallet", meaning: "pallet", kind: Kind::Mass },
        Symbol { symbol: "H", meaning: "shipping height", kind: Kind::Length },
    ],
    sources: &[&GEOMETRY, &CATALOGUE],
    valid: "shipped equipped, standing upright",
    leaves_out: "packing, straps, axle loads",
    caution: Some(CAUTION),
    asked: Some(Asked::Transport),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let (model, lifted) = match whole(check, case, geometry::Model::lifted_mass) {
        Ok(found) => found,
        Err(finding) => return vec![*finding],
    };
    let brief = &case.project.brief;
    let pallet = case.project.build.pallet.as_ref().and_then(|part| case.catalogue.pallets.get(part));
    let shipped = pallet.map_or(lifted.kg, |pallet| model.shipping_mass(pallet).kg);
    // Eyes that are taken off later are not among the solids, but they ship fitted.
    let build = &case.project.build;
    let fitted = (build.eyes_removed && build.lifting_eyes.is_some())
        .then(|| geometry::model(&Build { eyes_removed: false, ..build.clone() }, case.catalogue))
        .flatten();
    let standing = fitted.as_ref().unwrap_or(model);
    let height = pallet.map_or(standing.overall(true).max.z, |pallet| standing.shipping_height(pallet));

    let of_pallet = kilograms(shipped - lifted.kg);
    let numbers = Phrase::new().number(kilograms(lifted.kg)).text(" + ").number(of_pallet);
    let meaning = pallet.map_or("no pallet", |pallet| pallet.name.as_str());
    let working = vec![
        mass_step(case, "equipped, with lifting eyes", lifted.kg),
        Step::input("m_pallet", meaning, of_pallet).from_source(&CATALOGUE),
        Step::computed("m_ship", "shipping mass", "m + m_pallet", numbers, kilograms(shipped)),
        Step::input("H", "shipping height", millimetres(height)).from_source(&GEOMETRY),
    ];
    let mut findings = vec![match brief.transport_mass {
        None => Finding::tells(check, Subject::Cabinet, kilograms(shipped)).because("no limit is set"),
        Some(limit) => {
            let finding = Finding::at_most(check, Subject::Cabinet, kilograms(shipped), limit, RESERVE);
            let placed = case.devices.iter().filter(|device| device.space.is_some());
            helped(finding, heaviest(case, "Heavy devices may ship apart; the heaviest is ", placed))
        }
    }];
    if let Some(limit) = brief.transport_height {
        let finding = Finding::at_most(check, Subject::Cabinet, Millimetres(height), limit, 1.0);
        findings.push(finding.about("height").help("A lower pallet or plinth, or lifting eyes packed apart, would do"));
    }
    if let Some(pallet) = pallet {
        let finding = Finding::at_most(check, Subject::Base, kilograms(lifted.kg), pallet.carries, RESERVE);
        findings.push(finding.about("on the pallet").help(stronger(case, model, lifted.kg)));
    }
    let mut findings = worst_first(findings);
    if let Some(first) = findings.first_mut() {
        first.working = working;
    }
    findings
}

/// The smallest pallet of the catalogue that takes this mass and the outline of the cabinet.
fn stronger(case: &Case, model: &Model, kg: f64) -> Phrase {
    let base = model.footprint().size();
    let takes = |pallet: &&Pallet| {
        RESERVE * pallet.carries.0 >= kg && pallet.size.width.0 >= base.x && pallet.size.depth.0 >= base.y
    };
    let area = |pallet: &Pallet| pallet.size.width.0 * pallet.size.depth.0;
    let others = case.catalogue.pallets.values().filter(takes);
    match others.reduce(|least, one| if area(one) < area(least) { one } else { least }) {
        Some(pallet) => Phrase::from(pallet.name.as_str()).text(" carries ").value(pallet.carries),
        None => "No pallet of this catalogue carries it; heavy devices may ship apart".into(),
    }
}

#[cfg(test)]
mod tests {
    use catalogue::Size;
    use units::Kilograms;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};

    fn desk(carries: f64) -> Desk {
        let mut desk = Desk::new();
        let size = Size { width: Millimetres(1200.0), depth: Millimetres(1000.0), height: Millimetres(150.0) };
        let pallet = Pallet { name: "Pallet".to_owned(), size, mass: Kilograms(25.0), carries: Kilograms(carries) };
        desk.catalogue.pallets.insert("pallet".into(), pallet);
        desk.project.build.pallet = Some("pallet".into());
        desk
    }

    #[test]
    fn the_pallet_counts() {
        let finding = desk(1000.0).run(&CHECK).remove(0);
        assert_eq!(finding.outcome, Outcome::Holds);
        assert!((step(&finding, "m_pallet") - 25.0).abs() < 1e-9);
        assert!((step(&finding, "H") - 995.0 - 150.0).abs() < 1e-6);
    }

    #[test]
    fn each_limit_is_held_against_it() {
        let mut desk = desk(1000.0);
        let shipped = step(&desk.run(&CHECK)[0], "m_ship");
        desk.project.brief.transport_mass = Some(Kilograms(shipped - 0.1));
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::Fails);
        desk.project.brief.transport_mass = Some(Kilograms(shipped * 2.0));
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::Holds);
        desk.project.brief.transport_height = Some(Millimetres(1144.0));
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::Fails);
        desk.project.brief.transport_height = Some(Millimetres(1145.1));
        assert_eq!(desk.run(&CHECK)[0].outcome, Outcome::Holds);
    }

    #[test]
    fn a_weak_pallet_fails_and_a_stronger_one_is_named() {
        let mut desk = desk(5.0);
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!((finding.outcome, finding.subject), (Outcome::Fails, Subject::Base));
        let mut skid = desk.catalogue.pallets[&"pallet".into()].clone();
        (skid.name, skid.carries) = ("Skid".to_owned(), Kilograms(2000.0));
        desk.catalogue.pallets.insert("skid".into(), skid);
        let help = desk.run(&CHECK)[0].help[0].shown(units::System::Metric);
        assert!(help.starts_with("Skid carries 2"), "{help}");
    }

    #[test]
    fn eyes_that_are_taken_off_later_ship_fitted() {
        let mut desk = crate::weight::lifting_testing::desk_with_eyes(catalogue::EyeSort::SwivelHoistRing, 1000.0);
        let height = step(&desk.run(&CHECK)[0], "H");
        assert!(height > 995.0 + 40.0, "a ring of 40 mm stands on the roof: {height}");
        desk.project.build.eyes_removed = true;
        assert_eq!(step(&desk.run(&CHECK)[0], "H"), height);
    }
}
