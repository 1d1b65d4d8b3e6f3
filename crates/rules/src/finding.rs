//! What a check finds.

use project::{Face, ItemId};
use serde::Serialize;
use units::{Kind, Value};

use crate::{Asked, Check, Phrase, Source, Topic};

/// How a promise stands, from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// Inside the limit by at least the check's reserve.
    Holds,
    /// Inside the limit by less than the check's reserve.
    Tight,
    /// Something nobody has said is missing.
    NeedsData,
    /// The method does not cover it.
    OutOfRange,
    /// Beyond the limit.
    Fails,
}

impl Outcome {
    /// The word it is said by.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Tight => "tight",
            Self::NeedsData => "needs data",
            Self::OutOfRange => "out of range",
            Self::Fails => "fails",
        }
    }
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Subject {
    /// The cabinet as a whole.
    Cabinet,
    /// A bay, counted from 0.
    Bay(usize),
    /// A face.
    Face(Face),
    /// A device.
    Device(ItemId),
    /// A climate unit.
    Unit(ItemId),
    /// The lifting eyes.
    Eyes,
    /// The plinth or pad.
    Base,
    /// The gland plates.
    GlandPlates,
    /// The supply.
    Supply,
}

/// One step of a working: a symbol, how it comes about, and its value.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// Symbol as in the formula.
    pub symbol: &'static str,
    /// In words.
    pub meaning: Phrase,
    /// The formula, empty for an input.
    pub formula: &'static str,
    /// The formula with its numbers, empty for an input.
    pub numbers: Phrase,
    /// The value.
    pub value: Value,
    /// Where a fixed value or a formula comes from.
    pub source: Option<&'static Source>,
}

impl Step {
    /// An input: a symbol and its value.
    #[must_use]
    pub fn input(symbol: &'static str, meaning: impl Into<Phrase>, value: impl Into<Value>) -> Self {
        Self { symbol, meaning: meaning.into(), formula: "", numbers: Phrase::new(), value: value.into(), source: None }
    }

    /// A computed step: formula, numbers and value.
    #[must_use]
    pub fn computed(
        symbol: &'static str,
        meaning: impl Into<Phrase>,
        formula: &'static str,
        numbers: Phrase,
        value: impl Into<Value>,
    ) -> Self {
        Self { symbol, meaning: meaning.into(), formula, numbers, value: value.into(), source: None }
    }

    /// The same step with its source named.
    #[must_use]
    pub const fn from_source(mut self, source: &'static Source) -> Self {
        self.source = Some(source);
        self
    }
}

/// What a check finds about one subject.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// Code of the check.
    pub code: &'static str,
    /// Name of the check, in kebab case.
    #[serde(skip)]
    pub name: &'static str,
    /// Topic of the check.
    #[serde(skip)]
    pub topic: Topic,
    /// The promise in the brief that the check answers. These three stand here as well, so that whoever shows findings does
    /// not need the list of checks with all its texts.
    #[serde(skip)]
    pub asked: Option<Asked>,
    /// What it is about.
    pub subject: Subject,
    /// The subject in words: "Line terminal 16, A 20". Empty for the cabinet as a whole.
    pub about: Phrase,
    /// How it stands.
    pub outcome: Outcome,
    /// The leading figure.
    pub given: Option<Value>,
    /// The limit it is held against.
    pub allowed: Option<Value>,
    /// How far inside the limit (positive) or beyond it (negative).
    pub margin: Option<Value>,
    /// Demanded ÷ allowed: above 1 it fails. Absent where there is nothing to divide.
    pub used: Option<f64>,
    /// Where *tight* begins, on the scale of `used`.
    pub reserve: Option<f64>,
    /// Why it needs data or is out of range; or what fails, where no figure says it.
    pub because: Phrase,
    /// The steps behind the figure.
    pub working: Vec<Step>,
    /// What would help, in plain words; empty when it holds.
    pub help: Vec<Phrase>,
}

/// Rounding of a sum of many figures may not decide an outcome: a limit is kept up to this much above 1.
const SLACK: f64 = 1e-9;

impl Finding {
    fn bare(check: &Check, subject: Subject, outcome: Outcome) -> Self {
        Self {
            code: check.code,
            name: check.name,
            topic: check.topic,
            asked: check.asked,
            subject,
            about: Phrase::new(),
            outcome,
            given: None,
            allowed: None,
            margin: None,
            used: None,
            reserve: None,
            because: Phrase::new(),
            working: Vec::new(),
            help: Vec::new(),
        }
    }

    /// A figure that may be at most `allowed`; *tight* above `reserve` × `allowed`.
    #[must_use]
    pub fn at_most(
        check: &Check,
        subject: Subject,
        given: impl Into<Value>,
        allowed: impl Into<Value>,
        reserve: f64,
    ) -> Self {
        let (given, allowed) = (given.into(), allowed.into());
        let margin = Value::new(allowed.number - given.number, difference(given.kind));
        let used = if allowed.number > 0.0 { Some(given.number / allowed.number) } else { None };
        let fails = used.map_or(given.number > allowed.number, |used| used > 1.0 + SLACK);
        let mut finding = Self::bare(check, subject, grade(fails, used, reserve));
        finding.given = Some(given);
        finding.allowed = Some(allowed);
        finding.margin = Some(margin);
        finding.used = used;
        finding.reserve = Some(reserve);
        finding
    }

