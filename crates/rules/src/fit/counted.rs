//! What is asked for by number and offered by devices: fibre ports and splices.

use catalogue::{Device, DeviceKind};
use project::Place;

use crate::{Case, Check, Finding, Phrase, Step, Subject, count, sources};

/// What is counted.
pub(crate) struct Counted {
    /// In words: "fibre ports".
    pub(crate) what: &'static str,
    /// How many are asked for.
    pub(crate) asked: u32,
    /// How many a device offers.
    pub(crate) offers: fn(&Device) -> u32,
}

/// Holds what the placed devices offer against what is asked for.
pub(crate) fn judge(check: &Check, case: &Case, counted: &Counted) -> Vec<Finding> {
    let what = counted.what;
    let of = |panels: bool| -> u64 {
        let placed = case.devices.iter().filter(|device| device.fitted.at != Place::Unplaced);
        let picked = placed.filter(|device| (device.spec.kind == DeviceKind::Fibre) == panels);
        picked.map(|device| u64::from((counted.offers)(device.spec))).sum()
    };
    let (passive, active) = (of(true), of(false));
    let fitted = passive + active;
    let steps = vec![
        Step::input("n_panels", format!("{what} of placed panels and shelves"), number(passive)),
        Step::input("n_others", format!("{what} of other placed devices"), number(active)),
        Step::computed(
            "n_fitted",
            format!("{what} fitted"),
            "n_panels + n_others",
            Phrase::new().number(number(passive)).text(" + ").number(number(active)),
            number(fitted),
        ),
        Step::input("n_asked", format!("{what} asked for"), number(u64::from(counted.asked))),
    ];
    if counted.asked == 0 {
        let mut finding = Finding::tells(check, Subject::Cabinet, number(fitted)).because("none asked for");
        finding.working = steps;
        return vec![finding];
    }
    let finding = Finding::at_least(check, Subject::Cabinet, number(fitted), count(counted.asked as usize), 1.0);
    let missing = u64::from(counted.asked).saturating_sub(fitted);
    let help = offer(case, counted, missing).unwrap_or_else(|| format!("Add devices for {missing} {what} more").into());
    vec![finding.working(steps).help(help)]
}

/// "Add 2 × Panel 48: 96 more": the part that takes the fewest rack units for what is missing.
fn offer(case: &Case, counted: &Counted, missing: u64) -> Option<Phrase> {
    let parts = case.catalogue.devices.values().filter(|device| device.kind == DeviceKind::Fibre);
    let (pieces, part) = parts
        .filter_map(|device| {
            let each = u64::from((counted.offers)(device));
            if each == 0 {
                return None;
            }
            Some((missing.div_ceil(each), device, device.units()?))
        })
        .min_by_key(|(pieces, device, units)| (pieces * u64::from(*units), *pieces, (counted.offers)(device)))
        .map(|(pieces, device, _)| (pieces, device))?;
    let more = pieces * u64::from((counted.offers)(part));
    let times = if pieces == 1 { String::new() } else { format!("{pieces} × ") };
    Some(format!("Add {times}{}: {more} {} more", part.name, counted.what).into())
}

fn number(number: u64) -> units::Value {
    count(usize::try_from(number).unwrap_or(usize::MAX))
}

/// The sources of such a count: it only adds up.
pub(crate) static SOURCES: &[&crate::Source] = &[&sources::CATALOGUE];
