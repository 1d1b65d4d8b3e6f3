//! What an angled pull leaves of a lifting eye's rating.
//!
//! | from the bolt's axis | shoulder eye bolt | eye bolt without shoulder | swivel hoist ring |
//! |---|---|---|---|
//! | to 5° | 100 % | 100 % | 100 % |
//! | to 15° | 80 % | – | 100 % |
//! | to 30° | 65 % | – | 100 % |
//! | to 45° | 30 % | – | 100 % |
//! | beyond | refused | – | 100 % |
//!
//! Source:      rigging trade tables, from memory; confirm in ASME B30.26 and B18.15, whose editions differ at 45°. The
//!              tables go on to 25 % at 90°; the safer rule here refuses eye bolts beyond 45°.
//! Valid for:   pull in the plane of the eye. Between two rows the worse one counts.
//! Agreement:   tests/published/lifting.toml, T03-09…11.

use catalogue::EyeSort;

/// Rows for a shoulder eye bolt: up to this angle from the axis (degrees), this share of the rating.
const SHOULDER: [(f64, f64); 4] = [(5.0, 1.0), (15.0, 0.8), (30.0, 0.65), (45.0, 0.3)];

/// Up to this angle from the vertical a leg counts as vertical, degrees. Source: 29 CFR 1910.184(b).
pub const VERTICAL: f64 = 5.0;

/// Share of the rating left at an angle from the axis, degrees; `None` where the eye is refused.
#[must_use]
pub fn share_of_rating(sort: EyeSort, degrees_from_axis: f64) -> Option<f64> {
    match sort {
        EyeSort::ShoulderEyeBolt => {
            SHOULDER.iter().find(|(upto, _)| degrees_from_axis <= *upto).map(|(_, share)| *share)
        }
        EyeSort::PlainEyeBolt => (degrees_from_axis <= VERTICAL).then_some(1.0),
        EyeSort::SwivelHoistRing => (degrees_from_axis <= 90.0).then_some(1.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(sort: EyeSort, angle: f64, expected: Option<f64>) {
        assert_eq!(share_of_rating(sort, angle), expected, "{sort:?} at {angle}°");
    }

    #[test]
    fn each_row_holds_up_to_its_edge() {
        for (angle, share) in [(0.0, 1.0), (5.0, 1.0), (5.01, 0.8), (15.0, 0.8), (15.01, 0.65), (30.0, 0.65)] {
            check(EyeSort::ShoulderEyeBolt, angle, Some(share));
        }
        check(EyeSort::ShoulderEyeBolt, 30.01, Some(0.3));
        check(EyeSort::ShoulderEyeBolt, 45.0, Some(0.3));
        check(EyeSort::ShoulderEyeBolt, 45.01, None);
        check(EyeSort::ShoulderEyeBolt, f64::NAN, None);
    }

    #[test]
    fn other_eyes_follow_their_own_rule() {
        check(EyeSort::PlainEyeBolt, 5.0, Some(1.0));
        check(EyeSort::PlainEyeBolt, 5.01, None);
        check(EyeSort::SwivelHoistRing, 60.0, Some(1.0));
    }
}
