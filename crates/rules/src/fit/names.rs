//! What parts are called in a finding.

use geometry::Of;
use project::{End, Face, ItemId, Side, UnitAt};

use crate::{Case, Phrase, Subject, bay_letter};

/// The part in words: "Line terminal 16, A 20", "front door A".
pub(crate) fn part_name(case: &Case, of: Of) -> Phrase {
    match of {
        Of::Device(id) => device_name(case, id),
        Of::Unit(id) => unit_name(case, id),
        Of::Eye(_) => format!("a {}", part_words(of)).into(),
        Of::Divider | Of::Shield | Of::Plinth | Of::Pad | Of::Pallet => format!("the {}", part_words(of)).into(),
        Of::Insulation(face) => Phrase::from("insulation of the ").text(face_name(face)),
        _ => part_words(of).into(),
    }
}

/// What a part is called without the build at hand: "front door A", "solar shield". Devices and climate units have names
/// of their own in the build.
#[must_use]
pub fn part_words(of: Of) -> String {
    match of {
        Of::Device(_) => "device".to_owned(),
        Of::Unit(_) => "climate unit".to_owned(),
        Of::Door { bay, end } => format!("{} door {}", end_word(end), bay_letter(bay)),
        Of::Rail { bay, end, side } => format!("{} {} rail {}", end_word(end), side_word(side), bay_letter(bay)),
        Of::Manager { bay, side } => format!("{} cable management {}", side_word(side), bay_letter(bay)),
        Of::GlandPlate { bay, plate } => format!("gland plate {} of bay {}", plate + 1, bay_letter(bay)),
        Of::Body(face) => face_name(face).to_owned(),
        Of::Insulation(face) => format!("insulation of the {}", face_name(face)),
        Of::Fittings { bay } => format!("frame of bay {}", bay_letter(bay)),
        Of::Eye(_) => "lifting eye".to_owned(),
        Of::Divider => "divider".to_owned(),
        Of::Shield => "solar shield".to_owned(),
        Of::Plinth => "plinth".to_owned(),
        Of::Pad => "pad".to_owned(),
        Of::Pallet => "pallet".to_owned(),
    }
}

/// What a finding about the part is about.
pub(crate) fn part_subject(of: Of) -> Subject {
    match of {
        Of::Device(id) => Subject::Device(id),
        Of::Unit(id) => Subject::Unit(id),
        Of::Body(face) | Of::Insulation(face) => Subject::Face(face),
        Of::Door { bay, .. } | Of::Rail { bay, .. } | Of::Manager { bay, .. } | Of::Fittings { bay } => {
            Subject::Bay(bay)
        }
        Of::GlandPlate { .. } => Subject::GlandPlates,
        Of::Eye(_) => Subject::Eyes,
        Of::Plinth | Of::Pad | Of::Pallet => Subject::Base,
        Of::Divider | Of::Shield => Subject::Cabinet,
    }
}

fn device_name(case: &Case, id: ItemId) -> Phrase {
    case.device(id).map_or_else(|| "a device".into(), |device| case.name(device))
}

fn unit_name(case: &Case, id: ItemId) -> Phrase {
    let Some((fitted, unit)) = case.units.iter().find(|(fitted, _)| fitted.id == id) else {
        return "a climate unit".into();
    };
    let place = match fitted.at {
        UnitAt::Door { bay, end } => format!(", {} door {}", end_word(end), bay_letter(bay)),
        UnitAt::Side { side } => format!(", {} side", side_word(side)),
        UnitAt::Roof { bay } => format!(", roof {}", bay_letter(bay)),
        UnitAt::Inside { bay } => format!(", inside {}", bay_letter(bay)),
    };
    Phrase::from(unit.name.as_str()).text(place)
}

const fn face_name(face: Face) -> &'static str {
    match face {
        Face::Front => "front of the body",
        Face::Rear => "rear of the body",
        Face::Left => "left side",
        Face::Right => "right side",
        Face::Top => "roof",
        Face::Bottom => "floor",
    }
}

/// Front or rear.
pub(crate) const fn end_word(end: End) -> &'static str {
    match end {
        End::Front => "front",
        End::Rear => "rear",
    }
}

const fn side_word(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}
