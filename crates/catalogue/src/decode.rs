//! From a table to a part, telling as many mistakes as can be found in one go.

use serde::de::DeserializeOwned;

use crate::load::{Problems, quoted};
use crate::{Misfit, Plain, Problem, Why, from_plain, one_of};

/// More mistakes than this are not looked for in one part.
const MOST_IN_ONE: usize = 30;

/// Reads a table into a part. After a mistake it mends the field that holds it and goes on, so that the next is found too.
pub(crate) fn decode<T: DeserializeOwned>(value: Plain, place: &str, problems: &mut Problems) -> Option<T> {
    match from_plain(&value) {
        Ok(part) => Some(part),
        Err(mistake) => {
            tell_all(value, mistake, &|table| from_plain::<T>(table).err(), place, problems);
            None
        }
    }
}

/// The next mistake of a table, if it is no part yet.
type Attempt<'a> = &'a dyn Fn(&Plain) -> Option<Misfit>;

/// Tells the first mistake and those behind it.
fn tell_all(value: Plain, first: Misfit, attempt: Attempt<'_>, place: &str, problems: &mut Problems) {
    let Plain::Table(mut fields) = value else {
        problems.push(Problem::new(place, format!("one {}", value.sort()), "a table"));
        return;
    };
    let mut next = Some(first);
    for _ in 0..MOST_IN_ONE {
        let Some(mistake) = next else { return };
        let (found, allowed) = in_words(&mistake);
        problems.push(Problem::new(joined(place, &mistake.place), found, allowed));
        // Mended only to find the next mistake: what comes out is not used.
        let Some(field) = first_key(&mistake.place) else { return };
        next = mend(&mut fields, field, attempt);
    }
}

/// Leaves out a field, or puts something readable into it, and gives the next mistake that lies elsewhere.
fn mend(fields: &mut Vec<(String, Plain)>, field: &str, attempt: Attempt<'_>) -> Option<Misfit> {
    fields.retain(|(name, _)| name != field);
    let mut fillers = fillers();
    loop {
        let table = Plain::Table(std::mem::take(fields));
        let mistake = attempt(&table);
        if let Plain::Table(back) = table {
            *fields = back;
        }
        let mistake = mistake?;
        if first_key(&mistake.place) != Some(field) {
            return Some(mistake);
        }
        if let Why::UnknownWord(_, words) = mistake.why {
            fillers.extend(words.iter().map(|word| Plain::Text((*word).to_owned())));
        }
        let filler = fillers.pop()?;
        match fields.iter_mut().find(|(name, _)| name == field) {
            Some((_, value)) => *value = filler,
            None => fields.push((field.to_owned(), filler)),
        }
    }
}

/// One value of each sort a field can be, the likeliest last.
fn fillers() -> Vec<Plain> {
    let table = |names: &[&str], value: Plain| {
        Plain::Table(names.iter().map(|name| ((*name).to_owned(), value.clone())).collect())
    };
    vec![
        table(&["width", "depth", "height"], Plain::Whole(0)),
        table(&["from", "to"], Plain::Whole(0)),
        table(&["inside", "outside", "capacity", "input"], Plain::List(Vec::new())),
        Plain::List(Vec::new()),
        Plain::Whole(1),
        Plain::Text("x".to_owned()),
    ]
}

fn joined(path: &str, field: &str) -> String {
    if field.is_empty() { path.to_owned() } else { format!("{path}.{field}") }
}

/// The first key of a path such as `converts.rating` or `rated[0].inside`.
fn first_key(path: &str) -> Option<&str> {
    path.split(['.', '[']).next().filter(|key| !key.is_empty())
}

/// What was found and what is allowed, in the words of somebody who writes a catalogue.
fn in_words(mistake: &Misfit) -> (String, String) {
    let (found, allowed) = match &mistake.why {
        Why::Missing => ("nothing".to_owned(), "needed".to_owned()),
        Why::UnknownField(names) => {
            let name = mistake.place.rsplit('.').next().unwrap_or_default();
            (format!("`{name}`"), one_of(names))
        }
        Why::UnknownWord(word, words) => (format!("`{word}`"), one_of(words)),
        Why::WrongSort(found, expected) => (found.clone(), expected_in_words(expected)),
        Why::Other(told) => (quoted(told), "what the schema names".to_owned()),
    };
    (found.chars().take(120).collect(), allowed.chars().take(600).collect())
}

fn expected_in_words(expected: &str) -> String {
    match expected {
        "f64" | "f32" => "a number",
        "u8" | "u32" | "u64" | "usize" => "a whole number, not negative",
        "a string" | "string" => "text in quotes",
        "a boolean" => "true or false",
        "a sequence" => "a list in brackets",
        other if other.starts_with("struct ") => "a table",
        other if other.contains("enum ") => "one of the words of the schema",
        other => other,
    }
    .to_owned()
}
