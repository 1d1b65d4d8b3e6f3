//! Air that flows through the open gap behind a shield.
//!
//! ½ (1 + 2 Z) · V² + 12 ν · L / d² · V = g · H · |θ_g| / T + ½ c_w · v²
//! h = 2 h_c + 4 V
//! P = M · (1 − exp(−2 h / M)),  M = ρ · c_p · d · V / L
//! θ_g = r · ½ (θ_sh + θ_s),  r = 1 − P / (2 h)
//!
//! - V    speed of the air in the gap                                     [m/s]
//! - Z    loss at the bottom and at the top, (1/0.6 − 1)² each            [–]
//! - d, L width of the gap, and its length along the flow                 [m]
//! - H    height between its openings: that of a wall, none for a roof    [m]
//! - v    wind at the cabinet; c_w·½·ρ·v² is what it presses with         [m/s]
//! - θ    gap air, sheet, skin, less the outdoor air T                    [K]
//! - h_c  film of the gap if it were closed                               [W/(m²·K)]
//! - h    film on each side of the gap                                    [W/(m²·K)]
//! - P    heat the air carries away, per kelvin of the mean of both sides [W/(m²·K)]
//!
//! Source:      ISO 15099:2003, thermally driven ventilation of gaps: losses, film and mean temperature; from memory, to be
//!              confirmed. The wind's share c_w (wall 0.2, roof 0.5) is common practice, no source.
//! Valid for:   gaps open at both ends over their whole width, from 1 mm; narrower ones are none.
//! Agreement:   no reference; limits in `skin.rs`: no gap makes a single skin, a perfect shield keeps all sun off.
//! Not covered: wire mesh or a narrow edge before the openings.
//!
//! Air is taken at the site's pressure and 20 °C: between −40 and 50 °C the density is within a quarter of it, and the heat
//! carried away within a tenth.

use climate::convection::{Gas, gap_film};
use units::Celsius;

/// Gravity, m/s².
const GRAVITY: f64 = 9.806_65;
/// Loss at an opening as wide as the gap: (1/0.6 − 1)².
const OPENING: f64 = (1.0 / 0.6 - 1.0) * (1.0 / 0.6 - 1.0);
/// Shares of the wind's pressure that drive the air.
const WIND_ON_WALL: f64 = 0.2;
const WIND_ON_ROOF: f64 = 0.5;
/// Gain of the film per m/s.
const FILM_PER_SPEED: f64 = 4.0;
/// Sheet less skin for which the closed gap's film is taken, K.
const USUAL_DIFFERENCE: f64 = 15.0;
/// Air of which the properties are taken, °C.
const REFERENCE: f64 = 20.0;
/// Points of the table of heat carried away, and points in one m/s.
const POINTS: usize = 241;
const PER_SPEED: f64 = 20.0;
/// Fastest air in a gap, m/s: the end of the table.
const FASTEST: f64 = 12.0;
/// Narrowest gap, m.
pub const NARROWEST: f64 = 1e-3;

/// A gap behind a shield.
#[derive(Clone, Debug, PartialEq)]
pub struct VentedGap {
    /// g · H, m²/s².
    lift: f64,
    /// ½ (1 + 2 Z).
    losses: f64,
    /// 12 ν L / d², m/s.
    friction: f64,
    /// ½ c_w.
    wind: f64,
    /// Film of the closed gap, with the sheet and with the skin warmer, W/(m²·K).
    closed: [f64; 2],
    /// P over the speed, for either.
    carried: [Vec<f64>; 2],
}

/// What the air does in the gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flow {
    /// Film on each side, W/(m²·K).
    pub film: f64,
    /// Share r of the mean warmth of both sides that the gap's air has.
    pub warmth: f64,
}

