//! The year's weather and the hot and cold day (`days.rs`) as a cabinet with a given front sees them: what does not depend on
//! the build, and so may be kept from one build to the next.
//!
//! Sun and light:  `climate`'s position, Perez' sky, the ground's albedo of the brief; the clear sky of a stated year is by
//!                 Ineichen with a Linke turbidity of 3 (country air; common practice, no source).
//! Sky's warmth:   as measured where the weather has it, else a clear sky by Berdahl and Martin.
//! Wind:           a weather file's stands for 10 m over open ground; at 1.5 m among houses 0.47 of it is left (ASHRAE
//!                 Fundamentals, wind profiles, from memory, to be confirmed). A stated year's is taken as it is.
//! Time:           local standard time, 8760 hours.

use climate::convection::sky_radiation;
use climate::{
    ClearSky, Extremes, HOURS, Hour, HourSun, MonthlyMeans, Note, Refraction, Site, SkyLight, SkyModel, WeatherYear,
    YearClock, light_year, monthly_means, sun_year, synthetic_year,
};
use project::{Brief, ColdDay, HotDay};

use super::Problem;
use super::days::Days;
use super::moment::{IN_CLIMATE, LIT_FACES, Moment};

/// Haze of the clear sky in the design day and in a stated year.
pub const CLEAR: ClearSky = ClearSky::Ineichen { linke_turbidity: 3.0 };
/// Share of a station's wind, 10 m over open ground, that is left at 1.5 m among houses.
const STATION_WIND: f64 = 0.47;
/// Weather from within so many km and so many m of height is taken for that of the site without a word. Common practice, no
/// source.
const NEAR: f64 = 50.0;
const NEAR_IN_HEIGHT: f64 = 200.0;

/// Weather and sun as a cabinet sees them.
#[derive(Clone, Debug, PartialEq)]
pub struct PreparedClimate {
    /// The year's weather, in words.
    pub weather: String,
    /// What was corrected or assumed, one sentence each.
    pub notes: Vec<String>,
    /// The year, hour by hour.
    pub year: Vec<Moment>,
    /// The hot day.
    pub hot_day: Vec<Moment>,
    /// The cold day.
    pub cold_day: Vec<Moment>,
    /// Pressure of the air at the site, Pa.
    pub pressure: f64,
    /// Share of the sky that the horizon leaves to each face.
    pub sky_share: [f64; LIT_FACES],
    key: Key,
}

/// What of a brief it was made from.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    numbers: Vec<f64>,
    months: Option<Box<project::MonthlyMeans>>,
    days: (HotDay, ColdDay),
}

impl Key {
    fn of(brief: &Brief) -> Self {
        let mut numbers = vec![
            brief.elevation.0,
            brief.latitude.0,
            brief.longitude.0,
            brief.utc_offset,
            brief.albedo,
            brief.bearing.0,
            brief.hottest.0,
            brief.coldest.0,
            brief.daily_range.0,
        ];
        numbers.extend(brief.horizon.iter().map(|angle| angle.0));
        Self { numbers, months: brief.months.clone(), days: (brief.hot_day, brief.cold_day) }
    }
}

/// The site of a brief.
#[must_use]
pub fn site(brief: &Brief) -> Site {
    Site {
        latitude: brief.latitude.0,
        longitude: brief.longitude.0,
        elevation: brief.elevation,
        utc_offset: brief.utc_offset,
        albedo: brief.albedo,
        horizon: brief.horizon.iter().map(|angle| angle.0).collect(),
    }
}

