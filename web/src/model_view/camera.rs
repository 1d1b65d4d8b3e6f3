//! How the model is looked at: an orthographic view, turned by two angles, that stands on the ground line.

use geometry::{Box3, Vec3};

use crate::view_state::Camera;

/// The least and the greatest magnification against the fitted view.
const ZOOM: (f32, f32) = (0.4, 16.0);

/// A direction of view, degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Angles {
    /// How far the eye has gone round to the right of the front.
    pub(crate) round: f32,
    /// How far it stands above the horizon.
    pub(crate) up: f32,
}

impl Angles {
    /// The angles of a named side.
    pub(crate) const fn of(camera: Camera) -> Self {
        let (round, up) = match camera {
            Camera::Corner => (28.0, 15.0),
            Camera::Front => (0.0, 0.0),
            Camera::Rear => (180.0, 0.0),
            Camera::Side => (90.0, 0.0),
            Camera::Above => (0.0, 90.0),
        };
        Self { round, up }
    }

    /// Turned by hand; the eye never sinks below the ground.
    pub(crate) fn turned(self, round: f32, up: f32) -> Self {
        Self { round: (self.round + round).rem_euclid(360.0), up: (self.up + up).clamp(0.0, 90.0) }
    }

    /// The same direction, its turn written so that the shorter way leads there from `from`.
    pub(crate) fn nearest_to(self, from: Self) -> Self {
        let way = (self.round - from.round + 180.0).rem_euclid(360.0) - 180.0;
        Self { round: from.round + way, ..self }
    }
}

/// The three directions of a view: to the right, up, and towards the eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Axes {
    pub(crate) right: Vec3,
    pub(crate) up: Vec3,
    pub(crate) eye: Vec3,
}

impl Axes {
    /// The directions at some angles.
    pub(crate) fn at(angles: Angles) -> Self {
        let (sin_round, cos_round) = libm::sincos(f64::from(angles.round).to_radians());
        let (sin_up, cos_up) = libm::sincos(f64::from(angles.up).to_radians());
        Self {
            right: Vec3::new(cos_round, sin_round, 0.0),
            up: Vec3::new(-sin_round * sin_up, cos_round * sin_up, cos_up),
            eye: Vec3::new(sin_round * cos_up, -cos_round * cos_up, sin_up),
        }
    }
}

/// The drawing's area in CSS pixels, and what of it is kept free for call-outs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Area {
    pub(crate) width: f32,
    pub(crate) height: f32,
}

impl Area {
    /// Free at either side: call-outs stand there where the area is wide enough for them.
    fn aside(self) -> f32 {
        if self.width >= 480.0 { self.width * 0.165 } else { 8.0 }
    }

    /// Free at the top: the dimension line stands there.
    fn above(self) -> f32 {
        if self.width >= 480.0 { 42.0 } else { 38.0 }
    }

    /// Free at the bottom: only the stroke of the lowest edge.
    const BELOW: f32 = 2.0;
}

/// Where a set of points lies in a view, in model millimetres: left, right, bottom, top.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Extent {
    left: f64,
    right: f64,
    bottom: f64,
    top: f64,
}

impl Extent {
    /// The extent of points.
    pub(crate) fn of(points: &[Vec3], axes: &Axes) -> Self {
        let empty = Self { left: f64::MAX, right: f64::MIN, bottom: f64::MAX, top: f64::MIN };
        let extent = points.iter().fold(empty, |extent, point| {
            let (across, up) = (point.dot(axes.right), point.dot(axes.up));
            Self {
                left: extent.left.min(across),
                right: extent.right.max(across),
                bottom: extent.bottom.min(up),
                top: extent.top.max(up),
            }
        });
        if extent.left > extent.right { Self { left: -500.0, right: 500.0, bottom: 0.0, top: 1000.0 } } else { extent }
    }

