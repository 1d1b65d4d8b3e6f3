//! What a part must obey beyond its schema: numbers in their ranges, readable text, fields that agree with each other.

use crate::load::{Problems, quoted};
use crate::ranges::range_of;
use crate::{
    About, ClimateUnit, Device, Door, Family, GlandPlate, Insulation, LiftingEye, Manager, Paint, Pallet, Plain,
    Plinth, Problem, Range, Shield, Skin, Trade, UnitSort,
};

/// Rated points may differ from the map by this share.
const RATED_WITHIN: f64 = 0.02;

/// The most rows or columns of a map.
const MOST_POINTS: usize = 64;

/// Checks every number of a table against its range, and every text for length and characters that cannot be shown.
pub(crate) fn check_numbers_and_text(kind: &str, value: &Plain, place: &str, problems: &mut Problems) {
    walk(value, "", "", &mut |field, exact, leaf| {
        let here = || format!("{place}.{exact}");
        match leaf {
            Plain::Number(number) => {
                if let Some((found, allowed)) = number_fault(kind, field, *number) {
                    problems.push(Problem::new(here(), found, allowed));
                }
            }
            #[expect(clippy::cast_precision_loss, reason = "a number that large is out of every range")]
            Plain::Whole(number) => {
                if let Some((found, allowed)) = number_fault(kind, field, *number as f64) {
                    problems.push(Problem::new(here(), found, allowed));
                }
            }
            Plain::Text(text) => {
                let most = if field == "name" { 60 } else { 400 };
                let length = text.chars().count();
                if length == 0 || length > most || text.chars().any(char::is_control) || text.trim() != text {
                    let allowed = format!("1 to {most} characters that can be shown, no space at the ends");
                    problems.push(Problem::new(here(), quoted(text), allowed));
                }
            }
            _ => {}
        }
    });
}

/// Calls `visit` with field (without places in lists), exact place and value of everything that is not a list or table.
fn walk(value: &Plain, field: &str, exact: &str, visit: &mut impl FnMut(&str, &str, &Plain)) {
    match value {
        Plain::Table(table) => {
            for (key, inner) in table {
                let dot = if field.is_empty() { "" } else { "." };
                walk(inner, &format!("{field}{dot}{key}"), &format!("{exact}{dot}{key}"), visit);
            }
        }
        Plain::List(list) => {
            for (number, inner) in list.iter().enumerate() {
                walk(inner, field, &format!("{exact}[{number}]"), visit);
            }
        }
        leaf => visit(field, exact, leaf),
    }
}

fn number_fault(kind: &str, field: &str, number: f64) -> Option<(String, String)> {
    match range_of(kind, field) {
        Some(row) if number >= row.from && number <= row.to => None,
        Some(row) => {
            Some((number.to_string(), format!("{} to {} {}", row.from, row.to, row.unit).trim_end().to_owned()))
        }
        // A field without a range is unknown, which the schema says.
        None if number.is_finite() => None,
        None => Some((number.to_string(), "a finite number".to_owned())),
    }
}

/// Tells a fault: field, found, allowed.
type Say<'a> = &'a mut dyn FnMut(&str, String, String);

