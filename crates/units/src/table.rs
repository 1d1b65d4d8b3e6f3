//! The one table of units: per kind what is shown in each system, what else is understood, and how it is rounded.
//!
//! Sources of the factors: inch, foot, pound, pound-force (standard gravity), the International Table Btu, the ton of
//! refrigeration and the standard atmosphere are exact definitions (NIST SP 811, App. B); all others but the inch of
//! water are made of them. They are checked against printed values in `tests/published/units.toml`.

use crate::unit::Unit;
use crate::{Kind, System};

/// Decimals by size: below each number that many, and none from the last on. Zeros at the end are dropped.
type Rounding = &'static [(f64, usize)];

const BY_SIZE: Rounding = &[(1.0, 3), (10.0, 2), (100.0, 1)];
const ONE_DECIMAL: Rounding = &[(f64::INFINITY, 1)];
const TWO_DECIMALS: Rounding = &[(f64::INFINITY, 2)];
const NEAR_WHOLE: Rounding = &[(1.0, 2), (10.0, 1)];

/// A unit as shown, and its rounding.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Face {
    pub(crate) name: &'static str,
    pub(crate) unit: Unit,
    pub(crate) rounding: Rounding,
}

/// All there is to know about how one kind is written.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Row {
    /// With its article, as it stands in a message.
    pub(crate) noun: &'static str,
    /// What one may type.
    pub(crate) examples: &'static str,
    pub(crate) metric: Face,
    pub(crate) us: Face,
    /// What is understood besides the two units shown.
    pub(crate) others: &'static [Unit],
    /// Units that are written one after the other, the larger first: 2 ft 8 in. None or one such pair.
    pub(crate) pair: &'static [(Unit, Unit)],
}

impl Row {
    pub(crate) fn face(&self, system: System) -> &Face {
        match system {
            System::Metric => &self.metric,
            System::Us => &self.us,
        }
    }

    pub(crate) fn unit_called(&self, typed: &str) -> Option<Unit> {
        let mut units = [self.metric.unit, self.us.unit].into_iter().chain(self.others.iter().copied());
        units.find(|unit| unit.is_called(typed))
    }
}

const fn face(name: &'static str, unit: Unit, rounding: Rounding) -> Face {
    Face { name, unit, rounding }
}

/// Makes `row_of` from one block per kind. A macro, so that a kind without its row does not compile and every list of
/// units stays in the binary's data.
macro_rules! rows {
    ($($kind:ident {
        noun: $noun:expr,
        examples: $examples:expr,
        metric: $metric:expr,
        us: $us:expr,
        $(others: $others:expr,)?
        $(pair: $pair:expr,)?
    })*) => {
        /// The row of a kind.
        pub(crate) const fn row_of(kind: Kind) -> &'static Row {
            match kind {$(
                Kind::$kind => {
                    const OTHERS: &[&[Unit]] = &[$($others)?];
                    const ROW: Row = Row {
                        noun: $noun,
                        examples: $examples,
                        metric: $metric,
                        us: $us,
                        others: if let Some(others) = OTHERS.first() { others } else { &[] },
                        pair: &[$($pair)?],
                    };
                    &ROW
                }
            )*}
        }
    };
}

/// The Btu (International Table) is 1055.05585262 J; the factors below hold it in units of 1e-8 J, a whole number.
const BTU_1E8: f64 = 105_505_585_262.0;
/// One square foot in units of 1e-8 m².
const SQUARE_FOOT_1E8: f64 = 9_290_304.0;
/// One cubic foot in units of 1e-12 m³.
const CUBIC_FOOT_1E12: f64 = 28_316_846_592.0;
/// One pound in units of 1e-8 kg.
const POUND_1E8: f64 = 45_359_237.0;
/// One pound-force, in newtons.
const POUND_FORCE: f64 = 4.448_221_615_260_5;

/// Btu/(h·ft²·°F) in W/(m²·K) is this over [`HEAT_TRANSFER_OVER`]: Btu · 1.8 / (3600 s · ft²).
const HEAT_TRANSFER_TIMES: f64 = BTU_1E8;
const HEAT_TRANSFER_OVER: f64 = 2000.0 * SQUARE_FOOT_1E8;

