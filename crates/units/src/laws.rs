//! What holds for every kind, system and text.

use proptest::prelude::*;

use crate::{Kind, System, Value, read, show, show_exactly};

fn kinds() -> impl Strategy<Value = Kind> {
    proptest::sample::select(Kind::ALL.to_vec())
}

fn systems() -> impl Strategy<Value = System> {
    proptest::sample::select(System::ALL.to_vec())
}

/// Every size that could be meant, and many that could not.
fn numbers() -> impl Strategy<Value = f64> {
    prop_oneof![
        -1e4..1e4,
        (-1e4..1e4).prop_map(f64::round),
        (-10.0..10.0, -200..200).prop_map(|(number, exponent)| format!("{number}e{exponent}").parse().unwrap()),
    ]
}

/// Through a field and back.
fn edited(number: f64, kind: Kind, system: System) -> f64 {
    let shown = show_exactly(Value::new(number, kind), system).to_string();
    read(&shown, kind, system).unwrap_or_else(|error| panic!("{error}"))
}

/// What 1e-12 is relative to: a temperature near the zero of its scale is no more exact than one of a degree.
fn scale(number: f64, kind: Kind) -> f64 {
    if kind == Kind::Temperature { number.abs().max(1.0) } else { number.abs() }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_a_field_shows_is_read_as_the_same_number(number in numbers(), kind in kinds(), system in systems()) {
        let back = edited(number, kind, system);
        prop_assert!((back - number).abs() <= 1e-12 * scale(number, kind), "{number} came back as {back}");
    }

    #[test]
    fn editing_again_and_in_either_system_never_drifts(number in numbers(), kind in kinds(), first in systems()) {
        let once = edited(number, kind, first);
        prop_assert_eq!(edited(once, kind, first), once);
        let other = edited(once, kind, first.other());
        prop_assert_eq!(edited(other, kind, first.other()), other);
        let settled = edited(other, kind, first);
        for system in [first, first.other(), first] {
            prop_assert_eq!(edited(settled, kind, system), settled);
        }
    }

    #[test]
    fn a_short_number_typed_comes_back_as_typed(
        digits in 0_u32..1_000_000, decimals in 0_usize..=4, kind in kinds(), system in systems(),
    ) {
        let typed = f64::from(digits) / [1.0, 10.0, 100.0, 1e3, 1e4][decimals];
        let number = read(&typed.to_string(), kind, system).unwrap();
        prop_assert_eq!(show_exactly(Value::new(number, kind), system).number, typed.to_string());
    }

    #[test]
    fn what_is_shown_is_understood(number in -1e6..1e6, kind in kinds(), system in systems()) {
        let shown = show(Value::new(number, kind), system);
        let back = read(&shown.to_string(), kind, system);
        prop_assert!(back.is_ok(), "{shown}: {back:?}");
        let again = show(Value::new(back.unwrap(), kind), system);
        prop_assert_eq!(again, shown);
    }

    #[test]
    fn any_text_is_read_or_refused_without_panic(text in any::<String>(), kind in kinds(), system in systems()) {
        if let Ok(number) = read(&text, kind, system) {
            prop_assert!(number.is_finite());
        }
    }

    #[test]
    fn texts_like_numbers_are_read_or_refused_without_panic(
        text in "[-+−0-9.,/eE ½″'\"ftinlboz²³°\u{a0}]{0,24}", kind in kinds(), system in systems(),
    ) {
        match read(&text, kind, system) {
            Ok(number) => prop_assert!(number.is_finite()),
            Err(error) => prop_assert!(error.to_string().contains("try ")),
        }
    }

    #[test]
    fn any_number_is_shown_without_panic(number in any::<f64>(), kind in kinds(), system in systems()) {
        let shown = show(Value::new(number, kind), system);
        prop_assert!(!shown.number.starts_with('-') && shown.number != "\u{2212}0", "{shown}");
        prop_assert!(shown.number.len() < 40, "{shown}");
        prop_assert!(show_exactly(Value::new(number, kind), system).number.len() < 40);
    }
}
