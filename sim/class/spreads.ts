// How the groups of a class differ: in their columns, their bottles, their hands and their eyes.
import { HAND_SPREADS, type HandSpreadId, type Spread } from '../hands/index.ts';
import type { FieldPath, Scenario } from '../terms/types.ts';

export type SpreadId = 'bead' | 'porosity' | 'length' | 'evenness' | 'acid' | HandSpreadId;

/** Which spreads are switched on, and how wide they are. */
export type Spreads = Readonly<Partial<Record<SpreadId, Spread>>>;

/** For each way in which columns differ, the parameter of the scenario that says how much. */
export const COLUMN_SPREADS = {
  bead: 'differ.bead',
  porosity: 'differ.porosity',
  length: 'differ.length_cm',
  evenness: 'differ.spread',
  acid: 'differ.acid_M',
} as const satisfies Partial<Record<SpreadId, FieldPath>>;

export type ColumnSpread = keyof typeof COLUMN_SPREADS;

/** Spreads of a usual lab, for a scenario that does not say how columns differ; the numbers are those named at `differ` in the table of parameters. */
export const USUAL_SPREADS: Readonly<Record<SpreadId, Spread>> = {
  bead: {
    label: 'bead diameter',
    size: 0.07,
    unit: 'ln',
    status: 'assumed',
    source: '0.05 to 0.1 between lots and after years of use: common practice, no source',
  },
  porosity: { label: 'porosity', size: 0.01, unit: '', status: 'assumed', source: 'random close 0.36 to loose 0.42' },
  length: { label: 'bed length', size: 0.2, unit: 'cm', status: 'assumed', source: 'filled and read with a ruler: common practice, no source' },
  evenness: {
    label: 'evenness of the packing',
    size: 0.5,
    unit: 'ln',
    status: 'assumed',
    source: 'good 0.05 to poor 0.35 within one class: common practice, no source',
  },
  acid: { label: 'acid of the bottles', size: 0.2, unit: 'mol/L', status: 'assumed', source: 'bottles left open: common practice, no source' },
  ...HAND_SPREADS,
};

export const SPREAD_IDS = Object.keys(USUAL_SPREADS) as SpreadId[];

/** The spreads of a lab: those of its scenario for columns and bottles, or else the usual ones. */
export function spreadsOf(scenario: Scenario): Readonly<Record<SpreadId, Spread>> {
  const said = Object.entries(COLUMN_SPREADS) as [ColumnSpread, FieldPath][];
  if (said.every(([, path]) => scenario.values[path] === 0)) return USUAL_SPREADS;
  const own = said.map(([id, path]) => [id, { ...USUAL_SPREADS[id], size: scenario.values[path], status: 'choice', source: 'the scenario' }]);
  return { ...USUAL_SPREADS, ...Object.fromEntries(own) };
}
