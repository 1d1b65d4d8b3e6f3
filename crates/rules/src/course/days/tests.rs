//! Printed daily cycles as hot and cold day. Figures: MIL-HDBK-310 / AR 70-38, as in tests/published/cycles.toml.

use units::Degrees;

use super::*;
use crate::course::PreparedClimate;
use crate::course::moment::LIT_FACES;

/// A site on the middle of its time zone, at a latitude.
fn brief(latitude: f64) -> Brief {
    let (latitude, longitude) = (Degrees(latitude), Degrees(-90.0));
    Brief {
        latitude,
        longitude,
        utc_offset: -6.0,
        hot_day: HotDay::HotDry,
        cold_day: ColdDay::Cold,
        ..Brief::default()
    }
}

fn prepared(brief: &Brief) -> PreparedClimate {
    PreparedClimate::of(brief, None).unwrap()
}

/// The day's lowest and highest air are the printed ones, within what is lost between steps.
#[track_caller]
fn check(day: &[Moment], lowest: f64, highest: f64) {
    let air = day.iter().map(|moment| moment.outside);
    let (low, high) = (air.clone().fold(f64::MAX, f64::min), air.fold(f64::MIN, f64::max));
    assert!((low - lowest).abs() < 0.2 && (high - highest).abs() < 0.2, "{low} to {high}");
}

#[test]
fn the_printed_air_is_that_of_the_day() {
    let hot_dry = prepared(&brief(33.0));
    check(&hot_dry.hot_day, 32.0, 49.0);
    check(&hot_dry.cold_day, -46.0, -37.0);
    check(&prepared(&Brief { hot_day: HotDay::BasicHot, ..brief(33.0) }).hot_day, 30.0, 43.0);
    check(&prepared(&Brief { cold_day: ColdDay::BasicCold, ..brief(33.0) }).cold_day, -32.0, -21.0);
    check(&prepared(&Brief { cold_day: ColdDay::SevereCold, ..brief(33.0) }).cold_day, -51.0, -51.0);
    let usual = prepared(&Brief { hot_day: HotDay::Design, cold_day: ColdDay::Design, ..brief(33.0) });
    check(&usual.hot_day, 32.0, 46.0);
    check(&usual.cold_day, -20.0, -6.0);
    assert_eq!(usual.year, hot_dry.year);
}

#[test]
fn the_printed_sun_is_that_of_the_day_and_stands_highest_at_noon() {
    let day = prepared(&brief(33.0)).hot_day;
    let sum: f64 = day.iter().map(|moment| moment.global).sum::<f64>() / 6.0;
    assert!((sum - 9270.0).abs() < 0.01 * 9270.0, "{sum} W·h/m²");
    for step in 0..DAY_STEPS {
        let (moment, mirrored) = (&day[step], &day[DAY_STEPS - 1 - step]);
        assert!((moment.global - mirrored.global).abs() < 1e-6, "{step}");
        // What lies on the roof is what arrives on level ground; Perez' sky leaves some of it out while the sun is low.
        let most = if moment.sun_height > 5.0 { 1e-6 } else { moment.global + 1e-6 };
        assert!((moment.on_face(4) - moment.global).abs() < most, "{step}: {}", moment.on_face(4));
    }
}

#[test]
fn the_sun_keeps_its_own_time() {
    let middle = prepared(&brief(33.0)).hot_day;
    // Half an hour behind the clock, three steps.
    let west = prepared(&Brief { longitude: Degrees(-97.5), ..brief(33.0) }).hot_day;
    for step in 0..DAY_STEPS {
        assert!((middle[step].global - west[(step + 3) % DAY_STEPS].global).abs() < 1e-6, "{step}");
    }
}

#[test]
fn no_beam_is_stronger_than_outside_the_air_wherever_it_is() {
    for latitude in [-89.0, -60.0, 0.0, 50.0, 66.0, 75.0, 90.0] {
        for moment in prepared(&brief(latitude)).hot_day {
            let on_faces = (0..LIT_FACES).map(|face| moment.beam[face]).fold(0.0, f64::max);
            assert!(on_faces <= 1420.0 && moment.diffuse.iter().all(|light| *light >= 0.0), "{latitude}: {moment:?}");
        }
    }
}

#[test]
fn a_cycle_is_named_with_how_far_it_is_confirmed() {
    let notes = prepared(&brief(33.0)).notes.join("\n");
    assert!(notes.contains("The hot day is the hot-dry cycle A1 of MIL-HDBK-310"), "{notes}");
    assert!(notes.contains("The cold day is the cold cycle C2") && notes.contains("to be confirmed"), "{notes}");
}

#[test]
fn another_day_is_another_climate() {
    let kept = prepared(&brief(33.0));
    assert!(kept.suits(&brief(33.0)));
    assert!(!kept.suits(&Brief { hot_day: HotDay::BasicHot, ..brief(33.0) }));
    assert!(!kept.suits(&Brief { cold_day: ColdDay::Design, ..brief(33.0) }));
}
