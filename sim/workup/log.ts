import { addIssue, choice, describe, flag, list, number, object, own, type Shape } from '../input/index.ts';
import type { Issue } from '../terms/types.ts';
import { LIMITS } from '../terms/limits.ts';
import { misfit, type Dose, REAGENTS, type WorkUpAction, type WorkUpLog } from './actions.ts';

// The log of a work-up as JSON. What depends on the flask is refused when the log is played.

export type WorkUpLogResult = { readonly ok: true; readonly log: WorkUpLog } | { readonly ok: false; readonly issues: readonly Issue[] };

/** More actions than anyone needs for a few flasks. */
export const WORKUP_ACTIONS_MAX = 500;

const minutes = number(LIMITS['work-up.time_min']);

const pHShape = object('a pH to reach', { pH: number(LIMITS['work-up.pH']) }, {});
const untilShape: Shape<{ pH: number } | 'pink'> = {
  schema: { oneOf: [{ const: 'pink' }, pHShape.schema] },
  read: (value, path, issues) => (value === 'pink' ? value : pHShape.read(value, path, issues)),
};

const doseByKey: Readonly<Record<string, Shape<Dose>>> = {
  drops: object('a dose', { drops: number(LIMITS['work-up.drops']) }, {}),
  mL: object('a dose', { mL: number(LIMITS['work-up.mL']) }, {}),
  g: object('a dose', { g: number(LIMITS['work-up.g']) }, {}),
  until: object('a dose', { until: untilShape }, {}),
};

const doseShape = keyed(doseByKey, (value) => Object.keys(doseByKey).find((key) => own(value, key) !== undefined), 'a dose: drops, mL, g or until');

const actionByName: Readonly<Record<string, Shape<WorkUpAction>>> = {
  transfer: object(
    'a transfer',
    {
      do: choice('an action', ['transfer']),
      rinses: number(LIMITS['work-up.rinses']),
      rinse_mL: number(LIMITS['work-up.rinse_mL']),
    },
    {},
  ),
  'make up': object('make up', { do: choice('an action', ['make up']), to_mL: number(LIMITS['work-up.make_up_mL']) }, {}),
  portion: object('a portion', { do: choice('an action', ['portion']), mL: number(LIMITS['work-up.portion_mL']) }, {}),
  add: object('an addition', { do: choice('an action', ['add']), reagent: choice('a reagent', REAGENTS), dose: doseShape }, {}),
  swirl: object('a swirl', { do: choice('an action', ['swirl']), min: minutes }, {}),
  wait: object('a wait', { do: choice('an action', ['wait']), min: minutes }, { ice: flag() }),
};

const actionShape = keyed(actionByName, (value) => nameOf(value), 'an action: transfer, make up, portion, add, swirl or wait');

const fittingShape: Shape<WorkUpAction> = {
  schema: actionShape.schema,
  read(value, path, issues) {
    const action = actionShape.read(value, path, issues);
    const wrong = action && misfit(action);
    if (wrong) addIssue(issues, `${path}.${wrong.path}`, wrong.expected, wrong.received);
    return wrong ? undefined : action;
  },
};

export const workUpLogShape: Shape<WorkUpLog> = list('actions', fittingShape, 0, WORKUP_ACTIONS_MAX);

/** Reads the JSON of a work-up log: all of it, or all that is wrong with it. */
export function readWorkUpLog(json: unknown): WorkUpLogResult {
  const issues: Issue[] = [];
  const log = workUpLogShape.read(json, 'workup', issues);
  return log ? { ok: true, log } : { ok: false, issues };
}

function keyed<T>(shapes: Readonly<Record<string, Shape<T>>>, keyOf: (value: unknown) => string | undefined, noun: string): Shape<T> {
  return {
    schema: { oneOf: Object.values(shapes).map(({ schema }) => schema) },
    read(value, path, issues) {
      const key = keyOf(value);
      if (key !== undefined && Object.hasOwn(shapes, key)) return shapes[key].read(value, path, issues);
      addIssue(issues, path, noun, describe(value));
      return undefined;
    },
  };
}

function nameOf(value: unknown): string | undefined {
  const name = own(value, 'do');
  return typeof name === 'string' ? name : undefined;
}
