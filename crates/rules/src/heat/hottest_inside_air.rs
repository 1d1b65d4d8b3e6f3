//! **H04 `hottest-inside-air`** – is the air inside cool enough for every fitted device at the hottest hour?
//!
//! T_in = T_out + (P + Q_sun − Q_units − Q_d) / (U·A)
//!
//! - T_in     inside air                                             [°C]
//! - T_out    outdoor air at the hottest hour                        [°C]
//! - P        heat of devices, conversion losses, fans               [W]
//! - Q_sun    heat the sun brings in, from H03                       [W]
//! - Q_units  heat the climate units move out at T_in and T_out      [W]
//! - Q_d      heat that passes through a divider to the other bay    [W]
//! - U·A      conductance of the outer faces, from H05               [W/K]
//!
//! Source:      heat balance; unit maps from the catalogue.
//! Valid for:   steady state, mixed air, outdoor air −60…60 °C, sites up to 3 000 m, within the units' maps.
//! Agreement:   tests/published/heat.toml, T07-06, within 0.1 K.
//! Not covered: warm-up over the day, layers of warmer air, cable openings, films in thinner air.
//!
//! The scale is that of the badge: 1 − (T_max − T_in) / |T_max − T_out|, which from outdoor air to the limit is
//! (T_in − T_out) / (T_max − T_out). It is at least 10 K long, so that it also serves where a device allows no more than
//! outdoor air, or hardly more. The reserve is 3 K whatever the scale: mixed air is an idealisation, and some kelvins of
//! layering stand in every cabinet (common practice, no source).

use units::{Celsius, Kelvins, Kind, System, Value};

use super::heat_sources::Room;
use super::hottest::{Air, Hottest, Limited, WARMEST, id_of, limited, silent};
use super::hottest_steps::{sun_step, unit_step};
use super::walls::{Wall, compartment_name, conductance};
use crate::sources::{CATALOGUE, FLAT_SUN, HEAT_BALANCE};
use crate::{Asked, Case, Check, Finding, Outcome, Phrase, Step, Subject, Symbol, Topic};

/// Kelvins below the limit at which *tight* begins. Common practice, no source.
const RESERVE: f64 = 3.0;
/// Least length of the scale, for devices that allow no more than outdoor air, or hardly more: K.
const LEAST_SCALE: f64 = 10.0;
/// Least fall of the inside air for which a shield is worth naming, K.
const LEAST_GAIN: f64 = 0.1;
/// Names that a sentence lists before it counts the rest.
const NAMES: usize = 3;

/// The check.
pub static CHECK: Check = Check {
    code: "H04",
    name: "hottest-inside-air",
    topic: Topic::Heat,
    question: "Is the air inside cool enough for every device at the hottest hour?",
    formula: "T_in = T_out + (P + Q_sun − Q_units − Q_d) / (U·A)",
    symbols: &[
        Symbol { symbol: "T_in", meaning: "inside air", kind: Kind::Temperature },
        Symbol { symbol: "T_out", meaning: "outdoor air, hottest hour", kind: Kind::Temperature },
        Symbol { symbol: "P", meaning: "heat of devices, conversion and fans", kind: Kind::Power },
        Symbol { symbol: "Q_sun", meaning: "heat the sun brings in", kind: Kind::Power },
        Symbol { symbol: "Q_units", meaning: "heat the climate units move out", kind: Kind::Power },
        Symbol { symbol: "Q_d", meaning: "heat that passes to the other bay", kind: Kind::Power },
        Symbol { symbol: "U·A", meaning: "conductance of the outer faces", kind: Kind::Conductance },
        Symbol { symbol: "T_max", meaning: "lowest inlet limit of a device", kind: Kind::Temperature },
    ],
    sources: &[&HEAT_BALANCE, &CATALOGUE, &FLAT_SUN],
    valid: "steady state, mixed air, outdoor air −60 to 60 °C, up to 3 000 m, within the units' maps, inside air up to 100 °C",
    leaves_out: "warm-up over the day, layers of warmer air, leaks, weaker films in thinner air",
    caution: None,
    asked: Some(Asked::Hottest),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let hour = match Hottest::of(case) {
        Ok(hour) => hour,
        Err(gap) => return vec![gap.finding(check, Subject::Cabinet)],
    };
    let mut found: Vec<(Finding, Limited)> = Vec::new();
    for one in limited(case) {
        let finding = match one.room {
            Room::Compartment(index) => judge(check, &hour, index, &one),
            Room::Plinth => in_plinth(check, &hour, &one),
        };
        found.push((finding.about(case.name(one.device)), one));
    }
    let Some(lead) = worst(&hour, &found) else { return without_limits(check, case, &hour) };
    let (mut lead, one) = found.remove(lead);
    lead = match one.room {
        Room::Compartment(index) => {
            let steps = working(case, &hour, index, Some(one.limit.into()));
            with_help(lead.working(steps), &hour, index, one.limit)
        }
        Room::Plinth => lead.working(plinth_working(&hour, one.limit)),
    };
    let mut findings = vec![lead];
    findings.extend(found.into_iter().map(|(finding, _)| finding).filter(|one| one.outcome != Outcome::Holds));
    findings.extend(unsaid(check, case));
    findings
}

