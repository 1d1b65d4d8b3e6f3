//! Where formulas and fixed values come from. Each source stands here once and is named in every result that rests on it.

use serde::Serialize;

/// How far a source has been confirmed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Read in the document, or in a public reprint or open implementation of it.
    Read,
    /// Recalled; to be confirmed in the document before it is relied on.
    FromMemory,
    /// Common practice of the trade, without a source.
    CommonPractice,
    /// Follows from definitions, statics or geometry with every input stated.
    FirstPrinciples,
}

/// A source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Source {
    /// Author or document.
    pub document: &'static str,
    /// Edition or year.
    pub edition: &'static str,
    /// Place in it.
    pub place: &'static str,
    /// How far it has been confirmed.
    pub standing: Standing,
}

macro_rules! sources {
    ($($(#[$doc:meta])* $name:ident = $document:literal, $edition:literal, $place:literal, $standing:ident;)*) => {$(
        $(#[$doc])*
        pub static $name: Source =
            Source { document: $document, edition: $edition, place: $place, standing: Standing::$standing };
    )*};
}

sources! {
    /// Rack unit, panel height and width.
    EIA_310 = "EIA/ECA-310-E; IEC 60297-3-100", "2005; 2008", "panel and rail dimensions", Read;
    /// Statics and geometry.
    GEOMETRY = "geometry of the build", "", "all inputs stated", FirstPrinciples;
    /// Common practice.
    PRACTICE = "common practice", "", "no source", CommonPractice;
}