impl PreparedClimate {
    /// Prepares a year of a weather file, or without one the stated year of the brief.
    ///
    /// # Errors
    /// What of the brief or the weather lies outside its range.
    pub fn of(brief: &Brief, weather: Option<&WeatherYear>) -> Result<Self, Problem> {
        let site = site(brief);
        if let Some(problem) = site.check().into_iter().next() {
            return Err(problem.into());
        }
        if !brief.bearing.0.is_finite() {
            return Err(Problem::new("bearing", format!("{}", brief.bearing.0), "a number of degrees"));
        }
        let air = climate::standard_air(brief.elevation).ok_or_else(|| {
            Problem::new("elevation", format!("{} m", brief.elevation.0), "a height of the atmosphere")
        })?;
        let mut notes: Vec<String> = weather.and_then(|file| elsewhere(&site, &file.site)).into_iter().collect();
        let far = !notes.is_empty();
        let stated;
        let (weather, wind) = if let Some(file) = weather {
            (file, STATION_WIND)
        } else {
            stated = stated_year(brief, &site)?;
            (&stated, 1.0)
        };
        notes.extend(weather.notes.iter().map(ToString::to_string));
        let year = year(brief, &site, weather, wind, &mut notes)?;
        let means = if far {
            // The sun of the hot day is that of the brief's site, whose summer may be the other's winter.
            months(brief).0.map(|month| month.air.0)
        } else {
            let outside: Vec<f64> = year.iter().map(|moment| moment.outside).collect();
            monthly_means(&outside).unwrap_or_default()
        };
        let days = Days { brief, site: &site, pressure: air.pressure, hottest_month: hottest_month(&means) };
        let (hot_day, cold_day) = (days.hot(&mut notes)?, days.cold(&mut notes)?);
        let in_climate = climate::faces(brief.bearing.0);
        let sky_share = IN_CLIMATE.map(|place| site.sky_share(in_climate[place]));
        Ok(Self {
            weather: weather.name.clone(),
            notes,
            hot_day,
            cold_day,
            year,
            pressure: air.pressure,
            sky_share,
            key: Key::of(brief),
        })
    }

    /// Whether it was made for a brief that says the same of site, front and design days.
    #[must_use]
    pub fn suits(&self, brief: &Brief) -> bool {
        self.key == Key::of(brief)
    }
}

/// The months of a brief: said, or guessed.
fn months(brief: &Brief) -> project::MonthlyMeans {
    brief.months.as_deref().copied().unwrap_or_else(|| project::MonthlyMeans::guessed(brief))
}

fn stated_year(brief: &Brief, site: &Site) -> Result<WeatherYear, Problem> {
    let months = months(brief).0;
    let column = |of: fn(&project::Month) -> f64| std::array::from_fn(|month| of(&months[month]));
    let means = MonthlyMeans {
        dry_bulb: column(|month| month.air.0),
        daily_range: column(|month| month.daily_range.0),
        clearness: column(|month| month.clearness),
        wind: column(|month| month.wind),
    };
    let clear = clear_year(site).ok_or_else(|| Problem::new("site", "no sun can be reckoned", ""))?;
    let (hottest, coldest) = (Some(brief.hottest.0), Some(brief.coldest.0));
    // Months that make hotter or colder hours by themselves than the design temperatures keep them.
    let tries = [
        (Extremes { hottest, coldest }, ""),
        (Extremes { hottest: None, coldest }, "the hottest hour"),
        (Extremes { hottest, coldest: None }, "the coldest hour"),
        (Extremes::default(), "the hottest and the coldest hour"),
    ];
    let mut first = None;
    for (extremes, left) in tries {
        match synthetic_year(site, &means, extremes, &clear) {
            Ok(mut year) => {
                if !left.is_empty() {
                    let text = format!("{left} of the brief is not met, as the months alone go beyond it");
                    year.notes.push(Note { place: "months".to_owned(), text, count: 1 });
                }
                return Ok(year);
            }
            Err(problems) => first = first.or_else(|| problems.into_iter().next()),
        }
    }
    Err(first.map_or_else(|| Problem::new("months", "no year can be made", ""), Problem::from))
}

