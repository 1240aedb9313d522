// The glass tube and what is in it, from the rim to the tip.

/** Half the widths of liquid and of glass at a height of the outlet. */
vec2 outletHalf(float y) {
  float cone = min(1.15 * (tube.y + tube.z), 0.42 * (outlet.z - outlet.x));
  float down = clamp((y - outlet.x) / cone, 0.0, 1.0);
  float narrowing = down * down * (3.0 - 2.0 * down) * 0.35 + down * 0.65;
  float squeeze = 1.0 - smoothstep(4.0, 10.0, abs(y - outlet.z));
  float bore = mix(outlet.y, outlet.y * (0.1 + 0.9 * sqrt(clampOpen)), squeeze);
  float inner = mix(tube.y, bore, narrowing);
  return vec2(inner, inner + mix(tube.z, 0.8 * outlet.y + 0.6, narrowing));
}

/** Glass between an inner and an outer outline: dark at both faces, tinted by what stands behind it. */
void layWall(inout vec4 under, float x, float inner, float outer, vec3 inside, float y) {
  float from = abs(x) - inner;
  float across = clamp(from / (outer - inner), 0.0, 1.0);
  float edge = max(smoothstep(0.45, 1.0, across), 0.75 * (1.0 - smoothstep(0.0, 0.34, across)));
  vec3 body = mix(GLASS, inside, 0.35 * (1.0 - across));
  float shine = (x < 0.0 ? 0.9 : 0.35) * exp(-60.0 * pow(across - 0.5, 2.0));
  vec3 colour = mix(body, GLASS_EDGE, 0.82 * edge) + shine * 0.35;
  lay(under, colour, within(-from) * within(abs(x) - outer));
}

/** Narrow reflections of a window on the curved front. */
void layShine(inout vec4 under, float across, float y, float strength) {
  float left = exp(-pow((across + 0.68) / 0.055, 2.0)) + 0.35 * exp(-pow((across + 0.55) / 0.02, 2.0));
  float right = 0.45 * exp(-pow((across - 0.76) / 0.04, 2.0));
  float ends = smoothstep(tube.w + 4.0, tube.w + 24.0, y) * (1.0 - smoothstep(bed.y - 20.0, bed.y + 4.0, y));
  lay(under, vec3(1.0), strength * ends * min(1.0, left + right));
}

/** Y of the surface: the liquid climbs at the wall. */
float surfaceAt(float across) {
  float climb = min(4.0, 0.22 * tube.y);
  return head.x - climb * pow(abs(across), 5.0);
}

/** Frosted glass with light between its grains. */
vec3 frit(vec2 p) {
  vec3 chance = scatter(ivec2(floor(p * 1.3)), 3);
  return vec3(0.83, 0.84, 0.83) * (0.86 + 0.2 * chance.x);
}

void layInside(inout vec4 under, vec2 p, float across) {
  float limb = 1.0 - 0.32 * smoothstep(0.74, 1.0, abs(across)) - 0.06 * smoothstep(0.3, 1.0, across);
  vec3 liquid = stain(HEAD, across) * limb;
  float surface = surfaceAt(across);
  layAir(under, across, 1.0);
  if (head.z > 0.5) {
    lay(under, liquid, within(surface - p.y) * step(p.y, bed.x + head.w + 2.0));
    float below = p.y - surface;
    lay(under, INK, 0.42 * (1.0 - smoothstep(0.3, 2.6, abs(below - 1.2))) * step(p.y, bed.x + 2.0 + head.w));
  }
  if (p.y > bed.x - 2.0 && p.y < bed.y) {
    vec4 found = bedAt(p);
    float shade = mix(1.0, 0.5, smoothstep(0.55, 1.0, abs(across))) * (1.0 - 0.12 * smoothstep(0.45, 1.0, across));
    lay(under, toScreen(found.rgb * shade), found.a);
  }
  if (p.y >= bed.y) lay(under, frit(p) * limb, within(bed.y - p.y));
}

vec3 besideWall(vec2 p, float x) {
  float across = sign(x) * 0.9;
  if (p.y > bed.y) return vec3(0.8);
  if (p.y > bed.x) return texture(cells, kept(turn.x - asin(across) / TAU, p.y - bed.x)).rgb;
  return head.z > 0.5 && p.y > head.x ? stain(HEAD, across) : mix(vec3(0.95), vec3(0.5), dark);
}

