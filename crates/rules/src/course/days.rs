//! The hot day and the cold day that are run through: from the brief's design temperatures, or a printed daily cycle.
//!
//! Air:   the design temperature with the brief's daily range, or the cycle's, read by the sun's own clock without the
//!        equation of time (up to a quarter of an hour).
//! Sun:   that of the 21st of the hottest month at the site. Its light is a clear sky's by Ineichen with a Linke turbidity
//!        of 3 (country air; common practice, no source), or what the cycle prints on level ground, split by Erbs with a
//!        beam no stronger than outside the air; what it prints before the site's own sunrise is left out. The cold day has
//!        none.
//! Wind:  [`HOT_WIND`] at the cabinet, so that no breeze is counted on; on the cold day [`COLD_WIND`]. Common practice, no
//!        source.
//! Time:  local standard time in steps of 10 minutes; between the hours' middles along a straight line.

use climate::convection::sky_radiation;
use climate::{
    DailyCycle, DesignDay, HourLight, HourSun, Refraction, Site, SkyLight, SkyModel, daily_cycle, erbs, face_light,
};
use project::{Brief, ColdDay, HotDay};

use super::Problem;
use super::moment::Moment;
use super::prepared::{CLEAR, day_of};

/// Wind of the hot day, m/s.
const HOT_WIND: f64 = 1.0;
/// Wind of the cold day, m/s: that of the winter film of building practice.
const COLD_WIND: f64 = 6.7;
/// Year whose calendar the hot day follows.
const ORDINARY_YEAR: i32 = 2019;
/// Steps of a design day.
pub const DAY_STEPS: usize = 144;
/// Length of a step of a design day, s.
pub const DAY_STEP_SECONDS: f64 = 600.0;

/// The days of a brief at its site.
pub struct Days<'a> {
    /// The brief.
    pub brief: &'a Brief,
    /// Its site.
    pub site: &'a Site,
    /// Pressure of the air there, Pa.
    pub pressure: f64,
    /// The month that is hottest there, counted from 0.
    pub hottest_month: usize,
}

