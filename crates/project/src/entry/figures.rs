//! The figures of a line: every number with its unit, and what is left as the name.

use catalogue::{Mount, Supply};
use units::{Celsius, CubicMetresPerHour, Kilograms, Kind, Millimetres, System, Watts, read as read_quantity};

use super::{EntryError, nouns};

/// The figures that were said.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Figures {
    pub(super) units: Option<u32>,
    pub(super) width: Option<Millimetres>,
    pub(super) depth: Option<Millimetres>,
    pub(super) height: Option<Millimetres>,
    pub(super) mass: Option<Kilograms>,
    pub(super) power: Option<Watts>,
    pub(super) power_max: Option<Watts>,
    pub(super) supply: Option<Supply>,
    pub(super) inlet_min: Option<Celsius>,
    pub(super) inlet_max: Option<Celsius>,
    pub(super) airflow: Option<CubicMetresPerHour>,
    pub(super) ports: Option<u32>,
    pub(super) splices: Option<u32>,
    pub(super) rack: Option<u8>,
    /// How it is held, where that is said and not by rails.
    pub(super) held: Option<Mount>,
    /// Numbers that nothing says what they are of.
    pub(super) loose: Vec<String>,
}

impl Figures {
    /// Whether no figure was said; loose numbers may be part of a name.
    pub(super) fn says_nothing(&self) -> bool {
        *self == Self { loose: self.loose.clone(), ..Self::default() }
    }

    pub(super) fn no_loose_numbers(&self) -> Result<(), EntryError> {
        self.loose.first().map_or(Ok(()), |number| Err(of_what(number)))
    }
}

/// "350 of what: W, mm deep or kg?"
pub(super) fn of_what(number: &str) -> EntryError {
    EntryError::new(format!("{number} of what: W, mm deep or kg?"))
}

/// Words that only join figures.
const JOINING: &[&str] =
    &["with", "and", "of", "a", "an", "each", "the", "mounted", "about", "at", "ea", "pcs", "up", "-", "–"];

/// Reads the figures of a line; what is left are the words of the name.
pub(super) fn read(line: &str) -> Result<(Figures, Vec<String>), EntryError> {
    let tokens: Vec<&str> = line
        .split_whitespace()
        .map(|token| token.trim_matches([',', ';', '(', ')']))
        .filter(|token| !token.is_empty())
        .collect();
    let mut figures = Figures::default();
    let mut name: Vec<String> = Vec::new();
    let mut at = 0;
    while let Some(&token) = tokens.get(at) {
        let next = tokens.get(at + 1).copied().unwrap_or_default();
        let before =
            at.checked_sub(1).and_then(|at| tokens.get(at)).map(|word| word.to_ascii_lowercase()).unwrap_or_default();
        at += 1;
        let Some((number, unit)) = split(token) else {
            word(token, next, &mut figures, &mut name);
            continue;
        };
        let (number, unit) = if unit.is_empty() {
            // "32 1/2 in": the fraction belongs to the number.
            let fraction = next
                .split_once('/')
                .is_some_and(|(over, _)| over.bytes().all(|byte| byte.is_ascii_digit()) && !over.is_empty());
            let (number, unit) = if fraction {
                at += 1;
                let length = next.bytes().take_while(|byte| byte.is_ascii_digit() || *byte == b'/').count();
                (format!("{number} {}", &next[..length]), &next[length..])
            } else {
                (number.to_owned(), "")
            };
            if unit.is_empty() {
                let unit = tokens.get(at).copied().unwrap_or_default();
                if meaning(&number, unit).is_some() {
                    at += 1;
                    (number, unit)
                } else {
                    (number, "")
                }
            } else {
                (number, unit)
            }
        } else {
            (number.to_owned(), unit)
        };
        let after = tokens.get(at).map(|word| word.to_ascii_lowercase()).unwrap_or_default();
        match meaning(&number, unit) {
            Some(meaning) => at += figures.take(&format!("{number} {unit}"), meaning, &before, &after)?,
            // "-5 to 55 °C": the first number shares the unit of the second.
            None if unit.is_empty() && matches!(after.as_str(), "to" | "…" | "..." | "-" | "–") => {
                let shared = tokens
                    .get(at + 1)
                    .and_then(|token| split(token))
                    .map(|(_, unit)| unit)
                    .filter(|unit| !unit.is_empty());
                let unit = shared.or_else(|| tokens.get(at + 2).copied()).unwrap_or_default();
                match meaning(&number, unit) {
                    Some(Meaning::Temperature(low)) => figures.inlet_min = Some(Celsius(low)),
                    _ => figures.loose.push(number),
                }
            }
            None if unit.is_empty() => figures.loose.push(number),
            None if unit.starts_with(['x', 'X']) && unit[1..].starts_with(|letter: char| letter.is_ascii_digit()) => {
                return Err(EntryError::new(format!("{token}: which is which? Write 440 mm wide 300 mm deep.")));
            }
            None => name.push(token.to_owned()),
        }
    }
    trim_qualifiers(&mut name);
    Ok((figures, name))
}

