// Mean and variance of what leaves lanes of unequal flow that exchange liquid sideways: from the second-order Taylor series
// of the Laplace transform, G(s) = 1 - mean s + (mean² + variance) s²/2.

/** Square matrix, rows of numbers. */
export type Matrix = readonly (readonly number[])[];

/** Plug flow lanes: area fractions f, interstitial velocities v, exchange per unit of mobile volume between pairs (1/s). */
export interface PlugLanes {
  readonly f: readonly number[];
  readonly v: readonly number[];
  readonly exchange: readonly { readonly a: number; readonly b: number; readonly omega: number }[];
  readonly L: number;
  readonly k: number;
}

/** Lanes of stirred cells with slow linear uptake, in the terms of the reference column: m, V mL per cell, Q and G mL/min, D, kL 1/min. */
export interface PlateLanes {
  readonly plates: number;
  readonly lanes: readonly { readonly m: number; readonly V: number; readonly Q: number }[];
  readonly exchanges: readonly { readonly a: number; readonly b: number; readonly G: number }[];
  readonly D: number;
  readonly kL: number;
}

export interface LaneMoments {
  readonly mean: number;
  readonly variance: number;
}

/** Flux-weighted impulse in, mixed cup out: G = phi' exp(L A(s)) 1 (derived). */
export function plugLaneMoments({ f, v, exchange, L, k }: PlugLanes): LaneMoments {
  const n = f.length;
  const still = zeros(n);
  for (const { a, b, omega } of exchange) {
    for (const [i, j] of [
      [a, b],
      [b, a],
    ]) {
      still[i][i] -= (omega * L) / (f[i] * v[i]);
      still[i][j] += (omega * L) / (f[i] * v[i]);
    }
  }
  const slope = zeros(n);
  for (let i = 0; i < n; i++) slope[i][i] = (-(1 + k) * L) / v[i];
  const U = dot(f, v);
  // Blocks of exp of [[A0, A1, 0], [0, A0, A1], [0, 0, A0]] are the coefficients of 1, s, s² of exp(A0 + A1 s).
  const whole = matrixExp(blocks(still, slope));
  const coefficient = (order: number): number =>
    f.reduce((sum, share, i) => sum + ((share * v[i]) / U) * whole[i].slice(order * n, (order + 1) * n).reduce((a, b) => a + b, 0), 0);
  return momentsFrom([coefficient(0), coefficient(1), coefficient(2)]);
}

/** The same for N stirred cells per lane, each row solving (Q + m g(s) + sum G) c - sum G c_other = Q c_above. */
export function plateLaneMoments({ plates, lanes, exchanges, D, kL }: PlateLanes): LaneMoments {
  const n = lanes.length;
  const [zero, first, second] = [zeros(n), zeros(n), zeros(n)];
  lanes.forEach(({ m, V, Q }, i) => {
    // m g(s) = s (m + V D kL/(s + kL)) = (m + V D) s - (V D/kL) s² + ...
    zero[i][i] = Q;
    first[i][i] = m + V * D;
    second[i][i] = (-V * D) / kL;
  });
  for (const { a, b, G } of exchanges) {
    for (const [i, j] of [
      [a, b],
      [b, a],
    ]) {
      zero[i][i] += G;
      zero[i][j] -= G;
    }
  }
  let c = [lanes.map(() => 1), lanes.map(() => 0), lanes.map(() => 0)];
  for (let j = 0; j < plates; j++) {
    const above = c.map((row) => row.map((value, i) => lanes[i].Q * value));
    const c0 = solve(zero, above[0]);
    const c1 = solve(zero, minus(above[1], times(first, c0)));
    const c2 = solve(zero, minus(minus(above[2], times(first, c1)), times(second, c0)));
    c = [c0, c1, c2];
  }
  const flow = lanes.reduce((sum, { Q }) => sum + Q, 0);
  return momentsFrom(c.map((row) => row.reduce((sum, value, i) => sum + (lanes[i].Q / flow) * value, 0)));
}

