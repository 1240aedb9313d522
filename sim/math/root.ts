/**
 * Root of `f` between `low` and `high` by bracketed inverse quadratic interpolation with bisection as fallback.
 * T. R. Chandrupatla 1997, Adv. Eng. Software 28, 145-149, recalled. Without a change of sign: the end nearer to zero.
 */
export function rootOf(f: (x: number) => number, low: number, high: number, tolerance = 1e-12): number {
  let a = high;
  let b = low;
  let fa = f(a);
  let fb = f(b);
  if (fa * fb > 0) return Math.abs(fa) < Math.abs(fb) ? a : b;
  let t = 0.5;
  for (let i = 0; i < 200; i++) {
    const x = a + t * (b - a);
    const fx = f(x);
    let c = b;
    let fc = fb;
    if (fx > 0 === fa > 0) {
      c = a;
      fc = fa;
    } else {
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const limit = (tolerance + 4e-16 * Math.abs(best)) / Math.abs(b - c || b - a);
    if (fa === 0 || fb === 0 || limit > 0.5 || a === b) return best;
    t = Math.min(1 - limit, Math.max(limit, interpolated(a, b, c, fa, fb, fc)));
  }
  return a;
}

function interpolated(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  const trusted = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
  if (!trusted) return 0.5;
  return (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
}