    /// Pixels per millimetre at which it fills an area.
    pub(crate) fn fitting(&self, area: Area) -> f32 {
        let room_across = (area.width - 2.0 * area.aside()).max(24.0);
        let room_up = (area.height - area.above() - Area::BELOW).max(24.0);
        let across = room_across / (self.right - self.left).max(1.0) as f32;
        let up = room_up / (self.top - self.bottom).max(1.0) as f32;
        across.min(up)
    }
}

/// What a user may change by hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Hand {
    /// Magnification against the fitted view.
    pub(crate) zoom: f32,
    /// Shift in CSS pixels, to the right and down.
    pub(crate) pan: [f32; 2],
}

impl Hand {
    /// The fitted view.
    pub(crate) const FITTED: Self = Self { zoom: 1.0, pan: [0.0, 0.0] };

    /// Shifted.
    pub(crate) fn panned(self, across: f32, down: f32) -> Self {
        Self { pan: [self.pan[0] + across, self.pan[1] + down], ..self }
    }

    /// Magnified by a factor about a point of the area, which stays where it is.
    pub(crate) fn zoomed(self, factor: f32, about: [f32; 2], area: Area) -> Self {
        let zoom = (self.zoom * factor).clamp(ZOOM.0, ZOOM.1);
        let factor = zoom / self.zoom;
        // Without a pan, the middle of the lower edge stays.
        let anchor = [area.width / 2.0 + self.pan[0], area.height - Area::BELOW + self.pan[1]];
        let pan = [
            self.pan[0] + (about[0] - anchor[0]) * (1.0 - factor),
            self.pan[1] + (about[1] - anchor[1]) * (1.0 - factor),
        ];
        Self { zoom, pan }
    }
}

/// From model millimetres to CSS pixels of the drawing and back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    pub(crate) axes: Axes,
    /// CSS pixels per millimetre.
    pub(crate) scale: f32,
    /// Where the model's origin lies, in CSS pixels from the upper left corner.
    pub(crate) origin: [f32; 2],
}

impl Pose {
    /// The pose at which an extent stands on the ground line, in the middle, at a scale.
    pub(crate) fn standing(axes: Axes, extent: &Extent, scale: f32, hand: Hand, area: Area) -> Self {
        let scale = scale * hand.zoom;
        let middle = ((extent.left + extent.right) / 2.0) as f32;
        let origin = [
            area.width / 2.0 + hand.pan[0] - scale * middle,
            area.height - Area::BELOW + hand.pan[1] + scale * extent.bottom as f32,
        ];
        Self { axes, scale, origin }
    }

    /// Where a point appears, in CSS pixels.
    pub(crate) fn screen(&self, point: Vec3) -> [f64; 2] {
        let (scale, [x, y]) = (f64::from(self.scale), self.origin);
        [f64::from(x) + scale * point.dot(self.axes.right), f64::from(y) - scale * point.dot(self.axes.up)]
    }

    /// A point that appears at a place on screen; it lies in the plane of view through the model's origin.
    pub(crate) fn unproject(&self, [x, y]: [f64; 2]) -> Vec3 {
        let scale = f64::from(self.scale);
        let (across, up) = ((x - f64::from(self.origin[0])) / scale, (f64::from(self.origin[1]) - y) / scale);
        self.axes.right * across + self.axes.up * up
    }
}

