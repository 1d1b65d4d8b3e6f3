//! What lies on the graphics card, and the two draw calls of a frame. Everything here is lost with the context and made
//! anew from the scene.

use std::sync::Arc;

use geometry::Vec3 as Point;
use three_d::{
    Blend, BlendEquationType, BlendMultiplierType, ClearState, Context, CoreError, Cull, DepthTest, ElementBuffer,
    InstanceBuffer, Mat4, Program, RenderStates, RenderTarget, SquareMatrix, Vec2, Vec3, Vec4, VertexBuffer, Viewport,
    WriteMask, vec2, vec3, vec4,
};

use super::camera::Pose;
use super::motion::Motion;
use super::palette::Palette;
use super::scene::{GROUPS, SHADES, Scene};
use crate::charts::SunNow;

/// Half the depth that is drawn, mm: more than any cabinet with its shadow.
const DEPTH: f32 = 16_000.0;

/// Towards the sun: from the front left, high enough for short shadows on the ground and under overhangs.
const SUN: [f32; 3] = [-0.43, -0.53, 0.731];

/// How far 1000 W/m² carry a face's tone towards that of sunlight.
const GLOW: f32 = 0.75;

/// How much darker than a cast shadow the drawing is at night.
const AFTER_SUNSET: f32 = 1.6;

/// What a frame is drawn with besides the scene.
pub(crate) struct Frame<'a> {
    pub(crate) pose: Pose,
    pub(crate) motions: &'a [Motion],
    pub(crate) palette: &'a Palette,
    /// How much of the shield is there.
    pub(crate) shield: f32,
    pub(crate) ghosted: bool,
    /// The sun of a chosen time; otherwise the usual light.
    pub(crate) sun: Option<SunNow>,
    /// Size in device pixels.
    pub(crate) size: (u32, u32),
    /// Device pixels in a CSS pixel.
    pub(crate) ratio: f32,
}

/// What lights the faces.
struct Light {
    sun: [f32; 3],
    shadow: [f32; 4],
    glow: [f32; 4],
    lit: [f32; 5],
    night: f32,
}

impl Light {
    /// The usual light: always the same sun, and no colour of it on the faces.
    fn of(frame: &Frame<'_>) -> Self {
        let usual = Self { sun: SUN, shadow: frame.palette.cast, glow: [0.0; 4], lit: [0.0; 5], night: 0.0 };
        let Some(sun) = frame.sun else { return usual };
        let [r, g, b, depth] = frame.palette.cast;
        if sun.is_down() {
            return Self { shadow: [r, g, b, 0.0], night: depth * AFTER_SUNSET, ..usual };
        }
        let [red, green, blue] = frame.palette.glow;
        Self {
            sun: [sun.towards.x as f32, sun.towards.y as f32, sun.towards.z as f32],
            glow: [red, green, blue, GLOW],
            lit: sun.faces.map(|watts| (watts / 1000.0) as f32),
            ..usual
        }
    }
}

/// Programs and buffers.
pub(crate) struct Gpu {
    context: Context,
    flat: Program,
    ink: Program,
    positions: VertexBuffer<[f32; 3]>,
    normals: VertexBuffer<[f32; 3]>,
    tags: VertexBuffer<[f32; 4]>,
    indices: ElementBuffer<u32>,
    from: InstanceBuffer<[f32; 3]>,
    to: InstanceBuffer<[f32; 3]>,
    first: InstanceBuffer<[f32; 3]>,
    second: InstanceBuffer<[f32; 3]>,
    strokes: InstanceBuffer<[f32; 3]>,
    lines: u32,
}

