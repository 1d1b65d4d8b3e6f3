//! What cold leaves of a battery.
//!
//! lead: C(T) = C / F(T);  lithium, nickel: C(T) = C · S(T)
//!
//! - F  cell size correction of IEEE 485, 25 °C reference     [–]
//! - S  share of the rated capacity                           [–]
//! - T  temperature of the cells                              [°C]
//!
//! Source:      IEEE 485, Table 1, from memory, to be confirmed; its range and reference read in a public description. Shares
//!              of lithium iron phosphate and nickel-cadmium: makers' curves from memory, to be confirmed.
//! Valid for:   lead −3.9 to 51.7 °C; lithium −20 to 55 °C; nickel −40 to 55 °C. Outside there is no figure.
//! Agreement:   tests/published/backup.toml, T09-08 and T09-09, exact.
//! Not covered: how the temperature falls during a discharge.
//!
//! Between the rows it is read in a straight line. Nothing is credited above 25 °C, which is optional and usually refused.

use catalogue::Chemistry;

/// °F and factor, from memory, to be confirmed. Rows above 77 °F are 0.98 at 80, 0.94 at 90, 0.91 at 100, 0.88 at 110 and
/// 0.86 at 120; they are not used, as nothing is credited there.
const LEAD: [(f64, f64); 11] = [
    (25.0, 1.520),
    (30.0, 1.430),
    (35.0, 1.350),
    (40.0, 1.300),
    (45.0, 1.250),
    (50.0, 1.190),
    (55.0, 1.150),
    (60.0, 1.110),
    (65.0, 1.080),
    (70.0, 1.040),
    (77.0, 1.000),
];

/// °C and share of the rated capacity at moderate currents, from memory, to be confirmed.
const LITHIUM: [(f64, f64); 5] = [(-20.0, 0.60), (-10.0, 0.75), (0.0, 0.88), (10.0, 0.95), (25.0, 1.00)];

/// °C and share of the rated capacity at the five-hour current, from memory, to be confirmed.
const NICKEL: [(f64, f64); 5] = [(-40.0, 0.45), (-20.0, 0.72), (0.0, 0.90), (10.0, 0.95), (25.0, 1.00)];

/// The temperatures of the cells for which there is a figure, °C.
#[must_use]
pub const fn range(chemistry: Chemistry) -> (f64, f64) {
    match chemistry {
        // 25 and 125 °F, printed so.
        Chemistry::Lead => (-3.9, 51.7),
        Chemistry::Lithium => (-20.0, 55.0),
        Chemistry::Nickel => (-40.0, 55.0),
    }
}

/// Cell size correction of lead at a temperature, °C; none outside the table's range.
#[must_use]
pub fn lead_factor(celsius: f64) -> Option<f64> {
    within(Chemistry::Lead, celsius).then(|| read(&LEAD, celsius * 1.8 + 32.0))
}

/// Share of the rated capacity at a temperature, °C; none outside the range of its chemistry.
#[must_use]
pub fn share(chemistry: Chemistry, celsius: f64) -> Option<f64> {
    within(chemistry, celsius).then(|| match chemistry {
        Chemistry::Lead => 1.0 / read(&LEAD, celsius * 1.8 + 32.0),
        Chemistry::Lithium => read(&LITHIUM, celsius),
        Chemistry::Nickel => read(&NICKEL, celsius),
    })
}

fn within(chemistry: Chemistry, celsius: f64) -> bool {
    let (from, to) = range(chemistry);
    (from..=to).contains(&celsius)
}

/// Reads between the rows; beyond the first and last the row itself.
fn read(rows: &[(f64, f64)], at: f64) -> f64 {
    let mut before = rows[0];
    for &row in rows {
        if at <= row.0 {
            let span = row.0 - before.0;
            return if span > 0.0 { before.1 + (row.1 - before.1) * ((at - before.0) / span).max(0.0) } else { row.1 };
        }
        before = row;
    }
    before.1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(chemistry: Chemistry, celsius: f64, expected: Option<f64>) {
        let found = share(chemistry, celsius);
        let near = match (found, expected) {
            (Some(found), Some(expected)) => (found - expected).abs() < 1e-9,
            (found, expected) => found == expected,
        };
        assert!(near, "{chemistry:?} at {celsius}: {found:?} instead of {expected:?}");
    }

    #[test]
    fn reads_between_the_rows() {
        check(Chemistry::Lead, 10.0, Some(1.0 / 1.19));
        // 63.5 °F stands between 60 and 65: 1.11 − 0.03 · 3.5/5
        check(Chemistry::Lead, 17.5, Some(1.0 / 1.089));
        check(Chemistry::Lithium, -5.0, Some(0.815));
        check(Chemistry::Nickel, -30.0, Some(0.585));
    }

    #[test]
    fn credits_nothing_above_25_degrees() {
        for chemistry in [Chemistry::Lead, Chemistry::Lithium, Chemistry::Nickel] {
            check(chemistry, 25.0, Some(1.0));
            check(chemistry, 50.0, Some(1.0));
        }
    }

    #[test]
    fn says_nothing_outside_its_range() {
        check(Chemistry::Lead, -3.9, Some(1.0 / 1.52));
        for (chemistry, from, to) in
            [(Chemistry::Lead, -3.9, 51.7), (Chemistry::Lithium, -20.0, 55.0), (Chemistry::Nickel, -40.0, 55.0)]
        {
            assert!(share(chemistry, from).is_some() && share(chemistry, to).is_some());
            check(chemistry, from - 0.01, None);
            check(chemistry, to + 0.01, None);
        }
        check(Chemistry::Lead, f64::NAN, None);
        assert_eq!((lead_factor(-4.0), lead_factor(52.0)), (None, None));
    }
}
