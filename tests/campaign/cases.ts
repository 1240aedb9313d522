import fc from 'fast-check';
import { FAULT_KINDS } from '../../sim/terms/fault-kinds.ts';
import { FIELDS, parameterDefaults } from '../../sim/terms/fields.ts';
import { ION_IDS } from '../../sim/terms/ions.ts';
import { evenly } from '../exact/even.ts';

// Random inputs: legal scenarios from edge to edge of every range, actions legal and not, and mutants of texts.

/** As likely near zero as near the top. */
const decades = (top: number): fc.Arbitrary<number> => evenly(-12, 0).map((power) => top * 10 ** power);
const oddNumber = fc.constantFrom(0, -1, Number.MIN_VALUE, 1e-300, 1e9, 1e300, Number.NaN, Number.POSITIVE_INFINITY);

/** Cells stay few, so that many columns are tried; their number has tests of its own. */
const PLATES = { min: 4, max: 40 };
const LANES = { min: 1, max: 7 };

const fieldValues = fc.subarray(Object.keys(FIELDS) as (keyof typeof FIELDS)[], { maxLength: 12 }).chain((paths) =>
  fc.tuple(
    ...paths.map((path) => {
      const field: { min: number; max: number; integer?: true } = FIELDS[path];
      const { min, max } = path === 'bed.plates' ? PLATES : path === 'bed.lanes' ? LANES : field;
      const value = field.integer ? fc.integer({ min, max }) : fc.oneof(usual(path, min, max), evenly(min, max), fc.constantFrom(min, max));
      return value.map((chosen) => [path, chosen] as const);
    }),
  ),
);

/** Within a factor of two of what the number is unless a scenario says otherwise: columns through which something flows. */
function usual(path: keyof typeof FIELDS, min: number, max: number): fc.Arbitrary<number> {
  const { [path]: given } = parameterDefaults();
  return evenly(-1, 1).map((power) => Math.min(max, Math.max(min, given * 2 ** power)));
}

export const faults = fc.uniqueArray(
  fc.record({ kind: fc.constantFrom(...FAULT_KINDS), severity: evenly(0, 1), side_deg: evenly(0, 360), depth_share: evenly(0, 1) }, { requiredKeys: ['kind'] }),
  { maxLength: 4, selector: ({ kind }) => kind },
);

/** JSON of a scenario; most are legal. */
export const scenarioJson = fc
  .record({
    values: fieldValues,
    ions: fc.uniqueArray(fc.constantFrom(...ION_IDS), { minLength: 1, maxLength: 4 }),
    acid: evenly(0, 12.5),
    strength: decades(3),
    plates: fc.integer(PLATES),
    lanes: fc.integer(LANES),
    faults,
    seed: fc.integer({ min: 0, max: 1000 }),
  })
  .map(({ values, ions, acid, strength, plates, lanes, faults: list, seed }) => {
    const groups: Record<string, Record<string, number>> = { bed: { plates, lanes } };
    for (const [path, value] of values) {
      const [group, name] = path.split('.');
      (groups[group] ??= {})[name] = value;
    }
    return {
      title: 'random',
      purpose: 'campaign',
      ions,
      liquids: {
        acid: { label: 'acid', HCl_M: acid },
        sample: { label: 'sample', HCl_M: acid, ions: Object.fromEntries(ions.map((ion) => [ion, strength])) },
        water: { label: 'water', HCl_M: 0 },
      },
      faults: list,
      seed,
      ...groups,
    };
  });

const number = (top: number): fc.Arbitrary<number> =>
  fc.oneof({ weight: 8, arbitrary: evenly(0, top) }, { weight: 3, arbitrary: decades(top) }, { weight: 1, arbitrary: oddNumber });
const liquid = fc.constantFrom('acid', 'sample', 'water', 'tea', 'constructor');

