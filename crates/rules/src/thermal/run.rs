//! What a run leaves behind: columns with one entry a step, and sums over all steps.

/// One room over a run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RoomRun {
    /// Mean air of each step, °C.
    pub mean: Vec<f64>,
    /// Air at the end of each step, °C.
    pub end: Vec<f64>,
    /// Highest air within each step, °C.
    pub highest: Vec<f64>,
    /// Lowest air within each step, °C.
    pub lowest: Vec<f64>,
    /// Mass at the end of each step, °C.
    pub mass_end: Vec<f64>,
    /// Heat given off inside, J.
    pub given_off: f64,
    /// Heat in through the boundary, J; negative when more went out.
    pub boundary: f64,
    /// Heat from the units into the air, their input included where it stays inside, J; negative when they cool.
    pub units: f64,
    /// Heat from the other room, J.
    pub divider: f64,
    /// Heat kept in air and mass at the end, beyond that at the start, J.
    pub stored: f64,
}

/// One unit over a run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct UnitRun {
    /// Share of each step it ran, 0…1.
    pub duty: Vec<f64>,
    /// Mean heat it moved out (a heater: in) in each step, W.
    pub heat_flow: Vec<f64>,
    /// Times it started, one already running at the start included.
    pub starts: u32,
    /// Most starts within one full hour of the run (0 to 1 h, 1 to 2 h, …).
    pub most_starts: u32,
    /// Time it ran, s.
    pub seconds: f64,
    /// Time it ran and moved heat, s: less than `seconds` when an exchanger finds it warmer outside than inside.
    pub moving_seconds: f64,
    /// Heat it moved out (a heater: in), J.
    pub heat: f64,
    /// Electricity it used, J.
    pub electricity: f64,
    /// Steps in which it was called for outside its map at some moment, and stood still.
    pub refused: u32,
}

/// A run as far as it went.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Run {
    /// The rooms, in the order of the plant.
    pub rooms: Vec<RoomRun>,
    /// The units, in the order of the plant.
    pub units: Vec<UnitRun>,
    /// Time reckoned, s.
    pub seconds: f64,
    /// Stretches solved in one piece: what the work of a run is proportional to.
    pub stretches: u64,
}

impl Run {
    /// Makes room for more steps, so that none is made within them.
    pub(super) fn reserve(&mut self, steps: usize) {
        for room in &mut self.rooms {
            for column in [&mut room.mean, &mut room.end, &mut room.highest, &mut room.lowest, &mut room.mass_end] {
                column.reserve(steps);
            }
        }
        for unit in &mut self.units {
            unit.duty.reserve(steps);
            unit.heat_flow.reserve(steps);
        }
    }

    /// Heat that came in, less what went out and what was stored, as a share of the heat that passed: how well the sums close.
    #[must_use]
    pub fn residual(&self) -> f64 {
        let (mut open, mut passed) = (0.0, 0.0);
        for room in &self.rooms {
            let flows = [room.given_off, room.boundary, room.units, room.divider, -room.stored];
            open += flows.iter().sum::<f64>();
            passed += flows.iter().map(|flow| flow.abs()).sum::<f64>() / 2.0;
        }
        if passed > 0.0 { open / passed } else { open }
    }
}