impl Gpu {
    /// Makes programs and buffers. The context must not be lost.
    pub(crate) fn new(context: web_sys::WebGl2RenderingContext) -> Result<Self, CoreError> {
        // The library asks for an `Arc` everywhere; in a browser there is one thread, so it is never shared.
        #[allow(clippy::arc_with_non_send_sync)]
        let context = Context::from_gl_context(Arc::new(low_level(context)?))?;
        let program = |vertex, fragment| Program::from_source(&context, vertex, fragment);
        Ok(Self {
            flat: program(include_str!("shaders/flat.vert"), include_str!("shaders/flat.frag"))?,
            ink: program(include_str!("shaders/ink.vert"), include_str!("shaders/ink.frag"))?,
            positions: VertexBuffer::new(&context),
            normals: VertexBuffer::new(&context),
            tags: VertexBuffer::new(&context),
            indices: ElementBuffer::new(&context),
            from: InstanceBuffer::new(&context),
            to: InstanceBuffer::new(&context),
            first: InstanceBuffer::new(&context),
            second: InstanceBuffer::new(&context),
            strokes: InstanceBuffer::new(&context),
            lines: 0,
            context,
        })
    }

    /// Sends a scene.
    pub(crate) fn fill(&mut self, scene: &Scene) {
        self.positions.fill(&scene.faces.positions);
        self.normals.fill(&scene.faces.normals);
        self.tags.fill(&scene.faces.tags);
        self.indices.fill(&scene.faces.indices);
        self.from.fill(&scene.lines.from);
        self.to.fill(&scene.lines.to);
        self.first.fill(&scene.lines.first);
        self.second.fill(&scene.lines.second);
        self.strokes.fill(&scene.lines.tags);
        self.lines = scene.lines.from.len() as u32;
    }

    /// Draws one frame; answers how many draw calls it took.
    pub(crate) fn draw(&self, scene: &Scene, frame: &Frame<'_>) -> u32 {
        let (width, height) = frame.size;
        RenderTarget::screen(&self.context, width, height).clear(ClearState::color_and_depth(0.0, 0.0, 0.0, 0.0, 1.0));
        if self.indices.count() == 0 {
            return 0;
        }
        let viewport = Viewport::new_at_origo(width, height);
        self.faces(scene, frame, viewport);
        if self.lines == 0 {
            return 1;
        }
        self.ink(frame, viewport);
        2
    }

    fn faces(&self, scene: &Scene, frame: &Frame<'_>, viewport: Viewport) {
        let program = &self.flat;
        share(program, frame);
        let tones: Vec<Vec3> = frame.palette.tones.iter().map(|tone| Vec3::from(*tone)).collect();
        program.use_uniform_array("tones", &tones);
        program.use_uniform("ghosted", if frame.ghosted { 1.0_f32 } else { 0.0 });
        let shades = shades(scene, frame);
        program.use_uniform("shade_count", shades.len() as i32);
        let mut all = [Mat4::identity(); SHADES];
        for (slot, shade) in all.iter_mut().zip(shades) {
            *slot = shade;
        }
        program.use_uniform_array("shades", &all);
        program.use_uniform("width", frame.size.0 as f32);
        let light = Light::of(frame);
        program.use_uniform("sun", Vec3::from(light.sun));
        program.use_uniform("shadow", Vec4::from(light.shadow));
        program.use_uniform("glow", Vec4::from(light.glow));
        program.use_uniform_array("lit", &light.lit);
        program.use_uniform("night", light.night);
        let [ink, ..] = frame.palette.inks;
        program.use_uniform("ink", vec3(ink[0], ink[1], ink[2]));
        program.use_uniform("shield", vec2(frame.shield, frame.pose.scale));
        program.use_vertex_attribute("position", &self.positions);
        program.use_vertex_attribute("normal", &self.normals);
        program.use_vertex_attribute("tag", &self.tags);
        let states = RenderStates {
            write_mask: WriteMask::COLOR_AND_DEPTH,
            depth_test: DepthTest::Less,
            blend: PREMULTIPLIED,
            cull: Cull::Back,
        };
        program.draw_elements(states, viewport, &self.indices);
    }

