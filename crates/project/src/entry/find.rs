//! Finding a part of the catalogue by what was typed.

use catalogue::{Catalogue, PartId};

use super::{EntryError, figures::of_what, nouns};

/// So many parts are named when a line fits several.
const NAMED: usize = 4;

/// The device whose number or name was typed, in large or small letters.
pub(super) fn exactly(typed: &str, catalogue: &Catalogue) -> Option<PartId> {
    let typed = typed.trim().to_ascii_lowercase();
    let by_number = PartId(typed.clone());
    if catalogue.devices.contains_key(&by_number) {
        return Some(by_number);
    }
    // Two devices of one name: the name says nothing then.
    let mut named = catalogue.devices.iter().filter(|(_, device)| device.name.to_ascii_lowercase() == typed);
    let (id, _) = named.next()?;
    named.next().is_none().then(|| id.clone())
}

/// The one device that all typed words and numbers fit.
pub(super) fn roughly(name: &[String], loose: &[String], catalogue: &Catalogue) -> Result<PartId, EntryError> {
    let words: Vec<String> = name.iter().flat_map(|word| nouns::words(word)).collect();
    for forgiving in [false, true] {
        let fits = |part: &PartId, its_name: &str| {
            let known = known_words(part, its_name);
            words.iter().all(|word| known.iter().any(|known| nouns::means(word, known, forgiving)))
                && loose.iter().all(|number| known.contains(number))
        };
        let found: Vec<(&PartId, &str)> = catalogue
            .devices
            .iter()
            .filter(|(part, device)| fits(part, &device.name))
            .map(|(part, device)| (part, device.name.as_str()))
            .collect();
        match found[..] {
            [] => {}
            [(part, _)] => return Ok(part.clone()),
            _ if words.is_empty() => break,
            _ => return Err(which(&name.join(" "), &found)),
        }
    }
    if let Some(number) = loose.first() {
        return Err(of_what(number));
    }
    let typed = name.join(" ");
    Err(EntryError::new(if nouns::kind_of(&typed).is_some() {
        format!("{typed}: how high, how much power and mass? Such as 1U 60 W 5 kg.")
    } else {
        format!("{typed}: not in the catalogue. Say what it is, such as 1U switch 60 W 5 kg.")
    }))
}

fn which(typed: &str, found: &[(&PartId, &str)]) -> EntryError {
    let named: Vec<&str> = found.iter().take(NAMED).map(|&(_, name)| name).collect();
    let more = match found.len().saturating_sub(NAMED) {
        0 => String::new(),
        more => format!(", or one of {more} more"),
    };
    EntryError::new(format!("Which {typed}: {}{more}?", named.join(", ")))
}

/// Every word by which a device may be called.
fn known_words(part: &PartId, name: &str) -> Vec<String> {
    let mut known: Vec<String> = part.as_str().split('-').map(str::to_owned).collect();
    known.push(part.as_str().to_owned());
    known.extend(nouns::words(name));
    known
}
