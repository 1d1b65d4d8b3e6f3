//! Weather that is not of the site.

use super::*;

/// A year measured at this place: every hour as warm as its month of the southern half has it.
fn southern_year(desk: &Desk, latitude: f64, longitude: f64) -> WeatherYear {
    let hour = |row: usize| {
        let month = ::climate::month_of_day(row / 24);
        let dry_bulb = if (3..9).contains(&month) { 5.0 } else { 25.0 };
        climate::Hour { dry_bulb, relative_humidity: 0.5, pressure: 1e5, ..climate::Hour::default() }
    };
    WeatherYear {
        name: "Made up".to_owned(),
        site: climate::Site { latitude, longitude, ..site(&desk.project.brief) },
        hours: (0..8760).map(hour).collect(),
        sun_at: 0.5,
        notes: vec![climate::Note { place: "file".to_owned(), text: "odd".to_owned(), count: 1 }],
    }
}

#[test]
fn weather_from_far_away_is_said_first_and_weather_across_the_date_line_is_near() {
    let mut desk = desk(10.0);
    let brief = &mut desk.project.brief;
    (brief.latitude, brief.longitude, brief.utc_offset) = (Degrees(-16.8), Degrees(179.99), 12.0);
    let notes = |latitude, longitude| {
        PreparedClimate::of(&desk.project.brief, Some(&southern_year(&desk, latitude, longitude))).unwrap().notes
    };
    assert_eq!(notes(-16.8, -179.99)[0], "file: odd");
    assert!(notes(-16.8, 179.0)[0].contains("105 km from the site"), "{:?}", notes(-16.8, 179.0));
    // A degree and a half of longitude is next to nothing near the pole.
    let mut polar = desk.clone();
    (polar.project.brief.latitude, polar.project.brief.longitude) = (Degrees(78.2), Degrees(15.6));
    polar.project.brief.utc_offset = 1.0;
    let near = PreparedClimate::of(&polar.project.brief, Some(&southern_year(&polar, 78.2, 17.1))).unwrap();
    assert_eq!(near.notes[0], "file: odd");
}

#[test]
fn weather_from_the_other_half_of_the_earth_leaves_the_hot_day_its_summer_sun() {
    let desk = desk(10.0);
    let brief = &desk.project.brief;
    let sun = |climate: &PreparedClimate| climate.hot_day.iter().map(|moment| moment.global).sum::<f64>();
    let own = PreparedClimate::of(brief, None).unwrap();
    let southern = PreparedClimate::of(brief, Some(&southern_year(&desk, -34.0, 151.0))).unwrap();
    assert_eq!(sun(&southern), sun(&own));
    // Measured at the site itself, such a year has its hottest month in winter, and the sun follows it.
    let at_home = PreparedClimate::of(brief, Some(&southern_year(&desk, brief.latitude.0, brief.longitude.0))).unwrap();
    assert!(sun(&at_home) < 0.8 * sun(&own), "{} {}", sun(&at_home), sun(&own));
}