/** Taylor-Aris dispersion of two lanes when they mix well: (f1 f2 dv)²/omega; variance 2 D L/U³ (1 + k)² (derived). */
export function twoLaneDispersion(f: readonly number[], v: readonly number[], omega: number): number {
  return (f[0] * f[1] * (v[1] - v[0])) ** 2 / omega;
}

/** b' K⁺ b for a chain of neighbours, b = f (v - U), K its exchange Laplacian with the rates given (derived). */
export function chainDispersion(f: readonly number[], v: readonly number[], rates: readonly number[]): number {
  const U = dot(f, v);
  let [through, sum] = [0, 0];
  // On a chain K x = b is solved by passing the running sum of b through each link.
  rates.forEach((rate, i) => {
    through += f[i] * (v[i] - U);
    sum += (through * through) / rate;
  });
  return sum;
}

/** Velocity U (1 + delta (1 - 2 rho²)) across a tube of radius R with radial dispersion Dr: Aris 1956 (recalled). */
export function quadraticDispersion(delta: number, U: number, R: number, Dr: number): { readonly D: number; readonly H: number; readonly relaxation: number } {
  const D = (delta * U * R) ** 2 / (48 * Dr);
  // 3.8317 is the first zero of J1.
  return { D, H: (2 * D) / U, relaxation: (R * R) / (3.831705970207512 ** 2 * Dr) };
}

function momentsFrom([area, slope, curve]: readonly number[]): LaneMoments {
  const mean = -slope / area;
  return { mean, variance: (2 * curve) / area - mean * mean };
}

function blocks(diagonal: Matrix, above: Matrix): number[][] {
  const n = diagonal.length;
  const whole = zeros(3 * n);
  for (let block = 0; block < 3; block++) {
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        whole[block * n + i][block * n + j] = diagonal[i][j];
        if (block < 2) whole[block * n + i][(block + 1) * n + j] = above[i][j];
      }
    }
  }
  return whole;
}

/** Scaling and squaring of the Taylor series (Moler and Van Loan 2003, SIAM Review 45, 3, recalled). */
function matrixExp(matrix: Matrix): number[][] {
  const norm = Math.max(...matrix.map((row) => row.reduce((sum, value) => sum + Math.abs(value), 0)));
  const squarings = Math.max(0, Math.ceil(Math.log2(norm)) + 4);
  const small = matrix.map((row) => row.map((value) => value / 2 ** squarings));
  let term = identity(matrix.length);
  let sum = identity(matrix.length);
  for (let k = 1; k <= 14; k++) {
    term = product(term, small).map((row) => row.map((value) => value / k));
    sum = sum.map((row, i) => row.map((value, j) => value + term[i][j]));
  }
  for (let s = 0; s < squarings; s++) sum = product(sum, sum);
  return sum;
}

/** Gaussian elimination with row exchange. */
function solve(matrix: Matrix, right: readonly number[]): number[] {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]]);
  for (let p = 0; p < n; p++) {
    const best = rows.slice(p).reduce((top, row, i) => (Math.abs(row[p]) > Math.abs(rows[top][p]) ? p + i : top), p);
    [rows[p], rows[best]] = [rows[best], rows[p]];
    for (let i = p + 1; i < n; i++) {
      const factor = rows[i][p] / rows[p][p];
      for (let j = p; j <= n; j++) rows[i][j] -= factor * rows[p][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) x[i] = (rows[i][n] - rows[i].slice(i + 1, n).reduce((sum, value, j) => sum + value * x[i + 1 + j], 0)) / rows[i][i];
  return x;
}

function zeros(n: number): number[][] {
  return Array.from({ length: n }, () => new Array<number>(n).fill(0));
}

function identity(n: number): number[][] {
  return zeros(n).map((row, i) => row.map((_, j) => (i === j ? 1 : 0)));
}

function product(a: Matrix, b: Matrix): number[][] {
  return a.map((row) => b.map((_, j) => row.reduce((sum, value, k) => sum + value * b[k][j], 0)));
}

function times(matrix: Matrix, x: readonly number[]): number[] {
  return matrix.map((row) => dot(row, x));
}

function minus(a: readonly number[], b: readonly number[]): number[] {
  return a.map((value, i) => value - b[i]);
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i], 0);
}
