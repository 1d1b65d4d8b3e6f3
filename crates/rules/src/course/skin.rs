//! One outer face in the weather: how warm its skin gets, and what passes inside.
//!
//! bare:    α G + R + K_i (θ_i − θ_s) = K_o θ_s,  K_o = h_c + ε h_r
//! behind a shield, with the gap's air θ_g = r · ½ (θ_sh + θ_s):
//!   sheet: α G + R + h (θ_g − θ_sh) + h_12 (θ_s − θ_sh) = K_o θ_sh
//!   skin:  K_i (θ_i − θ_s) + h (θ_g − θ_s) + h_12 (θ_sh − θ_s) = 0
//! which, with B = h_12 + h r/2,  E = h_12 + h (1 − r/2),  D = K_o + E, is a bare skin of
//!   K_o' = E − B²/D,  S' = (α G + R) · B/D
//! into the inside air:  Q = A · [K_i S / (K_o + K_i) − K_i K_o / (K_o + K_i) · θ_i]
//!
//! - θ      skin, sheet, gap's air, inside air, less the outdoor air T_o         [K]
//! - α G    sun taken up                                                         [W/m²]
//! - R      radiation of the sky less that of air as warm as outdoors, ε F L      [W/m²]
//! - K_i    inside film and layers in series                                     [W/(m²·K)]
//! - h_c    natural film and wind, blended (`climate::convection`)                [W/(m²·K)]
//! - h_r    4 σ T³ at the mean of skin and outdoor air                           [W/(m²·K)]
//! - h_12   radiation between sheet and skin, painted alike                      [W/(m²·K)]
//! - h, r   film and warmth of the gap's air (`vented_gap.rs`)
//!
//! Source:      heat balance of each surface, first principles; films, sky and gap as named there. The skin stores nothing.
//! Valid for:   painted surfaces; shields of the skin's own paint on both sides.
//! Agreement:   tests below: the isothermal shell T05-27 within 0.05 K, a plate in the sun T05-18 exactly; no gap makes a
//!              single skin and a perfect shield keeps all sun off. The steps stop when the skin moves less than 0.1 K.
//! Not covered: ground warmer than the air (it is taken as warm), ribs and fixings through the insulation.

use std::cell::Cell;

use climate::convection::{AirTable, NaturalTable, WindTable, blended, linear};

use super::moment::Moment;
use super::overhang::Overhang;
use super::vented_gap::VentedGap;

/// The steps end when the skin moves by less, K. Films follow it weakly, so that what is left then is a tenth of that.
const SETTLED: f64 = 0.1;
/// How much less exactly the sheet of a shield has to be known.
const SHEET: f64 = 0.25;
/// Most steps; three are usual on a bright morning behind a shield, one or two elsewhere.
const MOST_STEPS: usize = 12;

/// Films of all faces of one cabinet.
#[derive(Clone, Debug)]
pub struct Films {
    /// Corrections for the air.
    pub airs: AirTable,
    /// Natural film of walls and of the roof.
    pub natural: [NaturalTable; 2],
    /// Film of the wind.
    pub wind: WindTable,
}

/// What all faces share at one moment.
#[derive(Clone, Copy, Debug)]
pub struct Around {
    /// Outdoor air, °C.
    pub air: f64,
    /// Wind, m/s.
    pub wind: f64,
    /// Fourth power of the wind's film.
    pub wind_fourth: f64,
    /// Radiation of the sky less that of air as warm as outdoors, W/m².
    pub sky: f64,
}

impl Around {
    /// At a moment.
    #[must_use]
    pub fn at(moment: &Moment, films: &Films) -> Self {
        let film = films.wind.film(moment.wind, &films.airs.at(moment.outside));
        let square = film * film;
        let black = linear(moment.outside) * (moment.outside + 273.15) / 4.0;
        Self { air: moment.outside, wind: moment.wind, wind_fourth: square * square, sky: moment.sky - black }
    }
}

/// An outer face, or the part of it that belongs to one room.
#[derive(Clone, Debug)]
pub struct Skin {
    /// Which, in the order of a span.
    pub face: usize,
    /// Its area, m².
    pub area: f64,
    /// Inside film and layers, W/(m²·K).
    pub inner: f64,
    /// Share of sunlight taken up.
    pub absorptance: f64,
    /// Emissivity.
    pub emissivity: f64,
    /// Share of its view that is as cold as the sky.
    pub sky: f64,
    /// Whether it is the roof.
    pub roof: bool,
    /// Whether the beam reaches it.
    pub beam: bool,
    /// The roof's edge over it.
    pub overhang: Overhang,
    /// Gap behind a shield, and the emissivity that stands for its two sides.
    pub shield: Option<(VentedGap, f64)>,
    /// What was before it when last asked: where the steps begin.
    pub last: Cell<Before>,
}

