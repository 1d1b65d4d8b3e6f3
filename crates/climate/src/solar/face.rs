//! The faces of a cabinet as the sun sees them.

/// A plane that catches light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Between its outward normal and straight up, degrees: 0 lies flat and looks up, 90 stands.
    pub tilt: f64,
    /// Bearing of its outward normal, degrees clockwise from north.
    pub azimuth: f64,
}

impl Face {
    /// Outward unit vector: east, north, up.
    #[must_use]
    pub fn normal(self) -> [f64; 3] {
        let (sin_tilt, cos_tilt) = libm::sincos(self.tilt.to_radians());
        let (east, north) = libm::sincos(self.azimuth.to_radians());
        [sin_tilt * east, sin_tilt * north, cos_tilt]
    }
}

/// Top, front, right, rear and left of a cabinet whose front looks to a bearing (degrees clockwise from north).
///
/// Right is what the geometry crate means by it: on the right hand of somebody who stands before the front and looks at
/// it. That person looks along bearing + 180°, so the right side looks to bearing + 270° and the left to bearing + 90°:
/// of a cabinet facing south the right side looks east.
#[must_use]
pub fn faces(bearing: f64) -> [Face; 5] {
    let standing = |turn: f64| Face { tilt: 90.0, azimuth: (bearing + turn).rem_euclid(360.0) };
    [
        Face { tilt: 0.0, azimuth: bearing.rem_euclid(360.0) },
        standing(0.0),
        standing(270.0),
        standing(180.0),
        standing(90.0),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn right_is_east_of_a_cabinet_that_faces_south() {
        let azimuths = faces(180.0).map(|face| face.azimuth);
        assert_eq!(azimuths, [180.0, 180.0, 90.0, 0.0, 270.0]);
        assert_eq!(faces(180.0).map(|face| face.tilt), [0.0, 90.0, 90.0, 90.0, 90.0]);
    }

    #[test]
    fn the_right_side_is_where_the_geometry_has_it() {
        // Geometry: x to the right, y from front to rear, z up; so the front looks along −y and the right side along +x.
        // Seen from above, x points a quarter clockwise of y: rear is bearing + 180°, right is rear + 90°.
        for bearing in [0.0, 37.0, 200.0, 359.0] {
            let [_, front, right, rear, left] = faces(bearing).map(|face| face.azimuth);
            assert_eq!((rear - front).rem_euclid(360.0), 180.0);
            assert_eq!((right - rear).rem_euclid(360.0), 90.0);
            assert_eq!((left - front).rem_euclid(360.0), 90.0);
        }
    }
}
