//! The stage: what is looked at, how, and when a frame is due. A frame is drawn only when something has changed, and one
//! after the other only while something moves.

use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};
use std::sync::Arc;
use std::time::Duration;

use geometry::{Model, Of, Route, Vec3};
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{HtmlCanvasElement, WebGl2RenderingContext, WebGlSync};

use super::camera::{Angles, Area, Axes, Extent, Hand, Pose, corners};
use super::gpu::{Frame, Gpu};
use super::motion::{Glide, Motion};
use super::pace::Pace;
use super::palette::Palette;
use super::pick::{Shown, pick};
use super::projection::Projection;
use super::scene::Scene;
use crate::charts::SunNow;
use crate::lean::RwSignal;
use crate::view_state::Camera;

/// So long edits have to rest before the model follows them, where it cannot follow each.
const REST: Duration = Duration::from_millis(150);

/// What has been drawn, for measuring.
#[derive(Clone, Copy, Debug, Default)]
pub struct Drawn {
    /// Frames since the page was loaded.
    pub frames: u32,
    /// Draw calls of the last one.
    pub calls: u32,
    /// Triangles of the last one.
    pub triangles: u32,
}

thread_local! {
    static DRAWN: Cell<Drawn> = const { Cell::new(Drawn { frames: 0, calls: 0, triangles: 0 }) };
}

/// What has been drawn since the page was loaded.
#[must_use]
pub fn drawn() -> Drawn {
    DRAWN.get()
}

/// A turn of the camera under way.
#[derive(Clone, Copy)]
struct Turn {
    from: (Angles, f32, Hand),
    to: Angles,
    share: Glide,
}

/// The stage; one for each drawing.
pub(crate) struct Stage {
    this: Weak<RefCell<Stage>>,
    canvas: HtmlCanvasElement,
    gpu: Option<Gpu>,
    scene: Arc<Scene>,
    palette: Option<Palette>,
    angles: Angles,
    hand: Hand,
    /// The scale while the user turns by hand; otherwise the view is fitted.
    held: Option<f32>,
    turn: Option<Turn>,
    /// Whether the doors are to stand open: of the end that is looked at, the others would only hide and crowd it.
    doors_open: bool,
    /// How far the front and the rear doors are open.
    doors: [Glide; 2],
    shield: Glide,
    ghosted: bool,
    sun: Option<SunNow>,
    /// The model that the next frame shows, with the ways of its cables, where it is another one.
    awaited: Option<(Option<Arc<Model>>, Vec<Route>)>,
    area: Area,
    ratio: f32,
    size_stale: bool,
    frame_due: bool,
    pace: Pace,
    /// Tells when the frame under way is drawn.
    fence: Option<WebGlSync>,
    /// Draws the awaited model when edits rest.
    resting: Option<TimeoutHandle>,
    projection: RwSignal<Option<Projection>>,
}

/// A stage that event handlers share.
pub(crate) type Shared = Rc<RefCell<Stage>>;

impl Stage {
    /// A stage on a canvas.
    pub(crate) fn new(canvas: HtmlCanvasElement, projection: RwSignal<Option<Projection>>) -> Shared {
        Rc::new_cyclic(|this| {
            RefCell::new(Self {
                this: this.clone(),
                canvas,
                gpu: None,
                scene: Arc::new(Scene::default()),
                palette: None,
                angles: Angles::of(Camera::default()),
                hand: Hand::FITTED,
                held: None,
                turn: None,
                doors_open: false,
                doors: [Glide::at(0.0); 2],
                shield: Glide::at(1.0),
                ghosted: false,
                sun: None,
                awaited: None,
                area: Area { width: 1.0, height: 1.0 },
                ratio: 1.0,
                size_stale: true,
                frame_due: false,
                pace: Pace::default(),
                fence: None,
                resting: None,
                projection,
            })
        })
    }

    /// Gets hold of the graphics card and sends everything there; false when the browser cannot.
    pub(crate) fn light_up(&mut self) -> bool {
        self.gpu = None;
        let Some(context) = webgl2(&self.canvas) else { return false };
        if context.is_context_lost() {
            // It comes back with an event.
            return true;
        }
        let Ok(mut gpu) = Gpu::new(context) else { return false };
        self.take_model();
        gpu.fill(&self.scene);
        self.gpu = Some(gpu);
        self.draw_soon();
        true
    }

    /// Lets go of what was lost with the context.
    pub(crate) fn go_dark(&mut self) {
        self.gpu = None;
        (self.pace, self.fence) = (Pace::default(), None);
    }

