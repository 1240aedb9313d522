import { AT } from '../../sim/column/bed.ts';
import { inReceivers } from '../../sim/column/measure.ts';
import { bandOf, bedLengthOf } from '../../sim/column/measure.ts';
import { dropOf } from '../../sim/flow/drops.ts';
import { advance, type Run, runOf } from '../../sim/run/run.ts';
import type { Log, Scenario } from '../../sim/terms/types.ts';

// One aliquot as a class does it, on the column that a seed gives, and what can be read off it with ruler, cylinder and clock.

/** The class's volumes, mL: to condition, of acid at most, of water. Common practice, no source. */
export const VOLUMES = { condition: 25, wash: 40, water: 30 } as const;
/** The band is near the bottom when its leading edge is this close to it, cm. Our reading of the practice. */
const NEAR_CM = 0.5;
/** Liquid above the bed up to which the flow counts as that at the working level, mm. */
const WORKING_MM = 1.2;

/** What is read off one aliquot. Depths in cm from the top, volumes in mL, time in min. */
export interface Aliquot {
  readonly flow_mL_min: number;
  readonly drops_min: number;
  readonly inAcid_cm: number;
  readonly edge20_cm: number;
  readonly edge40_cm: number;
  /** Acid poured when the leading edge was near the bottom; 40 if it never was. */
  readonly near_mL: number;
  readonly lostNear_percent: number;
  readonly lost40_percent: number;
  readonly water50_mL: number;
  readonly water95_mL: number;
  readonly water99_mL: number;
  readonly time_min: number;
}

/** The aliquot of a scenario's column: first with all of the acid, for the band, then washed only until the band is near the bottom. */
export function aliquotOf(scenario: Scenario): Aliquot {
  const whole = washed(scenario, VOLUMES.wash);
  const stopped = eluted(scenario, whole.near_mL);
  return { ...whole, ...stopped };
}

type Washed = Pick<Aliquot, 'flow_mL_min' | 'drops_min' | 'inAcid_cm' | 'edge20_cm' | 'edge40_cm' | 'near_mL' | 'lost40_percent'>;

function washed(scenario: Scenario, acid_mL: number): Washed {
  const run = runOf(scenario, [...loading(), ...portions('acid', [0.5, 0.5, 1, ...sixes(acid_mL - 2)])]);
  const s = run.bed.scalar;
  const until = (mL: number, looked: () => boolean = () => false): void => {
    for (let done = false; !done && s[AT.delivered] < mL && !looked(); ) done = advance(run, { endOfLog: true, steps: 1 });
  };
  until(Number.POSITIVE_INFINITY, () => run.bed.pouredAmount[1] > 0);
  const loaded = s[AT.delivered];
  until(Number.POSITIVE_INFINITY, () => s[AT.headVolume] / run.column.section < WORKING_MM / 10 && s[AT.delivered] > loaded + 1);
  const flow_mL_min = s[AT.flow];
  let near_mL: number = acid_mL;
  const inAcid_cm = bedLengthOf(run.bed, run.column);
  const looked = (): boolean => {
    if (near_mL === acid_mL && edgeOf(run) >= run.column.length - NEAR_CM) near_mL = Math.min(acid_mL, s[AT.delivered] - loaded);
    return false;
  };
  until(loaded + acid_mL / 2, looked);
  const edge20_cm = edgeOf(run);
  until(Number.POSITIVE_INFINITY, looked);
  return {
    flow_mL_min,
    drops_min: flow_mL_min / dropOf(run.scenario.values, scenario.liquids.acid.HCl_M),
    inAcid_cm,
    edge20_cm,
    edge40_cm: edgeOf(run),
    near_mL,
    lost40_percent: lostOf(run),
  };
}

function eluted(scenario: Scenario, acid_mL: number): Pick<Aliquot, 'lostNear_percent' | 'water50_mL' | 'water95_mL' | 'water99_mL' | 'time_min'> {
  const log: Log = [
    ...loading(),
    ...portions('acid', [0.5, 0.5, 1, ...sixes(acid_mL - 2)]),
    { do: 'clamp', open_percent: 0 },
    { do: 'receiver', label: 'cobalt' },
    { do: 'clamp', open_percent: 100 },
    ...portions('water', sixes(VOLUMES.water)),
  ];
  const run = runOf(scenario, log);
  const s = run.bed.scalar;
  const water = log.findIndex((action) => action.do === 'pour' && action.liquid === 'water');
  while (s[AT.entry] <= water) advance(run, { endOfLog: true, steps: 1 });
  const [start, lost] = [s[AT.delivered], inReceivers(run.bed, 1)];
  const lostNear_percent = lostOf(run);
  const rest = run.bed.pouredAmount[1] - lost;
  const after = (share: number): number => {
    let done = false;
    while (!done && inReceivers(run.bed, 1) - lost < share * rest) done = advance(run, { endOfLog: true, steps: 1 });
    return done ? Number.NaN : s[AT.delivered] - start;
  };
  const [water50_mL, water95_mL, water99_mL] = [after(0.5), after(0.95), after(0.99)];
  advance(run, { endOfLog: true });
  return { lostNear_percent, water50_mL, water95_mL, water99_mL, time_min: s[AT.time] };
}

function edgeOf(run: Run): number {
  return bandOf(run.bed, run.column, 'Co')?.leading_cm ?? 0;
}

function lostOf(run: Run): number {
  return (100 * inReceivers(run.bed, 1)) / run.bed.pouredAmount[1];
}

function loading(): Log {
  return [
    { do: 'receiver', label: 'nickel' },
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { liquid_mm: 1 } },
    ...portions('acid', [5, 5, 5, 5, VOLUMES.condition - 20]),
    ...portions('sample', [1]),
  ];
}

function portions(liquid: string, volumes: readonly number[]): Log {
  return volumes.flatMap((volume_mL) => [{ do: 'pour', liquid, volume_mL } as const, { do: 'wait', until: { liquid_mm: 1 } } as const]);
}

/** A volume in portions of 6 mL, the last the rest. */
function sixes(volume_mL: number): number[] {
  const whole = Math.floor(volume_mL / 6);
  const rest = volume_mL - 6 * whole;
  return [...Array.from({ length: whole }, () => 6), ...(rest > 0.05 ? [rest] : [])];
}
