use proptest::prelude::*;

use super::*;
use crate::erbs;

fn site(latitude: f64) -> Site {
    Site { latitude, longitude: 0.0, elevation: Metres(300.0), utc_offset: 0.0, albedo: 0.2, horizon: vec![] }
}

/// A sun that stands 12 hours every day: its cosine is a half sine.
fn sky() -> Vec<SkyLight> {
    let light = |row: usize| {
        let cosine = libm::fmax(libm::sin((row as f64 % 24.0 + 0.5 - 6.0) / 12.0 * PI), 0.0);
        let direct_normal = if cosine > 0.0 { 850.0 } else { 0.0 };
        let diffuse = 90.0 * cosine;
        SkyLight { global: direct_normal * cosine + diffuse, direct_normal, diffuse }
    };
    (0..HOURS).map(light).collect()
}

/// Months that leave room for their extremes: a cosine over the year, warmest in July or in January.
fn means(latitude: f64, hottest: f64, coldest: f64) -> MonthlyMeans {
    let span = hottest - coldest;
    let range = libm::fmin(10.0, 0.3 * span);
    let (mean, amplitude) = ((hottest + coldest) / 2.0 + 0.05 * span, (span - range) / 4.0);
    let warmest = if latitude < 0.0 { 0.0 } else { 6.0 };
    MonthlyMeans {
        dry_bulb: std::array::from_fn(|month| mean + amplitude * libm::cos((month as f64 - warmest) * PI / 6.0)),
        daily_range: [range; 12],
        clearness: [0.7; 12],
        wind: [3.0; 12],
    }
}

fn made(latitude: f64, hottest: f64, coldest: f64) -> WeatherYear {
    let means = means(latitude, hottest, coldest);
    let extremes = Extremes { hottest: Some(hottest), coldest: Some(coldest) };
    synthetic_year(&site(latitude), &means, extremes, &sky()).unwrap()
}

/// Hottest and coldest hour and every month are as asked.
fn check(year: &WeatherYear, means: &MonthlyMeans, hottest: f64, coldest: f64) {
    let found = year.air_statistics().unwrap();
    assert!((found.max - hottest).abs() <= 0.005 + 1e-9, "{} instead of {hottest}", found.max);
    assert!((found.min - coldest).abs() <= 0.005 + 1e-9, "{} instead of {coldest}", found.min);
    for (found, wanted) in found.monthly.iter().zip(means.dry_bulb) {
        assert!((found - wanted).abs() <= 0.05, "{found} instead of {wanted}");
    }
}

#[test]
fn a_year_has_the_extremes_and_the_months_that_were_asked_for() {
    for (latitude, hottest, coldest) in
        [(45.0, 40.0, -25.0), (-34.0, 43.3, 1.0), (2.0, 35.0, 22.0), (64.0, 30.0, -51.0)]
    {
        let means = means(latitude, hottest, coldest);
        check(&made(latitude, hottest, coldest), &means, hottest, coldest);
    }
}

#[test]
fn a_year_says_what_it_is() {
    let year = made(45.0, 40.0, -25.0);
    assert_eq!(year.name, "Synthetic year from monthly means");
    assert_eq!((year.hours.len(), year.sun_at), (HOURS, 0.5));
    let said: Vec<String> = year.notes.iter().map(ToString::to_string).collect();
    assert_eq!(said[0], "year: made from monthly means; nothing in it is measured");
    assert!(said[1].ends_with("so that the hottest and the coldest hour are as asked"), "{}", said[1]);
    assert!(said[2].contains("from memory"), "{}", said[2]);
}

