//! **H01 `device-heat`** – how much heat do the devices give off at the hottest hour?
//!
//! P = Σ power · heat share + Σ load · (1/η − 1) + P_fans
//!
//! - P        heat given off inside                              [W]
//! - power    most power a device draws                          [W]
//! - load     what a rectifier, inverter or UPS carries          [W]
//! - η        share of its input that comes out                  [–]
//! - P_fans   input of fans and exchangers                       [W]
//!
//! Source:      heat balance; figures of the catalogue and the user.
//! Valid for:   every device at its most at once.
//! Not covered: batteries on charge, cable losses, what feeds a UPS.

use units::{Kind, Value};

use super::cooling::{CoolingUnit, cooling_units};
use super::heat_sources::{DeviceHeat, Draw, Room, device_heats};
use crate::sources::{CATALOGUE, HEAT_BALANCE};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "H01",
    name: "device-heat",
    topic: Topic::Heat,
    question: "How much heat do the devices give off at the hottest hour?",
    formula: "P = Σ power · heat share + Σ load · (1/η − 1) + P_fans",
    symbols: &[
        Symbol { symbol: "P", meaning: "heat given off inside", kind: Kind::Power },
        Symbol { symbol: "P_dev", meaning: "own heat of the devices", kind: Kind::Power },
        Symbol { symbol: "P_conv", meaning: "losses of conversion", kind: Kind::Power },
        Symbol { symbol: "P_fans", meaning: "input of fans and exchangers", kind: Kind::Power },
    ],
    sources: &[&HEAT_BALANCE, &CATALOGUE],
    valid: "every device at its most at once",
    leaves_out: "batteries on charge, cable losses, rectifiers behind a UPS",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let units = match cooling_units(case) {
        Ok(units) => units,
        Err(gap) => return vec![gap.finding(check, Subject::Cabinet)],
    };
    if case.devices.len() < case.project.build.devices.len() {
        return vec![Finding::needs_data(check, Subject::Cabinet, case.missing_parts())];
    }
    let draws: Vec<_> = units.iter().map(CoolingUnit::draw).collect();
    let heats = device_heats(case, Draw::Most, &draws);
    let in_body = |heat: &&DeviceHeat| heat.room != Room::Plinth;
    let own = 0.0 + heats.iter().filter(in_body).map(|heat| heat.own).sum::<f64>();
    let losses = 0.0 + heats.iter().filter(in_body).map(|heat| heat.losses).sum::<f64>();
    let fans = 0.0 + units.iter().map(CoolingUnit::own_heat).sum::<f64>();
    let watts = |number: f64| Value::new(number, Kind::Power);

    let mut working = Vec::new();
    let mut about = Phrase::from("own heat of the devices");
    let unplaced = case.devices.iter().filter(|device| device.space.is_none()).count();
    if unplaced > 0 {
        about = about.text(format!("; {unplaced} not placed do not count"));
    }
    working.push(Step::input("P_dev", about, watts(own)).from_source(&CATALOGUE));
    for heat in heats.iter().filter(in_body).filter(|heat| heat.load > 0.0) {
        let Some(device) = case.device(heat.id) else { continue };
        let Some(conversion) = device.spec.converts else { continue };
        let efficiency = Value::new(conversion.efficiency, Kind::Ratio);
        let numbers = Phrase::new().number(watts(heat.load)).text(" × (1 / ").number(efficiency).text(" − 1)");
        let meaning = case.name(device).text(": losses at its load");
        working.push(Step::computed("P_loss", meaning, "load × (1/η − 1)", numbers, watts(heat.losses)));
    }
    working.push(Step::input("P_conv", "losses of conversion", watts(losses)));
    working.push(Step::input("P_fans", "input of fans and exchangers", watts(fans)).from_source(&CATALOGUE));
    let numbers = Phrase::new().number(watts(own)).text(" + ").number(watts(losses)).text(" + ").number(watts(fans));
    let p = watts(own + losses + fans);
    let meaning = "heat given off inside";
    working.push(Step::computed("P", meaning, "P_dev + P_conv + P_fans", numbers, p).from_source(&HEAT_BALANCE));
    vec![Finding::tells(check, Subject::Cabinet, p).working(working)]
}

#[cfg(test)]
mod tests {
    use catalogue::{Conversion, Device, Supply};
    use project::Place;
    use units::Watts;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack, step};

    #[test]
    fn devices_losses_and_fans_add_up() {
        let mut desk = Desk::new();
        desk.add(Device { power: Watts(860.0), supply: Supply::V48Dc, ..device(1) }, rack(0, 1));
        let converts = Some(Conversion { to: Supply::V48Dc, rating: Watts(2000.0), efficiency: 0.96 });
        desk.add(Device { converts, supply: Supply::V230Ac, ..device(1) }, rack(0, 2));
        desk.add(Device { power: Watts(999.0), ..device(1) }, Place::Unplaced);
        let fan = desk.exchanger(80.0, 0);
        let part = desk.project.build.unit(fan).unwrap().part.clone();
        for row in &mut desk.catalogue.units.get_mut(&part).unwrap().map.input {
            row.fill(100.0);
        }
        // 860 + (860 + 100) · (1/0.96 − 1) + 100 = 860 + 40 + 100
        let finding = &desk.run(&CHECK)[0];
        assert_eq!(finding.outcome, Outcome::Holds);
        assert!((finding.given.unwrap().number - 1000.0).abs() < 1e-9);
        assert!((step(finding, "P_loss") - 40.0).abs() < 1e-9);
    }

    #[test]
    fn a_device_that_the_catalogue_does_not_know_is_asked_for() {
        let mut desk = Desk::new();
        desk.add(device(1), rack(0, 1));
        desk.project.build.devices[0].what = project::DeviceWhat::Part("gone".into());
        let finding = &desk.run(&CHECK)[0];
        assert_eq!(finding.outcome, Outcome::NeedsData);
        assert!(finding.said().shown(units::System::Metric).contains("gone"));
    }
}