mod spelt {
    pub(super) const MILLIMETRE: &[&str] = &["mm", "millimetre", "millimetres", "millimeter", "millimeters"];
    pub(super) const CENTIMETRE: &[&str] = &["cm", "centimetre", "centimetres", "centimeter", "centimeters"];
    pub(super) const METRE: &[&str] = &["m", "metre", "metres", "meter", "meters"];
    pub(super) const KILOMETRE: &[&str] = &["km"];
    pub(super) const INCH: &[&str] = &["in", "inch", "inches", "\""];
    pub(super) const FOOT: &[&str] = &["ft", "foot", "feet", "'"];
    pub(super) const WATT: &[&str] = &["w", "watt", "watts"];
    pub(super) const KILOWATT: &[&str] = &["kw", "kilowatt", "kilowatts"];
    pub(super) const BTU_PER_HOUR: &[&str] = &["btu/h", "btuh", "btu/hr", "btu", "btuperhour"];
    pub(super) const TON: &[&str] = &["ton", "tons", "tonr", "tr", "tonofrefrigeration", "tonsofrefrigeration"];
    pub(super) const HORSEPOWER: &[&str] = &["hp", "horsepower"];
    pub(super) const CELSIUS: &[&str] = &["c", "degc", "celsius", "degreescelsius"];
    pub(super) const FAHRENHEIT: &[&str] = &["f", "degf", "fahrenheit", "degreesfahrenheit"];
    pub(super) const KELVIN: &[&str] = &["k", "kelvin", "kelvins"];
    pub(super) const KILOPASCAL: &[&str] = &["kpa"];
    pub(super) const PASCAL: &[&str] = &["pa"];
    pub(super) const PSI: &[&str] = &["psi", "lbf/in2", "lb/in2"];
    pub(super) const PSF: &[&str] = &["psf", "lbf/ft2", "lb/ft2"];
    pub(super) const BAR: &[&str] = &["bar"];
    pub(super) const MILLIBAR: &[&str] = &["mbar", "hpa"];
    pub(super) const ATMOSPHERE: &[&str] = &["atm"];
    pub(super) const INCH_OF_WATER: &[&str] = &["inh2o", "inwc", "inwg"];
    pub(super) const HOUR: &[&str] = &["h", "hr", "hour", "hours"];
    pub(super) const MINUTE: &[&str] = &["min", "minute", "minutes"];
    pub(super) const SQUARE_METRE: &[&str] = &["m2", "sqm"];
    pub(super) const SQUARE_CENTIMETRE: &[&str] = &["cm2", "sqcm"];
    pub(super) const SQUARE_MILLIMETRE: &[&str] = &["mm2", "sqmm"];
    pub(super) const SQUARE_FOOT: &[&str] = &["ft2", "sqft", "squarefeet"];
    pub(super) const SQUARE_INCH: &[&str] = &["in2", "sqin", "squareinches"];
}

const INCH_IN_MM: Unit = Unit::new(spelt::INCH, 254.0, 10.0);
const FOOT_IN_MM: Unit = Unit::new(spelt::FOOT, 3048.0, 10.0);
const INCH_IN_M: Unit = Unit::new(spelt::INCH, 254.0, 10_000.0);
const FOOT_IN_M: Unit = Unit::new(spelt::FOOT, 3048.0, 10_000.0);
const POUND: Unit = Unit::new(&["lb", "lbs", "lbm", "pound", "pounds"], POUND_1E8, 1e8);
const OUNCE: Unit = Unit::new(&["oz", "ounce", "ounces"], POUND_1E8, 16e8);

const WATT: Unit = Unit::base(spelt::WATT);
const BTU_PER_HOUR: Unit = Unit::new(spelt::BTU_PER_HOUR, BTU_1E8, 3600e8);
const POWERS: &[Unit] = &[
    Unit::new(spelt::KILOWATT, 1000.0, 1.0),
    BTU_PER_HOUR,
    Unit::new(spelt::TON, BTU_1E8, 3e7),
    // 550 ft·lbf/s
    Unit::new(spelt::HORSEPOWER, 550.0 * 0.3048 * POUND_FORCE, 1.0),
];
const POWER_EXAMPLES: &str = "2500 W, 2.5 kW, 8500 Btu/h, 1 ton";

/// The units of pressure over a base unit of so many pascals.
const fn pressures(base: f64) -> [Unit; 8] {
    [
        Unit::new(spelt::PASCAL, 1.0, base),
        Unit::new(spelt::KILOPASCAL, 1000.0, base),
        // lbf over square inches of 6.4516e-4 m² and square feet of 0.09290304 m².
        Unit::new(spelt::PSI, POUND_FORCE, 6.4516e-4 * base),
        Unit::new(spelt::PSF, POUND_FORCE, 0.092_903_04 * base),
        Unit::new(spelt::BAR, 1e5, base),
        Unit::new(spelt::MILLIBAR, 100.0, base),
        Unit::new(spelt::ATMOSPHERE, 101_325.0, base),
        // Conventional inch of water: from memory, to be confirmed against NIST SP 811, App. B.
        Unit::new(spelt::INCH_OF_WATER, 249.088_91, base),
    ]
}
const OVER_PASCAL: [Unit; 8] = pressures(1.0);
const OVER_KILOPASCAL: [Unit; 8] = pressures(1000.0);

