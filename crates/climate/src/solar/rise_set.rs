//! When the sun rises, stands highest and sets on a day.
//!
//! Found on the positions of the crate `solar-positioning`: the instant at which the upper rim of the sun crosses a flat
//! horizon, its centre 0.8333° below it for half a disc and the usual bending of the rays; and the crossing of the
//! meridian.
//!
//! Source:      NREL/TP-560-34302, section 3.15 and appendix A.2, by search instead of its three-point formula.
//! Valid for:   years −2000 to 6000, any place at the height of the sea.
//! Agreement:   the worked example of the report within 2 s; tests/reference/solar_rise_set.csv within 10 s.
//! Not covered: hills, height above the plain, the bending of rays on that day: minutes, more towards the poles.

use solar_positioning::{Horizon, Location, SolarEvents};

use crate::{DELTA_T, Site, julian_day};

/// Rise and set of a day, hours of local standard time after its midnight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunDay {
    /// The upper rim comes over the horizon; none where it does not on that day.
    pub rise: Option<f64>,
    /// The sun crosses the meridian, where it stands highest.
    pub noon: Option<f64>,
    /// The upper rim goes below the horizon; none where it does not on that day.
    pub set: Option<f64>,
}

/// When the sun rises and sets on a day of the calendar at a site; `None` for a place or a day that is none.
#[must_use]
pub fn sun_day(site: &Site, year: i32, month: u32, day: u32) -> Option<SunDay> {
    let start = julian_day(year, month, day, -site.utc_offset)?;
    let end = start + 1.0;
    let place = Location { latitude: site.latitude, longitude: site.longitude };
    let (events, horizon) = (SolarEvents::new(), Horizon::SunriseSunset);
    let hours = |event: f64| (event - start) * 24.0;
    Some(SunDay {
        rise: events.next_rise_from_julian(start, end, place, DELTA_T, horizon).ok()?.map(hours),
        noon: events.next_transit_from_julian(start, end, site.longitude, DELTA_T).ok()?.map(hours),
        set: events.next_set_from_julian(start, end, place, DELTA_T, horizon).ok()?.map(hours),
    })
}

#[cfg(test)]
mod tests {
    use units::Metres;

    use super::*;

    fn site(latitude: f64) -> Site {
        Site { latitude, longitude: 0.0, elevation: Metres(0.0), utc_offset: 0.0, albedo: 0.2, horizon: vec![] }
    }

    #[test]
    fn polar_day_and_night_have_neither_rise_nor_set() {
        for month in [6, 12] {
            let found = sun_day(&site(75.0), 2025, month, 21).unwrap();
            assert_eq!((found.rise, found.set), (None, None));
            assert!((found.noon.unwrap() - 12.0).abs() < 0.1);
        }
    }

    #[test]
    fn the_longest_day_at_fifty_degrees_has_sixteen_hours() {
        // 16 h 22 min in almanacs: common knowledge, no source.
        let found = sun_day(&site(50.0), 2025, 6, 21).unwrap();
        let length = found.set.unwrap() - found.rise.unwrap();
        assert!((length - 16.37).abs() < 0.05, "{length}");
    }

    #[test]
    fn says_so_for_a_place_or_a_day_that_is_none() {
        assert_eq!(sun_day(&site(91.0), 2025, 6, 21), None);
        assert_eq!(sun_day(&site(50.0), 2025, 6, 31), None);
        assert_eq!(sun_day(&site(50.0), 9000, 6, 21), None);
        assert_eq!(sun_day(&Site { utc_offset: f64::NAN, ..site(50.0) }, 2025, 6, 21), None);
    }
}
