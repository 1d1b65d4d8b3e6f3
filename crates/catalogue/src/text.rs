//! From the text of one file to its tables. A mistake in one part does not hide the others.

use toml::de::{DeTable, DeValue};

use crate::load::{Problems, quoted};
use crate::{Plain, Problem};

/// The largest file that is read.
const MOST_BYTES: usize = 2_000_000;

/// Tables a file may have, besides `about`.
pub(crate) const KINDS: [&str; 13] = [
    "family",
    "skin",
    "insulation",
    "paint",
    "plinth",
    "shield",
    "door",
    "lifting-eye",
    "manager",
    "gland-plate",
    "pallet",
    "unit",
    "device",
];

/// One table of a file: `about`, or a part.
pub(crate) struct Table {
    /// File it stands in.
    pub(crate) file: String,
    /// Kind of part, or `about`.
    pub(crate) kind: String,
    /// Part number; empty for `about`.
    pub(crate) id: String,
    /// What it holds.
    pub(crate) value: Plain,
    /// Whether no mistake of writing lies in it; otherwise there is nothing sound to check.
    pub(crate) whole: bool,
    /// Where it starts in the text.
    start: usize,
}

impl Table {
    /// Where it is, as problems say it.
    pub(crate) fn place(&self) -> String {
        if self.id.is_empty() && self.kind == "about" {
            format!("{}, about", self.file)
        } else {
            format!("{}, {}.{}", self.file, self.kind, shown_key(&self.id))
        }
    }
}

/// A key as problems show it: bare where it is plain, quoted where it is not.
fn shown_key(key: &str) -> String {
    let plain = key.len() <= 60 && key.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-_.".contains(&byte));
    if plain && !key.is_empty() { key.to_owned() } else { quoted(key) }
}

/// The tables of a file, as far as they can be read.
pub(crate) fn tables(file: &str, text: &str, problems: &mut Problems) -> Vec<Table> {
    if text.len() > MOST_BYTES {
        problems.push(Problem::new(file, format!("{} bytes", text.len()), format!("at most {MOST_BYTES} bytes")));
        return Vec::new();
    }
    let (root, mistakes) = DeTable::parse_recoverable(text);
    let lines = Lines::of(text);
    let mut found: Vec<Table> = Vec::new();
    for (key, value) in root.into_inner() {
        let kind = key.get_ref().to_string();
        let start = key.span().start;
        if kind == "about" {
            found.push(Table {
                file: file.to_owned(),
                kind,
                id: String::new(),
                value: plain(value.get_ref()),
                whole: true,
                start,
            });
        } else if KINDS.contains(&kind.as_str()) {
            match value.into_inner() {
                DeValue::Table(parts) => {
                    for (id, part) in parts {
                        let start = id.span().start;
                        let id = id.into_inner().into_owned();
                        let value = plain(part.get_ref());
                        found.push(Table { file: file.to_owned(), kind: kind.clone(), id, value, whole: true, start });
                    }
                }
                other => problems.push(Problem::new(
                    format!("{file}, {kind}"),
                    format!("one {}", other.type_str()),
                    format!("tables [{kind}.<part number>]"),
                )),
            }
        } else {
            let allowed = format!("about, {}", KINDS.join(", "));
            problems.push(Problem::new(format!("{file}, line {}", lines.number(start)), quoted(&kind), allowed));
        }
    }
    found.sort_unstable_by_key(|table| table.start);
    // One mistake a line is enough; of a part that stands twice, the heading is.
    let (mut last_line, mut silent_until) = (0, 0);
    for mistake in mistakes {
        let at = mistake.span().unwrap_or(0..0);
        let after = found.partition_point(|table| table.start <= at.start);
        let part = after.checked_sub(1).and_then(|last| found.get_mut(last));
        let line = lines.number(at.start);
        let mut place = format!("{file}, line {line}");
        if let Some(part) = part {
            part.whole = false;
            place = format!("{place}, in or after {}", if part.id.is_empty() { "about" } else { part.id.as_str() });
        }
        if line == last_line || at.start < silent_until {
            continue;
        }
        last_line = line;
        if mistake.message() == "duplicate key" && lines.text(text, line).starts_with('[') {
            silent_until =
                text.get(at.start..).and_then(|rest| rest.find("\n[")).map_or(text.len(), |next| at.start + next);
        }
        let written = text.get(at).unwrap_or_default();
        let shown = if written.is_empty() { "something unreadable".to_owned() } else { quoted(written) };
        problems.push(Problem::new(place, shown, mistake.message().trim().replace('\n', ", ")));
    }
    found
}

/// Where the lines of a text end.
struct Lines(Vec<usize>);

impl Lines {
    fn of(text: &str) -> Self {
        Self(text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at).collect())
    }

    /// The number of the line that holds a byte, counted from 1.
    fn number(&self, byte: usize) -> usize {
        self.0.partition_point(|end| *end < byte) + 1
    }

    /// The line with this number.
    fn text<'a>(&self, text: &'a str, number: usize) -> &'a str {
        let start = number.checked_sub(2).and_then(|before| self.0.get(before)).map_or(0, |end| end + 1);
        text.get(start..).and_then(|rest| rest.lines().next()).unwrap_or_default()
    }
}

/// The value without its places. Numbers too large to hold become not-a-number, which every range refuses.
fn plain(value: &DeValue<'_>) -> Plain {
    match value {
        DeValue::String(text) => Plain::Text(text.to_string()),
        DeValue::Integer(number) => {
            i64::from_str_radix(number.as_str(), number.radix()).map_or(Plain::Number(f64::NAN), Plain::Whole)
        }
        DeValue::Float(number) => Plain::Number(number.as_str().parse().unwrap_or(f64::NAN)),
        DeValue::Boolean(yes) => Plain::Truth(*yes),
        DeValue::Datetime(_) => Plain::Other("date or time"),
        DeValue::Array(list) => Plain::List(list.iter().map(|one| plain(one.get_ref())).collect()),
        DeValue::Table(table) => {
            Plain::Table(table.iter().map(|(key, one)| (key.get_ref().to_string(), plain(one.get_ref()))).collect())
        }
    }
}
