//! **P02 `demand-load`** – does the service carry all that is connected?
//!
//! I = u · (1.25 · S_c + S_n) · (1 + g) / U ≤ I_main
//!
//! - S_all   all that is connected, each load once               [VA]
//! - S_c     continuous load of the demand, three hours or more  [VA]
//! - S_n     the rest of the demand                              [VA]
//! - g       growth asked for                                    [–]
//! - u       most loaded phase over what all carry on the mean   [–]
//! - U       voltage of the supply; of three phases √3 times it  [V]
//! - I       current of the service                              [A]
//! - I_main  rated current of the weakest of disconnect, interlock and load centre [A]
//!
//! Source:      [`CODE_LOADS`].
//! Valid for:   devices whose rated current is not said to be for continuous load.
//! Agreement:   two published worked examples, below.
//! Not covered: demand factors for kinds of buildings; what the utility allows.

use project::SiteSupply;
use units::{Amperes, Kind, Value};

use super::all_fed::CAUTION;
use super::circuits::{Circuits, LOWEST_SHARE};
use crate::network::{NodeKind, service};
use crate::sources::{CATALOGUE, CODE_LOADS};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// *Tight* begins at this share of the rated current; what is continuous already counts 125 %.
const RESERVE: f64 = 0.9;

/// The check.
pub static CHECK: Check = Check {
    code: "P02",
    name: "demand-load",
    topic: Topic::Power,
    question: "Does the service carry all that is connected?",
    formula: "I = u · (1.25 · S_c + S_n) · (1 + g) / U ≤ I_main",
    symbols: &[
        Symbol { symbol: "S_all", meaning: "all that is connected, each load once", kind: Kind::ApparentPower },
        Symbol { symbol: "S_c", meaning: "continuous load of the demand", kind: Kind::ApparentPower },
        Symbol { symbol: "S_n", meaning: "the rest of the demand", kind: Kind::ApparentPower },
        Symbol { symbol: "g", meaning: "growth asked for", kind: Kind::Share },
        Symbol { symbol: "u", meaning: "most loaded phase over the mean of all", kind: Kind::Ratio },
        Symbol { symbol: "U", meaning: "voltage of the supply; of three phases √3 times it", kind: Kind::Voltage },
        Symbol { symbol: "I", meaning: "current of the service", kind: Kind::Current },
        Symbol {
            symbol: "I_main",
            meaning: "rated current of the weakest of disconnect, interlock and load centre",
            kind: Kind::Current,
        },
    ],
    sources: &[&CODE_LOADS, &CATALOGUE],
    valid: "devices whose rated current is not said to be for continuous load; heaters and what cools the same room do \
            not work at the same time; an outlet counts 180 VA (from memory, to be confirmed)",
    leaves_out: "demand factors for kinds of buildings; what the utility allows",
    caution: Some(CAUTION),
    asked: Some(Asked::Supply),
    run,
};

/// Voltage by which VA become amperes.
fn volts(supply: SiteSupply) -> f64 {
    let flows = service(supply);
    match (flows.is_direct(), flows.poles()) {
        (true, _) => flows.volts() * LOWEST_SHARE,
        (false, 3) => flows.volts() * libm::sqrt(3.0),
        (false, _) => flows.volts(),
    }
}

/// Current of the service, A.
///
/// I = u · (1.25 · `S_c` + `S_n`) · (1 + g) / U
#[must_use]
pub fn service_current(least: f64, imbalance: f64, growth: f64, volts: f64) -> f64 {
    imbalance * least * (1.0 + growth) / volts
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    if let Some(lacking) = case.lacking(check) {
        return vec![lacking];
    }
    let all = case.circuits();
    let supply = case.project.brief.supply;
    let current = service_current(all.demand.least(), all.imbalance(), case.project.brief.power.growth, volts(supply));
    let working = working(case, all, current);
    if all.demand.total() <= 0.0 {
        return vec![Finding::holds(check, Subject::Supply, "nothing draws power from the supply").working(working)];
    }
    let finding = match all.main {
        Some(main) => Finding::at_most(check, Subject::Supply, Amperes(current), Amperes(main), RESERVE)
            .help("A disconnect and a load centre of a larger rated current, or fewer loads, would do"),
        None if service(supply).is_direct() => Finding::tells(check, Subject::Supply, Amperes(current)),
        None => Finding::fails(check, Subject::Supply, "no disconnect and no load centre stand behind the service")
            .help("A service disconnect and a load centre would do"),
    };
    vec![finding.about(weakest(case, all)).working(working)]
}

