//! Sun, sky and light on faces against a scientific library: pvlib 0.16.1, row by row.

mod sun_table;

use climate::{
    ClearSky, Face, Refraction, Site, SkyLight, SkyModel, absolute_air_mass, erbs, extraterrestrial, face_light,
    julian_day, relative_air_mass, sun_day, sun_position,
};
use sun_table::{Row, rows};
use units::Metres;

/// The value agrees with the library's.
fn check(row: &Row, what: &str, found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{what}: {found} instead of {expected} in {row}");
}

/// The angle between two directions, degrees.
fn between(a: [f64; 3], b: [f64; 3]) -> f64 {
    (0..3).map(|axis| (a[axis] - b[axis]) * (a[axis] - b[axis])).sum::<f64>().sqrt().to_degrees()
}

fn towards(zenith: f64, azimuth: f64) -> [f64; 3] {
    let (sin_zenith, up) = libm::sincos(zenith.to_radians());
    let (east, north) = libm::sincos(azimuth.to_radians());
    [sin_zenith * east, sin_zenith * north, up]
}

/// 2044-07-18T01:17:00Z as a Julian day.
fn moment(text: &str) -> f64 {
    let part = |from: usize, to: usize| -> u32 { text[from..to].parse().expect("a figure") };
    let hours = f64::from(part(11, 13)) + f64::from(part(14, 16)) / 60.0 + f64::from(part(17, 19)) / 3600.0;
    julian_day(i32::try_from(part(0, 4)).expect("a year"), part(5, 7), part(8, 10), hours).expect("a date")
}

#[test]
fn the_sun_stands_where_the_library_has_it() {
    // Asked for is 0.01°; it is the same algorithm, so a hundredth of that.
    const WITHIN: f64 = 1e-4;
    // The library's own ΔT in these rows, s.
    const DELTA_T: f64 = 67.0;
    let table = rows(include_str!("../reference/solar_position.csv"));
    assert_eq!(table.len(), 256);
    for row in &table {
        let site = Site {
            latitude: row.number("lat_deg"),
            longitude: row.number("lon_deg"),
            elevation: Metres(row.number("elev_m")),
            utc_offset: 0.0,
            albedo: 0.2,
            horizon: vec![],
        };
        let air = Refraction { pressure: row.number("pressure_pa"), temperature: row.number("temperature_c") };
        let found = sun_position(&site, moment(row.text("time_utc")), DELTA_T, air).expect("a place and a time");
        check(row, "zenith", found.zenith, row.number("zenith_deg"), WITHIN);
        check(row, "apparent zenith", found.apparent_zenith, row.number("apparent_zenith_deg"), WITHIN);
        // Directions, because near the zenith and at the poles an azimuth says little.
        let expected = towards(row.number("apparent_zenith_deg"), row.number("azimuth_deg"));
        check(row, "direction", between(found.direction(), expected), 0.0, WITHIN);
    }
}

#[test]
fn the_sun_comes_and_goes_when_the_library_has_it() {
    // The library reads between three positions of the day; here the instant is searched for. Its events are those of the
    // universal day, put on the local one: a sunset of the next universal day is written with the time of day of the one
    // before, which is up to two minutes off. So the universal day is asked for, and times of day are compared.
    const WITHIN_SECONDS: f64 = 10.0;
    let table = rows(include_str!("../reference/solar_rise_set.csv"));
    assert_eq!(table.len(), 48);
    let mut barely = Vec::new();
    for row in &table {
        let site = Site {
            latitude: row.number("lat_deg"),
            longitude: row.number("lon_deg"),
            elevation: Metres(0.0),
            utc_offset: 0.0,
            albedo: 0.2,
            horizon: vec![],
        };
        let midnight = moment(&format!("{}T00:00:00Z", row.text("local_date")));
        let part = |from: usize, to: usize| row.text("local_date")[from..to].parse::<u32>().expect("a figure");
        let year = i32::try_from(part(0, 4)).expect("a year");
        let day = sun_day(&site, year, part(5, 7), part(8, 10)).expect("a place and a day");
        for (what, found) in [("sunrise_utc", day.rise), ("transit_utc", day.noon), ("sunset_utc", day.set)] {
            let (Some(hours), false) = (found, row.text(what).is_empty()) else {
                assert!(row.text(what).is_empty(), "{what} in {row}");
                found.inspect(|_| barely.push(day.noon.map(|noon| midnight + noon / 24.0).zip(Some(site.clone()))));
                continue;
            };
            // The cell's thousandths of a second are cut off.
            let expected = (moment(row.text(what)) - midnight) * 86_400.0;
            let late = (hours * 3600.0 - expected + 43_200.0).rem_euclid(86_400.0) - 43_200.0;
            check(row, what, late, 0.0, WITHIN_SECONDS);
        }
    }
    // On the last day of a polar night the rim comes out for minutes; the library, with the declination of midnight, has
    // the sun stay below. At noon its centre is within 0.1° of where the rim touches the horizon.
    assert_eq!(barely.len(), 2, "rise and set of one day");
    for (noon, site) in barely.into_iter().flatten() {
        let sun = sun_position(&site, noon, 67.0, Refraction::usual(&site)).expect("a place and a time");
        assert!(sun.zenith < 90.8333 && sun.zenith > 90.7333, "{sun:?}");
    }
}

