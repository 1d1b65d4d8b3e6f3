//! What the user looks at, apart from what the user made: never saved with a project, never undone.

use geometry::Of;
use leptos::prelude::*;
use rules::Topic;
use units::System;

use crate::bench::SideOf;
use crate::charts::Day;
use crate::lean::RwSignal;

/// The side the model is seen from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Camera {
    /// From the front right, above.
    #[default]
    Corner,
    /// From the front.
    Front,
    /// From the rear.
    Rear,
    /// From the right.
    Side,
    /// From above.
    Above,
}

/// The sheet's colours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sheet {
    /// As the system has it.
    #[default]
    System,
    /// Ink on paper.
    Day,
    /// Chalk on blue.
    Night,
}

/// What the user looks at.
#[derive(Clone, Copy)]
pub struct ViewState {
    /// What is selected, in the model and in the elevations alike.
    pub selected: RwSignal<Option<Of>>,
    /// What the pointer is over.
    pub hovered: RwSignal<Option<Of>>,
    /// The side the model was last turned to by name. Turning by hand does not change it; choosing it again does turn.
    pub camera: RwSignal<Camera>,
    /// Whether the doors stand open.
    pub doors_open: RwSignal<bool>,
    /// Whether the shield is on.
    pub shield_on: RwSignal<bool>,
    /// Whether the outer panels are ghosted.
    pub ghosted: RwSignal<bool>,
    /// Whether the ways of the cables are drawn.
    pub wires: RwSignal<bool>,
    /// Whether the sizes are written on the model.
    pub sizes: RwSignal<bool>,
    /// The topic whose working lies on the bench.
    pub topic: RwSignal<Topic>,
    /// The finding on the bench; `None`: the worst of the topic.
    pub finding: RwSignal<Option<usize>>,
    /// The day that is looked at.
    pub day: RwSignal<Day>,
    /// The minute of that day that was chosen; the model is then lit as at that time.
    pub minute: RwSignal<Option<usize>>,
    /// What lies beside the working; none: what goes with the topic.
    pub side: RwSignal<Option<SideOf>>,
    /// Units of measure.
    pub units: RwSignal<System>,
    /// Day or night.
    pub sheet: RwSignal<Sheet>,
    /// Whether the model can be drawn here at all; `false` without WebGL 2.
    pub drawable: RwSignal<bool>,
}

impl ViewState {
    /// The view of a fresh page.
    #[must_use]
    pub fn new() -> Self {
        Self {
            selected: RwSignal::new(None),
            hovered: RwSignal::new(None),
            camera: RwSignal::new(Camera::Corner),
            doors_open: RwSignal::new(true),
            shield_on: RwSignal::new(true),
            ghosted: RwSignal::new(false),
            wires: RwSignal::new(false),
            sizes: RwSignal::new(true),
            topic: RwSignal::new(Topic::Heat),
            finding: RwSignal::new(None),
            day: RwSignal::new(Day::default()),
            minute: RwSignal::new(None),
            side: RwSignal::new(None),
            units: RwSignal::new(System::Metric),
            sheet: RwSignal::new(Sheet::System),
            drawable: RwSignal::new(true),
        }
    }
}

impl Default for ViewState {
    fn default() -> Self {
        Self::new()
    }
}

/// The page's view state, from the context.
#[must_use]
pub fn use_view() -> ViewState {
    expect_context()
}