/// A clear sky in every hour of the year.
fn clear_year(site: &Site) -> Option<Vec<SkyLight>> {
    let refraction = Refraction::usual(site);
    let suns = sun_year(site, &YearClock::typical(HOURS), refraction)?;
    let light = |(row, sun): (usize, HourSun)| {
        let outside = climate::extraterrestrial(day_of(row));
        CLEAR.light(sun.apparent_zenith, outside, site.elevation, refraction.pressure)
    };
    suns.enumerate().map(light).collect()
}

/// Day of the year of a row, counted from 1.
pub fn day_of(row: usize) -> u32 {
    u32::try_from(row / 24 + 1).unwrap_or(1)
}

fn year(
    brief: &Brief,
    site: &Site,
    weather: &WeatherYear,
    wind: f64,
    notes: &mut Vec<String>,
) -> Result<Vec<Moment>, Problem> {
    if weather.hours.len() != HOURS {
        return Err(Problem::new("weather", format!("{} hours", weather.hours.len()), format!("{HOURS} hours")));
    }
    // The sun of the place where the weather was measured, over the ground and the horizon of the brief.
    let measured = Site { albedo: site.albedo, horizon: site.horizon.clone(), ..weather.site.clone() };
    if let Some(problem) = measured.check().into_iter().next() {
        return Err(Problem::new(format!("weather, {}", problem.place), problem.found, problem.allowed));
    }
    let clock = YearClock { sun_offset: weather.sun_at, ..YearClock::typical(HOURS) };
    let lights = weather.hours.iter().map(Hour::light);
    let light = light_year(&measured, &clock, brief.bearing.0, SkyModel::Perez, lights)
        .ok_or_else(|| Problem::new("weather", "no sun can be reckoned at its site", ""))?;
    let front = libm::sincos(brief.bearing.0.to_radians());
    let mut sky_reckoned = 0;
    let mut moments = Vec::with_capacity(HOURS);
    for (row, (hour, light)) in weather.hours.iter().zip(light).enumerate() {
        let sky = hour.horizontal_infrared.unwrap_or_else(|| {
            sky_reckoned += 1;
            sky_radiation(hour.dry_bulb, hour.relative_humidity)
        });
        let mut moment = Moment { outside: hour.dry_bulb, wind: wind * hour.wind, sky, ..Moment::default() };
        if !(moment.outside.is_finite() && moment.wind.is_finite() && moment.sky.is_finite()) {
            return Err(Problem::new(climate::when(row), format!("{hour:?}"), "numbers"));
        }
        moment.light(&light, hour.global, front);
        moments.push(moment);
    }
    if sky_reckoned > 0 {
        let hours = if sky_reckoned == 1 { "hour" } else { "hours" };
        notes.push(format!(
            "The sky's warmth is that of a clear sky (Berdahl and Martin) in {sky_reckoned} {hours}, as nobody measured it"
        ));
    }
    Ok(moments)
}

/// What is to be said when the weather was measured far from the site: beyond [`NEAR`] or [`NEAR_IN_HEIGHT`].
fn elsewhere(site: &Site, measured: &Site) -> Option<String> {
    let (away, higher) = (site.distance(measured), measured.elevation.0 - site.elevation.0);
    let place = |site: &Site| format!("{:.2}°, {:.2}°, {:.0} m", site.latitude, site.longitude, site.elevation.0);
    (away > NEAR || higher.abs() > NEAR_IN_HEIGHT).then(|| {
        let up = if higher < 0.0 { "lower" } else { "higher" };
        format!(
            "The weather was measured {away:.0} km from the site and {:.0} m {up} (at {}; the site lies at {}): its \
             temperatures are taken as they are, a file from nearer would help",
            higher.abs(),
            place(measured),
            place(site)
        )
    })
}

/// The month whose mean is hottest, counted from 0.
fn hottest_month(means: &[f64; 12]) -> usize {
    let mut hottest = 0;
    for month in 1..12 {
        if means[month] > means[hottest] {
            hottest = month;
        }
    }
    hottest
}
