use project::Face;
use proptest::prelude::*;

use crate::clearance::boxes;
use crate::piece::Piece;
use crate::{Axis, Box3, Layer, Mass, Mesh, Of, Solid, Tone, Vec3};

const AXES: [Axis; 6] = [Axis::X, Axis::MinusX, Axis::Y, Axis::MinusY, Axis::Z, Axis::MinusZ];

/// A plate that faces any way, with up to three rectangular holes that may overlap or reach over its edge.
fn plates() -> impl Strategy<Value = Solid> {
    let point = || (-900.0..900.0, -900.0..900.0, -900.0..900.0).prop_map(|(x, y, z)| Vec3::new(x, y, z));
    let size = || (20.0..900.0, 20.0..900.0, 20.0..900.0).prop_map(|(x, y, z)| Vec3::new(x, y, z));
    let fills = || (point(), size()).prop_map(|(low, size)| Box3 { min: low, max: low + size });
    (fills(), 0..AXES.len(), prop::collection::vec(fills(), 0..4)).prop_map(|(plate, facing, holes)| {
        let piece = Piece::new(Of::Body(Face::Front), Layer::Body, Tone::Body);
        piece.plate(&plate, AXES[facing], &holes, Mass::Density(2700.0))
    })
}

fn check(found: f64, expected: f64) -> Result<(), TestCaseError> {
    prop_assert!((found - expected).abs() <= 1e-9 * expected.abs().max(1.0), "{found} instead of {expected}");
    Ok(())
}

proptest! {
    #[test]
    fn mass_grows_with_thickness_and_the_centre_moves_by_half(plate in plates(), times in 1.0..5.0) {
        let thicker = Solid { thickness: plate.thickness * times, ..plate.clone() };
        check(thicker.mass_kg().unwrap_or(0.0), times * plate.mass_kg().unwrap_or(0.0))?;
        let moved = (thicker.centroid() - plate.centroid()).dot(plate.frame.normal());
        check(moved, (times - 1.0) * plate.thickness / 2.0)?;
    }

    #[test]
    fn its_boxes_fill_a_plate_and_have_its_centre(plate in plates()) {
        let parts = boxes(&plate);
        let volume = |of: &Box3| of.size().x * of.size().y * of.size().z;
        let sum: f64 = parts.iter().map(volume).sum();
        check(sum, plate.volume())?;
        let moment = parts.iter().fold(Vec3::default(), |all, one| all + one.centre() * volume(one));
        let off = moment * (1.0 / sum) - plate.centroid();
        prop_assert!(off.dot(off) < 1e-12, "{off:?}");
    }

    #[test]
    fn its_boxes_do_not_overlap(plate in plates()) {
        let parts = boxes(&plate);
        for (index, one) in parts.iter().enumerate() {
            prop_assert!(parts[index + 1..].iter().all(|other| one.meets(other) <= 1e-9));
        }
    }

    #[test]
    fn a_mesh_encloses_area_times_thickness(plate in plates()) {
        let mesh = Mesh::of(&plate);
        let middle = plate.centroid();
        let point = |index: &u32| {
            let [x, y, z] = mesh.positions[*index as usize].map(f64::from);
            Vec3::new(x, y, z) - middle
        };
        // Divergence theorem: V = ⅙ Σ a·(b × c)
        let volume: f64 = mesh
            .indices
            .chunks_exact(3)
            .map(|three| point(&three[0]).dot(point(&three[1]).cross(point(&three[2]))) / 6.0)
            .sum();
        // Single precision.
        prop_assert!((volume / plate.volume() - 1.0).abs() < 1e-4, "{volume} instead of {}", plate.volume());
    }

    #[test]
    fn the_centre_lies_within_the_bounds(plate in plates()) {
        let (over, centre) = (plate.bounds(), plate.centroid());
        let (low, high) = (centre - over.min, over.max - centre);
        prop_assert!(low.x.min(low.y).min(low.z).min(high.x).min(high.y).min(high.z) > 0.0, "{centre:?} in {over:?}");
    }
}
