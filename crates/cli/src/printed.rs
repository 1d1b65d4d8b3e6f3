//! The report as text: badges first, then each check with its findings, their working, sources and caution.

use rules::{Badge, Check, Finding, Outcome, Phrase, Report, Source, Standing, Step, Topic};
use units::{System, Value, show};

use crate::{Answered, plain};

/// Lines are not laid out narrower than this.
const NARROWEST: usize = 40;
/// Where the text of a check begins, behind its code.
const INDENT: &str = "     ";

impl Answered<'_> {
    /// The report as text in the given units, wrapped at this many columns.
    #[must_use]
    pub fn printed(&self, system: System, columns: usize) -> String {
        let mut print = Print::new(system, columns);
        self.head(&mut print);
        for badge in &self.report.badges {
            print.badge(badge, self.report.findings.get(badge.finding));
        }
        for topic in Topic::ALL {
            print.topic(&self.report, topic);
        }
        plain(&print.into_text())
    }

    fn head(&self, print: &mut Print) {
        let name = if self.project.name.is_empty() { "Project without a name" } else { &self.project.name };
        print.line("", name);
        let about = &self.catalogue.about;
        print.line("", &format!("Catalogue: {}. {}", about.name, about.note));
        if !self.unknown_parts.is_empty() {
            let parts: Vec<_> = self.unknown_parts.iter().map(catalogue::PartId::as_str).collect();
            print.line("", &format!("Not in this catalogue, so left out below: {}", parts.join(", ")));
        }
        print.line("", "Preliminary: for a qualified person to verify.");
        print.gap();
    }
}

/// The word that is stamped beside a badge.
fn stamp(outcome: Outcome) -> String {
    outcome.word().to_uppercase()
}

/// The sources of a check and of the steps of its findings, each once.
fn sources(check: &Check, findings: &[&Finding]) -> Vec<&'static Source> {
    let mut all = check.sources.to_vec();
    for source in findings.iter().flat_map(|finding| &finding.working).filter_map(|step| step.source) {
        if !all.contains(&source) {
            all.push(source);
        }
    }
    all
}

/// A source in full, as it is named below a check. A step names only its document.
fn source_text(source: &Source) -> String {
    let mut text = source.document.to_owned();
    for more in [source.edition, source.place] {
        if !more.is_empty() {
            text = format!("{text}, {more}");
        }
    }
    match source.standing {
        Standing::FromMemory => text + " (from memory, to be confirmed)",
        Standing::Read | Standing::CommonPractice | Standing::FirstPrinciples => text,
    }
}

/// What has been printed so far.
pub(crate) struct Print {
    text: String,
    system: System,
    columns: usize,
}

impl Print {
    /// Nothing yet, to be wrapped at this many columns.
    pub(crate) fn new(system: System, columns: usize) -> Self {
        Self { text: String::new(), system, columns: columns.max(NARROWEST) }
    }

    /// All of it.
    pub(crate) fn into_text(self) -> String {
        self.text
    }

    /// An empty line.
    pub(crate) fn gap(&mut self) {
        self.text.push('\n');
    }

    /// Lines that are laid out already.
    pub(crate) fn lines(&mut self, lines: &str) {
        self.text.push_str(lines);
    }

    /// The checks of a topic that found something, under its name.
    pub(crate) fn topic(&mut self, report: &Report, topic: Topic) {
        let checks = rules::all_checks().filter(|check| check.topic == topic);
        let mut titled = false;
        for check in checks {
            let findings: Vec<_> = report.findings.iter().filter(|finding| finding.code == check.code).collect();
            if findings.is_empty() {
                continue;
            }
            if !titled {
                self.gap();
                self.line("", &topic.name().to_uppercase());
                titled = true;
            }
            self.gap();
            self.check(check, &findings);
        }
    }

    /// One paragraph; what does not fit goes on further in.
    pub(crate) fn line(&mut self, indent: &str, words: &str) {
        self.hanging(indent, &format!("{indent}  "), words);
    }

    fn hanging(&mut self, first: &str, rest: &str, words: &str) {
        let options = textwrap::Options::new(self.columns)
            .initial_indent(first)
            .subsequent_indent(rest)
            .word_separator(textwrap::WordSeparator::AsciiSpace)
            .word_splitter(textwrap::WordSplitter::NoHyphenation);
        for line in textwrap::wrap(words, options) {
            self.text.push_str(line.trim_end());
            self.text.push('\n');
        }
    }

    fn value(&self, value: Value) -> String {
        show(value, self.system).to_string()
    }

    fn phrase(&self, phrase: &Phrase) -> String {
        phrase.shown(self.system)
    }

    /// The figure is that of the topic's first check; what is said is about the worst finding, whose check is named.
    pub(crate) fn badge(&mut self, badge: &Badge, worst: Option<&Finding>) {
        let figure = badge.figure.map_or_else(String::new, |figure| self.value(figure));
        let code = worst.map_or("", |worst| worst.code);
        let said = format!("{code} {}", self.phrase(&badge.said));
        let first = format!("{:<14}{:<8}{figure:<12}  ", stamp(badge.outcome), badge.topic.name());
        self.hanging(&first, &" ".repeat(36), &said);
    }

    fn check(&mut self, check: &Check, findings: &[&Finding]) {
        self.hanging(&format!("{:<5}", check.code), INDENT, check.question);
        for finding in findings {
            self.finding(finding);
        }
        for source in sources(check, findings) {
            self.line(INDENT, &format!("source: {}", source_text(source)));
        }
        if let Some(caution) = check.caution {
            self.line(INDENT, &format!("caution: {caution}"));
        }
    }

    fn finding(&mut self, finding: &Finding) {
        let mut words = self.phrase(&finding.said());
        let about = self.phrase(&finding.about);
        if !about.is_empty() {
            words = format!("{about}: {words}");
        }
        match (finding.given, finding.allowed) {
            (Some(given), Some(allowed)) => {
                words = format!("{words} – {}, limit {}", self.value(given), self.value(allowed));
            }
            (Some(given), None) => words = format!("{words} – {}", self.value(given)),
            _ => {}
        }
        self.line(INDENT, &words);
        // `said` gives the reason itself where there is no margin to tell.
        let because = self.phrase(&finding.because);
        if !because.is_empty() && !words.contains(&because) {
            self.line(INDENT, &because);
        }
        for help in &finding.help {
            let help = self.phrase(help);
            self.line(INDENT, &format!("would help: {help}"));
        }
        for step in &finding.working {
            self.step(step);
        }
    }

    fn step(&mut self, step: &Step) {
        let mut words = String::new();
        if !step.symbol.is_empty() {
            words = format!("{} = ", step.symbol);
        }
        if !step.formula.is_empty() && step.formula != step.symbol {
            words = format!("{words}{} = ", step.formula);
        }
        if !step.numbers.is_empty() {
            words = format!("{words}{} = ", self.phrase(&step.numbers));
        }
        words += &self.value(step.value);
        let meaning = self.phrase(&step.meaning);
        if !meaning.is_empty() {
            words = format!("{words}, {meaning}");
        }
        if let Some(source) = step.source {
            words = format!("{words} [{}]", source.document);
        }
        self.hanging("       ", "           ", &words);
    }
}
