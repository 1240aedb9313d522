// How far the hands and eyes of a class are apart. What a single hand adds on the bench, scaled by `bench.hand`, is in hand.ts; a
// class draws from this table in its place, so that nothing counts twice.
import type { Status } from '../terms/status.ts';

export type HandSpreadId = 'sample' | 'pours' | 'level' | 'receiver' | 'titration';

/** One way to differ. `size` is a standard deviation in `unit`. */
export interface Spread {
  readonly label: string;
  readonly size: number;
  readonly unit: string;
  readonly status: Status;
  readonly source: string;
}

export const HAND_SPREADS: Readonly<Record<HandSpreadId, Spread>> = {
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