/** An action, legal or not: the bench has to refuse what it cannot do. */
export const action = fc.oneof(
  fc.record({ do: fc.constant('pour'), liquid, volume_mL: number(8), how: fc.constantFrom('wall', 'bed'), hold_level: fc.boolean() }),
  fc.record({ do: fc.constant('clamp'), open_percent: fc.oneof(fc.constantFrom(0, 100, 100, 30), number(100)) }),
  fc.record({ do: fc.constant('receiver'), label: fc.oneof(fc.constantFrom('a', 'b', 'c'), fc.string({ unit: 'binary', maxLength: 70 })) }),
  fc.record({
    do: fc.constant('wait'),
    until: fc.oneof(
      fc.record({ elapsed_min: number(20) }),
      fc.record({ more_mL: number(6) }),
      fc.record({ liquid_mm: number(40) }),
      fc.record({ ion: fc.constantFrom(...ION_IDS), edge: fc.constantFrom('leading', 'trailing'), depth_cm: number(7) }),
    ),
  }),
  fc.constant({ do: 'stir' }),
  fc.record({ do: fc.constant('refill-from-below'), liquid, volume_mL: number(6) }),
  fc.record({ do: fc.constant('top-up'), resin_mL: number(4) }),
  fc.record({ do: fc.constant('spill'), share: number(1) }),
  fc.record({
    do: fc.constant('fault'),
    fault: fc.record({ kind: fc.constantFrom(...FAULT_KINDS), severity: number(1), side_deg: number(360), depth_share: number(1) }, { requiredKeys: ['kind'] }),
  }),
);

/** What moves liquid: a pour that fits and drains. Drawn one by one, actions mostly shut the clamp or wait for what cannot come. */
const drained = fc
  .tuple(
    fc.constantFrom('acid', 'sample', 'water'),
    evenly(0.1, 6),
    fc.oneof(fc.record({ liquid_mm: evenly(0, 3) }), fc.record({ more_mL: evenly(0, 2) }), fc.record({ elapsed_min: evenly(0, 30) })),
  )
  .map(([poured, volume_mL, until]) => [
    { do: 'pour', liquid: poured, volume_mL },
    { do: 'wait', until },
  ]);
const open = fc.constantFrom([], [{ do: 'clamp', open_percent: 100 }]);

export const actions = fc
  .tuple(open, fc.array(fc.oneof({ weight: 3, arbitrary: drained }, { weight: 2, arbitrary: fc.tuple(action) }), { minLength: 1, maxLength: 20 }))
  .map(([first, rest]) => [...first, ...rest.flat()]);

const SPLINTERS = [
  '\u0000',
  '\t',
  '\u202e',
  '\ud800',
  '"',
  '{',
  '[',
  ']',
  '}',
  ',',
  '1e999',
  '-0',
  '1e-400',
  '__proto__',
  'null',
  '\\u0000',
  '[[[[[[[[[[[[[[[[[[[[[[',
  'A'.repeat(3000),
];

type Cut = { readonly at: number; readonly length: number; readonly put: string | 'copy' };

const cut: fc.Arbitrary<Cut> = fc.record({
  at: evenly(0, 1),
  length: fc.nat(40),
  put: fc.oneof(fc.constantFrom(...SPLINTERS), fc.constant('copy'), fc.string({ unit: 'binary', maxLength: 6 }), fc.double().map(String)),
});

/** A text with some of it replaced, doubled or left out. */
export function mutantsOf(texts: readonly string[]): fc.Arbitrary<string> {
  return fc.tuple(fc.constantFrom(...texts), fc.array(cut, { minLength: 1, maxLength: 4 })).map(([text, cuts]) => cuts.reduce(changed, text));
}

function changed(text: string, { at, length, put }: Cut): string {
  const from = Math.floor(at * text.length);
  const piece = text.slice(from, from + length);
  return text.slice(0, from) + (put === 'copy' ? piece + piece : put) + text.slice(from + length);
}
