//! **W01 `equipped-mass`** – what does the cabinet weigh with everything placed in it?
//!
//! m = Σ ρ · V + Σ m_parts
//!
//! - m        equipped mass                          [kg]
//! - ρ, V     density and volume of sheet and foam   [kg/m³, m³]
//! - m_parts  bought parts and devices               [kg]
//!
//! Source:      the solids of the model; densities and masses of the catalogue and the user.
//! Valid for:   sheet by density and volume, welds and paint not counted.
//! Agreement:   tests/reference/centre_of_gravity.json by the geometry crate.
//! Not covered: cables, paint, welds, what is not placed yet.

use project::Build;
use units::Kind;

use super::sums::{heaviest, helped, kilograms, mass_step, whole};
use crate::sources::{CATALOGUE, GEOMETRY};
use crate::{Asked, Case, Check, Finding, Outcome, Phrase, Subject, Symbol, Topic};

/// Share of the limit above which it is tight: cables and paint weigh too. Common practice, no source.
pub const RESERVE: f64 = 0.95;

/// The check.
pub static CHECK: Check = Check {
    code: "W01",
    name: "equipped-mass",
    topic: Topic::Weight,
    question: "What does the cabinet weigh with everything placed in it?",
    formula: "m = Σ ρ · V + Σ m_parts",
    symbols: &[
        Symbol { symbol: "m", meaning: "equipped mass", kind: Kind::Mass },
        Symbol { symbol: "m_0", meaning: "mass without devices", kind: Kind::Mass },
        Symbol { symbol: "m_dev", meaning: "mass of the devices", kind: Kind::Mass },
    ],
    sources: &[&GEOMETRY, &CATALOGUE],
    valid: "sheet by density and volume",
    leaves_out: "cables, paint, welds, devices that are not placed",
    caution: None,
    asked: Some(Asked::MassLimit),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let (model, sum) = match whole(check, case, geometry::Model::equipped_mass) {
        Ok(found) => found,
        Err(finding) => return vec![*finding],
    };
    let empty = model.empty_mass().kg;
    let numbers = Phrase::new().number(kilograms(empty)).text(" + ").number(kilograms(sum.kg - empty));
    let working = vec![
        crate::Step::input("m_0", "cabinet with options and climate units", kilograms(empty)).from_source(&GEOMETRY),
        crate::Step { symbol: "m_dev", ..mass_step(case, "devices", sum.kg - empty) },
        crate::Step::computed("m", "equipped mass", "m_0 + m_dev", numbers, kilograms(sum.kg)),
    ];
    let finding = match case.project.brief.mass_limit {
        None => Finding::tells(check, Subject::Cabinet, kilograms(sum.kg)).because("no limit is set"),
        Some(limit) => {
            let finding = Finding::at_most(check, Subject::Cabinet, kilograms(sum.kg), limit, RESERVE);
            let finding = if finding.outcome == Outcome::Fails {
                finding.help(Phrase::new().value(kilograms(sum.kg - limit.0)).text(" less would do"))
            } else {
                finding
            };
            if finding.outcome == Outcome::Holds {
                finding
            } else {
                let placed = case.devices.iter().filter(|device| device.space.is_some());
                let finding = helped(finding, heaviest(case, "The heaviest device is ", placed));
                helped(finding, lighter_skin(case, sum.kg))
            }
        }
    };
    vec![finding.working(working)]
}

/// The sheet with which the same cabinet is lightest, and what it saves; empty when it is the lightest already.
fn lighter_skin(case: &Case, kg: f64) -> Phrase {
    let build = &case.project.build;
    let masses = case.catalogue.skins.iter().filter_map(|(id, skin)| {
        let other = Build { skin: id.clone(), ..build.clone() };
        Some((skin, geometry::model(&other, case.catalogue)?.equipped_mass().kg))
    });
    match masses.reduce(|least, one| if one.1 < least.1 { one } else { least }) {
        Some((skin, least)) if least < kg => {
            Phrase::from("A body of ").text(skin.name.as_str()).text(" would save ").value(kilograms(kg - least))
        }
        _ => Phrase::new(),
    }
}

#[cfg(test)]
mod tests {
    use catalogue::Device;
    use project::Place;
    use units::{Kilograms, System};

    use super::*;
    use crate::heat::testing::{Desk, device, rack};

    fn heavy(kg: f64) -> Device {
        Device { mass: Some(Kilograms(kg)), ..device(1) }
    }

    fn mass(desk: &Desk) -> f64 {
        desk.run(&CHECK)[0].given.unwrap().number
    }

    #[test]
    fn a_device_adds_its_own_mass_once_it_is_placed() {
        let mut desk = Desk::new();
        let empty = mass(&desk);
        assert!(empty > 20.0);
        desk.add(heavy(33.0), rack(0, 1));
        desk.add(heavy(500.0), Place::Unplaced);
        assert!((mass(&desk) - empty - 33.0).abs() < 1e-9);
    }

    #[test]
    fn the_limit_holds_on_both_sides() {
        let mut desk = Desk::new();
        desk.add(heavy(100.0), rack(0, 1));
        let kg = mass(&desk);
        for (limit, outcome) in [
            (kg / 0.94, Outcome::Holds),
            (kg / 0.96, Outcome::Tight),
            (kg, Outcome::Tight),
            (kg - 0.01, Outcome::Fails),
        ] {
            desk.project.brief.mass_limit = Some(Kilograms(limit));
            assert_eq!(desk.run(&CHECK)[0].outcome, outcome, "{limit}");
        }
        let help = &desk.run(&CHECK)[0].help;
        assert_eq!(help.len(), 2);
        assert_eq!(help[1].shown(System::Metric), "The heaviest device is Box, A 1, 100\u{a0}kg");
    }

    #[test]
    fn a_lighter_sheet_is_named() {
        let mut desk = Desk::new();
        let mut thin = desk.catalogue.skins[&"sheet".into()].clone();
        (thin.name, thin.density) = ("Thin".to_owned(), 1350.0);
        desk.catalogue.skins.insert("thin".into(), thin);
        desk.project.brief.mass_limit = Some(Kilograms(1.0));
        let help = desk.run(&CHECK)[0].help.last().unwrap().shown(System::Metric);
        assert!(help.starts_with("A body of Thin would save"), "{help}");
    }

    #[test]
    fn a_device_without_a_mass_is_named_and_no_total_given() {
        let mut desk = Desk::new();
        desk.add(Device { mass: None, name: "Recorder".to_owned(), ..device(1) }, rack(0, 7));
        let finding = &desk.run(&CHECK)[0];
        assert_eq!((finding.outcome, finding.given), (Outcome::NeedsData, None));
        assert!(finding.said().shown(System::Metric).contains("Recorder, A 7"));
    }

    #[test]
    fn a_heavier_device_never_lowers_the_mass() {
        let mut last = 0.0;
        for kg in [0.0, 0.1, 5.0, 5.1, 80.0, 900.0] {
            let mut desk = Desk::new();
            desk.add(heavy(kg), rack(0, 3));
            assert!(mass(&desk) >= last);
            last = mass(&desk);
        }
    }
}
