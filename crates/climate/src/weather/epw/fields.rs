//! The columns that are used: where they stand, what stands there when nothing was measured, and what is believed.

/// A column of the file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Field {
    /// Its place among the columns that are kept.
    pub index: usize,
    /// Its place in a row of the file, from 0.
    pub column: usize,
    /// Its name.
    pub name: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// Values that say that there is none: those of the form, and others in use.
    pub missing: &'static [f64],
    /// The least that is believed.
    pub from: f64,
    /// The most that is believed.
    pub to: f64,
}

/// Values that stand for none in any column.
const NONE: &[f64] = &[9999.0, 99_999.0, 999_999.0, -999.0, -9999.0];
const NO_TEMPERATURE: &[f64] = &[99.9, 999.0, 999.9, 9999.0, -99.9, -999.0, -9999.0];
const NO_SMALL: &[f64] = &[999.0, 999.9, 9999.0, -99.0, -999.0, -9999.0];
const NO_PRESSURE: &[f64] = &[9999.0, 999_999.0, -999.0, -9999.0];

/// How many columns are kept.
pub(super) const FIELDS: usize = 9;

impl Field {
    /// The coldest and the hottest air ever measured at a station lie inside.
    pub(super) const DRY_BULB: Self = Self::at(0, 6, "dry bulb", "°C", NO_TEMPERATURE, -90.0, 60.0);
    pub(super) const DEW_POINT: Self = Self::at(1, 7, "dew point", "°C", NO_TEMPERATURE, -99.0, 50.0);
    /// Somewhat more than 100 % is what a wet sensor says; it is cut later.
    pub(super) const HUMIDITY: Self = Self::at(2, 8, "relative humidity", "%", NO_SMALL, 0.0, 110.0);
    pub(super) const PRESSURE: Self = Self::at(3, 9, "pressure", "Pa", NO_PRESSURE, 31_000.0, 120_000.0);
    pub(super) const INFRARED: Self = Self::at(4, 12, "horizontal infrared", "W/m²", NONE, 0.0, 900.0);
    pub(super) const GLOBAL: Self = Self::at(5, 13, "global horizontal", "W/m²", NONE, -10.0, 1600.0);
    pub(super) const DIRECT_NORMAL: Self = Self::at(6, 14, "direct normal", "W/m²", NONE, -10.0, 1450.0);
    pub(super) const DIFFUSE: Self = Self::at(7, 15, "diffuse horizontal", "W/m²", NONE, -10.0, 1000.0);
    pub(super) const WIND: Self = Self::at(8, 21, "wind speed", "m/s", NO_SMALL, 0.0, 75.0);

    /// All, by index.
    pub(super) const ALL: [Self; FIELDS] = [
        Self::DRY_BULB,
        Self::DEW_POINT,
        Self::HUMIDITY,
        Self::PRESSURE,
        Self::INFRARED,
        Self::GLOBAL,
        Self::DIRECT_NORMAL,
        Self::DIFFUSE,
        Self::WIND,
    ];

    const fn at(
        index: usize,
        column: usize,
        name: &'static str,
        unit: &'static str,
        missing: &'static [f64],
        from: f64,
        to: f64,
    ) -> Self {
        Self { index, column, name, unit, missing, from, to }
    }
}

/// The three that make the sun.
pub(super) const IRRADIANCE: [Field; 3] = [Field::GLOBAL, Field::DIRECT_NORMAL, Field::DIFFUSE];

/// A row has at least so many columns: up to the wind speed.
pub(super) const LEAST_COLUMNS: usize = Field::WIND.column + 1;
/// No row has more columns than this, with room for what later editions add.
pub(super) const MOST_COLUMNS: usize = 40;

/// A sky that sends less than this would be colder than −90 °C: no measurement.
pub(super) const LEAST_INFRARED: f64 = 50.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_stands_at_its_index_and_no_code_is_a_believed_value() {
        for (index, field) in Field::ALL.iter().enumerate() {
            assert_eq!(field.index, index, "{}", field.name);
            for code in field.missing {
                assert!(*code < field.from || *code > field.to, "{} {code}", field.name);
            }
        }
    }
}
