//! The one list of checks. Codes are never reused; a withdrawn check keeps its line here with the reason.

use crate::{Check, backup, fit, heat, power, weight, year};

/// The checks that are answered at once, in the order they are shown: by topic, the one whose figure leads the badge first.
pub static AT_ONCE: &[&Check] = &[
    &fit::height_units::CHECK,
    &fit::unit_overlap::CHECK,
    &fit::depth_to_doors::CHECK,
    &fit::rail_width::CHECK,
    &fit::air_space::CHECK,
    &fit::parts_meet::CHECK,
    &fit::manager_fill::CHECK,
    &fit::bend_radius::CHECK,
    &fit::fibre_ports::CHECK,
    &fit::splices::CHECK,
    &fit::gland_plates::CHECK,
    &fit::one_person_lift::CHECK,
    &fit::all_placed::CHECK,
    &weight::equipped_mass::CHECK,
    &weight::empty_mass::CHECK,
    &weight::shipping_mass::CHECK,
    &weight::centre_of_gravity::CHECK,
    &weight::sling_angle::CHECK,
    &weight::leg_tension::CHECK,
    &weight::eye_rating::CHECK,
    &weight::tip_angle::CHECK,
    &weight::pad_bearing::CHECK,
    &weight::rail_load::CHECK,
    &weight::door_load::CHECK,
    &heat::hottest_inside_air::CHECK,
    &heat::device_heat::CHECK,
    &heat::effective_surface::CHECK,
    &heat::sun_gain::CHECK,
    &heat::wall_loss::CHECK,
    &heat::cooling_margin::CHECK,
    &heat::coldest_inside_air::CHECK,
    &heat::unit_places::CHECK,
    &heat::altitude::CHECK,
];

/// The checks of supply and backup, which are answered at once too, in the order they are shown. They stand apart because
/// the page loads them, with the tables of the electrical code, after its first look.
pub static WIRED: &[&Check] = &[
    &power::demand_load::CHECK,
    &power::all_fed::CHECK,
    &power::phase_balance::CHECK,
    &power::breaker_ratings::CHECK,
    &power::positions::CHECK,
    &power::ampacity::CHECK,
    &power::voltage_drop_ac::CHECK,
    &power::voltage_drop_dc::CHECK,
    &power::equipment_ground::CHECK,
    &power::electrode_conductor::CHECK,
    &power::fault_rating::CHECK,
    &power::outlet_protection::CHECK,
    &power::generator_inlet::CHECK,
    &power::interlock::CHECK,
    &power::working_space::CHECK,
    &power::conduit_fill::CHECK,
    &power::cord_configuration::CHECK,
    &backup::autonomy::CHECK,
    &backup::cell_sizing::CHECK,
    &backup::lithium_energy::CHECK,
    &backup::rectifier_capacity::CHECK,
    &backup::bus_window::CHECK,
    &backup::recharge_time::CHECK,
    &backup::ups_runtime::CHECK,
    &backup::hydrogen::CHECK,
    &backup::energy_threshold::CHECK,
    &backup::string_whole::CHECK,
];

/// The checks that need a course, in the order they are shown.
pub static OVER_TIME: &[&Check] = &[
    &year::hottest_hour::CHECK,
    &year::hot_day::CHECK,
    &year::hours_above::CHECK,
    &year::coldest_hour::CHECK,
    &year::cold_start::CHECK,
    &year::unit_duty::CHECK,
    &year::energy_of_the_year::CHECK,
    &year::peak_shares::CHECK,
    &year::battery_life::CHECK,
    &year::frost_on_lithium::CHECK,
    &year::open_door::CHECK,
    &year::cooling_lost::CHECK,
    &year::closed_balance::CHECK,
    &year::grid_lost::CHECK,
];

/// Checks that answer another's question by a second, coarser method: they are told, but do not decide the badge.
pub(crate) const COMPANIONS: &[&str] = &["H02"];

/// Every check, in the order they are shown.
pub fn all_checks() -> impl Iterator<Item = &'static Check> {
    AT_ONCE.iter().chain(WIRED).chain(OVER_TIME).copied()
}

/// The check with this code.
#[must_use]
pub fn check_by_code(code: &str) -> Option<&'static Check> {
    all_checks().find(|check| check.code == code)
}