#[test]
fn the_clear_sky_is_as_bright_as_the_library_has_it() {
    let table = rows(include_str!("../reference/clearsky.csv"));
    assert_eq!(table.len(), 120);
    for row in &table {
        let same = |what: &str, found: f64| {
            let expected = row.number(what);
            check(row, what, found, expected, 1e-8 * expected.abs() + 1e-6);
        };
        let (zenith, pressure) = (row.number("apparent_zenith_deg"), row.number("pressure_pa"));
        let outside = extraterrestrial(row.text("day_of_year").parse().expect("a day"));
        same("dni_extra_spencer", outside);
        let relative = relative_air_mass(zenith).expect("the sun is up");
        same("airmass_relative", relative);
        same("airmass_absolute", absolute_air_mass(relative, pressure));

        let light = |model: ClearSky| model.light(zenith, outside, Metres(row.number("elev_m")), pressure);
        let haurwitz = light(ClearSky::Haurwitz).expect("needs no haze");
        same("haurwitz_ghi", haurwitz.global);
        same("erbs_of_haurwitz_dni", haurwitz.direct_normal);
        same("erbs_of_haurwitz_dhi", haurwitz.diffuse);
        let ineichen = light(ClearSky::Ineichen { linke_turbidity: row.number("linke_turbidity") }).expect("in range");
        same("ineichen_ghi", ineichen.global);
        same("ineichen_dni", ineichen.direct_normal);
        same("ineichen_dhi", ineichen.diffuse);
    }
}

#[test]
fn light_is_split_as_the_library_splits_it() {
    let table = rows(include_str!("../reference/decomposition_erbs.csv"));
    assert_eq!(table.len(), 60);
    for row in &table {
        let outside = extraterrestrial(row.text("day_of_year").parse().expect("a day"));
        let found = erbs(row.number("ghi"), row.number("zenith_deg"), outside);
        for (what, found) in [("dni", found.direct_normal), ("dhi", found.diffuse)] {
            check(row, what, found, row.number(what), 1e-8 * row.number(what) + 1e-6);
        }
    }
}

#[test]
fn each_face_gets_the_light_the_library_gives_it() {
    // Asked for is 0.5 % or 1 W/m²; the formulas are the same, so that only the printed digits differ.
    const WITHIN: f64 = 1e-3;
    const MODELS: [(SkyModel, &str); 3] =
        [(SkyModel::Isotropic, "iso"), (SkyModel::HayDavies, "hd"), (SkyModel::Perez, "perez")];
    let table = rows(include_str!("../reference/poa_faces.csv"));
    assert_eq!(table.len(), 320);
    for row in &table {
        let face = Face { tilt: row.number("surface_tilt_deg"), azimuth: row.number("surface_azimuth_deg") };
        let light =
            SkyLight { global: row.number("ghi"), direct_normal: row.number("dni"), diffuse: row.number("dhi") };
        let sun = towards(row.number("apparent_zenith_deg"), row.number("solar_azimuth_deg"));
        for (model, name) in MODELS {
            let found = face_light(face, sun, light, row.number("dni_extra"), row.number("albedo"), model);
            check(row, "beam", found.beam, row.number("beam"), WITHIN);
            check(row, "ground", found.ground, row.number("ground"), WITHIN);
            // An empty cell: the library divides nothing by nothing where there is no light in the sky; here it is 0.
            let sky =
                if row.text(&format!("sky_{name}")).is_empty() { 0.0 } else { row.number(&format!("sky_{name}")) };
            check(row, name, found.sky, sky, WITHIN);
        }
    }
}
