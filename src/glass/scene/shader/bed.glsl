// The bed: balls on the unrolled wall, each lit by itself and tinted by what its place holds. A second layer shows between them.

/**
 * Light on the balls levels off at BRIGHTEST, where the palest bed would else lose its colour; EVEN brings its mean to 1, so that
 * a patch of the bed has the colour computed for it (found by measuring; tests/browser/glass.browser.ts holds it).
 */
const float BRIGHTEST = 1.32, EVEN = 3.8;
const float GAP_LIGHT = 0.12;
const vec3 LAMP = vec3(-0.47, -0.56, 0.68);
/** Px of a square in which a bubble or a crack stands. */
const float BUBBLE = 8.0, CRACK = 13.0;

struct Ball {
  float height;
  vec2 centre;
  vec3 facing;
  vec3 chance;
};

/** The ball on top at a place measured in balls. Those above the bed are left out, so that its top is as uneven as they are. */
Ball ballAt(vec2 at, int layer) {
  Ball top = Ball(0.0, at, vec3(0.0), vec3(0.5));
  ivec2 here = ivec2(floor(at));
  int round_ = int(turn.y);
  for (int j = -1; j <= 1; j++) for (int i = -1; i <= 1; i++) {
    ivec2 cell = here + ivec2(i, j);
    vec3 chance = scatter(ivec2((cell.x % round_ + round_) % round_, cell.y), layer);
    vec2 centre = vec2(cell) + 0.5 + 0.62 * (chance.xy - 0.5);
    float radius = 0.5 + 0.16 * chance.z;
    vec2 away = at - centre;
    float square = radius * radius - dot(away, away);
    if (square <= 0.0 || centre.y < 0.12) continue;
    float height = sqrt(square) + 0.12 * (chance.x - chance.y);
    if (height > top.height) top = Ball(height, centre, vec3(away, sqrt(square)) / radius, chance);
  }
  return top;
}

/** Where the colour of a place is kept: angle in turns, depth in px. */
vec2 kept(float angle, float depth) {
  return vec2(angle, clamp(depth / (bed.y - bed.x), 0.001, 0.999));
}

float lit(Ball ball) {
  float direct = max(0.0, dot(ball.facing, LAMP));
  float gloss = pow(max(0.0, dot(ball.facing, normalize(LAMP + vec3(0.0, 0.0, 1.0)))), 18.0);
  return (0.1 + 0.9 * direct + 0.3 * gloss) * mix(0.25, 1.0, smoothstep(0.05, 0.5, ball.facing.z)) * (0.85 + 0.3 * ball.chance.z);
}

/** Distance to the border between the two nearest of scattered points, in their squares. */
float border(vec2 at) {
  vec2 nearest = vec2(9.0);
  ivec2 here = ivec2(floor(at));
  for (int j = -1; j <= 1; j++) for (int i = -1; i <= 1; i++) {
    ivec2 cell = here + ivec2(i, j);
    float away = distance(at, vec2(cell) + scatter(cell, 7).xy);
    nearest = away < nearest.x ? vec2(away, nearest.x) : vec2(nearest.x, min(nearest.y, away));
  }
  return nearest.y - nearest.x;
}

/** Dark cracks where the bed has run dry, bubbles where gas is trapped: marks that do not rest on colour. */
vec3 marked(vec3 light, vec2 at, vec2 gasAndDry) {
  if (gasAndDry.y > 0.5) return mix(light, toLight(INK), 0.75 * (1.0 - smoothstep(0.03, 0.1, border(at / CRACK))));
  vec2 square = floor(at / BUBBLE);
  vec3 chance = scatter(ivec2(square), 5);
  vec2 there = texture(state, kept((square.x + 0.5) * BUBBLE / (TAU * tube.y), (square.y + 0.5) * BUBBLE)).rg;
  if (there.x < 0.02 || there.y > 0.02 || chance.z > there.x / 0.4) return light;
  vec2 away = at - (square + 0.5 + 0.3 * (chance.xy - 0.5)) * BUBBLE;
  float reach = length(away);
  light = mix(light, toLight(INK), 0.7 * within(reach - 3.1));
  return mix(light, vec3(0.92 - 0.1 * away.y), within(reach - 2.2));
}

/** Light from one place of the bed; alpha 0 where there is no resin. */
vec4 bedLight(float across, float depth) {
  float angle = turn.x - asin(across) / TAU;
  vec2 at = vec2(angle * turn.y, depth / bed.w);
  Ball ball = ballAt(at, 1);
  float light = lit(ball);
  if (ball.height <= 0.0) {
    ball = ballAt(at * vec2(1.0, 0.93) + vec2(0.0, 31.0), 2);
    ball.centre = at;
    light = ball.height > 0.0 ? 0.42 * lit(ball) : GAP_LIGHT;
  }
  float fade = smoothstep(1.2, 2.6, bed.w * room.z);
  vec2 where = kept(ball.centre.x / turn.y, (ball.centre.y + 1.1 * (ball.chance.y - 0.5)) * bed.w);
  vec4 held = texture(cells, where);
  vec2 gasAndDry = texture(state, where).rg;
  vec3 colour = toLight(held.rgb) * mix(1.0, BRIGHTEST * (1.0 - exp(-EVEN * light)), fade);
  return vec4(marked(colour, vec2(angle * TAU * tube.y, depth), gasAndDry), step(0.5, held.a) * step(0.0, ball.centre.y));
}

/** The bed as seen through a pixel: linear light, and how much of the pixel holds resin. */
vec4 bedAt(vec2 p) {
  int samples = int(turn.z);
  vec4 sum = vec4(0.0);
  for (int j = 0; j < samples; j++) for (int i = 0; i < samples; i++) {
    vec2 at = p + ((vec2(i, j) + 0.5) / float(samples) - 0.5) / room.z;
    vec4 found = bedLight(clamp((at.x - tube.x) / tube.y, -0.999, 0.999), at.y - bed.x);
    sum += vec4(found.rgb * found.a, found.a);
  }
  return vec4(sum.rgb / max(sum.a, 0.001), sum.a / float(samples * samples));
}
