//! Slings from four eyes to one hook.
//!
//! Σ T_i · n_i = W
//!
//! - T_i  tension of leg i                       [force]
//! - n_i  unit vector from eye i to the hook     [–]
//! - W    weight, straight down                  [force]
//!
//! Three equations for four tensions: how they share depends on the legs' lengths, which nobody knows to the millimetre.
//! A rigid box hangs on three legs at worst, so the worst of the four solutions with one leg slack counts.
//!
//! Source:      statics; that a rigid load on four legs is not shared by four: ASME B30.9, from memory.
//! Valid for:   weightless straight legs, hook straight above the centre of gravity, load hanging level.
//! Agreement:   tests/reference/slings.json, to nine figures; tests/published/lifting.toml, T03-01…07.
//! Not covered: snatching, spreaders that bend, legs that run over edges.

/// A point; any one length unit.
pub type Point = [f64; 3];

/// A tension below this share of the weight counts as none.
const NOTHING: f64 = 1e-9;

fn minus(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

fn dot(a: Point, b: Point) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Point, b: Point) -> Point {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn length(a: Point) -> f64 {
    dot(a, a).sqrt()
}

/// x with columns · x = right, by determinants; `None` when the columns lie in one plane.
fn solve(columns: [Point; 3], right: Point) -> Option<Point> {
    let [a, b, c] = columns;
    let determinant = dot(a, cross(b, c));
    let size = length(a) * length(b) * length(c);
    if !determinant.is_finite() || determinant.abs() <= 1e-12 * size {
        return None;
    }
    Some([
        dot(right, cross(b, c)) / determinant,
        dot(a, cross(right, c)) / determinant,
        dot(a, cross(b, right)) / determinant,
    ])
}

/// The hook: straight above the centre of gravity, so high above the eyes.
#[must_use]
pub fn hook(eyes: &[Point; 4], centre: Point, height: f64) -> Point {
    let level = eyes.iter().map(|eye| eye[2]).fold(f64::NEG_INFINITY, f64::max);
    [centre[0], centre[1], level + height]
}

/// Angle of a leg from the horizontal, degrees.
#[must_use]
pub fn angle_from_horizontal(eye: Point, hook: Point) -> f64 {
    let leg = minus(hook, eye);
    let flat = libm::sqrt(leg[0] * leg[0] + leg[1] * leg[1]);
    libm::atan2(leg[2], flat).to_degrees()
}

/// Tension of each leg when `legs` share the weight alike at one angle: T = W / (n · sin θ).
#[must_use]
pub fn shared_tension(weight: f64, legs: f64, degrees_from_horizontal: f64) -> f64 {
    weight / (legs * libm::sin(degrees_from_horizontal.to_radians()))
}

/// Unit vectors from the eyes to the hook.
fn directions(eyes: &[Point; 4], hook: Point) -> [Point; 4] {
    eyes.map(|eye| {
        let leg = minus(hook, eye);
        let long = length(leg);
        [leg[0] / long, leg[1] / long, leg[2] / long]
    })
}

/// Tensions of elastic legs of one make on a rigid box: T_i = (EA / L_i) · n_i·u, in which EA cancels.
#[must_use]
pub fn elastic_tensions(eyes: &[Point; 4], hook: Point, weight: f64) -> Option<[f64; 4]> {
    let n = directions(eyes, hook);
    let lengths = eyes.map(|eye| length(minus(hook, eye)));
    // Σ (1/L_i) · n_i n_iᵀ · u = W
    let mut columns = [[0.0; 3]; 3];
    for (direction, long) in n.iter().zip(lengths) {
        for (column, share) in columns.iter_mut().zip(direction) {
            for (entry, other) in column.iter_mut().zip(direction) {
                *entry += share * other / long;
            }
        }
    }
    let u = solve(columns, [0.0, 0.0, weight])?;
    Some([0, 1, 2, 3].map(|leg| dot(n[leg], u) / lengths[leg]))
}

/// Tensions with one leg slack in turn, those solutions only in which no leg would have to push.
#[must_use]
pub fn three_leg_tensions(eyes: &[Point; 4], hook: Point, weight: f64) -> Vec<[f64; 4]> {
    let n = directions(eyes, hook);
    let mut solutions = Vec::new();
    for slack in 0..4 {
        let mut taut = (0..4).filter(|leg| *leg != slack);
        let (Some(a), Some(b), Some(c)) = (taut.next(), taut.next(), taut.next()) else { continue };
        let Some(found) = solve([n[a], n[b], n[c]], [0.0, 0.0, weight]) else { continue };
        if found.iter().all(|tension| *tension >= -NOTHING * weight) {
            let mut tensions = [0.0; 4];
            for (leg, tension) in [a, b, c].into_iter().zip(found) {
                tensions[leg] = tension.max(0.0);
            }
            solutions.push(tensions);
        }
    }
    solutions
}

/// The most each leg carries in any of the solutions with one leg slack; `None` when there is no such solution.
#[must_use]
pub fn worst_tensions(eyes: &[Point; 4], hook: Point, weight: f64) -> Option<[f64; 4]> {
    let solutions = three_leg_tensions(eyes, hook, weight);
    let first = *solutions.first()?;
    let most = |all: [f64; 4], one: &[f64; 4]| [0, 1, 2, 3].map(|leg: usize| all[leg].max(one[leg]));
    Some(solutions.iter().fold(first, most))
}

/// Tensions of upright legs under a spreader frame, the smallest that carry the load; a negative one means a slack leg.
#[must_use]
pub fn upright_tensions(eyes: &[Point; 4], centre: Point, weight: f64) -> Option<[f64; 4]> {
    // t = Aᵀ (A Aᵀ)⁻¹ b with the rows 1, x, y of A and b = W · (1, x_g, y_g)
    let rows = eyes.map(|eye| [1.0, eye[0], eye[1]]);
    let mut columns = [[0.0; 3]; 3];
    for row in &rows {
        for (column, share) in columns.iter_mut().zip(row) {
            for (entry, other) in column.iter_mut().zip(row) {
                *entry += share * other;
            }
        }
    }
    let x = solve(columns, [weight, weight * centre[0], weight * centre[1]])?;
    Some(rows.map(|row| dot(row, x)))
}

#[cfg(test)]
mod tests {
    use super::*;

    const EYES: [Point; 4] = [[0.4, 0.4, 2.0], [-0.4, 0.4, 2.0], [-0.4, -0.4, 2.0], [0.4, -0.4, 2.0]];

    #[test]
    fn a_centred_load_hangs_on_two_legs_at_worst() {
        let hook = hook(&EYES, [0.0, 0.0, 1.0], 1.2);
        let angle = angle_from_horizontal(EYES[0], hook);
        let worst = worst_tensions(&EYES, hook, 1000.0).unwrap();
        assert!(worst.iter().all(|tension| (tension - shared_tension(1000.0, 2.0, angle)).abs() < 1e-6));
    }

    #[test]
    fn the_upright_parts_of_the_tensions_carry_the_weight() {
        for (x, y, height) in [(0.0, 0.0, 1.0), (0.1, -0.2, 0.7), (-0.3, 0.05, 2.0), (0.39, 0.39, 0.5)] {
            let hook = hook(&EYES, [x, y, 1.0], height);
            let n = directions(&EYES, hook);
            let upright = |tensions: &[f64; 4]| (0..4).map(|leg| tensions[leg] * n[leg][2]).sum::<f64>();
            for tensions in three_leg_tensions(&EYES, hook, 700.0) {
                assert!((upright(&tensions) - 700.0).abs() < 1e-6);
            }
            assert!((upright(&elastic_tensions(&EYES, hook, 700.0).unwrap()) - 700.0).abs() < 1e-6);
        }
    }

    #[test]
    fn a_load_outside_the_eyes_hangs_on_no_legs() {
        let hook = hook(&EYES, [0.5, 0.0, 1.0], 1.0);
        assert_eq!(worst_tensions(&EYES, hook, 700.0), None);
    }

    #[test]
    fn eyes_in_one_line_give_no_answer() {
        let line = [[0.0, 0.0, 1.0]; 4];
        assert_eq!(elastic_tensions(&line, [0.0, 0.0, 2.0], 1.0), None);
        assert_eq!(upright_tensions(&line, [0.0, 0.0, 0.0], 1.0), None);
    }
}
