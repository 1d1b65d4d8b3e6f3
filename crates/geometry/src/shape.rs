//! What an outline, a frame and a solid can be asked and made from.

use crate::{Axis, Box3, Frame, Mass, Outline, Solid, Vec3};

/// Directions of the corners of a twelve-sided ring, written out so that no trigonometry is needed: cos and sin of
/// 0°, 30°, … 330°.
const TWELVE: [[f64; 2]; 12] = [
    [1.0, 0.0],
    [COS_30, 0.5],
    [0.5, COS_30],
    [0.0, 1.0],
    [-0.5, COS_30],
    [-COS_30, 0.5],
    [-1.0, 0.0],
    [-COS_30, -0.5],
    [-0.5, -COS_30],
    [0.0, -1.0],
    [0.5, -COS_30],
    [COS_30, -0.5],
];

/// cos 30° = √3 ∕ 2.
const COS_30: f64 = 0.866_025_403_784_438_6;

/// A ring as it is stored: points, the first not repeated.
pub(crate) type Ring = Vec<[f64; 2]>;

/// Twelve-sided ring, counter-clockwise.
pub(crate) fn circle(centre: [f64; 2], radius: f64) -> Ring {
    TWELVE.iter().map(|[x, y]| [centre[0] + radius * x, centre[1] + radius * y]).collect()
}

/// A rectangle, counter-clockwise.
pub(crate) fn rectangle(low: [f64; 2], high: [f64; 2]) -> Ring {
    vec![low, [high[0], low[1]], high, [low[0], high[1]]]
}

/// The same ring, running the other way.
pub(crate) fn reversed(mut ring: Ring) -> Ring {
    ring.reverse();
    ring
}

/// Area of a ring by the shoelace formula, mm²; negative when it runs clockwise.
pub(crate) fn ring_area(ring: &[[f64; 2]]) -> f64 {
    // A = ½ Σ (xᵢ yᵢ₊₁ − xᵢ₊₁ yᵢ)
    edges(ring).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>() / 2.0
}

/// First moments of a ring, mm³: area × centroid, signed as the area is.
fn ring_moments(ring: &[[f64; 2]]) -> [f64; 2] {
    // A·cₓ = ⅙ Σ (xᵢ + xᵢ₊₁)(xᵢ yᵢ₊₁ − xᵢ₊₁ yᵢ)
    let mut sum = [0.0, 0.0];
    for (a, b) in edges(ring) {
        let cross = a[0] * b[1] - b[0] * a[1];
        sum[0] += (a[0] + b[0]) * cross;
        sum[1] += (a[1] + b[1]) * cross;
    }
    [sum[0] / 6.0, sum[1] / 6.0]
}

/// The edges of a ring, from each point to the next.
pub(crate) fn edges(ring: &[[f64; 2]]) -> impl Iterator<Item = ([f64; 2], [f64; 2])> + '_ {
    ring.iter().copied().zip(ring.iter().copied().cycle().skip(1))
}

/// Lowest and highest corner round some points.
pub(crate) fn bounds(ring: &[[f64; 2]]) -> ([f64; 2], [f64; 2]) {
    let Some(first) = ring.first() else { return ([0.0; 2], [0.0; 2]) };
    ring.iter().fold((*first, *first), |(low, high), point| {
        ([low[0].min(point[0]), low[1].min(point[1])], [high[0].max(point[0]), high[1].max(point[1])])
    })
}

impl Outline {
    /// A rectangle from the origin.
    #[must_use]
    pub fn rectangle(width: f64, height: f64) -> Self {
        Self { outer: rectangle([0.0, 0.0], [width, height]), holes: Vec::new() }
    }

    /// All rings: the outer one, then the holes.
    pub fn rings(&self) -> impl Iterator<Item = &[[f64; 2]]> {
        std::iter::once(self.outer.as_slice()).chain(self.holes.iter().map(Vec::as_slice))
    }

    /// Area without the holes, mm².
    #[must_use]
    pub fn area(&self) -> f64 {
        self.rings().map(ring_area).sum()
    }

