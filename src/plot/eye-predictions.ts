import { bottleName } from '../../sim/terms/bottle-name.ts';
import { type IonId, IONS } from '../../sim/terms/ions.ts';
import type { Seeing } from '../../sim/terms/seeing.ts';
import { BEGINS_SHARE, bandOnRuler, type FractionTargets, frameAt, leavesAt, type Plan, progressOf } from '../../sim/history/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { EyeMark } from '../store/keep/eye-marks.ts';
import type { Moment } from '../store/threads/planner.ts';
import { fixed, millilitres, percent, withUnit } from '../ui/text/format.ts';
import { isAtBottom } from './at-bottom.ts';
import { edgeReason } from './eye-reason.ts';

interface Words {
  readonly label: string;
  /** The same where room is short. */
  readonly brief?: string;
  /** The outcome alone, beside the mark of what was said. */
  readonly briefest?: string;
  /** What the prediction did not reckon with, and the same where room is short. */
  readonly why?: string;
  readonly whyBrief?: string;
}

interface Told extends Words {
  readonly mL: number;
  readonly depth_cm?: number;
}

/** A session, as far as its marks go. */
interface Marked extends Omit<Judged, 'store'> {
  readonly store: Omit<Judged['store'], 'moment'> & { readonly atPresent: Moment | undefined };
}

/** What has to be known of a run to judge the marks in it. */
interface Judged {
  readonly eyeMarks: readonly EyeMark[];
  readonly store: { readonly scenario: Scenario | undefined; readonly plan: Plan | undefined; readonly moment: Moment | undefined };
  readonly targets: FractionTargets | undefined;
  readonly sees: Seeing;
}

/** The same at the present of a run, whichever moment is shown. */
export function judgedNow({ eyeMarks, targets, sees, store }: Marked): Judged {
  return { eyeMarks, targets, sees, store: { scenario: store.scenario, plan: store.plan, moment: store.atPresent } };
}

/** A prediction further off than this is wrong and gets a reason, cm; a choice. */
const WRONG_CM = 0.5;

type DepthMark = Required<Pick<EyeMark, 'mL' | 'depth_cm' | 'entry'>>;

/** The same for a list: what was asked of the metal of the target, what was said, and what it was. */
export function eyePredictionLines(session: Judged): string[] {
  const name = IONS[session.targets?.target ?? 'Co'].name;
  return eyePredictions(session).map(({ mL, depth_cm, label, why }) => {
    const asked =
      depth_cm === undefined
        ? `where the ${name} begins to leave (its first ${percent(BEGINS_SHARE, 0)})`
        : `leading edge of the ${name} at ${millilitres(mL)}`;
    return `${asked}, set by eye; ${label}${why ? `: ${why}` : ''}`;
  });
}

/** Predictions set by eye on the empty axis, with the outcome where the run has passed them; when a metal leaves is shown only once everything is open. */
export function eyePredictions(session: Judged): Told[] {
  return session.eyeMarks.map(({ mL, depth_cm, entry }) =>
    depth_cm === undefined ? { mL, ...leaving(mL, session) } : { mL, depth_cm, ...depth({ mL, depth_cm, entry }, session) },
  );
}

function depth({ mL, depth_cm, entry }: DepthMark, { store, targets }: Judged): Words {
  const { plan, moment } = store;
  if (!plan || !targets || !moment || moment.delivered_mL < mL) return words(fixed(depth_cm, 1), undefined, 'cm');
  const band = bandOnRuler(plan, targets.target, frameAt(plan, mL));
  const said = fixed(depth_cm, 1);
  const why = Math.abs((band?.leading_cm ?? Number.POSITIVE_INFINITY) - depth_cm) > WRONG_CM ? whyThere(mL, entry, store, targets.target) : {};
  if (band && !isAtBottom(plan, band)) return { ...words(said, fixed(band.leading_cm, 1), 'cm'), ...why };
  const [was, briefly] = band ? ['it had reached the bottom', 'at the bottom'] : ['no band was left', 'none left'];
  return { label: `you: ${withUnit(said, 'cm')}, ${was}`, brief: `you ${said}, ${briefly}`, briefest: briefly, ...why };
}

/** From the moment at which it was set, or the band began, to the volume that was meant. */
function whyThere(mL: number, entry: number, store: Judged['store'], ion: IonId): Pick<Words, 'why' | 'whyBrief'> {
  const { scenario, plan } = store;
  const eluent = released(mL, store);
  if (eluent.why || !scenario || !plan) return eluent;
  const set_mL = plan.events.findLast((event) => event.entry >= 0 && event.entry < entry)?.delivered_mL ?? 0;
  return edgeReason(scenario, plan, ion, set_mL, mL) ?? {};
}

function leaving(mL: number, { store, targets, sees }: Judged): Words {
  const from = store.plan && targets && sees === 'forecast' ? leavesAt(store.plan, targets.target, BEGINS_SHARE) : undefined;
  return { ...words(fixed(mL, 1), from === undefined ? undefined : fixed(from, 1), 'mL'), ...(from === undefined || from > mL ? {} : released(mL, store)) };
}

/** A weaker eluent that was poured before the place that was predicted has changed everything after it. */
function released(mL: number, { scenario, plan }: Judged['store']): Pick<Words, 'why'> {
  if (!scenario || !plan) return {};
  const { eluent_mL, eluentEntry } = progressOf(scenario, plan.events);
  if (eluent_mL === undefined || eluent_mL >= mL) return {};
  const poured = plan.events.find(({ entry, action }) => entry === eluentEntry && action?.do === 'pour')?.action;
  const name = poured?.do === 'pour' ? bottleName(poured.liquid, scenario.liquids) : 'the weaker eluent';
  return { why: `${name} came at ${withUnit(fixed(eluent_mL, 1), 'mL')}` };
}

function words(said: string, was: string | undefined, unit: string): Words {
  const you = `you: ${withUnit(said, unit)}`;
  return was === undefined
    ? { label: you }
    : { label: `${you}, it was ${withUnit(was, unit)}`, brief: `you ${said}, was ${withUnit(was, unit)}`, briefest: `was ${withUnit(was, unit)}` };
}
