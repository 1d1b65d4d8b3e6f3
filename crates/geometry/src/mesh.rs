//! Triangles of solids, for drawing.

use earcut::Earcut;

use crate::shape::{edges, ring_area};
use crate::{Outline, Solid, Vec3};

/// Triangles with flat normals; each face has its own points.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mesh {
    /// Points, mm.
    pub positions: Vec<[f32; 3]>,
    /// A normal for each point.
    pub normals: Vec<[f32; 3]>,
    /// Three for each triangle, counter-clockwise seen from outside.
    pub indices: Vec<u32>,
}

impl Mesh {
    /// The triangles of one solid.
    #[must_use]
    pub fn of(solid: &Solid) -> Self {
        let mut mesh = Self::default();
        mesh.add(solid);
        mesh
    }

    /// The triangles of several solids in one mesh.
    pub fn of_all<'a>(solids: impl IntoIterator<Item = &'a Solid>) -> Self {
        let mut mesh = Self::default();
        for solid in solids {
            mesh.add(solid);
        }
        mesh
    }

    /// Number of triangles.
    #[must_use]
    pub fn triangles(&self) -> usize {
        self.indices.len() / 3
    }

    /// Adds the triangles of a solid.
    pub fn add(&mut self, solid: &Solid) {
        let frame = &solid.frame;
        let normal = frame.normal();
        let triangles = triangulate(&solid.outline);
        let flat = || solid.outline.rings().flatten();

        let near = self.points(flat().map(|point| frame.point(*point, 0.0)), normal * -1.0);
        self.indices.extend(triangles.iter().flat_map(|[a, b, c]| [near + a, near + c, near + b]));
        let far = self.points(flat().map(|point| frame.point(*point, solid.thickness)), normal);
        self.indices.extend(triangles.iter().flat_map(|[a, b, c]| [far + a, far + b, far + c]));

        for (a, b) in solid.outline.rings().flat_map(edges) {
            // Along an edge the material lies on the left, so that outside is (Δy, −Δx).
            let (across, up) = (b[0] - a[0], b[1] - a[1]);
            let length = (across * across + up * up).sqrt();
            if length <= 0.0 {
                continue;
            }
            let outside = frame.u.vector() * (up / length) - frame.v.vector() * (across / length);
            let corners = [(a, 0.0), (b, 0.0), (b, solid.thickness), (a, solid.thickness)];
            let first = self.points(corners.into_iter().map(|(point, out)| frame.point(point, out)), outside);
            self.indices.extend([0, 1, 2, 0, 2, 3].map(|corner: u32| first + corner));
        }
    }

    /// Adds points with one normal; gives the index of the first.
    fn points(&mut self, points: impl Iterator<Item = Vec3>, normal: Vec3) -> u32 {
        let first = self.positions.len() as u32;
        self.positions.extend(points.map(single));
        self.normals.resize(self.positions.len(), single(normal));
        first
    }
}

/// Single precision is enough to draw.
const fn single(of: Vec3) -> [f32; 3] {
    [of.x as f32, of.y as f32, of.z as f32]
}

/// Triangles of an outline over the points of its rings in order, each counter-clockwise.
pub(crate) fn triangulate(outline: &Outline) -> Vec<[u32; 3]> {
    if outline.holes.is_empty() && outline.outer.len() == 4 {
        return vec![[0, 1, 2], [0, 2, 3]];
    }
    let points: Vec<[f64; 2]> = outline.rings().flatten().copied().collect();
    let mut start = outline.outer.len() as u32;
    let mut holes = Vec::with_capacity(outline.holes.len());
    for hole in &outline.holes {
        holes.push(start);
        start += hole.len() as u32;
    }
    let mut found: Vec<u32> = Vec::new();
    Earcut::new().earcut(points.iter().copied(), &holes, &mut found);
    let turned = |[a, b, c]: [u32; 3]| {
        let corner = |index: u32| points.get(index as usize).copied().unwrap_or_default();
        if ring_area(&[corner(a), corner(b), corner(c)]) < 0.0 { [a, c, b] } else { [a, b, c] }
    };
    found.chunks_exact(3).map(|three| turned([three[0], three[1], three[2]])).collect()
}