/// Whether the fields of a part agree with each other. Not-a-number passes here: its range has refused it already.
pub(crate) trait Sensible {
    /// Tells what does not agree.
    fn check(&self, say: Say<'_>);
}

fn rises(field: &str, range: Range, say: Say<'_>) {
    if range.from > range.to {
        say(field, format!("from {} to {}", range.from, range.to), "from at most to".to_owned());
    }
}

fn contained(field: &str, value: f64, range: Range, say: Say<'_>) {
    if !range.contains(value) {
        say(field, value.to_string(), format!("{} to {}, as its own range says", range.from, range.to));
    }
}

fn capitals(field: &str, text: &str, count: usize, what: &str, say: Say<'_>) {
    if text.len() != count || !text.bytes().all(|byte| byte.is_ascii_uppercase()) {
        say(field, quoted(text), format!("{count} capital letters, {what}"));
    }
}

impl Sensible for Trade {
    fn check(&self, say: Say<'_>) {
        if let Some(origin) = &self.origin {
            capitals("trade.origin", origin, 2, "a country code of ISO 3166", say);
        }
    }
}

impl Sensible for About {
    fn check(&self, say: Say<'_>) {
        capitals("currency", &self.currency, 3, "a currency code of ISO 4217", say);
    }
}

impl Sensible for Family {
    fn check(&self, say: Say<'_>) {
        for (field, range) in [
            ("height_range", self.height_range),
            ("depth", self.depth),
            ("bay_width", self.bay_width),
            ("rail_setback", self.rail_setback),
        ] {
            rises(field, range, say);
        }
        if self.heights.is_empty() || !self.heights.windows(2).all(|pair| pair[0] < pair[1]) {
            say("heights", format!("{:?}", self.heights), "at least one, rising".to_owned());
        }
        for height in &self.heights {
            contained("heights", f64::from(*height), self.height_range, say);
        }
        self.trade.check(say);
    }
}

impl Sensible for Skin {
    fn check(&self, say: Say<'_>) {
        self.trade.check(say);
    }
}

impl Sensible for Insulation {
    fn check(&self, say: Say<'_>) {
        rises("thickness", self.thickness, say);
        self.trade.check(say);
    }
}

impl Sensible for Paint {
    fn check(&self, say: Say<'_>) {
        let hexadecimal = |digits: &str| digits.len() == 6 && digits.bytes().all(|byte| byte.is_ascii_hexdigit());
        if !self.colour.strip_prefix('#').is_some_and(hexadecimal) {
            say("colour", quoted(&self.colour), "#rrggbb".to_owned());
        }
    }
}

impl Sensible for Plinth {
    fn check(&self, say: Say<'_>) {
        rises("height", self.height, say);
        contained("usual_height", self.usual_height.0, self.height, say);
        self.trade.check(say);
    }
}

impl Sensible for Shield {
    fn check(&self, say: Say<'_>) {
        rises("gap", self.gap, say);
        rises("overhang", self.overhang, say);
        self.trade.check(say);
    }
}

impl Sensible for Door {
    fn check(&self, say: Say<'_>) {
        self.trade.check(say);
    }
}

impl Sensible for LiftingEye {
    fn check(&self, say: Say<'_>) {
        self.trade.check(say);
    }
}

impl Sensible for Manager {
    fn check(&self, say: Say<'_>) {
        self.trade.check(say);
    }
}

impl Sensible for GlandPlate {
    fn check(&self, say: Say<'_>) {
        // Side by side in their squares they must find room; how exactly they lie is the shop's affair.
        let needed = f64::from(self.knock_outs) * self.knock_out.0 * self.knock_out.0;
        let there = self.width.0 * self.depth.0;
        if needed > there {
            say(
                "knock_outs",
                format!("{} of {} mm", self.knock_outs, self.knock_out.0),
                "as many as the plate has room for".to_owned(),
            );
        }
        self.trade.check(say);
    }
}

impl Sensible for Pallet {
    fn check(&self, _: Say<'_>) {}
}

impl Sensible for ClimateUnit {
    fn check(&self, say: Say<'_>) {
        if self.places.is_empty() {
            say("places", "none".to_owned(), "at least one".to_owned());
        }
        if self.inner_depth > self.size.depth.0 {
            say("inner_depth", self.inner_depth.to_string(), format!("at most size.depth, {}", self.size.depth.0));
        }
        if (self.cut_out_width > 0.0) != (self.cut_out_height > 0.0) {
            let found = format!("{} and cut_out_width {}", self.cut_out_height, self.cut_out_width);
            say("cut_out_height", found, "both 0 or both more".to_owned());
        }
        if self.soiled_share < 1.0 && self.sort != UnitSort::FilterFan {
            say("soiled_share", self.soiled_share.to_string(), "1 for what is no filter fan".to_owned());
        }
        if self.input_inside == Some(true) && self.sort == UnitSort::Heater {
            say("input_inside", "true".to_owned(), "false for a heater: its map says what it gives inside".to_owned());
        }
        self.check_map(say);
        self.trade.check(say);
    }
}

impl ClimateUnit {
    fn check_map(&self, say: Say<'_>) {
        let map = &self.map;
        for (field, points) in [("map.inside", &map.inside), ("map.outside", &map.outside)] {
            if points.len() < 2 || points.len() > MOST_POINTS {
                say(field, format!("{} temperatures", points.len()), format!("2 to {MOST_POINTS}"));
            }
            if let Some(pair) = points.windows(2).find(|pair| pair[0] >= pair[1]) {
                say(field, format!("{} before {}", pair[0], pair[1]), "rising temperatures".to_owned());
            }
        }
        for (field, rows) in [("map.capacity", &map.capacity), ("map.input", &map.input)] {
            if rows.len() != map.inside.len() {
                let allowed = format!("{}, one for each of map.inside", map.inside.len());
                say(field, format!("{} rows", rows.len()), allowed);
            }
            for (number, row) in rows.iter().enumerate().filter(|(_, row)| row.len() != map.outside.len()) {
                let allowed = format!("{}, one for each of map.outside", map.outside.len());
                say(&format!("{field}[{number}]"), format!("{} columns", row.len()), allowed);
            }
        }
        for (number, point) in self.rated.iter().enumerate() {
            let field = format!("rated[{number}].capacity");
            match map.capacity_at(point.inside, point.outside) {
                None => say(
                    &field,
                    format!("inside {}, outside {}", point.inside.0, point.outside.0),
                    "a point on the map".to_owned(),
                ),
                Some(mapped) if (mapped.0 - point.capacity.0).abs() <= RATED_WITHIN * mapped.0.abs() => {}
                Some(mapped) => say(
                    &field,
                    point.capacity.0.to_string(),
                    format!("within {} % of the map, which says {:.1}", RATED_WITHIN * 100.0, mapped.0),
                ),
            }
        }
    }
}

impl Sensible for Device {
    fn check(&self, say: Say<'_>) {
        if self.rack != 19 && self.rack != 23 {
            say("rack", self.rack.to_string(), "19 or 23".to_owned());
        }
        if self.units().is_none() && self.height.0 <= 0.0 {
            say("height", self.height.0.to_string(), "more than 0 mm, unless rack-mounted".to_owned());
        }
        if let Some(most) = self.power_max.filter(|most| most.0 < self.power.0) {
            say("power_max", most.0.to_string(), format!("at least power, {}", self.power.0));
        }
        if let (Some(least), Some(most)) = (self.inlet_min, self.inlet_max)
            && least.0 >= most.0
        {
            say("inlet_max", most.0.to_string(), format!("more than inlet_min, {}", least.0));
        }
        self.trade.check(say);
    }
}
