//! The modes of a chain of nodes, and how each fades.
//!
//! With C the capacities and L the conductances, C dT/dt = f − L·T. L is symmetric, hence so is C^−½·L·C^−½, and its
//! eigenvalues are real: T falls apart into modes that fade on their own, each with one rate.
//!
//! Source:      Jacobi's rotations, any text-book of numerical algebra; the functions φ are those of exponential integrators.
//! Valid for:   any finite conductances, also 0 (a mode that does not fade) and falling curves (a mode that grows).

use super::fading::{STEP, faded, part};

/// The modes of N nodes: mass and air of one room, or mass, air, air, mass of two.
#[derive(Clone, Copy, Debug)]
pub struct Modes<const N: usize> {
    /// What the modes belong to: diagonal of the matrix, 1/s.
    pub diagonal: [f64; N],
    /// How fast each fades, 1/s, rising.
    pub rate: [f64; N],
    /// The greatest of them, without sign, 1/s.
    pub fastest: f64,

    /// 1/rate, s; 0 for a mode that does not fade.
    pub pace: [f64; N],
    /// For each mode its share in each node, over the square root of the node's capacity: K/√J.
    pub share: [[f64; N]; N],
}

/// How far each mode has gone after some time.
#[derive(Clone, Copy, Debug)]
pub struct Gone<const N: usize> {
    /// The time, s.
    pub seconds: f64,
    /// e^(−λs).
    pub left: [f64; N],
    /// φ₁ = ∫ e^(−λs) ds, s.
    pub once: [f64; N],
}

impl<const N: usize> Gone<N> {
    /// Nowhere yet.
    pub const START: Self = Self { seconds: 0.0, left: [1.0; N], once: [0.0; N] };
}

/// Of four nodes three or four are needed; the bound is there so that no input can keep it turning.
const MOST_SWEEPS: usize = 12;
/// What may be left beside the diagonal, squared, over the greatest of the diagonal squared: over an hour it changes a
/// temperature by less than 1e−11 of what it changes at all.
const SMALLEST: f64 = 1e-26;
/// Below this |λs| the function φ₂ is summed as a series, as its closed form cancels.
const SMALL: f64 = 0.01;

impl<const N: usize> Modes<N> {
    /// The modes of nothing: equal to no others.
    pub const NONE: Self =
        Self { diagonal: [f64::NAN; N], rate: [0.0; N], fastest: 0.0, pace: [0.0; N], share: [[0.0; N]; N] };

    /// The modes of a chain: `diagonal` and the entries `beside` it (1/s), and 1/√C of each node.
    pub fn of(diagonal: [f64; N], beside: &[f64; N], root: &[f64; N]) -> Self {
        let (rate, share) = if N == 2 { two(diagonal, beside, root) } else { many(diagonal, beside, root) };
        let mut modes = Self { diagonal, rate, fastest: 0.0, pace: [0.0; N], share };
        for mode in 0..N {
            let rate = modes.rate[mode];
            modes.fastest = modes.fastest.max(rate.abs());
            modes.pace[mode] = if rate == 0.0 { 0.0 } else { 1.0 / rate };
        }
        modes
    }

    /// How far the modes have gone after `seconds`.
    pub fn gone(&self, seconds: f64) -> Gone<N> {
        let mut gone = Gone { seconds, left: [0.0; N], once: [0.0; N] };
        for mode in 0..N {
            let x = self.rate[mode] * seconds;
            if x.abs() < STEP {
                // Slow modes fade little within a stretch.
                let part = part(x);
                gone.left[mode] = 1.0 - x * part;
                gone.once[mode] = seconds * part;
            } else {
                gone.left[mode] = faded(x);
                gone.once[mode] = (1.0 - gone.left[mode]) * self.pace[mode];
            }
        }
        gone
    }

    /// The same from where they have gone to already: a small change needs no exponentials.
    pub fn onward(&self, gone: &Gone<N>, seconds: f64) -> Gone<N> {
        let change = seconds - gone.seconds;
        if change.abs() * self.fastest >= STEP {
            return self.gone(seconds);
        }
        let mut onward = Gone { seconds, ..*gone };
        for mode in 0..N {
            let x = self.rate[mode] * change;
            let part = part(x);
            onward.once[mode] += gone.left[mode] * change * part;
            onward.left[mode] -= gone.left[mode] * x * part;
        }
        onward
    }

    /// φ₂ = ∫ φ₁ ds of each mode, s².
    pub fn twice(&self, gone: &Gone<N>) -> [f64; N] {
        let seconds = gone.seconds;
        let mut twice = [0.0; N];
        for mode in 0..N {
            let x = self.rate[mode] * seconds;
            twice[mode] =
                if x.abs() < SMALL { twice_small(x, seconds) } else { (seconds - gone.once[mode]) * self.pace[mode] };
        }
        twice
    }
}

