//! What is asked for: site, climate, limits, growth.

use serde::{Deserialize, Serialize};
use units::{Celsius, Degrees, Kelvins, Kilograms, Kilopascals, Metres, Millimetres};

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
    /// The months at the site; none: a year is derived from the latitude and the design temperatures.
    pub months: Option<Box<MonthlyMeans>>,
    /// Inside air is kept at least this warm, where no device asks for more.
    pub keep_above: Celsius,
    /// Electrical supply.
    pub supply: SiteSupply,
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
            months: None,
            keep_above: Celsius(0.0),
            supply: SiteSupply::SplitPhase120240,
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