/// What limits the service, in words.
fn weakest(case: &Case, all: &Circuits) -> Phrase {
    let limits = |id: &project::ItemId| super::circuits::rated_current(case, *id) == all.main && all.main.is_some();
    let kinds = [NodeKind::Disconnect, NodeKind::Interlock, NodeKind::Panel];
    let of_service = kinds.into_iter().flat_map(|kind| case.network.of_kind(kind)).filter_map(|(_, node)| node.item());
    let first = of_service.into_iter().find(limits).and_then(|id| case.device(id));
    first.map(|device| case.name(device)).unwrap_or_default()
}

fn working(case: &Case, all: &Circuits, current: f64) -> Vec<Step> {
    let va = |load: f64| Value::new(load, Kind::ApparentPower);
    let growth = Value::new(case.project.brief.power.growth, Kind::Share);
    let unbalance = Value::new(all.imbalance(), Kind::Ratio);
    let volts = Value::new(volts(case.project.brief.supply), Kind::Voltage);
    let mut steps = vec![
        Step::input("S_all", "all that is connected, each load once", va(all.connected.total())),
        Step::input("S_c", "continuous load of the demand", va(all.demand.continuous)),
        Step::input("S_n", "the rest of the demand", va(all.demand.other)),
        Step::input("g", "growth asked for", growth),
        Step::input("u", "most loaded phase over the mean of all", unbalance),
        Step::input("U", "voltage of the supply; of three phases √3 times it", volts),
        Step::computed(
            "I",
            "current of the service",
            "u · (1.25 · S_c + S_n) · (1 + g) / U",
            Phrase::new()
                .number(unbalance)
                .text(" · (1.25 · ")
                .number(va(all.demand.continuous))
                .text(" + ")
                .number(va(all.demand.other))
                .text(") · (1 + ")
                .value(growth)
                .text(") / ")
                .number(volts),
            Amperes(current),
        )
        .from_source(&CODE_LOADS),
    ];
    if let Some(main) = all.main {
        steps.push(Step::input("I_main", "rated current of what limits the service", Amperes(main)));
    }
    steps
}

