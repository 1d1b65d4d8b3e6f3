//! Messages that can be shown in either system of units.

use units::{Kind, Shown, System, Value, show, show_exactly};

/// A part of a message.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// Words as they are.
    Text(String),
    /// A value, shown in the reader's units.
    Value(Value),
    /// "300 and 1 500 mm": two values of one kind that share their unit.
    Pair(Value, Value),
}

impl Piece {
    fn show(&self, system: System) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Value(value) => shown(*value, system),
            Self::Pair(low, high) => {
                let (first, second) = (rounded(*low, system), rounded(*high, system));
                if first.unit == second.unit {
                    format!("{} and {second}", first.number)
                } else {
                    format!("{first} and {second}")
                }
            }
        }
    }
}

/// A message, or a part of one. [`std::fmt::Display`] shows it in metric units.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Words(pub Vec<Piece>);

impl Words {
    /// The message in the given units.
    #[must_use]
    pub fn show(&self, system: System) -> String {
        self.0.iter().map(|piece| piece.show(system)).collect()
    }

    /// Whether there is nothing to say.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The number with its kind.
    pub(crate) fn number(number: f64, kind: Kind) -> Self {
        Value::new(number, kind).into()
    }

    /// "between 300 and 1 500 mm".
    pub(crate) fn between(least: f64, most: f64, kind: Kind) -> Self {
        Self(vec![Piece::Text("between ".into()), Piece::Pair(Value::new(least, kind), Value::new(most, kind))])
    }

    /// The same with more words behind.
    pub(crate) fn and(mut self, more: impl Into<Self>) -> Self {
        self.0.extend(more.into().0);
        self
    }
}

impl std::fmt::Display for Words {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.show(System::Metric))
    }
}

impl From<&str> for Words {
    fn from(text: &str) -> Self {
        Self(vec![Piece::Text(text.to_owned())])
    }
}

impl From<String> for Words {
    fn from(text: String) -> Self {
        Self(vec![Piece::Text(text)])
    }
}

impl From<Value> for Words {
    fn from(value: Value) -> Self {
        Self(vec![Piece::Value(value)])
    }
}

/// The first letter made large, as a sentence begins.
pub(crate) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |first| std::iter::once(first.to_ascii_uppercase()).chain(letters).collect())
}

fn shown(value: Value, system: System) -> String {
    if value.number.is_nan() {
        "not a number".to_owned()
    } else if value.number.is_infinite() {
        "a number without end".to_owned()
    } else {
        rounded(value, system).to_string()
    }
}

/// With every digit while that stays readable, so that 101.6 mm is not told as 102 mm beside a limit of 102 mm.
fn rounded(value: Value, system: System) -> Shown {
    const READABLE: usize = 7;
    let exactly = show_exactly(value, system);
    if exactly.number.chars().count() <= READABLE { exactly } else { show(value, system) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_a_number_is_said_in_words() {
        assert_eq!(Words::number(f64::NAN, Kind::Length).to_string(), "not a number");
        assert_eq!(Words::number(f64::INFINITY, Kind::Length).show(System::Us), "a number without end");
    }

    #[test]
    fn a_range_names_its_unit_once() {
        let shown = Words::between(300.0, 500.0, Kind::Length).to_string();
        assert_eq!(shown.matches("mm").count(), 1, "{shown}");
    }
}