/// The eight corners of a box.
pub(crate) fn corners(of: &Box3) -> [Vec3; 8] {
    std::array::from_fn(|index| {
        let pick = |bit: usize, low: f64, high: f64| if index & bit == 0 { low } else { high };
        Vec3::new(pick(1, of.min.x, of.max.x), pick(2, of.min.y, of.max.y), pick(4, of.min.z, of.max.z))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const AREA: Area = Area { width: 640.0, height: 430.0 };

    fn cabinet() -> Box3 {
        Box3 { min: Vec3::new(-800.0, -500.0, 0.0), max: Vec3::new(800.0, 500.0, 1600.0) }
    }

    fn pose(camera: Camera, hand: Hand) -> Pose {
        let axes = Axes::at(Angles::of(camera));
        let extent = Extent::of(&corners(&cabinet()), &axes);
        Pose::standing(axes, &extent, extent.fitting(AREA), hand, AREA)
    }

    #[test]
    fn the_axes_are_square_to_each_other_and_right_handed() {
        for camera in [Camera::Corner, Camera::Front, Camera::Rear, Camera::Side, Camera::Above] {
            let Axes { right, up, eye } = Axes::at(Angles::of(camera));
            let made = right.cross(up) - eye;
            assert!(made.dot(made) < 1e-12, "{camera:?}");
        }
    }

    #[test]
    fn from_the_corner_the_front_and_the_right_side_show() {
        let eye = Axes::at(Angles::of(Camera::Corner)).eye;
        assert!(eye.y < 0.0 && eye.x > 0.0 && eye.z > 0.0);
    }

    #[test]
    fn the_lowest_corner_stands_on_the_ground_line_in_every_view() {
        for camera in [Camera::Corner, Camera::Front, Camera::Rear, Camera::Side, Camera::Above] {
            let pose = pose(camera, Hand::FITTED);
            let lowest = corners(&cabinet()).iter().map(|point| pose.screen(*point)[1]).fold(0.0, f64::max);
            assert!((lowest - 428.0).abs() < 0.01, "{camera:?}: {lowest}");
        }
    }

    #[test]
    fn every_corner_is_inside_the_area() {
        for camera in [Camera::Corner, Camera::Front, Camera::Rear, Camera::Side, Camera::Above] {
            let pose = pose(camera, Hand::FITTED);
            for point in corners(&cabinet()) {
                let [x, y] = pose.screen(point);
                assert!((105.0..=535.0).contains(&x) && (33.0..=430.0).contains(&y), "{camera:?}: {x} {y}");
            }
        }
    }

    #[test]
    fn a_point_comes_back_from_the_screen() {
        let pose = pose(Camera::Corner, Hand::FITTED.panned(12.0, -30.0));
        let at = [321.0, 45.0];
        let back = pose.screen(pose.unproject(at));
        assert!((back[0] - at[0]).abs() < 1e-9 && (back[1] - at[1]).abs() < 1e-9);
    }

    #[test]
    fn zooming_keeps_the_point_under_the_pointer() {
        let hand = Hand::FITTED.panned(20.0, 10.0);
        let at = [200.0, 150.0];
        let under = pose(Camera::Corner, hand).unproject([200.0, 150.0]);
        let after = pose(Camera::Corner, hand.zoomed(1.7, at, AREA)).screen(under);
        assert!((after[0] - 200.0).abs() < 0.01 && (after[1] - 150.0).abs() < 0.01, "{after:?}");
    }

    #[test]
    fn zoom_has_ends() {
        let mut hand = Hand::FITTED;
        for _ in 0..100 {
            hand = hand.zoomed(2.0, [0.0, 0.0], AREA);
        }
        assert_eq!(hand.zoom, ZOOM.1);
        assert!(hand.pan.iter().all(|shift| shift.is_finite()));
    }

    #[test]
    fn a_turn_takes_the_shorter_way() {
        let from = Angles { round: 350.0, up: 0.0 };
        assert_eq!(Angles { round: 10.0, up: 0.0 }.nearest_to(from).round, 370.0);
        assert_eq!(Angles { round: 270.0, up: 0.0 }.nearest_to(from).round, 270.0);
    }

    #[test]
    fn the_eye_stays_above_the_ground() {
        assert_eq!(Angles { round: 0.0, up: 10.0 }.turned(0.0, -50.0).up, 0.0);
        assert_eq!(Angles { round: 0.0, up: 80.0 }.turned(0.0, 50.0).up, 90.0);
    }

    #[test]
    fn nothing_to_draw_still_gives_a_finite_view() {
        let axes = Axes::at(Angles::of(Camera::Corner));
        let extent = Extent::of(&[], &axes);
        let scale = extent.fitting(Area { width: 0.0, height: 0.0 });
        assert!(scale.is_finite() && scale > 0.0);
    }
}
