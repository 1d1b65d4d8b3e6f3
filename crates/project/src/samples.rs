//! Three finished projects of our own invention, to begin from. Operators and sites are invented; the towns are real.

use crate::{Project, from_json};

#[cfg(test)]
mod climates;
#[cfg(test)]
mod recipe;

/// A finished project to begin from.
#[derive(Clone, Debug)]
pub struct Sample {
    /// Its name.
    pub name: &'static str,
    /// One sentence about it.
    pub about: &'static str,
    /// The project.
    pub project: Project,
}

/// The file of the sample that shows most: a cabinet of two bays.
const FIRST: &str = include_str!("../../../assets/samples/coastal-two-bay-edge-site.json");

/// Name, sentence, and file. The files are written by `samples/recipe.rs`.
const SAMPLES: [(&str, &str, &str); 3] = [
    (
        "Hot desert fibre hub",
        "One bay with a line terminal and its fibre in full sun at 46 °C, cooled by two air-to-air exchangers.",
        include_str!("../../../assets/samples/hot-desert-fibre-hub.json"),
    ),
    (
        "Coastal two-bay edge site",
        "Servers beside base-band units, batteries in the plinth, two air conditioners in the doors.",
        FIRST,
    ),
    (
        "Cold mountain relay",
        "Radios at 2 400 m and −35 °C, insulated and heated.",
        include_str!("../../../assets/samples/cold-mountain-relay.json"),
    ),
];

/// The sample that a first look begins with: the one that shows most. It alone is named there, so that the others are not
/// loaded with it.
#[must_use]
pub fn first_sample() -> Option<Project> {
    from_json(FIRST).ok()
}

/// The samples. A test reads them all, so none is ever left out here.
#[must_use]
pub fn samples() -> Vec<Sample> {
    let read = |&(name, about, text): &(&'static str, &'static str, &str)| {
        Some(Sample { name, about, project: from_json(text).ok()? })
    };
    SAMPLES.iter().filter_map(read).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{DeviceWhat, Place, to_json};

    #[test]
    fn the_first_look_begins_with_the_sample_of_two_bays() {
        let bays = |project: &Project| project.build.bays.len();
        assert_eq!(first_sample().as_ref().map(bays), samples().iter().map(|sample| bays(&sample.project)).max());
    }

    #[test]
    fn every_sample_reads_and_is_written_the_same_again() {
        assert_eq!(samples().len(), SAMPLES.len());
        for (sample, (name, _, text)) in samples().iter().zip(SAMPLES) {
            assert_eq!(to_json(&sample.project), text, "{name}");
        }
    }

    #[test]
    fn every_sample_is_what_its_recipe_makes() {
        let made = recipe::all();
        for (sample, (file, project)) in samples().iter().zip(&made) {
            assert_eq!(&sample.project, project, "{file}: run `cargo test -p project -- --ignored writes_the_samples`");
        }
        assert_eq!(made.len(), SAMPLES.len());
    }

    #[test]
    fn every_sample_is_furnished_with_known_parts_that_are_placed() {
        let catalogue = catalogue::sample();
        for Sample { name, project, .. } in samples() {
            let build = &project.build;
            assert!((12..=22).contains(&build.devices.len()), "{name}: {} devices", build.devices.len());
            for device in &build.devices {
                assert!(device.resolve(&catalogue).is_some(), "{name}: {:?}", device.what);
                assert!(
                    matches!(device.what, DeviceWhat::Part(_)) && device.at != Place::Unplaced,
                    "{name}: {device:?}"
                );
            }
            assert!(build.climate.iter().all(|unit| catalogue.units.contains_key(&unit.part)), "{name}");
            assert!(catalogue.families.contains_key(&build.family), "{name}");
            assert!(catalogue.skins.contains_key(&build.skin) && catalogue.paints.contains_key(&build.paint), "{name}");
            assert!(catalogue.doors.contains_key(&build.door), "{name}");
        }
    }

    #[test]
    fn no_two_rack_devices_of_a_sample_share_a_unit() {
        let catalogue = catalogue::sample();
        for Sample { name, project, .. } in samples() {
            for device in &project.build.devices {
                let Place::Rack { bay, rails, unit, .. } = device.at else { continue };
                let spec = device.resolve(&catalogue).unwrap();
                let place = (bay, rails, unit);
                assert!(
                    crate::is_free(&project.build, spec, Some(device.id), place, &catalogue),
                    "{name}: {}",
                    spec.name
                );
            }
        }
    }
}
