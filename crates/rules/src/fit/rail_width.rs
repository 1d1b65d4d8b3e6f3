//! **F04 `rail-width`** – does every rack device suit the width of its rails?
//!
//! w_panel ≤ w_rails,  w_body ≤ w_opening
//!
//! - w_panel    panel width the device is made for                                       [mm]
//! - w_rails    panel width of the rails: 482.6 (19 in) or 584.2 (23 in)                 [mm]
//! - w_body     width of its body                                                        [mm]
//! - w_opening  clear opening between the rails; of adapters: that of 19-inch rails      [mm]
//!
//! Source:      [`sources::EIA_310`] for 19 in; [`sources::TELEPHONE_RAILS`] for 23 in.
//! Valid for:   devices made for 19 or 23 in. A 19-inch device stands between 23-inch rails with a pair of adapters.
//! Agreement:   tests/published/rack.toml, T01-09, T01-11, T01-13.
//! Not covered: 24- and 30-inch panels; metric (ETSI) panels; slides beside the body.

use geometry::rail_widths;
use project::{Place, RailWidth};
use units::Kind;

use super::room::length;
use super::subjects::worst_and_unfit;
use crate::{Case, Check, Finding, Phrase, PlacedDevice, Source, Step, Subject, Symbol, Topic, bay_letter, sources};

/// The check.
pub static CHECK: Check = Check {
    code: "F04",
    name: "rail-width",
    topic: Topic::Fit,
    question: "Does every rack device suit the width of its rails?",
    formula: "w_panel ≤ w_rails;  w_body ≤ w_opening",
    symbols: &[
        Symbol { symbol: "w_panel", meaning: "panel width the device is made for", kind: Kind::Length },
        Symbol { symbol: "w_rails", meaning: "panel width of the rails", kind: Kind::Length },
        Symbol { symbol: "w_body", meaning: "width of the device's body", kind: Kind::Length },
        Symbol {
            symbol: "w_opening",
            meaning: "clear opening between the rails, or between adapters",
            kind: Kind::Length,
        },
    ],
    sources: &[&sources::EIA_310, &sources::TELEPHONE_RAILS],
    valid: "devices made for 19 or 23 in",
    leaves_out: "24- and 30-inch panels, metric (ETSI) panels, slides beside the body.",
    caution: None,
    asked: None,
    run,
};

/// A device on rails.
struct Racked<'a> {
    device: &'a PlacedDevice<'a>,
    bay: usize,
    rails: RailWidth,
}

impl Racked<'_> {
    /// The rails whose panel it is made for.
    fn made_for(&self) -> Option<RailWidth> {
        match self.device.spec.rack {
            19 => Some(RailWidth::Nineteen),
            23 => Some(RailWidth::TwentyThree),
            _ => None,
        }
    }
}

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let bays = &case.project.build.bays;
    let racked: Vec<_> = case
        .devices
        .iter()
        .filter_map(|device| {
            let Place::Rack { bay, .. } = device.fitted.at else { return None };
            Some(Racked { device, bay, rails: bays.get(bay)?.rails })
        })
        .collect();
    let findings = worst_and_unfit(&racked, |one| judge(check, one), |one, finding| tell(case, one, finding));
    if findings.is_empty() {
        return vec![Finding::holds(check, Subject::Cabinet, "no device on rails")];
    }
    findings
}

fn judge(check: &Check, one: &Racked<'_>) -> Finding {
    let subject = Subject::Device(one.device.fitted.id);
    let Some(made_for) = one.made_for() else {
        return Finding::out_of_range(check, subject, format!("made for {} in rails", one.device.spec.rack));
    };
    let ((panel, own_opening), (rails, opening)) = (rail_widths(made_for), rail_widths(one.rails));
    if panel > rails {
        return Finding::at_most(check, subject, length(panel), length(rails), 1.0);
    }
    let body = one.device.spec.width.0;
    if body <= 0.0 {
        return Finding::needs_data(check, subject, format!("width of {}", one.device.spec.name));
    }
    Finding::at_most(check, subject, length(body), length(own_opening.min(opening)), 1.0)
}

