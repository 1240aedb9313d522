import { inReceivers } from '../../sim/column/measure.ts';
import { imposed } from '../../sim/faults/imposed.ts';
import type { FieldPath } from '../../sim/terms/fields.ts';
import type { Log, Scenario } from '../../sim/terms/types.ts';
import { runOf, advance } from '../../sim/run/run.ts';
import { shipped } from '../sim/faults/seen.ts';
import { aliquotOf } from './day.ts';

// What single numbers of the middle column do to a class's day, and what it costs to leave the clamp open: npm run -s levers.

type Values = Partial<Record<FieldPath, number>>;

const AS_MEANT: Values = { 'differ.bead': 0, 'differ.porosity': 0, 'differ.length_cm': 0, 'differ.spread': 0, 'differ.acid_M': 0 };
const leach = shipped('cathode-leach');
const asMeant: Scenario = { ...leach, values: { ...leach.values, ...AS_MEANT } };
const LEVERS: readonly (readonly [string, Values, acid_M?: number])[] = [
  ['as it is', {}],
  ['D scale 0.63', { 'resin.curve_scale': 0.63 }],
  ['D scale 0.84', { 'resin.curve_scale': 0.84 }],
  ['capacity 1.4 eq/L', { 'resin.capacity_eq_per_L': 1.4 }],
  ['diffusion of the complex doubled', { 'resin.Ds_exchange_cm2_s': 2 * leach.values['resin.Ds_exchange_cm2_s'] }],
  ['bead 180 µm', { 'bed.bead_um': 180 }],
  ['bead 137 µm', { 'bed.bead_um': 137 }],
  ['bead 137 µm and D scale 0.84', { 'bed.bead_um': 137, 'resin.curve_scale': 0.84 }],
  ['acid 8.5 M', {}, 8.5],
  ['acid 8 M', {}, 8],
  ['acid 7 M', {}, 7],
];
const MINUTES = [0, 2, 20, 60, 120];
const BEDS: readonly (readonly [string, Scenario])[] = [
  ['typical', asMeant],
  ['unevenly packed, severity 0.3', imposed({ ...asMeant, faults: [{ kind: 'uneven-packing', severity: 0.3 }] })],
];

process.stdout.write('| middle column, one lane | edge after 20 mL, cm | after 40 mL, cm | drops/min |\n| --- | --- | --- | --- |\n');
for (const [name, values, acid_M] of LEVERS) {
  const { edge20_cm, edge40_cm, drops_min } = aliquotOf(withAcid({ ...asMeant, values: { ...asMeant.values, 'bed.lanes': 1, ...values } }, acid_M));
  process.stdout.write(`| ${name} | ${edge20_cm.toFixed(1)} | ${edge40_cm.toFixed(1)} | ${drops_min.toFixed(0)} |\n`);
}
process.stdout.write(
  `\n| cobalt lost, %, clamp open in the wash for | ${MINUTES.map((min) => `${min} min`).join(' | ')} |\n|${' --- |'.repeat(MINUTES.length + 1)}\n`,
);
for (const [name, bed] of BEDS) process.stdout.write(`| ${name} | ${MINUTES.map((min) => lostAfter(bed, min).toFixed(1)).join(' | ')} |\n`);

function withAcid(scenario: Scenario, HCl_M = 9): Scenario {
  const liquids = Object.entries(scenario.liquids).map(([id, liquid]) => [id, liquid.HCl_M > 1 ? { ...liquid, HCl_M } : liquid] as const);
  return { ...scenario, liquids: Object.fromEntries(liquids) };
}

/** % of the cobalt that has left when 30 mL of acid are through, the bed left open at its top after the first 6 mL of the wash. */
function lostAfter(scenario: Scenario, minutes: number): number {
  const { procedure } = scenario;
  const opened = procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'acid' && action.volume_mL === 6) + 2;
  const water = procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'water');
  const open: Log = [
    { do: 'wait', until: { liquid_mm: 0 } },
    { do: 'wait', until: { elapsed_min: minutes } },
  ];
  const rest: Log = [
    { do: 'pour', liquid: 'acid', volume_mL: 4 },
    { do: 'wait', until: { liquid_mm: 1 } },
  ];
  const run = runOf(scenario, [...procedure.slice(0, opened), ...(minutes > 0 ? open : []), ...procedure.slice(opened, water), ...rest]);
  while (!advance(run, { endOfLog: true, steps: 1000 }));
  return (100 * inReceivers(run.bed, 1)) / run.bed.pouredAmount[1];
}
