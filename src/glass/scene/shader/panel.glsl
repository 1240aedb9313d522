/** A soft shadow to the right of the tube; light that came through the bed colours it. */
void layShadow(inout vec4 under, vec2 p) {
  float away = p.x - tube.x - tube.y - tube.z;
  if (away < -4.0 || away > 26.0 || p.y < tube.w || p.y > outlet.x + 20.0) return;
  float fall = (1.0 - smoothstep(0.0, 22.0, away)) * smoothstep(tube.w, tube.w + 20.0, p.y) * (1.0 - smoothstep(outlet.x - 4.0, outlet.x + 20.0, p.y));
  vec3 through = p.y > bed.x && p.y < bed.y ? texture(cells, kept(turn.x - 0.2, p.y - bed.x)).rgb * 0.45 : vec3(0.25);
  lay(under, through, mix(0.2, 0.12, dark) * fall);
}

void layMark(inout vec4 under, vec2 p) {
  if (mark < 0.0) return;
  float half_ = tube.y + tube.z + 3.0;
  float x = abs(p.x - tube.x);
  lay(under, vec3(1.0), 0.85 * line(p.y - mark, 3.6) * within(x - half_));
  lay(under, INK, line(p.y - mark, 1.4) * within(x - half_));
}

void main() {
  vec4 picture = vec4(0.0);
  layShadow(picture, place);
  layRuler(picture, place);
  layTube(picture, place);
  layOutlet(picture, place);
  layClamp(picture, place);
  layDrops(picture, place);
  for (int i = 5; i >= 0; i--) layBeaker(picture, place, beaker[i], fill[i]);
  layMark(picture, place);
  shown = picture;
}
