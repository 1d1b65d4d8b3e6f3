//! Which design tokens the model is painted with. A paint is three tones: for faces that look up, to the front or rear,
//! and to a side. The values are read from the style sheet, so both sheets and forced colours work.

use geometry::Tone;

/// A way to paint a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub(crate) enum Paint {
    Body,
    Plinth,
    Shield,
    Leaf,
    LeafInside,
    Unit,
    Dark,
    Metal,
    Room,
    Pad,
    Timber,
    Network,
    Fibre,
    Compute,
    Power,
    Battery,
    Cable,
    Manager,
    /// The ground beyond the pad: nothing but the cast shadow.
    Ground,
}

impl Paint {
    /// How many there are.
    pub(crate) const COUNT: usize = Self::Ground as usize + 1;

    /// All of them, in the order of their numbers.
    const ALL: [Self; Self::COUNT] = [
        Self::Body,
        Self::Plinth,
        Self::Shield,
        Self::Leaf,
        Self::LeafInside,
        Self::Unit,
        Self::Dark,
        Self::Metal,
        Self::Room,
        Self::Pad,
        Self::Timber,
        Self::Network,
        Self::Fibre,
        Self::Compute,
        Self::Power,
        Self::Battery,
        Self::Cable,
        Self::Manager,
        Self::Ground,
    ];

    /// The paint of a tone.
    pub(crate) const fn of(tone: Tone) -> Self {
        match tone {
            Tone::Body => Self::Body,
            Tone::Plinth => Self::Plinth,
            Tone::Shield => Self::Shield,
            Tone::Leaf => Self::Leaf,
            Tone::Unit => Self::Unit,
            Tone::Dark => Self::Dark,
            Tone::Metal => Self::Metal,
            Tone::Inner => Self::Room,
            Tone::Pad => Self::Pad,
            Tone::Timber => Self::Timber,
            Tone::Network => Self::Network,
            Tone::Fibre => Self::Fibre,
            Tone::Compute => Self::Compute,
            Tone::Power => Self::Power,
            Tone::Battery => Self::Battery,
            Tone::Cable => Self::Cable,
        }
    }

    /// Whether the sun's shadow may fall on it: what lies outside, not the room, which is dark already.
    pub(crate) const fn in_the_sun(self) -> bool {
        matches!(
            self,
            Self::Body
                | Self::Plinth
                | Self::Shield
                | Self::Leaf
                | Self::LeafInside
                | Self::Unit
                | Self::Pad
                | Self::Ground
        )
    }

    /// Its tokens: top, front, side.
    const fn tokens(self) -> [&'static str; 3] {
        match self {
            Self::Body => ["--m-top", "--m-front", "--m-side"],
            Self::Plinth => ["--m-plinth", "--m-plinth", "--m-plinth-side"],
            Self::Shield => ["--m-top", "--m-shield", "--m-shield-side"],
            Self::Leaf => ["--m-edge", "--m-front", "--m-side"],
            // Shut, it looks to the front or rear and is a wall of the dark room; open, it looks to a side and is light.
            Self::LeafInside => ["--m-edge", "--m-deep", "--m-leaf"],
            Self::Unit => ["--m-top", "--m-unit", "--m-unit-in"],
            Self::Dark => ["--m-dark", "--m-dark", "--m-dark"],
            Self::Metal => ["--m-metal", "--m-metal", "--m-inner"],
            Self::Room => ["--m-floor", "--m-deep", "--m-inner"],
            Self::Pad | Self::Ground => ["--m-pad", "--m-pad-front", "--m-pad-side"],
            Self::Timber => ["--wash-fibre", "--wash-fibre", "--wash-power"],
            Self::Network => ["--m-metal", "--wash-net", "--m-edge"],
            Self::Fibre => ["--m-metal", "--wash-fibre", "--m-edge"],
            Self::Compute => ["--m-metal", "--wash-comp", "--m-edge"],
            Self::Power => ["--m-metal", "--wash-power", "--m-edge"],
            Self::Battery => ["--wash-batt", "--wash-batt", "--wash-batt"],
            Self::Cable => ["--m-metal", "--wash-tray", "--m-edge"],
            Self::Manager => ["--m-inner", "--m-inner", "--m-inner"],
        }
    }
}

