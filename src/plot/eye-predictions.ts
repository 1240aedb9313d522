import { IONS } from '../../sim/terms/ions.ts';
import type { Seeing } from '../../sim/terms/seeing.ts';
import { bandOnRuler, type FractionTargets, frameAt, leavesAt, type Plan } from '../../sim/history/index.ts';
import type { EyeMark } from '../store/keep/eye-marks.ts';
import type { Moment } from '../store/threads/planner.ts';
import { fixed, millilitres, withUnit } from '../ui/text/format.ts';

interface Words {
  readonly label: string;
  /** The same where room is short. */
  readonly brief?: string;
}

interface Told extends Words {
  readonly mL: number;
  readonly depth_cm?: number;
}

/** What has to be known of a run to judge the marks in it. */
interface Judged {
  readonly eyeMarks: readonly EyeMark[];
  readonly store: { readonly plan: Plan | undefined; readonly moment: Moment | undefined };
  readonly targets: FractionTargets | undefined;
  readonly sees: Seeing;
}

/** Share of a metal that is out when it is said to have begun to leave; a choice. */
export const LEAVES_SHARE = 0.05;

/** A band this near the bottom has reached it: the ruler is read no finer, cm. */
const READ_CM = 0.05;

/** The same for a list: what was asked of the metal of the target, what was said, and what it was. */
export function eyePredictionLines(session: Judged): string[] {
  const name = IONS[session.targets?.target ?? 'Co'].name;
  return eyePredictions(session).map(({ mL, depth_cm, label }) => {
    const asked = depth_cm === undefined ? `where the ${name} begins to leave` : `leading edge of the ${name} at ${millilitres(mL)}`;
    return `${asked}, set by eye; ${label}`;
  });
}

/** Predictions set by eye on the empty axis, with the outcome where the run has passed them; when a metal leaves is shown only once everything is open. */
export function eyePredictions(session: Judged): Told[] {
  return session.eyeMarks.map(({ mL, depth_cm }) =>
    depth_cm === undefined ? { mL, ...leaving(mL, session) } : { mL, depth_cm, ...depth(mL, depth_cm, session) },
  );
}

function depth(mL: number, depth_cm: number, { store, targets }: Judged): Words {
  const { plan, moment } = store;
  if (!plan || !targets || !moment || moment.delivered_mL < mL) return words(fixed(depth_cm, 1), undefined, 'cm');
  const band = bandOnRuler(plan, targets.target, frameAt(plan, mL));
  const said = fixed(depth_cm, 1);
  if (band && band.leading_cm < plan.length_cm - READ_CM) return words(said, fixed(band.leading_cm, 1), 'cm');
  return { label: `you: ${withUnit(said, 'cm')}, ${band ? 'it had reached the bottom' : 'no band was left'}` };
}

function leaving(mL: number, { store, targets, sees }: Judged): Words {
  const from = store.plan && targets && sees === 'forecast' ? leavesAt(store.plan, targets.target, LEAVES_SHARE) : undefined;
  return words(fixed(mL, 1), from === undefined ? undefined : fixed(from, 1), 'mL');
}

function words(said: string, was: string | undefined, unit: string): Words {
  const you = `you: ${withUnit(said, unit)}`;
  return was === undefined ? { label: you } : { label: `${you}, it was ${withUnit(was, unit)}`, brief: `you ${said}, was ${withUnit(was, unit)}` };
}
