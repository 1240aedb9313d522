// Error of the cobalt effluent against the step size, on case.json: npm run converge [lanes]. Worst over the run, as a share of its peak.
import { readFileSync } from 'node:fs';
import { AT } from '../../sim/column/bed.ts';
import { inReceivers } from '../../sim/column/measure.ts';
import { advance, runOf } from '../../sim/run/run.ts';
import { parseScenario } from '../../sim/input/scenario.ts';

const FINE = 0.05;
const COURANTS = [2, 1.4, 1, 0.5];
/** mL over which the effluent is averaged. */
const WIDTH = 0.2;

const lanes = Number(process.argv[2] ?? 1);
const read = parseScenario(readFileSync(new URL('case.json', import.meta.url), 'utf8'), 'case');
if (!read.ok) throw new Error(`case: expected a sound scenario, received ${read.issues.length} issues`);
const { scenario } = read;

const exact = effluent(FINE);
const peak = Math.max(...exact.c);
process.stdout.write(`${lanes} lanes, against ${FINE} cells a step (${exact.steps} steps), cobalt peak ${peak.toPrecision(3)} mol/L\n`);
for (const courant of COURANTS) {
  const { c, steps } = effluent(courant);
  const worst = Math.max(...c.map((value, i) => Math.abs(value - exact.c[i])));
  process.stdout.write(`${String(courant).padEnd(5)} ${(worst / peak).toExponential(1)} of the peak, ${steps} steps\n`);
}

/** Cobalt in slices of the effluent, mol/L, from what the receivers hold after each step, linear between. */
function effluent(courant: number): { readonly c: number[]; readonly steps: number } {
  const values = { ...scenario.values, 'bed.lanes': lanes, 'numerics.courant': courant };
  const run = runOf({ ...scenario, values });
  const held = [0];
  let [volume, amount, next] = [0, 0, WIDTH];
  for (let done = false; !done; ) {
    done = advance(run, { endOfLog: true, steps: 1 });
    const [to, now] = [run.bed.scalar[AT.delivered], inReceivers(run.bed, 1)];
    for (; next <= to; next += WIDTH) held.push(amount + ((now - amount) * (next - volume)) / (to - volume));
    [volume, amount] = [to, now];
  }
  return { c: held.slice(1).map((value, i) => (value - held[i]) / WIDTH), steps: run.bed.scalar[AT.steps] };
}