    /// A figure that must be at least `needed`; *tight* when `needed` is above `reserve` × the figure.
    #[must_use]
    pub fn at_least(
        check: &Check,
        subject: Subject,
        given: impl Into<Value>,
        needed: impl Into<Value>,
        reserve: f64,
    ) -> Self {
        let (given, needed) = (given.into(), needed.into());
        let margin = Value::new(given.number - needed.number, difference(given.kind));
        let used = if given.number > 0.0 { Some((needed.number / given.number).max(0.0)) } else { None };
        let fails = used.map_or(given.number < needed.number, |used| used > 1.0 + SLACK);
        let mut finding = Self::bare(check, subject, grade(fails, used, reserve));
        finding.given = Some(given);
        finding.allowed = Some(needed);
        finding.margin = Some(margin);
        finding.used = used;
        finding.reserve = Some(reserve);
        finding
    }

    /// A figure judged on a scale of its own: `used` is demanded ÷ allowed by the check's own reckoning.
    #[must_use]
    pub fn on_scale(
        check: &Check,
        subject: Subject,
        given: impl Into<Value>,
        allowed: impl Into<Value>,
        margin: impl Into<Value>,
        used: f64,
        reserve: f64,
    ) -> Self {
        let mut finding = Self::bare(check, subject, grade(used > 1.0 + SLACK, Some(used), reserve));
        finding.given = Some(given.into());
        finding.allowed = Some(allowed.into());
        finding.margin = Some(margin.into());
        finding.used = Some(used);
        finding.reserve = Some(reserve);
        finding
    }

    /// A figure that nobody has set a limit for: it holds, and tells the figure.
    #[must_use]
    pub fn tells(check: &Check, subject: Subject, given: impl Into<Value>) -> Self {
        let mut finding = Self::bare(check, subject, Outcome::Holds);
        finding.given = Some(given.into());
        finding
    }

    /// It holds, and there is no figure to say by how much.
    #[must_use]
    pub fn holds(check: &Check, subject: Subject, because: impl Into<Phrase>) -> Self {
        let mut finding = Self::bare(check, subject, Outcome::Holds);
        finding.because = because.into();
        finding
    }

    /// It fails, and words say what.
    #[must_use]
    pub fn fails(check: &Check, subject: Subject, because: impl Into<Phrase>) -> Self {
        let mut finding = Self::bare(check, subject, Outcome::Fails);
        finding.because = because.into();
        finding
    }

    /// Something nobody has said is missing.
    #[must_use]
    pub fn needs_data(check: &Check, subject: Subject, what: impl Into<Phrase>) -> Self {
        let mut finding = Self::bare(check, subject, Outcome::NeedsData);
        finding.because = what.into();
        finding
    }

    /// The method does not cover it; no number is given.
    #[must_use]
    pub fn out_of_range(check: &Check, subject: Subject, why: impl Into<Phrase>) -> Self {
        let mut finding = Self::bare(check, subject, Outcome::OutOfRange);
        finding.because = why.into();
        finding
    }

    /// With the subject in words.
    #[must_use]
    pub fn about(mut self, about: impl Into<Phrase>) -> Self {
        self.about = about.into();
        self
    }

    /// With its working.
    #[must_use]
    pub fn working(mut self, working: Vec<Step>) -> Self {
        self.working = working;
        self
    }

    /// With words for what fails, where a figure alone does not say it.
    #[must_use]
    pub fn because(mut self, because: impl Into<Phrase>) -> Self {
        self.because = because.into();
        self
    }

    /// With one more thing that would help; dropped when it holds.
    #[must_use]
    pub fn help(mut self, help: impl Into<Phrase>) -> Self {
        if self.outcome != Outcome::Holds {
            self.help.push(help.into());
        }
        self
    }

    /// The finding in one phrase: "fails by 2.0 K", "needs data: mass of Recorder".
    #[must_use]
    pub fn said(&self) -> Phrase {
        let word = Phrase::from(self.outcome.word());
        match (self.outcome, self.margin) {
            (Outcome::NeedsData | Outcome::OutOfRange, _) | (_, None) => {
                if self.because.is_empty() {
                    return word;
                }
                word.text(": ").then(self.because.clone())
            }
            (_, Some(margin)) => word.text(" by ").value(Value::new(margin.number.abs(), margin.kind)),
        }
    }
}

/// The worst finding first, then those of the others that do not hold, in their order.
pub(crate) fn worst_first(mut findings: Vec<Finding>) -> Vec<Finding> {
    // What is demanded of nothing at all is worse than any share of something; among equals the margin decides.
    let none = |finding: &Finding| if finding.outcome == Outcome::Fails { f64::INFINITY } else { 0.0 };
    let rank = |finding: &Finding| {
        let margin = finding.margin.map_or(f64::INFINITY, |margin| margin.number);
        (finding.outcome, finding.used.unwrap_or_else(|| none(finding)), -margin)
    };
    let worse = |one: &Finding, other: &Finding| rank(one) > rank(other);
    let mut worst = 0;
    for at in 1..findings.len() {
        if worse(&findings[at], &findings[worst]) {
            worst = at;
        }
    }
    if findings.is_empty() {
        return findings;
    }
    let lead = findings.remove(worst);
    findings.retain(|finding| finding.outcome != Outcome::Holds);
    findings.insert(0, lead);
    findings
}

fn grade(fails: bool, used: Option<f64>, reserve: f64) -> Outcome {
    if fails {
        Outcome::Fails
    } else if used.is_some_and(|used| used > reserve + SLACK) {
        Outcome::Tight
    } else {
        Outcome::Holds
    }
}

/// The kind of a difference: of temperatures, kelvins.
fn difference(kind: Kind) -> Kind {
    match kind {
        Kind::Temperature => Kind::TemperatureDifference,
        other => other,
    }
}
