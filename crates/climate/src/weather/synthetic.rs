//! A stated year from twelve monthly means: nothing in it is measured, and it says so.
//!
//! T(k) = b(k) + s₊ · max(w, 0) + s₋ · min(w, 0) + R(k) · (f̄ − f(k))
//! w(k) = 0.4 sin(19 τ) + 0.3 sin(31 τ + 1) + 0.2 sin(53 τ + 2) + 0.1 sin(83 τ + 3),   τ = 2π (k + ½) / 8760
//! G    = c · G₀,   B = c³ · B₀,   D = c · G₀ − c³ · (G₀ − D₀)
//! c    = c̄ + ½ · min(c̄, 1 − c̄) · (x − x̄),   x = 2 · min(2 |w|, 1) − 1 at noon
//!
//! - T        outdoor air in row k                                                        [°C]
//! - b, R     season and daily range, straight lines between the middles of the months   [°C, K]
//! - w        weather from day to day, −1 to 1: four sines that close in the year         [–]
//! - s₊, s₋   how much warmer and colder than the season the weather makes it            [K]
//! - f, f̄     share of the daily range and its mean, as in `design_day.rs`               [–]
//! - G, B, D  global, direct normal and diffuse; with ₀ those of a clear sky             [W/m²]
//! - c, c̄     clearness of the day, and that of the month                                [–]
//! - x, x̄     clear in spells of heat and cold, dull between; its mean in the month       [–]
//!
//! The season is bent until each month has its mean, and s₊ and s₋ are chosen so that hottest and coldest hour are those of
//! the brief; without them both are half the mean daily range.
//!
//! Source:      ours; that beam falls with the cube of clearness follows the diffuse share of Erbs at a clearness index of
//!              0.4 to 0.6 within 0.12 (tests).
//! Valid for:   the ranges of [`MonthlyMeans::check`].
//! Agreement:   hottest and coldest hour within the grid of 0.01 K, monthly means within 0.05 K, monthly sun within 0.2 %.
//! Not covered: chance. A real year has other spells; its order of hours cannot be had from means.

use std::f64::consts::PI;

use units::Metres;

use super::design_day::{FRACTIONS, FRACTIONS_ARE};
use super::humidity;
use crate::{
    CalendarMonth, HIGHEST, HOURS, Hour, LOWEST, MONTHS, MonthlyMeans, Note, Site, SkyLight, WeatherProblem,
    WeatherYear, monthly_means, standard_air,
};

/// Sines of the weather: turns in a year, share, phase.
const SINES: [(f64, f64, f64); 4] = [(19.0, 0.4, 0.0), (31.0, 0.3, 1.0), (53.0, 0.2, 2.0), (83.0, 0.1, 3.0)];
/// Times the season is bent; each leaves less than half of what is wrong.
const BENDS: usize = 20;
/// Weather without design temperatures, share of the mean daily range.
const USUAL_WEATHER: f64 = 0.5;

/// The hottest and the coldest hour that a year shall have, where they are known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Extremes {
    /// Hottest hour, °C.
    pub hottest: Option<f64>,
    /// Coldest hour, °C.
    pub coldest: Option<f64>,
}

/// Makes a year at a site from monthly means and the light of a clear sky in each of its [`HOURS`], sun at mid-hour.
///
/// # Errors
/// Everything that is outside its range, or extremes that the monthly means leave no room for.
pub fn synthetic_year(
    site: &Site,
    means: &MonthlyMeans,
    extremes: Extremes,
    clear_sky: &[SkyLight],
) -> Result<WeatherYear, Vec<WeatherProblem>> {
    let problems = check(site, means, extremes, clear_sky);
    if !problems.is_empty() {
        return Err(problems);
    }
    let months = Months::new();
    let weather: Vec<f64> = (0..HOURS).map(weather).collect();
    let swing = swing(&months.line(&months.nodes(&means.daily_range)));
    let air = Air::solve(&months, &weather, &swing, means, extremes)?;
    let wind = months.line(&months.nodes(&means.wind));
    let light = lights(&weather, &means.clearness, clear_sky);
    let height = Metres(site.elevation.0.clamp(LOWEST.0, HIGHEST.0));
    let pressure = standard_air(height).map_or(0.0, |air| air.pressure);
    let mut hours = Vec::with_capacity(HOURS);
    for (day, (air, light)) in air.hours.as_chunks::<24>().0.iter().zip(light.as_chunks::<24>().0).enumerate() {
        let humidity = humidity::of_day(air);
        hours.extend((0..24).map(|row| {
            let hour = Hour {
                dry_bulb: air[row],
                global: light[row].global,
                direct_normal: light[row].direct_normal,
                diffuse: light[row].diffuse,
                wind: libm::fmax(wind[day * 24 + row], 0.0),
                relative_humidity: humidity[row],
                pressure,
                horizontal_infrared: None,
            };
            hour.kept()
        }));
    }
    let notes = notes(&air, extremes);
    Ok(WeatherYear {
        name: "Synthetic year from monthly means".to_owned(),
        site: site.clone(),
        hours,
        sun_at: 0.5,
        notes,
    })
}

