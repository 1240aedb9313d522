// Bench actions on the state: each is done whole, or refused with where, what was expected and what was given.
import { AT, bedLengthOf, RECEIVERS_MAX } from '../column/index.ts';
import { dropOf, fingeringVelocity, flowInto, isDrained, levelOf, refill } from '../flow/index.ts';
import { blow, churn, digCrater, impose, sideOf } from '../flaws/index.ts';
import { attempt, fumedAcid, gasVolume, pack, refillFromBelow, spill, stir, topUp } from '../bench/index.ts';
import { hanging, loaded } from '../hands/index.ts';
import { namesFirst, receiverLabels } from '../history/index.ts';
import { note, type Run } from './state.ts';
import type { Action, Issue } from '../terms/types.ts';

type Pour = Extract<Action, { do: 'pour' }>;
type Packing = Extract<Action, { do: 'pack' }>;

/** A reservoir that holds the level first brings it to this height, cm. */
const FEED_LEVEL_CM = 1;
/** How the note begins that a run makes when a drained bed is filled again. */
export const GAS_STAYS = 'gas stays in';
/** A softer blow than this moves no beads. */
const LEAST_BLOW = 0.02;

/** Does an action that is sound by itself (`issuesOf`) now. Undefined if done; otherwise why not, with the state untouched. */
export function apply(run: Run, action: Action): Issue | undefined {
  return isPlain(run, action) ? done(run, action) : attempt(run.bed, run.column, () => done(run, action));
}

/** Actions that move nothing in the bed: they can be refused before they touch anything. */
function isPlain({ bed }: Run, action: Action): boolean {
  if (action.do === 'pour') return action.how !== 'bed' && bed.scalar[AT.uneven] === 0 && bed.scalar[AT.looseTop] === 0;
  return action.do === 'clamp' || action.do === 'receiver' || action.do === 'spill';
}

function done(run: Run, action: Action): Issue | undefined {
  const idle = action.do === 'pack' || action.do === 'receiver' || (action.do === 'clamp' && action.open_percent === 0);
  if (run.bed.scalar[AT.portions] === 0 && !idle) return { path: 'do', expected: 'resin in the tube first (pack)', received: 'an empty tube' };
  switch (action.do) {
    case 'pour':
      return action.hold_level ? feed(run, action) : pour(run, action, pipetted(run, action));
    case 'clamp':
      return setClamp(run, action.open_percent);
    case 'receiver':
      return changeReceiver(run, action.label);
    case 'stir':
      return stir(run.bed, run.column);
    case 'refill-from-below':
      return fromBelow(run, action.liquid, action.volume_mL);
    case 'pack':
      return fill(run, action);
    case 'top-up':
      return topUp(run.bed, run.column, action.resin_mL);
    case 'spill':
      return spill(run.bed, action.share);
    case 'fault':
      return impose(run.bed, run.column, action.fault);
    default:
      return { path: 'do', expected: 'an action the bench knows', received: action.do };
  }
}

/** mL that truly go on: an aliquot of a liquid with metals is pipetted, with its errors; eluents are poured as they are read. */
function pipetted(run: Run, { liquid, volume_mL }: Pour): number {
  if (!holdsMetal(run, liquid)) return volume_mL;
  const nth = run.events.filter(({ action, refused }) => action?.do === 'pour' && !refused && holdsMetal(run, action.liquid)).length;
  return loaded(volume_mL, run.scenario.values, run.scenario.seed, nth);
}

function holdsMetal({ scenario }: Run, liquid: string): boolean {
  return Object.hasOwn(scenario.liquids, liquid) && Object.values(scenario.liquids[liquid].ions).some((c) => c > 0);
}

function pour(run: Run, action: Pour, volume: number): Issue | undefined {
  const { bed, column } = run;
  const s = bed.scalar;
  const room = column.headMax - s[AT.headVolume];
  if (volume > room + 1e-9) return { path: 'volume_mL', expected: `at most ${room.toFixed(2)} mL before the tube overflows`, received: `${volume} mL` };
  const level = levelOf(bed, column);
  const row = bottle(run, action.liquid);
  sayFingers(run, row[0]);
  if (s[AT.time] < s[AT.settledAt]) leaveLoose(run);
  for (let k = 0; k < bed.components; k++) {
    bed.head[k] += row[k] * volume;
    bed.pouredAmount[k] += row[k] * volume;
  }
  s[AT.headVolume] += volume;
  s[AT.poured] += volume;
  const dry = isDrained(bed);
  refill(bed, column);
  if (dry) sayGas(run);
  if (action.how === 'bed') strike(run, volume, level, row[0]);
  churn(bed, column);
  return undefined;
}

/** Resin into the tube: only before anything is poured, and only where the run did not start with a packed bed. */
function fill(run: Run, action: Packing): Issue | undefined {
  const { bed, column, events } = run;
  if (run.scenario.values['bench.packed'] === 1) return { path: 'do', expected: 'an empty tube (bench.packed 0)', received: 'a bed packed beforehand' };
  if (bed.scalar[AT.delivered] > 0 || events.some((event) => event.action?.do === 'pour' && !event.refused))
    return { path: 'do', expected: 'resin before any other liquid', received: 'a bed in use' };
  const refused = pack(bed, column, action);
  if (!refused) note(run, settledWords(run));
  return refused;
}

function settledWords({ bed, column }: Run): string {
  const s = bed.scalar;
  const wait = s[AT.settledAt] - s[AT.time];
  return `resin settles in ${wait.toFixed(1)} min: ${bedLengthOf(bed, column).toFixed(1)} cm of bed under ${levelOf(bed, column).toFixed(1)} cm of liquid`;
}