/// The place of the worst finding: by outcome, then by margin.
fn worst(hour: &Hottest, found: &[(Finding, Limited)]) -> Option<usize> {
    let rank = |(finding, one): &(Finding, Limited)| (finding.outcome, -margin(hour, one));
    let mut worst: Option<usize> = None;
    for (at, one) in found.iter().enumerate() {
        if worst.is_none_or(|index| rank(one) > rank(&found[index])) {
            worst = Some(at);
        }
    }
    worst
}

/// How far a limit lies above the air, K; beyond a map, above the map's end, which is the most it can be.
fn margin(hour: &Hottest, one: &Limited) -> f64 {
    let air = match one.room {
        Room::Plinth => hour.outside,
        Room::Compartment(index) => match hour.air(index) {
            Air::At(air) | Air::Above(air) => air,
            Air::Unknown => return f64::INFINITY,
        },
    };
    one.limit.0 - air.0
}

/// Holds one device's limit against the air of its compartment.
fn judge(check: &Check, hour: &Hottest, compartment: usize, one: &Limited) -> Finding {
    let (subject, limit) = (Subject::Device(id_of(one)), one.limit);
    match hour.air(compartment) {
        Air::At(air) => on_limit(check, subject, air, limit, hour.outside),
        Air::Above(end) => {
            let ends = if end.0 < WARMEST { ", where the units' maps end" } else { ", beyond what this method covers" };
            let why = Phrase::from("inside air lies above ").value(end).text(ends);
            if end >= limit { Finding::fails(check, subject, why) } else { Finding::out_of_range(check, subject, why) }
        }
        Air::Unknown => Finding::out_of_range(check, subject, "the other bay lies beyond its units' maps"),
    }
}

/// What stands in the plinth has outdoor air at the least.
fn in_plinth(check: &Check, hour: &Hottest, one: &Limited) -> Finding {
    let finding = on_limit(check, Subject::Device(id_of(one)), hour.outside, one.limit, hour.outside);
    finding.because("the plinth's room is taken at outdoor temperature").help("It may stand in the body instead")
}

fn plinth_working(hour: &Hottest, limit: Celsius) -> Vec<Step> {
    vec![
        Step::input("T_out", "outdoor air, hottest hour", hour.outside),
        Step::computed("T_in", "air in the plinth", "T_out", Phrase::new(), hour.outside),
        Step::input("T_max", "highest inlet air of the limiting device", limit).from_source(&CATALOGUE),
    ]
}

fn on_limit(check: &Check, subject: Subject, air: Celsius, limit: Celsius, outside: Celsius) -> Finding {
    let (used, reserve) = scale(air.0, limit.0, outside.0);
    Finding::on_scale(check, subject, air, limit, limit - air, used, reserve)
}

