//! The supply fails at the hottest hour: bus, inside air and what is shed together, minute by minute.
//!
//! P = P_devices + Σ P_unit · x_unit;  ds/dt = 1 / t(I);  V = a(s) − b(s) · I
//!
//! - P_devices  devices that hang on the strings, at their most, with the losses of inverters and converters   [W]
//! - P_unit     what each climate unit on the strings draws in that minute                                      [W]
//! - x_unit     1, or more behind an inverter                                                                   [–]
//! - s, V, I    as in `backup::discharge`: share taken, voltage of the bus, current
//!
//! From the hottest step of the settled hot day on, with the air at the highest it has then, what hangs on no battery stops.
//! Units on the strings run as their thermostats ask. When the strings are used up or taken off, all that hangs on them
//! stops: the load is shed, and the air goes on without it.
//!
//! Source:      `thermal` for the air; `backup::discharge` for the strings, at the end of their life.
//! Valid for:   the hours that are watched; strings within their temperatures and currents.
//! Agreement:   a constant load gives what `backup::discharge` gives (test beside the course).
//! Not covered: growth; loads that are shed one by one; uninterruptible supplies, which run on (the safe side for the air).
//!
//! The strings heat their room by I²·R at the current of the start.

use project::ItemId;

use super::envelope::Outdoors;
use super::interior::{Load, rooms as inside};
use super::limits::Limits;
use super::transients::{WATCHED, curves_of, first_device};
use super::{GridLost, Problem, Room, Series, Transient};
use crate::Case;
use crate::backup::discharge::Bank;
use crate::backup::loads::{devices_on_strings, of_unit};
use crate::backup::plant::{NoPlant, Plant as Strings};
use crate::heat::heat_sources::{Room as Place, room};
use crate::heat::walls::divider_conductance;
use crate::network::NodeKind;
use crate::thermal::{Boundary, Fault, Plant, Runner, Surroundings, Temperatures, Unit, Watch};
use project::{Fed, SiteSupply};
use units::Celsius;

/// Minutes in an hour.
const MINUTES: f64 = 60.0;

/// Runs on from the moment in which the supply fails, in the surroundings from then on.
///
/// # Errors
/// Why the air cannot be reckoned.
pub fn grid_lost(
    case: &Case,
    units: &[(ItemId, Unit)],
    start: &[Temperatures],
    outdoors: &Outdoors<'_>,
    rooms: &[Room],
    limits: &[Limits],
    pressure: f64,
) -> Result<GridLost, Problem> {
    let runs = |strings: bool| {
        let goes_on = move |id: ItemId| {
            let node = case.network.node_of(Fed::Unit(id));
            node.is_none_or(|node| case.network.goes_on(case, node, strings))
        };
        units.iter().filter(move |(id, _)| goes_on(*id))
    };
    let plant = |strings: bool| Plant {
        rooms: inside(case, Load::Kept { strings }, &[], pressure),
        divider: divider_conductance(case),
        units: runs(strings).map(|(_, unit)| unit.clone()).collect(),
    };
    let on_strings: Vec<Option<f64>> = runs(true).map(|(id, _)| of_unit(case, *id)).collect();
    let strings = strings(case);
    let mut discharge = strings.as_ref().map_err(Clone::clone).map(|strings| Discharge::new(case, strings));

    let mut with = plant(true);
    if let Ok(discharge) = &discharge {
        discharge.warm(case, &mut with);
    }
    let mut engine = watching(with, start, rooms, None)?;
    let mut used = vec![0.0; on_strings.len()];
    let mut ended = None;
    while engine.step() < WATCHED {
        let minute = engine.step();
        if runs_away(engine.advance(outdoors, minute + 1))? {
            break;
        }
        let Ok(discharge) = &mut discharge else { continue };
        let mut power = discharge.devices;
        for ((unit, before), times) in engine.run().units.iter().zip(&mut used).zip(&on_strings) {
            // J of this minute
            power += (unit.electricity - *before) / MINUTES * times.unwrap_or(0.0);
            *before = unit.electricity;
        }
        if discharge.minute(power, cells(case, &engine, outdoors, minute)) {
            ended = Some(minute + 1);
            break;
        }
    }

    let mut parts = vec![engine.run().clone()];
    let mut met = first_met(&engine, 0.0);
    if let Some(minute) = ended {
        let later = Later { of: outdoors, first: minute };
        let mut without = watching(plant(false), &engine.temperatures(), rooms, met.map(|(room, ..)| room))?;
        runs_away(without.advance(&later, WATCHED - minute))?;
        met = met.or_else(|| first_met(&without, minute as f64 * MINUTES));
        parts.push(without.into_run());
    }
    let air = curves_of(start, &parts);
    let limited = rooms.iter().any(|room| room.hot_limit.is_some());
    let heat = Transient {
        minutes: met.map(|(_, _, seconds)| seconds / MINUTES),
        room: met.map_or(0, |(room, ..)| room),
        device: met.and_then(|(room, limit, _)| first_device(limits, room, limit)),
        air,
        because: if limited { String::new() } else { "no limit is set".to_owned() },
    };
    Ok(match discharge {
        Ok(discharge) => discharge.told(heat),
        Err(because) => GridLost {
            heat,
            minutes: None,
            taken_off: false,
            volts: Series::default(),
            load: Series::default(),
            because,
        },
    })
}

/// The strings, or why they are not followed.
fn strings(case: &Case) -> Result<Strings, String> {
    if case.project.brief.supply == SiteSupply::Remote48Dc {
        return Err("the plant elsewhere carries it".to_owned());
    }
    Strings::of(case).map_err(|why| match why {
        NoPlant::NoBattery => "no battery is fitted".to_owned(),
        NoPlant::Unsaid(_) => "nobody has said what the batteries are".to_owned(),
        NoPlant::NotWhole => "the batteries make no plant of whole, alike strings".to_owned(),
    })
}

