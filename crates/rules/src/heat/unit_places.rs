//! **H08 `unit-places`** – may each climate unit sit where it is, and is there a supply it runs on?
//!
//! - places  where its maker lets a unit be fitted: door, side, roof, inside
//! - supply  what it runs on, from the site or from a rectifier, inverter or UPS that is placed
//!
//! Source:      the catalogue and the brief.
//! Valid for:   voltages as named; 230 V units also run on 240 V, not on 208 V.
//! Not covered: currents (Power), whether it meets other parts (Fit), the mass on a door (W11).

use catalogue::{Supply, UnitPlace};
use project::{Fed, UnitAt};
use units::Value;

use crate::sources::CATALOGUE;
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic, count};

/// The check.
pub static CHECK: Check = Check {
    code: "H08",
    name: "unit-places",
    topic: Topic::Heat,
    question: "May each climate unit sit where it is, and is there a supply it runs on?",
    formula: "place ∈ places, fed from the network of power",
    symbols: &[Symbol { symbol: "n", meaning: "climate units", kind: units::Kind::Count }],
    sources: &[&CATALOGUE],
    valid: "230 V units also run on 240 V, not on 208 V",
    leaves_out: "currents; whether it meets other parts (Fit); the mass on a door (W11)",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if case.units.len() < case.project.build.climate.len() {
        return vec![Finding::needs_data(check, Subject::Cabinet, case.missing_parts())];
    }
    let mut findings = Vec::new();
    for (fitted, spec) in &case.units {
        let subject = Subject::Unit(fitted.id);
        let place = place_of(fitted.at);
        let about = Phrase::from(format!("{}, {}", spec.name, place_name(place)));
        if !spec.places.contains(&place) {
            let fits: Vec<_> = spec.places.iter().copied().map(place_name).collect();
            let why = format!("it is not made for the {}", place_name(place));
            let help = format!("It may sit on: {}", fits.join(", "));
            findings.push(Finding::fails(check, subject, why).about(about.clone()).help(help));
        } else if missing_under(case, fitted.at) {
            findings.push(Finding::fails(check, subject, "there is nothing to fit it to").about(about.clone()));
        }
        let fed = case.network.node_of(Fed::Unit(fitted.id)).map(|node| &case.network.nodes[node]);
        if fed.is_some_and(|node| node.feeds.is_empty()) {
            let why = format!("nothing here gives {}", supply_name(spec.supply));
            let help = if spec.supply == Supply::V48Dc {
                "A rectifier, or the same unit for the site's alternating current, would do"
            } else {
                "The same unit for another supply, or an inverter, would do"
            };
            findings.push(Finding::fails(check, subject, why).about(about).help(help));
        }
    }
    let number: Value = count(case.units.len());
    let working = vec![Step::input("n", "climate units", number)];
    if let Some(first) = findings.first_mut() {
        first.working = working;
        return findings;
    }
    let why = if case.units.is_empty() { "no climate unit is fitted" } else { "all sit and run where they may" };
    vec![Finding::holds(check, Subject::Cabinet, why).working(working)]
}

const fn place_of(at: UnitAt) -> UnitPlace {
    match at {
        UnitAt::Door { .. } => UnitPlace::Door,
        UnitAt::Side { .. } => UnitPlace::Side,
        UnitAt::Roof { .. } => UnitPlace::Roof,
        UnitAt::Inside { .. } => UnitPlace::Inside,
    }
}

const fn place_name(place: UnitPlace) -> &'static str {
    match place {
        UnitPlace::Door => "door",
        UnitPlace::Side => "side wall",
        UnitPlace::Roof => "roof",
        UnitPlace::Inside => "inside",
    }
}

/// Whether the bay or the door that a unit is fitted to is not there.
fn missing_under(case: &Case, at: UnitAt) -> bool {
    let Some(layout) = case.layout() else { return false };
    match at {
        UnitAt::Door { bay, end } => layout.leaf(bay, end).is_none(),
        UnitAt::Roof { bay } | UnitAt::Inside { bay } => bay >= layout.bays.len(),
        UnitAt::Side { .. } => false,
    }
}

const fn supply_name(supply: Supply) -> &'static str {
    match supply {
        Supply::None => "nothing",
        Supply::V120Ac => "120 V alternating current",
        Supply::V230Ac => "230 or 240 V alternating current",
        Supply::V48Dc => "−48 V direct current",
        Supply::V24Dc => "24 V direct current",
        Supply::WideAc => "alternating current",
    }
}

#[cfg(test)]
mod tests {
    use catalogue::{Conversion, Device};
    use project::{Closure, End, Place, Side, SiteSupply};
    use units::Watts;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack};

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, findings: usize) {
        let found = desk.run(&CHECK);
        assert_eq!((found[0].outcome, found.len()), (outcome, findings), "{found:?}");
    }

    fn rectifier() -> Device {
        let converts = Some(Conversion { to: Supply::V48Dc, rating: Watts(2000.0), efficiency: 0.96 });
        Device { converts, ..device(1) }
    }

    #[test]
    fn no_unit_is_no_fault() {
        check(&Desk::new(), Outcome::Holds, 1);
    }

    #[test]
    fn a_unit_for_direct_current_needs_a_rectifier_in_place() {
        let mut desk = Desk::new();
        desk.exchanger(80.0, 0);
        check(&desk, Outcome::Fails, 1);
        desk.add(rectifier(), Place::Unplaced);
        check(&desk, Outcome::Fails, 1);
        desk.add(rectifier(), rack(0, 1));
        check(&desk, Outcome::Holds, 1);
        let mut remote = Desk::new();
        remote.exchanger(80.0, 0);
        remote.project.brief.supply = SiteSupply::Remote48Dc;
        check(&remote, Outcome::Holds, 1);
    }

    #[test]
    fn two_hundred_and_eight_volts_are_not_two_hundred_and_thirty() {
        let mut desk = Desk::new();
        desk.conditioner(1000.0, 0);
        check(&desk, Outcome::Holds, 1);
        for (supply, outcome) in [
            (SiteSupply::ThreePhase208, Outcome::Fails),
            (SiteSupply::Single120, Outcome::Fails),
            (SiteSupply::Single230, Outcome::Holds),
        ] {
            desk.project.brief.supply = supply;
            check(&desk, outcome, 1);
        }
    }

    #[test]
    fn a_unit_in_the_wrong_place_fails() {
        let mut desk = Desk::new();
        desk.conditioner(1000.0, 0);
        desk.project.build.climate[0].at = UnitAt::Side { side: Side::Left };
        check(&desk, Outcome::Fails, 1);
        desk.project.build.climate[0].at = UnitAt::Door { bay: 0, end: End::Front };
        desk.project.build.bays[0].front = Closure::Panel;
        check(&desk, Outcome::Fails, 1);
        desk.project.build.climate[0].at = UnitAt::Door { bay: 7, end: End::Front };
        check(&desk, Outcome::Fails, 1);
    }
}
