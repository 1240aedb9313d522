import { type IonId, IONS } from '../../sim/terms/ions.ts';
import { bandNow, collectedAt, leavesBelow, leavingAt, pouredOf, progressOf, keptOf } from '../../sim/history/index.ts';
import { uptakeCurve } from '../../sim/chemistry/index.ts';
import { leftFirst, NEAR_ML, type Prediction, truthOf } from '../../sim/handed/index.ts';
import { fixed, millilitres, millimoles, molarity, percent, significant } from '../ui/text/format.ts';
import { type Bench, questionOf } from './occasion.ts';

// What came of a prediction, read off the run, and why in numbers of that run.

export interface Outcome {
  readonly said: string;
  readonly happened: string;
  readonly agrees: boolean;
  readonly why: string;
  /** Volume at which it happened, for a mark on the axis. */
  readonly at_mL?: number;
}

/** Undefined while the run has not yet shown it. */
export function outcomeOf(prediction: Prediction, bench: Bench): Outcome | undefined {
  switch (prediction.occasion) {
    case 'load':
      return firstIon(prediction, bench);
    case 'eluent':
      return firstVolume(prediction, bench);
    case 'receiver':
      return atTip(prediction, bench);
    case 'stop':
      return inFraction(prediction, bench);
  }
}

function firstIon(prediction: Prediction, bench: Bench): Outcome | undefined {
  const { scenario, moment, targets } = bench;
  const { load_mL = 0, sample_M } = progressOf(scenario, moment.events);
  const truth = truthOf(prediction, bench);
  const [first, second] = leftFirst(bench);
  if (!truth || !first) return undefined;
  const together = truth.choice === 'together';
  const held = (ion: IonId): number => {
    const { coion, exchange } = uptakeCurve(scenario, ion)(sample_M);
    return coion + exchange;
  };
  const other = first.ion === targets.target ? targets.unwanted[0] : targets.target;
  const band = other && bandNow(moment.results, other);
  const holdups = (first.at_mL - load_mL) / moment.results.bed.holdup_mL;
  return {
    said: said(prediction, bench),
    happened: together
      ? `${IONS[first.ion].symbol} and ${IONS[second.ion].symbol} together, from ${millilitres(first.at_mL)}`
      : `${IONS[first.ion].symbol} first, from ${millilitres(first.at_mL)}`,
    agrees: truth.agrees,
    why:
      `In ${molarity(sample_M, 2)} acid a litre of this bed holds ${significant(held(first.ion), 2)} times the ${IONS[first.ion].name} of a litre of liquid${other ? `, but ${significant(held(other), 2)} times the ${IONS[other].name}` : ''}: ` +
      `what is there as an anion sits on the resin, what stays a cation goes with the liquid. ${IONS[first.ion].symbol} needed ${fixed(holdups, 1)} hold-up volumes from the pour to the tip` +
      `${band && other ? `; by now the middle of the ${IONS[other].symbol} band stands at ${fixed(band.centroid_cm, 1)} of ${fixed(scenario.values['bed.length_cm'], 0)} cm` : ''}.`,
    at_mL: first.at_mL,
  };
}

function firstVolume(prediction: Prediction, bench: Bench): Outcome | undefined {
  const { scenario, plan, moment, targets } = bench;
  const truth = truthOf(prediction, bench);
  const { eluent_mL, sample_M } = progressOf(scenario, moment.events);
  if (!truth || eluent_mL === undefined) return undefined;
  const at = truth.at_mL;
  const { symbol, name } = IONS[targets.target];
  const off = (prediction.volume_mL ?? at) - at;
  const front = leavesBelow(plan, 'HCl', eluent_mL, sample_M / 2);
  const between = moment.results.bed.holdup_mL + scenario.values['column.tip_mL'];
  const early = at < eluent_mL;
  return {
    said: said(prediction, bench),
    happened: `the first ${symbol} left at ${millilitres(at)}${Math.abs(off) <= NEAR_ML ? '' : `, ${millilitres(Math.abs(off))} ${off < 0 ? 'later' : 'earlier'} than you said`}`,
    agrees: truth.agrees,
    why: early
      ? `It was leaving before the weaker eluent was poured at ${millilitres(eluent_mL)}: the acid had already carried the band to the outlet.`
      : `The weaker eluent was poured at ${millilitres(eluent_mL)}. Bed and tip hold ${millilitres(between)} of liquid, but the acid at the tip fell to half only ${front === undefined ? 'after that' : `${millilitres(front - eluent_mL)} later`}, because acid also sits inside the beads and has to leave first. ` +
        `The ${name} is released where that front passes and leaves with it, so it came ${millilitres(at - eluent_mL)} after the pour. What dripped before was strong acid, which is not worth collecting.`,
    at_mL: at,
  };
}

