//! The compass on the ground beside the model: where north is as the model is looked at now, and the sun of the chosen time.

use geometry::Vec3;
use leptos::prelude::*;

use super::sun::{SunNow, sun_now, towards};
use crate::editor::use_editor;
use crate::lean::{Memo, RwSignal, view};
use crate::model_view::Projection;

/// Size of the drawing, px: the sun and the letter have room all round.
const SIZE: [f64; 2] = [96.0, 88.0];
/// Where the middle of its ring lies.
const MIDDLE: [f64; 2] = [48.0, 48.0];
/// How far the ring and the sun are from there.
const RING: f64 = 26.0;
const SUN: f64 = 40.0;
/// The ring is never seen flatter than this share of its width, or nothing would be seen of it.
const FLATTEST: f64 = 0.22;

/// What is drawn, rounded so that nothing is written anew for less than a tenth of a pixel.
#[derive(Clone, PartialEq)]
struct Drawn {
    ring: String,
    north: String,
    south: String,
    letter: [String; 2],
    sun: Option<(String, [String; 2])>,
    label: String,
}

/// How the ground is looked at: which way is right, which is away, and how flat it appears.
#[derive(Clone, Copy)]
struct Ground {
    right: Vec3,
    away: Vec3,
    flat: f64,
    upright: f64,
}

impl Ground {
    /// From the direction to the right on the screen and the one towards the eye.
    fn of(right: Vec3, eye: Vec3) -> Self {
        let flat = eye.z.clamp(FLATTEST, 1.0);
        Self { right, away: Vec3::new(-right.y, right.x, 0.0), flat, upright: libm::sqrt(1.0 - flat * flat) }
    }

    /// Where a point appears that lies so far off in a direction.
    fn place(&self, direction: Vec3, far: f64) -> [f64; 2] {
        let (across, away) = (direction.dot(self.right), direction.dot(self.away));
        [MIDDLE[0] + far * across, MIDDLE[1] - far * (away * self.flat + direction.z * self.upright)]
    }

    /// In words, where a direction over the ground points.
    fn words(&self, direction: Vec3) -> &'static str {
        const WORDS: [&str; 8] =
            ["back", "back right", "right", "front right", "front", "front left", "left", "back left"];
        let round = libm::atan2(direction.dot(self.right), direction.dot(self.away)).to_degrees();
        let eighth = libm::round(round / 45.0) as i32;
        WORDS.get(eighth.rem_euclid(8) as usize).copied().unwrap_or("back")
    }
}

fn tenth(number: f64) -> String {
    format!("{number:.1}")
}

fn path(points: &[[f64; 2]]) -> String {
    let points: Vec<String> = points.iter().map(|[x, y]| format!("{x:.1} {y:.1}")).collect();
    format!("M{}Z", points.join("L"))
}

impl Drawn {
    /// With a front that looks along `front`, degrees clockwise from north.
    fn of(ground: Ground, front: f64, sun: Option<SunNow>) -> Self {
        let at = |bearing: f64, far: f64| ground.place(towards(0.0, bearing - front), far);
        let ring: Vec<[f64; 2]> = (0..36).map(|tenth| at(f64::from(tenth) * 10.0, RING)).collect();
        let (east, west) = (at(90.0, 7.5), at(270.0, 7.5));
        let north = towards(0.0, -front);
        let letter = ground.place(north, RING + 8.0);
        let mut label = format!("North is to the {}", ground.words(north));
        let sun = sun.map(|sun| {
            if sun.is_down() {
                label += "; the sun is down";
                return None;
            }
            let height = libm::asin(sun.towards.z.clamp(-1.0, 1.0)).to_degrees();
            label += &format!("; the sun stands {height:.0}° high to the {}", ground.words(sun.towards));
            let [x, y] = ground.place(sun.towards, SUN);
            Some((format!("M{x:.1} {y:.1}L{:.1} {:.1}", MIDDLE[0], MIDDLE[1]), [tenth(x), tenth(y)]))
        });
        Self {
            ring: path(&ring),
            north: path(&[at(0.0, 20.0), east, west]),
            south: path(&[at(180.0, 20.0), east, west]),
            letter: [tenth(letter[0]), tenth(letter[1] + 5.0)],
            sun: sun.flatten(),
            label,
        }
    }
}

/// The compass. It follows the model as it is turned.
#[component]
pub(crate) fn Compass(
    /// How the model on screen was drawn.
    projection: RwSignal<Option<Projection>>,
) -> impl IntoView {
    let front = use_editor().part(|project| project.brief.bearing.0);
    let sun = sun_now();
    let drawn = Memo::new(move |_| {
        let (right, eye) = projection.with(|projection| projection.as_ref().map(Projection::looks))?;
        Some(Drawn::of(Ground::of(right, eye), front.get(), sun.get()))
    });
    move || {
        drawn.get().map(|Drawn { ring, north, south, letter: [x, y], sun, label }| {
            let sun = sun
                .map(|(ray, [x, y])| view! { <path class="k-ray" d=ray /><circle class="k-sun" cx=x cy=y r="4.5" /> });
            view! {
                <svg class="compass" role="img" aria-label=label width=SIZE[0] height=SIZE[1]>
                    <path class="k-ring" d=ring />
                    <path class="k-n" d=north />
                    <path class="k-s" d=south />
                    <text class="k-t" x=x y=y text-anchor="middle">"N"</text>
                    {sun}
                </svg>
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Looked at from the front, a little from above.
    fn from_the_front() -> Ground {
        Ground::of(Vec3::new(1.0, 0.0, 0.0), Vec3::new(0.0, -0.9, 0.44))
    }

    fn check(front: f64, expected: &str) {
        assert_eq!(Drawn::of(from_the_front(), front, None).label, format!("North is to the {expected}"));
    }

    #[test]
    fn north_is_behind_a_front_that_looks_south_and_before_one_that_looks_north() {
        check(180.0, "back");
        check(0.0, "front");
        // Who stands before a front that looks east has north on the right.
        check(90.0, "right");
        check(135.0, "back right");
    }

    #[test]
    fn the_sun_stands_where_it_lights_the_model_from() {
        let sun = SunNow::of((30.0, 90.0), 180.0, [0.0; 5]);
        let drawn = Drawn::of(from_the_front(), 180.0, Some(sun));
        assert_eq!(drawn.label, "North is to the back; the sun stands 30° high to the right");
        let [x, _] = drawn.sun.unwrap().1;
        assert!((x.parse::<f64>().unwrap() - MIDDLE[0] - SUN * 0.866).abs() < 0.1, "{x}");
    }

    #[test]
    fn a_sun_that_is_down_is_said_and_not_drawn() {
        let drawn = Drawn::of(from_the_front(), 180.0, Some(SunNow::of((-5.0, 0.0), 180.0, [0.0; 5])));
        assert!(drawn.sun.is_none() && drawn.label.ends_with("the sun is down"), "{}", drawn.label);
    }

    #[test]
    fn from_the_side_it_is_still_seen() {
        let level = Ground::of(Vec3::new(1.0, 0.0, 0.0), Vec3::new(0.0, -1.0, 0.0));
        let [_, back] = level.place(Vec3::new(0.0, 1.0, 0.0), RING);
        assert!(MIDDLE[1] - back > 5.0);
    }
}
