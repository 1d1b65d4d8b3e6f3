//! The ranges of the brief.

use units::Kind;

use super::{Fault, Limit, MOST_DIRECTIONS, Ranges, TextLimit, join, quoted};
use crate::{Brief, Month, Project, Words};

const fn limit<T>(
    place: &'static str,
    what: &'static str,
    kind: Kind,
    least: f64,
    most: f64,
    read: fn(&T) -> Option<f64>,
) -> Limit<T> {
    Limit { place, what, kind, least, most, read }
}

pub(crate) const BRIEF: Ranges<Brief> = Ranges {
    numbers: &[
        // From the lowest dry land to where the standard atmosphere of the checks is still used on the ground.
        limit("elevation", "Elevation", Kind::Elevation, -430.0, 5000.0, |brief| Some(brief.elevation.0)),
        limit("latitude", "Latitude", Kind::Angle, -90.0, 90.0, |brief: &Brief| Some(brief.latitude.0)),
        limit("longitude", "Longitude", Kind::Angle, -180.0, 180.0, |brief| Some(brief.longitude.0)),
        // From Baker Island to the Line Islands.
        limit("utc_offset", "Time zone", Kind::Time, -12.0, 14.0, |brief| Some(brief.utc_offset)),
        limit("albedo", "Ground reflectance", Kind::Ratio, 0.0, 1.0, |brief| Some(brief.albedo)),
        limit("bearing", "Bearing", Kind::Angle, 0.0, 360.0, |brief| Some(brief.bearing.0)),
        limit("hottest", "Hottest outdoor air", Kind::Temperature, -20.0, 60.0, |brief| Some(brief.hottest.0)),
        limit("coldest", "Coldest outdoor air", Kind::Temperature, -60.0, 40.0, |brief| Some(brief.coldest.0)),
        limit("daily_range", "Daily range", Kind::TemperatureDifference, 0.0, 40.0, |brief| Some(brief.daily_range.0)),
        limit("keep_above", "Least inside air", Kind::Temperature, -40.0, 40.0, |brief| Some(brief.keep_above.0)),
        // Some currencies count their smallest coin in thousands.
        limit("tariff", "Price of electricity", Kind::Ratio, 0.0, 100_000.0, |brief| brief.tariff),
        limit("power.fault_current", "Fault current", Kind::Current, 1.0, 200_000.0, |brief| {
            brief.power.fault_current.map(|current| current.0)
        }),
        limit("power.terminals", "Temperature of the terminals", Kind::Temperature, 60.0, 90.0, |brief| {
            Some(brief.power.terminals.0)
        }),
        limit("power.service_run", "Run of the service", Kind::Elevation, 0.0, 5000.0, |brief| {
            Some(brief.power.service_run.0)
        }),
        limit("power.autonomy", "Autonomy", Kind::Time, 0.0, 240.0, |brief| brief.power.autonomy.map(|hours| hours.0)),
        limit("power.recharge", "Recharge time", Kind::Time, 1.0, 240.0, |brief| Some(brief.power.recharge.0)),
        limit("power.growth", "Growth", Kind::Share, 0.0, 5.0, |brief| Some(brief.power.growth)),
        limit("spare_units", "Spare units", Kind::RackUnits, 0.0, 48.0, |brief| Some(brief.spare_units.into())),
        limit("fibre_ports", "Fibre ports", Kind::Count, 0.0, 100_000.0, |brief| Some(brief.fibre_ports.into())),
        limit("splices", "Splices", Kind::Count, 0.0, 100_000.0, |brief| Some(brief.splices.into())),
        limit("spare_knock_outs", "Spare knock-outs", Kind::Count, 0.0, 1000.0, |brief| {
            Some(brief.spare_knock_outs.into())
        }),
        limit("mass_limit", "Greatest equipped mass", Kind::Mass, 1.0, 100_000.0, |brief| {
            brief.mass_limit.map(|mass| mass.0)
        }),
        limit("one_person_lift", "One-person lift", Kind::Mass, 1.0, 100.0, |brief| Some(brief.one_person_lift.0)),
        limit("bearing_limit", "Bearing pressure", Kind::Pressure, 1.0, 100_000.0, |brief| {
            brief.bearing_limit.map(|pressure| pressure.0)
        }),
        limit("transport_mass", "Greatest shipping mass", Kind::Mass, 1.0, 100_000.0, |brief| {
            brief.transport_mass.map(|mass| mass.0)
        }),
        limit("transport_height", "Greatest shipping height", Kind::Length, 100.0, 20_000.0, |brief| {
            brief.transport_height.map(|height| height.0)
        }),
        limit("hook_height", "Height of the crane hook", Kind::Length, 100.0, 20_000.0, |brief| {
            Some(brief.hook_height.0)
        }),
        limit("tip_angle", "Least tip angle", Kind::Angle, 0.0, 45.0, |brief| Some(brief.tip_angle.0)),
    ],
    texts: &[TextLimit { place: "site", what: "Site", least: 0, most: 80, read: |brief| Some(&brief.site) }],
};

