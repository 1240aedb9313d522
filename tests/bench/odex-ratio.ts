import { curveParts, resinFrom } from '../../sim/chemistry/uptake.ts';
import { referenceRun } from '../exact/reference-column.ts';
import { type Rig, rigFor } from '../sim/rig.ts';

// The same column by the model and by a general-purpose ODE code, both to 1e-3 of the cobalt peak.

const PLATES = 100;
const SHARES = [0.4, ...Array.from({ length: 12 }, () => 0.05)];
/** Flow shares, a little apart from the area shares so that the lanes differ. */
const SPLIT = SHARES.map((share, i) => share * (1 + 0.08 * Math.sin(i)));
const FLOW = 0.7;
const HCL = 9;
/** min: sample, acid, water. */
const CHANGES = [0, 1.5, 14];
const END = 30;
const INFLOW = [
  [HCL, 0.15, 0.2],
  [HCL, 0, 0],
  [0, 0, 0],
];
const BEAD = [0.043, 0.434, 0.217];
const FILM = 0.0055;
/** Relative tolerances: one at which the general code is well within 1e-3 of the cobalt peak, and a tight one to judge both by. */
const TIGHT = 1e-6;
const TOLERANCE = 1e-4;
const COURANT = 0.7;

/** Prints both times, their errors against the general code at a tight tolerance, and the ratio. */
export function odexRatio(line: (name: string, value: string) => void): void {
  const model = lanes();
  const again = lanes();
  const exact = odex(TIGHT, model.at);
  const coarse = odex(TOLERANCE, model.at);
  const peak = Math.max(...Array.from(exact.cobalt));
  line(
    'same equations, 13 x 100 cells, constant flow: model',
    `${Math.min(model.ms, again.ms).toFixed(0)} ms, off by ${(worst(model.cobalt, exact.cobalt) / peak).toExponential(1)} of the cobalt peak`,
  );
  line(`the same by odex at tolerance ${TOLERANCE}`, `${coarse.ms.toFixed(0)} ms, off by ${(worst(coarse.cobalt, exact.cobalt) / peak).toExponential(1)}`);
  line('ratio', `${(coarse.ms / Math.min(model.ms, again.ms)).toFixed(0)} x`);
}

function rig(): Rig {
  return rigFor({
    plates: PLATES,
    ions: ['Co', 'Ni'],
    shares: SHARES,
    edges: SHARES.slice(1).map((_, i) => ({ a: 0, b: i + 1, shape: 0.4 })),
    values: { 'bench.start_HCl_M': HCL, 'bed.length_cm': 7 },
    bead: BEAD,
    film: FILM,
  });
}

function lanes(): { ms: number; at: number[]; cobalt: number[] } {
  const { bed, step, holdup } = rig();
  const least = Math.min(...SHARES.map((_, i) => bed.mobile[i * PLATES] / SPLIT[i]));
  const volume = COURANT * least;
  const at: number[] = [];
  const out: number[] = [];
  const start = performance.now();
  for (let V = 0; V < END * FLOW; ) {
    const t = V / FLOW;
    const next = CHANGES.find((change) => change > t + 1e-9) ?? Number.POSITIVE_INFINITY;
    const pass = Math.min(volume, (next - t) * FLOW, END * FLOW - V);
    if (pass < 1e-12 * holdup) break;
    const phase = CHANGES.findLastIndex((change) => t >= change - 1e-9);
    at.push(t + pass / FLOW / 2);
    out.push(step(INFLOW[phase], pass, FLOW, SPLIT)[1]);
    V += pass;
  }
  const ms = performance.now() - start;
  return { ms, at, cobalt: out };
}

function odex(tolerance: number, samples: number[]): { ms: number; cobalt: ArrayLike<number> } {
  const { bed, column } = rig();
  const resin = resinFrom(column.scenario.values);
  const velocity = SPLIT.map((share, i) => (FLOW * share) / column.lanes.area[i]);
  const D = (a: number, b: number): number =>
    ((velocity[a] + velocity[b]) / 2 / column.porosity) * ((column.scenario.values['bed.bead_um'] * 1e-4) / column.scenario.values['flow.Pe_transverse']);
  const metal = (ion: 'Co' | 'Ni', a: number, z: number) => ({
    a,
    z,
    D0: (c: number) => curveParts(ion, c, resin).coion,
    De: (c: number) => curveParts(ion, c, resin).exchange,
  });
  const start = performance.now();
  const run = referenceRun({
    plates: PLATES,
    lanes: SHARES.map((_, i) => ({
      m: bed.mobile[i * PLATES],
      V: column.cellVolume[i],
      Q: FLOW * SPLIT[i],
      b: column.film / Math.max(2, column.sherwood * Math.cbrt(velocity[i])),
    })),
    exchanges: column.lanes.edges.map(({ a, b, shape }) => ({ a, b, G: column.porosity * D(a, b) * shape * column.dz })),
    acid: { P: resin.pore, Qf: resin.Q, kappa: resin.kappa, a: BEAD[0], last: 0.1 },
    metals: [metal('Co', BEAD[1], 2), metal('Ni', BEAD[2], 0)],
    capacity: column.capacity,
    inflow: CHANGES.map((from, i) => ({ from, c: INFLOW[i] })),
    sampleAt: samples,
    end: END,
    start: [HCL, 0, 0],
    tolerance,
  });
  return { ms: performance.now() - start, cobalt: run.outlet[1] };
}

function worst(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let most = 0;
  for (let i = 0; i < a.length; i++) most = Math.max(most, Math.abs(a[i] - b[i]));
  return most;
}
