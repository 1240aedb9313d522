import { runMark } from '../../sim/handed/index.ts';
import { bandAt, frameAt, leavesAt } from '../../sim/history/index.ts';
import type { Session } from '../store/session.ts';
import { tracked } from '../store/tracked.ts';
import { fixed, millilitres } from '../ui/text/format.ts';

interface Mark {
  readonly mL: number;
  readonly depth_cm?: number;
}

/** A mark and the run that it was made in, up to that moment. */
interface Made extends Mark {
  readonly entry: number;
  readonly made_in: string;
}

interface Told extends Mark {
  readonly label: string;
}

/** Share of a metal that is out when it is said to have begun to leave; a choice. */
const LEAVES_SHARE = 0.05;

/** Predictions set by eye on the empty axis: one of each kind, and what the run said to it. In another run they say nothing. */
export class EyePredictions {
  @tracked private marks: readonly Made[] = [];

  /** A newer mark of the same kind takes the place of the older. */
  set(mark: Mark, { json, store }: Session): void {
    const ofDepth = mark.depth_cm !== undefined;
    const made = { ...mark, entry: store.entry, made_in: runMark(json, store.log, store.entry - 1) };
    this.marks = [...this.marks.filter(({ depth_cm }) => (depth_cm !== undefined) !== ofDepth), made];
  }

  /** Other marks and these, with the outcome where the run has passed them; of what leaves the outcome is told when everything is open. */
  beside(marks: readonly Told[], session: Session): readonly Told[] {
    return this.marks.length === 0 ? marks : [...marks, ...this.told(session)];
  }

  private told(session: Session): Told[] {
    const { json, store } = session;
    const ofThisRun = this.marks.filter(({ entry, made_in }) => entry <= store.log.length && made_in === runMark(json, store.log, entry - 1));
    return ofThisRun.map((mark) => ({
      mL: mark.mL,
      depth_cm: mark.depth_cm,
      label: mark.depth_cm === undefined ? leaving(mark, session) : depth(mark.mL, mark.depth_cm, session),
    }));
  }
}

function depth(mL: number, depth_cm: number, { store, targets }: Session): string {
  const { plan, moment } = store;
  const said = `you: ${fixed(depth_cm, 1)} cm`;
  if (!plan || !targets || !moment || moment.delivered_mL < mL) return said;
  const band = bandAt(plan, targets.target, frameAt(plan, mL));
  return band ? `${said}, it was ${fixed(band.leading_cm, 1)} cm` : said;
}

function leaving({ mL }: Mark, { store, targets, sees }: Session): string {
  const said = `you: ${millilitres(mL)}`;
  const from = store.plan && targets && sees === 'forecast' ? leavesAt(store.plan, targets.target, LEAVES_SHARE) : undefined;
  return from === undefined ? said : `${said}, it was ${millilitres(from)}`;
}