rows! {
    Length {
        noun: "a length",
        examples: "813 mm, 32 in, 2 ft 8 in",
        metric: face("mm", Unit::base(spelt::MILLIMETRE), &[(10.0, 3)]),
        us: face("in", INCH_IN_MM, &[(1.0, 3), (f64::INFINITY, 2)]),
        others: &[FOOT_IN_MM, Unit::new(spelt::CENTIMETRE, 10.0, 1.0), Unit::new(spelt::METRE, 1000.0, 1.0)],
        pair: (FOOT_IN_MM, INCH_IN_MM),
    }
    Elevation {
        noun: "a height or distance",
        examples: "350 m, 1150 ft",
        metric: face("m", Unit::base(spelt::METRE), &[(10.0, 2), (100.0, 1)]),
        us: face("ft", FOOT_IN_M, &[(10.0, 2), (100.0, 1)]),
        others: &[INCH_IN_M, Unit::new(spelt::KILOMETRE, 1000.0, 1.0)],
        pair: (FOOT_IN_M, INCH_IN_M),
    }
    Mass {
        noun: "a mass",
        examples: "54 kg, 120 lb, 3 lb 4 oz",
        metric: face("kg", Unit::base(&["kg", "kilo", "kilos", "kilogram", "kilograms"]), &[(0.1, 3), (1.0, 2), (10.0, 1)]),
        us: face("lb", POUND, &[(0.1, 3), (1.0, 2), (10.0, 1)]),
        others: &[
            OUNCE,
            Unit::new(&["g", "gram", "grams"], 1.0, 1000.0),
            Unit::new(&["t", "tonne", "tonnes"], 1000.0, 1.0),
        ],
        pair: (POUND, OUNCE),
    }
    Power {
        noun: "a power",
        examples: POWER_EXAMPLES,
        metric: face("W", WATT, NEAR_WHOLE),
        us: face("W", WATT, NEAR_WHOLE),
        others: POWERS,
    }
    HeatFlow {
        noun: "a heat flow",
        examples: POWER_EXAMPLES,
        metric: face("W", WATT, NEAR_WHOLE),
        us: face("Btu/h", BTU_PER_HOUR, NEAR_WHOLE),
        others: POWERS,
    }
    Temperature {
        noun: "a temperature",
        examples: "35 °C, 95 °F",
        metric: face("°C", Unit::base(spelt::CELSIUS), ONE_DECIMAL),
        us: face("°F", Unit { spellings: spelt::FAHRENHEIT, times: 5.0, over: 9.0, zero: 32.0 }, ONE_DECIMAL),
        others: &[Unit { spellings: spelt::KELVIN, times: 1.0, over: 1.0, zero: 273.15 }],
    }
    TemperatureDifference {
        noun: "a temperature difference",
        examples: "10 K, 18 °F",
        metric: face("K", Unit::base(spelt::KELVIN), ONE_DECIMAL),
        us: face("°F", Unit::new(spelt::FAHRENHEIT, 5.0, 9.0), ONE_DECIMAL),
        others: &[Unit::base(spelt::CELSIUS)],
    }
    AirFlow {
        noun: "an air flow",
        examples: "300 m³/h, 180 cfm",
        metric: face("m³/h", Unit::base(&["m3/h", "m3/hr", "cmh"]), &[(10.0, 1)]),
        // Cubic feet in 1e-12 m³, 60 to the hour.
        us: face("cfm", Unit::new(&["cfm", "ft3/min"], 60.0 * CUBIC_FOOT_1E12, 1e12), &[(10.0, 1)]),
        others: &[Unit::new(&["m3/s"], 3600.0, 1.0), Unit::new(&["l/s"], 36.0, 10.0)],
    }
    Angle {
        noun: "an angle",
        examples: "45°, 45 deg",
        metric: face("°", Unit::base(&["°", "deg", "degree", "degrees"]), ONE_DECIMAL),
        us: face("°", Unit::base(&["°", "deg", "degree", "degrees"]), ONE_DECIMAL),
    }
    Pressure {
        noun: "a pressure",
        examples: "20 kPa, 400 psf, 3 psi",
        metric: face("kPa", OVER_KILOPASCAL[1], BY_SIZE),
        us: face("psf", OVER_KILOPASCAL[3], BY_SIZE),
        others: &OVER_KILOPASCAL,
    }
    AirPressure {
        noun: "an air pressure",
        examples: "101325 Pa, 1013 hPa, 14.7 psi",
        metric: face("Pa", OVER_PASCAL[0], &[(10.0, 1)]),
        us: face("psi", OVER_PASCAL[2], TWO_DECIMALS),
        others: &OVER_PASCAL,
    }
    SoundLevel {
        noun: "a sound level",
        examples: "65 dBA",
        metric: face("dBA", Unit::base(&["dba", "db"]), ONE_DECIMAL),
        us: face("dBA", Unit::base(&["dba", "db"]), ONE_DECIMAL),
    }
    Area {
        noun: "an area",
        examples: "1.5 m², 16 ft²",
        metric: face("m²", Unit::base(spelt::SQUARE_METRE), BY_SIZE),
        us: face("ft²", Unit::new(spelt::SQUARE_FOOT, SQUARE_FOOT_1E8, 1e8), BY_SIZE),
        others: &[
            Unit::new(spelt::SQUARE_CENTIMETRE, 1.0, 1e4),
            Unit::new(spelt::SQUARE_MILLIMETRE, 1.0, 1e6),
            Unit::new(spelt::SQUARE_INCH, 64_516.0, 1e8),
        ],
    }
    SmallArea {
        noun: "a small area",
        examples: "150 cm², 24 in²",
        metric: face("cm²", Unit::base(spelt::SQUARE_CENTIMETRE), BY_SIZE),
        us: face("in²", Unit::new(spelt::SQUARE_INCH, 64_516.0, 1e4), BY_SIZE),
        others: &[
            Unit::new(spelt::SQUARE_METRE, 1e4, 1.0),
            Unit::new(spelt::SQUARE_MILLIMETRE, 1.0, 100.0),
            Unit::new(spelt::SQUARE_FOOT, SQUARE_FOOT_1E8, 1e4),
        ],
    }
    Force {
        noun: "a force",
        examples: "4.5 kN, 1000 lbf",
        metric: face("kN", Unit::base(&["kn"]), BY_SIZE),
        us: face("lbf", Unit::new(&["lbf", "lb", "lbs"], POUND_FORCE, 1000.0), BY_SIZE),
        others: &[Unit::new(&["n", "newton", "newtons"], 1.0, 1000.0)],
    }
    HeatTransfer {
        noun: "a heat-transfer coefficient",
        examples: "5.5 W/m²K, 1 Btu/(h·ft²·°F)",
        metric: face("W/(m²·K)", Unit::base(&["w/m2k", "w/m2/k", "w/m2c"]), BY_SIZE),
        us: face(
            "Btu/(h·ft²·°F)",
            Unit::new(&["btu/hft2f", "btu/hrft2f"], HEAT_TRANSFER_TIMES, HEAT_TRANSFER_OVER),
            BY_SIZE,
        ),
    }
    Conductance {
        noun: "a heat conductance",
        examples: "60 W/K, 114 Btu/(h·°F)",
        metric: face("W/K", Unit::base(&["w/k", "w/c"]), BY_SIZE),
        // Btu · 1.8 / 3600 s
        us: face("Btu/(h·°F)", Unit::new(&["btu/hf", "btu/hrf", "btu/h/f"], BTU_1E8, 2e11), BY_SIZE),
    }
    Conductivity {
        noun: "a thermal conductivity",
        examples: "0.035 W/mK, 0.25 Btu·in/(h·ft²·°F)",
        metric: face(
            "W/(m·K)",
            Unit::base(&["w/mk", "w/m/k", "w/mc"]),
            &[(0.1, 4), (1.0, 3), (10.0, 2), (100.0, 1)],
        ),
        // A heat-transfer coefficient times 0.0254 m.
        us: face(
            "Btu·in/(h·ft²·°F)",
            Unit::new(&["btuin/hft2f", "btuin/hrft2f"], 254.0 * HEAT_TRANSFER_TIMES, 1e4 * HEAT_TRANSFER_OVER),
            BY_SIZE,
        ),
        // A heat-transfer coefficient times 0.3048 m.
        others: &[Unit::new(&["btu/hftf", "btu/hrftf"], 3048.0 * HEAT_TRANSFER_TIMES, 1e4 * HEAT_TRANSFER_OVER)],
    }
    HeatFlux {
        noun: "a heat flux",
        examples: "1000 W/m², 93 W/ft²",
        metric: face("W/m²", Unit::base(&["w/m2"]), &[(10.0, 1)]),
        us: face("W/ft²", Unit::new(&["w/ft2"], 1e8, SQUARE_FOOT_1E8), BY_SIZE),
        others: &[Unit::new(&["btu/hft2", "btu/hrft2"], BTU_1E8, 3600.0 * SQUARE_FOOT_1E8)],
    }
    Density {
        noun: "a density",
        examples: "2700 kg/m³, 169 lb/ft³",
        metric: face("kg/m³", Unit::base(&["kg/m3"]), BY_SIZE),
        us: face("lb/ft³", Unit::new(&["lb/ft3", "pcf"], 1e4 * POUND_1E8, CUBIC_FOOT_1E12), BY_SIZE),
        others: &[Unit::new(&["g/cm3"], 1000.0, 1.0)],
    }
    SpecificHeat {
        noun: "a specific heat",
        examples: "900 J/kgK, 0.215 Btu/(lb·°F)",
        metric: face("J/(kg·K)", Unit::base(&["j/kgk", "j/kgc"]), &[(10.0, 1)]),
        // Btu · 1.8 / lb: 4186.8 exactly.
        us: face("Btu/(lb·°F)", Unit::new(&["btu/lbf"], 41_868.0, 10.0), BY_SIZE),
        others: &[Unit::new(&["kj/kgk"], 1000.0, 1.0)],
    }
    MassPerArea {
        noun: "a mass per area",
        examples: "8.1 kg/m², 1.7 lb/ft²",
        metric: face("kg/m²", Unit::base(&["kg/m2"]), BY_SIZE),
        us: face("lb/ft²", Unit::new(&["lb/ft2", "psf"], POUND_1E8, SQUARE_FOOT_1E8), BY_SIZE),
    }
    RackUnits {
        noun: "a number of rack units",
        examples: "24 U",
        metric: face("U", Unit::base(&["u", "ru"]), TWO_DECIMALS),
        us: face("U", Unit::base(&["u", "ru"]), TWO_DECIMALS),
    }
    Count {
        noun: "a count",
        examples: "12",
        metric: face("", Unit::base(&[]), &[]),
        us: face("", Unit::base(&[]), &[]),
    }
    Ratio {
        noun: "a number",
        examples: "0.9",
        metric: face("", Unit::base(&[]), BY_SIZE),
        us: face("", Unit::base(&[]), BY_SIZE),
    }
    Share {
        noun: "a share",
        examples: "57 %",
        metric: face("%", Unit::new(&["%", "percent"], 1.0, 100.0), ONE_DECIMAL),
        us: face("%", Unit::new(&["%", "percent"], 1.0, 100.0), ONE_DECIMAL),
    }
    Speed {
        noun: "a speed",
        examples: "45 m/s, 100 mph",
        metric: face("m/s", Unit::base(&["m/s"]), ONE_DECIMAL),
        us: face("mph", Unit::new(&["mph", "mi/h"], 44_704.0, 1e5), ONE_DECIMAL),
        others: &[Unit::new(&["km/h", "kmh"], 10.0, 36.0), Unit::new(&["fpm", "ft/min"], 508.0, 1e5)],
    }
    ThermalResistance {
        noun: "a thermal resistance",
        examples: "1.06 m²K/W, 6 h·ft²·°F/Btu",
        metric: face("m²·K/W", Unit::base(&["m2k/w", "m2c/w"]), BY_SIZE),
        us: face(
            "h·ft²·°F/Btu",
            Unit::new(&["hft2f/btu", "hrft2f/btu", "ft2fh/btu"], HEAT_TRANSFER_OVER, HEAT_TRANSFER_TIMES),
            BY_SIZE,
        ),
    }
    Time {
        noun: "a time",
        examples: "3 h, 90 min",
        metric: face("h", Unit::base(spelt::HOUR), BY_SIZE),
        us: face("h", Unit::base(spelt::HOUR), BY_SIZE),
        others: &[
            Unit::new(spelt::MINUTE, 1.0, 60.0),
            Unit::new(&["s", "sec", "second", "seconds"], 1.0, 3600.0),
            Unit::new(&["d", "day", "days"], 24.0, 1.0),
        ],
    }
    Minutes {
        noun: "a short time",
        examples: "20 min, 90 s",
        metric: face("min", Unit::base(spelt::MINUTE), NEAR_WHOLE),
        us: face("min", Unit::base(spelt::MINUTE), NEAR_WHOLE),
        others: &[
            Unit::new(&["s", "sec", "second", "seconds"], 1.0, 60.0),
            Unit::new(spelt::HOUR, 60.0, 1.0),
        ],
    }
    Energy {
        noun: "an energy",
        examples: "1200 kWh, 1.2 MWh",
        metric: face("kWh", Unit::base(&["kwh"]), BY_SIZE),
        us: face("kWh", Unit::base(&["kwh"]), BY_SIZE),
        others: &[
            Unit::new(&["wh"], 1.0, 1000.0),
            Unit::new(&["mwh"], 1000.0, 1.0),
            Unit::new(&["mj"], 10.0, 36.0),
            Unit::new(&["gj"], 1e4, 36.0),
        ],
    }
    Money {
        noun: "a sum of money",
        examples: "1200, 0.15",
        metric: face("", Unit::base(&[]), &[(1.0, 4), (100.0, 2)]),
        us: face("", Unit::base(&[]), &[(1.0, 4), (100.0, 2)]),
    }
    Millionths {
        noun: "a very small share",
        examples: "1 ppm",
        metric: face("ppm", Unit::new(&["ppm"], 1.0, 1e6), BY_SIZE),
        us: face("ppm", Unit::new(&["ppm"], 1.0, 1e6), BY_SIZE),
        others: &[Unit::new(&["%", "percent"], 1.0, 100.0)],
    }
    Current {
        noun: "a current",
        examples: "20 A, 10 kA",
        metric: face("A", Unit::base(&["a", "amp", "amps", "ampere", "amperes"]), BY_SIZE),
        us: face("A", Unit::base(&["a", "amp", "amps", "ampere", "amperes"]), BY_SIZE),
        others: &[Unit::new(&["ka"], 1000.0, 1.0), Unit::new(&["ma"], 1.0, 1000.0)],
    }
    Voltage {
        noun: "a voltage",
        examples: "240 V, 54.5 V",
        metric: face("V", Unit::base(&["v", "volt", "volts"]), BY_SIZE),
        us: face("V", Unit::base(&["v", "volt", "volts"]), BY_SIZE),
        others: &[Unit::new(&["mv"], 1.0, 1000.0), Unit::new(&["kv"], 1000.0, 1.0)],
    }
    ApparentPower {
        noun: "an apparent power",
        examples: "1500 VA, 2.4 kVA",
        metric: face("VA", Unit::base(&["va"]), BY_SIZE),
        us: face("VA", Unit::base(&["va"]), BY_SIZE),
        others: &[Unit::new(&["kva"], 1000.0, 1.0)],
    }
    Charge {
        noun: "a charge",
        examples: "100 Ah",
        metric: face("Ah", Unit::base(&["ah"]), BY_SIZE),
        us: face("Ah", Unit::base(&["ah"]), BY_SIZE),
    }
    ResistancePerLength {
        noun: "a resistance per length",
        examples: "10.2 Ω/km, 3.1 Ω/kft",
        metric: face("Ω/km", Unit::base(&["ω/km", "Ω/km", "ohm/km", "ohms/km"]), BY_SIZE),
        us: face("Ω/kft", Unit::new(&["ω/kft", "Ω/kft", "ohm/kft", "ohms/kft"], 10_000.0, 3048.0), BY_SIZE),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::spelling;

    #[test]
    fn the_name_shown_is_understood_as_the_unit_shown() {
        for kind in Kind::ALL {
            for face in [row_of(kind).metric, row_of(kind).us] {
                let spelt = spelling(face.name);
                assert!(face.name.is_empty() || face.unit.spellings.contains(&spelt.as_str()), "{kind:?} {spelt}");
            }
        }
    }

    #[test]
    fn a_spelling_means_one_unit_per_kind() {
        for kind in Kind::ALL {
            let row = row_of(kind);
            for unit in [row.metric.unit, row.us.unit].iter().chain(row.others) {
                for &spelt in unit.spellings {
                    assert_eq!(spelling(spelt), spelt, "{kind:?}: never matched");
                    let found = row.unit_called(spelt).unwrap();
                    assert_eq!(
                        (found.times / found.over, found.zero),
                        (unit.times / unit.over, unit.zero),
                        "{kind:?} {spelt}"
                    );
                }
            }
        }
    }
}