#[test]
fn the_sun_of_each_month_is_the_share_that_was_asked_for() {
    let mut means = means(45.0, 40.0, -20.0);
    means.clearness = [0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 0.0, 0.2, 0.25];
    let year = synthetic_year(&site(45.0), &means, Extremes::default(), &sky()).unwrap();
    let light: Vec<f64> = year.hours.iter().map(|hour| hour.global).collect();
    let clear: Vec<f64> = sky().iter().map(|light| light.global).collect();
    let (found, clear) = (monthly_means(&light).unwrap(), monthly_means(&clear).unwrap());
    for month in 0..12 {
        let share = found[month] / clear[month];
        assert!((share - means.clearness[month]).abs() <= 0.002 * means.clearness[month], "{month}: {share}");
    }
    for (hour, clear) in year.hours.iter().zip(sky()) {
        assert!(hour.global <= clear.global + 0.05 && hour.direct_normal <= clear.direct_normal + 0.05);
        // Global stays beam and sky together: the cosine is that of the clear sky.
        let cosine = if clear.direct_normal > 0.0 { (clear.global - clear.diffuse) / clear.direct_normal } else { 0.0 };
        assert!((hour.global - hour.diffuse - hour.direct_normal * cosine).abs() <= 0.2, "{hour:?}");
    }
}

#[test]
fn no_hour_jumps_and_the_year_closes() {
    let year = made(45.0, 40.0, -25.0);
    for row in 0..HOURS {
        let step = year.hours[(row + 1) % HOURS].dry_bulb - year.hours[row].dry_bulb;
        assert!(step.abs() < 4.0, "{step} K after hour {row}");
    }
}

#[test]
fn without_extremes_the_weather_is_half_the_daily_range() {
    let means = means(45.0, 40.0, -20.0);
    let year = synthetic_year(&site(45.0), &means, Extremes::default(), &sky()).unwrap();
    assert!(year.notes[1].text.contains("5.0 K warmer and 5.0 K colder"), "{}", year.notes[1]);
    let found = year.air_statistics().unwrap();
    assert!(found.max < 40.0 && found.min > -20.0);
    let hot = Extremes { hottest: Some(41.5), coldest: None };
    let found = synthetic_year(&site(45.0), &means, hot, &sky()).unwrap().air_statistics().unwrap();
    assert_eq!(found.max, 41.5);
}

#[test]
fn extremes_without_room_are_refused() {
    let means = means(45.0, 40.0, -20.0);
    let extremes = Extremes { hottest: Some(30.0), coldest: Some(-1.0) };
    let said = synthetic_year(&site(45.0), &means, extremes, &sky()).unwrap_err();
    let places: Vec<&str> = said.iter().map(|problem| problem.place.as_str()).collect();
    assert_eq!(places, ["hottest", "coldest"]);
}

#[test]
fn everything_outside_its_range_is_said() {
    let mut means = means(45.0, 40.0, -20.0);
    means.daily_range[4] = -1.0;
    let extremes = Extremes { hottest: Some(f64::NAN), coldest: None };
    let mut dark = sky();
    dark.truncate(100);
    dark[7].diffuse = f64::NAN;
    let said = synthetic_year(&site(95.0), &means, extremes, &dark).unwrap_err();
    let places: Vec<&str> = said.iter().map(|problem| problem.place.as_str()).collect();
    assert_eq!(places, ["latitude", "daily range, May", "hottest", "clear sky", "clear sky, hour 7"]);
}

#[test]
fn a_dull_sky_has_the_diffuse_share_of_a_published_formula() {
    // A clear sun at 45° under 1366 W/m²: 700 W/m² on the ground, 90 of it from the sky.
    let clear = SkyLight { global: 700.0, direct_normal: 610.0 / libm::cos(PI / 4.0), diffuse: 90.0 };
    for c in [0.55, 0.65, 0.75, 0.83] {
        let found = dulled(clear, c);
        let published = erbs(found.global, 45.0, 1366.0);
        let (found, published) = (found.diffuse / found.global, published.diffuse / published.global);
        assert!((found - published).abs() <= 0.12, "{c}: {found} instead of {published}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    #[test]
    fn extremes_that_the_means_leave_room_for_are_met(latitude in -90.0..90.0_f64, hottest in 0.0..55.0_f64, span in 1.0..90.0_f64) {
        let coldest = hottest - span;
        let means = means(latitude, hottest, coldest);
        check(&made(latitude, hottest, coldest), &means, hottest, coldest);
    }
}