#[cfg(test)]
mod tests {
    use catalogue::Supply;
    use project::Place;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, step};
    use crate::power::circuits::Load;
    use crate::power::testing::{desk, disconnect, load, near, panel, unplaced_desk};

    /// A 100 A load centre and one load of 240 V.
    #[track_caller]
    fn check(watts: f64, growth: f64, current: f64, outcome: Outcome) {
        let mut desk = desk(vec![panel(12, 100.0), load(watts, Supply::V230Ac)]);
        desk.project.brief.power.growth = growth;
        let found = desk.run(&CHECK).remove(0);
        near(step(&found, "I"), current);
        assert_eq!((found.outcome, found.given.is_some()), (outcome, true));
    }

    #[test]
    fn the_rated_current_is_the_limit() {
        // Power factor 0.95: S = P / 0.95; I = 1.25 · S / 240.
        check(0.95 * 19_200.0, 0.0, 100.0, Outcome::Tight);
        check(0.95 * 19_210.0, 0.0, 100.052_083_333, Outcome::Fails);
        check(0.95 * 17_280.0, 0.0, 90.0, Outcome::Holds);
        check(0.95 * 17_290.0, 0.0, 90.052_083_333, Outcome::Tight);
    }

    #[test]
    fn growth_counts() {
        check(0.95 * 16_000.0, 0.2, 100.0, Outcome::Tight);
        check(0.95 * 16_000.0, 0.21, 100.833_333_333, Outcome::Fails);
    }

    #[test]
    fn the_weakest_of_disconnect_and_load_centre_limits() {
        let desk = desk(vec![panel(12, 100.0), disconnect(60.0), load(9500.0, Supply::V230Ac)]);
        let found = desk.run(&CHECK).remove(0);
        assert_eq!(found.allowed.map(|limit| limit.number), Some(60.0));
        assert_eq!(found.about.shown(units::System::Metric), "Disconnect, A 2");
    }

    #[test]
    fn what_loads_one_phase_counts_twice() {
        let one = desk(vec![panel(12, 100.0), load(950.0, Supply::V120Ac)]).run(&CHECK).remove(0);
        near(step(&one, "I"), 1.25 * 1000.0 / 120.0);
        let two = desk(vec![panel(12, 100.0), load(950.0, Supply::V120Ac), load(950.0, Supply::V120Ac)]);
        near(step(&two.run(&CHECK)[0], "I"), 1.25 * 1000.0 / 120.0);
    }

    #[test]
    fn heating_and_cooling_of_one_room_are_not_added() {
        let mut desk = desk(vec![panel(12, 100.0)]);
        desk.conditioner(1000.0, 0);
        desk.heater(150.0, 0);
        let found = desk.run(&CHECK).remove(0);
        // The conditioner draws 200 W at 0.9; the heater 150 W on one phase.
        near(step(&found, "S_all"), 200.0 / 0.9 + 150.0);
        near(step(&found, "S_c"), 200.0 / 0.9);
    }

    #[test]
    fn an_empty_cabinet_draws_nothing_and_loads_need_something_to_switch_them_off() {
        let found = Desk::new().run(&CHECK).remove(0);
        assert_eq!((found.outcome, found.given), (Outcome::Holds, None));
        let found = desk(vec![load(60.0, Supply::V120Ac)]).run(&CHECK).remove(0);
        assert_eq!(found.outcome, Outcome::Fails);
        assert_eq!(found.help.len(), 1);
        let mut nowhere = unplaced_desk(load(60.0, Supply::V120Ac));
        assert_eq!(nowhere.run(&CHECK)[0].outcome, Outcome::Holds);
        nowhere.project.build.devices[0].what = project::DeviceWhat::Part("no-such".into());
        nowhere.project.build.devices[0].at = Place::Unplaced;
        assert_eq!(nowhere.run(&CHECK)[0].outcome, Outcome::NeedsData);
    }

    /// NFPA 70 Annex D, Example D3 (store building, 120/240 V), in a public reprint: 12 200 VA not continuous, 16 200 VA
    /// continuous, together 28 400 VA. And a public examination question: 18 000 VA and 13 356 VA make 34 695 VA and 144 A.
    #[test]
    fn agrees_with_published_worked_examples() {
        let example = |other: f64, continuous: f64, total: f64, least: f64, amperes: f64| {
            let load = Load { continuous, other };
            near(load.total(), total);
            near(load.least(), least);
            let current = service_current(load.least(), 1.0, 0.0, volts(SiteSupply::SplitPhase120240));
            // Printed to whole amperes, rounded down.
            assert!((current - amperes).abs() < 1.0, "{current}");
        };
        example(12_200.0, 16_200.0, 28_400.0, 32_450.0, 135.0);
        example(18_000.0, 13_356.0, 31_356.0, 34_695.0, 144.0);
    }

    #[test]
    fn three_phases_carry_root_three() {
        // 3φ 208 V, 20 A, power factor 0.95 is 6845 W. Source: handbook T08-33, P = √3 · U · I · cos φ.
        let current = service_current(6845.0 / 0.95, 1.0, 0.0, volts(SiteSupply::ThreePhase208));
        assert!((current - 20.0).abs() < 0.003, "{current}");
    }
}
