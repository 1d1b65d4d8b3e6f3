//! Where on earth, and how far the clock there is ahead: as people write them, and back.

use crate::amount::{amount, plain};

/// Which of the two coordinates.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coordinate {
    /// North positive.
    Latitude,
    /// East positive.
    Longitude,
}

impl Coordinate {
    /// The letters of its positive and its negative side.
    const fn sides(self) -> [char; 2] {
        match self {
            Self::Latitude => ['N', 'S'],
            Self::Longitude => ['E', 'W'],
        }
    }

    const fn most(self) -> f64 {
        match self {
            Self::Latitude => 90.0,
            Self::Longitude => 180.0,
        }
    }

    /// Reads degrees: `33.4 N`, `33° 24' N`, `33° 24' 36" N`, `N 33 24`, `-115.2`.
    ///
    /// ```
    /// use units::Coordinate;
    /// assert_eq!(Coordinate::Latitude.read("33° 24' N"), Ok(33.4));
    /// assert_eq!(Coordinate::Longitude.read("115.2 W"), Ok(-115.2));
    /// ```
    ///
    /// # Errors
    /// When the text is no such coordinate, with what would be understood.
    pub fn read(self, typed: &str) -> Result<f64, String> {
        let [positive, negative] = self.sides();
        let refusal = || match self {
            Self::Latitude => "Not understood: try 33.4 N, 33° 24' N, -33.4".to_owned(),
            Self::Longitude => "Not understood: try 115.2 W, 115° 12' W, -115.2".to_owned(),
        };
        let text = plain(typed).to_uppercase().replace("DEG", "°").replace('º', "°");
        let (side, text) = match text.chars().next().zip(text.chars().last()) {
            Some((first, _)) if [positive, negative].contains(&first) => (Some(first), text[1..].trim()),
            Some((_, last)) if [positive, negative].contains(&last) => (Some(last), text[..text.len() - 1].trim()),
            _ => (None, text.as_str()),
        };
        let (minus, text) = match text.strip_prefix('-') {
            Some(unsigned) => (true, unsigned.trim_start()),
            None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
        };
        if minus && side.is_some() {
            return Err(refusal());
        }
        let degrees = sexagesimal(text, ["°", "'", "\""]).ok_or_else(refusal)?;
        if degrees > self.most() {
            return Err(format!("At most {}° {positive} or {negative}", self.most()));
        }
        // Adding zero turns a negative zero into a plain one.
        Ok(if minus || side == Some(negative) { -degrees } else { degrees } + 0.0)
    }

    /// Degrees with their side: `33.4° N`. Four decimals are some ten metres.
    #[must_use]
    pub fn show(self, degrees: f64) -> String {
        let [positive, negative] = self.sides();
        let side = if degrees < 0.0 { negative } else { positive };
        format!("{}°\u{a0}{side}", (degrees.abs() * 1e4).round() / 1e4)
    }
}

/// Reads latitude and longitude as one text: `33.4 N, 115.2 W`, `33° 24' N 115° 12' W`, `33.4, -115.2`.
///
/// # Errors
/// When the text is no such place, or may be read in more than one way.
pub fn read_place(typed: &str) -> Result<(f64, f64), String> {
    let mut found = None;
    for (at, letter) in typed.char_indices() {
        let apart = letter.is_whitespace() || matches!(letter, ',' | ';' | '/');
        let (latitude, longitude) = typed.split_at(at);
        let longitude = if apart { &longitude[letter.len_utf8()..] } else { continue };
        // At `N, 1` the comma and the space both part them; the comma does already.
        let latitude = latitude.trim_end().trim_end_matches([',', ';', '/']);
        if let (Ok(latitude), Ok(longitude)) =
            (Coordinate::Latitude.read(latitude), Coordinate::Longitude.read(longitude))
        {
            if found.is_some_and(|found| found != (latitude, longitude)) {
                return Err("Not clear where the longitude begins: try 33.4 N, 115.2 W".to_owned());
            }
            found = Some((latitude, longitude));
        }
    }
    found.ok_or_else(|| "Not understood: try 33.4 N, 115.2 W or 33° 24' N, 115° 12' W".to_owned())
}

/// One, two or three numbers, each a sixtieth of the one before: what stands before the first mark, the second, the third.
/// Only the last may have decimals.
fn sexagesimal(text: &str, marks: [&str; 3]) -> Option<f64> {
    let mut rest = text;
    let (mut total, mut part) = (0.0, 1.0);
    for mark in marks {
        // A number and no more of it: `33 240` is not thirty-three thousand.
        let numeral = rest.find(|letter: char| !(letter.is_ascii_digit() || matches!(letter, '.' | ',')));
        let (numeral, after) = rest.split_at(numeral.unwrap_or(rest.len()));
        let (number, left) = amount(numeral)?;
        let after = after.trim_start();
        let after = after.strip_prefix(mark).or_else(|| after.strip_prefix(':')).unwrap_or(after).trim_start();
        let fits = left.is_empty() && number.is_finite() && (part >= 1.0 || number < 60.0);
        if !fits || (number.fract() != 0.0 && !after.is_empty()) {
            return None;
        }
        total += number * part;
        part /= 60.0;
        rest = after;
        if rest.is_empty() {
            // Minutes and seconds are no binary fractions: 33° 24' is 33.4°.
            return Some((total * 1e9).round() / 1e9);
        }
    }
    None
}