/// φ₂ = s²·(1/2! − x/3! + x²/4! − …), x = λs small: six terms leave 0.01⁶/8! < 1e−16.
fn twice_small(x: f64, seconds: f64) -> f64 {
    let rest = 1.0 / 24.0 - x * (1.0 / 120.0 - x * (1.0 / 720.0 - x * (1.0 / 5_040.0)));
    seconds * seconds * (1.0 / 2.0 - x * (1.0 / 6.0 - x * rest))
}

/// Rates and shares of two nodes: one rotation makes them.
#[inline(always)]
fn two<const N: usize>(diagonal: [f64; N], beside: &[f64; N], root: &[f64; N]) -> ([f64; N], [[f64; N]; N]) {
    let (mut rate, mut share) = ([0.0; N], [[0.0; N]; N]);
    let Rotation { tangent, cosine, sine } = Rotation::of(diagonal[0], diagonal[1], beside[0]);
    // Slow ones first: the rotation moves apart what lies apart.
    let (slow, fast) = if diagonal[1] < diagonal[0] { (1, 0) } else { (0, 1) };
    rate[slow] = diagonal[0] - tangent * beside[0];
    rate[fast] = diagonal[1] + tangent * beside[0];
    (share[slow][0], share[slow][1]) = (cosine * root[0], -sine * root[1]);
    (share[fast][0], share[fast][1]) = (sine * root[0], cosine * root[1]);
    (rate, share)
}

/// Rates and shares of more nodes, by sweeps of rotations.
fn many<const N: usize>(diagonal: [f64; N], beside: &[f64; N], root: &[f64; N]) -> ([f64; N], [[f64; N]; N]) {
    let mut matrix = [[0.0; N]; N];
    let mut vectors = [[0.0; N]; N];
    for node in 0..N {
        matrix[node][node] = diagonal[node];
        vectors[node][node] = root[node];
        if node + 1 < N {
            matrix[node][node + 1] = beside[node];
            matrix[node + 1][node] = beside[node];
        }
    }
    let greatest = diagonal.iter().fold(0.0, |most: f64, entry| most.max(entry.abs()));
    let smallest = SMALLEST * greatest * greatest;
    for _ in 0..MOST_SWEEPS {
        // Each room alone, then both together.
        let mut turned = turn::<N, 0, 1>(&mut matrix, &mut vectors, smallest);
        turned |= turn::<N, 2, 3>(&mut matrix, &mut vectors, smallest);
        turned |= turn::<N, 1, 2>(&mut matrix, &mut vectors, smallest);
        turned |= turn::<N, 0, 3>(&mut matrix, &mut vectors, smallest);
        turned |= turn::<N, 0, 2>(&mut matrix, &mut vectors, smallest);
        turned |= turn::<N, 1, 3>(&mut matrix, &mut vectors, smallest);
        if !turned {
            break;
        }
    }
    let mut rate = [0.0; N];
    for mode in 0..N {
        rate[mode] = matrix[mode][mode];
        // Slow ones first.
        let mut place = mode;
        while place > 0 && rate[place - 1] > rate[place] {
            rate.swap(place - 1, place);
            vectors.swap(place - 1, place);
            place -= 1;
        }
    }
    (rate, vectors)
}

/// One of Jacobi's rotations.
struct Rotation {
    tangent: f64,
    cosine: f64,
    sine: f64,
}

impl Rotation {
    /// The smaller one of the two that make the entry between two of the diagonal vanish.
    #[inline(always)]
    fn of(first: f64, second: f64, entry: f64) -> Self {
        // t = tan of the angle: the smaller root of t² + 2θt − 1 = 0, θ = (a_qq − a_pp)/(2 a_pq)
        let half = 0.5 * (second - first);
        let apart = (half * half + entry * entry).sqrt();
        let reach = half.abs() + apart;
        if reach == 0.0 {
            return Self { tangent: 0.0, cosine: 1.0, sine: 0.0 };
        }
        let tangent = if half < 0.0 { -entry / reach } else { entry / reach };
        // cos² = 1/(1 + t²), which needs no waiting for t.
        let cosine = (0.5 * reach / apart).sqrt();
        Self { tangent, cosine, sine: tangent * cosine }
    }
}