fn check(site: &Site, means: &MonthlyMeans, extremes: Extremes, clear_sky: &[SkyLight]) -> Vec<WeatherProblem> {
    let mut problems: Vec<WeatherProblem> =
        site.check().into_iter().map(|told| WeatherProblem::new(told.place, told.found, told.allowed)).collect();
    problems.extend(means.check());
    for (name, value) in [("hottest", extremes.hottest), ("coldest", extremes.coldest)] {
        if let Some(value) = value.filter(|value| !(-90.0..=60.0).contains(value)) {
            problems.push(WeatherProblem::new(name, format!("{value} °C"), "-90 to 60 °C"));
        }
    }
    if clear_sky.len() != HOURS {
        problems.push(WeatherProblem::new("clear sky", format!("{} hours", clear_sky.len()), format!("{HOURS} hours")));
    }
    let bad = |light: &SkyLight| {
        ![light.global, light.direct_normal, light.diffuse].iter().all(|value| (0.0..=2000.0).contains(value))
    };
    if let Some(row) = clear_sky.iter().position(bad) {
        let found = format!("{:?}", clear_sky[row]);
        problems.push(WeatherProblem::new(format!("clear sky, hour {row}"), found, "0 to 2000 W/m² each"));
    }
    problems
}

fn notes(air: &Air, extremes: Extremes) -> Vec<Note> {
    let said = |place: &str, text: String| Note { place: place.to_owned(), text, count: HOURS };
    let met = match extremes {
        Extremes { hottest: Some(_), coldest: Some(_) } => "so that the hottest and the coldest hour are as asked",
        Extremes { hottest: Some(_), coldest: None } => "so that the hottest hour is as asked",
        Extremes { hottest: None, coldest: Some(_) } => "so that the coldest hour is as asked",
        Extremes { hottest: None, coldest: None } => "an assumption",
    };
    vec![
        said("year", "made from monthly means; nothing in it is measured".to_owned()),
        said(
            "dry bulb",
            format!(
                "weather makes it up to {:.1} K warmer and {:.1} K colder than the season, {met}",
                air.warmer, air.colder
            ),
        ),
        said("daily course", FRACTIONS_ARE.to_owned()),
        said("relative humidity", "from a dew point at the day's lowest temperature, at most 20 °C".to_owned()),
        said("pressure", "of the standard atmosphere at the site's elevation".to_owned()),
    ]
}

/// The weather in the middle of a row, −1 to 1.
fn weather(row: usize) -> f64 {
    let tau = 2.0 * PI * (row as f64 + 0.5) / HOURS as f64;
    SINES.iter().map(|(turns, share, phase)| share * libm::sin(turns * tau + phase)).sum()
}

/// R(k) · (f̄ − f(k)): above and below the mean of the day, K.
fn swing(range: &[f64]) -> Vec<f64> {
    let mean = FRACTIONS.iter().sum::<f64>() / 24.0;
    range.iter().zip(FRACTIONS.iter().cycle()).map(|(range, fraction)| range * (mean - fraction)).collect()
}

/// Outdoor air of a year.
struct Air {
    /// °C.
    hours: Vec<f64>,
    /// s₊ and s₋, K.
    warmer: f64,
    colder: f64,
}

impl Air {
    fn solve(
        months: &Months,
        weather: &[f64],
        swing: &[f64],
        means: &MonthlyMeans,
        extremes: Extremes,
    ) -> Result<Self, Vec<WeatherProblem>> {
        let usual = USUAL_WEATHER * means.daily_range.iter().sum::<f64>() / 12.0;
        let mut nodes = means.dry_bulb;
        let mut air = Self { hours: Vec::new(), warmer: usual, colder: usual };
        for _ in 0..BENDS {
            let base: Vec<f64> = months.line(&nodes).iter().zip(swing).map(|(line, swing)| line + swing).collect();
            // The greatest swing of the weather that does not pass the extreme in any hour touches it in one.
            let room = |limit: f64, sign: f64| {
                let rooms = base.iter().zip(weather).filter(|(_, weather)| sign * **weather > 0.0);
                rooms.map(|(base, weather)| (limit - base) / weather).fold(f64::INFINITY, libm::fmin)
            };
            air.warmer = extremes.hottest.map_or(usual, |limit| room(limit, 1.0));
            air.colder = extremes.coldest.map_or(usual, |limit| room(limit, -1.0));
            let swung = |weather: f64| libm::fmax(weather, 0.0) * air.warmer + libm::fmin(weather, 0.0) * air.colder;
            air.hours = base.iter().zip(weather).map(|(base, weather)| base + swung(*weather)).collect();
            if let Some(found) = monthly_means(&air.hours) {
                for ((node, wanted), found) in nodes.iter_mut().zip(means.dry_bulb).zip(found) {
                    *node += wanted - found;
                }
            }
        }
        air.check(extremes)
    }

