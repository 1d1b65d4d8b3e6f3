//! The schedules as text: tables whose columns stand under one another.

use rules::power::all_fed::CAUTION;
use rules::power::circuits::names::{circuit_mark, mark, node_name, phase_letters};
use rules::power::circuits::{Circuit, PanelSchedule, Run, alarms, ground_places, wire_list};
use units::{Kind, System, Value, show};

use super::Schedule;
use crate::plain;
use crate::printed::Print;

/// Room between two columns.
const BETWEEN: &str = "  ";

/// Rows under their heads.
struct Table {
    rows: Vec<Vec<String>>,
}

impl Table {
    fn new(heads: &[&str]) -> Self {
        Self { rows: vec![heads.iter().map(|head| (*head).to_owned()).collect()] }
    }

    fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// Each column as wide as its widest cell; the last is not filled up.
    fn lines(&self) -> String {
        let width = |text: &String| textwrap::core::display_width(text);
        let columns = self.rows.iter().map(Vec::len).max().unwrap_or(0);
        let widest = |column: usize| self.rows.iter().filter_map(|row| row.get(column)).map(width).max().unwrap_or(0);
        let widths: Vec<usize> = (0..columns).map(widest).collect();
        let mut text = String::new();
        for row in &self.rows {
            let mut line = String::from(BETWEEN);
            for (cell, wide) in row.iter().zip(&widths) {
                line += cell;
                line += &" ".repeat(wide - width(cell) + BETWEEN.len());
            }
            text += line.trim_end();
            text.push('\n');
        }
        text
    }
}

