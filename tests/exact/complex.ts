// Just enough complex arithmetic for Laplace transforms.

/** Real and imaginary part. */
export type Complex = readonly [number, number];

export function add(a: Complex, b: Complex): Complex {
  return [a[0] + b[0], a[1] + b[1]];
}

export function scale(a: Complex, factor: number): Complex {
  return [a[0] * factor, a[1] * factor];
}

export function mul(a: Complex, b: Complex): Complex {
  return [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
}

export function div(a: Complex, b: Complex): Complex {
  const norm = b[0] * b[0] + b[1] * b[1];
  return [(a[0] * b[0] + a[1] * b[1]) / norm, (a[1] * b[0] - a[0] * b[1]) / norm];
}

export function abs(a: Complex): number {
  return Math.hypot(a[0], a[1]);
}

export function exp(a: Complex): Complex {
  const size = Math.exp(a[0]);
  return [size * Math.cos(a[1]), size * Math.sin(a[1])];
}

/** Principal logarithm. */
export function log(a: Complex): Complex {
  return [Math.log(abs(a)), Math.atan2(a[1], a[0])];
}

/** Principal root: real part not negative. */
export function sqrt(a: Complex): Complex {
  const size = abs(a);
  const re = Math.sqrt((size + Math.abs(a[0])) / 2);
  if (re === 0) return [0, 0];
  const im = a[1] / (2 * re);
  if (a[0] >= 0) return [re, im];
  return [Math.abs(im), a[1] < 0 ? -re : re];
}

/** Hyperbolic cotangent of a number with positive real part. */
export function coth(a: Complex): Complex {
  const decay = exp([-2 * a[0], -2 * a[1]]);
  return div([1 + decay[0], decay[1]], [1 - decay[0], -decay[1]]);
}
