// Ink lines of a constant width on screen: each a strip of two triangles, widened after projection.
uniform mat4 groups[14];
uniform vec3 right;
uniform vec3 up;
uniform vec3 eye;
uniform vec4 frame; // clip units per mm across and up; clip position of the model's origin
uniform vec2 depth; // clip units per mm towards the eye; mm in one pixel
uniform vec3 screen; // width and height in device pixels; device pixels in a CSS pixel
uniform vec2 state; // how much of the shield is there; whether panels are ghosted

in vec3 from;
in vec3 to;
in vec3 first;
in vec3 second;
in vec3 tag; // stroke, group, the way its panel looks out

flat out vec4 pen; // half width in device pixels, opacity, dash pattern, which ink
out vec2 along; // device pixels along and across

const int FINE = 0;
const int OUTLINE = 2;
const int ROUND = 3;
const int RIM = 4;
const int OUTLINE_RIM = 5;
const int PHANTOM = 6;
const int WIRE = 7;
const int SHIELD_GROUP = 1;

void main() {
    gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
    along = vec2(0.0);
    int stroke = int(tag.x);
    int group = int(tag.y);
    mat4 motion = groups[group];
    vec3 eye_there = eye * mat3(motion);
    float a = dot(first, eye_there);
    float b = dot(second, eye_there);
    bool front_a = a > 0.001;
    bool front_b = b > 0.001;
    bool outline = front_a != front_b;

    bool cap_only = stroke == FINE || stroke == RIM || stroke == OUTLINE_RIM || stroke == PHANTOM;
    bool shown = cap_only ? a > -0.02 : stroke == ROUND ? outline : stroke == WIRE || front_a || front_b;

    float width = stroke == FINE ? 0.45 : 0.9;
    if ((stroke == OUTLINE || stroke == OUTLINE_RIM) && (outline || abs(b) < 0.02)) width = 1.9;
    pen = vec4(0.0, stroke == FINE ? 0.75 : 1.0, 0.0, 0.0);

    if (stroke == WIRE) {
        width = 1.3;
        pen.w = 2.0;
    }
    if (group == SHIELD_GROUP) {
        pen.y *= state.x;
    }
    if (stroke == PHANTOM) {
        pen.y *= 1.0 - state.x;
        pen.z = 2.0;
    }
    if (state.y > 0.5 && tag.z > 0.5) {
        int code = int(tag.z) - 1;
        vec3 out_of = vec3(0.0);
        out_of[code / 2] = code % 2 == 0 ? 1.0 : -1.0;
        if (dot(out_of, eye_there) > 0.01) {
            pen.z = 1.0;
            pen.w = 1.0;
            width = min(width, 0.9);
            shown = shown && stroke != FINE;
        }
    }
    if (!shown || pen.y <= 0.0) return;

    vec3 p = (motion * vec4(from, 1.0)).xyz;
    vec3 q = (motion * vec4(to, 1.0)).xyz;
    vec2 half_screen = 0.5 * screen.xy;
    vec2 p_at = (vec2(dot(p, right), dot(p, up)) * frame.xy + frame.zw) * half_screen;
    vec2 q_at = (vec2(dot(q, right), dot(q, up)) * frame.xy + frame.zw) * half_screen;
    float reach = length(q_at - p_at);
    // Seen end on, a line is nothing.
    if (reach < 0.7) return;
    vec2 way = (q_at - p_at) / reach;

    // Thinner than a device pixel: one pixel wide and paler.
    float pixels = width * screen.z;
    pen.y *= min(pixels, 1.0);
    pen.x = 0.5 * max(pixels, 1.0);
    float margin = pen.x + 0.75;

    int corner = gl_VertexID;
    bool at_end = corner == 1 || corner == 2 || corner == 4;
    float side = corner == 0 || corner == 1 || corner == 3 ? -1.0 : 1.0;
    vec2 at = at_end ? q_at + way * pen.x * 0.5 : p_at - way * pen.x * 0.5;
    at += vec2(-way.y, way.x) * side * margin;
    along = vec2(at_end ? reach : 0.0, side * margin);

    float near = dot(at_end ? q : p, eye) + 0.5 * depth.y + 0.4;
    gl_Position = vec4(at / half_screen, -near * depth.x, 1.0);
}
