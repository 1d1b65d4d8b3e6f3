//! From what was typed to a number in its base unit.

use std::fmt;

use crate::amount::{amount, plain};
use crate::table::{Row, row_of};
use crate::{Kind, System};

/// How much of a text is repeated in a message, in characters.
const REPEATED: usize = 40;

/// Why a typed text is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadError {
    /// What was typed, cut short if it is long.
    pub typed: String,
    /// What is wrong with it, to be read after what was typed: "is not a length".
    pub problem: String,
    /// What would be understood instead, in plain words: "try 813 mm, 32 in, 2 ft 8 in".
    pub help: String,
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.typed.is_empty() {
            write!(f, "an empty field {}: {}", self.problem, self.help)
        } else {
            write!(f, "\"{}\" {}: {}", self.typed, self.problem, self.help)
        }
    }
}

impl std::error::Error for ReadError {}

/// Reads a typed text as a value of `kind`; a number without a unit is in the unit that `system` shows.
///
/// ```
/// use units::{Kind, System, read};
/// assert_eq!(read("2' 8 1/2\"", Kind::Length, System::Metric), Ok(825.5));
/// assert_eq!(read("95", Kind::Temperature, System::Us), Ok(35.0));
/// let refused = read("90 xx", Kind::Length, System::Us).map_err(|error| error.to_string());
/// assert_eq!(refused, Err("\"90 xx\" is not a length: try 813 mm, 32 in, 2 ft 8 in".to_owned()));
/// ```
///
/// # Errors
/// When the text is not a number with a unit of that kind, or not finite.
pub fn read(typed: &str, kind: Kind, system: System) -> Result<f64, ReadError> {
    let row = row_of(kind);
    let refusal = |problem: &str| {
        let typed = typed.trim();
        let mut shortened: String = typed.chars().take(REPEATED).collect();
        if shortened.len() < typed.len() {
            shortened.push('…');
        }
        ReadError {
            typed: shortened,
            problem: format!("{problem} {}", row.noun),
            help: format!("try {}", row.examples),
        }
    };
    match base_number(&plain(typed), row, system) {
        None => Err(refusal("is not")),
        // Adding zero turns the negative zero of "-0" into a plain one.
        Some(number) if number.is_finite() => Ok(number + 0.0),
        Some(_) => Err(refusal("is too large for")),
    }
}

fn base_number(text: &str, row: &Row, system: System) -> Option<f64> {
    let (sign, text) = match text.strip_prefix(['-', '+']) {
        Some(unsigned) => (if text.starts_with('-') { -1.0 } else { 1.0 }, unsigned.trim_start()),
        None => (1.0, text),
    };
    let (first, rest) = amount(text)?;
    let Some((&(large, small), at)) = row.pair.first().zip(second_amount(rest)) else {
        let unit = if matches!(rest.trim(), "" | ".") { row.face(system).unit } else { row.unit_called(rest)? };
        return Some(unit.base_from(sign * first));
    };
    // 2 ft 8 in, 2'-8", 3 lb, 4 oz: the second number has the smaller unit, which may go without saying.
    let (unit, second) = rest.split_at(at);
    let unit = unit.trim_end();
    let unit = unit.strip_suffix(['-', ',']).unwrap_or(unit);
    let (second, rest) = amount(second)?;
    let understood = large.is_called(unit) && (rest.trim().is_empty() || small.is_called(rest));
    understood.then(|| sign * large.neat(large.base_from(first) + small.base_from(second)))
}