    /// Takes another model. What is drawn of it is made with the next frame, so that badges and elevations, which change
    /// with the same edit, need not wait for it; where drawing is slow, once edits rest, as it would take from the next ones
    /// what they need.
    pub(crate) fn show(&mut self, model: Option<Arc<Model>>, wires: Vec<Route>) {
        self.awaited = Some((model, wires));
        if let Some(timer) = self.resting.take() {
            timer.clear();
        }
        if !self.pace.is_slow() {
            self.draw_soon();
            return;
        }
        let this = self.this.clone();
        let rested = move || {
            if let Some(stage) = this.upgrade() {
                stage.borrow_mut().draw_awaited();
            }
        };
        match set_timeout_with_handle(rested, REST) {
            Ok(timer) => self.resting = Some(timer),
            Err(_) => self.draw_soon(),
        }
    }

    /// Draws the model that was taken last, unless a frame has shown it meanwhile.
    fn draw_awaited(&mut self) {
        if self.awaited.is_some() {
            self.draw_soon();
        }
    }

    /// Makes the scene of the model that was taken last, if that is still to be done; true when there is another one now.
    fn take_model(&mut self) -> bool {
        let Some((model, wires)) = self.awaited.take() else { return false };
        self.scene = Arc::new(model.as_deref().map_or_else(Scene::default, |model| Scene::of(model, &wires)));
        true
    }

    /// Turns to a named side and fits the view.
    pub(crate) fn turn_to(&mut self, camera: Camera) {
        let (now, to) = (now(), Angles::of(camera));
        let from = (self.angles, self.scale(now), self.hand);
        let mut share = Glide::at(0.0);
        share.go(1.0, now, self.duration());
        self.turn = Some(Turn { from, to: to.nearest_to(self.angles), share });
        self.held = None;
        self.swing();
        self.draw_soon();
    }

    /// Opens or shuts the doors.
    pub(crate) fn set_doors(&mut self, open: bool) {
        self.doors_open = open;
        self.swing();
        self.draw_soon();
    }

    /// Sends the doors to where they should be.
    fn swing(&mut self) {
        let angles = self.turn.map_or(self.angles, |turn| turn.to);
        let from_behind = Axes::at(angles).eye.y > 0.1;
        let (now, duration) = (now(), self.duration());
        for (glide, rear) in self.doors.iter_mut().zip([false, true]) {
            let to = f32::from(u8::from(self.doors_open && rear == from_behind));
            if glide.goal() != to {
                glide.go(to, now, duration);
            }
        }
    }

    /// Puts the shield on or takes it off.
    pub(crate) fn set_shield(&mut self, on: bool) {
        self.shield.go(f32::from(u8::from(on)), now(), self.duration());
        self.draw_soon();
    }

    /// Ghosts the panels or not.
    pub(crate) fn set_ghosted(&mut self, ghosted: bool) {
        self.ghosted = ghosted;
        self.draw_soon();
    }

    /// Lights it by the sun of a chosen time, or as usual.
    pub(crate) fn set_sun(&mut self, sun: Option<SunNow>) {
        if self.sun != sun {
            self.sun = sun;
            self.draw_soon();
        }
    }

    /// The style sheet may have changed.
    pub(crate) fn restyle(&mut self) {
        self.palette = None;
        self.draw_soon();
    }

    /// The canvas may have changed its size.
    pub(crate) fn resize(&mut self) {
        self.size_stale = true;
        self.draw_soon();
    }

    /// Turns by hand, degrees.
    pub(crate) fn orbit(&mut self, round: f32, up: f32) {
        self.take_in_hand();
        self.angles = self.angles.turned(round, up);
        self.swing();
        self.draw_soon();
    }

    /// Shifts by hand, CSS pixels.
    pub(crate) fn pan(&mut self, across: f32, down: f32) {
        self.take_in_hand();
        self.hand = self.hand.panned(across, down);
        self.draw_soon();
    }

    /// Magnifies by hand about a point; about the middle without one.
    pub(crate) fn zoom(&mut self, factor: f32, about: Option<[f32; 2]>) {
        self.take_in_hand();
        let middle = [self.area.width / 2.0, self.area.height / 2.0];
        self.hand = self.hand.zoomed(factor, about.unwrap_or(middle), self.area);
        self.draw_soon();
    }