/// What is before a skin.
#[derive(Clone, Copy, Debug)]
pub struct Before {
    /// K_o, or K_o' behind a shield, W/(m²·K).
    film: f64,
    /// Share B/D of the source that reaches the skin, and of the skin's warmth that the sheet takes on.
    share: f64,
    /// 1/D: how warm the sheet gets by itself, K for each W/m².
    alone: f64,
    /// r of the gap's air.
    warmth: f64,
}

impl Before {
    /// Of a skin without a shield, in a breeze.
    pub const BARE: Self = Self { film: 12.0, share: 1.0, alone: 0.0, warmth: 0.0 };
}

/// Skin, sheet and gap's air, less the outdoor air, K; the sheet of a bare skin is the skin.
#[derive(Clone, Copy, Debug)]
struct Warmth {
    skin: f64,
    sheet: f64,
    air: f64,
}

/// What passes through one face or several: heat inside is `gain` less `conductance` times inside less outdoor air.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Through {
    /// W/K.
    pub conductance: f64,
    /// W with the inside air as warm as outdoors, sun and sky together.
    pub gain: f64,
    /// What of it is the sun, W.
    pub sun: f64,
}

impl Skin {
    /// Sun on the face, W/m².
    #[must_use]
    pub fn sunlight(&self, moment: &Moment) -> f64 {
        let diffuse = moment.diffuse[self.face];
        let beam = moment.beam[self.face];
        if !self.beam || beam <= 0.0 {
            return diffuse;
        }
        let [front, right, up] = moment.sun;
        let (out, aside) = match self.face {
            0 => (front, right),
            1 => (-front, right),
            2 => (-right, front),
            3 => (right, front),
            _ => return diffuse + beam,
        };
        diffuse + beam * (1.0 - self.overhang.shadow(out, aside, up))
    }

    /// Film outside at a warmth over the outdoor air, radiation included, W/(m²·K).
    fn outside_film(&self, films: &Films, around: &Around, warmth: f64) -> f64 {
        let natural = films.natural[usize::from(self.roof)].fourth(warmth, &films.airs, around.air);
        blended(natural, around.wind_fourth) + self.emissivity * linear(around.air + warmth / 2.0)
    }

    /// What passes through it, with the inside air so much warmer than outdoors, K.
    #[must_use]
    pub fn through(&self, films: &Films, around: &Around, moment: &Moment, inside: f64) -> Through {
        let light = self.absorptance * self.sunlight(moment);
        let source = light + self.emissivity * self.sky * around.sky;
        let (Before { film, share, .. }, _) = self.settle(films, around, source, inside);
        let part = self.inner / (film + self.inner);
        let passed = self.area * part * share;
        Through { conductance: self.area * part * film, gain: passed * source, sun: passed * light }
    }

    /// What is before the skin, and how warm it then gets, in steps from what was before it when last asked.
    fn settle(&self, films: &Films, around: &Around, source: f64, inside: f64) -> (Before, Warmth) {
        let mut before = self.last.get();
        let mut warmth = self.warmth(&before, source, inside);
        for _ in 0..MOST_STEPS {
            before = self.before(films, around, &warmth);
            let next = self.warmth(&before, source, inside);
            let moved = (next.skin - warmth.skin).abs().max(SHEET * (next.sheet - warmth.sheet).abs());
            warmth = next;
            if moved < SETTLED {
                break;
            }
        }
        self.last.set(before);
        (before, warmth)
    }

    /// How warm it gets with this before it.
    fn warmth(&self, before: &Before, source: f64, inside: f64) -> Warmth {
        let skin = (source * before.share + self.inner * inside) / (before.film + self.inner);
        let sheet = source * before.alone + before.share * skin;
        Warmth { skin, sheet, air: before.warmth * (sheet + skin) / 2.0 }
    }

