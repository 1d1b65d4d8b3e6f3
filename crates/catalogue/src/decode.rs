//! From a table to a part, telling as many mistakes as can be found in one go.

use serde::de::DeserializeOwned;
use toml::Value;

use crate::Problem;
use crate::load::quoted;

/// Reads a table into a part. After a mistake it goes on without the field that holds it, so that the next is found too.
pub(crate) fn decode<T: DeserializeOwned>(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<T> {
    let mut table = match value {
        Value::Table(table) => table,
        other => {
            problems.push(Problem::new(place, other.type_str(), "a table"));
            return None;
        }
    };
    let before = problems.len();
    let mut dropped: Vec<String> = Vec::new();
    loop {
        let error = match serde_path_to_error::deserialize::<_, T>(Value::Table(table.clone())) {
            Ok(part) => return (problems.len() == before).then_some(part),
            Err(error) => error,
        };
        let path = error.path().to_string();
        let message = error.inner().message().to_owned();
        if let Some(field) = in_ticks(&message).filter(|_| message.starts_with("missing field")) {
            let whole = joined(&path, field);
            if !dropped.contains(&whole) {
                problems.push(Problem::new(format!("{place}.{whole}"), "nothing", "needed"));
            }
            // Whatever else is missing cannot be asked without this field.
            let Some(first) = first_key(&path).filter(|first| table.remove(*first).is_some()) else { return None };
            dropped.push(first.to_owned());
            continue;
        }
        let unknown = in_ticks(&message).filter(|_| message.starts_with("unknown field"));
        let whole = match unknown {
            Some(field) if path.rsplit('.').next() != Some(field) => joined(&path, field),
            _ => path,
        };
        let (found, allowed) = in_words(&message);
        problems.push(Problem::new(joined(place, &whole), found, allowed));
        let Some(first) = first_key(&whole).filter(|first| table.remove(*first).is_some()) else { return None };
        dropped.push(first.to_owned());
    }
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

/// What stands between the first two back-ticks.
fn in_ticks(message: &str) -> Option<&str> {
    message.split('`').nth(1)
}

/// What was found and what is allowed, from the reader's message, in the words of somebody who writes a catalogue.
fn in_words(message: &str) -> (String, String) {
    let Some((found, allowed)) = message.split_once(", expected ") else {
        return (quoted(message), "what the schema names".to_owned());
    };
    let found = found.trim_start_matches("invalid type: ").trim_start_matches("invalid value: ");
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
