//! Paths of curves.

/// A path through points, one decimal each.
pub(crate) fn line(points: impl Iterator<Item = (f64, f64)>) -> String {
    let mut path = String::new();
    for (x, y) in points.filter(|(x, y)| x.is_finite() && y.is_finite()) {
        path.push(if path.is_empty() { 'M' } else { 'L' });
        path += &format!("{x:.1} {y:.1}");
    }
    path
}

/// A closed shape between a curve and a level; y grows downwards, and only what lies above the level is in it.
pub(super) fn above(points: &[(f64, f64)], level: f64) -> String {
    let mut shape = String::new();
    let mut open = false;
    for pair in points.windows(2) {
        let [(x, y), (next_x, next_y)] = [pair[0], pair[1]];
        let cross = x + (next_x - x) * (level - y) / (next_y - y);
        match (y < level, next_y < level) {
            (false, false) => {}
            (false, true) => shape += &format!("M{cross:.1} {level:.1}L{next_x:.1} {next_y:.1}"),
            (true, true) => {
                if !open {
                    shape += &format!("M{x:.1} {level:.1}L{x:.1} {y:.1}");
                }
                shape += &format!("L{next_x:.1} {next_y:.1}");
            }
            (true, false) => {
                if !open {
                    shape += &format!("M{x:.1} {level:.1}L{x:.1} {y:.1}");
                }
                shape += &format!("L{cross:.1} {level:.1}Z");
            }
        }
        open = next_y < level;
    }
    if let Some((x, _)) = points.last().filter(|_| open) {
        shape += &format!("L{x:.1} {level:.1}Z");
    }
    shape
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_leaves_out_what_is_not_a_number() {
        let points = [(0.0, 1.0), (1.0, f64::NAN), (2.0, 3.0)];
        assert_eq!(line(points.into_iter()), "M0.0 1.0L2.0 3.0");
    }

    #[test]
    fn only_what_is_above_the_level_is_filled() {
        let points = [(0.0, 20.0), (10.0, 0.0), (20.0, 20.0)];
        assert_eq!(above(&points, 10.0), "M5.0 10.0L10.0 0.0L15.0 10.0Z");
        assert_eq!(above(&points, -1.0), "");
        assert_eq!(above(&[(0.0, 5.0), (10.0, 5.0)], 10.0), "M0.0 10.0L0.0 5.0L10.0 5.0L10.0 10.0Z");
    }
}
