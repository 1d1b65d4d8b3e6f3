//! The figures of a day as a table.

use leptos::prelude::*;
use rules::course::Course;
use units::{Kind, System, Value, show, unit_name};

use super::calendar::time;
use super::stretch::{Day, Stretch};
use super::words::inside;
use crate::lean::view;

/// One row for each full hour.
pub(super) fn day_table(course: &Course, day: Day, units: System) -> AnyView {
    let stretch = Stretch::of(course, day);
    let number = |figure: f64, kind: Kind| show(Value::new(figure, kind), units).number;
    let rooms = 0..course.rooms.len();
    let each = (60 / stretch.minutes().max(1)).max(1);
    let rows = (0..stretch.steps).step_by(each).map(|step| {
        let air = rooms.clone().map(|room| view! { <td>{number(stretch.air(room, step), Kind::Temperature)}</td> });
        let duty =
            (0..course.units.len()).map(|unit| view! { <td>{number(stretch.duty(unit, step), Kind::Share)}</td> });
        view! {
            <tr>
                <th scope="row">{time(step * stretch.minutes())}</th>
                <td>{number(stretch.outside(step), Kind::Temperature)}</td>
                {air.collect_view()}
                <td>{number(stretch.sun(step), Kind::HeatFlux)}</td>
                {duty.collect_view()}
            </tr>
        }
    });
    let degrees = unit_name(Kind::Temperature, units);
    let heads =
        rooms.clone().map(|room| view! { <th scope="col">{format!("{}, {degrees}", inside(course, room))}</th> });
    let names = course.units.iter().map(|unit| view! { <th scope="col">{format!("{}, %", unit.name)}</th> });
    view! {
        <table class="numbers__table">
            <thead>
                <tr>
                    <th scope="col">"time"</th>
                    <th scope="col">{format!("outside, {degrees}")}</th>
                    {heads.collect_view()}
                    <th scope="col">{format!("sun, {}", unit_name(Kind::HeatFlux, units))}</th>
                    {names.collect_view()}
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}
