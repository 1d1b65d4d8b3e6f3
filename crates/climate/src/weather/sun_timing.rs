//! Whether the sun of a weather year stands where its irradiance says.
//!
//! r = √ mean (G − D − B · cos z)²    over hours with cos z > 0.05
//!
//! - G, D, B  global, diffuse and direct normal irradiance   [W/m²]
//! - z        zenith angle of the sun as it is seen          [°]
//!
//! Global irradiance is beam and sky together, so r is small (about 1 W/m²) when the sun is taken at the right moment of each
//! row. Some files run in another time than their header says; their r is large, and smallest at the true moment.
//!
//! Source:      closure of the three components, common practice.
//! Valid for:   years whose three irradiances are independent of the reader's sun.
//! Agreement:   tests/tests/weather_file.rs: 1.16 W/m² for the reference year within 0.02. By hand, for the European file that
//!              tests/reference/weather_statistics.json names piedmont: 34.216 as filed and 0.83 at 1.18 h (there 34.216 and 0.82
//!              at its true time, 1.176 h).
//! Not covered: the hour of the temperatures, which cannot be told from the sun.

use crate::{HOURS, Note, Refraction, SkyLight, WeatherYear, YearClock, sun_year};

/// Up to this the timing is believed, W/m².
const MOST_CLOSURE: f64 = 15.0;
/// Lower suns are left out.
const LEAST_COSINE: f64 = 0.05;
/// Fewer hours of beam than this tell nothing.
const LEAST_HOURS: usize = 200;
/// The search steps so many hours to either side of the best so far: coarse, then finer.
const SEARCH: [(i32, f64); 4] = [(6, 2.0), (4, 0.5), (4, 0.1), (4, 0.02)];

/// How well irradiance and sun agree, as filed and at best.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunTiming {
    /// Disagreement with the sun where the year has it, W/m² (root of the mean square).
    pub closure: f64,
    /// Where in its row the sun would agree best; beyond 0 to 1 the file's clock is off.
    pub best_sun_at: f64,
    /// Disagreement with the sun there, W/m².
    pub best_closure: f64,
}

impl SunTiming {
    /// Whether the times of the file are to be doubted, and moving the sun would mend it.
    #[must_use]
    pub fn is_doubtful(&self) -> bool {
        self.closure > MOST_CLOSURE
    }

    /// What to say about it, when there is something.
    pub(super) fn note(self, sun_at: f64) -> Option<Note> {
        if !self.is_doubtful() {
            return None;
        }
        let Self { closure, best_sun_at, best_closure } = self;
        let text = format!(
            "global less diffuse less beam is off by {closure:.0} W/m² with the sun at {sun_at:.2} h of each row, and by \
             {best_closure:.1} W/m² with the sun at {best_sun_at:.2} h: the times of the file seem to be off by {:.2} h",
            best_sun_at - sun_at
        );
        Some(Note { place: "irradiance".to_owned(), text, count: HOURS })
    }
}

/// Compares irradiance and sun; `None` when there is too little beam to tell. Only a doubtful year is searched for a better
/// moment, which takes some forty times as long.
#[must_use]
pub fn sun_timing(year: &WeatherYear) -> Option<SunTiming> {
    let lights: Vec<SkyLight> = year.hours.iter().map(crate::Hour::light).collect();
    let at = |sun_at: f64| fit(year, &lights, sun_at);
    let filed = at(year.sun_at)?;
    let timing =
        |sun_at: f64, fit: Fit| SunTiming { closure: filed.closure, best_sun_at: sun_at, best_closure: fit.closure };
    if !timing(year.sun_at, filed).is_doubtful() {
        return Some(timing(year.sun_at, filed));
    }
    let mut best = (year.sun_at, filed);
    for (steps, width) in SEARCH {
        let middle = best.0;
        for step in -steps..=steps {
            let sun_at = middle + f64::from(step) * width;
            if let Some(found) = at(sun_at).filter(|found| found.miss < best.1.miss) {
                best = (sun_at, found);
            }
        }
    }
    Some(timing(best.0, best.1))
}

/// How well irradiance and sun agree.
#[derive(Clone, Copy)]
struct Fit {
    /// Root of the mean square over the hours with sun, W/m².
    closure: f64,
    /// Sum of squares over all hours. A sun moved into the night would have a small closure, as nothing shines then; here the
    /// beam of the day, with its sun below the horizon, counts against it.
    miss: f64,
}

fn fit(year: &WeatherYear, lights: &[SkyLight], sun_at: f64) -> Option<Fit> {
    let clock = YearClock { sun_offset: sun_at, ..YearClock::typical(lights.len().min(HOURS)) };
    let (mut sum, mut miss, mut hours, mut with_beam) = (0.0, 0.0, 0_usize, 0_usize);
    for (sun, light) in sun_year(&year.site, &clock, Refraction::usual(&year.site))?.zip(lights) {
        let cosine = libm::fmax(sun.direction[2], 0.0);
        let off = light.global - light.diffuse - light.direct_normal * cosine;
        miss += off * off;
        with_beam += usize::from(light.direct_normal > 0.0);
        if cosine > LEAST_COSINE {
            sum += off * off;
            hours += 1;
        }
    }
    let closure = if hours > 0 { (sum / hours as f64).sqrt() } else { 0.0 };
    (with_beam >= LEAST_HOURS).then_some(Fit { closure, miss })
}
