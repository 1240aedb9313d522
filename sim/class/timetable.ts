import type { Status } from '../terms/fields.ts';
import { type Schedule, scheduleOf, type Task } from './schedule.ts';

// Who does what when: a group shares columns and a burette, and each aliquot goes through the column and then through the work-up.

/** Minutes that one aliquot holds the column, from a run of the model. */
export interface ColumnTimes {
  readonly condition_min: number;
  readonly load_min: number;
  readonly wash_min: number;
  readonly strip_min: number;
}

export type BenchTask = 'column' | 'burette' | 'labels' | 'make up' | 'neutralise' | 'indicator' | 'titrate' | 'calculate' | 'clean up' | 'compare';

export interface BenchTime {
  readonly min: number;
  readonly status: Status;
  readonly label: string;
}

/** Bench times of a first-time group; estimates, no source. */
export const BENCH_TIMES: Readonly<Record<BenchTask, BenchTime>> = {
  column: { min: 10, status: 'assumed', label: 'check and rinse the column' },
  burette: { min: 10, status: 'assumed', label: 'rinse and fill the burette' },
  labels: { min: 5, status: 'assumed', label: 'label receivers, measure out the acid' },
  'make up': { min: 4, status: 'assumed', label: 'transfer to the flask, rinse' },
  neutralise: { min: 9, status: 'assumed', label: 'neutralise, cool, set the pH' },
  indicator: { min: 3, status: 'assumed', label: 'thiocyanate and acetone' },
  titrate: { min: 8, status: 'assumed', label: 'titrate' },
  calculate: { min: 4, status: 'assumed', label: 'write down and calculate' },
  'clean up': { min: 12, status: 'assumed', label: 'waste, rinsing, glass' },
  compare: { min: 6, status: 'assumed', label: 'compare the results' },
};

export interface TimetableInput {
  readonly column: ColumnTimes;
  readonly period_min: number;
  readonly aliquots?: number;
  readonly people?: number;
  readonly columns?: number;
  readonly burettes?: number;
  /** The first conditioning is done before the period. */
  readonly conditioned?: boolean;
  /** The column times were taken with the clamp partly shut, so that it can be opened wider. */
  readonly throttled?: boolean;
  readonly bench?: Readonly<Partial<Record<BenchTask, number>>>;
}

/** The effect of a change on the length. */
export interface Change {
  readonly text: string;
  readonly length_min: number;
  readonly saves_min: number;
  readonly fits: boolean;
}

export interface Timetable extends Schedule {
  readonly fits: boolean;
  /** Time left; negative if it runs over. */
  readonly slack_min: number;
  /** Changes that help, the largest gain first. */
  readonly changes: readonly Change[];
}

export function timetableOf(input: TimetableInput): Timetable {
  const schedule = scheduleFor(input);
  const slack_min = input.period_min - schedule.length_min;
  return { ...schedule, fits: slack_min >= 0, slack_min, changes: changesTo(input, schedule.length_min) };
}

function scheduleFor(input: TimetableInput): Schedule {
  return scheduleOf(tasksOf(input), input.people ?? 3);
}

function tasksOf({ column, aliquots = 3, columns = 1, burettes = 1, conditioned = false, bench = {} }: TimetableInput): Task[] {
  const task = (kind: BenchTask, id: string, after: string[], extra: Partial<Task> = {}): Task => ({
    id,
    label: BENCH_TIMES[kind].label,
    duration_min: bench[kind] ?? BENCH_TIMES[kind].min,
    after,
    ...extra,
  });
  const tasks: Task[] = [task('labels', 'labels', []), task('burette', 'burette', [])];
  for (let c = 1; c <= Math.min(columns, aliquots); c++) tasks.push(task('column', `column ${c}`, []));
  for (let i = 1; i <= aliquots; i++) {
    const own = ((i - 1) % columns) + 1;
    const free = i > columns ? `release ${i - columns}` : `column ${own}`;
    const run = (name: string, minutes: number, after: string[]): Task => ({
      id: `${name} ${i}`,
      label: `${name} aliquot ${i}`,
      duration_min: minutes,
      after,
      apparatus: `column ${own}`,
    });
    tasks.push(
      run('condition', conditioned && i <= columns ? 0 : column.condition_min, [free, 'labels']),
      run('load', column.load_min, [`condition ${i}`]),
      run('wash', column.wash_min, [`load ${i}`]),
      run('release', column.strip_min, [`wash ${i}`]),
      task('make up', `make up ${i}`, [`release ${i}`]),
      task('neutralise', `neutralise ${i}`, [`make up ${i}`]),
      task('indicator', `indicator ${i}`, [`neutralise ${i}`]),
      task('titrate', `titrate ${i}`, [`indicator ${i}`, 'burette'], { apparatus: `burette ${((i - 1) % burettes) + 1}` }),
      task('calculate', `calculate ${i}`, [`titrate ${i}`]),
    );
  }
  const last = Array.from({ length: aliquots }, (_, i) => `titrate ${i + 1}`);
  tasks.push(
    task('clean up', 'clean up', last),
    task(
      'compare',
      'compare',
      last.map((id) => id.replace('titrate', 'calculate')),
    ),
  );
  return tasks;
}

/** Share by which column times fall with a wider clamp; the bands broaden. */
const FASTER = 0.75;

function changesTo(input: TimetableInput, length_min: number): Change[] {
  const { column, aliquots = 3, people = 3, columns = 1 } = input;
  const faster = {
    condition_min: column.condition_min * FASTER,
    load_min: column.load_min,
    wash_min: column.wash_min * FASTER,
    strip_min: column.strip_min * FASTER,
  };
  const tries: [string, TimetableInput][] = [
    ['condition the first bed before the period', { ...input, conditioned: true }],
    ['a second column', { ...input, columns: columns + 1 }],
    ['one more person', { ...input, people: people + 1 }],
    ['a second burette', { ...input, burettes: (input.burettes ?? 1) + 1 }],
  ];
  if (input.throttled) tries.push(['open the clamp wider: faster, but with broader bands', { ...input, column: faster }]);
  if (aliquots > 2) tries.push([`${aliquots - 1} aliquots instead of ${aliquots}`, { ...input, aliquots: aliquots - 1 }]);
  return tries
    .map(([text, changed]) => {
      const length = scheduleFor(changed).length_min;
      return { text, length_min: length, saves_min: length_min - length, fits: length <= input.period_min };
    })
    .filter(({ saves_min }) => saves_min > 0)
    .sort((a, b) => b.saves_min - a.saves_min);
}
