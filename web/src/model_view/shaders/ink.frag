// Ink, with soft edges; hidden lines are dashed, phantom lines have two short dashes after each long one.
uniform vec4 inks[3];
uniform float pixel; // device pixels in a CSS pixel

flat in vec4 pen;
in vec2 along;
layout(location = 0) out vec4 colour;

void main() {
    float opacity = pen.y * clamp(pen.x - abs(along.y) + 0.5, 0.0, 1.0);
    float run = along.x / pixel;
    if (pen.z > 1.5) {
        // 12 3 2 3 2 3
        float at = mod(run, 25.0);
        bool drawn = at < 12.0 || (at >= 15.0 && at < 17.0) || (at >= 20.0 && at < 22.0);
        if (!drawn) discard;
    } else if (pen.z > 0.5) {
        // 6 4
        if (mod(run, 10.0) >= 6.0) discard;
    }
    vec4 ink = inks[int(pen.w)];
    opacity *= ink.a;
    if (opacity <= 0.004) discard;
    colour = vec4(ink.rgb * opacity, opacity);
}
