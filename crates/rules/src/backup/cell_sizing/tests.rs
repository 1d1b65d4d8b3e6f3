use units::{Celsius, Hours, Kelvins};

use super::super::testing::{direct, lead, lithium, plant};
use super::*;
use crate::Outcome;
use crate::heat::testing::{Desk, step};

/// Strings of 24 cells at the 10 h rate, cells at 10 °C, 864 W at 43.2 V: 20 A.
fn desk(amp_hours: f64, asked: f64) -> Desk {
    let mut desk = plant(vec![lead(24, amp_hours)], vec![direct(864.0)]);
    desk.project.brief.power.autonomy = Some(Hours(asked));
    desk.project.brief.daily_range = Kelvins(0.0);
    desk.project.brief.coldest = Celsius(30.0);
    desk
}

#[track_caller]
fn check(desk: &Desk, outcome: Outcome, needed: f64) {
    let found = desk.run(&CHECK).remove(0);
    assert_eq!(found.outcome, outcome, "{found:?}");
    assert!((step(&found, "C_need") - needed).abs() < 1e-6 * needed, "{found:?}");
}

#[test]
fn cells_are_held_against_the_worksheet() {
    // 20 A · 10 h · 1.25 · 1.10 = 275 Ah
    check(&desk(275.0, 10.0), Outcome::Holds, 275.0);
    check(&desk(274.0, 10.0), Outcome::Fails, 275.0);
    // 4 h: K_t = 10 · 0.4^(1/1.15) = 4.5077
    let needed = 20.0 * 10.0 * libm::pow(0.4, 1.0 / 1.15) * 1.375;
    check(&desk(130.0, 4.0), Outcome::Holds, needed);
    check(&desk(123.0, 4.0), Outcome::Fails, needed);
}

#[test]
fn what_comes_on_at_the_end_is_a_section_of_its_own() {
    let momentary = catalogue::Electrical { momentary: true, ..catalogue::Electrical::default() };
    let lamp = catalogue::Device { electrical: momentary, ..direct(432.0) };
    let mut desk = desk(500.0, 10.0);
    desk.add(lamp, crate::heat::testing::rack(0, 12));
    let found = desk.run(&CHECK).remove(0);
    // 20 A for 10 h, and 10 A more in the last hour: 200 + 10 · 10 · 0.1^(1/1.15)
    let expected = (200.0 + 100.0 * libm::pow(0.1, 1.0 / 1.15)) * 1.375;
    assert!((step(&found, "C_need") - expected).abs() < 1e-6, "{found:?}");
}

#[test]
fn nothing_is_asked_of_what_does_not_matter() {
    let said = |desk: &Desk| desk.run(&CHECK).remove(0).outcome;
    let mut quiet = desk(100.0, 1.0);
    quiet.project.brief.power.autonomy = None;
    assert_eq!(said(&quiet), Outcome::Holds);
    let mut other = plant(vec![lithium(15, 100.0)], vec![direct(10.0)]);
    other.project.brief.power.autonomy = Some(Hours(1.0));
    assert_eq!(said(&other), Outcome::Holds);
}

#[test]
fn says_so_outside_its_range() {
    assert_eq!(desk(100.0, 0.2).run(&CHECK)[0].outcome, Outcome::OutOfRange);
    let mut frozen = plant(vec![lead(24, 100.0)], vec![direct(1.0)]);
    frozen.project.brief.power.autonomy = Some(Hours(1.0));
    frozen.project.brief.coldest = Celsius(-40.0);
    let found = frozen.run(&CHECK).remove(0);
    assert_eq!((found.outcome, found.given), (Outcome::OutOfRange, None));
}
