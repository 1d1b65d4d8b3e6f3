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
//! Agreement:   tests/tests/weather_file.rs: 1.16 W/m² for the reference year within 0.02.
//! Not covered: the hour of the temperatures, which cannot be told from the sun.

use crate::{HOURS, Note, Refraction, SkyLight, WeatherYear, YearClock, sun_year};

/// Up to this the timing is believed, W/m².
const MOST_CLOSURE: f64 = 15.0;
/// Lower suns are left out.
const LEAST_COSINE: f64 = 0.05;
/// Fewer hours of beam than this tell nothing.
const LEAST_HOURS: usize = 200;
/// The search steps so many hours to either side of the best so far: coarse, then finer.
const SEARCH: [(i32, f64); 3] = [(12, 1.0), (9, 0.1), (5, 0.02)];

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
/// moment, which takes some fifty times as long.
#[must_use]
pub fn sun_timing(year: &WeatherYear) -> Option<SunTiming> {
    let lights: Vec<SkyLight> = year.hours.iter().map(crate::Hour::light).collect();
    let at = |sun_at: f64| closure(year, &lights, sun_at);
    let filed = at(year.sun_at)?;
    let mut best = SunTiming { closure: filed, best_sun_at: year.sun_at, best_closure: filed };
    if !best.is_doubtful() {
        return Some(best);
    }
    for (steps, width) in SEARCH {
        let middle = best.best_sun_at;
        for step in -steps..=steps {
            let sun_at = middle + f64::from(step) * width;
            if let Some(found) = at(sun_at).filter(|found| *found < best.best_closure) {
                best = SunTiming { closure: filed, best_sun_at: sun_at, best_closure: found };
            }
        }
    }
    Some(best)
}

fn closure(year: &WeatherYear, lights: &[SkyLight], sun_at: f64) -> Option<f64> {
    let clock = YearClock { sun_offset: sun_at, ..YearClock::typical(lights.len().min(HOURS)) };
    let (mut sum, mut hours, mut with_beam) = (0.0, 0_usize, 0_usize);
    for (sun, light) in sun_year(&year.site, &clock, Refraction::usual(&year.site))?.zip(lights) {
        let cosine = sun.direction[2];
        if cosine > LEAST_COSINE {
            let off = light.global - light.diffuse - light.direct_normal * cosine;
            sum += off * off;
            hours += 1;
            with_beam += usize::from(light.direct_normal > 0.0);
        }
    }
    (with_beam >= LEAST_HOURS).then(|| (sum / hours as f64).sqrt())
}
