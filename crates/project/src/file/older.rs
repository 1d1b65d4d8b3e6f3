//! Files of older versions: what they could not say yet, as a new project has it.

use serde_json::Value;

use crate::Brief;

/// Version 1 knew neither where on earth the site is nor what its months and its electricity are like.
pub(super) fn say_what_version_one_left_open(project: &mut Value) {
    let Some(Value::Object(brief)) = project.get_mut("brief") else { return };
    let Brief { latitude, longitude, utc_offset, albedo, daily_range, currency, .. } = Brief::default();
    let said: [(&str, Value); 7] = [
        ("latitude", latitude.0.into()),
        ("longitude", longitude.0.into()),
        ("utc_offset", utc_offset.into()),
        ("albedo", albedo.into()),
        ("horizon", Value::Array(Vec::new())),
        ("daily_range", daily_range.0.into()),
        ("currency", currency.into()),
    ];
    for (name, value) in said {
        brief.entry(name).or_insert(value);
    }
}
