//! From a number in its base unit to what is shown.

use crate::table::row_of;
use crate::{Kind, System, Value};

/// From here up numbers are written as 1.5e15: the digits would say more than is known.
const LARGE: f64 = 1e15;
/// Below here exact numbers are written as 1.5e-7.
const SMALL: f64 = 1e-6;

/// A value as shown: the number and the unit, which never part at a line end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The number, rounded for the eye, with thin spaces (metric) or commas (US) between thousands.
    pub number: String,
    /// The unit, empty where there is none.
    pub unit: &'static str,
}

impl std::fmt::Display for Shown {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.number)?;
        // The degree sign of an angle stands close.
        if !self.unit.is_empty() && self.unit != "°" {
            f.write_str("\u{a0}")?;
        }
        f.write_str(self.unit)
    }
}

impl Shown {
    /// What stands where there is no number.
    fn nothing() -> Self {
        Self { number: "–".to_owned(), unit: "" }
    }
}

/// The unit that numbers of a kind are shown in, as written: `mm`, `°F`, empty where there is none.
#[must_use]
pub const fn unit_name(kind: Kind, system: System) -> &'static str {
    match system {
        System::Metric => row_of(kind).metric.name,
        System::Us => row_of(kind).us.name,
    }
}

/// The value in the given system, rounded as its kind is usually read; a dash if the number is not finite.
///
/// ```
/// use units::{Kind, System, Value, show};
/// let depth = Value::new(1680.4, Kind::Length);
/// assert_eq!(show(depth, System::Metric).to_string(), "1\u{202f}680\u{a0}mm");
/// assert_eq!(show(depth, System::Us).to_string(), "66.16\u{a0}in");
/// ```
#[must_use]
pub fn show(value: Value, system: System) -> Shown {
    let face = row_of(value.kind).face(system);
    let number = face.unit.number_from(value.number);
    if !number.is_finite() {
        return Shown::nothing();
    }
    let size = number.abs();
    if size >= LARGE {
        return Shown { number: signed(number < 0.0, format!("{size:.3e}")), unit: face.name };
    }
    let decimals = face.rounding.iter().find(|(below, _)| size < *below).map_or(0, |&(_, decimals)| decimals);
    // The last bit decides ties such as 812.5, which otherwise go to the even neighbour.
    let rounded = format!("{:.decimals$}", size * (1.0 + f64::EPSILON));
    let (whole, fraction) = rounded.split_once('.').unwrap_or((&rounded, ""));
    let fraction = fraction.trim_end_matches('0');
    let mut text = with_thousands(whole, system);
    if !fraction.is_empty() {
        text.push('.');
        text.push_str(fraction);
    }
    let negative = number < 0.0 && text != "0";
    Shown { number: signed(negative, text), unit: face.name }
}

/// The bare number of a value in the given system, as a scale counts it.
///
/// ```
/// use units::{Kind, System, Value, number_in};
/// assert_eq!(number_in(Value::new(40.0, Kind::Temperature), System::Us), 104.0);
/// ```
#[must_use]
pub fn number_in(value: Value, system: System) -> f64 {
    row_of(value.kind).face(system).unit.number_from(value.number)
}

/// The number in its base unit that a bare number of the given system stands for: what [`number_in`] takes back.
#[must_use]
pub fn number_of(number: f64, kind: Kind, system: System) -> f64 {
    row_of(kind).face(system).unit.base_from(number)
}

/// The value in the given system with every digit it needs, as a field offers it for editing.
///
/// [`crate::read`] gives the number back to within 1e-12 of it (or of 1 °C, if that is more), and from then on exactly.
#[must_use]
pub fn show_exactly(value: Value, system: System) -> Shown {
    let face = row_of(value.kind).face(system);
    let unit = face.unit;
    let converted = unit.number_from(value.number);
    if !converted.is_finite() {
        return Shown::nothing();
    }
    let number = if unit.is_base() {
        converted
    } else {
        // The shortest decimal that is read as the very same number. Where none is, 14 digits: one digit more would be
        // noise of the conversion, which grows when a number goes back and forth.
        let exact = (1..=15).map(|digits| unit.to_digits(converted, digits));
        let mut exact = exact.filter(|&short| unit.base_from(short) == value.number);
        exact.next().unwrap_or_else(|| unit.to_digits(converted, 14))
    };
    let size = number.abs();
    let plain = size == 0.0 || (SMALL..LARGE).contains(&size);
    let text = if plain { format!("{size}") } else { format!("{size:e}") };
    Shown { number: signed(number < 0.0, text), unit: face.name }
}

fn signed(negative: bool, text: String) -> String {
    if negative { format!("\u{2212}{text}") } else { text }
}

