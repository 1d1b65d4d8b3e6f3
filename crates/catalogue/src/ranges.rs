//! Every number of a catalogue and the range in which it makes sense. One table, so that a maker finds it in one place.
//!
//! The ranges refuse slips (a wrong unit, a lost point), not unusual parts. Those of a device lie within the
//! ranges the `project` crate sets for the user's own, so that a part can be copied into an own device.

/// A field and what it may be.
pub(crate) struct Allowed {
    /// Kinds of part; empty for all.
    pub(crate) kinds: &'static [&'static str],
    /// Field, with dots; places in lists are left out.
    pub(crate) field: &'static str,
    /// Least.
    pub(crate) from: f64,
    /// Greatest.
    pub(crate) to: f64,
    /// Unit.
    pub(crate) unit: &'static str,
}

const fn row(kinds: &'static [&'static str], field: &'static str, from: f64, to: f64, unit: &'static str) -> Allowed {
    Allowed { kinds, field, from, to, unit }
}

const SHEET: &[&str] = &["skin", "plinth", "shield", "gland-plate"];
const MATERIAL: &[&str] = &["skin", "plinth", "shield", "gland-plate", "insulation"];
const BORNE: &[&str] = &["lifting-eye", "pallet", "unit"];
const MOVING: &[&str] = &["unit", "device"];

