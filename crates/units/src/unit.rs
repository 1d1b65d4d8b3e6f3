//! One unit, and the arithmetic of conversion.

/// How far a converted number may be from the short decimal it stands for, relative to its scale: three roundings.
const NOISE: f64 = 2.0 * f64::EPSILON;

/// A unit: `base = (number − zero) · times / over`.
///
/// A factor is kept as a fraction so that decimal definitions stay exact: 1 in = 254/10 mm.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Unit {
    /// How it is spelt, without spaces, dots, brackets and upper case; see [`spelling`].
    pub(crate) spellings: &'static [&'static str],
    pub(crate) times: f64,
    pub(crate) over: f64,
    /// What this unit's scale reads where the base unit's reads zero: 32 for °F over °C.
    pub(crate) zero: f64,
}

impl Unit {
    /// A unit that shares its zero with the base unit.
    pub(crate) const fn new(spellings: &'static [&'static str], times: f64, over: f64) -> Self {
        Self { spellings, times, over, zero: 0.0 }
    }

    /// The base unit itself.
    pub(crate) const fn base(spellings: &'static [&'static str]) -> Self {
        Self::new(spellings, 1.0, 1.0)
    }

    /// Whether `typed` names this unit.
    pub(crate) fn is_called(&self, typed: &str) -> bool {
        let typed = spelling(typed);
        self.spellings.contains(&typed.as_str())
    }

    /// Whether numbers in this unit are numbers in the base unit.
    pub(crate) fn is_base(&self) -> bool {
        self.times == self.over && self.zero == 0.0
    }

    /// From a number in this unit to one in the base unit.
    pub(crate) fn base_from(self, number: f64) -> f64 {
        if self.is_base() {
            return number;
        }
        self.neat((number - self.zero) * self.times / self.over)
    }

    /// From a number in the base unit to one in this unit.
    pub(crate) fn number_from(self, base: f64) -> f64 {
        if self.is_base() { base } else { base * self.over / self.times + self.zero }
    }

    /// The short decimal that `number` is the noisy result of, if there is one: 35 for 35.00000000000001.
    ///
    /// Binary fractions make 0.1 in come out as 2.5399999999999996 mm otherwise, and the file would say so.
    pub(crate) fn neat(&self, number: f64) -> f64 {
        let decimal = self.to_digits(number, 15);
        if (decimal - number).abs() <= NOISE * self.scale(number) { decimal } else { number }
    }

    /// `number` rounded to so many digits, which count from the first digit of the number or, where the zero is
    /// shifted, of the shift if that is larger: digits below its noise mean nothing.
    pub(crate) fn to_digits(self, number: f64, digits: usize) -> f64 {
        let after_first = digits.saturating_sub(1);
        let rounded = if number.abs() >= self.zero.abs() {
            format!("{number:.after_first$e}")
        } else {
            let decimals = after_first.saturating_sub(places_before_point(self.zero.abs()));
            format!("{number:.decimals$}")
        };
        rounded.parse().unwrap_or(number)
    }

    fn scale(self, number: f64) -> f64 {
        number.abs().max(self.zero.abs())
    }
}

/// How many digits stand between the first and the decimal point of a number from 1 up: 2 for 273.15.
fn places_before_point(number: f64) -> usize {
    let text = format!("{number:e}");
    text.split_once('e').and_then(|(_, exponent)| exponent.parse().ok()).unwrap_or(0)
}

/// A unit as typed, without what people write differently: `Btu/(h·ft²·°F)` and `BTU/h ft2 F` are both `btu/hft2f`.
pub(crate) fn spelling(typed: &str) -> String {
    let mut plain = String::with_capacity(typed.len());
    for letter in typed.chars() {
        match letter {
            '.' | '(' | ')' | '·' | '⋅' | '∙' | '•' | '*' | '^' => {}
            '²' | '₂' => plain.push('2'),
            '³' => plain.push('3'),
            '℃' => plain.push('c'),
            '℉' => plain.push('f'),
            'º' | '˚' => plain.push('°'),
            letter if letter.is_whitespace() => {}
            letter => plain.push(letter.to_ascii_lowercase()),
        }
    }
    if plain == "°" { plain } else { plain.replace('°', "") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_unit_written_differently_is_spelt_the_same() {
        for typed in ["Btu/(h·ft²·°F)", "BTU/h ft2 F", "btu / (h * ft^2 * ºF)"] {
            assert_eq!(spelling(typed), "btu/hft2f");
        }
        assert_eq!(spelling(" ° "), "°");
    }

    #[test]
    fn noise_of_binary_fractions_is_removed_and_digits_are_not() {
        let inch = Unit::new(&["in"], 254.0, 10.0);
        assert_eq!(inch.base_from(0.1), 2.54);
        assert_eq!(inch.base_from(32.1), 815.34);
        assert_eq!(inch.neat(1.234_567_890_123_456), 1.234_567_890_123_456);
        let kelvin = Unit { spellings: &["k"], times: 1.0, over: 1.0, zero: 273.15 };
        assert_eq!(kelvin.base_from(273.16), 0.01);
    }
}