fn with_thousands(digits: &str, system: System) -> String {
    let mark = match system {
        System::Metric => '\u{202f}',
        System::Us => ',',
    };
    let mut text = String::with_capacity(digits.len() + digits.len());
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(mark);
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use Kind::*;

    /// `_` stands for the no-break space before the unit, `,` in metric for the narrow one between thousands.
    fn check(number: f64, kind: Kind, metric: &str, us: &str) {
        let value = Value::new(number, kind);
        let metric = metric.replace('_', "\u{a0}").replace(',', "\u{202f}");
        assert_eq!(show(value, System::Metric).to_string(), metric, "{value:?}");
        assert_eq!(show(value, System::Us).to_string(), us.replace('_', "\u{a0}"), "{value:?}");
    }

    fn check_exactly(number: f64, kind: Kind, metric: &str, us: &str) {
        let value = Value::new(number, kind);
        assert_eq!(show_exactly(value, System::Metric).to_string().replace('\u{a0}', "_"), metric, "{value:?}");
        assert_eq!(show_exactly(value, System::Us).to_string().replace('\u{a0}', "_"), us, "{value:?}");
    }

    #[test]
    fn each_kind_is_rounded_as_it_is_read() {
        check(812.8, Length, "813_mm", "32_in");
        check(3.175, Length, "3.175_mm", "0.125_in");
        check(1680.4, Length, "1,680_mm", "66.16_in");
        check(812.5, Length, "813_mm", "31.99_in");
        check(30_480.0, Length, "30,480_mm", "1,200_in");
        check(1500.0, Elevation, "1,500_m", "4,921_ft");
        check(118.4, Mass, "118_kg", "261_lb");
        check(5.44, Mass, "5.4_kg", "12_lb");
        check(1860.0, Power, "1,860_W", "1,860_W");
        check(1500.0, HeatFlow, "1,500_W", "5,118_Btu/h");
        check(46.111, Temperature, "46.1_°C", "115_°F");
        check(10.0, TemperatureDifference, "10_K", "18_°F");
        check(300.0, AirFlow, "300_m³/h", "177_cfm");
        check(45.0, Angle, "45°", "45°");
        check(20.0, Pressure, "20_kPa", "418_psf");
        check(101_325.0, AirPressure, "101,325_Pa", "14.7_psi");
        check(65.0, SoundLevel, "65_dBA", "65_dBA");
        check(1.5, Area, "1.5_m²", "16.1_ft²");
        check(150.0, SmallArea, "150_cm²", "23.3_in²");
        check(4.45, Force, "4.45_kN", "1,000_lbf");
        check(5.5, HeatTransfer, "5.5_W/(m²·K)", "0.969_Btu/(h·ft²·°F)");
        check(60.0, Conductance, "60_W/K", "114_Btu/(h·°F)");
        check(0.035, Conductivity, "0.035_W/(m·K)", "0.243_Btu·in/(h·ft²·°F)");
        check(1000.0, HeatFlux, "1,000_W/m²", "92.9_W/ft²");
        check(2700.0, Density, "2,700_kg/m³", "169_lb/ft³");
        check(900.0, SpecificHeat, "900_J/(kg·K)", "0.215_Btu/(lb·°F)");
        check(8.1, MassPerArea, "8.1_kg/m²", "1.66_lb/ft²");
        check(24.0, RackUnits, "24_U", "24_U");
        check(1200.0, Count, "1,200", "1,200");
        check(0.9, Ratio, "0.9", "0.9");
        check(0.873, Share, "87.3_%", "87.3_%");
        check(44.704, Speed, "44.7_m/s", "100_mph");
        check(1.0, ThermalResistance, "1_m²·K/W", "5.68_h·ft²·°F/Btu");
        check(12.4, Minutes, "12_min", "12_min");
        check(2.55, Minutes, "2.6_min", "2.6_min");
        check(1834.6, Energy, "1,835_kWh", "1,835_kWh");
        check(0.1525, Money, "0.1525", "0.1525");
        check(275.2, Money, "275", "275");
        check(2.5e-7, Millionths, "0.25_ppm", "0.25_ppm");
        check(37.5, Current, "37.5_A", "37.5_A");
        check(54.48, Voltage, "54.5_V", "54.5_V");
        check(7200.0, ApparentPower, "7,200_VA", "7,200_VA");
        check(172.5, Charge, "173_Ah", "173_Ah");
        check(10.07, ResistancePerLength, "10.1_Ω/km", "3.07_Ω/kft");
        check(5.5, Time, "5.5_h", "5.5_h");
    }

    #[test]
    fn negatives_have_a_real_minus_and_zero_has_none() {
        check(-40.0, Temperature, "\u{2212}40_°C", "\u{2212}40_°F");
        check(-0.001, TemperatureDifference, "0_K", "0_°F");
        check(-0.0, Length, "0_mm", "0_in");
        check_exactly(-0.0, Length, "0_mm", "0_in");
        check_exactly(-101.6, Length, "\u{2212}101.6_mm", "\u{2212}4_in");
    }

    #[test]
    fn what_is_no_number_shows_as_a_dash() {
        for number in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            check(number, Length, "–", "–");
            check_exactly(number, Mass, "–", "–");
        }
    }

    #[test]
    fn absurd_numbers_stay_short() {
        check(1.5e300, Length, "1.500e300_mm", "5.906e298_in");
        check_exactly(6.4516e-10, SmallArea, "6.4516e-10_cm²", "1e-10_in²");
    }

    #[test]
    fn a_field_offers_the_digits_there_are() {
        check_exactly(825.5, Length, "825.5_mm", "32.5_in");
        check_exactly(815.34, Length, "815.34_mm", "32.1_in");
        check_exactly(1680.0, Length, "1680_mm", "66.141732283465_in");
        check_exactly(35.0, Temperature, "35_°C", "95_°F");
        check_exactly(0.57, Share, "57_%", "57_%");
        check_exactly(54.431_084_4, Mass, "54.4310844_kg", "120_lb");
    }

    #[test]
    fn the_name_of_the_unit_is_the_one_shown() {
        assert_eq!(unit_name(Length, System::Us), "in");
        assert_eq!(unit_name(Count, System::Metric), "");
    }
}
