//! From a table to a part, telling as many mistakes as can be found in one go.

use serde::de::DeserializeOwned;
use toml::{Table, Value};

use crate::load::{Problems, quoted};
use crate::{Problem, Range, Size, UnitMap};

/// More mistakes than this are not looked for in one part.
const MOST_IN_ONE: usize = 30;

/// Reads a table into a part. After a mistake it mends the field that holds it and goes on, so that the next is found too.
pub(crate) fn decode<T: DeserializeOwned>(value: Value, place: &str, problems: &mut Problems) -> Option<T> {
    let mut table = match value {
        Value::Table(table) => table,
        other => {
            problems.push(Problem::new(place, format!("one {}", other.type_str()), "a table"));
            return None;
        }
    };
    let mut mistake = match attempt::<T>(&table) {
        Ok(part) => return Some(part),
        Err(mistake) => mistake,
    };
    for _ in 0..MOST_IN_ONE {
        problems.push(Problem::new(joined(place, &mistake.field), mistake.found, mistake.allowed));
        // Mended only to find the next mistake: what comes out is not used.
        mistake = mend::<T>(&mut table, first_key(&mistake.field)?)?;
    }
    None
}

/// Why a table is not a part.
struct Mistake {
    /// Field, such as `converts.rating`.
    field: String,
    found: String,
    allowed: String,
    /// Words the field may hold, if it is that sort of field.
    words: Vec<String>,
}

fn attempt<T: DeserializeOwned>(table: &Table) -> Result<T, Mistake> {
    serde_path_to_error::deserialize(table.clone()).map_err(|error: serde_path_to_error::Error<toml::de::Error>| {
        let path = error.path().to_string();
        let message = error.inner().message();
        let named = message.split('`').nth(1).unwrap_or_default();
        if message.starts_with("missing field") {
            let field = joined(&path, named);
            return Mistake { field, found: "nothing".to_owned(), allowed: "needed".to_owned(), words: Vec::new() };
        }
        let field = if message.starts_with("unknown field") && path.rsplit('.').next() != Some(named) {
            joined(&path, named)
        } else {
            path
        };
        let (found, allowed) = in_words(message);
        let words = match message.strip_prefix("unknown variant") {
            Some(rest) => rest.split('`').skip(3).step_by(2).map(str::to_owned).collect(),
            None => Vec::new(),
        };
        Mistake { field, found, allowed, words }
    })
}

/// Leaves out a field, or puts something readable into it, and gives the next mistake that lies elsewhere.
fn mend<T: DeserializeOwned>(table: &mut Table, field: &str) -> Option<Mistake> {
    let field = field.to_owned();
    table.remove(&field);
    let mut fillers = fillers();
    loop {
        let mistake = attempt::<T>(table).err()?;
        if first_key(&mistake.field) != Some(&field) {
            return Some(mistake);
        }
        fillers.extend(mistake.words.into_iter().map(Value::String));
        table.insert(field.clone(), fillers.pop()?);
    }
}

/// One value of each sort a field can be, the likeliest last.
fn fillers() -> Vec<Value> {
    let map = UnitMap { inside: Vec::new(), outside: Vec::new(), capacity: Vec::new(), input: Vec::new() };
    let tables =
        [Value::try_from(Size::default()), Value::try_from(Range { from: 0.0, to: 0.0 }), Value::try_from(map)];
    let mut fillers: Vec<Value> = tables.into_iter().flatten().collect();
    fillers.extend([Value::Array(Vec::new()), Value::Integer(1), Value::String("x".to_owned())]);
    fillers
}

fn joined(path: &str, field: &str) -> String {
    match (path, field) {
        ("" | ".", _) => field.to_owned(),
        (_, "" | ".") => path.to_owned(),
        _ => format!("{path}.{field}"),
    }
}

/// The first key of a path such as `converts.rating` or `rated[0].inside`.
fn first_key(path: &str) -> Option<&str> {
    path.split(['.', '[']).next().filter(|key| !key.is_empty())
}

/// What was found and what is allowed, from the reader's message, in the words of somebody who writes a catalogue.
fn in_words(message: &str) -> (String, String) {
    let Some((found, allowed)) = message.split_once(", expected ") else {
        return (quoted(message), "what the schema names".to_owned());
    };
    let found = ["invalid type: ", "invalid value: ", "unknown variant ", "unknown field "]
        .iter()
        .find_map(|start| found.strip_prefix(start))
        .unwrap_or(found);
    let allowed = match allowed.trim() {
        "f64" | "f32" => "a number",
        "u8" | "u32" | "u64" | "usize" => "a whole number, not negative",
        "a string" | "string" => "text in quotes",
        "a boolean" => "true or false",
        "a sequence" => "a list in brackets",
        other if other.starts_with("struct ") => "a table",
        other if other.contains("enum ") => "one of the words of the schema",
        other => other,
    };
    (found.chars().take(120).collect(), allowed.chars().take(600).collect())
}
