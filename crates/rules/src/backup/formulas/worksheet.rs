//! The size of cells by the worksheet of IEEE 485, section by section.
//!
//! S_s = Σ_{p=1…s} (A_p − A_{p−1}) · K_t(t_p);  U = max_s S_s + R;  C = U · F_T · F_age · F_margin
//!
//! - S_s       size that the first s periods ask for                   [Ah]
//! - A_p       current of period p, A_0 = 0                            [A]
//! - t_p       from the start of period p to the end of section s      [h]
//! - K_t       rated Ah for each ampere that is drawn for t            [h]
//! - R         size for a load that may come at any time               [Ah]
//! - U         uncorrected size                                        [Ah]
//! - F_T       cell size correction at the temperature of the cells    [–]
//! - F_age     1.25: replaced at 80 % of the rated capacity            [–]
//! - F_margin  design margin, 1.10 to 1.15                             [–]
//!
//! Source:      IEEE 485, general form, from memory, to be confirmed. K_t is the maker's to give; without his it follows from
//!              Peukert's law (`peukert`), which this project names beside each result.
//! Valid for:   periods that together last at least a quarter of an hour.
//! Agreement:   tests/published/backup.toml: T09-06 and T09-07 within 0.5 %; a public worked example in four sections.
//! Not covered: K_t of a make.
//!
//! The product of the corrections is applied once, to the uncorrected size.

/// One period of a duty cycle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Period {
    /// Current, A.
    pub amperes: f64,
    /// How long, h.
    pub hours: f64,
}

/// Sizes that the sections ask for, Ah, by a rule that gives Ah per ampere for a time in hours. A section that a greater
/// current follows is passed over, as the worksheet says: the next one asks for more. None for an empty duty cycle, for what
/// is no number, and where the rule gives none.
#[must_use]
pub fn sections(periods: &[Period], capacity_rate: impl Fn(f64) -> Option<f64>) -> Option<Vec<f64>> {
    let plausible = |period: &Period| period.amperes >= 0.0 && period.hours > 0.0 && period.hours.is_finite();
    if periods.is_empty() || !periods.iter().all(plausible) {
        return None;
    }
    let decides = |count: &usize| periods.get(*count).is_none_or(|next| next.amperes <= periods[count - 1].amperes);
    (1..=periods.len())
        .filter(decides)
        .map(|count| {
            let section = &periods[..count];
            let mut size = 0.0;
            let mut before = 0.0;
            for (at, period) in section.iter().enumerate() {
                let change = period.amperes - before;
                before = period.amperes;
                if change == 0.0 {
                    continue;
                }
                let to_end: f64 = section[at..].iter().map(|period| period.hours).sum();
                // (A_p − A_{p−1}) · K_t(t_p)
                size += change * capacity_rate(to_end)?;
            }
            Some(size)
        })
        .collect()
}

/// The largest of the sections and a load that may come at any time, Ah.
#[must_use]
pub fn uncorrected(sections: &[f64], random: f64) -> f64 {
    sections.iter().copied().fold(0.0, f64::max) + random
}

/// The size to install, Ah.
#[must_use]
pub fn corrected(uncorrected: f64, temperature: f64, ageing: f64, margin: f64) -> f64 {
    uncorrected * (temperature * ageing * margin)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn period(amperes: f64, hours: f64) -> Period {
        Period { amperes, hours }
    }

    #[test]
    fn a_later_small_load_does_not_make_the_battery_larger() {
        // With K_t = t + 1: one hour at 100 A asks for 200; then 10 A for one hour: 100 · 3 − 90 · 2 = 120.
        let sizes = sections(&[period(100.0, 1.0), period(10.0, 1.0)], |hours| Some(hours + 1.0)).unwrap();
        assert_eq!(sizes, [200.0, 120.0]);
        assert_eq!(uncorrected(&sizes, 5.0), 205.0);
    }

    #[test]
    fn a_section_before_a_greater_load_is_passed_over() {
        let sizes = sections(&[period(10.0, 1.0), period(100.0, 1.0)], |hours| Some(hours + 1.0)).unwrap();
        assert_eq!(sizes, [10.0 * 3.0 + 90.0 * 2.0]);
    }

    #[test]
    fn an_empty_or_senseless_duty_cycle_has_no_size() {
        for periods in [&[][..], &[period(10.0, 0.0)], &[period(-1.0, 1.0)], &[period(f64::NAN, 1.0)]] {
            assert_eq!(sections(periods, Some), None);
        }
        assert_eq!(sections(&[period(10.0, 0.1)], |hours| (hours > 0.25).then_some(hours)), None);
    }
}
