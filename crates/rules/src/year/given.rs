//! Whether a run over time is there, belongs to this build, and lies in the range of the method.

use std::collections::BTreeSet;

use project::ItemId;

use crate::course::{Course, Transient};
use crate::heat::cooling::site_in_range;
use crate::heat::gap::Gap;
use crate::heat::walls::compartments;
use crate::{Case, Check, Finding, Subject};

/// Greatest figure that is believed, in whatever unit: sums and quotients of such are still numbers.
const BEYOND: f64 = 1e12;

/// What a check finds in the course of a case, or why there is none to judge. It gives `None` where the pieces of the
/// course do not fit this build.
pub(super) fn judged<'a>(
    check: &Check,
    case: &Case<'a>,
    judge: impl FnOnce(&'a Course) -> Option<Vec<Finding>>,
) -> Vec<Finding> {
    match given(case).and_then(|course| judge(course).ok_or_else(another_build)) {
        Ok(findings) => findings,
        Err(gap) => vec![gap.finding(check, Subject::Cabinet)],
    }
}

/// The course of a case, when it can be judged.
///
/// # Errors
/// When there is none, when it belongs to another build, or when site or figures lie beyond the method.
fn given<'a>(case: &Case<'a>) -> Result<&'a Course, Gap> {
    let Some(course) = case.course else { return Err(Gap::NeedsData("a run over the day and the year".into())) };
    if !belongs(case, course) {
        return Err(another_build());
    }
    if !figures(course).all(|figure| figure.abs() <= BEYOND) {
        return Err(Gap::OutOfRange("figures beyond any cabinet".into()));
    }
    // Of the hours' outdoor air each check looks at those it tells of: nine thousand rows at every edit would be too many.
    site_in_range(case, case.project.brief.hottest)?;
    site_in_range(case, case.project.brief.coldest)?;
    Ok(course)
}

/// What is said of a run whose pieces do not fit this build.
pub(super) fn another_build() -> Gap {
    Gap::NeedsData("a new run over the day and the year: this one belongs to another build".into())
}

/// Whether everything that the course names is in the build, and its pieces fit each other.
fn belongs(case: &Case, course: &Course) -> bool {
    let rooms = course.rooms.len();
    let whole = rooms == compartments(case)
        && course.room_years.len() == rooms
        && course.peaks.len() == rooms
        && course.units.len() == case.project.build.climate.len()
        && course.unit_years.len() == course.units.len()
        && course.units.iter().all(|unit| unit.room < rooms)
        && transients(course).all(|one| one.room < rooms);
    let build = &case.project.build;
    let devices: BTreeSet<ItemId> = build.devices.iter().map(|device| device.id).collect();
    let units: BTreeSet<ItemId> = build.climate.iter().map(|unit| unit.id).collect();
    let of_rooms = course.rooms.iter().flat_map(|room| [room.hot_device, room.cold_device]).flatten();
    let of_years = course.room_years.iter().flat_map(|room| &room.devices).map(|device| device.id);
    let of_runs = transients(course).filter_map(|one| one.device);
    let of_batteries = course.batteries.iter().map(|battery| battery.id);
    whole
        && of_rooms.chain(of_years).chain(of_runs).chain(of_batteries).all(|id| devices.contains(&id))
        && course.units.iter().all(|unit| units.contains(&unit.id))
}

fn transients(course: &Course) -> impl Iterator<Item = &Transient> {
    [&course.door_open, &course.cooling_lost, &course.grid_lost.heat, &course.cold_start].into_iter()
}

/// Every figure that a check tells.
fn figures(course: &Course) -> impl Iterator<Item = f64> {
    let rooms = course.rooms.iter().flat_map(|room| [Some(room.cold_limit), room.hot_limit]).flatten();
    let years = course.room_years.iter().flat_map(|room| {
        let own = [Some(room.highest), Some(room.lowest), Some(room.mean), Some(room.hours_below), room.hours_above];
        let of_devices = room
            .devices
            .iter()
            .flat_map(|device| [Some(device.highest), Some(device.lowest), device.hours_above, device.hours_below]);
        own.into_iter().chain(of_devices).flatten()
    });
    let units = course.unit_years.iter().flat_map(|unit| [unit.hours, unit.heat, unit.electricity]);
    let peaks = course
        .peaks
        .iter()
        .flat_map(|peak| [peak.devices, peak.sun, peak.envelope, peak.divider, peak.units, peak.stored]);
    let batteries = course
        .batteries
        .iter()
        .flat_map(|one| [one.mean, one.highest, one.lowest, one.ageing, one.hours_below_freezing]);
    let runs = transients(course).filter_map(|one| one.minutes);
    let strings = course.grid_lost.minutes;
    rooms.chain(years).chain(units).chain(peaks).chain(batteries).chain(runs).chain(strings).chain([course.residual])
}
