//! What is asked for: site, climate, limits, growth.

use serde::{Deserialize, Serialize};
use units::{Celsius, Degrees, Kelvins, Kilograms, Kilopascals, Metres, Millimetres};

use crate::PowerAsked;

/// How the cabinet stands among walls and neighbours; decides which faces shed heat.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Installation {
    /// Free on all sides.
    #[default]
    FreeStanding,
    /// Rear against a wall.
    AgainstWall,
    /// One side covered by a neighbour.
    EndOfRow,
    /// One side covered by a neighbour, rear against a wall.
    EndOfRowAgainstWall,
    /// Both sides covered by neighbours.
    MiddleOfRow,
    /// Both sides covered, rear against a wall.
    MiddleOfRowAgainstWall,
}

/// How much sun reaches the cabinet at the design hour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sun {
    /// Nothing shades it.
    #[default]
    Full,
    /// Always in the shade.
    Shade,
}

/// The hottest day that is run through.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HotDay {
    /// From the brief's hottest outdoor air and daily range, under a clear sky.
    #[default]
    Design,
    /// The hot-dry daily cycle of the standard, A1.
    HotDry,
    /// Its basic hot cycle, A2.
    BasicHot,
}

/// The coldest day that is run through.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ColdDay {
    /// From the brief's coldest outdoor air and daily range.
    #[default]
    Design,
    /// The basic cold daily cycle of the standard, C1.
    BasicCold,
    /// Its cold cycle, C2.
    Cold,
    /// Its severe cold cycle, C3.
    SevereCold,
}

/// Whether a value is the one that a file need not say.
fn is_usual<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

/// Electrical supply at the site.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SiteSupply {
    /// 120/240 V, split phase.
    #[default]
    SplitPhase120240,
    /// 120 V, single phase.
    Single120,
    /// 208Y/120 V, three phase.
    ThreePhase208,
    /// 230 V, single phase.
    Single230,
    /// 400Y/230 V, three phase.
    ThreePhase400,
    /// −48 V direct current from elsewhere.
    Remote48Dc,
    /// +24 V direct current from elsewhere.
    Remote24Dc,
}

/// What one month is like at the site, on the mean of many years.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Month {
    /// Outdoor air over day and night.
    pub air: Celsius,
    /// Hottest less coldest outdoor air of a day.
    pub daily_range: Kelvins,
    /// Sun on level ground as a share of what a clear sky would let through, 0…1.
    pub clearness: f64,
    /// Wind at the cabinet, m/s.
    pub wind: f64,
}

/// Twelve months, January first.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Vec<Month>")]
pub struct MonthlyMeans(pub [Month; 12]);

impl TryFrom<Vec<Month>> for MonthlyMeans {
    type Error = String;

    fn try_from(months: Vec<Month>) -> Result<Self, String> {
        months.try_into().map(Self).map_err(|months: Vec<Month>| format!("{} months instead of 12", months.len()))
    }
}

/// Share of the way from the coldest to the hottest month, by months from the coldest: a cosine over the year.
const WARMTH: [f64; 12] = [0.0, 0.067, 0.25, 0.5, 0.75, 0.933, 1.0, 0.933, 0.75, 0.5, 0.25, 0.067];

impl MonthlyMeans {
    /// Twelve months guessed from the latitude and the design temperatures, to go by until somebody says them. Common
    /// practice, no source: the hottest month is on the mean 7 K cooler than its design day and the coldest 10 K warmer,
    /// January or July, with three quarters of a clear sky's sun and 3 m/s of wind. With less between them a year made of
    /// the months goes beyond the design temperatures of its own accord.
    #[must_use]
    pub fn guessed(brief: &Brief) -> Self {
        let half = brief.daily_range.0 / 2.0;
        let (hottest, coldest) = (brief.hottest.0 - half - 7.0, brief.coldest.0 + half + 10.0);
        // Where it is about as warm all the year the two would cross.
        let (hottest, coldest) = if hottest < coldest {
            let mean = f64::midpoint(hottest, coldest);
            (mean, mean)
        } else {
            (hottest, coldest)
        };
        let first = if brief.latitude.0 < 0.0 { 6 } else { 0 };
        // A guess is not known to more than a tenth.
        let tenths = |degrees: f64| (degrees * 10.0).round() / 10.0;
        let month = |at: usize| Month {
            air: Celsius(tenths(coldest + (hottest - coldest) * WARMTH[(at + first) % 12]).clamp(-70.0, 50.0)),
            daily_range: brief.daily_range,
            clearness: 0.75,
            wind: 3.0,
        };
        Self(std::array::from_fn(month))
    }
}

