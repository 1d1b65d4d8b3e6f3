//! Points and boxes.

/// A point or a vector, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vec3 {
    /// To the right, seen from the front.
    pub x: f64,
    /// From front to rear.
    pub y: f64,
    /// Up.
    pub z: f64,
}

impl Vec3 {
    /// The point (x, y, z).
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// The vector product.
    #[must_use]
    pub fn cross(self, other: Self) -> Self {
        Self {
            x: self.y * other.z - self.z * other.y,
            y: self.z * other.x - self.x * other.z,
            z: self.x * other.y - self.y * other.x,
        }
    }

    /// The scalar product.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }
}

impl std::ops::Add for Vec3 {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl std::ops::Sub for Vec3 {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl std::ops::Mul<f64> for Vec3 {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor, self.z * factor)
    }
}

/// A box along the axes, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Box3 {
    /// Lowest corner.
    pub min: Vec3,
    /// Highest corner.
    pub max: Vec3,
}

impl Box3 {
    /// The box between two corners, in any order.
    #[must_use]
    pub fn between(a: Vec3, b: Vec3) -> Self {
        Self {
            min: Vec3::new(a.x.min(b.x), a.y.min(b.y), a.z.min(b.z)),
            max: Vec3::new(a.x.max(b.x), a.y.max(b.y), a.z.max(b.z)),
        }
    }

    /// Width, depth and height.
    #[must_use]
    pub fn size(&self) -> Vec3 {
        self.max - self.min
    }

    /// The middle.
    #[must_use]
    pub fn centre(&self) -> Vec3 {
        (self.min + self.max) * 0.5
    }

    /// The smallest box round both.
    #[must_use]
    pub fn join(&self, other: &Self) -> Self {
        Self {
            min: Vec3::new(self.min.x.min(other.min.x), self.min.y.min(other.min.y), self.min.z.min(other.min.z)),
            max: Vec3::new(self.max.x.max(other.max.x), self.max.y.max(other.max.y), self.max.z.max(other.max.z)),
        }
    }

    /// How deep the two reach into each other: the least of the three overlaps, mm; 0 or less when they do not meet.
    #[must_use]
    pub fn meets(&self, other: &Self) -> f64 {
        let x = self.max.x.min(other.max.x) - self.min.x.max(other.min.x);
        let y = self.max.y.min(other.max.y) - self.min.y.max(other.min.y);
        let z = self.max.z.min(other.max.z) - self.min.z.max(other.min.z);
        x.min(y).min(z)
    }
}
