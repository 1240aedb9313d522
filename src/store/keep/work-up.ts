import { choice, dictionary, list, note, number, object, orNull, type Shape } from '../../../sim/input/index.ts';
import { SEED_MAX } from '../../../sim/math/random.ts';
import { type WorkUpLog, workUpLogShape } from '../../../sim/workup/index.ts';
import { type KeptResult, STEP_IDS, type StepId } from '../../../sim/report/index.ts';

// A work-up as it is kept with the run: which receiver, what was done to it, what the reader expected, calculated and wrote
// down, and the results kept from earlier aliquots. Everything else is computed from these.

export interface SavedWorkUp {
  /** Label of the receiver taken to the work-up bench; empty before one is. */
  readonly receiver: string;
  readonly log: WorkUpLog;
  /** As typed: alkali expected for one titration, or for all of the eluate. */
  readonly expected?: string;
  /** Whether it was asked for the eluate, not for a portion of it. Left out where it was saved before that was kept. */
  readonly expected_for?: ExpectedFor;
  readonly answers: Answers;
  readonly entries: readonly Entry[];
  readonly kept: readonly KeptResult[];
}

const EXPECTED_FOR = ['eluate', 'portion'] as const;
export type ExpectedFor = (typeof EXPECTED_FOR)[number];

export type Answers = Readonly<Partial<Record<StepId, string>>>;

/** What the reader wrote down. */
export interface Entry {
  readonly what: string;
  readonly value: string;
}

export const EMPTY_WORK_UP: SavedWorkUp = { receiver: '', log: [], answers: {}, entries: [], kept: [] };
export const TEXT_LONGEST = 200;
/** Of an entry's value, which may be an answer in several sentences. */
export const VALUE_LONGEST = 1000;
export const ENTRIES_MAX = 60;
export const KEPT_MAX = 3;
const TITRES_MAX = 12;

const short = note(TEXT_LONGEST);
/** Any number: what is kept was computed once and is only shown again. */
const figure = number({ min: -1e9, max: 1e9, unit: '' });
const figures = list('numbers', figure, 1, TITRES_MAX);

const keptShape: Shape<KeptResult> = object(
  'a kept result',
  {
    scenario: short,
    seed: number({ min: 0, max: SEED_MAX, unit: '', integer: true }),
    receiver: short,
    volume_mL: figure,
    acid_mmol: figure,
    recovered: figure,
    carried: figure,
    expected_mL: orNull(figure),
    NaOH_mL: figure,
    titres_mL: figures,
    found_M: figures,
    own_M: orNull(figure),
    true_M: figure,
  },
  { alkali_for: choice('what alkali is told for', ['eluate'] as const) },
  'left out',
);

export const workUpShape: Shape<SavedWorkUp> = object(
  'a work-up',
  {
    receiver: short,
    log: workUpLogShape,
    answers: dictionary('answers', choice('a step of the calculation', STEP_IDS), short, 0, STEP_IDS.length),
    entries: list('entries', object('an entry', { what: short, value: note(VALUE_LONGEST) }, {}, 'left out'), 0, ENTRIES_MAX),
    kept: list('results', keptShape, 0, KEPT_MAX),
  },
  { expected: short, expected_for: choice('what alkali was expected for', EXPECTED_FOR) },
);
