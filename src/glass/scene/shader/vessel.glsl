// Drops, beakers and the ruler.

/** A ball of clear liquid: bright below, where it gathers the light, dark at its edge. */
vec3 drop_(vec2 away, float radius) {
  vec2 n = away / radius;
  float reach = length(n);
  vec3 body = stain(DROP, 0.0) * (0.82 + 0.2 * n.y);
  body = mix(body, GLASS_EDGE, 0.75 * smoothstep(0.62, 1.0, reach));
  return body + 0.9 * exp(-12.0 * dot(n - vec2(-0.35, -0.4), n - vec2(-0.35, -0.4)));
}

void layDrops(inout vec4 under, vec2 p) {
  float x = p.x - tube.x;
  if (abs(x) > 14.0 || p.y < outlet.w - 2.0) return;
  float radius = drop.x;
  if (radius > 0.3) {
    float end = outlet.w - 0.5;
    vec2 away = vec2(x, p.y - end - 0.55 * radius);
    // A neck joins the drop to the tip.
    float neck = box(vec2(x, p.y - end), vec2(min(1.3 * outlet.y, 0.9 * radius), 0.35 * radius), 0.0);
    float ball = length(away) - radius;
    float mixed = clamp(0.5 + 0.25 * (neck - ball), 0.0, 1.0);
    float shape = mix(neck, ball, mixed) - 2.0 * mixed * (1.0 - mixed) * 0.5;
    lay(under, drop_(away, radius), within(max(shape, end - p.y)));
  }
  if (drop.z > 0.0) {
    vec2 away = vec2(x, (p.y - drop.y) / 1.12);
    lay(under, drop_(away, drop.z), within(length(away) - drop.z));
  }
  if (drop.w > 0.0 && p.y < drop.w) {
    float half_ = mix(1.35 * outlet.y, 1.2, smoothstep(0.0, 14.0, p.y - outlet.w)) + 0.25 * sin(p.y * 0.5);
    vec3 colour = mix(stain(DROP, 0.0), GLASS_EDGE, 0.7 * smoothstep(0.35, 1.0, abs(x) / half_));
    lay(under, colour, within(abs(x) - half_));
  }
}

void layBeaker(inout vec4 under, vec2 p, vec4 place_, vec2 content) {
  vec2 at = vec2(p.x - place_.x, p.y - place_.y);
  float height = place_.z, radius = place_.w;
  if (height <= 0.0 || abs(at.x) > radius + 12.0 || at.y < -height - 4.0 || at.y > 8.0) return;
  float scale = clamp(height / 80.0, 0.5, 1.2);
  float wall = 2.2 * scale;
  float shadow = length(vec2(at.x / (radius + 6.0), (at.y - 1.5) / 4.0));
  lay(under, vec3(0.0), 0.28 * (1.0 - smoothstep(0.5, 1.0, shadow)));
  float flare = 2.6 * scale * (1.0 - smoothstep(0.0, 5.0 * scale, at.y + height));
  float spout = at.x < 0.0 ? 1.7 * flare : flare;
  float body = box(vec2(at.x, at.y + 0.5 * height), vec2(radius, 0.5 * height), 5.0 * scale);
  float outside = max(body, abs(at.x) - radius) - spout;
  float inside = box(vec2(at.x, at.y + 0.5 * height + 2.0 * wall), vec2(radius - wall, 0.5 * height + 1.5 * wall), 4.0 * scale);
  float across = clamp(at.x / (radius - wall), -1.0, 1.0);
  layAir(under, across, within(outside) * within(-height - at.y));
  float surface = -0.6 * wall - content.x - 1.6 * pow(abs(across), 9.0);
  if (content.x > 0.3) {
    float wet = within(inside) * within(surface - at.y);
    lay(under, stain(content.y, across) * (1.0 - 0.16 * smoothstep(0.8, 1.0, abs(across))), wet);
    lay(under, INK, 0.4 * within(inside) * (1.0 - smoothstep(0.2, 1.9, abs(at.y - surface - 0.8))));
  }
  float tenth = 0.78 * height / 10.0;
  float step_ = floor((-at.y - 0.6 * wall) / tenth + 0.5);
  float longer = mod(step_, 2.0) < 0.5 ? 0.34 : 0.2;
  float tick = line(-at.y - 0.6 * wall - step_ * tenth, 0.9) * within(abs(at.x - (0.1 + 0.5 * longer) * radius) - 0.5 * longer * radius);
  lay(under, INK, step_ >= 1.0 && step_ <= 10.0 ? 0.5 * tick : 0.0);
  float shell = within(outside) * (1.0 - within(inside));
  lay(under, mix(GLASS, GLASS_EDGE, 0.35 + 0.5 * smoothstep(-0.6 * wall, 0.0, outside)), 0.8 * shell * step(-height + 1.0, at.y));
  lay(under, GLASS_EDGE, 0.75 * line(at.y + height - 0.4, 1.1) * within(abs(at.x) - radius - spout));
  lay(under, vec3(1.0), 0.6 * within(inside) * exp(-pow((at.x / radius + 0.72) / 0.05, 2.0)) * smoothstep(0.0, 0.2, 1.0 + at.y / height));
}

void layRuler(inout vec4 under, vec2 p) {
  vec2 middle = vec2(ruler.x + 0.5 * ruler.y, 0.5 * (ruler.z + ruler.w));
  float shape = box(p - middle, vec2(0.5 * ruler.y, 0.5 * (ruler.w - ruler.z)), 1.5);
  if (shape > 6.0) return;
  lay(under, vec3(0.0), 0.16 * (1.0 - smoothstep(-2.0, 4.0, box(p - middle - vec2(1.5, 2.0), vec2(0.5 * ruler.y, 0.5 * (ruler.w - ruler.z)), 2.0))));
  float grain = 0.5 + 0.5 * sin(p.x * 1.7 + 1.3 * sin(p.y * 0.021 + p.x * 0.4));
  lay(under, mix(vec3(0.935, 0.885, 0.755), vec3(0.915, 0.862, 0.725), grain) * mix(1.0, 0.9, dark), within(shape));
  float millimetre = bed.z / 10.0;
  float every = millimetre >= 2.8 ? 1.0 : millimetre >= 1.5 ? 2.0 : 5.0;
  float nearest = floor((p.y - zero) / (millimetre * every) + 0.5) * every;
  float long_ = mod(nearest, 10.0) == 0.0 ? 0.4 : mod(nearest, 5.0) == 0.0 ? 0.28 : 0.17;
  float tick = line(p.y - zero - nearest * millimetre, 0.8) * within(p.x - ruler.x - long_ * ruler.y);
  lay(under, INK, 0.8 * tick * within(shape));
}
