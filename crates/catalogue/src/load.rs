//! From the text of catalogue files to a checked [`Catalogue`].

use std::collections::BTreeMap;

use serde::de::DeserializeOwned;

use crate::check::{Sensible, check_numbers_and_text};
use crate::decode::decode;
use crate::text::{Table, tables};
use crate::{Catalogue, PartId, Parts, Plain};

/// More problems than this are not told: nobody reads them, and a hostile file could make millions.
const MOST_PROBLEMS: usize = 200;

/// The longest part number.
const LONGEST_ID: usize = 40;

/// Kinds of which a catalogue needs at least one part, as every cabinet has one.
const NEEDED: [&str; 4] = ["family", "skin", "paint", "door"];

/// What is wrong with a catalogue: where, what was found, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// File and place in it, such as `materials.toml, skin.skin-aluminium-3-2.thickness`.
    pub place: String,
    /// What was found there.
    pub found: String,
    /// What is allowed there.
    pub allowed: String,
}

impl Problem {
    pub(crate) fn new(place: impl Into<String>, found: impl Into<String>, allowed: impl Into<String>) -> Self {
        Self { place: place.into(), found: found.into(), allowed: allowed.into() }
    }
}

/// Problems told so far, and how many more there were.
#[derive(Default)]
pub(crate) struct Problems {
    told: Vec<Problem>,
    more: usize,
}

impl Problems {
    pub(crate) fn push(&mut self, problem: Problem) {
        if self.told.len() < MOST_PROBLEMS {
            self.told.push(problem);
        } else {
            self.more += 1;
        }
    }

    pub(crate) fn count(&self) -> usize {
        self.told.len() + self.more
    }

    pub(crate) fn into_vec(mut self) -> Vec<Problem> {
        if self.more > 0 {
            self.told.push(Problem::new("catalogue", format!("{} more problems", self.more), "none"));
        }
        self.told
    }
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: found {}; allowed: {}", self.place, self.found, self.allowed)
    }
}

/// Loads a catalogue from its files, given as (name, text). All problems are told at once, up to 200.
///
/// # Errors
/// Every place at which a file is not readable or a part breaks the schema or a range.
pub fn load(files: &[(&str, &str)]) -> Result<Catalogue, Vec<Problem>> {
    let mut loading = Loading::default();
    for (name, text) in files {
        for table in tables(name, text, &mut loading.problems) {
            loading.add(table);
        }
    }
    loading.check_needed();
    let Loading { catalogue, problems, .. } = loading;
    if problems.count() == 0 { Ok(catalogue) } else { Err(problems.into_vec()) }
}

/// A catalogue half loaded.
#[derive(Default)]
struct Loading {
    catalogue: Catalogue,
    /// File that brought each part, by kind and part number: also of parts that turned out bad.
    seen: BTreeMap<(String, String), String>,
    problems: Problems,
}

impl Loading {
    fn add(&mut self, table: Table) {
        let place = table.place();
        let before = self.seen.insert((table.kind.clone(), table.id.clone()), table.file.clone());
        if let Some(file) = before {
            self.problems.push(Problem::new(place, format!("a second time, after {file}"), "each part once"));
            return;
        }
        if table.kind != "about" && !is_part_id(&table.id) {
            let allowed =
                format!("lower-case words and figures joined by hyphens, at most {LONGEST_ID} characters in all");
            self.problems.push(Problem::new(&*place, quoted(&table.id), allowed));
        }
        if !table.whole {
            return;
        }
        let Loading { catalogue, problems, .. } = self;
        let id = PartId(table.id);
        let value = table.value;
        check_numbers_and_text(&table.kind, &value, &place, problems);
        match table.kind.as_str() {
            "about" => {
                if let Some(about) = read(value, &place, problems) {
                    catalogue.about = about;
                }
            }
            "family" => put(&mut catalogue.families, id, value, &place, problems),
            "skin" => put(&mut catalogue.skins, id, value, &place, problems),
            "insulation" => put(&mut catalogue.insulations, id, value, &place, problems),
            "paint" => put(&mut catalogue.paints, id, value, &place, problems),
            "plinth" => put(&mut catalogue.plinths, id, value, &place, problems),
            "shield" => put(&mut catalogue.shields, id, value, &place, problems),
            "door" => put(&mut catalogue.doors, id, value, &place, problems),
            "lifting-eye" => put(&mut catalogue.lifting_eyes, id, value, &place, problems),
            "manager" => put(&mut catalogue.managers, id, value, &place, problems),
            "gland-plate" => put(&mut catalogue.gland_plates, id, value, &place, problems),
            "pallet" => put(&mut catalogue.pallets, id, value, &place, problems),
            "unit" => put(&mut catalogue.units, id, value, &place, problems),
            "device" => put(&mut catalogue.devices, id, value, &place, problems),
            // `tables` has refused all other kinds.
            _ => {}
        }
    }

    fn check_needed(&mut self) {
        let has = |kind: &str| self.seen.keys().any(|(other, _)| other == kind);
        if !has("about") {
            self.problems.push(Problem::new("catalogue, about", "nothing", "a table [about]"));
        }
        for kind in NEEDED {
            if !has(kind) {
                self.problems.push(Problem::new(
                    format!("catalogue, {kind}"),
                    "nothing",
                    format!("at least one table [{kind}.<part number>]"),
                ));
            }
        }
    }
}

/// Reads one table into a part and checks it; `None` when it is not readable.
fn read<T: DeserializeOwned + Sensible>(value: Plain, place: &str, problems: &mut Problems) -> Option<T> {
    let part: T = decode(value, place, problems)?;
    part.check(&mut teller(place, problems));
    Some(part)
}

/// Tells what does not agree in a part. Apart from [`read`], so that it is compiled once and not for each kind.
fn teller(place: &str, problems: &mut Problems) -> impl FnMut(&str, String, String) {
    move |field, found, allowed| problems.push(Problem::new(format!("{place}.{field}"), found, allowed))
}

fn put<T: DeserializeOwned + Sensible>(
    parts: &mut Parts<T>,
    id: PartId,
    value: Plain,
    place: &str,
    problems: &mut Problems,
) {
    if let Some(part) = read(value, place, problems) {
        parts.insert(id, part);
    }
}

/// Whether a part number follows the scheme: lower-case words and figures joined by single hyphens.
fn is_part_id(id: &str) -> bool {
    id.len() <= LONGEST_ID
        && id
            .split('-')
            .all(|word| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit()))
}

/// A text as it is shown in a problem: in quotes, escaped, never long.
pub(crate) fn quoted(text: &str) -> String {
    const LONGEST: usize = 60;
    let cut: String = text.chars().take(LONGEST).collect();
    let dots = if cut.len() < text.len() { "…" } else { "" };
    format!("\"{}{dots}\"", cut.escape_debug())
}

#[cfg(test)]
#[path = "load_tests.rs"]
mod tests;
