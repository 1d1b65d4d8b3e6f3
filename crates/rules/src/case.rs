//! What every check starts from: the project, the catalogue, and what is derived from them once.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use catalogue::{Catalogue, ClimateUnit, Device, PartId};
use geometry::{Box3, Layout, Model};
use project::{End, FittedDevice, FittedUnit, ItemId, Place, Project};
use units::{Kind, Value};

use crate::course::Course;
use crate::network::Network;
use crate::power::circuits::Circuits;
use crate::{Check, Finding, Phrase, Subject};

/// A device with its data and the box it takes.
#[derive(Clone, Debug)]
pub struct PlacedDevice<'a> {
    /// As fitted.
    pub fitted: &'a FittedDevice,
    /// Its data.
    pub spec: &'a Device,
    /// The box its body takes; `None` when it is not placed.
    pub space: Option<Box3>,
}

/// What every check starts from.
pub struct Case<'a> {
    /// The project.
    pub project: &'a Project,
    /// The catalogue.
    pub catalogue: &'a Catalogue,
    /// The solids; `None` when the catalogue lacks a part the body needs.
    pub model: Option<Model>,
    /// The devices whose data are known.
    pub devices: Vec<PlacedDevice<'a>>,
    /// Climate units whose data are known.
    pub units: Vec<(&'a FittedUnit, &'a ClimateUnit)>,
    /// How power reaches everything that is placed.
    pub network: Network,
    /// Parts of the project that the catalogue does not know.
    pub unknown_parts: Vec<PartId>,
    /// What a run over a day and a year left behind; without one the checks over time are not asked.
    pub course: Option<&'a Course>,
    index: BTreeMap<ItemId, usize>,
    circuits: OnceCell<Box<Circuits>>,
}

impl<'a> Case<'a> {
    /// Derives what the checks need.
    #[must_use]
    pub fn new(project: &'a Project, catalogue: &'a Catalogue) -> Self {
        let build = &project.build;
        let model = geometry::model(build, catalogue);
        let layout = model.as_ref().map(|model| &model.layout);
        let devices: Vec<_> = build
            .devices
            .iter()
            .filter_map(|fitted| {
                let spec = fitted.resolve(catalogue)?;
                let space = layout.and_then(|layout| layout.device_box(fitted, build, catalogue));
                Some(PlacedDevice { fitted, spec, space })
            })
            .collect();
        let units =
            build.climate.iter().filter_map(|fitted| Some((fitted, catalogue.units.get(&fitted.part)?))).collect();
        let mut index = BTreeMap::new();
        for (at, device) in devices.iter().enumerate() {
            index.insert(device.fitted.id, at);
        }
        let unknown_parts = unknown_parts(project, catalogue);
        let network = Network::default();
        let circuits = OnceCell::new();
        let mut case =
            Self { project, catalogue, devices, units, network, unknown_parts, course: None, index, circuits, model };
        case.network = Network::of(&case);
        case
    }

    /// The same with what a run over a day and a year left behind, so that the checks over time are asked too.
    #[must_use]
    pub const fn with_course(mut self, course: Option<&'a Course>) -> Self {
        self.course = course;
        self
    }

    /// Breakers and conductors of the network of power, made when they are first asked for.
    #[must_use]
    pub fn circuits(&self) -> &Circuits {
        self.circuits.get_or_init(|| Box::new(Circuits::of(self)))
    }

    /// The layout, when there is a model.
    #[must_use]
    pub fn layout(&self) -> Option<&Layout> {
        self.model.as_ref().map(|model| &model.layout)
    }

    /// A device by its number.
    #[must_use]
    pub fn device(&self, id: ItemId) -> Option<&PlacedDevice<'a>> {
        self.devices.get(*self.index.get(&id)?)
    }

    /// Name and place of a device in words: "Line terminal 16, A 20".
    #[must_use]
    pub fn name(&self, device: &PlacedDevice<'_>) -> Phrase {
        let name = Phrase::from(device.spec.name.as_str());
        match device.fitted.at {
            Place::Rack { bay, rails, unit, .. } => {
                let rear = if rails == End::Rear { " rear" } else { "" };
                name.text(format!(", {}{rear} {unit}", bay_letter(bay)))
            }
            Place::Shelf { .. } => name.text(", on a shelf"),
            Place::Wall { .. } => name.text(", wall"),
            Place::Door { bay, .. } => name.text(format!(", door {}", bay_letter(bay))),
            Place::Floor { bay, plinth, .. } => {
                let floor = if plinth { "plinth" } else { "floor" };
                name.text(format!(", {floor} {}", bay_letter(bay)))
            }
            Place::Unplaced => name.text(", not placed"),
        }
    }

    /// What a check says that looks at every device and climate unit, while the catalogue lacks one; none when it lacks none.
    pub(crate) fn lacking(&self, check: &Check) -> Option<Finding> {
        let build = &self.project.build;
        let knows_all = self.devices.len() == build.devices.len() && self.units.len() == build.climate.len();
        (!knows_all).then(|| Finding::needs_data(check, Subject::Cabinet, self.missing_parts()))
    }

    /// What a check says when the catalogue lacks a part of the body.
    #[must_use]
    pub fn missing_parts(&self) -> Phrase {
        let names: Vec<_> = self.unknown_parts.iter().map(PartId::as_str).collect();
        if names.is_empty() {
            "a part of the body".into()
        } else {
            format!("not in this catalogue: {}", names.join(", ")).into()
        }
    }
}

/// The letter a bay is called by, A for the left one.
#[must_use]
pub fn bay_letter(bay: usize) -> char {
    match bay {
        0 => 'A',
        1 => 'B',
        _ => '?',
    }
}

/// A count as a value.
#[must_use]
pub fn count(number: usize) -> Value {
    Value::new(number as f64, Kind::Count)
}

fn unknown_parts(project: &Project, catalogue: &Catalogue) -> Vec<PartId> {
    let build = &project.build;
    let mut unknown = Vec::new();
    let mut look = |known: bool, part: &PartId| {
        if !known && !unknown.contains(part) {
            unknown.push(part.clone());
        }
    };
    look(catalogue.families.contains_key(&build.family), &build.family);
    look(catalogue.skins.contains_key(&build.skin), &build.skin);
    look(catalogue.paints.contains_key(&build.paint), &build.paint);
    look(catalogue.doors.contains_key(&build.door), &build.door);
    if let Some(plinth) = &build.plinth {
        look(catalogue.plinths.contains_key(&plinth.part), &plinth.part);
    }
    if let Some(shield) = &build.shield {
        look(catalogue.shields.contains_key(&shield.part), &shield.part);
    }
    if let Some(eyes) = &build.lifting_eyes {
        look(catalogue.lifting_eyes.contains_key(eyes), eyes);
    }
    if let Some(pallet) = &build.pallet {
        look(catalogue.pallets.contains_key(pallet), pallet);
    }
    for face in project::Face::ALL {
        if let Some(insulated) = build.insulation.get(face) {
            look(catalogue.insulations.contains_key(&insulated.part), &insulated.part);
        }
    }
    for bay in &build.bays {
        for manager in bay.manager_left.iter().chain(&bay.manager_right) {
            look(catalogue.managers.contains_key(manager), manager);
        }
        for plate in &bay.gland_plates {
            look(catalogue.gland_plates.contains_key(&plate.part), &plate.part);
        }
    }
    for unit in &build.climate {
        look(catalogue.units.contains_key(&unit.part), &unit.part);
    }
    for device in &build.devices {
        if let project::DeviceWhat::Part(part) = &device.what {
            look(catalogue.devices.contains_key(part), part);
        }
    }
    unknown
}