const MONTH: Ranges<Month> = Ranges {
    numbers: &[
        limit("air", "Mean outdoor air", Kind::Temperature, -70.0, 50.0, |month: &Month| Some(month.air.0)),
        limit("daily_range", "Daily range", Kind::TemperatureDifference, 0.0, 40.0, |month| Some(month.daily_range.0)),
        limit("clearness", "Share of a clear sky's sun", Kind::Ratio, 0.0, 1.0, |month| Some(month.clearness)),
        limit("wind", "Wind", Kind::Speed, 0.0, 30.0, |month| Some(month.wind)),
    ],
    texts: &[],
};

const DIRECTION: Ranges<f64> = Ranges {
    numbers: &[limit("", "Height of the horizon", Kind::Angle, 0.0, 89.0, |height| Some(*height))],
    texts: &[],
};

pub(crate) const PROJECT: Ranges<Project> = Ranges {
    numbers: &[],
    texts: &[TextLimit {
        place: "name",
        what: "Project name",
        least: 0,
        most: 80,
        read: |project| Some(&project.name),
    }],
};

/// Everything of a brief that is out of range, and where two of its values contradict each other.
pub(crate) fn brief_faults(brief: &Brief, at: &str, before: Option<&Brief>) -> Vec<Fault> {
    let mut faults = BRIEF.faults(brief, at, before);
    faults.extend(horizon_faults(brief, &join(at, "horizon"), before));
    if let Some(months) = &brief.months {
        for (index, month) in months.0.iter().enumerate() {
            let before = before.and_then(|before| before.months.as_ref()?.0.get(index));
            faults.extend(MONTH.faults(month, &join(at, &format!("months[{index}]")), before));
        }
    }
    faults.extend(currency_fault(&brief.currency, join(at, "currency"), before));
    if faults.is_empty() && brief.coldest.0 > brief.hottest.0 {
        let kind = Kind::Temperature;
        // Said of the value that changed: the other one stands.
        let hottest_stands = before.is_none_or(|before| before.hottest == brief.hottest);
        let (place, what, found, allowed, kept) = if hottest_stands {
            let allowed = Words::from("at most the hottest, ").and(Words::number(brief.hottest.0, kind));
            ("coldest", "Coldest outdoor air", brief.coldest, allowed, before.map(|before| before.coldest))
        } else {
            let allowed = Words::from("at least the coldest, ").and(Words::number(brief.coldest.0, kind));
            ("hottest", "Hottest outdoor air", brief.hottest, allowed, before.map(|before| before.hottest))
        };
        let mut fault = Fault::new(join(at, place), what, Words::number(found.0, kind), allowed);
        fault.kept = kept.map(|kept| Words::number(kept.0, kind)).unwrap_or_default();
        faults.push(fault);
    }
    faults
}

fn horizon_faults(brief: &Brief, at: &str, before: Option<&Brief>) -> Vec<Fault> {
    let directions = brief.horizon.len();
    if directions > MOST_DIRECTIONS {
        let allowed = format!("at most {MOST_DIRECTIONS} directions");
        return vec![Fault::new(at, "Horizon", format!("{directions} directions"), allowed)];
    }
    let each = brief.horizon.iter().enumerate();
    each.flat_map(|(index, height)| {
        let before = before.and_then(|before| before.horizon.get(index)).map(|height| &height.0);
        DIRECTION.faults(&height.0, &format!("{at}[{index}]"), before)
    })
    .collect()
}

fn currency_fault(code: &str, at: String, before: Option<&Brief>) -> Option<Fault> {
    if code.len() == 3 && code.bytes().all(|letter| letter.is_ascii_uppercase()) {
        return None;
    }
    let legible: String = code.chars().filter(|letter| !letter.is_control()).take(20).collect();
    let mut fault = Fault::new(at, "Currency", quoted(&legible), "three capital letters, a code of ISO 4217");
    fault.kept = before.map(|before| quoted(&before.currency)).unwrap_or_default();
    Some(fault)
}

/// A bearing turned into 0…360°; what is not a number stays so and is refused.
pub(crate) fn wrapped(bearing: f64) -> f64 {
    if (0.0..360.0).contains(&bearing) || !bearing.is_finite() {
        return bearing;
    }
    let turned = bearing.rem_euclid(360.0);
    if turned < 360.0 { turned } else { 0.0 }
}
