// One tone, darkened where the sun does not reach; concrete is stippled; what fades does so in a screen of dots.
uniform mat4 shades[20]; // from the model to the unit cube of each box that casts a shadow
uniform int shade_count;
uniform vec3 sun; // towards the sun
uniform vec4 shadow;
uniform vec4 glow; // how sunlight colours a face, and how much 1000 W/m² does so
uniform float lit[5]; // sunlight on front, rear, left, right and roof, of 1000 W/m²
uniform float night; // how far the drawing is darkened
uniform vec3 ink;
uniform float width; // device pixels across
uniform vec2 shield; // how much of it is there; CSS pixels in one mm

flat in vec3 tone;
flat in vec3 facing;
flat in vec3 kind;
in vec3 place;
layout(location = 0) out vec4 colour;

const float CELL = 34.0; // mm
const int PAD = 9;
const int GROUND = 18;
const int SHIELD_GROUP = 1;

// How much of this pixel lies in shadow: the longest way that the sun's ray runs through a box, softened over one pixel.
float in_shadow() {
    // Both are the same all over a face, so that the derivatives below are sound.
    if (kind.z < 0.5 || dot(facing, sun) < 0.02) return 0.0;
    float shaded = 0.0;
    vec3 from = place + 3.0 * sun;
    for (int i = 0; i < shade_count; i++) {
        vec3 start = (shades[i] * vec4(from, 1.0)).xyz;
        vec3 ray = (shades[i] * vec4(sun, 0.0)).xyz;
        ray += vec3(equal(ray, vec3(0.0))) * 1e-7;
        vec3 a = -start / ray;
        vec3 b = (1.0 - start) / ray;
        vec3 low = min(a, b);
        vec3 high = max(a, b);
        float enter = max(max(low.x, low.y), low.z);
        float leave = min(min(high.x, high.y), high.z);
        float inside = leave - max(enter, 0.0) - 1.0;
        shaded = max(shaded, clamp(inside / max(fwidth(inside), 1e-3) + 0.5, 0.0, 1.0));
    }
    return shaded;
}

// Sunlight on a face that looks this way.
float light() {
    if (facing.z > 0.6) return lit[4];
    if (facing.z < -0.6) return 0.0;
    if (abs(facing.y) > abs(facing.x)) return facing.y < 0.0 ? lit[0] : lit[1];
    return facing.x < 0.0 ? lit[2] : lit[3];
}

float chance(vec2 cell) {
    return fract(sin(dot(cell, vec2(12.9898, 78.233))) * 43758.5453);
}

// Dots of about a pixel and a half, one in a cell, at random places: concrete.
float stipple() {
    vec2 at = abs(facing.z) > 0.5 ? place.xy : abs(facing.y) > 0.5 ? place.xz : place.yz;
    vec2 grid = at / CELL;
    vec2 home = floor(grid);
    vec2 dot_at = vec2(chance(home), chance(home + 17.0)) * 0.7 + 0.15;
    float soft = 0.5 / (CELL * shield.y);
    float size = soft * (0.9 + 1.1 * chance(home + 31.0));
    float reach = length(grid - home - dot_at);
    return 1.0 - smoothstep(size - soft, size + soft, reach);
}

void main() {
    int paint = int(kind.x);
    float shaded = in_shadow();
    if (int(kind.y) == SHIELD_GROUP && shield.x < 1.0) {
        vec2 cell = mod(gl_FragCoord.xy, 2.0);
        float level = (cell.x < 1.0 ? (cell.y < 1.0 ? 0.125 : 0.875) : (cell.y < 1.0 ? 0.625 : 0.375));
        if (shield.x <= level) discard;
    }
    if (paint == GROUND) {
        if (shaded <= 0.0) discard;
        // It ends softly where the drawing does.
        float edge = min(gl_FragCoord.x, width - gl_FragCoord.x) / width;
        colour = vec4(shadow.rgb, 1.0) * shadow.a * shaded * smoothstep(0.0, 0.12, edge);
        return;
    }
    vec3 shown = tone;
    if (paint == PAD && abs(facing.z) < 0.5) shown = mix(shown, ink, 0.75 * stipple());
    if (kind.z > 0.5) shown = mix(shown, glow.rgb, glow.a * min(light(), 1.2) * (1.0 - 0.8 * shaded));
    shown = mix(shown, shadow.rgb, max(shadow.a * shaded, night));
    colour = vec4(shown, 1.0);
}
