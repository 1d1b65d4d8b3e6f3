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
use super::walls::{Wall, compartment_name, conductance, face_names};
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
        devices = devices.text(" in ");
        devices.0.extend(place.0);
    }
    if unplaced > 0 {
        devices = devices.text(format!("; {unplaced} not placed do not count"));
    }
    steps.push(Step::input("P_dev", devices, watts(gains.devices)));
    steps.push(Step::input("P_conv", "losses of rectifiers, inverters and the like", watts(gains.losses)));
    steps.push(Step::input("P_fans", "input of fans and exchangers, all of it inside", watts(gains.fans)));
    let sum = Phrase::new().number(watts(gains.devices)).text(" + ").number(watts(gains.losses)).text(" + ");
    let p = gains.devices + gains.losses + gains.fans;
    let sum = sum.number(watts(gains.fans));
    steps.push(Step::computed("P", "heat given off inside", "P_dev + P_conv + P_fans", sum, watts(p)));
    let lit = format!("sun on {}", face_names(&way.exposure.lit));
    steps.push(Step::input("Q_sun", lit, watts(sun)).from_source(&FLAT_SUN));
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
        steps.extend(unit_steps(hour, index, inside));
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

/// What each unit of a compartment could move at an inside temperature.
fn unit_steps(hour: &Hottest, index: usize, inside: f64) -> Vec<Step> {
    let own = hour.units.iter().filter(|unit| unit.compartment == index);
    own.map(|unit| {
        let air = inside.clamp(unit.mover.capacity.lowest_inside(), unit.mover.capacity.highest_inside());
        let of_map = unit.mover.capacity.at(air).unwrap_or(0.0);
        let numbers = Phrase::new().number(Value::new(unit.mover.left, Kind::Ratio)).text(" × ");
        let numbers = numbers.number(Value::new(of_map, Kind::Power));
        let meaning = Phrase::from(unit.spec.name.as_str()).text(": what it could move at T_in and T_out");
        let value = Value::new(unit.mover.left * of_map, Kind::Power);
        Step::computed("Q_unit", meaning, "k × map(T_in, T_out)", numbers, value).from_source(&CATALOGUE)
    })
    .collect()
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
mod tests {
    use catalogue::Device;
    use project::Sun;
    use units::{Metres, Watts};

    use super::*;
    use crate::heat::testing::{Desk, device, rack, step};

    fn warm(watts: f64, limit: f64) -> Device {
        Device { power: Watts(watts), inlet_max: Some(Celsius(limit)), ..device(1) }
    }

    /// A desk in the shade with one device of so many watts.
    fn desk(watts: f64, limit: f64) -> Desk {
        let mut desk = Desk::new();
        desk.project.brief.sun = Sun::Shade;
        desk.add(warm(watts, limit), rack(0, 10));
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome, air: f64) -> Finding {
        let findings = desk.run(&CHECK);
        let lead = &findings[0];
        assert_eq!(lead.outcome, outcome, "{lead:?}");
        let given = lead.given.map_or(f64::NAN, |given| given.number);
        assert!((given - air).abs() < 1e-6 || (given.is_nan() && air.is_nan()), "{given} against {air}");
        lead.clone()
    }

    /// Conductance of the desk's faces in the shade, on the ground: Σ A / (1/8 + 0.003/150 + 1/17).
    fn free_conductance() -> f64 {
        // Body: 600 + 6 wide, 800 deep, 20 · 44.45 + 100 + 6 high.
        let (w, d, h) = (0.606, 0.8, 0.995);
        (2.0 * w * h + 2.0 * d * h + w * d) / (1.0 / 8.0 + 0.003 / 150.0 + 1.0 / 17.0)
    }

    #[test]
    fn walls_alone_follow_the_hand_calculation() {
        let air = 40.0 + 200.0 / free_conductance();
        let lead = check(&desk(200.0, 60.0), Outcome::Holds, air);
        assert!((step(&lead, "U·A") - free_conductance()).abs() < 1e-9);
        assert!((lead.used.unwrap() - (air - 40.0) / 20.0).abs() < 1e-9);
        assert!(lead.help.is_empty());
    }

    #[test]
    fn it_is_tight_within_three_kelvins_and_fails_at_the_limit() {
        let air = 40.0 + 200.0 / free_conductance();
        check(&desk(200.0, air + 3.01), Outcome::Holds, air);
        check(&desk(200.0, air + 2.99), Outcome::Tight, air);
        check(&desk(200.0, air + 0.01), Outcome::Tight, air);
        let lead = check(&desk(200.0, air - 0.01), Outcome::Fails, air);
        assert!(!lead.help.is_empty());
    }

    #[test]
    fn an_exchanger_cools_and_the_working_adds_up() {
        let mut desk = desk(900.0, 60.0);
        desk.exchanger(80.0, 0);
        desk.catalogue.units.values_mut().for_each(|unit| unit.altitude_loss_per_metre = 1e-4);
        let air = 40.0 + 900.0 / (free_conductance() + 80.0);
        let lead = check(&desk, Outcome::Holds, air);
        assert!((step(&lead, "Q_unit") - 80.0 * (air - 40.0)).abs() < 1e-6);
        assert!((step(&lead, "Q_units") - step(&lead, "Q_unit")).abs() < 1e-6);
        // At 1000 m the maker's loss leaves 0.9 of it.
        desk.project.brief.elevation = Metres(1000.0);
        check(&desk, Outcome::Holds, 40.0 + 900.0 / (free_conductance() + 72.0));
    }

    #[test]
    fn a_conditioner_holds_its_set_point_below_outdoor_air() {
        let mut desk = desk(600.0, 45.0);
        desk.conditioner(1500.0, 0);
        let lead = check(&desk, Outcome::Holds, 35.0);
        let needed = 600.0 + 5.0 * free_conductance();
        assert!((step(&lead, "Q_units") - needed).abs() < 1e-6);
        assert_eq!(step(&lead, "Q_unit"), 1500.0);
        // A limit below outdoor air holds too, on its own scale: 1 − (39 − 35) / 10.
        let mut lower = desk.clone();
        lower.add(warm(0.0, 39.0), rack(0, 1));
        assert!((check(&lower, Outcome::Holds, 35.0).used.unwrap() - 0.6).abs() < 1e-9);
    }

    #[test]
    fn a_limit_below_outdoor_air_fails_without_a_conditioner() {
        let air = 40.0 + 100.0 / free_conductance();
        let lead = check(&desk(100.0, 38.0), Outcome::Fails, air);
        assert!(lead.used.unwrap() > 1.0);
    }

    #[test]
    fn beyond_the_map_it_fails_when_that_is_sure_and_gives_no_number() {
        let build = |limit| {
            let mut desk = desk(6000.0, limit);
            desk.exchanger(10.0, 0);
            desk
        };
        assert!(check(&build(55.0), Outcome::Fails, f64::NAN).said().shown(System::Metric).contains("above 60"));
        check(&build(60.0), Outcome::Fails, f64::NAN);
        check(&build(61.0), Outcome::OutOfRange, f64::NAN);
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut hot = desk(100.0, 75.0);
        hot.project.brief.hottest = Celsius(55.0);
        check(&hot, Outcome::Holds, 55.0 + 100.0 / free_conductance());
        hot.exchanger(80.0, 0);
        let said = check(&hot, Outcome::OutOfRange, f64::NAN).said().shown(System::Metric);
        assert!(said.contains("Exchanger has no map at 55"), "{said}");
        let mut high = desk(100.0, 60.0);
        high.project.brief.elevation = Metres(3000.0);
        check(&high, Outcome::Holds, 40.0 + 100.0 / free_conductance());
        high.project.brief.elevation = Metres(3001.0);
        check(&high, Outcome::OutOfRange, f64::NAN);
        let mut absurd = desk(f64::NAN, 60.0);
        check(&absurd, Outcome::OutOfRange, f64::NAN);
        absurd.project.brief.hottest = Celsius(f64::NAN);
        check(&absurd, Outcome::OutOfRange, f64::NAN);
    }

    #[test]
    fn names_the_devices_that_set_no_limit() {
        let mut desk = desk(100.0, 60.0);
        desk.add(Device { name: "Recorder".to_owned(), power: Watts(50.0), ..device(1) }, rack(0, 2));
        let findings = desk.run(&CHECK);
        assert_eq!(findings.len(), 2);
        assert_eq!(findings[1].outcome, Outcome::NeedsData);
        assert!(findings[1].said().shown(System::Metric).contains("Recorder, A 2"));
    }

    #[test]
    fn tells_the_figure_when_no_device_sets_a_limit() {
        let mut desk = Desk::new();
        desk.project.brief.sun = Sun::Shade;
        check(&desk, Outcome::Holds, 40.0);
    }

    #[test]
    fn the_device_with_the_lowest_limit_leads_and_others_that_fail_follow() {
        let mut desk = desk(1000.0, 50.0);
        let low = desk.add(warm(0.0, 45.0), rack(0, 1));
        desk.add(warm(0.0, 300.0), rack(0, 2));
        let findings = desk.run(&CHECK);
        assert_eq!(findings[0].subject, Subject::Device(low));
        assert_eq!(findings.len(), 2);
    }

    #[test]
    fn the_device_with_the_lowest_limit_leads_beyond_the_map_too() {
        let mut desk = desk(6000.0, 55.0);
        desk.exchanger(10.0, 0);
        let low = desk.add(warm(0.0, 41.0), rack(0, 1));
        let lead = check(&desk, Outcome::Fails, f64::NAN);
        assert_eq!(lead.subject, Subject::Device(low));
        // 6000 W at 41 °C, of which walls and exchanger take one kelvin's worth.
        let lacking = 6000.0 - free_conductance() - 10.0;
        let more = Phrase::new().value(Value::new(lacking, Kind::Power)).shown(System::Metric);
        assert!(lead.help[0].shown(System::Metric).starts_with(&more), "{:?}", lead.help);
    }

    #[test]
    fn the_reserve_is_three_kelvins_however_near_the_limit_is_to_outdoor_air() {
        check(&desk(0.0, 42.0), Outcome::Tight, 40.0);
        check(&desk(0.0, 43.5), Outcome::Holds, 40.0);
        let mut cooled = desk(100.0, 37.0);
        cooled.conditioner(9000.0, 0);
        check(&cooled, Outcome::Tight, 35.0);
    }

    #[test]
    fn a_shield_is_offered_only_where_it_cools() {
        let mut desk = desk(0.0, 41.0);
        desk.project.brief.sun = Sun::Full;
        let offers = |desk: &Desk| {
            let help = &desk.run(&CHECK)[0].help;
            help.iter().any(|one| one.shown(System::Metric).contains("shield"))
        };
        assert!(offers(&desk));
        // 60 K above outdoor air the walls lose more to the wind than the sun brings in.
        desk.add(warm(1000.0, 41.0), rack(0, 1));
        assert!(!offers(&desk));
    }

    #[test]
    fn the_plinth_has_outdoor_air() {
        let mut desk = desk(100.0, 70.0);
        let at = desk.plinth();
        let battery = desk.add(Device { mount: catalogue::Mount::Floor, ..warm(0.0, 35.0) }, at);
        let lead = check(&desk, Outcome::Fails, 40.0);
        assert_eq!(lead.subject, Subject::Device(battery));
        assert_eq!((step(&lead, "T_in"), step(&lead, "T_max")), (40.0, 35.0));
    }

    #[test]
    fn mirrored_bays_give_mirrored_air() {
        let build = |bay| {
            let mut desk = Desk::two_bays();
            desk.add(warm(500.0, 70.0), rack(bay, 3));
            desk.add(warm(100.0, 60.0), rack(1 - bay, 3));
            desk.exchanger(20.0, bay);
            desk
        };
        let (left, right) = (build(0).run(&CHECK), build(1).run(&CHECK));
        let air = |findings: &[Finding]| findings[0].given.unwrap().number;
        assert!((air(&left) - air(&right)).abs() < 1e-6, "{} {}", air(&left), air(&right));
    }

    #[test]
    fn more_heat_or_warmer_air_outside_never_cools() {
        let mut last = f64::NEG_INFINITY;
        for watts in (0..30).map(|step| 50.0 * f64::from(step)) {
            let mut desk = desk(watts, 300.0);
            desk.conditioner(400.0, 0);
            let Some(given) = desk.run(&CHECK)[0].given else { break };
            assert!(given.number >= last - 1e-8);
            last = given.number;
        }
        assert!(last > 35.0, "the set point was never left: {last}");
        let mut last = f64::NEG_INFINITY;
        for outside in 20..50 {
            let mut desk = desk(500.0, 300.0);
            desk.project.brief.hottest = Celsius(f64::from(outside));
            desk.exchanger(60.0, 0);
            let given = desk.run(&CHECK)[0].given.unwrap().number;
            assert!(given >= last - 1e-8, "{given} after {last}");
            last = given;
        }
    }

    #[test]
    fn gives_no_number_above_what_the_films_cover() {
        // Ten kilowatts in a bare cabinet: hundreds of kelvins by the formula, which no film bears out.
        let desk = desk(10_000.0, 55.0);
        let finding = check(&desk, Outcome::Fails, f64::NAN);
        assert!(finding.said().shown(System::Metric).contains("above 100"), "{finding:?}");
        assert!(finding.given.is_none() && finding.margin.is_none());
    }
}
