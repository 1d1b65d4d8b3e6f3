//! What a run over time rests on: named in every check that judges one.

use crate::Source;
use crate::sources::{
    CATALOGUE, CELLS, CLEAR_SKY, DAILY_CYCLES, DOORWAY, HALVED_LIFE, LITHIUM_FROST, NATURAL_FILMS, PEUKERT, PRACTICE,
    SHIELD_GAP, SKY_LIGHT, SKY_WARMTH, STEPPED_BALANCE, SUN_POSITION, WEATHER, WIND_FILMS,
};

macro_rules! rests_on {
    ($($(#[$doc:meta])* $name:ident = $($own:ident),*;)*) => {$(
        $(#[$doc])*
        pub(super) static $name: &[&Source] = &[
            $(&$own,)*
            &STEPPED_BALANCE,
            &SUN_POSITION,
            &SKY_LIGHT,
            &NATURAL_FILMS,
            &WIND_FILMS,
            &SKY_WARMTH,
            &SHIELD_GAP,
            &CATALOGUE,
            &PRACTICE,
        ];
    )*};
}

rests_on! {
    /// A run over the year. What is common practice in it, the runs' own files say: ground, leaks, specific heats, wind.
    YEAR = WEATHER;
    /// A run over a design day under a clear sky, or over a printed daily cycle.
    DAY = CLEAR_SKY, DAILY_CYCLES;
    /// The hot day with a door open.
    OPEN_DOOR = DOORWAY, CLEAR_SKY, DAILY_CYCLES;
    /// The hot day without supply, with strings that run down.
    GRID_LOST = PEUKERT, CELLS, CLEAR_SKY, DAILY_CYCLES;
    /// Batteries over the year, and how warmth ages them.
    BATTERIES = HALVED_LIFE, WEATHER;
    /// Lithium over the year.
    LITHIUM = LITHIUM_FROST, WEATHER;
}