    /// The part at a place on the canvas, CSS pixels.
    pub(crate) fn at(&self, place: [f32; 2]) -> Option<Of> {
        let now = now();
        let motions = self.motions(now);
        let shown = Shown { motions: &motions, shield: self.shield.value(now) > 0.5, ghosted: self.ghosted };
        pick(&self.scene, shown, &self.pose(now), place.map(f64::from))
    }

    /// From now on the user holds the view; it no longer fits itself.
    fn take_in_hand(&mut self) {
        if self.held.is_none() || self.turn.is_some() {
            self.held = Some(self.scale(now()));
            self.turn = None;
        }
    }

    fn motions(&self, now: f64) -> Vec<Motion> {
        let (doors, shield) = (self.doors.map(|glide| glide.value(now)), self.shield.value(now));
        self.scene.groups.iter().map(|group| group.motion(doors, shield)).collect()
    }

    /// The corners of everything, as it stands now. The shield counts where it rests, on or off.
    fn outermost(&self, now: f64) -> Vec<Vec3> {
        let doors = self.doors.map(|glide| glide.value(now));
        let boxes = self.scene.groups.iter().zip(&self.scene.bounds);
        boxes
            .filter_map(|(group, bounds)| Some((group.motion(doors, 1.0), (*bounds)?)))
            .flat_map(|(motion, bounds)| corners(&bounds).map(|corner| motion.point(corner)))
            .collect()
    }

    /// Pixels per millimetre before the hand's zoom.
    fn scale(&self, now: f64) -> f32 {
        let fitted = |angles| Extent::of(&self.outermost(now), &Axes::at(angles)).fitting(self.area);
        match self.turn {
            Some(Turn { from: (_, from, _), to, share }) => {
                let share = share.value(now);
                from + (fitted(to) - from) * share
            }
            None => self.held.unwrap_or_else(|| fitted(self.angles)),
        }
    }

    fn pose(&self, now: f64) -> Pose {
        let axes = Axes::at(self.angles);
        Pose::standing(axes, &Extent::of(&self.outermost(now), &axes), self.scale(now), self.hand, self.area)
    }

    /// Moves the camera on; true while anything moves.
    fn step(&mut self, now: f64) -> bool {
        if let Some(Turn { from: (angles, _, hand), to, share }) = self.turn {
            let part = share.value(now);
            let between = |from: f32, to: f32| from + (to - from) * part;
            self.angles = Angles { round: between(angles.round, to.round), up: between(angles.up, to.up) };
            self.hand = Hand { zoom: between(hand.zoom, 1.0), pan: hand.pan.map(|shift| between(shift, 0.0)) };
            if !share.moves(now) {
                self.angles.round = to.round.rem_euclid(360.0);
                self.turn = None;
            }
        }
        self.turn.is_some() || self.doors.iter().any(|glide| glide.moves(now)) || self.shield.moves(now)
    }

    /// Asks for a frame, unless one is due already.
    pub(crate) fn draw_soon(&mut self) {
        if self.frame_due || self.gpu.is_none() {
            return;
        }
        self.frame_due = true;
        let this = self.this.clone();
        request_animation_frame(move || {
            let Some(stage) = this.upgrade() else { return };
            let drawn = stage.borrow_mut().frame();
            // Only now: whoever reads the projection may come back to the stage.
            if let Some((signal, projection)) = drawn {
                signal.set(Some(projection));
            }
        });
    }

    fn frame(&mut self) -> Option<(RwSignal<Option<Projection>>, Projection)> {
        self.frame_due = false;
        self.measure();
        if self.gpu.as_ref().is_none_or(|_| webgl2(&self.canvas).is_none_or(|context| context.is_context_lost())) {
            return None;
        }
        if self.take_model()
            && let Some(gpu) = &mut self.gpu
        {
            gpu.fill(&self.scene);
        }
        let now = now();
        let moves = self.step(now);
        let canvas = &self.canvas;
        let palette = self.palette.take().unwrap_or_else(|| read_palette(canvas));
        let (pose, motions) = (self.pose(now), self.motions(now));
        let frame = Frame {
            pose,
            motions: &motions,
            palette: &palette,
            shield: self.shield.value(now),
            ghosted: self.ghosted,
            sun: self.sun,
            size: (self.canvas.width(), self.canvas.height()),
            ratio: self.ratio,
        };
        let calls = self.gpu.as_ref().map_or(0, |gpu| gpu.draw(&self.scene, &frame));
        self.palette = Some(palette);
        let triangles = self.scene.triangles() as u32;
        DRAWN.set(Drawn { frames: DRAWN.get().frames + 1, calls, triangles });
        self.time(now);
        if moves {
            self.draw_soon();
        }
        let size = [f64::from(self.area.width), f64::from(self.area.height)];
        let projection = Projection {
            pose,
            scene: self.scene.clone(),
            motions: motions.into(),
            size,
            shield: self.shield.value(now) > 0.5,
            ghosted: self.ghosted,
        };
        Some((self.projection, projection))
    }

