// In what the groups of a class differ: their columns, their bottles, their hands and their eyes.
import type { FieldPath, Scenario } from '../terms/types.ts';
import type { Status } from '../terms/fields.ts';

export type SpreadId = 'bead' | 'porosity' | 'length' | 'evenness' | 'acid' | 'sample' | 'pours' | 'level' | 'receiver' | 'titration';

/** One way to differ. `size` is a standard deviation in `unit`. */
export interface Spread {
  readonly label: string;
  readonly size: number;
  readonly unit: string;
  readonly status: Status;
  readonly source: string;
}

/** Where columns differ: the parameter of the scenario that says how far. */
export const COLUMN_SPREADS = {
  bead: 'differ.bead',
  porosity: 'differ.porosity',
  length: 'differ.length_cm',
  evenness: 'differ.spread',
  acid: 'differ.acid_M',
} as const satisfies Partial<Record<SpreadId, FieldPath>>;

export type ColumnSpread = keyof typeof COLUMN_SPREADS;

/** A scenario that says nothing of how columns differ is taken to mean a usual lab; the numbers are those named at `differ` in the table of parameters. */
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
  sample: {
    label: 'volume of the sample',
    size: 0.01,
    unit: 'share',
    status: 'assumed',
    source: '1 mL graduated pipette in a student hand: common practice, no source',
  },
  pours: { label: 'volumes poured', size: 0.2, unit: 'mL', status: 'assumed', source: '10 mL cylinder, graduated in 0.2 mL: common practice, no source' },
  level: {
    label: 'liquid left before a pour',
    size: 1,
    unit: 'mm',
    status: 'assumed',
    source: 'poured somewhat too soon rather than too late: common practice, no source',
  },
  receiver: { label: 'moment of the change of receiver', size: 0.5, unit: 'mL', status: 'assumed', source: 'about ten drops: common practice, no source' },
  titration: {
    label: 'glass, eye and readings of the titration',
    size: 1,
    unit: 'class tolerance',
    status: 'read',
    source: 'class A tolerances and reading errors of the work-up',
  },
};

export const SPREAD_IDS = Object.keys(USUAL_SPREADS) as SpreadId[];

/** The spreads of a lab: what its scenario says of columns and bottles, else the usual ones. */
export function spreadsOf(scenario: Scenario): Readonly<Record<SpreadId, Spread>> {
  const said = Object.entries(COLUMN_SPREADS) as [ColumnSpread, FieldPath][];
  if (said.every(([, path]) => scenario.values[path] === 0)) return USUAL_SPREADS;
  const own = said.map(([id, path]) => [id, { ...USUAL_SPREADS[id], size: scenario.values[path], status: 'choice', source: 'the scenario' }]);
  return { ...USUAL_SPREADS, ...Object.fromEntries(own) };
}
