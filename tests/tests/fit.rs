//! Fit checks against printed values: `published/fit.toml`, and rails and units from `published/rack.toml`.
#![allow(clippy::unwrap_used)] // Helpers of tests, not only tests, read the shipped files.

use catalogue::{Cables, Catalogue, Device, Manager, ManagerSort, Trade};
use project::{DeviceWhat, End, FittedDevice, ItemId, Place, Project, RailWidth, new_project};
use rules::{Case, Finding, Outcome, check_by_code};
use serde::Deserialize;
use units::{Kilograms, Millimetres};

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
struct Fit {
    fill: Vec<Fill>,
    bend: Vec<Bend>,
    one_person: Vec<OnePerson>,
}

#[derive(Deserialize)]
struct Fill {
    id: String,
    cables: u32,
    diameter: f64,
    duct: [f64; 2],
    expected: f64,
    within: f64,
}

#[derive(Deserialize)]
struct Bend {
    id: String,
    diameter: f64,
    expected: f64,
    within: f64,
}

#[derive(Deserialize)]
struct OnePerson {
    id: String,
    mass: f64,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
struct Rack {
    rails: Vec<Rails>,
    opening: Vec<Opening>,
    clear_height: Vec<ClearHeight>,
}

#[derive(Deserialize)]
struct Rails {
    id: String,
    width: RailWidth,
    panel: f64,
    within: f64,
}

#[derive(Deserialize)]
struct Opening {
    id: String,
    width: RailWidth,
    least: f64,
    most: f64,
}

#[derive(Deserialize)]
struct ClearHeight {
    id: String,
    clear: f64,
    units: u32,
    spare: f64,
}

fn fit() -> Fit {
    toml::from_str(include_str!("../published/fit.toml")).unwrap()
}

fn rack() -> Rack {
    toml::from_str(include_str!("../published/rack.toml")).unwrap()
}

/// A new cabinet with one rack device of 1 U on its front rails.
fn bench(change: impl FnOnce(&mut Device)) -> (Project, Catalogue) {
    let catalogue = catalogue::sample();
    let mut project = new_project(&catalogue);
    let mut device = catalogue.devices.values().find(|device| device.units() == Some(1)).unwrap().clone();
    (device.rack, device.cables) = (19, None);
    change(&mut device);
    let at = Place::Rack { bay: 0, rails: End::Front, unit: 5, facing: End::Front, forward: Millimetres(0.0) };
    project.build.devices.push(FittedDevice { id: ItemId(1), what: DeviceWhat::Own(Box::new(device)), at });
    (project, catalogue)
}

/// The first finding of the check with this code.
#[track_caller]
fn check(code: &str, (project, catalogue): &(Project, Catalogue)) -> Finding {
    let check = check_by_code(code).unwrap();
    (check.run)(check, &Case::new(project, catalogue)).remove(0)
}

#[track_caller]
fn step(finding: &Finding, symbol: &str) -> f64 {
    let found = finding.working.iter().find(|step| step.symbol == symbol);
    found.unwrap_or_else(|| panic!("no step {symbol} in {:?}", finding.working)).value.number
}

#[test]
fn cables_fill_their_duct_as_printed() {
    for Fill { id, cables, diameter, duct, expected, within } in fit().fill {
        let cables = Cables { count: cables, diameter: Millimetres(diameter), bend_radius: Millimetres(0.0) };
        let mut bench = bench(|device| {
            device.kind = catalogue::DeviceKind::Network;
            device.cables = Some(cables);
        });
        let manager = Manager {
            name: "Duct".to_owned(),
            sort: ManagerSort::Fingers,
            width: Millimetres(duct[0]),
            depth: Millimetres(duct[1]),
            bend_radius: Millimetres(30.0),
            mass_per_unit: Kilograms(0.1),
            trade: Trade::default(),
        };
        bench.1.managers.insert("duct".into(), manager);
        bench.0.build.bays[0].manager_left = Some("duct".into());
        bench.0.build.bays[0].manager_right = None;
        let share = check("F07", &bench).given.unwrap().number;
        assert!((share - expected).abs() <= within, "{id}: {share}, printed {expected}");
    }
}

#[test]
fn cables_at_rest_bend_as_printed() {
    for Bend { id, diameter, expected, within } in fit().bend {
        let bench = bench(|device| {
            (device.copper_ports, device.fibre_ports) = (0, 12);
            device.cables = Some(Cables { count: 1, diameter: Millimetres(diameter), bend_radius: Millimetres(0.0) });
        });
        let radius = step(&check("F08", &bench), "r");
        assert!((radius - expected).abs() <= within, "{id}: {radius}, printed {expected}");
    }
}

#[test]
fn one_person_lifts_the_printed_mass_and_no_more() {
    for OnePerson { id, mass } in fit().one_person {
        for (over, outcome) in [(0.0, Outcome::Holds), (0.1, Outcome::Tight)] {
            let finding = check("F12", &bench(|device| device.mass = Some(Kilograms(mass + over))));
            assert_eq!(finding.outcome, outcome, "{id}: {} kg", mass + over);
        }
    }
}

#[test]
fn rails_are_as_wide_as_printed() {
    for Rails { id, width, panel, within } in rack().rails {
        let mut bench = bench(|_| ());
        bench.0.build.bays[0].rails = width;
        let found = step(&check("F04", &bench), "w_rails");
        assert!((found - panel).abs() <= within, "{id}: {found}, printed {panel}");
    }
    for Opening { id, width, least, most } in rack().opening {
        let mut bench = bench(|_| ());
        bench.0.build.bays[0].rails = width;
        let found = check("F04", &bench).allowed.unwrap().number;
        assert!((least..=most).contains(&found), "{id}: {found}, printed {least} to {most}");
    }
}

#[test]
fn a_clear_height_takes_the_printed_units() {
    for ClearHeight { id, clear, units, spare } in rack().clear_height {
        let mut bench = bench(|_| ());
        bench.0.build.units = units;
        let family = bench.1.families.get_mut(&bench.0.build.family).unwrap();
        // All that is left over stands above the rails.
        (family.clear_below, family.clear_above) = (Millimetres(0.0), Millimetres(spare));
        assert_eq!(step(&check("F01", &bench), "n_bay"), f64::from(units), "{id}");
        let case = Case::new(&bench.0, &bench.1);
        let inside = case.layout().unwrap().inside.size().z;
        assert!((inside - clear).abs() < 1e-9, "{id}: {inside}, printed {clear}");
    }
}

#[test]
fn the_same_project_gives_the_same_report_in_the_same_order() {
    let catalogue = catalogue::sample();
    for sample in project::samples() {
        let first = rules::report(&sample.project, &catalogue);
        assert_eq!(first, rules::report(&sample.project, &catalogue));
        let topics: Vec<_> = first.findings.iter().map(|finding| check_by_code(finding.code).unwrap().topic).collect();
        assert!(topics.is_sorted(), "{}: {topics:?}", sample.name);
    }
}