/// Demanded ÷ allowed, and where *tight* begins on that scale.
pub(crate) fn scale(air: f64, limit: f64, outside: f64) -> (f64, f64) {
    let span = (limit - outside).abs().max(LEAST_SCALE);
    // used = 1 − (T_max − T_in) / span; with span = T_max − T_out this is (T_in − T_out) / (T_max − T_out)
    ((1.0 - (limit - air) / span).max(0.0), 1.0 - RESERVE / span)
}

/// Nobody has said how warm a device may get: the figure all the same.
fn without_limits(check: &Check, case: &Case, hour: &Hottest) -> Vec<Finding> {
    let hottest = (0..hour.gains.len()).max_by(|a, b| {
        let air = |index: usize| hour.worst(index).air[index];
        air(*a).total_cmp(&air(*b)).then(b.cmp(a))
    });
    let index = hottest.unwrap_or(0);
    let unsaid = unsaid(check, case);
    let mut finding = match (hour.air(index), unsaid) {
        (Air::At(air), None) => Finding::tells(check, Subject::Cabinet, air).because("no device sets a limit"),
        (Air::At(air), Some(unsaid)) => Finding { given: Some(air.into()), ..unsaid },
        (_, Some(unsaid)) => unsaid,
        (Air::Above(_) | Air::Unknown, None) => {
            Finding::out_of_range(check, Subject::Cabinet, "the balance lies beyond the units' maps or the method")
        }
    };
    if finding.given.is_some() {
        finding = finding.working(working(case, hour, index, None));
    }
    vec![finding]
}

/// The devices that give heat and say no limit.
pub(crate) fn unsaid(check: &Check, case: &Case) -> Option<Finding> {
    let silent = silent(case);
    let first = silent.first()?;
    let mut names: Vec<_> = silent.iter().take(NAMES).map(|device| case.name(device).shown(System::Metric)).collect();
    if silent.len() > NAMES {
        names.push(format!("{} more", silent.len() - NAMES));
    }
    let what = format!("highest inlet temperature of {}", names.join("; "));
    Some(Finding::needs_data(check, Subject::Device(first.fitted.id), what))
}

