//! From bytes to text.

use super::told::Told;
use crate::{Note, WeatherProblem};

/// Larger weather files are not read, bytes: a year of one-minute records has about 70 MB.
pub const MOST_EPW_BYTES: usize = 100_000_000;

/// The text of a file with or without a byte order mark, in UTF-8, UTF-16 or Latin-1, with any line ends.
pub(super) fn decode(bytes: &[u8], told: &mut Told) -> Option<String> {
    if bytes.len() > MOST_EPW_BYTES {
        told.problem(WeatherProblem::new(
            "file",
            format!("{} bytes", bytes.len()),
            format!("at most {MOST_EPW_BYTES}"),
        ));
        return None;
    }
    let text = match bytes {
        [0xEF, 0xBB, 0xBF, rest @ ..] => utf_8(rest, told),
        [0xFF, 0xFE, rest @ ..] => utf_16(rest, u16::from_le_bytes, told),
        [0xFE, 0xFF, rest @ ..] => utf_16(rest, u16::from_be_bytes, told),
        all => utf_8(all, told),
    };
    if text.contains('\0') {
        told.problem(WeatherProblem::new("file", "bytes that are no text", "an EPW file, which is text"));
        return None;
    }
    // Old machines end a line with CR alone, which nothing else here would take for an end.
    Some(if text.contains('\n') { text } else { text.replace('\r', "\n") })
}

fn utf_8(bytes: &[u8], told: &mut Told) -> String {
    std::str::from_utf8(bytes).map_or_else(
        |_| {
            said(told, "Latin-1, as it is not UTF-8");
            bytes.iter().copied().map(char::from).collect()
        },
        str::to_owned,
    )
}

fn utf_16(bytes: &[u8], unit: fn([u8; 2]) -> u16, told: &mut Told) -> String {
    said(told, "UTF-16, as its byte order mark says");
    let units = bytes.as_chunks::<2>().0.iter().copied().map(unit);
    char::decode_utf16(units).map(|read| read.unwrap_or(char::REPLACEMENT_CHARACTER)).collect()
}

fn said(told: &mut Told, encoding: &str) {
    told.note(Note { place: "file".to_owned(), text: format!("read as {encoding}"), count: 1 });
}