/// Makes the entry (P, Q) vanish by a rotation, unless it is as good as gone.
#[inline(always)]
fn turn<const N: usize, const P: usize, const Q: usize>(
    matrix: &mut [[f64; N]; N],
    vectors: &mut [[f64; N]; N],
    smallest: f64,
) -> bool {
    let entry = matrix[P][Q];
    if entry * entry <= smallest {
        return false;
    }
    let Rotation { tangent, cosine, sine } = Rotation::of(matrix[P][P], matrix[Q][Q], entry);
    matrix[P][P] -= tangent * entry;
    matrix[Q][Q] += tangent * entry;
    matrix[P][Q] = 0.0;
    matrix[Q][P] = 0.0;
    for other in 0..N {
        if other != P && other != Q {
            let (a, b) = (matrix[P][other], matrix[Q][other]);
            let (a, b) = (cosine * a - sine * b, sine * a + cosine * b);
            matrix[P][other] = a;
            matrix[other][P] = a;
            matrix[Q][other] = b;
            matrix[other][Q] = b;
        }
    }
    for node in 0..N {
        let (a, b) = (vectors[P][node], vectors[Q][node]);
        vectors[P][node] = cosine * a - sine * b;
        vectors[Q][node] = sine * a + cosine * b;
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Largest error of S·v = λ·v over all modes, relative to the largest entry.
    fn check<const N: usize>(diagonal: [f64; N], beside: [f64; N]) {
        let modes = Modes::of(diagonal, &beside, &[1.0; N]);
        let greatest = diagonal.iter().fold(1e-300, |most: f64, entry| most.max(entry.abs()));
        for (vector, rate) in modes.share.iter().zip(modes.rate) {
            for node in 0..N {
                let mut product = diagonal[node] * vector[node];
                if node > 0 {
                    product += beside[node - 1] * vector[node - 1];
                }
                if node + 1 < N {
                    product += beside[node] * vector[node + 1];
                }
                let error = (product - rate * vector[node]).abs();
                assert!(error < 1e-12 * greatest, "{diagonal:?} {beside:?}: {error:e}");
            }
            let length: f64 = vector.iter().map(|share| share * share).sum();
            assert!((length - 1.0).abs() < 1e-14, "{length}");
        }
    }

    #[test]
    fn solves_chains_stiff_and_even() {
        check([2e-4, 3e-3], [-5e-4, 0.0]);
        check([2e-4, 3e-3, 3e-3, 2e-4], [-5e-4, -1e-4, -5e-4, 0.0]);
        check([2e-4, 3e-3, 3e-3, 2e-4], [-5e-4, 0.0, -5e-4, 0.0]);
        check([1e-4, 0.5, 2e-3, 1e-5], [-5e-3, -1e-5, -1e-4, 0.0]);
        check([0.0, 0.0, 0.0, 0.0], [0.0; 4]);
        check([1e-3, -2e-3, 1e-3, 0.0], [-1e-3, -1e-9, -1e-5, 0.0]);
    }

    #[test]
    fn series_and_closed_form_meet() {
        for rate in [SMALL / 100.0 * 0.999_999_999, SMALL / 100.0 * 1.000_000_001, 1e-4] {
            let modes = Modes::of([rate, -rate], &[0.0; 2], &[1.0; 2]);
            let gone = modes.gone(100.0);
            let twice = modes.twice(&gone);
            for mode in 0..2 {
                let (rate, x) = (modes.rate[mode], modes.rate[mode] * 100.0);
                let left = libm::exp(-x);
                let once = -libm::expm1(-x) / rate;
                assert!((gone.left[mode] - left).abs() < 1e-15, "{rate}");
                assert!((gone.once[mode] - once).abs() < 1e-12, "{rate}");
                assert!((twice[mode] - (100.0 - once) / rate).abs() < 1e-10 / x.abs(), "{rate}");
            }
        }
    }

    #[test]
    fn going_on_is_as_going_at_once() {
        let modes = Modes::of([1e-3, -1e-4], &[0.0; 2], &[1.0; 2]);
        for change in [-19.0, 1e-3, 19.0] {
            let (onward, at_once) = (modes.onward(&modes.gone(600.0), 600.0 + change), modes.gone(600.0 + change));
            for mode in 0..2 {
                assert!((onward.left[mode] - at_once.left[mode]).abs() < 1e-13, "{change}");
                assert!((onward.once[mode] - at_once.once[mode]).abs() < 1e-10, "{change}");
            }
        }
    }

    #[test]
    fn a_mode_that_does_not_fade_stays() {
        let modes = Modes::of([0.0, 0.0], &[0.0; 2], &[1.0; 2]);
        let gone = modes.gone(3600.0);
        assert_eq!((gone.left, gone.once, modes.twice(&gone)), ([1.0; 2], [3600.0; 2], [6_480_000.0; 2]));
    }
}