function atTip(prediction: Prediction, bench: Bench): Outcome | undefined {
  const { plan, targets } = bench;
  const truth = truthOf(prediction, bench);
  if (!truth) return undefined;
  const at = truth.at_mL;
  const acid_M = leavingAt(plan, 'HCl', at);
  const ion_M = leavingAt(plan, targets.target, at);
  const loaded = pouredOf(plan, targets.target);
  const present = truth.choice === 'both' || truth.choice === 'target';
  const { symbol, name } = IONS[targets.target];
  const before = collectedAt(plan, targets.target, at);
  const kept = keptOf(plan, targets);
  const follows = kept?.entry === prediction.entry ? kept.amounts.HCl_mmol : undefined;
  return {
    said: said(prediction, bench),
    happened: `${molarity(acid_M, 2)} HCl with ${present ? `${significant(ion_M * 1000, 2)} mmol/L ${symbol}` : `no ${symbol}`}`,
    agrees: truth.agrees,
    why:
      `Until the change ${percent(loaded > 0 ? before / loaded : 0)} of the ${name} had dripped into other receivers: that part is lost to this one. ` +
      (follows === undefined
        ? ''
        : `From here on, if nothing else is changed, it will collect ${millimoles(follows, 1)} of acid, all of which NaOH has to take up. `) +
      {
        acid: `Strong acid without ${symbol} was still coming: every drop of it costs NaOH and brings nothing.`,
        both: `Acid and ${symbol} were leaving together: the change came as the band arrived.`,
        target: `The acid had passed and ${symbol} was already leaving: what had gone before went elsewhere.`,
        water: `Neither was leaving: the band had passed, or was still to come.`,
      }[truth.choice],
    at_mL: at,
  };
}

function inFraction(prediction: Prediction, bench: Bench): Outcome | undefined {
  const { moment, targets } = bench;
  const truth = truthOf(prediction, bench);
  if (!truth) return undefined;
  const key = `${targets.target}_mmol` as const;
  const loaded = moment.results.loaded[key] ?? 0;
  const best = Math.max(0, ...moment.results.receivers.map((receiver) => Number(receiver[key] ?? 0)));
  const share = loaded > 0 ? best / loaded : 0;
  const behind = (moment.results.onBed[key] ?? 0) + (moment.results.inTip[key] ?? 0) + (moment.results.inHead[key] ?? 0);
  const elsewhere = Math.max(0, loaded - best - behind);
  const { name } = IONS[targets.target];
  const of = (amount_mmol: number): string => percent(loaded > 0 ? amount_mmol / loaded : 0);
  return {
    said: said(prediction, bench),
    happened: `${percent(share)} of the ${name}`,
    agrees: truth.agrees,
    why: `Of the ${name} loaded, ${of(best)} is in that receiver, ${of(behind)} is still above, on or below the bed, and ${of(elsewhere)} is in other receivers. ${behind > elsewhere && share < 0.995 ? 'More eluent would still have brought some.' : elsewhere > 1e-4 ? 'What went elsewhere was decided when the receiver was changed.' : 'Nothing worth mentioning is missing.'}`,
  };
}

/** The answer in words, with its reason. */
export function said(prediction: Prediction, bench: Bench): string {
  const { choices } = questionOf(prediction.occasion, bench);
  const answer =
    prediction.volume_mL === undefined
      ? (choices.find(({ value }) => value === prediction.choice)?.label ?? prediction.choice)
      : millilitres(prediction.volume_mL);
  return prediction.reason === '' ? answer : `${answer}, because: ${prediction.reason}`;
}