    /// Centre of the area; the middle of its bounds when it has no area.
    #[must_use]
    pub fn centroid(&self) -> [f64; 2] {
        let area = self.area();
        if area.abs() > 0.0 {
            let moments =
                self.rings().map(ring_moments).fold([0.0, 0.0], |sum, one| [sum[0] + one[0], sum[1] + one[1]]);
            return [moments[0] / area, moments[1] / area];
        }
        let (low, high) = bounds(&self.outer);
        [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0]
    }

    /// Whether it is a rectangle along its axes without holes: the shape most solids have.
    #[must_use]
    pub fn is_plain_rectangle(&self) -> bool {
        self.holes.is_empty() && self.outer.len() == 4 && is_rectilinear(&self.outer)
    }
}

/// Whether every edge of a ring lies along an axis.
pub(crate) fn is_rectilinear(ring: &[[f64; 2]]) -> bool {
    edges(ring).all(|(a, b)| a[0] == b[0] || a[1] == b[1])
}

impl Frame {
    /// The frame of a plate that fills a box and faces along `facing`. Seen from where it faces, u runs to the right
    /// and v up; on a roof u is to the right and v to the rear.
    #[must_use]
    pub fn facing(facing: Axis, fills: &Box3) -> Self {
        let (u, v) = match facing {
            Axis::MinusY => (Axis::X, Axis::Z),
            Axis::Y => (Axis::MinusX, Axis::Z),
            Axis::X => (Axis::Y, Axis::Z),
            Axis::MinusX => (Axis::MinusY, Axis::Z),
            Axis::Z => (Axis::X, Axis::Y),
            Axis::MinusZ => (Axis::X, Axis::MinusY),
        };
        let pick = |low: f64, high: f64, against: bool| if against { high } else { low };
        let against = |axis: Axis| [u, v, facing].contains(&axis);
        Self {
            origin: Vec3::new(
                pick(fills.min.x, fills.max.x, against(Axis::MinusX)),
                pick(fills.min.y, fills.max.y, against(Axis::MinusY)),
                pick(fills.min.z, fills.max.z, against(Axis::MinusZ)),
            ),
            u,
            v,
        }
    }

    /// The direction of extrusion.
    #[must_use]
    pub fn normal(&self) -> Vec3 {
        self.u.vector().cross(self.v.vector())
    }

    /// The point at outline coordinates (a, b), `out` along the extrusion.
    #[must_use]
    pub fn point(&self, [a, b]: [f64; 2], out: f64) -> Vec3 {
        self.origin + self.u.vector() * a + self.v.vector() * b + self.normal() * out
    }

    /// The outline coordinates of a point.
    #[must_use]
    pub fn coordinates(&self, point: Vec3) -> [f64; 2] {
        let from = point - self.origin;
        [from.dot(self.u.vector()), from.dot(self.v.vector())]
    }

    /// Lowest and highest outline coordinates of a box.
    pub(crate) fn shadow(&self, of: &Box3) -> ([f64; 2], [f64; 2]) {
        bounds(&[self.coordinates(of.min), self.coordinates(of.max)])
    }
}

impl Solid {
    /// Volume, mm³.
    #[must_use]
    pub fn volume(&self) -> f64 {
        self.outline.area() * self.thickness
    }

    /// Centre of its volume.
    #[must_use]
    pub fn centroid(&self) -> Vec3 {
        self.frame.point(self.outline.centroid(), self.thickness / 2.0)
    }

    /// Mass in kg; 0 when it is counted with another solid, `None` when nobody has said.
    #[must_use]
    pub fn mass_kg(&self) -> Option<f64> {
        match self.mass {
            // m = ρ V; 1 mm³ = 10⁻⁹ m³
            Mass::Density(density) => Some(density * self.volume() * 1e-9),
            Mass::Total(kg) => Some(kg),
            Mass::Elsewhere => Some(0.0),
            Mass::Unknown => None,
        }
    }

    /// The smallest box round it.
    #[must_use]
    pub fn bounds(&self) -> Box3 {
        let (low, high) = bounds(&self.outline.outer);
        Box3::between(self.frame.point(low, 0.0), self.frame.point(high, self.thickness))
    }
}
