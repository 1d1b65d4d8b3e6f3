//! Day and year as text: the badge, tables, then each check with its working.

use climate::MONTHS;
use project::Brief;
use rules::Topic;
use rules::course::{Course, GridLost, Series, Span, Transient, Unit};
use units::{Kind, System, Value, show, unit_name};

use super::monthly::{spread, steps};
use super::table::Table;
use super::{OverTime, Stretch};
use crate::plain;
use crate::printed::Print;

impl OverTime<'_> {
    /// Days or year as text in the given units, wrapped at this many columns; tables are as wide as they are.
    #[must_use]
    pub fn printed(&self, stretch: Stretch, system: System, columns: usize) -> String {
        let mut print = Print::new(system, columns);
        let name = if self.project.name.is_empty() { "Project without a name" } else { &self.project.name };
        print.line("", name);
        let about = &self.catalogue.about;
        print.line("", &format!("Catalogue: {}. {}", about.name, about.note));
        let course = match self.course {
            Ok(course) => course,
            Err(because) => {
                print.gap();
                print.line("", &format!("There is no course: {because}"));
                return plain(&print.into_text());
            }
        };
        print.line("", &format!("Weather: {}", course.weather));
        for note in &course.notes {
            print.line("", &format!("note: {note}"));
        }
        print.line("", "Preliminary: for a qualified person to verify.");
        print.gap();
        for badge in self.report.badges.iter().filter(|badge| badge.topic == Topic::Year) {
            print.badge(badge, self.report.findings.get(badge.finding));
        }
        match stretch {
            Stretch::Day => days(&mut print, course, system),
            Stretch::Year => {
                year(&mut print, course, system);
                if !course.units.is_empty() {
                    print.gap();
                    print.lines(&energy_table(&self.project.brief, course, system));
                }
            }
        }
        print.topic(&self.report, Topic::Year);
        plain(&print.into_text())
    }
}

/// A number alone; its unit stands in the head of its column.
fn figure(number: Option<f64>, kind: Kind, system: System) -> String {
    number.map_or_else(|| "–".to_owned(), |number| show(Value::new(number, kind), system).number)
}

/// Head of a column: what, and the unit.
fn head(what: &str, kind: Kind, system: System) -> String {
    format!("{what} {}", unit_name(kind, system)).trim().to_owned()
}

/// What a room is called in a head: nothing when it is the whole cabinet.
fn room_name(course: &Course, room: usize) -> &str {
    course.rooms.get(room).map(|room| room.name.as_str()).filter(|name| !name.is_empty()).unwrap_or("inside")
}

fn days(print: &mut Print, course: &Course, system: System) {
    for (title, day) in [("HOTTEST DAY", &course.hot_day), ("COLDEST DAY", &course.cold_day)] {
        print.gap();
        print.line("", title);
        print.lines(&day_table(course, day, system));
    }
    print.gap();
    for (index, unit) in course.units.iter().enumerate() {
        print.line("", &unit_name_of(index, unit));
    }
    let transients = [
        ("door open, units stopped", &course.door_open),
        ("cooling lost, devices run on", &course.cooling_lost),
        ("supply lost, what hangs on no battery stops", &course.grid_lost.heat),
        ("warming up from the coldest hour", &course.cold_start),
    ];
    for (title, transient) in transients {
        print.line("", &format!("{title}: {}", until(transient, system)));
    }
    print.line("", &format!("supply lost, until the strings give no more: {}", strings(&course.grid_lost, system)));
}

fn strings(lost: &GridLost, system: System) -> String {
    match lost.minutes {
        Some(minutes) => show(Value::new(minutes, Kind::Minutes), system).to_string(),
        None if lost.because.is_empty() => "they last as long as is watched".to_owned(),
        None => lost.because.clone(),
    }
}

fn until(transient: &Transient, system: System) -> String {
    match transient.minutes {
        Some(minutes) => show(Value::new(minutes, Kind::Minutes), system).to_string(),
        None if transient.because.is_empty() => "no limit is met".to_owned(),
        None => transient.because.clone(),
    }
}

/// A day hour by hour: outdoor air, sun, then each room's mean and highest inside air, then each unit's share of time.
fn day_table(course: &Course, day: &Span, system: System) -> String {
    let in_hour = (1.0 / day.step).max(1.0) as usize;
    let mean = |series: &Series, hour: usize| {
        let steps: Vec<f64> = (hour * in_hour..(hour + 1) * in_hour).filter_map(|step| series.at(step)).collect();
        (!steps.is_empty()).then(|| steps.iter().sum::<f64>() / steps.len() as f64)
    };
    let highest = |series: &Series, hour: usize| {
        (hour * in_hour..(hour + 1) * in_hour).filter_map(|step| series.at(step)).reduce(f64::max)
    };
    let mut table = Table::default();
    let mut heads =
        vec!["hour".to_owned(), head("outside", Kind::Temperature, system), head("sun", Kind::HeatFlux, system)];
    for room in 0..day.air.len() {
        heads.push(head(room_name(course, room), Kind::Temperature, system));
        heads.push(head("highest", Kind::Temperature, system));
    }
    heads.extend((1..=course.units.len()).map(|unit| format!("unit {unit} %")));
    table.line(heads);
    for hour in 0..day.outside.len() / in_hour {
        let mut cells = vec![
            hour.to_string(),
            figure(mean(&day.outside, hour), Kind::Temperature, system),
            figure(mean(&day.sun, hour), Kind::HeatFlux, system),
        ];
        for (air, top) in day.air.iter().zip(&day.highest) {
            cells.push(figure(mean(air, hour), Kind::Temperature, system));
            cells.push(figure(highest(top, hour), Kind::Temperature, system));
        }
        cells.extend(day.duty.iter().map(|duty| figure(mean(duty, hour), Kind::Share, system)));
        table.line(cells);
    }
    table.text()
}

