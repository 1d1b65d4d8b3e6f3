//! Energy of batteries from which a fire code asks for more.

use std::sync::OnceLock;

use catalogue::Chemistry;
use serde::Deserialize;

use super::Entry;
use super::file::files;
use crate::{Source, Standing};

/// The file of the fire codes.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct FireCodes {
    pub(super) editions: Vec<Edition>,
}

/// One edition, its thresholds in kWh.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Edition {
    document: String,
    edition: String,
    place: String,
    lithium: f64,
    lead: f64,
    nickel: f64,
    read: Vec<Chemistry>,
}

/// Thresholds of a chemistry, Wh, one for each edition that is held; the lowest first, and of equals the best confirmed.
#[must_use]
pub fn fire_thresholds(chemistry: Chemistry) -> &'static [Entry<f64>] {
    static OF: OnceLock<[Vec<Entry<f64>>; 3]> = OnceLock::new();
    static SOURCES: OnceLock<Vec<[Source; 2]>> = OnceLock::new();
    let editions = &files().fire.editions;
    let sources = SOURCES.get_or_init(|| editions.iter().map(sources_of).collect());
    let of = OF.get_or_init(|| {
        [Chemistry::Lead, Chemistry::Lithium, Chemistry::Nickel].map(|chemistry| {
            let entry = |(edition, [read, memory]): (&Edition, &'static [Source; 2])| {
                let kilowatt_hours = match chemistry {
                    Chemistry::Lead => edition.lead,
                    Chemistry::Lithium => edition.lithium,
                    Chemistry::Nickel => edition.nickel,
                };
                let source = if edition.read.contains(&chemistry) { read } else { memory };
                Entry { value: kilowatt_hours * 1000.0, source }
            };
            let mut entries: Vec<Entry<f64>> = editions.iter().zip(sources).map(entry).collect();
            let recalled = |entry: &Entry<f64>| entry.source.standing != Standing::Read;
            entries.sort_by(|a, b| a.value.total_cmp(&b.value).then(recalled(a).cmp(&recalled(b))));
            entries
        })
    });
    match chemistry {
        Chemistry::Lead => &of[0],
        Chemistry::Lithium => &of[1],
        Chemistry::Nickel => &of[2],
    }
}

fn sources_of(edition: &'static Edition) -> [Source; 2] {
    let memory = Source {
        document: &edition.document,
        edition: &edition.edition,
        place: &edition.place,
        standing: Standing::FromMemory,
    };
    [Source { standing: Standing::Read, ..memory }, memory]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_edition_has_a_threshold_and_the_confirmed_one_stands_first() {
        for (chemistry, threshold, standing) in [
            (Chemistry::Lithium, 20_000.0, Standing::Read),
            (Chemistry::Lead, 70_000.0, Standing::Read),
            (Chemistry::Nickel, 70_000.0, Standing::FromMemory),
        ] {
            let entries = fire_thresholds(chemistry);
            assert_eq!(entries.len(), 4);
            assert_eq!((entries[0].value, entries[0].source.standing), (threshold, standing), "{chemistry:?}");
        }
    }
}
