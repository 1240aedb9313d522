// The same equilibrium by another road: mass balances and charge balance in log concentrations, solved together by a plain
// damped Newton iteration with a numerical Jacobian. Solid cobalt hydroxide replaces the cobalt balance when it is there.

export interface System {
  readonly Cl: number;
  readonly Na: number;
  readonly Ac: number;
  readonly NH4: number;
  readonly SCN: number;
  readonly Y: number;
  readonly Co: number;
  readonly Ni: number;
}

export interface Constants {
  readonly Kw: number;
  readonly KaAc: number;
  readonly KaNH4: number;
  /** Cumulative protonation constants of Y4-. */
  readonly betaY: readonly number[];
  readonly KCo: number;
  readonly KNi: number;
  readonly KspCo: number;
}

/** pH and dissolved cobalt (mol/L, EDTA complex included). */
export function solveByNewton(system: System, k: Constants): { pH: number; dissolvedCo: number } {
  const free = relax(system, k, false);
  const [h, co] = free.map(Math.exp);
  const saturated = co > k.KspCo / (k.Kw / h) ** 2;
  const x = saturated ? relax(system, k, true) : free;
  const [H, Co, , Y] = x.map(Math.exp);
  return { pH: -Math.log10(H), dissolvedCo: Co * (1 + k.KCo * Y) };
}

/** EDTA goes in little by little, each solution the start of the next. */
const PARTS = [0, 1e-8, 1e-6, 1e-4, 1e-3, 0.01, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99, 0.995, 0.999, 1, 1];

function relax(system: System, k: Constants, solid: boolean): number[] {
  for (const pH of [3, 5, 7, 9, 11, 1, 13]) {
    let x: number[] | undefined = [-pH * Math.LN10, Math.log(system.Co + 1e-30), Math.log(system.Ni + 1e-30), -69 - Math.LN10 * 10];
    for (const part of PARTS) {
      const with_ = { ...system, Y: system.Y * part };
      x = x && newton((v) => residuals(v, with_, k, solid), x);
    }
    if (x) return x;
  }
  throw new Error('no convergence from any start');
}

function residuals([lnH, lnCo, lnNi, lnY]: number[], s: System, k: Constants, solid: boolean): number[] {
  const [h, co, ni, y] = [lnH, lnCo, lnNi, lnY].map(Math.exp);
  const oh = k.Kw / h;
  const CoY = k.KCo * co * y;
  const NiY = k.KNi * ni * y;
  const forms = k.betaY.map((beta, i) => beta * h ** (i + 1) * y);
  const chargeY = forms.reduce((sum, form, i) => sum + (i + 1 - 4) * form, -4 * y);
  const acetate = (s.Ac * k.KaAc) / (h + k.KaAc);
  const ammonium = (s.NH4 * h) / (h + k.KaNH4);
  const positive = h + s.Na + ammonium + 2 * co + 2 * ni;
  const negative = oh + s.Cl + s.SCN + acetate + 2 * CoY + 2 * NiY - chargeY;
  return [
    (positive - negative) / (h + oh + s.Na + s.Cl + s.SCN + s.Ac + 1e-12),
    solid ? lnCo + 2 * Math.log(oh) - Math.log(k.KspCo) : Math.log((co + CoY) / (s.Co + 1e-30)),
    Math.log((ni + NiY) / (s.Ni + 1e-30)),
    Math.log((y + forms.reduce((a, b) => a + b, 0) + CoY + NiY) / (s.Y + 1e-30)),
  ];
}

function newton(f: (x: number[]) => number[], start: number[]): number[] | undefined {
  let x = start;
  for (let i = 0; i < 400; i++) {
    const r = f(x);
    const norm = Math.hypot(...r);
    const J = x.map((_, j) => {
      const step = 1e-6;
      const up = f(x.map((v, m) => (m === j ? v + step : v)));
      const down = f(x.map((v, m) => (m === j ? v - step : v)));
      return up.map((u, row) => (u - down[row]) / (2 * step));
    });
    const d = solve(J, r);
    if (!d || d.some((v) => !Number.isFinite(v))) return undefined;
    let damp = Math.min(1, 3 / Math.max(...d.map(Math.abs)));
    while (damp > 1e-4 && !(Math.hypot(...f(x.map((v, m) => v - damp * d[m]))) < norm)) damp /= 2;
    x = x.map((v, m) => v - damp * d[m]);
    if (Math.max(...d.map(Math.abs)) < 1e-11) return Math.hypot(...f(x)) < 1e-9 ? x : undefined;
  }
  return Math.hypot(...f(x)) < 1e-9 ? x : undefined;
}

/** `columns[j]` is the derivative by x[j]. Gaussian elimination with row pivoting. */
function solve(columns: number[][], rhs: number[]): number[] | undefined {
  const n = rhs.length;
  const rows = rhs.map((value, i) => [...columns.map((column) => column[i]), value]);
  for (let p = 0; p < n; p++) {
    const pivot = rows.slice(p).reduce((best, row, i) => (Math.abs(row[p]) > Math.abs(rows[best][p]) ? p + i : best), p);
    [rows[p], rows[pivot]] = [rows[pivot], rows[p]];
    if (rows[p][p] === 0) return undefined;
    for (let i = p + 1; i < n; i++) {
      const factor = rows[i][p] / rows[p][p];
      for (let j = p; j <= n; j++) rows[i][j] -= factor * rows[p][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) x[i] = (rows[i][n] - rows[i].slice(i + 1, n).reduce((sum, value, j) => sum + value * x[i + 1 + j], 0)) / rows[i][i];
  return x;
}
