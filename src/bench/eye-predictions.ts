import { bandAt, frameAt, leavesAt, onRuler } from '../../sim/history/index.ts';
import type { EyeMark } from '../store/keep/eye-marks.ts';
import type { Session } from '../store/session.ts';
import { fixed, millilitres } from '../ui/text/format.ts';

interface Told {
  readonly mL: number;
  readonly depth_cm?: number;
  readonly label: string;
}

/** Share of a metal that is out when it is said to have begun to leave; a choice. */
const LEAVES_SHARE = 0.05;

/** Predictions set by eye on the empty axis, with the outcome where the run has passed them; when a metal leaves is shown only once everything is open. */
export function eyePredictions(session: Session): Told[] {
  return session.eyeMarks.map((mark) => ({
    mL: mark.mL,
    ...(mark.depth_cm === undefined ? {} : { depth_cm: mark.depth_cm }),
    label: mark.depth_cm === undefined ? leaving(mark, session) : depth(mark.mL, mark.depth_cm, session),
  }));
}

function depth(mL: number, depth_cm: number, { store, targets }: Session): string {
  const { plan, moment } = store;
  const said = `you: ${fixed(depth_cm, 1)} cm`;
  if (!plan || !targets || !moment || moment.delivered_mL < mL) return said;
  const frame = frameAt(plan, mL);
  const band = bandAt(plan, targets.target, frame);
  return band ? `${said}, it was ${fixed(onRuler(plan, frame, band.leading_cm), 1)} cm` : `${said}, no band was left`;
}

function leaving({ mL }: EyeMark, { store, targets, sees }: Session): string {
  const said = `you: ${millilitres(mL)}`;
  const from = store.plan && targets && sees === 'forecast' ? leavesAt(store.plan, targets.target, LEAVES_SHARE) : undefined;
  return from === undefined ? said : `${said}, it was ${millilitres(from)}`;
}
