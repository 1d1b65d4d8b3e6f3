//! Sun and light on a plane against published values (`published/sun.toml`).

use climate::{
    ClearSky, Face, Refraction, SOLAR_CONSTANT, Site, SkyLight, SkyModel, erbs, face_light, julian_day, sun_day,
    sun_position,
};
use tests::published::{number, rows};
use toml::Table;
use units::Metres;

fn published(kind: &str) -> Vec<Table> {
    rows(include_str!("../published/sun.toml"), kind)
}

/// The value agrees with the published one; a failure names the source.
fn check(row: &Table, what: &str, found: f64, within: f64) {
    let (id, source, expected) = (&row["id"], &row["source"], number(row, what));
    assert!((found - expected).abs() <= within, "{id} {what}: {found} instead of {expected} ({source})");
}

/// Year, month and day.
fn date(row: &Table) -> (i32, u32, u32) {
    let part = |index: usize| u32::try_from(row["date"][index].as_integer().expect("a figure")).expect("a date");
    (i32::try_from(part(0)).expect("a year"), part(1), part(2))
}

/// Unit vector towards the sun: east, north, up.
fn towards(zenith: f64, azimuth: f64) -> [f64; 3] {
    let (sin_zenith, up) = libm::sincos(zenith.to_radians());
    let (east, north) = libm::sincos(azimuth.to_radians());
    [sin_zenith * east, sin_zenith * north, up]
}

#[test]
fn the_worked_example_of_the_algorithm_comes_out_to_its_printed_digits() {
    for row in published("position") {
        let (year, month, day) = date(&row);
        let moment = julian_day(year, month, day, number(&row, "universal_hours")).expect("a date");
        check(&row, "julian_day", moment, number(&row, "julian_day_within"));

        let site = Site {
            latitude: number(&row, "latitude"),
            longitude: number(&row, "longitude"),
            elevation: Metres(number(&row, "elevation_m")),
            utc_offset: -7.0,
            albedo: 0.2,
            horizon: vec![],
        };
        let air = Refraction { pressure: number(&row, "pressure_pa"), temperature: number(&row, "temperature_c") };
        let found = sun_position(&site, moment, number(&row, "delta_t_s"), air).expect("a place and a time");
        check(&row, "zenith", found.apparent_zenith, number(&row, "angle_within"));
        check(&row, "azimuth", found.azimuth, number(&row, "angle_within"));

        let normal = Face { tilt: number(&row, "plane_tilt"), azimuth: number(&row, "plane_azimuth") }.normal();
        let cosine: f64 = normal.iter().zip(found.direction()).map(|(n, s)| n * s).sum();
        check(&row, "incidence", libm::acos(cosine).to_degrees(), number(&row, "incidence_within"));
    }
}

#[test]
fn its_day_begins_and_ends_as_printed() {
    for row in published("day") {
        let (year, month, day) = date(&row);
        let site = Site {
            latitude: number(&row, "latitude"),
            longitude: number(&row, "longitude"),
            elevation: Metres(0.0),
            // The day of universal time.
            utc_offset: 0.0,
            albedo: 0.2,
            horizon: vec![],
        };
        let found = sun_day(&site, year, month, day).expect("a place and a day");
        for (what, found) in [("rise", found.rise), ("noon", found.noon), ("set", found.set)] {
            let local = found.expect("the sun comes and goes") + number(&row, "printed_at_utc_offset");
            check(&row, what, local.rem_euclid(24.0), number(&row, "within"));
        }
    }
}

#[test]
fn the_clear_sky_of_haurwitz_is_as_published() {
    for row in published("haurwitz") {
        let light = ClearSky::Haurwitz.light(number(&row, "zenith"), SOLAR_CONSTANT, Metres(0.0), 101_325.0);
        check(&row, "global", light.expect("needs no haze").global, number(&row, "within") * number(&row, "global"));
    }
}

#[test]
fn an_hour_on_a_slope_is_split_and_turned_as_published() {
    for row in published("slope") {
        let within = |what: &str| number(&row, "within") * number(&row, what);
        let (sin_latitude, cos_latitude) = libm::sincos(number(&row, "latitude").to_radians());
        let (sin_declination, cos_declination) = libm::sincos(number(&row, "declination").to_radians());
        let (sin_hour, cos_hour) = libm::sincos(number(&row, "hour_angle").to_radians());
        let sun = [
            -cos_declination * sin_hour,
            sin_declination * cos_latitude - cos_declination * sin_latitude * cos_hour,
            sin_declination * sin_latitude + cos_declination * cos_latitude * cos_hour,
        ];
        // Energy of an hour in MJ/m² as mean power in W/m², and back.
        let watts = |mj: f64| mj * 1e6 / 3600.0;
        let mj = |watts: f64| watts * 3600.0 / 1e6;

        let outside = watts(number(&row, "outside_mj")) / sun[2];
        let light = erbs(watts(number(&row, "global_mj")), libm::acos(sun[2]).to_degrees(), outside);
        check(&row, "diffuse_mj", mj(light.diffuse), within("diffuse_mj"));
        check(&row, "direct_mj", mj(light.direct_normal * sun[2]), within("direct_mj"));

        let slope = Face { tilt: number(&row, "tilt"), azimuth: 180.0 };
        let found = face_light(slope, sun, light, outside, number(&row, "albedo"), SkyModel::Isotropic);
        check(&row, "beam_ratio", found.beam / (light.direct_normal * sun[2]), within("beam_ratio"));
        check(&row, "slope_beam_mj", mj(found.beam), within("slope_beam_mj"));
        check(&row, "slope_sky_mj", mj(found.sky), within("slope_sky_mj"));
        check(&row, "slope_ground_mj", mj(found.ground), within("slope_ground_mj"));
        check(&row, "slope_total_mj", mj(found.total()), within("slope_total_mj"));
    }
}

#[test]
fn a_wall_in_the_sun_gets_what_is_published() {
    for row in published("wall") {
        let sun = towards(number(&row, "zenith"), 180.0);
        let (direct_normal, diffuse) = (number(&row, "direct_normal"), number(&row, "diffuse"));
        let light = SkyLight { global: direct_normal * sun[2] + diffuse, direct_normal, diffuse };
        let wall = Face { tilt: 90.0, azimuth: 180.0 };
        let found = face_light(wall, sun, light, SOLAR_CONSTANT, number(&row, "albedo"), SkyModel::Isotropic);
        let parts = [("beam", found.beam), ("sky", found.sky), ("ground", found.ground), ("total", found.total())];
        for (what, part) in parts {
            check(&row, what, part, number(&row, "within") * number(&row, what));
        }
    }
}
