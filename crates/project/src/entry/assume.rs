//! From the figures that were said to a whole device; what was not said is taken as usual, and told.

use catalogue::{AirDirection, Conversion, Device, DeviceKind, Mount, Supply};
use units::{Celsius, CubicMetresPerHour, Kind, Millimetres, Watts};

use super::figures::Figures;
use super::nouns::{self, Converter};
use super::{EntryError, held, said};
use crate::Words;
use crate::place::units_for;

/// Body width between 19-inch rails whose opening is 450 mm. Common practice, no source.
const BODY_19: f64 = 440.0;
/// Body width between 23-inch rails whose opening is 539.75 mm. From memory, to be confirmed.
const BODY_23: f64 = 535.0;

/// A catalogue part with some of its figures changed.
pub(super) fn changed(part: &Device, figures: &Figures) -> Device {
    let mut device = part.clone();
    if let Some(units) = figures.units {
        device.mount = Mount::Rack(units);
    }
    if let Some(mount) = figures.held {
        device.mount = mount;
    }
    match (&mut device.converts, figures.power) {
        (Some(converts), Some(rating)) => converts.rating = rating,
        (None, Some(power)) => device.power = power,
        (_, None) => {}
    }
    overlay(&mut device, figures);
    device
}

/// The user's own device. What is needed and was not said is asked for; what is usual is assumed.
pub(super) fn made(name: &str, figures: &Figures, assumed: &mut Vec<Words>) -> Result<Device, EntryError> {
    if name.is_empty() {
        return Err(EntryError::new("Of what? Say what it is, such as switch, server, panel, rectifier or battery."));
    }
    let converter = nouns::converter(name);
    let kind = nouns::kind_of(name).unwrap_or_else(|| {
        assumed.push("Taken as network equipment".into());
        DeviceKind::Network
    });
    if figures.power.is_none() && (needs_power(kind) || converter.is_some()) {
        return Err(EntryError::new(format!("{name}: how much power? Add it, such as 60 W, or 0 W.")));
    }
    let mount = figures.held.unwrap_or_else(|| Mount::Rack(height(figures, assumed)));
    let on_rails = matches!(mount, Mount::Rack(_));
    if !on_rails && (figures.width.is_none() || figures.height.is_none() || figures.depth.is_none()) {
        return Err(EntryError::new(format!(
            "{name} {}: how large? Such as 300 mm wide 400 mm high 100 mm deep.",
            held(mount)
        )));
    }
    let rack = figures.rack.unwrap_or(19);
    let depth = figures.depth.unwrap_or_else(|| {
        let depth = Millimetres(usual_depth(kind));
        assumed.push(Words::from("Depth taken as ").and(said(depth)));
        depth
    });
    let (supply, converts) = fed(kind, converter, figures, assumed);
    let mut device = Device {
        name: name.to_owned(),
        kind,
        mount,
        width: Millimetres(if rack == 23 { BODY_23 } else { BODY_19 }),
        height: Millimetres(0.0),
        depth,
        rack,
        four_post: false,
        mass: None,
        power: if converts.is_some() { Watts(0.0) } else { figures.power.unwrap_or_default() },
        power_max: None,
        supply,
        heat_share: 1.0,
        converts,
        chemistry: if kind == DeviceKind::Battery { nouns::chemistry_of(name) } else { None },
        electrical: catalogue::Electrical::default(),
        inlet_min: None,
        inlet_max: None,
        air: AirDirection::Still,
        airflow: CubicMetresPerHour(0.0),
        face_allowance: Millimetres(0.0),
        back_allowance: Millimetres(0.0),
        fibre_ports: 0,
        splices: 0,
        copper_ports: 0,
        cables: None,
        sound_power: None,
        trade: catalogue::Trade::default(),
    };
    overlay(&mut device, figures);
    Ok(device)
}