/// Whether a text begins with a unit that makes a figure of the number before it.
pub(super) fn begins_with_unit(number: &str, text: &str) -> bool {
    text.split_whitespace().next().is_some_and(|unit| meaning(number, unit.trim_matches([',', ';'])).is_some())
}

/// What a number with its unit is.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Meaning {
    Units(f64),
    Volts(f64, Option<bool>),
    Ports(f64),
    Splices(f64),
    Power(f64),
    Mass(f64),
    Length(f64),
    Temperature(f64),
    AirFlow(f64),
}

fn meaning(number: &str, unit: &str) -> Option<Meaning> {
    let plain = unit.to_ascii_lowercase();
    let value = || number.replace('−', "-").parse::<f64>().ok().filter(|number| number.is_finite());
    match plain.as_str() {
        "" => return None,
        "u" | "ru" => return value().map(Meaning::Units),
        "v" | "volt" | "volts" => return value().map(|volts| Meaning::Volts(volts, None)),
        "vdc" | "v-dc" => return value().map(|volts| Meaning::Volts(volts, Some(true))),
        "vac" | "v-ac" => return value().map(|volts| Meaning::Volts(volts, Some(false))),
        "port" | "ports" => return value().map(Meaning::Ports),
        "splice" | "splices" => return value().map(Meaning::Splices),
        _ => {}
    }
    let of = |kind| read_quantity(&format!("{number} {unit}"), kind, System::Metric).ok();
    of(Kind::Power)
        .map(Meaning::Power)
        .or_else(|| of(Kind::Mass).map(Meaning::Mass))
        .or_else(|| of(Kind::Length).map(Meaning::Length))
        .or_else(|| of(Kind::Temperature).map(Meaning::Temperature))
        .or_else(|| of(Kind::AirFlow).map(Meaning::AirFlow))
}

impl Figures {
    /// Takes a figure; gives how many of the following words it used up.
    fn take(&mut self, said: &str, meaning: Meaning, before: &str, after: &str) -> Result<usize, EntryError> {
        let twice = |what: &str| EntryError::new(format!("{said}: a second {what}. Which one counts?"));
        let whole = |number: f64, what: &str| {
            if (0.0..=10_000.0).contains(&number) && number.fract() == 0.0 {
                Ok(number as u32)
            } else {
                Err(EntryError::new(format!("{said}: {what} are whole numbers from 0.")))
            }
        };
        let greatest = matches!(before, "max" | "maximum" | "peak" | "most" | "≤");
        match meaning {
            Meaning::Units(number) => set(&mut self.units, whole(number, "units")?).map_err(|()| twice("height"))?,
            Meaning::Ports(number) => set(&mut self.ports, whole(number, "ports")?).map_err(|()| twice("count"))?,
            Meaning::Splices(number) => {
                set(&mut self.splices, whole(number, "splices")?).map_err(|()| twice("count"))?
            }
            Meaning::Volts(volts, direct) => {
                let direct = direct.or(match after {
                    "dc" => Some(true),
                    "ac" => Some(false),
                    _ => None,
                });
                let Some(supply) = nouns::supply(volts, direct) else {
                    return Err(EntryError::new(format!(
                        "{said}: the supply is 48 V DC, 24 V DC, 120 V AC or 230 V AC."
                    )));
                };
                set(&mut self.supply, supply).map_err(|()| twice("supply"))?;
                return Ok(usize::from(matches!(after, "dc" | "ac")));
            }
            Meaning::Power(watts) if greatest => {
                set(&mut self.power_max, Watts(watts)).map_err(|()| twice("greatest power"))?;
            }
            Meaning::Power(watts) => {
                let help = || EntryError::new(format!("{said}: a second power. Write max before the greater one."));
                set(&mut self.power, Watts(watts)).map_err(|()| help())?;
            }
            Meaning::Mass(mass) => set(&mut self.mass, Kilograms(mass)).map_err(|()| twice("mass"))?,
            Meaning::AirFlow(flow) => {
                set(&mut self.airflow, CubicMetresPerHour(flow)).map_err(|()| twice("air flow"))?;
            }
            Meaning::Temperature(limit) if matches!(before, "min" | "from" | "above" | "minimum") => {
                set(&mut self.inlet_min, Celsius(limit)).map_err(|()| twice("lowest temperature"))?;
            }
            Meaning::Temperature(limit) => {
                set(&mut self.inlet_max, Celsius(limit)).map_err(|()| twice("highest temperature"))?;
            }
            Meaning::Length(length) => return self.take_length(said, length, before, after),
        }
        Ok(0)
    }

