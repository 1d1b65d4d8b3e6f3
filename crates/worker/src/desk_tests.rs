use std::cell::Cell;
use std::rc::Rc;

use project::{samples, to_json};
use rules::course::Course;

use super::*;

/// A whole cabinet.
fn sample() -> Project {
    samples().into_iter().next().map(|sample| sample.project).unwrap()
}

fn run(number: u32, project: &Project) -> Order {
    Order::Run { number, project: to_json(project) }
}

/// Works until a word comes that is no news of progress.
fn word(desk: &mut Desk) -> Word {
    while desk.is_busy() {
        match desk.work(|| 0.0) {
            None | Some(Word::Progress { .. }) => {}
            Some(word) => return word,
        }
    }
    panic!("nothing was said")
}

/// The course of an order.
fn check(desk: &mut Desk, order: Order, number: u32) -> Course {
    assert_eq!(desk.take(order, || 0.0), None);
    match word(desk) {
        Word::Answer { number: answered, course } => {
            assert_eq!(answered, number);
            *course
        }
        other => panic!("{other:?}"),
    }
}

/// A year of weather in which every day is the same.
fn weather_file() -> Vec<u8> {
    let mut text = "LOCATION,Quiet Valley,-,XYZ,invented,999999,40.0,-75.0,-5.0,100.0\nDESIGN CONDITIONS,0\n\
        TYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,\n\
        COMMENTS 2,\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31"
        .to_owned();
    for row in 0..climate::HOURS {
        let (day, hour) = (row / 24, row % 24);
        let month = climate::month_of_day(day);
        text += &format!(
            "\n2019,{},{},{},60,?9?9,{}.5,3.0,50,99000,9999,9999,300,0,0,0,0,0,0,0,180,2.5,0,0,0,0,0,0,0,0,0,0,0,0,0",
            month + 1,
            day - climate::MONTHS[month].first + 1,
            hour + 1,
            hour
        );
    }
    text.into_bytes()
}

#[test]
fn only_the_latest_order_is_answered() {
    let mut desk = Desk::default();
    let project = sample();
    assert_eq!(desk.take(run(1, &project), || 0.0), None);
    let clock = Cell::new(0.0);
    // Each look at the clock finds it a little later, so that a turn ends after some pieces.
    let tick = || clock.replace(clock.get() + TURN);
    assert!(desk.work(tick).is_none() && desk.is_busy());
    let mut other = project.clone();
    other.brief.hottest.0 += 2.0;
    let course = check(&mut desk, run(2, &other), 2);
    assert!(course.hot_day.outside.range().is_some_and(|(_, highest)| highest > project.brief.hottest.0 + 1.0));
    assert!(!desk.is_busy());
}

#[test]
fn tells_how_far_it_is_when_it_takes_long() {
    let mut desk = Desk::default();
    assert_eq!(desk.take(run(1, &sample()), || 0.0), None);
    let clock = Cell::new(0.0);
    let slow = || clock.replace(clock.get() + QUIET);
    let (mut shares, mut answers) = (Vec::new(), 0);
    while desk.is_busy() {
        match desk.work(slow) {
            Some(Word::Progress { number: 1, share }) => shares.push(share),
            Some(Word::Answer { number: 1, .. }) => answers += 1,
            other => panic!("{other:?}"),
        }
    }
    assert_eq!(answers, 1);
    assert!(
        shares.len() > 5 && shares.is_sorted() && shares.iter().all(|share| (0.0..1.0).contains(share)),
        "{shares:?}"
    );
}

#[test]
fn a_stopped_run_says_nothing_more() {
    let mut desk = Desk::default();
    assert_eq!(desk.take(run(1, &sample()), || 0.0), None);
    assert_eq!(desk.take(Order::Stop, || 0.0), None);
    assert!(!desk.is_busy());
    assert_eq!(desk.work(|| 0.0), None);
}