/// What is asked for. A limit that nobody has set is `None`: its check then says so instead of passing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Brief {
    /// Where it stands, in words.
    pub site: String,
    /// Height above the sea.
    pub elevation: Metres,
    /// Latitude, north positive.
    pub latitude: Degrees,
    /// Longitude, east positive.
    pub longitude: Degrees,
    /// Local standard time less universal time, hours, east positive; without summer time.
    pub utc_offset: f64,
    /// Share of the sunlight on the ground that it sends back, 0…1.
    pub albedo: f64,
    /// Height of the horizon in directions at equal distances, north first and clockwise; none for a free horizon.
    pub horizon: Vec<Degrees>,
    /// Bearing of the front, degrees clockwise from north.
    pub bearing: Degrees,
    /// How it stands among walls and neighbours.
    pub installation: Installation,
    /// Sun on it at the design hour.
    pub sun: Sun,
    /// Outdoor air at the hottest design hour.
    pub hottest: Celsius,
    /// Outdoor air at the coldest design hour.
    pub coldest: Celsius,
    /// Hottest less coldest outdoor air of the hottest day.
    pub daily_range: Kelvins,
    /// The hottest day that is run through; files need not say it.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub hot_day: HotDay,
    /// The coldest day that is run through; files need not say it.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub cold_day: ColdDay,
    /// The months at the site; none: as [`MonthlyMeans::guessed`] has them.
    pub months: Option<Box<MonthlyMeans>>,
    /// Inside air is kept at least this warm, where no device asks for more.
    pub keep_above: Celsius,
    /// Electrical supply.
    pub supply: SiteSupply,
    /// What is asked of supply and backup; files need not say it.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub power: PowerAsked,
    /// Price of electricity, in `currency` per kWh; none: no cost is told.
    pub tariff: Option<f64>,
    /// Currency of the tariff, a code of ISO 4217.
    pub currency: String,
    /// Units to keep free for growth.
    pub spare_units: u32,
    /// Fibre ports wanted.
    pub fibre_ports: u32,
    /// Splices wanted.
    pub splices: u32,
    /// Knock-outs to keep for growth.
    pub spare_knock_outs: u32,
    /// Greatest equipped mass.
    pub mass_limit: Option<Kilograms>,
    /// Greatest mass one person lifts here.
    pub one_person_lift: Kilograms,
    /// Bearing pressure the pad or soil may carry.
    pub bearing_limit: Option<Kilopascals>,
    /// Greatest shipping mass.
    pub transport_mass: Option<Kilograms>,
    /// Greatest shipping height, on its pallet.
    pub transport_height: Option<Millimetres>,
    /// Height of the crane hook above the lifting eyes.
    pub hook_height: Millimetres,
    /// Least tip angle asked for, degrees.
    pub tip_angle: Degrees,
}

impl Brief {
    /// What so much electricity (kWh) costs, in the brief's currency; none without a tariff.
    #[must_use]
    pub fn cost(&self, electricity: f64) -> Option<f64> {
        Some(self.tariff? * electricity)
    }
}

/// What nobody has said yet: a plain place of the temperate zone, so that every check has something to go by.
impl Default for Brief {
    fn default() -> Self {
        Self {
            site: String::new(),
            elevation: Metres(0.0),
            latitude: Degrees(40.0),
            longitude: Degrees(-100.0),
            utc_offset: -6.0,
            albedo: 0.2,
            horizon: Vec::new(),
            bearing: Degrees(180.0),
            installation: Installation::FreeStanding,
            sun: Sun::Full,
            hottest: Celsius(46.0),
            coldest: Celsius(-20.0),
            daily_range: Kelvins(14.0),
            hot_day: HotDay::Design,
            cold_day: ColdDay::Design,
            months: None,
            keep_above: Celsius(0.0),
            supply: SiteSupply::SplitPhase120240,
            power: PowerAsked::default(),
            tariff: None,
            currency: "USD".into(),
            spare_units: 0,
            fibre_ports: 0,
            splices: 0,
            spare_knock_outs: 0,
            mass_limit: None,
            one_person_lift: Kilograms(23.0),
            bearing_limit: None,
            transport_mass: None,
            transport_height: None,
            hook_height: Millimetres(1200.0),
            tip_angle: Degrees(10.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Edit, apply, new_project};

    fn brief(latitude: f64, hottest: f64, coldest: f64, daily_range: f64) -> Brief {
        let (latitude, daily_range) = (Degrees(latitude), Kelvins(daily_range));
        Brief { latitude, daily_range, hottest: Celsius(hottest), coldest: Celsius(coldest), ..Brief::default() }
    }

    fn check(brief: &Brief, january: f64, april: f64, july: f64) {
        let months = MonthlyMeans::guessed(brief).0;
        for (month, expected) in [(0, january), (3, april), (6, july)] {
            assert!((months[month].air.0 - expected).abs() < 1e-9, "{month}: {}", months[month].air.0);
        }
    }

    #[test]
    fn guessed_months_lie_within_the_design_temperatures() {
        // 46 − 7 − 7 and −20 + 7 + 10, and half-way
        check(&Brief::default(), -3.0, 14.5, 32.0);
        check(&brief(-40.0, 46.0, -20.0, 14.0), 32.0, 14.5, -3.0);
        // 30 − 4 − 7 = 19 and 18 + 4 + 10 = 32 cross: their mean all the year.
        check(&brief(2.0, 30.0, 18.0, 8.0), 25.5, 25.5, 25.5);
    }

    #[test]
    fn guessed_months_are_taken_whatever_the_brief_says() {
        let catalogue = catalogue::sample();
        for (hottest, coldest, range) in
            [(60.0, -60.0, 0.0), (60.0, 40.0, 40.0), (-20.0, -60.0, 40.0), (46.0, -20.0, 14.0)]
        {
            let mut brief = brief(40.0, hottest, coldest, range);
            brief.months = Some(Box::new(MonthlyMeans::guessed(&brief)));
            let taken = apply(&mut new_project(&catalogue), &Edit::SetBrief(Box::new(brief)), &catalogue);
            assert_eq!(taken, Ok(()), "{hottest} {coldest} {range}");
        }
    }
}
