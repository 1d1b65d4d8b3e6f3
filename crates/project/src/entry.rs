//! The entry line: one typed line becomes devices. A pasted table becomes many.

mod assume;
mod figures;
mod find;
mod nouns;
mod table;

pub use table::{RowProblem, read_table};

use catalogue::{Catalogue, Device, Mount};
use units::{Kind, Quantity};

use crate::ranges::{MOST_DEVICES, device_faults};
use crate::{DeviceWhat, Words};
use figures::Figures;

/// Longest line that is read, in characters.
const LONGEST: usize = 300;

/// What a typed line means.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// How many.
    pub count: u32,
    /// Of what.
    pub what: DeviceWhat,
    /// What the line did not say and was taken as usual: "Height taken as 1 U".
    pub assumed: Vec<Words>,
}

impl Entry {
    /// What the line was read as: "2 switches, 1 U, 60 W, 5 kg each".
    #[must_use]
    pub fn summary(&self, catalogue: &Catalogue) -> Words {
        let device = match &self.what {
            DeviceWhat::Own(own) => own.as_ref(),
            DeviceWhat::Part(part) => match catalogue.devices.get(part) {
                Some(device) => device,
                None => return format!("{} × {part}", self.count).into(),
            },
        };
        let mut words = Words::from(nouns::counted(self.count, &device.name));
        let mut add = |number: f64, kind| {
            words = std::mem::take(&mut words).and(", ").and(Words::number(number, kind));
        };
        if let Some(units) = device.units() {
            add(units.into(), Kind::RackUnits);
        }
        if let Some(converts) = device.converts {
            add(converts.rating.0, Kind::Power);
        } else if device.power.0 > 0.0 {
            add(device.power.0, Kind::Power);
        }
        if let Some(mass) = device.mass {
            add(mass.0, Kind::Mass);
        }
        if self.count > 1 { words.and(" each") } else { words }
    }
}

/// Why a typed line is not understood yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EntryError {
    /// In plain words, with what would help.
    pub help: String,
}

impl EntryError {
    fn new(help: impl Into<String>) -> Self {
        Self { help: help.into() }
    }
}

impl std::fmt::Display for EntryError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.help)
    }
}

/// Reads a line such as `2x 1U switch 60 W 5 kg` or `3 switch-access-48`.
///
/// # Errors
/// When the line says too little or something unknown.
pub fn read_entry(line: &str, catalogue: &Catalogue) -> Result<Entry, EntryError> {
    let line: String = line.trim().chars().map(|letter| if letter == '×' { 'x' } else { letter }).collect();
    if line.is_empty() {
        return Err(EntryError::new("What: a part, or a device such as 2x 1U switch 60 W 5 kg?"));
    }
    if line.chars().count() > LONGEST {
        return Err(EntryError::new(format!("One device in at most {LONGEST} characters, or a table pasted whole.")));
    }
    let (count, rest) = counted(&line)?;
    if let Some(part) = find::exactly(rest, catalogue) {
        return Ok(Entry { count, what: DeviceWhat::Part(part), assumed: Vec::new() });
    }
    let (figures, name) = figures::read(rest)?;
    if figures.says_nothing() {
        return find::roughly(&name, &figures.loose, catalogue).map(|part| Entry {
            count,
            what: DeviceWhat::Part(part),
            assumed: Vec::new(),
        });
    }
    figures.no_loose_numbers()?;
    described(count, &name.join(" "), &figures, catalogue)
}

/// An entry with figures: a catalogue part of exactly that name with those figures changed, or the user's own device.
fn described(count: u32, name: &str, figures: &Figures, catalogue: &Catalogue) -> Result<Entry, EntryError> {
    let known = find::exactly(name, catalogue).and_then(|part| catalogue.devices.get(&part));
    let mut assumed = Vec::new();
    let device = match known {
        Some(part) => assume::changed(part, figures),
        None => assume::made(name, figures, &mut assumed)?,
    };
    in_range(&device)?;
    Ok(Entry { count, what: DeviceWhat::Own(Box::new(device)), assumed })
}

fn in_range(device: &Device) -> Result<(), EntryError> {
    device_faults(device, "", None)
        .first()
        .map_or(Ok(()), |fault| Err(EntryError::new(format!("{} {}: {}.", fault.what, fault.found, fault.allowed))))
}

/// Takes the number of devices off the head of a line: `2x …`, `2 x …`, `3 switches`.
fn counted(line: &str) -> Result<(u32, &str), EntryError> {
    let digits = line.bytes().take_while(u8::is_ascii_digit).count();
    let (number, rest) = line.split_at(digits);
    if digits == 0 {
        return Ok((1, line));
    }
    let after = rest.trim_start();
    let times = after.strip_prefix(['x', 'X', '*']).filter(|what| !what.starts_with(char::is_alphabetic));
    let what = match times {
        Some(what) => what.trim_start(),
        // "1 U switch" and "48 V rectifier" begin with a figure, "3 switches" with a count.
        None if rest.starts_with(char::is_whitespace) && !figures::begins_with_unit(number, after) => after,
        None => return Ok((1, line)),
    };
    match number.parse::<u32>() {
        Ok(count) if (1..=MOST_DEVICES as u32).contains(&count) => Ok((count, what)),
        _ => Err(EntryError::new(format!("How many: between 1 and {MOST_DEVICES}, not {number}."))),
    }
}

/// A quantity as words, for what was assumed.
fn said(quantity: impl Quantity) -> Words {
    units::Value::new(quantity.number(), kind_of(&quantity)).into()
}

const fn kind_of<Q: Quantity>(_: &Q) -> Kind {
    Q::KIND
}

/// How a device is held, in words.
const fn held(mount: Mount) -> &'static str {
    match mount {
        Mount::Rack(_) => "on rails",
        Mount::Shelf => "on a shelf",
        Mount::Wall => "on a wall",
        Mount::Door => "on a door",
        Mount::Floor => "on the floor",
    }
}

#[cfg(test)]
mod tests;
