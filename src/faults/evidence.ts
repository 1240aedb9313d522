import { targetOf } from '../../sim/input/index.ts';
import { IONS, type IonId } from '../../sim/terms/ions.ts';
import { leavesAt, type Plan, pouredOf, timeAt } from '../../sim/history/index.ts';
import { fixed, millilitres, percent, significant, withUnit } from '../ui/text/format.ts';
import { bandCurve, valueAt } from './twin/bands.ts';
import { sameOf, type Seen, shown, symptomsOf } from './twin/numbers.ts';

// Evidence for a fault: symptoms that differ from those of the healthy twin, the clearest first.

/** A number that differs by less than this share is no evidence; a choice. */
const TELLING = 0.15;
const LINES_MAX = 8;

/** Sentences, each with both numbers. */
export function evidenceOf(run: Seen, twin: Seen): string[] {
  const theirs = symptomsOf(twin);
  const symptoms = symptomsOf(run).flatMap((symptom) => {
    const other = sameOf(theirs, symptom);
    // A band or a peak that only one of them has is told by what leaves, below; there is no number to compare.
    if (!other || !(Number.isFinite(symptom.value) && Number.isFinite(other.value))) return [];
    const apart = Math.abs(symptom.value - other.value) < symptom.least ? 0 : apartOf(symptom.value, other.value);
    return apart > TELLING ? [{ apart, text: `${symptom.label}: ${shown(symptom)}, in the twin ${shown(other)}` }] : [];
  });
  const lines = [...runEvidence(run, twin), ...symptoms].sort((a, b) => b.apart - a.apart).slice(0, LINES_MAX);
  return lines.length > 0 ? lines.map(({ text }) => text) : ['At this moment no number differs from the twin by more than 15 %. Look at another moment.'];
}

/** What the whole run shows: mean flow, first colour, what is found in the receiver meant for the target. */
function runEvidence(run: Seen, twin: Seen): { apart: number; text: string }[] {
  const ion = targetOf(twin.scenario);
  if (!ion) return [];
  // `none` is said where there is no number; without it such a pair is no evidence.
  const pair = (label: string, of: (seen: Seen) => number, show: (value: number) => string, none = '') => {
    const [ours, theirs] = [of(run), of(twin)];
    const apart = apartOf(ours, theirs);
    const [here, there] = [ours, theirs].map((value) => (Number.isFinite(value) ? show(value) : none));
    return apart > TELLING && here !== '' && there !== '' ? [{ apart, text: `${label}: ${here}, in the twin ${there}` }] : [];
  };
  const name = IONS[ion].name;
  const telling = tellingMoment(run, twin);
  return [
    ...(telling
      ? [
          {
            apart: apartOf(telling.ours_cm, telling.theirs_cm),
            text: `leading edge of the ${name} after ${millilitres(telling.delivered_mL)}: ${withUnit(fixed(telling.ours_cm, 1), 'cm')} deep, in the twin ${withUnit(fixed(telling.theirs_cm, 1), 'cm')}`,
          },
        ]
      : []),
    ...pair(
      'mean flow',
      ({ plan }) => plan.logEnd.delivered_mL / plan.logEnd.time_min,
      (value) => withUnit(significant(value, 2), 'mL/min'),
    ),
    ...pair(
      `a hundredth of the ${name} has left after`,
      ({ plan }) => firstOut(plan, ion),
      (value) => millilitres(value),
      'never',
    ),
    ...pair(
      `${name} in the last receiver`,
      ({ plan }) => inLast(plan, ion),
      (value) => percent(value),
    ),
    ...run.plan.ions
      .filter((other) => !twin.plan.ions.includes(other))
      .map((other) => ({ apart: 1, text: `${IONS[other].name} is in the effluent; the twin has none` })),
    ...pair(
      'acid in the last receiver',
      ({ plan }) => Number(plan.results.receivers.at(-1)?.HCl_mmol ?? 0),
      (value) => withUnit(fixed(value, 1), 'mmol'),
    ),
  ];
}

/** Where the leading edges of the target are furthest apart at the same delivered volume. */
export interface TellingMoment {
  readonly delivered_mL: number;
  readonly time_min: number;
  readonly ours_cm: number;
  readonly theirs_cm: number;
}

/** A leading edge that differs by less tells nothing, cm. */
const EDGE_APART_CM = 0.1;

/** Undefined when the bands of both runs keep together. */
export function tellingMoment(run: Pick<Seen, 'scenario' | 'plan'>, twin: Pick<Seen, 'scenario' | 'plan'>): TellingMoment | undefined {
  const ion = targetOf(twin.scenario);
  if (!ion || !run.plan.ions.includes(ion)) return undefined;
  const [ours, theirs] = [run, twin].map(({ plan }) => bandCurve(plan, ion));
  const held = theirs.delivered_mL.flatMap((mL, i) => (Number.isFinite(theirs.leading_cm[i]) ? [{ mL, cm: theirs.leading_cm[i] }] : []));
  const other = { xs: held.map(({ mL }) => mL), ys: held.map(({ cm }) => cm) };
  let best: Omit<TellingMoment, 'time_min'> | undefined;
  let apart = EDGE_APART_CM;
  ours.delivered_mL.forEach((delivered_mL, i) => {
    const ours_cm = ours.leading_cm[i];
    const theirs_cm = valueAt(other, delivered_mL);
    if (!Number.isFinite(ours_cm) || theirs_cm <= 0 || Math.abs(ours_cm - theirs_cm) <= apart) return;
    apart = Math.abs(ours_cm - theirs_cm);
    best = { delivered_mL, ours_cm, theirs_cm };
  });
  const found: Omit<TellingMoment, 'time_min'> | undefined = best;
  return found && { ...found, time_min: timeAt(run.plan, found.delivered_mL) };
}

/** Relative difference of two numbers, over the larger; a number that only one has is wholly apart. */
function apartOf(a: number, b: number): number {
  if (Number.isNaN(a) || Number.isNaN(b)) return Number.isNaN(a) === Number.isNaN(b) ? 0 : 1;
  const size = Math.max(Math.abs(a), Math.abs(b));
  return size < 0.01 ? 0 : Math.abs(a - b) / size;
}

/** Delivered volume at which a hundredth of what was loaded has left, mL. */
export function firstOut(plan: Plan, ion: IonId): number {
  return leavesAt(plan, ion, 0.01) ?? Number.NaN;
}

function inLast(plan: Plan, ion: IonId): number {
  const loaded = pouredOf(plan, ion);
  return loaded > 0 ? Number(plan.results.receivers.at(-1)?.[`${ion}_mmol`] ?? 0) / loaded : Number.NaN;
}
