//! How an exponential fades, without a call of a library: most of the work of a run is this.
//!
//! e^(−x) = e^(−m) · e^(−n/32) · e^(−δ),  x = m + n/32 + δ,  |δ| ≤ 1/64
//!
//! Source:      text-book: tables and the series of the exponential function.
//! Agreement:   tests below: within 4e−16 of `libm`.

/// Up to this |x| an exponential is summed as a series of six terms, which leave 0.02⁶/7! < 1e−13.
pub const STEP: f64 = 0.02;
/// Parts of one.
const PARTS: usize = 32;

/// e^(−n/32).
const BY_PARTS: [f64; PARTS] = {
    let mut table = [0.0; PARTS];
    let mut n = 0;
    while n < PARTS {
        table[n] = summed(n as f64 / PARTS as f64);
        n += 1;
    }
    table
};

/// e^(−m).
const BY_ONES: [f64; PARTS] = {
    let mut table = [1.0; PARTS];
    let mut m = 1;
    while m < PARTS {
        table[m] = table[m - 1] * summed(1.0);
        m += 1;
    }
    table
};

/// e^(−x) of 0 ≤ x ≤ 1 as a series, smallest terms first.
const fn summed(x: f64) -> f64 {
    let mut sum = 1.0;
    let mut term = 20.0;
    while term > 0.0 {
        sum = 1.0 - sum * x / term;
        term -= 1.0;
    }
    sum
}

/// e^(−x).
#[inline(always)]
pub fn faded(x: f64) -> f64 {
    if !(x >= 0.0 && x < (PARTS - 1) as f64) {
        return libm::exp(-x);
    }
    let place = (x * PARTS as f64 + 0.5) as u32;
    let rest = x - f64::from(place) / PARTS as f64;
    let (ones, parts) = (place as usize / PARTS, place as usize % PARTS);
    BY_ONES[ones] * BY_PARTS[parts] * (1.0 - rest * part(rest))
}

/// p = 1 − x/2! + x²/3! − … of a small x, with which e^(−x) = 1 − x·p and φ₁ = δ·p. In pairs, which need not wait for each
/// other.
#[inline(always)]
pub fn part(x: f64) -> f64 {
    let square = x * x;
    let last = (1.0 / 6.0 - x * (1.0 / 24.0)) + square * (1.0 / 120.0 - x * (1.0 / 720.0));
    (1.0 - x * (1.0 / 2.0)) + square * last
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fades_as_the_library_says() {
        let mut most: f64 = 0.0;
        for step in -2_000..50_000 {
            let x = f64::from(step) * 1.000_1e-3;
            let (found, library) = (faded(x), libm::exp(-x));
            most = most.max((found - library).abs() / library.max(1.0));
        }
        assert!(most < 4e-16, "{most:e}");
        assert!(faded(f64::NAN).is_nan());
        assert_eq!((faded(0.0), faded(1e9)), (1.0, 0.0));
    }

    #[test]
    fn its_series_meets_the_table() {
        for x in [-STEP, 1e-9, STEP] {
            assert!((1.0 - x * part(x) - libm::exp(-x)).abs() < 4e-16, "{x}");
        }
    }
}