#[test]
fn a_weather_file_is_read_kept_used_and_given_up() {
    let mut desk = Desk::default();
    let project = sample();
    let own = check(&mut desk, run(1, &project), 1);
    let read = desk.take(Order::Read { name: "valley.epw".to_owned(), bytes: weather_file() }, || 0.0);
    let Some(Word::Climate(climate)) = read else { panic!("{read:?}") };
    assert_eq!((climate.file.as_str(), climate.name.as_str()), ("valley.epw", "Quiet Valley, XYZ (invented)"));
    assert_eq!(climate.place, "40.00° N, 75.00° W, 100 m above the sea");
    // Read is not yet used.
    assert_eq!(check(&mut desk, run(2, &project), 2), own);
    assert_eq!(desk.take(Order::Climate(Some(climate.kept)), || 0.0), None);
    let valley = check(&mut desk, run(3, &project), 3);
    assert_eq!(valley.weather, climate.name);
    assert_eq!(valley.year.outside.at(13), Some(13.5));
    assert_eq!(desk.take(Order::Climate(None), || 0.0), None);
    assert_eq!(check(&mut desk, run(4, &project), 4), own);
}

#[test]
fn a_broken_weather_file_is_refused_with_its_lines() {
    let mut desk = Desk::default();
    let broken = String::from_utf8(weather_file()).unwrap().replacen(",2.5,", ",windy,", 1);
    let read = desk.take(Order::Read { name: "x.epw".to_owned(), bytes: broken.into_bytes() }, || 0.0);
    let Some(Word::NoClimate { file, problems }) = read else { panic!("{read:?}") };
    assert_eq!(file, "x.epw");
    assert!(problems.iter().any(|problem| problem.contains("line 9")), "{problems:?}");
}

#[test]
fn weather_that_was_kept_by_another_version_is_told_and_dropped() {
    let mut desk = Desk::default();
    for kept in ["", "{}", "[1, 2]", "{\"version\": 99}"] {
        let said = desk.take(Order::Climate(Some(kept.to_owned())), || 0.0);
        assert!(matches!(&said, Some(Word::Unkept { problems }) if !problems.is_empty()), "{kept}: {said:?}");
    }
    check(&mut desk, run(1, &sample()), 1);
}

#[test]
fn what_cannot_be_run_is_told_in_words() {
    let mut desk = Desk::default();
    let said = desk.take(Order::Run { number: 1, project: "{".to_owned() }, || 0.0);
    assert!(matches!(&said, Some(Word::Problem { number: 1, text }) if text.contains("not understood")), "{said:?}");
    // A part that the catalogue does not have: nothing is known of its heat.
    let mut project = sample();
    project.build.family = "no-such-family".into();
    assert_eq!(desk.take(run(2, &project), || 0.0), None);
    let said = word(&mut desk);
    assert!(matches!(&said, Word::Problem { number: 2, text } if text.contains("no-such-family")), "{said:?}");
    assert!(!desk.is_busy());
}

#[test]
fn the_climate_is_prepared_once_for_all_builds_at_a_site() {
    let mut desk = Desk::default();
    let mut brief = sample().brief;
    let first = desk.climates.prepared(&brief).unwrap();
    brief.mass_limit = None;
    assert!(Rc::ptr_eq(&first, &desk.climates.prepared(&brief).unwrap()));
    brief.bearing.0 += 90.0;
    assert!(!Rc::ptr_eq(&first, &desk.climates.prepared(&brief).unwrap()));
}

#[test]
fn measuring_runs_it_as_often_as_asked() {
    let mut desk = Desk::default();
    let said = desk.take(Order::Measure { project: to_json(&sample()), times: 2 }, || 0.0);
    let Some(Word::Measured { rooms, preparing, days, running }) = said else { panic!("{said:?}") };
    assert_eq!((rooms, preparing.len(), days.len(), running.len()), (1, 2, 2, 2));
}