    fn ink(&self, frame: &Frame<'_>, viewport: Viewport) {
        let program = &self.ink;
        share(program, frame);
        let (width, height) = frame.size;
        program.use_uniform("screen", vec3(width as f32, height as f32, frame.ratio));
        program.use_uniform("state", vec2(frame.shield, if frame.ghosted { 1.0 } else { 0.0 }));
        program.use_uniform_array("inks", &frame.palette.inks.map(Vec4::from));
        program.use_uniform("pixel", frame.ratio);
        program.use_instance_attribute("from", &self.from);
        program.use_instance_attribute("to", &self.to);
        program.use_instance_attribute("first", &self.first);
        program.use_instance_attribute("second", &self.second);
        program.use_instance_attribute("tag", &self.strokes);
        let states = RenderStates {
            write_mask: WriteMask::COLOR,
            depth_test: DepthTest::Less,
            blend: PREMULTIPLIED,
            cull: Cull::None,
        };
        program.draw_arrays_instanced(states, viewport, 6, self.lines);
    }
}

/// The browser's context as three-d takes it.
#[cfg(target_arch = "wasm32")]
fn low_level(context: web_sys::WebGl2RenderingContext) -> Result<three_d::context::Context, CoreError> {
    Ok(three_d::context::Context::from_webgl2_context(context))
}

/// Natively this crate is built for its tests only, and there is no canvas.
#[cfg(not(target_arch = "wasm32"))]
fn low_level(_: web_sys::WebGl2RenderingContext) -> Result<three_d::context::Context, CoreError> {
    Err(CoreError::ContextCreation("not a browser".into()))
}

/// Colours come multiplied with their opacity, as the browser expects the canvas to be.
const PREMULTIPLIED: Blend = Blend::Enabled {
    source_rgb_multiplier: BlendMultiplierType::One,
    source_alpha_multiplier: BlendMultiplierType::One,
    destination_rgb_multiplier: BlendMultiplierType::OneMinusSrcAlpha,
    destination_alpha_multiplier: BlendMultiplierType::OneMinusSrcAlpha,
    rgb_equation: BlendEquationType::Add,
    alpha_equation: BlendEquationType::Add,
};

/// What both programs need: where the groups are, and the view.
fn share(program: &Program, frame: &Frame<'_>) {
    let mut groups = [Mat4::identity(); GROUPS];
    for (slot, motion) in groups.iter_mut().zip(frame.motions) {
        *slot = Mat4::from(motion.columns());
    }
    program.use_uniform_array("groups", &groups);
    let Pose { axes, scale, origin } = frame.pose;
    program.use_uniform("right", single(axes.right));
    program.use_uniform("up", single(axes.up));
    program.use_uniform("eye", single(axes.eye));
    // A CSS pixel is 2 / (width / ratio) clip units wide.
    let clip = |pixels: u32| 2.0 * frame.ratio / pixels.max(1) as f32;
    let (across, down) = (clip(frame.size.0), clip(frame.size.1));
    let view: Vec4 = vec4(scale * across, scale * down, origin[0] * across - 1.0, 1.0 - origin[1] * down);
    program.use_uniform("frame", view);
    let depth: Vec2 = vec2(1.0 / DEPTH, 1.0 / (scale * frame.ratio));
    program.use_uniform("depth", depth);
}

/// From the model to the unit cube of each box that casts a shadow.
fn shades(scene: &Scene, frame: &Frame<'_>) -> Vec<Mat4> {
    // A shield that is being taken off casts none.
    let casts = |group: usize| group != super::scene::SHIELD || frame.shield >= 1.0;
    let matrix = |group: usize, of: &geometry::Box3| {
        let back = Mat4::from(frame.motions.get(group).copied().unwrap_or(Motion::STILL).back().columns());
        let (low, size) = (single(of.min), single(of.size()));
        let grown = size.map(|side| 1.0 / side.max(0.5));
        Mat4::from_nonuniform_scale(grown.x, grown.y, grown.z) * Mat4::from_translation(-low) * back
    };
    scene.shades.iter().filter(|(group, _)| casts(*group)).map(|(group, of)| matrix(*group, of)).collect()
}

fn single(of: Point) -> Vec3 {
    vec3(of.x as f32, of.y as f32, of.z as f32)
}