/// A run that watches the hot limits, unless one is met already.
fn watching(plant: Plant, start: &[Temperatures], rooms: &[Room], met: Option<usize>) -> Result<Runner, Problem> {
    let mut engine = Runner::new(plant, start)?;
    if met.is_none() {
        for (index, room) in rooms.iter().enumerate() {
            if let Some(limit) = room.hot_limit {
                engine.watch(Watch::rises_to(limit, index));
            }
        }
    }
    Ok(engine)
}

/// Room, limit and time, s, of the first limit met.
fn first_met(engine: &Runner, begun: f64) -> Option<(usize, f64, f64)> {
    let met = |watch: &Watch| Some((watch.room, watch.limit, begun + watch.met_at?));
    engine.watches().iter().filter_map(met).min_by(|a, b| a.2.total_cmp(&b.2))
}

/// Whether the air leaves what the balance holds for: the curve ends there.
fn runs_away(advanced: Result<(), Fault>) -> Result<bool, Problem> {
    match advanced {
        Ok(()) => Ok(false),
        Err(Fault::Runaway { .. }) => Ok(true),
        Err(fault) => Err(fault.into()),
    }
}

/// The coldest room with batteries: as warm as its masses, or as outdoor air in the plinth.
fn cells(case: &Case, engine: &Runner, outdoors: &Outdoors<'_>, minute: usize) -> Celsius {
    let temperatures = engine.temperatures();
    let of = |place: Place| match place {
        Place::Plinth => Some(outdoors.outside(minute)),
        Place::Compartment(index) => temperatures.get(index).map(|room| room.mass),
    };
    let batteries = case.network.of_kind(NodeKind::Battery).filter_map(|(_, node)| case.device(node.item()?));
    let coldest = batteries.filter_map(|device| of(room(case, device)?)).fold(f64::INFINITY, f64::min);
    Celsius(coldest)
}

/// The strings minute by minute.
struct Discharge<'s> {
    strings: &'s Strings,
    devices: f64,
    taken: f64,
    ended: Option<f64>,
    taken_off: bool,
    volts: Vec<f64>,
    load: Vec<f64>,
    because: String,
}

impl<'s> Discharge<'s> {
    fn new(case: &Case, strings: &'s Strings) -> Self {
        Self {
            strings,
            devices: devices_on_strings(case),
            taken: 0.0,
            ended: None,
            taken_off: false,
            volts: Vec::new(),
            load: Vec::new(),
            because: String::new(),
        }
    }

    /// Lets the strings warm their rooms.
    fn warm(&self, case: &Case, plant: &mut Plant) {
        let current = self.devices / self.strings.volts(self.strings.figures().nominal);
        let batteries: Vec<_> =
            case.network.of_kind(NodeKind::Battery).filter_map(|(_, node)| case.device(node.item()?)).collect();
        let each = current * current * self.strings.resistance / batteries.len().max(1) as f64;
        for device in batteries {
            if let Some(Place::Compartment(index)) = room(case, device)
                && let Some(room) = plant.rooms.get_mut(index)
            {
                room.heat_to_mass += each;
            }
        }
    }

    /// Gives this power for a minute; whether the strings end in it.
    fn minute(&mut self, watts: f64, cells: Celsius) -> bool {
        if self.ended.is_some() || !self.because.is_empty() {
            return false;
        }
        let begun = self.volts.len() as f64;
        if watts <= 0.0 {
            let rest = self.strings.volts(self.strings.figures().start);
            self.volts.push(rest);
            self.load.push(0.0);
            return false;
        }
        let Some(bank) = Bank::of(self.strings, cells) else {
            self.because = "the cells leave the temperatures for which figures stand".to_owned();
            return false;
        };
        let under = bank.under(watts, self.taken);
        let Some((volts, amperes)) = under.filter(|(volts, _)| *volts >= self.strings.cut_off - 1e-9) else {
            self.ended = Some(begun);
            self.taken_off = true;
            return true;
        };
        let Some(lasts) = bank.lasts(amperes) else {
            self.because = "the current is beyond the method".to_owned();
            return false;
        };
        self.volts.push(volts);
        self.load.push(watts);
        let step = 1.0 / (MINUTES * lasts);
        let left = self.strings.figures().used - self.taken;
        self.taken += step;
        if step >= left {
            self.ended = Some(begun + left / step);
            return true;
        }
        false
    }

    fn told(self, heat: Transient) -> GridLost {
        let draws = self.load.iter().any(|watts| *watts > 0.0);
        let because = if draws || !self.because.is_empty() {
            self.because
        } else {
            "nothing draws from the batteries".to_owned()
        };
        GridLost {
            heat,
            minutes: self.ended,
            taken_off: self.taken_off,
            volts: self.volts.into_iter().collect(),
            load: self.load.into_iter().collect(),
            because,
        }
    }
}

/// The same surroundings from a later step on.
struct Later<'o, 'c> {
    of: &'o Outdoors<'c>,
    first: usize,
}

impl Surroundings for Later<'_, '_> {
    fn steps(&self) -> usize {
        self.of.steps().saturating_sub(self.first)
    }

    fn step_seconds(&self) -> f64 {
        self.of.step_seconds()
    }

    fn outside(&self, step: usize) -> f64 {
        self.of.outside(self.first + step)
    }

    fn boundary(&self, step: usize, room: usize, inside_air: f64) -> Boundary {
        self.of.boundary(self.first + step, room, inside_air)
    }
}