    /// The year, if the months leave room for the extremes.
    fn check(self, extremes: Extremes) -> Result<Self, Vec<WeatherProblem>> {
        let mut problems = Vec::new();
        if let Some(hottest) = extremes.hottest
            && (self.warmer < 0.0 || self.hours.iter().any(|air| *air > hottest + 1e-6))
        {
            let allowed = "more than the hottest hour that monthly means and daily ranges alone make";
            problems.push(WeatherProblem::new("hottest", format!("{hottest} °C"), allowed));
        }
        if let Some(coldest) = extremes.coldest
            && (self.colder < 0.0 || self.hours.iter().any(|air| *air < coldest - 1e-6))
        {
            let allowed = "less than the coldest hour that monthly means and daily ranges alone make";
            problems.push(WeatherProblem::new("coldest", format!("{coldest} °C"), allowed));
        }
        if problems.is_empty() { Ok(self) } else { Err(problems) }
    }
}

/// Straight lines between the middles of the months, round the year.
struct Months {
    /// For each hour the month behind, and how far it is on the way to the next.
    places: Vec<(usize, f64)>,
}

impl Months {
    fn new() -> Self {
        let middles = MONTHS.map(|month| month.first as f64 * 24.0 + month.days as f64 * 12.0);
        let year = HOURS as f64;
        let places = (0..HOURS).map(|row| {
            let hour = row as f64 + 0.5;
            let behind = middles.iter().rposition(|middle| *middle <= hour).unwrap_or(11);
            let way = (middles[(behind + 1) % 12] - middles[behind]).rem_euclid(year);
            (behind, (hour - middles[behind]).rem_euclid(year) / way)
        });
        Self { places: places.collect() }
    }

    /// Hourly values between those of the middles.
    fn line(&self, nodes: &[f64; 12]) -> Vec<f64> {
        let read = |(behind, part): &(usize, f64)| nodes[*behind] + (nodes[(behind + 1) % 12] - nodes[*behind]) * part;
        self.places.iter().map(read).collect()
    }

    /// Values at the middles of the months whose lines have these means.
    fn nodes(&self, means: &[f64; 12]) -> [f64; 12] {
        let mut nodes = *means;
        for _ in 0..BENDS {
            if let Some(found) = monthly_means(&self.line(&nodes)) {
                for ((node, wanted), found) in nodes.iter_mut().zip(means).zip(found) {
                    *node += wanted - found;
                }
            }
        }
        nodes
    }
}

/// The light of each hour under the clouds of its day.
fn lights(weather: &[f64], clearness: &[f64; 12], clear_sky: &[SkyLight]) -> Vec<SkyLight> {
    let mut lights = Vec::with_capacity(HOURS);
    let mut days = clear_sky.as_chunks::<24>().0.iter().zip(weather.as_chunks::<24>().0);
    for (CalendarMonth { days: length, .. }, mean) in MONTHS.into_iter().zip(clearness) {
        let month: Vec<(&[SkyLight; 24], f64)> = days
            .by_ref()
            .take(length)
            .map(|(sky, weather)| (sky, 2.0 * libm::fmin(2.0 * weather[12].abs(), 1.0) - 1.0))
            .collect();
        let sun = |sky: &[SkyLight; 24]| sky.iter().map(|light| light.global).sum::<f64>();
        let whole: f64 = month.iter().map(|(sky, _)| sun(sky)).sum();
        let weighted: f64 = month.iter().map(|(sky, x)| sun(sky) * x).sum();
        // Months of polar night have no mean to keep.
        let mean_x = if whole > 0.0 { weighted / whole } else { 0.0 };
        for (sky, x) in month {
            let c = mean + 0.5 * libm::fmin(*mean, 1.0 - mean) * (x - mean_x);
            lights.extend(sky.iter().map(|clear| dulled(*clear, c)));
        }
    }
    lights
}

/// The light that a sky of some clearness (0 to 1) leaves of that of a clear one.
fn dulled(clear: SkyLight, c: f64) -> SkyLight {
    let cube = c * c * c;
    let on_ground = libm::fmax(clear.global - clear.diffuse, 0.0);
    SkyLight {
        global: c * clear.global,
        direct_normal: cube * clear.direct_normal,
        diffuse: c * clear.global - cube * on_ground,
    }
}

#[cfg(test)]
#[path = "synthetic/tests.rs"]
mod tests;