/// Where a second number starts after the unit of the first; nowhere if it is not clear whether `ft.8` is `8` or `.8`.
fn second_amount(text: &str) -> Option<usize> {
    let digit = text.find(|letter: char| letter.is_ascii_digit())?;
    let Some(before) = text[..digit].strip_suffix(['.', ',']) else { return Some(digit) };
    if before.ends_with(char::is_alphabetic) { None } else { Some(digit - 1) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Kind::*;

    fn check(kind: Kind, typed: &str, expected: f64) {
        assert_eq!(read(typed, kind, System::Metric), Ok(expected), "{typed:?} as {kind:?}");
    }

    fn check_us(kind: Kind, typed: &str, expected: f64) {
        assert_eq!(read(typed, kind, System::Us), Ok(expected), "{typed:?} as {kind:?}");
    }

    fn check_close(kind: Kind, typed: &str, expected: f64) {
        let got = read(typed, kind, System::Metric).unwrap();
        assert!((got - expected).abs() <= 1e-6 * expected.abs(), "{typed:?} as {kind:?}: {got}");
    }

    fn refuses(kind: Kind, typed: &str, message: &str) {
        let error = read(typed, kind, System::Metric).unwrap_err();
        assert_eq!(error.to_string(), message);
    }

    #[test]
    fn a_bare_number_is_in_the_unit_shown() {
        check(Length, "32", 32.0);
        check_us(Length, "32", 812.8);
        check_us(Length, "32 1/2", 825.5);
        check_us(Mass, "100", 45.359_237);
        check_us(Temperature, "95", 35.0);
        check(Temperature, "35", 35.0);
        check_us(TemperatureDifference, "18", 10.0);
        check_us(Power, "2500", 2500.0);
        check(Share, "57", 0.57);
        check(RackUnits, "24", 24.0);
        check(Count, "12", 12.0);
        check(Count, "12.", 12.0);
    }

    #[test]
    fn lengths() {
        for typed in [
            "32in",
            "32\"",
            "32 in",
            "32 inches",
            "32.0 in.",
            "32″",
            "32”",
            "32''",
            "2 ft 8 in",
            "2' 8\"",
            "2'8\"",
            "2′ 8″",
            "2'-8\"",
            "2 ft, 8 in",
            "2ft8in",
            "2 ft. 8 in.",
            "2' 8",
            "2 feet 8 inches",
            "81.28 cm",
            "812.8mm",
            "812,8 mm",
            "0.8128 m",
            "+32 in",
            "0' 32\"",
        ] {
            check(Length, typed, 812.8);
        }
        for typed in
            ["32-1/2 in", "32 1/2\"", "32½\"", "32 ½ in", "32.5\"", "32,5 in", "2'8 1/2\"", "2' 8½\"", "2'-8-1/2\""]
        {
            check(Length, typed, 825.5);
        }
        check(Length, "1 foot", 304.8);
        check(Length, "1/8 in", 3.175);
        check(Length, "⅛\"", 3.175);
        check(Length, "813mm", 813.0);
        check(Length, "813 mm", 813.0);
        check(Length, "81.3 cm", 813.0);
        check(Length, "0.8 m", 800.0);
        check(Length, "1,680 mm", 1680.0);
        check(Length, "1\u{202f}680\u{a0}mm", 1680.0);
        check(Length, "−4 in", -101.6);
        check(Length, "-2 ft 6 in", -762.0);
        check(Elevation, "1000 ft", 304.8);
        check(Elevation, "12 ft 6 in", 3.81);
        check_us(Elevation, "350 m", 350.0);
    }

    #[test]
    fn temperatures_and_their_differences() {
        for typed in ["95F", "95 °F", "95 ºF", "95 deg F", "95 ℉", "35 °C", "35c", "35C", "308.15 K"] {
            check(Temperature, typed, 35.0);
        }
        check(Temperature, "308 K", 34.85);
        check(Temperature, "-40 °F", -40.0);
        check(Temperature, "−40", -40.0);
        for typed in ["10 K", "18 °F", "10 °C", "18F"] {
            check(TemperatureDifference, typed, 10.0);
        }
    }

    #[test]
    fn powers_masses_and_air_flows() {
        for kind in [Power, HeatFlow] {
            check(kind, "2.5kW", 2500.0);
            check(kind, "2500 W", 2500.0);
            check(kind, "2 500 W", 2500.0);
            check(kind, "2,500 W", 2500.0);
            for typed in ["8500 Btu/h", "8500 btuh", "8,500 BTU/hr", "8500 BTU"] {
                check_close(kind, typed, 2_491.104_096);
            }
            check_close(kind, "1 ton", 3_516.852_842);
        }
        check_us(HeatFlow, "12000", read("1 ton", HeatFlow, System::Us).unwrap());
        check(Mass, "54 kg", 54.0);
        check(Mass, "54,4 kg", 54.4);
        check(Mass, "54400 g", 54.4);
        check_close(Mass, "120 lb", 54.431_084_4);
        check_close(Mass, "3 lb 4 oz", 1.474_175_203);
        check(Mass, "1 lb", 0.453_592_37);
        for typed in ["300 m³/h", "300 m3/h", "300 M3/H"] {
            check(AirFlow, typed, 300.0);
        }
        check_close(AirFlow, "180 cfm", 305.821_943);
        check(AirFlow, "100 l/s", 360.0);
    }

    #[test]
    fn everything_else() {
        for typed in ["45°", "45 °", "45 deg", "45º"] {
            check(Angle, typed, 45.0);
        }
        check(Pressure, "20 kPa", 20.0);
        check(Pressure, "1 bar", 100.0);
        check(AirPressure, "1013.25 hPa", 101_325.0);
        check(AirPressure, "1 atm", 101_325.0);
        check(SoundLevel, "65 dBA", 65.0);
        check(SoundLevel, "65 dB(A)", 65.0);
        check(RackUnits, "24 U", 24.0);
        check(RackUnits, "24u", 24.0);
        check(Conductance, "60 W/K", 60.0);
        for typed in ["5.5 W/m²K", "5.5 W/(m²·K)", "5.5 W/m2K", "5.5 W/m²/K"] {
            check(HeatTransfer, typed, 5.5);
        }
        check(Share, "57 %", 0.57);
        check(Share, "57%", 0.57);
        check(SmallArea, "1 in²", 6.4516);
    }

    #[test]
    fn says_what_would_be_understood() {
        refuses(Length, "90 xx", "\"90 xx\" is not a length: try 813 mm, 32 in, 2 ft 8 in");
        refuses(Temperature, "", "an empty field is not a temperature: try 35 °C, 95 °F");
        refuses(Mass, "1e400 kg", "\"1e400 kg\" is too large for a mass: try 54 kg, 120 lb, 3 lb 4 oz");
        refuses(Count, &"9x".repeat(99), &format!("\"{}…\" is not a count: try 12", "9x".repeat(20)));
    }

    #[test]
    fn what_is_unclear_or_of_another_kind_is_refused() {
        for typed in [
            "NaN",
            "inf",
            "-inf",
            "nan mm",
            "mm",
            "-",
            "--5",
            "5 - 3",
            "5 kg",
            "3 ft²",
            "3 ft2 mm",
            "2 ft.8 in",
            "8 in 2 ft",
            "2 ft 8 ft",
            "2 ft 8 in 3",
            "2 m 30 cm",
            "1/0",
            "32 1/0",
            "32 3/2",
            "1234,567",
            "12..5",
            "0x10",
            "5 mm mm",
            "1e",
            "٣ mm",
            "\0",
            "5\u{0}mm",
            "2 ft -",
            "2 ft -- 3 in",
        ] {
            assert!(read(typed, Length, System::Metric).is_err(), "{typed:?}");
        }
        assert!(read("1 ton", Mass, System::Metric).is_err());
        assert!(read("1.2 mW", Power, System::Metric).is_err());
    }

    #[test]
    fn negative_zero_is_zero() {
        for typed in ["-0", "-0 in", "-0 ft 0 in"] {
            assert!(read(typed, Length, System::Us).unwrap().is_sign_positive());
        }
    }
}
