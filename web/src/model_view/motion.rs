//! Movements: values that glide from one to another, and the rigid motion of doors and shield.

use geometry::Vec3;

/// A value that moves to another one with the sheet's easing. Times are in milliseconds.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Glide {
    from: f32,
    to: f32,
    start: f64,
    duration: f64,
}

impl Glide {
    /// A value at rest.
    pub(crate) const fn at(value: f32) -> Self {
        Self { from: value, to: value, start: 0.0, duration: 0.0 }
    }

    /// Sets out for another value; arrives at once when the duration is 0.
    pub(crate) fn go(&mut self, to: f32, now: f64, duration: f64) {
        *self = Self { from: self.value(now), to, start: now, duration };
    }

    /// Where it is.
    pub(crate) fn value(&self, now: f64) -> f32 {
        self.from + (self.to - self.from) * eased(self.share(now))
    }

    /// Where it is going.
    pub(crate) const fn goal(&self) -> f32 {
        self.to
    }

    /// Whether it is still under way.
    pub(crate) fn moves(&self, now: f64) -> bool {
        self.share(now) < 1.0
    }

    fn share(&self, now: f64) -> f32 {
        if self.duration <= 0.0 { 1.0 } else { ((now - self.start) / self.duration).clamp(0.0, 1.0) as f32 }
    }
}

/// The sheet's easing, `cubic-bezier(.2, .7, .2, 1)` of the token `--ease`, at a share of the time.
fn eased(share: f32) -> f32 {
    if share <= 0.0 || share >= 1.0 {
        return share.clamp(0.0, 1.0);
    }
    let bezier = |t: f32, a: f32, b: f32| {
        let rest = 1.0 - t;
        3.0 * rest * rest * t * a + 3.0 * rest * t * t * b + t * t * t
    };
    // x grows with t, so halving finds the t of this share; 16 steps are finer than a pixel.
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..16 {
        let middle = (low + high) / 2.0;
        if bezier(middle, 0.2, 0.2) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
    bezier(f32::midpoint(low, high), 0.7, 1.0)
}

/// A turn about an upright axis, then a lift: all that a door or a shield does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    cos: f64,
    sin: f64,
    shift: Vec3,
}

impl Motion {
    /// Where nothing has moved.
    pub(crate) const STILL: Self = Self { cos: 1.0, sin: 0.0, shift: Vec3::new(0.0, 0.0, 0.0) };

    /// A turn by an angle in degrees, seen from above, about the upright axis at (x, y).
    pub(crate) fn turn(x: f64, y: f64, degrees: f64) -> Self {
        let (sin, cos) = libm::sincos(degrees.to_radians());
        let turned = |px: f64, py: f64| (cos * px - sin * py, sin * px + cos * py);
        let (tx, ty) = turned(x, y);
        Self { cos, sin, shift: Vec3::new(x - tx, y - ty, 0.0) }
    }

    /// A lift, mm.
    pub(crate) const fn lift(height: f64) -> Self {
        Self { cos: 1.0, sin: 0.0, shift: Vec3::new(0.0, 0.0, height) }
    }

    /// Where a point comes to lie.
    pub(crate) fn point(&self, point: Vec3) -> Vec3 {
        self.direction(point) + self.shift
    }

    /// Which way a direction turns.
    pub(crate) fn direction(&self, way: Vec3) -> Vec3 {
        Vec3::new(self.cos * way.x - self.sin * way.y, self.sin * way.x + self.cos * way.y, way.z)
    }

    /// The motion that undoes this one.
    pub(crate) fn back(&self) -> Self {
        let turned = Self { cos: self.cos, sin: -self.sin, shift: Vec3::default() };
        Self { shift: turned.direction(self.shift) * -1.0, ..turned }
    }

    /// As a matrix in the order OpenGL keeps it, column by column.
    pub(crate) fn columns(&self) -> [[f32; 4]; 4] {
        let (cos, sin) = (self.cos as f32, self.sin as f32);
        let Vec3 { x, y, z } = self.shift;
        [[cos, sin, 0.0, 0.0], [-sin, cos, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0], [x as f32, y as f32, z as f32, 1.0]]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_glide_starts_and_ends_where_it_was_told() {
        let mut glide = Glide::at(0.0);
        glide.go(1.0, 100.0, 480.0);
        assert_eq!(glide.value(100.0), 0.0);
        assert!(glide.moves(579.0) && !glide.moves(580.0));
        assert_eq!(glide.value(580.0), 1.0);
    }

    #[test]
    fn a_glide_never_turns_back() {
        let mut glide = Glide::at(0.0);
        glide.go(1.0, 0.0, 480.0);
        let values: Vec<_> = (0..=48).map(|step| glide.value(f64::from(step) * 10.0)).collect();
        assert!(values.windows(2).all(|pair| pair[0] <= pair[1]), "{values:?}");
        // The curve is fast at first: past half way before a third of the time.
        assert!(values[16] > 0.5, "{}", values[16]);
    }

    #[test]
    fn without_a_duration_it_has_arrived() {
        let mut glide = Glide::at(0.0);
        glide.go(1.0, 5.0, 0.0);
        assert!(!glide.moves(5.0));
        assert_eq!(glide.value(5.0), 1.0);
    }

    #[test]
    fn a_quarter_turn_moves_the_free_edge_of_a_leaf_to_the_front() {
        // Hinged at the left front edge, clockwise seen from above: the free edge comes to the viewer.
        let motion = Motion::turn(-400.0, -500.0, -90.0);
        let edge = motion.point(Vec3::new(400.0, -500.0, 7.0));
        assert!((edge.x + 400.0).abs() < 1e-9 && (edge.y + 1300.0).abs() < 1e-9 && edge.z == 7.0, "{edge:?}");
    }

    #[test]
    fn going_back_undoes_a_motion() {
        let motion = Motion::turn(123.0, -77.0, 110.0);
        let point = Vec3::new(5.0, 6.0, 7.0);
        let there_and_back = motion.back().point(motion.point(point));
        assert!((there_and_back - point).dot(there_and_back - point) < 1e-18, "{there_and_back:?}");
    }
}
