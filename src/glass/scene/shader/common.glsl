#version 300 es
precision highp float;
precision highp int;

// The whole panel in px of the page from its top left corner, looked at level. Lay what is behind first.

uniform vec3 room;        // width, height, pixels per px
uniform float dark;       // 1 on a dark page: liquids are lit from behind all the same, but dimly, as on a dark bench
uniform vec4 tube;        // middle, inner radius, thickness of the wall, rim
uniform vec4 bed;         // top, bottom, px per cm, px per bead
uniform vec3 turn;        // side that is looked at in turns, beads round the bed, samples across a pixel
uniform vec4 head;        // y of the surface, of the break, whether there is liquid, resin missing somewhere
uniform vec4 outlet;      // top, inner radius, y of the clamp, y of the tip
uniform float clampOpen;  // 0 to 1
uniform vec4 drop;        // radius of the hanging drop, y and radius of the falling one, y where a stream ends
uniform vec4 beaker[6];   // middle, base, height, radius; height 0 for none
uniform vec2 fill[6];     // px of liquid, row of its colour
uniform vec4 ruler;       // left, width, top, bottom
uniform float zero;       // y of its 0
uniform float mark;       // y of the marked depth, below 0 for none
uniform sampler2D cells;  // colour by angle and depth; alpha is the resin there
uniform sampler2D state;  // gas and dryness by angle and depth
uniform sampler2D stains; // colours of the liquids across their vessels, a row each

in vec2 place;
out vec4 shown;

const float TAU = 6.28318531;
const vec3 GLASS = vec3(0.80, 0.85, 0.86);
const vec3 GLASS_EDGE = vec3(0.36, 0.43, 0.47);
const vec3 INK = vec3(0.09, 0.12, 0.17);
const vec3 BACKLIGHT = vec3(0.44, 0.49, 0.54);
const float STAIN_ROWS = 10.0;
const float HEAD = 0.0, OUTLET = 1.0, DROP = 2.0;

/** Share of a pixel inside an outline, from the distance to it, px; negative is inside. */
float within(float away) {
  return clamp(0.5 - away * room.z, 0.0, 1.0);
}

/** The same for a line of this width about a distance of 0. */
float line(float away, float width) {
  return within(abs(away) - 0.5 * width);
}

float box(vec2 at, vec2 half_, float rounding) {
  vec2 d = abs(at) - half_ + rounding;
  return length(max(d, 0.0)) + min(max(d.x, d.y), 0.0) - rounding;
}

void lay(inout vec4 under, vec3 colour, float alpha) {
  under = vec4(colour * alpha, alpha) + under * (1.0 - alpha);
}

void layOver(inout vec4 under, vec4 over, float alpha) {
  under = over * alpha + under * (1.0 - over.a * alpha);
}

vec3 toLight(vec3 screen) {
  return mix(screen / 12.92, pow((screen + 0.055) / 1.055, vec3(2.4)), step(0.04045, screen));
}

vec3 toScreen(vec3 light) {
  vec3 c = clamp(light, 0.0, 1.0);
  return mix(c * 12.92, 1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c));
}

/** Colour of a liquid in a round vessel, -1 at its left wall, 1 at its right: what stands behind it, seen through it. */
vec3 stain(float row, float across) {
  vec3 against = texture(stains, vec2(0.5 + 0.484 * clamp(across, -1.0, 1.0), (row + 0.5) / STAIN_ROWS)).rgb;
  return against * mix(vec3(1.0), BACKLIGHT, dark);
}

/** Empty glass before the page: hardly seen on a light one, dimly lit on a dark one. */
void layAir(inout vec4 under, float across, float alpha) {
  float limb = smoothstep(0.7, 1.0, abs(across));
  lay(under, mix(GLASS, vec3(0.50, 0.55, 0.59) * (1.0 - 0.3 * limb), dark), alpha * mix(0.10 + 0.30 * limb, 0.55 + 0.4 * limb, dark));
}

/** Three scattered numbers of 0 to 1 for a cell. pcg3d of Jarzynski and Olano 2020, J. Computer Graphics Techniques 9(3), 20, recalled. */
vec3 scatter(ivec2 cell, int layer) {
  uvec3 v = uvec3(cell.x + 4096, cell.y + 4096, layer) * 1664525u + 1013904223u;
  v += v.yzx * v.zxy;
  v ^= v >> 16u;
  v += v.yzx * v.zxy;
  return vec3(v >> 8u) / 16777216.0;
}