fn tell(case: &Case, one: &Racked<'_>, finding: Finding) -> Finding {
    let finding = finding.about(case.name(one.device));
    let Some(made_for) = one.made_for() else { return finding };
    let ((panel, own_opening), (rails, opening)) = (rail_widths(made_for), rail_widths(one.rails));
    let letter = bay_letter(one.bay);
    let steps = vec![
        Step::input("w_panel", "panel width the device is made for", length(panel)).from_source(source(made_for)),
        Step::input("w_rails", format!("panel width of the rails of bay {letter}"), length(rails))
            .from_source(source(one.rails)),
        Step::input("w_body", "width of its body", length(one.device.spec.width.0)),
        if made_for == one.rails {
            Step::input("w_opening", "clear opening between the rails", length(opening)).from_source(source(one.rails))
        } else {
            Step::input("w_opening", "clear opening between adapters", length(own_opening.min(opening)))
                .from_source(source(RailWidth::Nineteen))
        },
    ];
    if panel > rails {
        return finding
            .because("its panel is wider than the rails")
            .working(steps)
            .help(format!("Take 23 in rails in bay {letter}: 19 in devices stand there with adapters"))
            .help("Or move it to a bay with 23 in rails");
    }
    let finding = if panel < rails { finding.because("with a pair of adapters from 19 to 23 in") } else { finding };
    let over = one.device.spec.width.0 - own_opening.min(opening);
    finding.working(steps).help(
        Phrase::from("Its body is ")
            .value(length(over))
            .text(" too wide to pass between the rails: stand it on a shelf"),
    )
}

const fn source(rails: RailWidth) -> &'static Source {
    match rails {
        RailWidth::Nineteen => &sources::EIA_310,
        RailWidth::TwentyThree => &sources::TELEPHONE_RAILS,
    }
}

#[cfg(test)]
mod tests {
    use units::Millimetres;

    use super::super::trial::words;
    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{Desk, device, rack, step};

    /// One device with this body, made for this panel, on these rails.
    #[track_caller]
    fn check(rails: RailWidth, made_for: u8, body: f64, outcome: Outcome) -> Finding {
        let mut desk = Desk::new();
        desk.project.build.bays[0].rails = rails;
        let mut one = device(1);
        (one.rack, one.width) = (made_for, Millimetres(body));
        desk.add(one, rack(0, 5));
        let [finding] = desk.run(&CHECK).try_into().unwrap();
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        finding
    }

    #[test]
    fn the_body_passes_between_the_rails_up_to_their_opening() {
        check(RailWidth::Nineteen, 19, 450.0, Outcome::Holds);
        let finding = check(RailWidth::Nineteen, 19, 451.0, Outcome::Fails);
        assert_eq!(finding.margin.unwrap().number, -1.0);
        check(RailWidth::TwentyThree, 23, 539.0, Outcome::Holds);
        check(RailWidth::TwentyThree, 23, 540.0, Outcome::Fails);
    }

    #[test]
    fn a_19_inch_device_stands_in_23_inch_rails_with_adapters() {
        let finding = check(RailWidth::TwentyThree, 19, 440.0, Outcome::Holds);
        assert!(words(&finding.because).contains("adapters"));
        assert_eq!(step(&finding, "w_opening"), 450.0);
        check(RailWidth::TwentyThree, 19, 451.0, Outcome::Fails);
    }

    #[test]
    fn a_23_inch_device_does_not_fit_19_inch_rails() {
        let finding = check(RailWidth::Nineteen, 23, 440.0, Outcome::Fails);
        assert!((finding.margin.unwrap().number + 101.6).abs() < 1e-9);
        assert!(words(&finding.help[0]).contains("23 in rails in bay A"));
    }

    #[test]
    fn says_so_outside_its_range_and_without_data() {
        assert!(check(RailWidth::Nineteen, 24, 440.0, Outcome::OutOfRange).given.is_none());
        let finding = check(RailWidth::Nineteen, 19, 0.0, Outcome::NeedsData);
        assert_eq!(words(&finding.because), "width of Box");
    }
}