    fn take_length(&mut self, said: &str, length: f64, before: &str, after: &str) -> Result<usize, EntryError> {
        let panel = [19_u8, 23].into_iter().find(|&inches| (length - f64::from(inches) * 25.4).abs() < 0.01);
        let (place, used) = match (direction(after), direction(before)) {
            (Some(direction), _) => (direction, 1),
            (None, Some(direction)) => (direction, 0),
            // "19 in" alone is the width of the panel, not of the body.
            (None, None) if panel.is_some() => {
                self.rack = panel;
                return Ok(usize::from(after == "rack"));
            }
            (None, None) => {
                return Err(EntryError::new(format!("{said} of what: deep, wide or high?")));
            }
        };
        let field = match place {
            Direction::Deep => &mut self.depth,
            Direction::Wide => &mut self.width,
            Direction::High => &mut self.height,
        };
        set(field, Millimetres(length))
            .map_err(|()| EntryError::new(format!("{said}: said twice. Which one counts?")))?;
        Ok(used)
    }
}

enum Direction {
    Deep,
    Wide,
    High,
}

fn direction(word: &str) -> Option<Direction> {
    match word {
        "deep" | "depth" | "d" => Some(Direction::Deep),
        "wide" | "width" | "w" => Some(Direction::Wide),
        "high" | "height" | "tall" | "h" => Some(Direction::High),
        _ => None,
    }
}

fn set<T>(field: &mut Option<T>, value: T) -> Result<(), ()> {
    if field.is_some() {
        return Err(());
    }
    *field = Some(value);
    Ok(())
}

/// A word that is no figure: it says how the device is held, joins figures, or belongs to the name.
fn word(token: &str, next: &str, figures: &mut Figures, name: &mut Vec<String>) {
    let plain = token.to_ascii_lowercase();
    let last = next.is_empty() || split(next).is_some() || next.eq_ignore_ascii_case("mounted");
    let on = name.last().is_some_and(|before| before == "on");
    let held = match plain.as_str() {
        "wall" | "wall-mounted" => Some(Mount::Wall),
        "door" | "door-mounted" => Some(Mount::Door),
        "floor" | "floor-standing" => Some(Mount::Floor),
        // A splice shelf is a thing, "on shelf" a place.
        "shelf" if on => Some(Mount::Shelf),
        "shelf-mounted" => Some(Mount::Shelf),
        _ => None,
    };
    if let Some(mount) = held.filter(|_| on || last || plain.contains('-') || name.is_empty()) {
        figures.held = Some(mount);
        if on {
            name.pop();
        }
    } else if !JOINING.contains(&plain.as_str()) {
        name.push(token.to_owned());
    }
}

/// Takes off words that only told what a figure is: they stand among the name's because figures come in any order.
fn trim_qualifiers(name: &mut Vec<String>) {
    const QUALIFIERS: &[&str] = &[
        "to", "max", "maximum", "min", "minimum", "peak", "most", "from", "above", "on", "dc", "ac", "rack", "deep",
        "wide", "high", "depth", "width", "height",
    ];
    name.retain(|word| !QUALIFIERS.contains(&word.to_ascii_lowercase().as_str()));
}

/// A number at the head of a word, and its unit: `60W` is 60 and W, `1/8"` is 1/8 and ", `x4` is none.
fn split(token: &str) -> Option<(&str, &str)> {
    let unsigned = token.trim_start_matches(['-', '−', '+', '±', '≤']);
    if !unsigned.starts_with(|letter: char| letter.is_ascii_digit() || letter == '.') {
        return None;
    }
    let signs = token.len() - unsigned.len();
    let digits =
        unsigned.bytes().take_while(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b',' | b'/')).count();
    let (number, unit) = token.split_at(signs + digits);
    unsigned
        .starts_with(|letter: char| letter.is_ascii_digit() || unsigned.len() > 1 && letter == '.')
        .then_some((number, unit))
}
