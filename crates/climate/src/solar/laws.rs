//! What must hold for any sun, any sky and any place.

use proptest::prelude::*;
use units::Metres;

use crate::{
    ClearSky, Face, FaceLight, HourLight, Site, SkyLight, SkyModel, YearClock, extraterrestrial, face_light, faces,
    light_year,
};

const MODELS: [SkyModel; 3] = [SkyModel::Isotropic, SkyModel::HayDavies, SkyModel::Perez];

fn site(latitude: f64, longitude: f64, utc_offset: f64, horizon: Vec<f64>) -> Site {
    Site { latitude, longitude, elevation: Metres(100.0), utc_offset, albedo: 0.3, horizon }
}

/// A year of the same light in every hour, night or day: no sun forbids it.
fn year(place: &Site, bearing: f64, model: SkyModel, light: SkyLight) -> Vec<HourLight> {
    let clock = YearClock::typical(8760);
    light_year(place, &clock, bearing, model, std::iter::repeat_n(light, 8760)).unwrap().collect()
}

fn each(hours: &[HourLight], test: impl Fn(&FaceLight) -> bool) -> bool {
    hours.iter().flat_map(|hour| &hour.faces).all(test)
}

fn in_bounds(face: &FaceLight) -> bool {
    [face.beam, face.sky, face.ground].iter().all(|part| part.is_finite() && *part >= 0.0)
}

fn models() -> impl Strategy<Value = SkyModel> {
    prop::sample::select(&MODELS[..])
}

fn lights() -> impl Strategy<Value = SkyLight> {
    let part = || prop_oneof![Just(0.0), Just(-3.0), Just(f64::NAN), 0.0..1400.0_f64, Just(1e9)];
    (part(), part(), part()).prop_map(|(global, direct_normal, diffuse)| SkyLight { global, direct_normal, diffuse })
}

fn direction(zenith: f64, azimuth: f64) -> [f64; 3] {
    let (sin_zenith, up) = libm::sincos(zenith.to_radians());
    let (east, north) = libm::sincos(azimuth.to_radians());
    [sin_zenith * east, sin_zenith * north, up]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn no_place_and_no_sky_gives_less_than_nothing(
        latitude in prop_oneof![Just(90.0), Just(-90.0), Just(0.0), -90.0..=90.0_f64],
        longitude in -180.0..=180.0_f64,
        bearing in -720.0..720.0_f64,
        hills in prop::collection::vec(0.0..=89.0_f64, 0..6),
        model in models(),
        light in lights(),
    ) {
        let hours = year(&site(latitude, longitude, 0.0, hills), bearing, model, light);
        prop_assert!(each(&hours, in_bounds));
        prop_assert!(hours.iter().all(|hour| hour.sun.direction.iter().all(|part| part.is_finite())));
        prop_assert!(hours.iter().all(|hour| hour.sun.apparent_zenith.is_finite() && hour.sun.azimuth().is_finite()));
    }

    #[test]
    fn hills_never_bring_light(latitude in -80.0..80.0_f64, hill in 1.0..60.0_f64, model in models()) {
        let light = SkyLight { global: 500.0, direct_normal: 600.0, diffuse: 120.0 };
        let open = year(&site(latitude, 0.0, 0.0, vec![]), 180.0, model, light);
        let shut = year(&site(latitude, 0.0, 0.0, vec![hill, 0.0, hill, 0.0]), 180.0, model, light);
        for (a, b) in open.iter().zip(&shut) {
            for (a, b) in a.faces.iter().zip(&b.faces) {
                prop_assert!(b.beam <= a.beam && b.ground <= a.ground + 1e-9);
                // A dark band at the horizon (Perez) is hidden too, so that the sky may gain what the band took.
                prop_assert!(model == SkyModel::Perez || b.sky <= a.sky + 1e-9);
            }
        }
    }
}

