//! What any project may hold, whatever the catalogue: one table for each thing, used by [`crate::apply`] and by the file.
//!
//! The catalogue's own ranges are narrower and are looked at by `apply` alone, because a file may be opened beside
//! another catalogue than the one it was made with. All ranges here are our own choice: wide enough for every cabinet
//! of the trade, narrow enough that nothing absurd reaches the checks.

mod brief;
mod build;
mod device;
mod feeds;

pub(crate) use brief::*;
pub(crate) use build::*;
pub(crate) use device::*;
pub(crate) use feeds::feed_faults;

use units::Kind;

use crate::Words;

/// At most so many devices in one build.
pub const MOST_DEVICES: usize = 500;
/// At most so many climate units in one build.
pub const MOST_UNITS: usize = 40;
/// The horizon is told in at most so many directions: one for each ten degrees.
pub const MOST_DIRECTIONS: usize = 36;
/// At most so many chosen feeds in one build: two for each device, one for each unit.
pub(crate) const MOST_FEEDS: usize = 2 * MOST_DEVICES + MOST_UNITS;
/// One or two bays stand side by side.
pub(crate) const MOST_BAYS: usize = 2;
/// At most so many gland plates in one bay's floor.
pub(crate) const MOST_GLAND_PLATES: usize = 20;
/// Numbers of devices and units stay below this.
pub(crate) const MOST_ITEM_ID: u32 = 999_999_999;

/// The range of one number of a `T`.
pub(crate) struct Limit<T: 'static> {
    /// Place inside `T` as the file writes it.
    pub(crate) place: &'static str,
    /// Name in plain words.
    pub(crate) what: &'static str,
    pub(crate) kind: Kind,
    pub(crate) least: f64,
    pub(crate) most: f64,
    /// The number; `None` when it is not set, which every limit allows.
    pub(crate) read: fn(&T) -> Option<f64>,
}

impl<T> Limit<T> {
    pub(crate) fn allowed(&self) -> Words {
        Words::between(self.least, self.most, self.kind)
    }

    /// The number as words.
    pub(crate) fn words(&self, of: &T) -> Words {
        (self.read)(of).map_or_else(|| "none".into(), |number| Words::number(number, self.kind))
    }

    fn holds(&self, of: &T) -> bool {
        (self.read)(of).is_none_or(|number| number >= self.least && number <= self.most)
    }
}

/// The range of one text of a `T`.
pub(crate) struct TextLimit<T: 'static> {
    pub(crate) place: &'static str,
    pub(crate) what: &'static str,
    pub(crate) least: usize,
    pub(crate) most: usize,
    pub(crate) read: fn(&T) -> Option<&str>,
}

/// What one thing may hold.
pub(crate) struct Ranges<T: 'static> {
    pub(crate) numbers: &'static [Limit<T>],
    pub(crate) texts: &'static [TextLimit<T>],
}

/// Something outside its range.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Fault {
    /// Place in the project, such as `build.bays[1].width`.
    pub(crate) place: String,
    /// Name in plain words.
    pub(crate) what: String,
    pub(crate) found: Words,
    pub(crate) allowed: Words,
    /// What stood there before; empty where nothing did.
    pub(crate) kept: Words,
}

impl Fault {
    pub(crate) fn new(
        place: impl Into<String>,
        what: &str,
        found: impl Into<Words>,
        allowed: impl Into<Words>,
    ) -> Self {
        Self {
            place: place.into(),
            what: what.to_owned(),
            found: found.into(),
            allowed: allowed.into(),
            kept: Words::default(),
        }
    }
}

impl<T> Ranges<T> {
    /// Everything of `of` that lies outside its range; `at` is its place in the project. `before` is what is kept.
    pub(crate) fn faults(&self, of: &T, at: &str, before: Option<&T>) -> Vec<Fault> {
        let mut faults = Vec::new();
        for limit in self.numbers.iter().filter(|limit| !limit.holds(of)) {
            let mut fault = Fault::new(join(at, limit.place), limit.what, limit.words(of), limit.allowed());
            fault.kept = before.map(|before| limit.words(before)).unwrap_or_default();
            faults.push(fault);
        }
        for limit in self.texts {
            let Some(text) = (limit.read)(of) else { continue };
            let Some((found, allowed)) = text_fault(text, limit.least, limit.most) else { continue };
            let mut fault = Fault::new(join(at, limit.place), limit.what, found, allowed);
            fault.kept = before.and_then(|before| (limit.read)(before)).map(quoted).unwrap_or_default();
            faults.push(fault);
        }
        faults
    }
}

fn join(at: &str, place: &str) -> String {
    match (at, place) {
        ("", only) | (only, "") => only.to_owned(),
        (at, place) => format!("{at}.{place}"),
    }
}

/// A text in quotes; nothing when it is empty.
pub(crate) fn quoted(text: &str) -> Words {
    if text.is_empty() { Words::default() } else { format!("“{text}”").into() }
}

fn text_fault(text: &str, least: usize, most: usize) -> Option<(String, String)> {
    let length = text.chars().count();
    let allowed =
        if least == 0 { format!("at most {most} characters") } else { format!("{least} to {most} characters") };
    if text.chars().any(char::is_control) {
        Some(("a line break or control character".to_owned(), format!("{allowed} of plain text")))
    } else if length > most {
        Some((format!("{length} characters"), allowed))
    } else if length < least || (least > 0 && text.trim().is_empty()) {
        Some(("nothing".to_owned(), allowed))
    } else {
        None
    }
}
