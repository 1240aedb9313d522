import { describe, expect, test } from 'vitest';
import { FAULTS } from '../../../sim/faults/registry.ts';
import { FAULT_KINDS, type FaultKind } from '../../../sim/terms/fault-kinds.ts';
import type { Fault, Scenario } from '../../../sim/terms/types.ts';
import { CLAIMS, type Runs, type Shown, SIDE_DEG } from './claims.ts';
import { type Seen, shipped, watch } from './seen.ts';

// The signs of every fault, each clause held to the run that shows it: the cathode leach with the fault at its worst, beside its twin.

const MOST_MS = 60_000;
const column = shipped('cathode-leach');
const SOUND = { few: withLanes(7), many: withLanes(13) } as const;
/** What shows from lane to lane needs as many as the page has. */
const IN_MANY: readonly FaultKind[] = ['dried-bed', 'uneven-packing'];

interface Sound {
  readonly base: Scenario;
  readonly twin: () => Seen;
  readonly open: () => Seen;
}

function withLanes(lanes: number): Sound {
  const base = { ...column, values: { ...column.values, 'bed.lanes': lanes, 'bed.plates': 40 } };
  const twin = once(() => watch(base));
  return { base, twin, open: once(() => watch(leftOpen(base), [], undefined, twin())) };
}

/** Twenty minutes at the bed top in mid-wash, with the clamp open. */
function leftOpen(scenario: Scenario): Scenario {
  const wash = scenario.procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'acid' && action.volume_mL === 6);
  const { procedure } = scenario;
  return { ...scenario, procedure: [...procedure.slice(0, wash + 2), { do: 'wait', until: { elapsed_min: 20 } }, ...procedure.slice(wash + 2)] };
}

/** As far as the wash: of its highest share of gas this can only take some away. */
function untilWater(scenario: Scenario): Scenario {
  const water = scenario.procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'water');
  return { ...scenario, procedure: scenario.procedure.slice(0, water) };
}

function runsOf(fault: Fault): Runs {
  const { base, twin, open } = IN_MANY.includes(fault.kind) ? SOUND.many : SOUND.few;
  const run = watch(base, [fault], undefined, twin());
  const mild = new Map<number, Seen>();
  const milder = (severity: number): Seen => {
    const known = mild.get(severity) ?? watch(base, [{ ...fault, severity }], undefined, twin());
    mild.set(severity, known);
    return known;
  };
  return { run, twin: twin(), milder, open: once(() => ({ run: watch(untilWater(leftOpen(base)), [fault], undefined, run), twin: open() })) };
}

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

describe.each(FAULT_KINDS)('%s', (kind) => {
  const claims = CLAIMS[kind];

  test('has no sign without a run that shows it', () => {
    expect(claims.map(({ says }) => says).join(' ')).toBe(FAULTS[kind].signs);
  });

  test(
    'shows its signs',
    () => {
      const runs = runsOf({ kind, severity: 1, side_deg: SIDE_DEG });
      expect(claims.flatMap(({ says, shown }) => shown(runs).flatMap((figures) => (holds(figures) ? [] : [`${says} ${words(figures)}`])))).toEqual([]);
    },
    MOST_MS,
  );
});

function holds([found, is, than]: Shown): boolean {
  return is === '>' ? found > than : found < than;
}

function words([found, is, than]: Shown): string {
  return `expected ${is} ${than.toPrecision(3)}, found ${found.toPrecision(3)}`;
}