/** Depth of a bed that is still settling when liquid is poured on it, cm (estimate). */
const UNSETTLED_CM = 1;

function leaveLoose(run: Run): void {
  const s = run.bed.scalar;
  s[AT.looseTop] = Math.max(s[AT.looseTop], UNSETTLED_CM);
  note(run, `resin was still settling, ${(s[AT.settledAt] - s[AT.time]).toFixed(1)} min to go: the top ${UNSETTLED_CM} cm of the bed stays loose`);
  s[AT.settledAt] = 0;
}

/** Weaker acid than this much below what the bed holds is another liquid, mol/L. */
const OTHER_LIQUID_M = 3;

/** Whether liquid that follows acid keeps a level front. */
function sayFingers(run: Run, following_M: number): void {
  const { bed, column } = run;
  const acid = bed.pore[0];
  if (acid - following_M < OTHER_LIQUID_M) return;
  const critical = fingeringVelocity(column, acid, following_M);
  const speed = flowInto(bed, column, levelOf(bed, column)) / column.section;
  const fate = speed > critical ? 'it fingers, and easy lanes run ahead' : 'its front stays level';
  note(run, `a weaker liquid runs into acid in fingers above ${critical.toFixed(2)} cm/min; the bed runs at ${speed.toFixed(2)}: ${fate}`);
}

/** What stays behind when liquid comes back to a drained bed, and what follows from it. */
function sayGas(run: Run): void {
  const { bed } = run;
  const s = bed.scalar;
  const share = gasVolume(bed) / bed.room.reduce((sum, room) => sum + room, 0);
  const minutes = s[AT.dryMinutes] < 1 ? 'under a minute' : `${s[AT.dryMinutes].toFixed(0)} min`;
  const text = `${GAS_STAYS} ${(100 * share).toFixed(1)} % of the space between the beads after ${minutes} dry: it drips slower, part of the liquid stands still, and what moves slower has longer to exchange`;
  note(run, text);
}

/** mol/L of a bottle now: strong acid that stands open loses HCl to the air. */
function bottle(run: Run, liquid: string): Float64Array {
  const row = run.column.liquids[liquid].slice();
  row[0] = fumedAcid(row[0], run.scenario.values['bench.fuming_per_h'], run.bed.scalar[AT.time]);
  return row;
}

/** A pour from the rim onto the middle of the bed. */
function strike(run: Run, volume: number, level_cm: number, acid: number): void {
  const { bed, column } = run;
  const fall = column.scenario.values['column.tube_cm'] - column.length - level_cm;
  const hardness = blow(volume, fall, level_cm, acid);
  if (hardness >= LEAST_BLOW) digCrater(bed, column, hardness, sideOf(column));
}

function fromBelow(run: Run, liquid: string, volume: number): Issue | undefined {
  return refillFromBelow(run.bed, run.column, bottle(run, liquid), volume);
}

/** Pours a first centimetre if the head is lower, then keeps the level from a reservoir until the volume is used. */
function feed(run: Run, action: Pour): Issue | undefined {
  const { bed, column, scenario } = run;
  const s = bed.scalar;
  if (s[AT.feedLiquid] >= 0) return { path: 'hold_level', expected: 'no other reservoir in use', received: `${s[AT.feedVolume].toFixed(2)} mL still to come` };
  const level = Math.min(column.headMax, FEED_LEVEL_CM * column.section);
  let left = action.volume_mL;
  // A dry bed swallows what is poured first; it is poured again until it stands above the bed.
  while (left > 0 && s[AT.headVolume] < level - 1e-9) {
    const missing = Math.min(left, level - s[AT.headVolume]);
    const refused = pour(run, action, missing);
    if (refused) return refused;
    left -= missing;
  }
  if (left <= 0) return undefined;
  s[AT.feedLiquid] = Object.keys(scenario.liquids).indexOf(action.liquid);
  s[AT.feedVolume] = left;
  return undefined;
}

function setClamp(run: Run, percent: number): Issue | undefined {
  run.bed.scalar[AT.clampOpen] = percent / 100;
  return undefined;
}

function changeReceiver(run: Run, label: string): Issue | undefined {
  const s = run.bed.scalar;
  const labels = receiverLabels(run.events);
  const known = labels.indexOf(label);
  if (known >= 0) {
    dropInto(run, known);
    s[AT.receiver] = known;
    return undefined;
  }
  if (namesFirst(labels, s[AT.delivered])) return undefined;
  if (labels.length >= RECEIVERS_MAX) return { path: 'label', expected: `at most ${RECEIVERS_MAX} receivers`, received: label };
  dropInto(run, labels.length);
  s[AT.receiver] = labels.length;
  s[AT.receivers] = labels.length + 1;
  return undefined;
}

/** The drop that hangs at the tip when the receiver is changed falls into the next one; it is what stands at the end of the tip. */
function dropInto(run: Run, next: number): void {
  const { bed, scenario } = run;
  const { receivers, tip, stages, components, scalar } = bed;
  if (next === scalar[AT.receiver]) return;
  const changes = run.events.filter(({ action, refused }) => action?.do === 'receiver' && !refused).length;
  const [from, to] = [scalar[AT.receiver] * (components + 1), next * (components + 1)];
  const volume = Math.min(hanging(dropOf(scenario.values, tip[stages - 1]), scenario.values['bench.hand'], scenario.seed, changes), receivers[from] / 2);
  if (volume <= 0) return;
  receivers[from] -= volume;
  receivers[to] += volume;
  for (let k = 0; k < components; k++) {
    const amount = Math.min(volume * tip[k * stages + stages - 1], receivers[from + 1 + k]);
    receivers[from + 1 + k] -= amount;
    receivers[to + 1 + k] += amount;
  }
}