    /// What is before a skin, sheet and gap as warm as this.
    fn before(&self, films: &Films, around: &Around, warmth: &Warmth) -> Before {
        let Some((gap, emissivity)) = &self.shield else {
            return Before { film: self.outside_film(films, around, warmth.skin), ..Before::BARE };
        };
        let Warmth { skin, sheet, air } = *warmth;
        let outer = self.outside_film(films, around, sheet);
        let flow = gap.flow(air, around.air, around.wind, skin > sheet);
        let h_12 = emissivity * linear(around.air + (sheet + skin) / 2.0);
        let half = flow.film * flow.warmth / 2.0;
        let b = h_12 + half;
        let e = h_12 + flow.film - half;
        let alone = 1.0 / (outer + e);
        let share = b * alone;
        Before { film: e - b * share, share, alone, warmth: flow.warmth }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Films of the wind only: in next to no air, along faces as high as a mountain, the natural ones are next to nothing.
    fn films() -> Films {
        Films {
            airs: AirTable::of(1.0).unwrap(),
            natural: [NaturalTable::upright(1.0, 1e4).unwrap(), NaturalTable::roof(1.0, 1e4).unwrap()],
            wind: WindTable::of(101_325.0, 0.8).unwrap(),
        }
    }

    fn around(air: f64, film: f64) -> Around {
        Around { air, wind: 0.0, wind_fourth: film * film * film * film, sky: 0.0 }
    }

    fn lit(light: f64) -> Moment {
        Moment { diffuse: [light; 5], ..Moment::default() }
    }

    fn skin(absorptance: f64, emissivity: f64, inner: f64) -> Skin {
        Skin {
            face: 0,
            area: 1.0,
            inner,
            absorptance,
            emissivity,
            sky: 0.354,
            roof: false,
            beam: true,
            overhang: Overhang::default(),
            shield: None,
            last: Cell::new(Before::BARE),
        }
    }

    /// Skin with this heat coming from inside, W/m².
    fn warmth(skin: &Skin, around: &Around, light: f64, from_inside: f64) -> f64 {
        skin.settle(&films(), around, skin.absorptance * light, from_inside / skin.inner).1.skin
    }

    #[test]
    fn a_plate_in_the_sun_is_as_warm_as_published() {
        // T05-18: α 0.72, 650 W/m², h 25, air 20 °C, no radiation, insulated back: 38.72 °C (a university's worked example).
        let found = warmth(&skin(0.72, 0.0, 1e-9), &around(20.0, 25.0), 650.0, 0.0);
        assert!((20.0 + found - 38.72).abs() < 0.01, "{found}");
    }

    #[test]
    fn a_warm_shell_is_as_warm_as_published() {
        // T05-27: 300 W inside, α 0.30, 1000 W/m² on 1.35 of 6.0 m², h_c 5, ε 0.90, air 40 °C: 50.15 °C (handbook, computed).
        let shell = skin(0.30, 0.90, 1e-9);
        let found = warmth(&shell, &around(40.0, 5.0), 1000.0 * 1.35 / 6.0, 300.0 / 6.0);
        assert!((40.0 + found - 50.15).abs() < 0.05, "{found}");
    }

    fn shielded(gap: f64, emissivity: f64, pressure: f64) -> Skin {
        let gap = VentedGap::of(pressure, gap, Some(1.6), 1.6).unwrap();
        Skin { shield: Some((gap, emissivity)), ..skin(0.6, 0.9, 4.0) }
    }

    fn through(skin: &Skin, wind: f64, light: f64) -> Through {
        let around = Around { wind, ..around(35.0, 8.0) };
        skin.through(&films(), &around, &lit(light), 10.0)
    }

    #[test]
    fn a_shield_without_a_gap_is_a_single_skin() {
        let bare = through(&skin(0.6, 0.9, 4.0), 0.0, 700.0);
        let mut last = f64::INFINITY;
        for gap in [0.01, 0.003, 0.001] {
            let found = through(&shielded(gap, 0.9 / 1.1, 101_325.0), 0.0, 700.0);
            let off = (found.sun / bare.sun - 1.0).abs() + (found.conductance / bare.conductance - 1.0).abs();
            assert!(off < last, "{gap}: {off}");
            last = off;
        }
        // At 1 mm: k/d = 26 W/(m²·K) beside radiation, in series with outer film and wall.
        assert!(last < 0.6, "{last}");
    }

    #[test]
    fn a_perfect_shield_keeps_all_sun_off() {
        let share =
            |skin: &Skin, wind| through(skin, wind, 700.0).sun / through(&self::skin(0.6, 0.9, 4.0), wind, 700.0).sun;
        let usual = share(&shielded(0.025, 0.9 / 1.1, 101_325.0), 1.0);
        // Mirrors inside a wide gap, in a storm.
        let perfect = share(&shielded(0.2, 1e-6, 101_325.0), 20.0);
        assert!(perfect < 0.02 && usual > 0.1 && usual < 0.7, "{perfect} {usual}");
    }

    #[test]
    fn shield_gap_and_skin_are_in_balance() {
        let skin = shielded(0.025, 0.9 / 1.1, 101_325.0);
        let around = Around { wind: 1.0, ..around(35.0, 8.0) };
        let found = skin.through(&films(), &around, &lit(700.0), 10.0);
        let (_, Warmth { skin: warmth, sheet, air }) = skin.settle(&films(), &around, 0.6 * 700.0, 10.0);
        // Heat taken up: by the outer film, by the gap's air, and inside.
        let outer = (8.0 + 0.9 * linear(35.0 + sheet / 2.0)) * sheet;
        let Some((gap, _)) = &skin.shield else { panic!("no shield") };
        let flow = gap.flow(air, 35.0, 1.0, false);
        let carried = 2.0 * flow.film * (1.0 - flow.warmth) * (sheet + warmth) / 2.0;
        let inside = found.gain - found.conductance * 10.0;
        assert!((0.6 * 700.0 - outer - carried - inside).abs() < 1.0, "{outer} {carried} {inside}");
        assert!(sheet > air && air > 0.0 && sheet > warmth, "{sheet} {air} {warmth}");
    }
}