/// The table.
pub(crate) const RANGES: &[Allowed] = &[
    row(&["family"], "bays", 1.0, 2.0, ""),
    row(&["family"], "heights", 10.0, 48.0, "U"),
    row(&["family"], "height_range.from", 10.0, 48.0, "U"),
    row(&["family"], "height_range.to", 10.0, 48.0, "U"),
    row(&["family"], "depth.from", 200.0, 2500.0, "mm"),
    row(&["family"], "depth.to", 200.0, 2500.0, "mm"),
    row(&["family"], "bay_width.from", 400.0, 2000.0, "mm"),
    row(&["family"], "bay_width.to", 400.0, 2000.0, "mm"),
    row(&["family"], "rail_setback.from", 0.0, 600.0, "mm"),
    row(&["family"], "rail_setback.to", 0.0, 600.0, "mm"),
    row(&["family"], "rail_step", 1.0, 100.0, "mm"),
    row(&["family"], "clear_above", 0.0, 500.0, "mm"),
    row(&["family"], "clear_below", 0.0, 500.0, "mm"),
    row(&["family"], "door_frame", 5.0, 200.0, "mm"),
    row(&["family"], "divider_thickness", 0.3, 50.0, "mm"),
    row(&["family"], "fittings_per_unit", 0.0, 20.0, "kg per U"),
    row(&["family"], "rail_load", 10.0, 5000.0, "kg"),
    row(SHEET, "thickness", 0.3, 12.0, "mm"),
    row(MATERIAL, "density", 5.0, 20_000.0, "kg/m3"),
    row(&["skin", "insulation"], "conductivity", 0.005, 500.0, "W/(m K)"),
    row(&["insulation"], "thickness.from", 1.0, 300.0, "mm"),
    row(&["insulation"], "thickness.to", 1.0, 300.0, "mm"),
    row(&["paint"], "absorptance", 0.0, 1.0, ""),
    row(&["paint"], "emissivity", 0.0, 1.0, ""),
    row(&["plinth"], "height.from", 20.0, 1500.0, "mm"),
    row(&["plinth"], "height.to", 20.0, 1500.0, "mm"),
    row(&["plinth"], "usual_height", 20.0, 1500.0, "mm"),
    row(&["plinth"], "anchor_inset", 5.0, 500.0, "mm"),
    row(&["plinth"], "anchor_hole", 4.0, 60.0, "mm"),
    row(&["shield"], "gap.from", 0.0, 300.0, "mm"),
    row(&["shield"], "gap.to", 0.0, 300.0, "mm"),
    row(&["shield"], "overhang.from", 0.0, 500.0, "mm"),
    row(&["shield"], "overhang.to", 0.0, 500.0, "mm"),
    row(&["door"], "latch_points", 1.0, 8.0, ""),
    row(&["door"], "leaf_depth", 5.0, 200.0, "mm"),
    row(&["door"], "inner_depth", 0.0, 200.0, "mm"),
    row(&["door"], "stop_angle", 60.0, 180.0, "degrees"),
    row(&["door"], "fittings", 0.0, 100.0, "kg"),
    row(&["door"], "carries", 0.0, 1000.0, "kg"),
    row(&["lifting-eye"], "rating", 10.0, 20_000.0, "kg"),
    row(&["lifting-eye"], "ring", 5.0, 200.0, "mm"),
    row(&["manager"], "width", 20.0, 500.0, "mm"),
    row(&["manager"], "depth", 10.0, 500.0, "mm"),
    row(&["manager"], "bend_radius", 1.0, 300.0, "mm"),
    row(&["manager"], "mass_per_unit", 0.0, 10.0, "kg per U"),
    row(&["gland-plate"], "width", 40.0, 2000.0, "mm"),
    row(&["gland-plate"], "depth", 40.0, 2000.0, "mm"),
    row(&["gland-plate"], "knock_outs", 0.0, 500.0, ""),
    row(&["gland-plate"], "knock_out", 3.0, 200.0, "mm"),
    row(&["pallet"], "size.width", 300.0, 4000.0, "mm"),
    row(&["pallet"], "size.depth", 300.0, 4000.0, "mm"),
    row(&["pallet"], "size.height", 30.0, 500.0, "mm"),
    row(&["pallet"], "carries", 10.0, 20_000.0, "kg"),
    row(&["unit"], "size.width", 20.0, 3000.0, "mm"),
    row(&["unit"], "size.depth", 20.0, 3000.0, "mm"),
    row(&["unit"], "size.height", 20.0, 3000.0, "mm"),
    row(&["unit"], "inner_depth", 0.0, 3000.0, "mm"),
    row(&["unit"], "cut_out_width", 0.0, 3000.0, "mm"),
    row(&["unit"], "cut_out_height", 0.0, 3000.0, "mm"),
    row(&["unit"], "map.inside", -60.0, 100.0, "degrees C"),
    row(&["unit"], "map.outside", -60.0, 80.0, "degrees C"),
    row(&["unit"], "map.capacity", 0.0, 100_000.0, "W"),
    row(&["unit"], "map.input", 0.0, 50_000.0, "W"),
    row(&["unit"], "rated.inside", -60.0, 100.0, "degrees C"),
    row(&["unit"], "rated.outside", -60.0, 80.0, "degrees C"),
    row(&["unit"], "rated.capacity", 0.0, 100_000.0, "W"),
    row(&["unit"], "altitude_loss_per_metre", 0.0, 0.0005, "per m"),
    row(&["unit"], "set_point", -60.0, 80.0, "degrees C"),
    row(&["unit"], "hysteresis", 0.1, 30.0, "K"),
    row(&["unit"], "least_off", 0.0, 3600.0, "s"),
    row(&["unit"], "soiled_share", 0.1, 1.0, ""),
    row(&["device"], "mount.rack", 1.0, 48.0, "U"),
    row(&["device"], "width", 1.0, 1200.0, "mm"),
    row(&["device"], "height", 0.0, 2500.0, "mm"),
    row(&["device"], "depth", 1.0, 1200.0, "mm"),
    row(&["device"], "rack", 19.0, 23.0, "inches, 19 or 23"),
    row(&["device"], "mass", 0.0, 2000.0, "kg"),
    row(&["device"], "power", 0.0, 50_000.0, "W"),
    row(&["device"], "power_max", 0.0, 50_000.0, "W"),
    row(&["device"], "heat_share", 0.0, 1.0, ""),
    row(&["device"], "converts.rating", 0.0, 50_000.0, "W"),
    row(&["device"], "converts.efficiency", 0.3, 1.0, ""),
    row(&["device"], "inlet_min", -60.0, 100.0, "degrees C"),
    row(&["device"], "inlet_max", -60.0, 100.0, "degrees C"),
    row(&["device"], "face_allowance", 0.0, 1000.0, "mm"),
    row(&["device"], "back_allowance", 0.0, 1000.0, "mm"),
    row(&["device"], "fibre_ports", 0.0, 10_000.0, ""),
    row(&["device"], "splices", 0.0, 10_000.0, ""),
    row(&["device"], "copper_ports", 0.0, 10_000.0, ""),
    row(&["device"], "cables.count", 0.0, 10_000.0, ""),
    row(&["device"], "cables.diameter", 0.5, 150.0, "mm"),
    row(&["device"], "cables.bend_radius", 0.0, 2000.0, "mm"),
    row(BORNE, "mass", 0.0, 5000.0, "kg"),
    row(MOVING, "airflow", 0.0, 20_000.0, "m3/h"),
    row(MOVING, "sound_power", 0.0, 140.0, "dBA"),
    row(&[], "trade.price", 0.0, 10_000_000.0, "in the catalogue's currency"),
    row(&[], "trade.lead_weeks", 0.0, 520.0, "weeks"),
];

/// The range of a field, if it has one.
pub(crate) fn range_of(kind: &str, field: &str) -> Option<&'static Allowed> {
    RANGES.iter().find(|row| row.field == field && (row.kinds.is_empty() || row.kinds.contains(&kind)))
}
