//! A cabinet with lifting eyes, to test the lifting checks on.

use catalogue::{EyeSort, LiftingEye, Trade};
use units::{Kilograms, Millimetres};

use crate::heat::testing::{Desk, device, rack};

/// A one-bay cabinet with four eyes of a sort and rating (kg) and one device of 10 kg.
pub(crate) fn desk_with_eyes(sort: EyeSort, rating: f64) -> Desk {
    let mut desk = Desk::new();
    let eye = LiftingEye {
        name: "Eye".to_owned(),
        sort,
        rating: Kilograms(rating),
        ring: Millimetres(40.0),
        mass: Kilograms(0.5),
        trade: Trade::default(),
    };
    desk.catalogue.lifting_eyes.insert("eye".into(), eye);
    desk.project.build.lifting_eyes = Some("eye".into());
    desk.add(device(1), rack(0, 10));
    desk
}