    /// Times the frame that has just been handed over, unless the one before is still being drawn.
    fn time(&mut self, now: f64) {
        if self.pace.begin(now) {
            self.fence = webgl2(&self.canvas)
                .and_then(|context| context.fence_sync(WebGl2RenderingContext::SYNC_GPU_COMMANDS_COMPLETE, 0));
            self.look_soon();
        }
    }

    /// Looks with the next frames of the screen whether it is drawn; nothing is drawn for that.
    fn look_soon(&self) {
        let this = self.this.clone();
        request_animation_frame(move || {
            if let Some(stage) = this.upgrade() {
                stage.borrow_mut().look();
            }
        });
    }

    fn look(&mut self) {
        // Without a fence, or once the context is lost, nothing is under way.
        let (context, fence) = (webgl2(&self.canvas), self.fence.take());
        let drawn = context.as_ref().zip(fence.as_ref()).is_none_or(|(context, fence)| {
            let status = context.get_sync_parameter(fence, WebGl2RenderingContext::SYNC_STATUS);
            context.is_context_lost() || status.as_f64() == Some(f64::from(WebGl2RenderingContext::SIGNALED))
        });
        self.pace.look(drawn, now());
        if drawn {
            if let Some(context) = context {
                context.delete_sync(fence.as_ref());
            }
        } else {
            self.fence = fence;
            self.look_soon();
        }
    }

    /// Takes over the size of the canvas on the page.
    fn measure(&mut self) {
        if !std::mem::take(&mut self.size_stale) {
            return;
        }
        let ratio = window().device_pixel_ratio().clamp(0.5, 4.0) as f32;
        let area = Area { width: self.canvas.client_width() as f32, height: self.canvas.client_height() as f32 };
        if area != self.area {
            self.held = None;
        }
        self.area = area;
        self.ratio = ratio;
        let pixels = |length: f32| ((length * ratio).round() as u32).clamp(1, 8192);
        self.canvas.set_width(pixels(area.width));
        self.canvas.set_height(pixels(area.height));
    }

    /// How long a part or the camera takes to move, ms: the token `--move-slow`, which is 0 when motion is not wanted.
    fn duration(&self) -> f64 {
        // Before the first frame there is nothing to move from.
        if self.projection.read_untracked().is_none() {
            return 0.0;
        }
        let style = window().get_computed_style(&self.canvas).ok().flatten();
        let written = style.and_then(|style| style.get_property_value("--move-slow").ok()).unwrap_or_default();
        let written = written.trim();
        if let Some(number) = written.strip_suffix("ms") {
            return number.parse().unwrap_or(0.0);
        }
        written.strip_suffix('s').and_then(|number| number.parse::<f64>().ok()).map_or(0.0, |seconds| seconds * 1000.0)
    }
}

fn now() -> f64 {
    window().performance().map_or(0.0, |performance| performance.now())
}

/// The canvas's WebGL 2 context: the same one each time it is asked for.
fn webgl2(canvas: &HtmlCanvasElement) -> Option<WebGl2RenderingContext> {
    let options = js_sys::Object::new();
    // Setting a property of a plain object cannot fail.
    let _ = js_sys::Reflect::set(&options, &"antialias".into(), &true.into());
    let context = canvas.get_context_with_context_options("webgl2", &options).ok()??;
    context.dyn_into().ok()
}

/// Reads the tokens as they are computed now: the canvas tries each on as its own colour.
fn read_palette(canvas: &HtmlCanvasElement) -> Palette {
    // Not `canvas.style()`: Leptos has a method of that name too.
    let style = web_sys::HtmlElement::style(canvas);
    let computed = window().get_computed_style(canvas).ok().flatten();
    let palette = Palette::read(|token| {
        let tried = style.set_property("color", &format!("var({token})"));
        tried
            .ok()
            .and(computed.as_ref())
            .and_then(|computed| computed.get_property_value("color").ok())
            .unwrap_or_default()
    });
    // Without it the canvas keeps the last token as its text colour, which nothing shows.
    let _ = style.remove_property("color");
    palette
}
