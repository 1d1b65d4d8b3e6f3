//! The highest inside air of a room, held against the lowest of the highest inlet temperatures its devices allow.

use project::ItemId;
use units::{Celsius, Kelvins};

use super::given::judged;
use super::words::{device_name, joined, of, room_name, room_subject};
use crate::course::{Course, Room};
use crate::finding::worst_first;
use crate::heat::cooling::site_in_range;
use crate::heat::hottest::WARMEST;
use crate::heat::hottest_inside_air::{scale, unsaid};
use crate::sources::CATALOGUE;
use crate::{Case, Check, Finding, Outcome, Phrase, Step, Subject};

/// The hottest moment of a room.
pub(super) struct Moment {
    /// Inside air, °C.
    pub air: f64,
    /// Outdoor air then, °C.
    pub outside: f64,
    /// When, in words.
    pub when: String,
}

/// Judges one room: on the scale of H04, with the device that sets the limit and the moment as what it is about.
pub(super) fn judge(check: &Check, case: &Case, course: &Course, room: usize, moment: &Moment) -> Finding {
    let own = &course.rooms[room];
    let when = Phrase::from(moment.when.as_str());
    let subject = own.hot_device.map_or_else(|| room_subject(course, room), Subject::Device);
    let name = own.hot_device.map_or_else(|| room_name(course, room), |id| device_name(case, id));
    let about = joined(name, when);
    let warmest =
        || Phrase::from("inside air lies above ").value(Celsius(WARMEST)).text(", beyond what this method covers");
    if let Err(gap) = site_in_range(case, Celsius(moment.outside)) {
        return gap.finding(check, subject).about(about);
    }
    let finding = match own.hot_limit {
        Some(limit) if moment.air > WARMEST && limit <= WARMEST => Finding::fails(check, subject, warmest()),
        _ if moment.air > WARMEST => Finding::out_of_range(check, subject, warmest()),
        None => Finding::tells(check, subject, Celsius(moment.air)).because("no device sets a limit"),
        Some(limit) => {
            let (used, reserve) = scale(moment.air, limit, moment.outside);
            let margin = Kelvins(limit - moment.air);
            Finding::on_scale(check, subject, Celsius(moment.air), Celsius(limit), margin, used, reserve)
        }
    };
    finding.about(about)
}

/// Every room of a course judged by itself, as [`with_unsaid`] orders them; `of_room` gives `None` where the pieces of the
/// course do not fit this build.
pub(super) fn judged_by_room(
    check: &Check,
    case: &Case,
    of_room: impl Fn(&Check, &Case, &Course, usize) -> Option<Finding>,
) -> Vec<Finding> {
    judged(check, case, |course| {
        let rooms: Option<_> = (0..course.rooms.len()).map(|room| of_room(check, case, course, room)).collect();
        Some(with_unsaid(check, case, course, rooms?))
    })
}

/// What the device that sets a room's limit allows; none where no device does.
pub(super) fn limit_step(case: &Case, room: &Room) -> Option<Step> {
    Some(allowed_step(case, room.hot_device?, Celsius(room.hot_limit?)))
}

/// What a device allows at its inlet.
pub(super) fn allowed_step(case: &Case, device: ItemId, limit: Celsius) -> Step {
    Step::input("T_max", of("highest inlet air of ", device_name(case, device)), limit).from_source(&CATALOGUE)
}

/// The worst room first, then what does not hold, then the devices that give heat and say no limit.
fn with_unsaid(check: &Check, case: &Case, course: &Course, found: Vec<Finding>) -> Vec<Finding> {
    let mut findings = worst_first(found);
    let limited = course.rooms.iter().any(|room| room.hot_limit.is_some());
    match (unsaid(check, case), findings.first_mut()) {
        (Some(unsaid), Some(lead)) if !limited && lead.outcome == Outcome::Holds => {
            *lead = Finding { given: lead.given, working: std::mem::take(&mut lead.working), ..unsaid };
        }
        (Some(unsaid), _) => findings.push(unsaid),
        (None, _) => {}
    }
    findings
}
