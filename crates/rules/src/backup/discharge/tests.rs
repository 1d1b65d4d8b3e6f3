use catalogue::Chemistry;
use proptest::prelude::*;

use super::super::figures::figures;
use super::super::loads::Loads;
use super::*;

fn plant(chemistry: Chemistry, strings: u32, amp_hours: f64, watts: f64) -> Plant {
    let of = figures(chemistry);
    let all = f64::from(strings) * amp_hours;
    let cells = of.string[0];
    Plant {
        chemistry,
        cells,
        strings,
        amp_hours: all,
        rate_hours: 10.0,
        resistance: f64::from(cells) * of.resistance / all,
        charge_limit: all * of.charge_limit,
        health: 0.8,
        cut_off: f64::from(cells) * of.end,
        loads: Loads { lasting: watts, momentary: 0.0, ordinary: watts },
    }
}

fn hours(plant: &Plant, celsius: f64) -> Option<f64> {
    discharge(plant, Celsius(celsius)).map(|run| run.hours())
}

#[test]
fn at_about_the_rated_current_it_lasts_about_the_rated_time() {
    // 80 Ah over 10 h are 8 A, at some 48.3 V 386 W; the current grows as the voltage falls.
    let found = hours(&plant(Chemistry::Lead, 1, 100.0, 386.0), 25.0).unwrap();
    assert!((9.6..10.2).contains(&found), "{found}");
}

#[test]
fn energy_in_the_curve_is_the_load_times_its_time() {
    for chemistry in [Chemistry::Lead, Chemistry::Lithium, Chemistry::Nickel] {
        let run = discharge(&plant(chemistry, 1, 100.0, 400.0), Celsius(25.0)).unwrap();
        let energy: f64 =
            run.moments.windows(2).map(|pair| pair[0].volts * pair[0].amperes * (pair[1].hours - pair[0].hours)).sum();
        assert!((energy - 400.0 * run.hours()).abs() < 1e-6 * energy, "{chemistry:?}");
        assert!(run.moments.windows(2).all(|pair| pair[1].volts <= pair[0].volts && pair[1].hours > pair[0].hours));
    }
}

#[test]
fn says_nothing_out_of_range() {
    let lead = plant(Chemistry::Lead, 1, 100.0, 400.0);
    assert_eq!((hours(&lead, -4.0), hours(&lead, 52.0), hours(&lead, f64::NAN)), (None, None, None));
    assert_eq!(hours(&plant(Chemistry::Lead, 1, 100.0, 0.0), 25.0), None);
    assert_eq!(hours(&plant(Chemistry::Lead, 1, 100.0, 20_000.0), 25.0), None);
    assert_eq!(hours(&plant(Chemistry::Lithium, 1, 100.0, 6000.0), 25.0), None);
}

#[test]
fn a_cut_off_above_the_start_leaves_no_time() {
    let high = Plant { cut_off: 52.0, ..plant(Chemistry::Lead, 1, 100.0, 400.0) };
    let run = discharge(&high, Celsius(25.0)).unwrap();
    assert_eq!((run.hours(), run.ending), (0.0, Ending::CutOff));
}

/// Where one lasts so short that there is no figure, that is no time at all.
fn at_least(longer: Option<f64>, shorter: Option<f64>) -> bool {
    match (longer, shorter) {
        (Some(longer), Some(shorter)) => longer >= shorter - 1e-9,
        (_, None) => true,
        (None, Some(_)) => false,
    }
}

fn chemistries() -> impl Strategy<Value = Chemistry> {
    prop_oneof![Just(Chemistry::Lead), Just(Chemistry::Lithium), Just(Chemistry::Nickel)]
}

proptest! {
    #[test]
    fn more_load_never_lengthens(
        chemistry in chemistries(), strings in 1u32..6, amp_hours in 20.0..300.0, watts in 10.0..4000.0, more in 0.0..2000.0,
    ) {
        let at = |watts| hours(&plant(chemistry, strings, amp_hours, watts), 20.0);
        prop_assert!(at_least(at(watts), at(watts + more)));
    }

    #[test]
    fn colder_never_lengthens(
        chemistry in chemistries(), strings in 1u32..6, watts in 10.0..3000.0, warm in -3.0..51.0, colder in 0.0..30.0,
    ) {
        let plant = plant(chemistry, strings, 100.0, watts);
        let cold = f64::max(warm - colder, -3.9);
        prop_assert!(at_least(hours(&plant, warm), hours(&plant, cold)));
    }

    #[test]
    fn more_strings_never_shorten(
        chemistry in chemistries(), strings in 1u32..6, more in 1u32..4, amp_hours in 20.0..300.0, watts in 10.0..4000.0,
    ) {
        let at = |strings| hours(&plant(chemistry, strings, amp_hours, watts), 10.0);
        prop_assert!(at_least(at(strings + more), at(strings)));
    }
}