impl VentedGap {
    /// The gap of a wall of some height, or of a roof (no height) whose air goes so far through it, m. `None` without air,
    /// or narrower than [`NARROWEST`].
    #[must_use]
    pub fn of(pressure: f64, width: f64, height: Option<f64>, length: f64) -> Option<Self> {
        if width < NARROWEST {
            return None;
        }
        let gas = Gas::at(Celsius(REFERENCE), pressure)?;
        let closed = [-USUAL_DIFFERENCE, USUAL_DIFFERENCE]
            .map(|difference| gap_film(Celsius(REFERENCE), pressure, difference, width, height));
        let closed = [closed[0]?, closed[1]?];
        let carried = closed.map(|film| {
            let carries = |point: usize| {
                let speed = point as f64 / PER_SPEED;
                // M = ρ · c_p · d · V / L
                let m = gas.density * climate::SPECIFIC_HEAT * width * speed / length;
                let h = 2.0 * film + FILM_PER_SPEED * speed;
                // P = M · (1 − exp(−2 h / M))
                if m > 0.0 { m * (1.0 - libm::exp(-2.0 * h / m)) } else { 0.0 }
            };
            (0..POINTS).map(carries).collect()
        });
        Some(Self {
            lift: GRAVITY * height.unwrap_or(0.0),
            losses: (1.0 + 2.0 * OPENING) / 2.0,
            friction: 12.0 * gas.kinematic_viscosity() * length / (width * width),
            wind: if height.is_some() { WIND_ON_WALL } else { WIND_ON_ROOF } / 2.0,
            closed,
            carried,
        })
    }

    /// The flow with the gap's air so much warmer than the outdoor air (K, °C), in some wind, m/s.
    #[must_use]
    pub fn flow(&self, rise: f64, air: f64, wind: f64, skin_warmer: bool) -> Flow {
        let drive = self.lift * rise.abs() / (air + rise + 273.15) + self.wind * wind * wind;
        let root = (self.friction * self.friction + 4.0 * self.losses * drive).sqrt();
        let speed = ((root - self.friction) / (2.0 * self.losses)).min(FASTEST);
        let side = usize::from(skin_warmer);
        let film = 2.0 * self.closed[side] + FILM_PER_SPEED * speed;
        let along = speed * PER_SPEED;
        let index = (along as usize).min(POINTS - 2);
        let line = &self.carried[side];
        let carried = line[index] + (line[index + 1] - line[index]) * (along - index as f64);
        Flow { film, warmth: 1.0 - carried / (2.0 * film) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wall(width: f64) -> VentedGap {
        VentedGap::of(101_325.0, width, Some(1.6), 1.6).unwrap()
    }

    #[test]
    fn still_air_carries_nothing_away() {
        let flow = wall(0.025).flow(0.0, 30.0, 0.0, false);
        assert_eq!(flow.warmth, 1.0);
        // Closed, both sides pass 2 h_c each: h_c from sheet to skin.
        assert!(flow.film > 2.0 * 0.0259 / 0.025);
    }

    #[test]
    fn warmth_and_wind_drive_the_air_and_it_cools_the_gap() {
        let gap = wall(0.025);
        let warmth = |rise, wind| gap.flow(rise, 30.0, wind, false).warmth;
        assert!(warmth(5.0, 0.0) > warmth(20.0, 0.0) && warmth(20.0, 0.0) > warmth(20.0, 3.0));
        assert!((0.0..1.0).contains(&warmth(40.0, 10.0)));
    }

    #[test]
    fn the_speed_comes_out_by_hand() {
        // g H θ / T = 9.80665 · 1.6 · 10 / 313.15 = 0.50106; 12 ν L / d² = 12 · 1.5086e-5 · 1.6 / 0.025² = 0.46344;
        // ½ (1 + 2 · 0.4444) = 0.94444; V = (−0.46344 + √(0.46344² + 4 · 0.94444 · 0.50106)) / 1.88889 = 0.5233
        let gap = wall(0.025);
        let film = gap.flow(10.0, 30.0, 0.0, false).film;
        assert!((film - 2.0 * gap.closed[0] - 4.0 * 0.5233).abs() < 5e-3, "{film}");
    }

    #[test]
    fn a_wider_gap_is_cooler() {
        let warmth = |width: f64| wall(width).flow(10.0, 30.0, 0.5, false).warmth;
        assert!(warmth(0.01) > warmth(0.025) && warmth(0.025) > warmth(0.06));
        assert_eq!(VentedGap::of(101_325.0, 0.0, Some(1.6), 1.6), None);
    }
}