impl Days<'_> {
    /// The hot day.
    pub fn hot(&self, notes: &mut Vec<String>) -> Result<Vec<Moment>, Problem> {
        let id = match self.brief.hot_day {
            HotDay::Design => {
                let hot = DesignDay::hot(self.brief.hottest.0, self.brief.daily_range.0);
                let moments = self.design(DesignDay { wind: HOT_WIND, pressure: self.pressure, ..hot })?;
                return self.lit(moments, None);
            }
            HotDay::HotDry => "A1",
            HotDay::BasicHot => "A2",
        };
        let cycle = printed(id)?;
        notes.push(format!("The hot day is {}, with the sun that it prints", named(cycle)));
        self.lit(self.of_cycle(cycle, HOT_WIND), Some(cycle))
    }

    /// The cold day.
    pub fn cold(&self, notes: &mut Vec<String>) -> Result<Vec<Moment>, Problem> {
        let id = match self.brief.cold_day {
            ColdDay::Design => {
                let cold = DesignDay::cold(self.brief.coldest.0, self.brief.daily_range.0);
                return self.design(DesignDay { wind: COLD_WIND, pressure: self.pressure, ..cold });
            }
            ColdDay::BasicCold => "C1",
            ColdDay::Cold => "C2",
            ColdDay::SevereCold => "C3",
        };
        let cycle = printed(id)?;
        notes.push(format!("The cold day is {}", named(cycle)));
        Ok(self.of_cycle(cycle, COLD_WIND))
    }

    /// The moments of a design day without sun.
    fn design(&self, day: DesignDay) -> Result<Vec<Moment>, Problem> {
        let hours = day.hours(&[SkyLight::default(); 24]).ok_or_else(|| {
            let found = format!("hottest {} °C, range {} K", day.hottest, day.range);
            Problem::new("design day", found, format!("a range of 0 to {} K", climate::WIDEST_RANGE))
        })?;
        let (air, humidity) = (hours.map(|hour| hour.dry_bulb), hours.map(|hour| hour.relative_humidity));
        Ok(moments(day.wind, |hour| (between(&air, hour), between(&humidity, hour))))
    }

    /// The moments of a printed cycle without sun.
    fn of_cycle(&self, cycle: &DailyCycle, wind: f64) -> Vec<Moment> {
        moments(wind, |hour| {
            let printed = self.printed_hour(hour);
            (cycle.air_at(printed), cycle.humidity_at(printed))
        })
    }

    /// The hour on a cycle's clock. Its values stand for the hours that end with them, by the sun's time.
    fn printed_hour(&self, hour: f64) -> f64 {
        hour + self.site.longitude / 15.0 - self.site.utc_offset + 0.5
    }

    /// Puts the sun into the moments of a hot day: that of a clear sky, or what a cycle prints.
    fn lit(&self, mut moments: Vec<Moment>, cycle: Option<&DailyCycle>) -> Result<Vec<Moment>, Problem> {
        let (site, bearing) = (self.site, self.brief.bearing.0);
        let refraction = Refraction::usual(site);
        // The 21st of the month.
        let days = climate::MONTHS[self.hottest_month].first + 20;
        let outside = climate::extraterrestrial(day_of(24 * days));
        let front = libm::sincos(bearing.to_radians());
        let dark = || Problem::new("site", "no sun can be reckoned", "");
        let midnight = climate::julian_day(ORDINARY_YEAR, 1, 1, 0.0).ok_or_else(dark)? + days as f64;
        let faces = climate::faces(bearing);
        let shares = faces.map(|face| site.sky_share(face));
        for (step, moment) in moments.iter_mut().enumerate() {
            let hour = middle_of(step);
            let at = midnight + (hour - site.utc_offset) / 24.0;
            let position = climate::sun_position(site, at, climate::DELTA_T, refraction).ok_or_else(dark)?;
            let zenith = position.apparent_zenith;
            let sun = HourSun { direction: position.direction(), apparent_zenith: zenith };
            let light = match cycle {
                None => CLEAR.light(zenith, outside, site.elevation, refraction.pressure).unwrap_or_default(),
                Some(cycle) => split(cycle.sun_at(self.printed_hour(hour)).unwrap_or_default(), zenith, outside),
            };
            let hidden = !site.horizon.is_empty() && 90.0 - zenith <= site.horizon_at(sun.azimuth());
            let mut lit =
                faces.map(|face| face_light(face, sun.direction, light, outside, site.albedo, SkyModel::Perez));
            for (face, share) in lit.iter_mut().zip(shares) {
                face.sky *= share;
                if hidden {
                    face.beam = 0.0;
                }
            }
            moment.light(&HourLight { sun, faces: lit }, light.global, front);
        }
        Ok(moments)
    }
}

/// Light on level ground as beam and sky, with a beam no stronger than outside the air.
fn split(global: f64, zenith: f64, outside: f64) -> SkyLight {
    let light = erbs(global, zenith, outside);
    let direct_normal = light.direct_normal.min(outside);
    let on_ground = direct_normal * libm::cos(zenith.to_radians()).max(0.0);
    SkyLight { global, direct_normal, diffuse: global - on_ground }
}

fn printed(id: &str) -> Result<&'static DailyCycle, Problem> {
    daily_cycle(id).ok_or_else(|| Problem::new("daily cycle", id, "one that is known"))
}

/// A cycle in words, with how far its figures are confirmed.
fn named(cycle: &DailyCycle) -> String {
    format!("the {} cycle {} of {} ({})", cycle.name, cycle.id, cycle.edition, cycle.standing)
}

/// The moments of a day without sun, from air (°C) and humidity (0 to 1) at an hour of the clock.
fn moments(wind: f64, air_at: impl Fn(f64) -> (f64, f64)) -> Vec<Moment> {
    let moment = |step: usize| {
        let (outside, humidity) = air_at(middle_of(step));
        Moment { outside, wind, sky: sky_radiation(outside, humidity), ..Moment::default() }
    };
    (0..DAY_STEPS).map(moment).collect()
}

/// Between the middles of the hours, round the day.
fn between(values: &[f64; 24], hour: f64) -> f64 {
    let along = (hour - 0.5).rem_euclid(24.0);
    let index = (along as usize).min(23);
    values[index] + (values[(index + 1) % 24] - values[index]) * (along - index as f64)
}

/// Hour of the day in the middle of a step.
fn middle_of(step: usize) -> f64 {
    (step as f64 + 0.5) * 24.0 / DAY_STEPS as f64
}

#[cfg(test)]
mod tests;