proptest! {
    #[test]
    fn one_moment_is_never_less_than_nothing(
        zenith in 0.0..=180.0_f64, azimuth in 0.0..360.0_f64, tilt in 0.0..=180.0_f64, front in 0.0..360.0_f64,
        model in models(), light in lights(),
    ) {
        let face = Face { tilt, azimuth: front };
        prop_assert!(in_bounds(&face_light(face, direction(zenith, azimuth), light, 1366.0, 0.2, model)));
    }

    #[test]
    fn east_and_west_change_places_about_solar_noon(
        zenith in 0.0..90.0_f64, from_south in 0.0..180.0_f64, model in models(),
    ) {
        let outside = extraterrestrial(172);
        let light = ClearSky::Ineichen { linke_turbidity: 3.0 }.light(zenith, outside, Metres(0.0), 101_325.0).unwrap();
        let on = |azimuth| faces(180.0).map(|face| face_light(face, direction(zenith, azimuth), light, outside, 0.2, model));
        let [top_am, south_am, east_am, north_am, west_am] = on(180.0 - from_south).map(|face| face.total());
        let [top_pm, south_pm, east_pm, north_pm, west_pm] = on(180.0 + from_south).map(|face| face.total());
        for (am, pm) in
            [(top_am, top_pm), (south_am, south_pm), (east_am, west_pm), (north_am, north_pm), (west_am, east_pm)]
        {
            prop_assert!((am - pm).abs() < 1e-6, "{am} {pm}");
        }
    }

    #[test]
    fn the_top_sees_the_whole_of_an_even_sky(zenith in 0.0..=180.0_f64, azimuth in 0.0..360.0_f64, diffuse in 0.0..800.0_f64) {
        let light = SkyLight { global: diffuse, direct_normal: 0.0, diffuse };
        let top = faces(0.0)[0];
        let found = face_light(top, direction(zenith, azimuth), light, 1366.0, 0.2, SkyModel::Isotropic);
        prop_assert_eq!(found, FaceLight { beam: 0.0, sky: diffuse, ground: 0.0 });
    }

    #[test]
    fn turning_cabinet_and_sun_together_changes_nothing(turn in 0.0..360.0_f64, zenith in 0.0..89.0_f64, model in models()) {
        let light = SkyLight { global: 500.0, direct_normal: 600.0, diffuse: 120.0 };
        let on = |bearing, azimuth| faces(bearing).map(|face| face_light(face, direction(zenith, azimuth), light, 1366.0, 0.2, model));
        for (a, b) in on(0.0, 70.0).iter().zip(on(turn, 70.0 + turn)) {
            prop_assert!((a.total() - b.total()).abs() < 1e-6);
        }
    }
}

#[test]
fn the_sun_overhead_is_an_ordinary_sun() {
    let light = SkyLight { global: 1100.0, direct_normal: 1000.0, diffuse: 100.0 };
    for model in MODELS {
        let [top, front, right, rear, left] =
            faces(45.0).map(|face| face_light(face, [0.0, 0.0, 1.0], light, 1366.0, 0.0, model));
        assert!((top.total() - 1100.0).abs() < 1e-9, "{model:?} {top:?}");
        for wall in [front, right, rear, left] {
            assert!(in_bounds(&wall) && wall.beam < 1e-9, "{model:?} {wall:?}");
        }
    }
}

#[test]
fn a_hill_in_the_south_takes_the_noon_sun_in_winter_only() {
    let light = SkyLight { global: 500.0, direct_normal: 600.0, diffuse: 120.0 };
    // 30° high all round at 47° north: the noon sun stands at 20° in winter and at 66° in summer.
    let hours = year(&site(47.0, 0.0, 0.0, vec![30.0; 4]), 180.0, SkyModel::Isotropic, light);
    let front = |row: usize| hours[row].faces[1];
    assert_eq!(front(355 * 24 + 11).beam, 0.0);
    assert!(front(171 * 24 + 11).beam > 200.0);
    // 1 − (2 h + sin 2h) / π of half the sky, and the ground without beam and with cos² h of the sky.
    let share = 1.0 - (2.0 * 30.0_f64.to_radians() + libm::sin(60.0_f64.to_radians())) / std::f64::consts::PI;
    assert!((front(355 * 24 + 11).sky - 60.0 * share).abs() < 0.2);
}

#[test]
fn polar_summer_has_no_night() {
    let light = SkyLight { global: 300.0, direct_normal: 400.0, diffuse: 100.0 };
    let hours = year(&site(80.0, 0.0, 0.0, vec![]), 180.0, SkyModel::Perez, light);
    let june = &hours[171 * 24..172 * 24];
    assert!(june.iter().all(|hour| hour.faces[0].beam > 0.0));
    // Some wall has the sun at every hour of that day.
    assert!(june.iter().all(|hour| hour.faces[1..].iter().any(|wall| wall.beam > 200.0)));
    let december = &hours[354 * 24..355 * 24];
    assert!(december.iter().all(|hour| hour.faces.iter().all(|face| face.beam == 0.0)));
}