/// The figures that mean the same for every device.
fn overlay(device: &mut Device, figures: &Figures) {
    let into = |field: &mut Millimetres, said: Option<Millimetres>| *field = said.unwrap_or(*field);
    into(&mut device.width, figures.width);
    into(&mut device.height, figures.height);
    into(&mut device.depth, figures.depth);
    device.mass = figures.mass.or(device.mass);
    device.power_max = figures.power_max.or(device.power_max);
    device.inlet_min = figures.inlet_min.map(|limit| Celsius(limit.0)).or(device.inlet_min);
    device.inlet_max = figures.inlet_max.or(device.inlet_max);
    device.rack = figures.rack.unwrap_or(device.rack);
    device.splices = figures.splices.unwrap_or(device.splices);
    if device.converts.is_none() {
        device.supply = figures.supply.unwrap_or(device.supply);
    }
    if let Some(ports) = figures.ports {
        match device.kind {
            DeviceKind::Fibre => device.fibre_ports = ports,
            _ => device.copper_ports = ports,
        }
    }
    if let Some(airflow) = figures.airflow {
        device.airflow = airflow;
        if device.air == AirDirection::Still {
            device.air = AirDirection::FrontToBack;
        }
    }
}

/// Units on rails: as said, or as the height in mm needs, or one.
fn height(figures: &Figures, assumed: &mut Vec<Words>) -> u32 {
    figures.units.unwrap_or_else(|| {
        let units = figures.height.map_or(1, units_for);
        assumed.push(Words::from("Height taken as ").and(Words::number(units.into(), Kind::RackUnits)));
        units
    })
}

const fn needs_power(kind: DeviceKind) -> bool {
    matches!(kind, DeviceKind::Network | DeviceKind::Compute)
}

/// Usual depths behind the rails, mm. Common practice, no source.
const fn usual_depth(kind: DeviceKind) -> f64 {
    match kind {
        DeviceKind::Network => 300.0,
        DeviceKind::Fibre => 250.0,
        DeviceKind::Compute => 700.0,
        DeviceKind::Power | DeviceKind::Battery => 400.0,
        DeviceKind::Cable => 100.0,
    }
}

/// What feeds a device, and what it converts. The power said of a converter is what it delivers.
fn fed(
    kind: DeviceKind,
    converter: Option<Converter>,
    figures: &Figures,
    assumed: &mut Vec<Words>,
) -> (Supply, Option<Conversion>) {
    let (Some(converter), Some(rating)) = (converter, figures.power) else {
        let usual = match kind {
            DeviceKind::Network => Supply::V48Dc,
            DeviceKind::Compute => Supply::WideAc,
            _ => Supply::None,
        };
        if figures.supply.is_none() && figures.power.is_some() && usual != Supply::None {
            assumed.push(format!("Supply taken as {}", supply_words(usual)).into());
        }
        return (figures.supply.unwrap_or(usual), None);
    };
    let alternating = figures.supply.filter(|supply| supply.is_ac());
    // Efficiencies of ordinary makes, from memory, to be confirmed.
    let (supply, to, efficiency) = match converter {
        Converter::Rectifier => {
            let to = figures.supply.filter(|supply| !supply.is_ac()).unwrap_or(Supply::V48Dc);
            (alternating.unwrap_or(Supply::WideAc), to, 0.95)
        }
        Converter::Ups => {
            let both = alternating.unwrap_or(Supply::V120Ac);
            (both, both, 0.9)
        }
        Converter::Inverter => (Supply::V48Dc, alternating.unwrap_or(Supply::V120Ac), 0.92),
    };
    assumed.push(format!("Takes {}, gives {}", supply_words(supply), supply_words(to)).into());
    assumed.push(Words::from("Efficiency taken as ").and(Words::number(efficiency, Kind::Share)));
    (supply, Some(Conversion { to, rating, efficiency }))
}

const fn supply_words(supply: Supply) -> &'static str {
    match supply {
        Supply::None => "no power",
        Supply::V120Ac => "120 V AC",
        Supply::V230Ac => "230 V AC",
        Supply::V48Dc => "−48 V DC",
        Supply::V24Dc => "24 V DC",
        Supply::WideAc => "100 to 240 V AC",
    }
}
