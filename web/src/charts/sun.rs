//! The sun of the chosen time, as the model is lit by it.

use geometry::Vec3;

use super::course_drawn;
use super::day::chosen_step;
use super::stretch::Stretch;
use crate::editor::use_editor;
use crate::lean::Memo;
use crate::view_state::{ViewState, use_view};

/// The sun of one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunNow {
    /// Towards it, in the coordinates of the build: x to the right seen from the front, y to the rear, z up.
    pub towards: Vec3,
    /// Sun on each face, W/m²: front, rear, left, right, roof.
    pub faces: [f64; 5],
}

impl SunNow {
    /// Of its height over the horizon and its bearing, both degrees, before a front that looks along `front`, degrees
    /// clockwise from north.
    #[must_use]
    pub fn of((height, bearing): (f64, f64), front: f64, faces: [f64; 5]) -> Self {
        Self { towards: towards(height, bearing - front), faces }
    }

    /// Whether it is down.
    #[must_use]
    pub fn is_down(&self) -> bool {
        self.towards.z <= 0.0
    }
}

/// The direction so high over the horizon and so far clockwise from straight before the front, both degrees.
pub(super) fn towards(height: f64, round: f64) -> Vec3 {
    let (height, round) = (height.to_radians(), round.to_radians());
    // Straight before the front is −y. Clockwise from there, seen from above, is the left hand of who looks at it.
    let level = libm::cos(height);
    Vec3::new(-level * libm::sin(round), -level * libm::cos(round), libm::sin(height))
}

/// The sun of the chosen time; none while no time is chosen.
#[must_use]
pub fn sun_now() -> Memo<Option<SunNow>> {
    let editor = use_editor();
    let ViewState { day, minute, .. } = use_view();
    let front = editor.part(|project| project.brief.bearing.0);
    let course = course_drawn();
    Memo::new(move |_| {
        let minute = minute.get()?;
        course.with(|kept| {
            let course = kept.0.as_ref()?;
            let stretch = Stretch::of(course, day.get());
            let step = chosen_step(course, day.get(), Some(minute));
            Some(SunNow::of(stretch.sun_at(step), front.get(), stretch.faces(step)))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(height: f64, bearing: f64, front: f64, towards: [f64; 3]) {
        let sun = SunNow::of((height, bearing), front, [0.0; 5]).towards;
        let off = [sun.x - towards[0], sun.y - towards[1], sun.z - towards[2]];
        assert!(off.iter().all(|off| off.abs() < 1e-9), "{sun:?}");
    }

    #[test]
    fn a_front_to_the_south_has_the_noon_sun_before_it_and_the_morning_on_its_right() {
        check(0.0, 180.0, 180.0, [0.0, -1.0, 0.0]);
        // East is on the right of who stands before a front that looks south.
        check(0.0, 90.0, 180.0, [1.0, 0.0, 0.0]);
        check(0.0, 270.0, 180.0, [-1.0, 0.0, 0.0]);
        check(90.0, 0.0, 180.0, [0.0, 0.0, 1.0]);
    }

    #[test]
    fn at_night_it_is_down() {
        assert!(SunNow::of((-5.0, 10.0), 0.0, [0.0; 5]).is_down());
    }
}
