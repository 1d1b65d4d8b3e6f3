//! The ranges of the brief.

use units::Kind;

use super::{Fault, Limit, Ranges, TextLimit};
use crate::{Brief, Project, Words};

const fn limit(
    place: &'static str,
    what: &'static str,
    kind: Kind,
    least: f64,
    most: f64,
    read: fn(&Brief) -> Option<f64>,
) -> Limit<Brief> {
    Limit { place, what, kind, least, most, read }
}

pub(crate) const BRIEF: Ranges<Brief> = Ranges {
    numbers: &[
        // From the lowest dry land to where the standard atmosphere of the checks is still used on the ground.
        limit("elevation", "Elevation", Kind::Elevation, -430.0, 5000.0, |brief| Some(brief.elevation.0)),
        limit("bearing", "Bearing", Kind::Angle, 0.0, 360.0, |brief| Some(brief.bearing.0)),
        limit("hottest", "Hottest outdoor air", Kind::Temperature, -20.0, 60.0, |brief| Some(brief.hottest.0)),
        limit("coldest", "Coldest outdoor air", Kind::Temperature, -60.0, 40.0, |brief| Some(brief.coldest.0)),
        limit("keep_above", "Least inside air", Kind::Temperature, -40.0, 40.0, |brief| Some(brief.keep_above.0)),
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
        let mut fault = Fault::new(super::join(at, place), what, Words::number(found.0, kind), allowed);
        fault.kept = kept.map(|kept| Words::number(kept.0, kind)).unwrap_or_default();
        faults.push(fault);
    }
    faults
}

/// A bearing turned into 0…360°; what is not a number stays so and is refused.
pub(crate) fn wrapped(bearing: f64) -> f64 {
    if (0.0..360.0).contains(&bearing) || !bearing.is_finite() {
        return bearing;
    }
    let turned = bearing.rem_euclid(360.0);
    if turned < 360.0 { turned } else { 0.0 }
}
