//! The ranges of a device: the user's own entry, or one read from a file.

use catalogue::{Device, Mount, Role};
use units::Kind;

use super::{Fault, Limit, Ranges, TextLimit};

const fn limit(
    place: &'static str,
    what: &'static str,
    kind: Kind,
    least: f64,
    most: f64,
    read: fn(&Device) -> Option<f64>,
) -> Limit<Device> {
    Limit { place, what, kind, least, most, read }
}

const DEVICE: Ranges<Device> = Ranges {
    numbers: &[
        limit("mount.rack", "Height", Kind::RackUnits, 1.0, 48.0, |device| device.units().map(f64::from)),
        limit("width", "Width", Kind::Length, 1.0, 1200.0, |device| Some(device.width.0)),
        // A rack device's height follows from its units; its own may stay 0.
        limit("height", "Height", Kind::Length, 0.0, 2500.0, |device| Some(device.height.0)),
        limit("height", "Height", Kind::Length, 1.0, 2500.0, |device| {
            if matches!(device.mount, Mount::Rack(_)) { None } else { Some(device.height.0) }
        }),
        limit("depth", "Depth", Kind::Length, 1.0, 1200.0, |device| Some(device.depth.0)),
        limit("mass", "Mass", Kind::Mass, 0.0, 2000.0, |device| device.mass.map(|mass| mass.0)),
        limit("power", "Power", Kind::Power, 0.0, 50_000.0, |device| Some(device.power.0)),
        limit("power_max", "Greatest power", Kind::Power, 0.0, 50_000.0, |device| {
            device.power_max.map(|power| power.0)
        }),
        limit("heat_share", "Share of the power that becomes heat", Kind::Share, 0.0, 1.0, |device| {
            Some(device.heat_share)
        }),
        limit("converts.rating", "Converted power", Kind::Power, 0.0, 50_000.0, |device| {
            device.converts.map(|converts| converts.rating.0)
        }),
        // Losses are input − output: an efficiency near nothing would make heat without end.
        limit("converts.efficiency", "Efficiency", Kind::Share, 0.1, 1.0, |device| {
            device.converts.map(|converts| converts.efficiency)
        }),
        limit("electrical.power_factor", "Power factor", Kind::Ratio, 0.3, 1.0, |device| {
            device.electrical.power_factor
        }),
        limit("electrical.modules", "Modules", Kind::Count, 1.0, 100.0, |device| {
            device.electrical.modules.map(f64::from)
        }),
        limit("electrical.holds", "Energy held, Wh", Kind::Ratio, 1.0, 200_000.0, |device| device.electrical.holds),
        limit("electrical.cells.count", "Cells", Kind::Count, 1.0, 400.0, |device| {
            device.electrical.cells.map(|cells| cells.count.into())
        }),
        limit("electrical.cells.amp_hours", "Rated capacity", Kind::Charge, 0.1, 10_000.0, |device| {
            device.electrical.cells.map(|cells| cells.amp_hours)
        }),
        limit("electrical.cells.rate_hours", "Hours of the rated capacity", Kind::Time, 0.1, 120.0, |device| {
            device.electrical.cells.map(|cells| cells.rate_hours)
        }),
        limit("electrical.cells.charge_limit", "Charging limit", Kind::Ratio, 0.01, 10.0, |device| {
            device.electrical.cells.and_then(|cells| cells.charge_limit)
        }),
        limit(
            "electrical.cells.resistance",
            "Resistance of the cells, milliohms",
            Kind::Ratio,
            0.001,
            10_000.0,
            |device| device.electrical.cells.and_then(|cells| cells.resistance),
        ),
        limit("electrical.role", "Rated current", Kind::Current, 1.0, 6000.0, |device| {
            device.electrical.role.as_ref()?.amperes().map(|amperes| amperes.0)
        }),
        limit("electrical.role", "Fault current it withstands", Kind::Current, 1.0, 200_000.0, |device| {
            device.electrical.role.as_ref()?.interrupts().map(|amperes| amperes.0)
        }),
        limit("electrical.role", "Positions", Kind::Count, 1.0, 500.0, |device| {
            device.electrical.role.as_ref()?.positions().map(f64::from)
        }),
        limit(
            "electrical.role.low-voltage-disconnect.opens",
            "Voltage at which it opens",
            Kind::Voltage,
            1.0,
            400.0,
            |device| match device.electrical.role {
                Some(Role::LowVoltageDisconnect { opens, .. }) => Some(opens.0),
                _ => None,
            },
        ),
        limit("inlet_min", "Lowest inlet air", Kind::Temperature, -80.0, 120.0, |device| {
            device.inlet_min.map(|limit| limit.0)
        }),
        limit("inlet_max", "Highest inlet air", Kind::Temperature, -80.0, 120.0, |device| {
            device.inlet_max.map(|limit| limit.0)
        }),
        limit("airflow", "Air flow", Kind::AirFlow, 0.0, 20_000.0, |device| Some(device.airflow.0)),
        limit("face_allowance", "Room before the face", Kind::Length, 0.0, 1000.0, |device| {
            Some(device.face_allowance.0)
        }),
        limit("back_allowance", "Room behind", Kind::Length, 0.0, 1000.0, |device| Some(device.back_allowance.0)),
        limit("fibre_ports", "Fibre ports", Kind::Count, 0.0, 10_000.0, |device| Some(device.fibre_ports.into())),
        limit("splices", "Splices", Kind::Count, 0.0, 10_000.0, |device| Some(device.splices.into())),
        limit("copper_ports", "Copper ports", Kind::Count, 0.0, 10_000.0, |device| Some(device.copper_ports.into())),
        limit("cables.count", "Cables", Kind::Count, 0.0, 10_000.0, |device| {
            device.cables.map(|cables| cables.count.into())
        }),
        limit("cables.diameter", "Cable diameter", Kind::Length, 0.0, 200.0, |device| {
            device.cables.map(|cables| cables.diameter.0)
        }),
        limit("cables.bend_radius", "Cable bend radius", Kind::Length, 0.0, 2000.0, |device| {
            device.cables.map(|cables| cables.bend_radius.0)
        }),
        limit("sound_power", "Sound power level", Kind::SoundLevel, 0.0, 140.0, |device| {
            device.sound_power.map(|level| level.0)
        }),
        limit("trade.price", "Price", Kind::Ratio, 0.0, 10_000_000.0, |device| device.trade.price),
        limit("trade.lead_weeks", "Lead time in weeks", Kind::Ratio, 0.0, 520.0, |device| device.trade.lead_weeks),
    ],
    texts: &[
        TextLimit { place: "name", what: "Name", least: 1, most: 60, read: |device| Some(&device.name) },
        TextLimit {
            place: "trade.origin",
            what: "Origin",
            least: 2,
            most: 2,
            read: |device| device.trade.origin.as_deref(),
        },
        TextLimit {
            place: "electrical.role",
            what: "Role in the network of power",
            least: 1,
            most: 60,
            read: |device| match &device.electrical.role {
                Some(Role::GeneratorInlet { configuration: words, .. } | Role::AlarmPoint { tells: words }) => {
                    Some(words)
                }
                _ => None,
            },
        },
    ],
};

/// Everything of a device that is out of range; `before` is what is kept.
pub(crate) fn device_faults(device: &Device, at: &str, before: Option<&Device>) -> Vec<Fault> {
    let mut faults = DEVICE.faults(device, at, before);
    if !matches!(device.rack, 19 | 23) {
        let mut fault =
            Fault::new(super::join(at, "rack"), "Panel width", format!("{} inches", device.rack), "19 or 23 inches");
        fault.kept = before.map(|before| format!("{} inches", before.rack).into()).unwrap_or_default();
        faults.push(fault);
    }
    faults
}