fn working(case: &Case, hour: &Hottest, index: usize, limit: Option<Value>) -> Vec<Step> {
    let way = hour.worst(index);
    let (compartment, gains, sun) = (&way.compartments[index], hour.gains[index], way.sun[index]);
    let watts = |number: f64| Value::new(number, Kind::Power);
    let kelvins = |number: f64| Value::from(Kelvins(number));
    let inside = way.air[index];
    let mut steps = vec![Step::input("T_out", "outdoor air, hottest hour", hour.outside)];
    let place = compartment_name(case, index);
    let unplaced = case.devices.iter().filter(|device| device.space.is_none()).count();
    let mut devices = Phrase::from("heat of the devices");
    if !place.is_empty() {
        devices = devices.text(" in ").then(place);
    }
    if unplaced > 0 {
        devices = devices.text(format!("; {unplaced} not placed do not count"));
    }
    steps.push(Step::input("P_dev", devices, watts(gains.devices)));
    steps.push(Step::input("P_conv", "losses of rectifiers, inverters and the like", watts(gains.losses)));
    steps.push(Step::input("P_fans", "input of fans and exchangers, all of it inside", watts(gains.fans)));
    let sum = Phrase::new().number(watts(gains.devices)).text(" + ").number(watts(gains.losses)).text(" + ");
    let p = gains.sum();
    let sum = sum.number(watts(gains.fans));
    steps.push(Step::computed("P", "heat given off inside", "P_dev + P_conv + P_fans", sum, watts(p)));
    steps.push(sun_step(way, index));
    let ua = conductance(compartment.conductance);
    steps.push(Step::input("U·A", "conductance of the outer faces", ua).from_source(&HEAT_BALANCE));
    let to_other = hour.to_other(way, index, inside);
    if hour.divider > 0.0 {
        steps.push(Step::input("U·A_d", "conductance of the divider", conductance(hour.divider)));
        let numbers = Phrase::new().number(conductance(hour.divider)).text(" × ");
        let numbers = numbers.number(kelvins(to_other / hour.divider));
        let meaning = "heat to the other bay";
        steps.push(Step::computed("Q_d", meaning, "U·A_d × (T_in − T_other)", numbers, watts(to_other)));
    }
    if let Air::At(_) = hour.air(index) {
        steps.extend(hour.units_of(index).map(|unit| {
            let air = inside.clamp(unit.mover.capacity.lowest_inside(), unit.mover.capacity.highest_inside());
            let of_map = unit.mover.capacity.at(air).unwrap_or(0.0);
            let meaning = Phrase::from(unit.spec.name.as_str()).text(": what it could move at T_in and T_out");
            unit_step(unit, meaning, of_map, "k × map(T_in, T_out)")
        }));
        // What the units move at the balance: at a set point held this is less than they could.
        let moved = hour.heat_to_move(way, index, inside);
        if !compartment.movers.is_empty() {
            steps.push(Step::input("Q_units", "heat the units move out at the balance", watts(moved)));
        }
        let mut numbers = Phrase::new().number(hour.outside).text(" + (").number(watts(p));
        numbers = numbers.text(" + ").number(watts(sun));
        for minus in [moved, to_other].into_iter().filter(|minus| minus.abs() > 1e-6) {
            numbers = numbers.text(" − ").number(watts(minus));
        }
        let numbers = numbers.text(") / ").number(ua);
        let formula = "T_out + (P + Q_sun − Q_units − Q_d) / (U·A)";
        let air = Value::from(Celsius(inside));
        steps.push(Step::computed("T_in", "inside air", formula, numbers, air).from_source(&HEAT_BALANCE));
    }
    if let Some(limit) = limit {
        steps.push(Step::input("T_max", "highest inlet air of the limiting device", limit).from_source(&CATALOGUE));
    }
    steps
}

/// What would help: so much more cooling at the limit, an exchanger, a shield.
fn with_help(mut finding: Finding, hour: &Hottest, index: usize, limit: Celsius) -> Finding {
    if finding.outcome == Outcome::Holds {
        return finding;
    }
    let way = hour.worst(index);
    let compartment = &way.compartments[index];
    let at = limit.0.min(compartment.covered_to());
    let lacking = hour.heat_to_move(way, index, at) - compartment.moved(at);
    if lacking > 0.0 {
        let more = Phrase::new().value(Value::new(lacking, Kind::Power)).text(" more cooling at ").value(Celsius(at));
        finding = finding.help(more.text(" inside and ").value(hour.outside).text(" outside would do"));
        let rise = at - hour.outside.0;
        if rise >= RESERVE {
            let exchanger = Phrase::from("An exchanger of ").value(conductance(lacking / rise));
            finding = finding.help(exchanger.text(" more would do, apart from what it draws"));
        }
    }
    let lit = |wall: &&Wall| wall.compartment == index && !wall.shielded && way.exposure.lit.contains(&wall.face);
    let kept_off = |wall: &Wall| hour.surface.gain(wall) - hour.surface.gain(&Wall { shielded: true, ..wall.clone() });
    let off: f64 = hour.walls.iter().filter(lit).map(kept_off).sum();
    // A shield also keeps the wind off, through which warm walls lose heat: only where it cools is it any help.
    let cools = || hour.with_full_shield().worst(index).air[index] < way.air[index] - LEAST_GAIN;
    if off > 0.0 && cools() {
        let shield = Phrase::from("A full shield would keep ").value(Value::new(off, Kind::Power));
        finding = finding.help(shield.text(" of sun off"));
    }
    finding
}

#[cfg(test)]
mod tests;