/** The straight tube; a long one is cut by a break, above which heights are drawn smaller. */
void layTube(inout vec4 under, vec2 p) {
  float x = p.x - tube.x;
  float lip = 1.6 * (1.0 - smoothstep(0.0, 4.0, p.y - tube.w));
  float outer = tube.y + tube.z + lip;
  if (abs(x) > outer + 2.0 || p.y < tube.w - 2.0 || p.y > outlet.x + 1.0) return;
  vec4 glass = vec4(0.0);
  float across = x / tube.y;
  if (abs(x) < tube.y + 1.0) layInside(glass, p, clamp(across, -1.0, 1.0));
  if (abs(x) < tube.y) layShine(glass, across, p.y, p.y > bed.x ? 0.3 : 0.55);
  layWall(glass, x, tube.y, outer, besideWall(p, x), p.y);
  float rim = box(vec2(x, p.y - tube.w - 1.6), vec2(outer, 1.6), 1.6);
  lay(glass, mix(GLASS, GLASS_EDGE, 0.45), 0.75 * within(rim));
  float shape = within(tube.w - p.y) * within(p.y - outlet.x) ;
  float wave = 1.8 * sin(x * 5.2 / outer);
  float cut = head.y > 0.0 ? abs(p.y - head.y - wave) - 3.0 : 9.0;
  lay(glass, GLASS_EDGE, within(abs(cut) - 0.6));
  layOver(under, glass, shape * (1.0 - within(cut)));
}

void layOutlet(inout vec4 under, vec2 p) {
  if (p.y < outlet.x - 1.0 || p.y > outlet.w + 1.0) return;
  float x = p.x - tube.x;
  vec2 half_ = outletHalf(p.y);
  if (abs(x) > half_.y + 2.0) return;
  vec4 glass = vec4(0.0);
  float across = clamp(x / half_.x, -1.0, 1.0);
  vec3 liquid = stain(OUTLET, across);
  lay(glass, liquid * (1.0 - 0.3 * smoothstep(0.6, 1.0, abs(across))), within(abs(x) - half_.x));
  layWall(glass, x, half_.x, half_.y, liquid, p.y);
  lay(glass, vec3(1.0), 0.5 * exp(-pow((x / half_.y + 0.5) / 0.12, 2.0)));
  layOver(under, glass, within(abs(x) - half_.y) * within(outlet.x - p.y) * within(p.y - outlet.w));
}

/** A screw clamp: a frame round the soft tube, a bar that its screw presses against it. */
void layClamp(inout vec4 under, vec2 p) {
  vec2 at = p - vec2(tube.x, outlet.z);
  if (abs(at.y) > 14.0 || abs(at.x) > 46.0) return;
  float open = outletHalf(outlet.z).y;
  float rest = 2.4 * outlet.y + 1.0;
  float light = 0.5 + 0.5 * clamp(-at.y / 7.0, -1.0, 1.0);
  vec3 steel = mix(mix(vec3(0.34, 0.37, 0.41), vec3(0.5, 0.54, 0.58), dark), vec3(0.80, 0.82, 0.84), light * light);
  float frame = abs(box(at - vec2(3.0, 0.0), vec2(rest + 7.0, 8.0), 2.0)) - 1.4;
  float bar = box(at - vec2(open + 2.4, 0.0), vec2(1.7, 6.2), 1.0);
  float anvil = box(at - vec2(-open - 2.4, 0.0), vec2(1.7, 6.2), 1.0);
  float screw = box(at - vec2(open + 4.0 + 0.5 * (rest + 14.0), 0.0), vec2(0.5 * (rest + 14.0), 1.5), 0.5);
  float knob = box(at - vec2(open + rest + 19.0, 0.0), vec2(2.6, 6.0), 1.2);
  float all_ = min(min(min(frame, bar), min(anvil, screw)), knob);
  lay(under, vec3(0.0), 0.18 * within(box(at - vec2(4.0, 2.0), vec2(rest + 8.0, 8.0), 3.0) - 1.0) * (1.0 - within(all_)));
  float thread = within(screw) * step(0.5, fract(at.x / 2.0));
  float grip = within(knob) * step(0.5, fract(at.y / 2.4));
  lay(under, steel * (1.0 - 0.3 * thread - 0.25 * grip), within(all_));
  lay(under, INK, 0.55 * line(all_ + 0.4, 0.9));
}