/// The inks that lines are drawn in: edges, hidden edges, cables.
pub(super) const INKS: [&str; 3] = ["--ink", "--line", "--pencil"];

/// A colour: red, green, blue, opacity, each 0 to 1.
pub(crate) type Colour = [f32; 4];

/// All colours of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Palette {
    /// Three for each paint: top, front, side.
    pub(crate) tones: Vec<[f32; 3]>,
    /// Ink, the line of hidden edges, and cables.
    pub(crate) inks: [Colour; 3],
    /// The cast shadow.
    pub(crate) cast: Colour,
    /// What sunlight of a chosen time carries a face towards.
    pub(crate) glow: [f32; 3],
}

/// The token of sunlight.
const GLOW: &str = "--heat-4";

impl Palette {
    /// Reads every token through `colour_of`, which gives a computed colour as the browser writes it.
    pub(crate) fn read(mut colour_of: impl FnMut(&str) -> String) -> Self {
        let mut colour = |token: &str, instead: Colour| parsed(&colour_of(token)).unwrap_or(instead);
        let tones = Paint::ALL
            .iter()
            .flat_map(|paint| paint.tokens())
            .map(|token| {
                let [red, green, blue, _] = colour(token, [0.8, 0.8, 0.8, 1.0]);
                [red, green, blue]
            })
            .collect();
        let inks = INKS.map(|token| colour(token, [0.1, 0.1, 0.1, 1.0]));
        let [red, green, blue, _] = colour(GLOW, [0.9, 0.7, 0.4, 1.0]);
        Self { tones, inks, cast: colour("--cast", [0.0, 0.0, 0.0, 0.13]), glow: [red, green, blue] }
    }
}

/// A computed colour: `rgb(21, 32, 44)`, `rgba(21, 32, 44, 0.13)`, or the same with spaces and a slash.
fn parsed(written: &str) -> Option<Colour> {
    let inside = written.trim().strip_prefix("rgb")?.trim_start_matches('a').strip_prefix('(')?.strip_suffix(')')?;
    let mut numbers = inside.split([',', ' ', '/']).filter(|part| !part.is_empty()).map(str::parse::<f32>);
    let mut next = || numbers.next()?.ok();
    let rgb = [next()?, next()?, next()?].map(|channel| (channel / 255.0).clamp(0.0, 1.0));
    let opacity = next().unwrap_or(1.0).clamp(0.0, 1.0);
    Some([rgb[0], rgb[1], rgb[2], opacity])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_colours_as_browsers_write_them() {
        assert_eq!(parsed("rgb(255, 0, 51)"), Some([1.0, 0.0, 0.2, 1.0]));
        assert_eq!(parsed("rgba(0, 0, 0, 0.38)"), Some([0.0, 0.0, 0.0, 0.38]));
        assert_eq!(parsed("rgb(255 0 51 / 0.5)"), Some([1.0, 0.0, 0.2, 0.5]));
        assert_eq!(parsed("CanvasText"), None);
        assert_eq!(parsed(""), None);
    }

    #[test]
    fn every_paint_has_its_place_in_the_table() {
        for (number, paint) in Paint::ALL.iter().enumerate() {
            assert_eq!(*paint as usize, number);
        }
        let palette = Palette::read(|_| "rgb(0, 0, 0)".into());
        assert_eq!(palette.tones.len(), 3 * Paint::COUNT);
    }

    #[test]
    fn every_token_is_in_both_sheets() {
        let sheet = include_str!("../../styles/tokens.css");
        let (day, night) = sheet.split_once("[data-sheet=\"night\"]").unwrap();
        let tokens = Paint::ALL.iter().flat_map(|paint| paint.tokens()).chain(INKS).chain(["--cast", GLOW]);
        for token in tokens {
            let written = format!("{token}:");
            assert!(day.contains(&written) && night.contains(&written), "{token}");
        }
    }
}
