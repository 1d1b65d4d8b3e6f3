//! What the three lifting checks share: eyes, hook, weight, and the angle of each leg.

use geometry::MassSum;
use units::{Degrees, Kind, Value};

use super::formulas::GRAVITY;
use super::formulas::sling::{Point, angle_from_horizontal, hook};
use super::sums::{four_eyes, kilograms, millimetres, newtons, point, whole};
use crate::sources::{GEOMETRY, STATICS};
use crate::{Case, Check, Finding, Phrase, Step, Subject};

/// The lift: the equipped cabinet with its eyes, without its pallet.
#[derive(Clone, Debug, PartialEq)]
pub struct Hoist {
    /// The eyes, mm.
    pub eyes: [Point; 4],
    /// The hook, mm.
    pub hook: Point,
    /// What hangs.
    pub lifted: MassSum,
    /// Weight, N.
    pub weight: f64,
    /// Angle of each leg from the horizontal, degrees.
    pub angles: [f64; 4],
}

impl Hoist {
    /// The lift of a case.
    ///
    /// # Errors
    /// The finding that says why there is none.
    pub fn of(check: &Check, case: &Case) -> Result<Self, Box<Finding>> {
        let (model, lifted) = whole(check, case, geometry::Model::lifted_mass)?;
        let Some(eyes) = four_eyes(model) else {
            // Nobody has said how it is lifted: that promise is open, not kept.
            let finding = Finding::needs_data(check, Subject::Eyes, "lifting eyes; none are chosen");
            return Err(Box::new(finding.help("Choose lifting eyes, or plan to move it on a pallet by fork truck")));
        };
        let hook = hook(&eyes, point(lifted.centre), case.project.brief.hook_height.0);
        let angles = eyes.map(|eye| angle_from_horizontal(eye, hook));
        if angles.iter().any(|angle| !angle.is_finite() || *angle <= 0.0) {
            let why = "the hook does not hang above the eyes";
            return Err(Box::new(Finding::out_of_range(check, Subject::Eyes, why)));
        }
        let weight = lifted.kg * GRAVITY;
        Ok(Self { eyes, hook, lifted, weight, angles })
    }

    /// The flattest leg: its place and angle from the horizontal, degrees.
    #[must_use]
    pub fn flattest(&self) -> (usize, f64) {
        let mut flattest = (0, self.angles[0]);
        for (leg, angle) in self.angles.into_iter().enumerate() {
            if angle < flattest.1 {
                flattest = (leg, angle);
            }
        }
        flattest
    }

    /// Distance of an eye from the plumb line under the hook, mm.
    #[must_use]
    pub fn reach(&self, leg: usize) -> f64 {
        let (x, y) = (self.eyes[leg][0] - self.hook[0], self.eyes[leg][1] - self.hook[1]);
        libm::sqrt(x * x + y * y)
    }

    /// Height of the hook above the eyes at which a leg stands so many degrees from the horizontal, mm.
    #[must_use]
    pub fn height_for(&self, degrees: f64) -> f64 {
        self.reach(self.flattest().0) * libm::tan(degrees.to_radians())
    }

    /// The steps from which each lifting check starts.
    #[must_use]
    pub fn steps(&self, case: &Case) -> Vec<Step> {
        let (leg, angle) = self.flattest();
        let height = case.project.brief.hook_height;
        let numbers = Phrase::from("atan(").number(height).text(" / ").number(millimetres(self.reach(leg))).text(")");
        let weight = Phrase::new().number(kilograms(self.lifted.kg)).text(" × ");
        let weight = weight.number(Value::new(GRAVITY, Kind::Ratio));
        vec![
            Step::input("m", "lifted: equipped, with lifting eyes, without pallet", kilograms(self.lifted.kg))
                .from_source(&GEOMETRY),
            Step::computed("W", "weight", "m · g", weight, newtons(self.weight)).from_source(&STATICS),
            Step::input("h", "hook above the eyes, straight over the centre of gravity", height),
            Step::input("r", "plumb line to the farthest eye", millimetres(self.reach(leg))).from_source(&GEOMETRY),
            Step::computed("θ", "flattest leg, from the horizontal", "atan(h / r)", numbers, Degrees(angle))
                .from_source(&STATICS),
        ]
    }
}

/// The eyes in the order of the model.
pub const EYE_NAMES: [&str; 4] = ["front left", "front right", "rear left", "rear right"];