/// Reads how far local standard time is ahead of universal time, in hours: `-6`, `+5:30`, `UTC−7`, `5.75 h`.
///
/// # Errors
/// When the text is no such time, with what would be understood.
pub fn read_time_zone(typed: &str) -> Result<f64, String> {
    let refusal = || "Not understood: try -6, UTC+1, +5:30".to_owned();
    let text = plain(typed).to_uppercase();
    let text = text.strip_prefix("UTC").or_else(|| text.strip_prefix("GMT")).unwrap_or(&text).trim();
    if text.is_empty() && !typed.trim().is_empty() {
        return Ok(0.0);
    }
    let text = text.strip_suffix('H').unwrap_or(text).trim_end();
    let (minus, text) = match text.strip_prefix('-') {
        Some(unsigned) => (true, unsigned.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    let hours = sexagesimal(text, ["H", "MIN", "S"]).filter(|hours| *hours <= 24.0).ok_or_else(refusal)?;
    Ok(if minus { -hours } else { hours } + 0.0)
}

/// A time zone in words: `UTC−6`, `UTC+5:30`.
#[must_use]
pub fn show_time_zone(hours: f64) -> String {
    if !hours.is_finite() {
        return "–".to_owned();
    }
    let minutes = (hours.abs() * 60.0).round();
    let sign = if hours < 0.0 { '−' } else { '+' };
    let (whole, rest) = ((minutes / 60.0).floor(), minutes % 60.0);
    if rest > 0.0 { format!("UTC{sign}{whole}:{rest:02}") } else { format!("UTC{sign}{whole}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Coordinate::{Latitude, Longitude};

    fn check(which: Coordinate, typed: &str, expected: f64) {
        assert_eq!(which.read(typed), Ok(expected), "{typed:?}");
    }

    #[test]
    fn coordinates_are_read_as_people_write_them() {
        for typed in [
            "33.4 N",
            "33.4N",
            "33,4 n",
            "N 33.4",
            "33.4",
            "+33.4",
            "33.4°",
            "33.4° N",
            "33° 24' N",
            "33°24′N",
            "33 24 N",
            "33° 24' 0\" N",
            "33:24",
            "33 deg 24' N",
            "N 33° 24’",
        ] {
            check(Latitude, typed, 33.4);
        }
        for typed in ["-115.2", "−115.2", "115.2 W", "W115.2", "115° 12' W", "115° 12′ 00″ W", "-115 12", "115 12 0 w"]
        {
            check(Longitude, typed, -115.2);
        }
        check(Latitude, "0 S", 0.0);
        assert!(Latitude.read("0 S").unwrap().is_sign_positive());
        check(Latitude, "90 S", -90.0);
        check(Longitude, "7.5 E", 7.5);
    }

    #[test]
    fn what_is_no_coordinate_is_refused() {
        for typed in [
            "",
            "N",
            "x",
            "33 N S",
            "-33 S",
            "33.4 E",
            "33 60",
            "33.5 24",
            "33° 24' 10\" 5",
            "NaN",
            "inf",
            "33 24 N 5",
            "--5",
            "٣",
            "\0",
            "33 -5",
        ] {
            assert!(Latitude.read(typed).is_err(), "{typed:?}");
        }
        assert_eq!(Latitude.read("91 N"), Err("At most 90° N or S".to_owned()));
        assert_eq!(Longitude.read("180.5"), Err("At most 180° E or W".to_owned()));
    }

    #[test]
    fn what_is_shown_is_read_again() {
        for (which, degrees, shown) in [
            (Latitude, 33.4, "33.4°\u{a0}N"),
            (Latitude, -33.4, "33.4°\u{a0}S"),
            (Longitude, -114.6, "114.6°\u{a0}W"),
            (Longitude, 7.123_44, "7.1234°\u{a0}E"),
            (Latitude, 0.0, "0°\u{a0}N"),
        ] {
            assert_eq!(which.show(degrees), shown);
            assert!((which.read(shown).unwrap() - degrees).abs() < 1e-4, "{shown}");
        }
        for hours in [-12.0, -9.5, -6.0, 0.0, 1.0, 5.5, 5.75, 14.0] {
            assert_eq!(read_time_zone(&show_time_zone(hours)), Ok(hours));
        }
    }

    #[test]
    fn a_place_is_read_from_one_text() {
        for typed in [
            "33.4 N, 115.2 W",
            "33.4° N, 115.2° W",
            "33.4, -115.2",
            "33.4 -115.2",
            "33.4,-115.2",
            "33° 24' N 115° 12' W",
            "33 24 N 115 12 W",
            "33,4 N; 115,2 W",
            "33.4 N / 115.2 W",
            "N 33.4 W 115.2",
            "33,4, -115,2",
        ] {
            assert_eq!(read_place(typed), Ok((33.4, -115.2)), "{typed}");
        }
        for typed in ["", "33.4", "33.4 N", "115.2 W, 33.4 N", "33 24 10 12", "91 N, 5 E", "here, there"] {
            assert!(read_place(typed).is_err(), "{typed}");
        }
    }

    #[test]
    fn time_zones_are_read_as_people_write_them() {
        for (typed, hours) in [
            ("-6", -6.0),
            ("UTC−6", -6.0),
            ("utc -06:00", -6.0),
            ("+5:30", 5.5),
            ("5.5", 5.5),
            ("5,5 h", 5.5),
            ("UTC", 0.0),
            ("GMT+1", 1.0),
            ("-6 h", -6.0),
            ("5 h 45 min", 5.75),
            ("0", 0.0),
        ] {
            assert_eq!(read_time_zone(typed), Ok(hours), "{typed}");
        }
        for typed in ["", "CET", "6 7 8 9", "-", "25", "NaN", "5:60"] {
            assert!(read_time_zone(typed).is_err(), "{typed}");
        }
        assert_eq!(show_time_zone(f64::NAN), "–");
    }
}
