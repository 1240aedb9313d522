// Integrals of smooth functions by Gauss-Legendre panels.

const ORDER = 16;
const RULE = legendreRule(ORDER);

/** Integral of f from a to b, in equal panels of 16 points each. */
export function integrate(f: (x: number) => number, a: number, b: number, panels = 64): number {
  const half = (b - a) / panels / 2;
  let sum = 0;
  for (let p = 0; p < panels; p++) {
    const middle = a + (2 * p + 1) * half;
    for (const { node, weight } of RULE) sum += weight * f(middle + half * node);
  }
  return sum * half;
}

/** Nodes by Newton's method on the Legendre polynomial; weight 2/((1-x²) P'²) (Abramowitz and Stegun 25.4.29, recalled). */
function legendreRule(n: number): { readonly node: number; readonly weight: number }[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    for (let pass = 0; pass < 20; pass++) x -= legendre(n, x).value / legendre(n, x).slope;
    return { node: x, weight: 2 / ((1 - x * x) * legendre(n, x).slope ** 2) };
  });
}

function legendre(n: number, x: number): { readonly value: number; readonly slope: number } {
  let [before, value] = [1, x];
  for (let k = 2; k <= n; k++) [before, value] = [value, ((2 * k - 1) * x * value - (k - 1) * before) / k];
  return { value, slope: (n * (x * value - before)) / (x * x - 1) };
}
