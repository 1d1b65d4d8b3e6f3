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

use units::{Kind, Millimetres};

use super::equipped_mass::RESERVE;
use super::sums::{CAUTION, kilograms, mass_step, millimetres, whole};
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
    let height = pallet.map_or(model.overall(true).max.z, |pallet| model.shipping_height(pallet));

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
        Some(limit) => Finding::at_most(check, Subject::Cabinet, kilograms(shipped), limit, RESERVE)
            .help("Batteries and heavy devices may ship apart"),
    }];
    if let Some(limit) = brief.transport_height {
        let finding = Finding::at_most(check, Subject::Cabinet, Millimetres(height), limit, 1.0);
        findings.push(finding.about("height").help("A lower pallet or plinth, or lifting eyes packed apart, would do"));
    }
    if let Some(pallet) = pallet {
        let finding = Finding::at_most(check, Subject::Base, kilograms(lifted.kg), pallet.carries, RESERVE);
        findings.push(finding.about("on the pallet").help("A stronger pallet would do"));
    }
    let mut findings = worst_first(findings);
    if let Some(first) = findings.first_mut() {
        first.working = working;
    }
    findings
}

#[cfg(test)]
mod tests {
    use catalogue::{Pallet, Size};
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
    fn a_weak_pallet_fails() {
        let finding = desk(5.0).run(&CHECK).remove(0);
        assert_eq!((finding.outcome, finding.subject), (Outcome::Fails, Subject::Base));
    }
}
