//! The schedules as JSON, for scripts. Numbers stand in V, A, VA, W and m.

use rules::power::all_fed::CAUTION;
use rules::power::circuits::names::{circuit_mark, mark, node_name, phase_letters};
use rules::power::circuits::{Circuit, alarms, ground_places, metal_name, wire_list};
use serde_json::{Value, json};
use units::System;

use super::Schedule;

/// What the JSON calls itself, and the version of its shape.
const FORMAT: &str = "baywright-schedule";
const VERSION: u64 = 1;

impl Schedule<'_> {
    /// All of it as JSON, indented, with a line end at its end.
    #[must_use]
    pub fn json(&self) -> String {
        let (case, all) = (&self.case, self.case.circuits());
        let name = |node: usize| node_name(case, node).shown(System::Metric);
        let panels: Vec<Value> = all
            .panels
            .iter()
            .map(|panel| {
                json!({
                    "mark": mark(case, panel.hub),
                    "name": name(panel.hub),
                    "direct": panel.direct,
                    "positions": panel.positions,
                    "taken": panel.taken(all),
                    "bus_amperes": panel.bus,
                    "load": panel.load(all),
                    "phases": panel.phases.iter().take(all.phase_count).collect::<Vec<_>>(),
                    "circuits": panel.circuits.iter().map(|index| circuit_mark(case, &all.circuits[*index])).collect::<Vec<_>>(),
                })
            })
            .collect();
        let wires: Vec<Value> = wire_list(case, all)
            .into_iter()
            .map(|wire| {
                json!({
                    "circuit": circuit_mark(case, &all.circuits[wire.circuit]),
                    "from": wire.from,
                    "to": wire.to,
                    "part": wire.part,
                    "size": wire.size.map(rules::power::code::Size::name),
                    "colour": wire.colour,
                    "length": wire.length,
                    "label": wire.label,
                    "ends": wire.lug,
                })
            })
            .collect();
        let envelope = json!({
            "format": FORMAT,
            "version": VERSION,
            "project": case.project.name,
            "caution": CAUTION,
            "code": case.project.brief.power.code,
            "complete": self.is_complete(),
            "main_amperes": all.main,
            "connected": all.connected,
            "demand": all.demand,
            "panels": panels,
            "circuits": all.circuits.iter().map(|circuit| self.circuit(circuit)).collect::<Vec<_>>(),
            "wires": wires,
            "alarms": alarms(case).into_iter().map(|alarm| json!({
                "terminals": [alarm.terminal, alarm.terminal + 1],
                "block": alarm.block,
                "tells": alarm.tells.shown(System::Metric),
                "from": alarm.from.shown(System::Metric),
            })).collect::<Vec<_>>(),
            "grounds": ground_places(case).into_iter().map(|place| json!({
                "bar": place.bar,
                "place": place.place,
                "bonds": place.bonds.shown(System::Metric),
            })).collect::<Vec<_>>(),
        });
        // Plain data with text keys only, which always can be written.
        let mut text = serde_json::to_string_pretty(&envelope).unwrap_or_default();
        text.push('\n');
        text
    }

    fn circuit(&self, circuit: &Circuit) -> Value {
        let case = &self.case;
        json!({
            "mark": circuit_mark(case, circuit),
            "from": mark(case, circuit.from),
            "to": mark(case, circuit.node),
            "name": node_name(case, circuit.node).shown(System::Metric),
            "run": circuit.run,
            "volts": circuit.flows.volts(),
            "direct": circuit.flows.is_direct(),
            "poles": circuit.poles,
            "positions": circuit.positions().collect::<Vec<_>>(),
            "phase": phase_letters(circuit),
            "load": circuit.load,
            "watts": circuit.watts,
            "amperes": circuit.amperes,
            "least_amperes": circuit.least_amperes,
            "breaker": circuit.breaker,
            "metal": metal_name(circuit.metal),
            "size": circuit.wire.map(|wire| wire.size.name()),
            "ground": circuit.wire.and_then(|wire| wire.ground).map(rules::power::code::Size::name),
            "ampacity": circuit.wire.map(|wire| wire.ampacity),
            "length": circuit.length,
            "volts_lost": circuit.drop,
        })
    }
}