impl Schedule<'_> {
    /// All of it as text in the given units, sentences wrapped at this many columns.
    #[must_use]
    pub fn printed(&self, system: System, columns: usize) -> String {
        let mut print = Print::new(system, columns);
        let project = self.case.project;
        print.line("", if project.name.is_empty() { "Project without a name" } else { &project.name });
        print.line("", CAUTION);
        for panel in self.case.circuits().panels.iter().filter(|panel| !panel.direct) {
            self.panel(&mut print, system, panel);
        }
        for panel in self.case.circuits().panels.iter().filter(|panel| panel.direct) {
            self.panel(&mut print, system, panel);
        }
        self.others(&mut print, system);
        self.wires(&mut print, system);
        self.terminals(&mut print);
        plain(&print.into_text())
    }

    fn panel(&self, print: &mut Print, system: System, panel: &PanelSchedule) {
        let (case, all) = (&self.case, self.case.circuits());
        let shown = |number: f64, kind: Kind| show(Value::new(number, kind), system).to_string();
        let name = node_name(case, panel.hub).shown(system);
        let taken = panel.taken(all);
        let kind = if panel.direct { "ways" } else { "positions" };
        print.gap();
        let bus = shown(panel.bus, Kind::Current);
        let spare = panel.positions.saturating_sub(taken);
        let what = mark(case, panel.hub);
        print.line("", &format!("{what}  {name}: bus {bus}, {} {kind}, {taken} taken, {spare} spare", panel.positions));
        let mut table = Table::new(&["no.", "load", "poles", "breaker", "wire", "phase", "length", "VA", "lost"]);
        for index in &panel.circuits {
            let circuit = &all.circuits[*index];
            let positions: Vec<String> = circuit.positions().map(|position| position.to_string()).collect();
            let first = if positions.is_empty() { "–".to_owned() } else { positions.join("/") };
            table.row(std::iter::once(first).chain(self.cells(circuit, system)).collect());
        }
        print.lines(&table.lines());
        let load = shown(panel.load(all), if panel.direct { Kind::Power } else { Kind::ApparentPower });
        let phases: Vec<String> =
            panel.phases.iter().take(all.phase_count).map(|load| shown(*load, Kind::ApparentPower)).collect();
        let by_phase = if panel.direct || all.phase_count == 1 {
            String::new()
        } else {
            format!(", by phase {}", phases.join(", "))
        };
        print.line("  ", &format!("all together {load}{by_phase}"));
    }

    /// Load, poles, breaker, wire, phase, length, VA, voltage lost.
    fn cells(&self, circuit: &Circuit, system: System) -> Vec<String> {
        let shown = |number: f64, kind: Kind| show(Value::new(number, kind), system).to_string();
        let unknown = || "–".to_owned();
        let wire = circuit.wire.map_or_else(unknown, |wire| {
            let ground = wire.ground.map_or_else(String::new, |ground| format!(", G {}", ground.name()));
            format!("{}{ground}", wire.size.name())
        });
        vec![
            node_name(&self.case, circuit.node).shown(system),
            circuit.poles.to_string(),
            circuit.breaker.map_or_else(unknown, |breaker| shown(breaker, Kind::Current)),
            wire,
            phase_letters(circuit),
            circuit.length.map_or_else(unknown, |length| shown(length, Kind::Elevation)),
            shown(circuit.load.total(), if circuit.flows.is_direct() { Kind::Power } else { Kind::ApparentPower }),
            shown(circuit.drop_share(), Kind::Share),
        ]
    }

    /// Circuits that no load centre and no distribution holds.
    fn others(&self, print: &mut Print, system: System) {
        let all = self.case.circuits();
        let mut table =
            Table::new(&["circuit", "to", "poles", "breaker", "wire", "phase", "length", "load", "lost", "for"]);
        let others = all.circuits.iter().filter(|circuit| circuit.position.is_none() && circuit.is_wired());
        for circuit in others {
            let named = std::iter::once(circuit_mark(&self.case, circuit));
            let sort = match circuit.run {
                Run::Service => "service",
                Run::Feeder => "feeder",
                Run::Branch => "branch",
                Run::Bus => "bus",
                Run::String => "string",
                Run::Inlet => "inlet",
                Run::Cord => "cord",
            };
            table.row(named.chain(self.cells(circuit, system)).chain([sort.to_owned()]).collect());
        }
        if table.rows.len() > 1 {
            print.gap();
            print.line("", "SERVICE, FEEDERS, BUS AND STRINGS");
            print.lines(&table.lines());
        }
    }

    fn wires(&self, print: &mut Print, system: System) {
        let mut table = Table::new(&["from", "to", "size", "colour", "length", "label", "ends"]);
        for wire in wire_list(&self.case, self.case.circuits()) {
            let length = |metres: f64| show(Value::new(metres, Kind::Elevation), system).to_string();
            let unknown = || "–".to_owned();
            table.row(vec![
                wire.from,
                wire.to,
                wire.size.map_or_else(unknown, |size| size.name().to_owned()),
                wire.colour.to_owned(),
                wire.length.map_or_else(unknown, length),
                wire.label,
                wire.lug.to_owned(),
            ]);
        }
        if table.rows.len() > 1 {
            print.gap();
            print.line("", "WIRE LIST");
            print.lines(&table.lines());
        }
    }

    fn terminals(&self, print: &mut Print) {
        let system = System::Metric;
        let mut table = Table::new(&["terminals", "tells", "from"]);
        for alarm in alarms(&self.case) {
            let place = if alarm.block.is_some() { "" } else { " (no place)" };
            let terminals = format!("{}, {}{place}", alarm.terminal, alarm.terminal + 1);
            table.row(vec![terminals, alarm.tells.shown(system), alarm.from.shown(system)]);
        }
        if table.rows.len() > 1 {
            print.gap();
            print.line("", "ALARM TERMINALS");
            print.lines(&table.lines());
        }
        let mut table = Table::new(&["bar", "place", "bonds"]);
        for place in ground_places(&self.case) {
            let device = place.bar.and_then(|id| self.case.device(id));
            let bar = device.map_or_else(|| "no place".to_owned(), |device| self.case.name(device).shown(system));
            table.row(vec![bar, place.place.to_string(), place.bonds.shown(system)]);
        }
        print.gap();
        print.line("", "GROUND BARS");
        print.lines(&table.lines());
    }
}
