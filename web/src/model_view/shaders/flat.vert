// Faces in flat tones. Each paint has a tone for faces that look up, to the front or rear, and to a side.
uniform mat4 groups[14];
uniform vec3 tones[57];
uniform vec3 right;
uniform vec3 up;
uniform vec3 eye;
uniform vec4 frame; // clip units per mm across and up; clip position of the model's origin
uniform vec2 depth; // clip units per mm towards the eye; mm in one pixel
uniform float ghosted;

in vec3 position;
in vec3 normal;
in vec4 tag; // paint, group, the way its panel looks out, whether it takes a shadow

flat out vec3 tone;
flat out vec3 facing;
flat out vec3 kind; // paint, group, whether it takes a shadow
out vec3 place;

void main() {
    mat4 motion = groups[int(tag.y)];
    vec3 at = (motion * vec4(position, 1.0)).xyz;
    vec3 way = (motion * vec4(normal, 0.0)).xyz;

    vec3 share = way * way;
    int first = 3 * int(tag.x);
    vec3 looking_up = way.z < 0.0 ? tones[first + 2] : tones[first];
    tone = share.z * looking_up + share.y * tones[first + 1] + share.x * tones[first + 2];
    facing = way;
    kind = vec3(tag.x, tag.y, tag.w);
    place = at;

    // A face steps back by what it would rise over one pixel, so that ink beside an edge is never buried in it.
    float towards = max(abs(dot(way, eye)), 0.05);
    float slope = min(sqrt(max(1.0 - towards * towards, 0.0)) / towards, 6.0);
    float back = 0.7 * depth.y * slope;
    vec3 seen = vec3(dot(at, right), dot(at, up), dot(at, eye) - back);
    gl_Position = vec4(seen.xy * frame.xy + frame.zw, -seen.z * depth.x, 1.0);

    if (ghosted > 0.5 && tag.z > 0.5) {
        int code = int(tag.z) - 1;
        vec3 out_of = vec3(0.0);
        out_of[code / 2] = code % 2 == 0 ? 1.0 : -1.0;
        if (dot((motion * vec4(out_of, 0.0)).xyz, eye) > 0.01) gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
    }
}