fn year(print: &mut Print, course: &Course, system: System) {
    print.gap();
    print.line("", "YEAR");
    print.lines(&month_table(course, system));
    print.gap();
    print.lines(&room_table(course, system));
    if !course.units.is_empty() {
        print.gap();
        print.lines(&unit_table(course, system));
    }
}

/// A unit by the number it has in the heads of tables, and its name.
fn unit_name_of(index: usize, unit: &Unit) -> String {
    format!("unit {}: {}", index + 1, unit.name)
}

/// Month by month: mean outdoor air, each room's lowest, mean and highest inside air and the hours whose mean is above its
/// limit, and the hours each unit ran.
fn month_table(course: &Course, system: System) -> String {
    let year = &course.year;
    let mut table = Table::default();
    let mut heads = vec!["month".to_owned(), head("outside", Kind::Temperature, system)];
    for room in 0..year.air.len() {
        heads.push(format!("{} lowest", room_name(course, room)));
        heads.extend(["mean".to_owned(), head("highest", Kind::Temperature, system), "h mean above limit".to_owned()]);
    }
    heads.extend((1..=course.units.len()).map(|unit| format!("unit {unit} h")));
    table.line(heads);
    for month in MONTHS {
        let steps = steps(month, year.step);
        let outside = spread(&year.outside, &year.outside, steps.clone());
        let mut cells =
            vec![month.name.to_owned(), figure(outside.map(|spread| spread.mean), Kind::Temperature, system)];
        for (room, (air, top)) in year.air.iter().zip(&year.highest).enumerate() {
            let spread = spread(air, top, steps.clone());
            cells.push(figure(spread.map(|spread| spread.lowest), Kind::Temperature, system));
            cells.push(figure(spread.map(|spread| spread.mean), Kind::Temperature, system));
            cells.push(figure(spread.map(|spread| spread.highest), Kind::Temperature, system));
            let limit = course.rooms.get(room).and_then(|room| room.hot_limit);
            let above = limit.map(|limit| {
                let hot = steps.clone().filter_map(|step| air.at(step)).filter(|air| *air > limit);
                hot.count() as f64 * year.step
            });
            cells.push(figure(above, Kind::Count, system));
        }
        for duty in &year.duty {
            let hours = steps.clone().filter_map(|step| duty.at(step)).sum::<f64>() * year.step;
            cells.push(figure(Some(hours.round()), Kind::Count, system));
        }
        table.line(cells);
    }
    table.text()
}

/// Each room over the whole year; hours to the minute, as the run counted them.
fn room_table(course: &Course, system: System) -> String {
    let mut table = Table::default();
    table.line(vec![
        "room".to_owned(),
        "lowest".to_owned(),
        "mean".to_owned(),
        head("highest", Kind::Temperature, system),
        "h above limit".to_owned(),
        "h below limit".to_owned(),
    ]);
    for (room, whole) in course.room_years.iter().enumerate() {
        let air = |number| figure(Some(number), Kind::Temperature, system);
        let hours = |number| figure(number, Kind::Time, system);
        table.line(vec![
            room_name(course, room).to_owned(),
            air(whole.lowest),
            air(whole.mean),
            air(whole.highest),
            hours(whole.hours_above),
            hours(Some(whole.hours_below)),
        ]);
    }
    table.text()
}

/// Month by month and over the year: the electricity of each unit, of all, and what it costs where the brief has a tariff.
fn energy_table(brief: &Brief, course: &Course, system: System) -> String {
    let mut table = Table::default();
    let mut heads = vec!["electricity".to_owned()];
    heads.extend((1..=course.units.len()).map(|unit| head(&format!("unit {unit}"), Kind::Energy, system)));
    heads.push(head("all", Kind::Energy, system));
    heads.extend(brief.tariff.map(|_| format!("cost {}", brief.currency)));
    table.line(heads);
    let mut line = |name: &str, units: Vec<f64>, all: f64| {
        let mut cells = vec![name.to_owned()];
        cells.extend(units.into_iter().chain([all]).map(|used| figure(Some(used), Kind::Energy, system)));
        cells.extend(brief.cost(all).map(|cost| figure(Some(cost), Kind::Money, system)));
        table.line(cells);
    };
    for ((month, of_month), all) in MONTHS.iter().enumerate().zip(course.electricity_by_month()) {
        let units = course.unit_years.iter().map(|year| year.electricity_by_month[month]).collect();
        line(of_month.name, units, all);
    }
    line("the year", course.unit_years.iter().map(|year| year.electricity).collect(), course.electricity());
    table.text()
}

/// Each unit over the whole year.
fn unit_table(course: &Course, system: System) -> String {
    let mut table = Table::default();
    let heads = ["unit", "ran h", "starts", "most in an hour", "heat kWh", "electricity kWh", "h beyond its map"];
    table.line(heads.map(str::to_owned).to_vec());
    for (index, (unit, whole)) in course.units.iter().zip(&course.unit_years).enumerate() {
        let count = |number: f64| figure(Some(number.round()), Kind::Count, system);
        table.line(vec![
            unit_name_of(index, unit),
            count(whole.hours),
            count(f64::from(whole.starts)),
            count(f64::from(whole.most_starts)),
            count(whole.heat),
            count(whole.electricity),
            count(f64::from(whole.hours_beyond_map)),
        ]);
    }
    table.text()
}
