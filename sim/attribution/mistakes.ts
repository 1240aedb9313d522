import { sectionOf } from '../terms/geometry.ts';
import { eluents } from '../input/index.ts';
import type { Action, Scenario } from '../terms/types.ts';
import { type Cycle, cyclesOf, type PourStep, volumeOf } from './cycles.ts';
import { type Drying, dryingMistake, dryingsOf, LEFT_CM } from './dryings.ts';
import type { Mistake, MistakeKind } from './mistake.ts';
import type { Step, Whole } from './placed.ts';
import { changed, lessPoured, morePoured, moreAtEnd, postponed, receiverAfter, type Repair, rescaled, without } from './repairs.ts';

// What the operator did otherwise than the procedure, each with the moment and a way to repair the log.

/** Differences smaller than these do not count: mL, mL of receiver, mm of liquid, percent of clamp, min. */
const VOLUME_SLACK_ML = 0.05;
const VOLUME_SLACK_SHARE = 0.05;
const RECEIVER_SLACK_ML = 0.25;
const LEVEL_SLACK_CM = 0.3;
const CLAMP_SLACK = 5;
const IDLE_SLACK_MIN = 5;
/** A pour of water straight after the load that is no larger than this is a rinse, mL. */
const RINSE_MAX_ML = 1.5;

/** Compares the steps taken with those of the procedure. */
export function mistakesOf(scenario: Scenario, steps: readonly Step[], whole: Whole, procedure: readonly Step[]): Mistake[] {
  const [ours, theirs] = [cyclesOf(scenario, steps), cyclesOf(scenario, procedure)];
  const bottles = eluents(scenario);
  const dryings = dryingsOf(steps, whole);
  const parts = ours.flatMap((cycle, c): (Mistake | undefined)[] => {
    const model = theirs[Math.min(c, theirs.length - 1)];
    if (!model) return [];
    return [
      loadMistake(cycle, model),
      conditioningMistake(cycle, model, c, bottles.acid),
      deepHead(cycle, model, scenario),
      ...wrongBottles(cycle, bottles.acid),
      washMistake(cycle, model, bottles.acid),
      elutionMistake(cycle, model, bottles.water, ours[c + 1]),
      receiverMistake(cycle, model),
    ];
  });
  return [
    ...parts,
    onBed(steps),
    ...dryings.map((drying) => dryingMistake(drying, scenario, whole.results.time_min)),
    ...clamps(steps, procedure),
    standing(steps, procedure, dryings),
    ...spills(steps),
    ...stirs(steps, procedure, dryings),
  ].filter((mistake) => mistake !== undefined);
}

function mistake(kind: MistakeKind, at: Step, what: string, size: number, repair: Repair): Mistake {
  return { kind, what, size, entry: at.entry, time_min: at.time_min, delivered_mL: at.at_mL, repair };
}

function differs(a: number, b: number): boolean {
  return Math.abs(a - b) > Math.max(VOLUME_SLACK_ML, VOLUME_SLACK_SHARE * b);
}

function mL(volume: number): string {
  return `${volume.toFixed(2)} mL`;
}

function loadMistake(cycle: Cycle, model: Cycle): Mistake | undefined {
  const [had, wanted] = [volumeOf(cycle.load), volumeOf(model.load)];
  if (!(wanted > 0) || Math.abs(had - wanted) <= 0.01 * wanted) return undefined;
  return mistake('load-volume', cycle.load[0], `${mL(had)} of sample instead of ${mL(wanted)}`, Math.abs(had - wanted), rescaled(cycle.load, wanted / had));
}

function conditioningMistake(cycle: Cycle, model: Cycle, c: number, acid: string | undefined): Mistake | undefined {
  const [had, wanted] = [volumeOf(cycle.conditioning), volumeOf(model.conditioning)];
  if (acid === undefined || had >= wanted || !differs(had, wanted)) return undefined;
  const kind = c === 0 ? 'short-conditioning' : 'no-recondition';
  return mistake(
    kind,
    cycle.load[0],
    `${mL(had)} of acid before the sample instead of ${mL(wanted)}`,
    wanted - had,
    morePoured(acid, wanted - had, cycle.load[0].id),
  );
}

function deepHead(cycle: Cycle, model: Cycle, scenario: Scenario): Mistake | undefined {
  const [had, wanted] = [cycle.load[0].level_cm, model.load[0]?.level_cm ?? LEFT_CM];
  if (had <= wanted + LEVEL_SLACK_CM) return undefined;
  const section = sectionOf(scenario.values);
  return mistake(
    'deep-head',
    cycle.load[0],
    `sample poured into ${(10 * had).toFixed(0)} mm of liquid instead of ${(10 * wanted).toFixed(0)} mm`,
    had - wanted,
    postponed(cycle.load[0].id, (had - wanted) * section, wanted),
  );
}

/** Pours of water (or anything but acid) before the elution: small ones straight after the load are a rinse. */
function wrongBottles(cycle: Cycle, acid: string | undefined): (Mistake | undefined)[] {
  if (acid === undefined) return [];
  const end = cycle.wash.findIndex(({ action }) => action.volume_mL > RINSE_MAX_ML);
  const rinses = cycle.wash.slice(0, end < 0 ? cycle.wash.length : end);
  return [wrongPours('water-rinse', rinses, acid, 'to rinse'), wrongPours('wrong-bottle', cycle.wash.slice(rinses.length), acid, 'in the wash')];
}

function wrongPours(kind: MistakeKind, pours: readonly PourStep[], acid: string, purpose: string): Mistake | undefined {
  const wrong = pours.filter(({ action }) => action.liquid !== acid);
  if (wrong.length === 0) return undefined;
  const what = `${mL(volumeOf(wrong))} of ${wrong[0].action.liquid} instead of ${acid} ${purpose}`;
  return mistake(
    kind,
    wrong[0],
    what,
    volumeOf(wrong),
    changed(
      wrong.map(({ id }) => id),
      (action): Action => (action.do === 'pour' ? { ...action, liquid: acid } : action),
    ),
  );
}

function washMistake(cycle: Cycle, model: Cycle, acid: string | undefined): Mistake | undefined {
  const [had, wanted] = [volumeOf(cycle.wash), volumeOf(model.wash)];
  const next = cycle.elution[0];
  if (acid === undefined || !next || !differs(had, wanted)) return undefined;
  const what = `${mL(had)} of wash instead of ${mL(wanted)}`;
  return had < wanted
    ? mistake('short-wash', next, what, wanted - had, morePoured(acid, wanted - had, next.id))
    : mistake('long-wash', next, what, had - wanted, lessPoured(cycle.wash, had - wanted));
}

function elutionMistake(cycle: Cycle, model: Cycle, water: string | undefined, next: Cycle | undefined): Mistake | undefined {
  const [had, wanted] = [volumeOf(cycle.elution), volumeOf(model.elution)];
  if (water === undefined || had >= wanted || !differs(had, wanted)) return undefined;
  const last = cycle.elution.at(-1) ?? cycle.wash.at(-1) ?? cycle.load[0];
  const before = next && [...next.conditioning, ...next.load][0];
  return mistake(
    'stopped-early',
    last,
    `${mL(had)} of ${water} instead of ${mL(wanted)}`,
    wanted - had,
    before ? morePoured(water, wanted - had, before.id) : moreAtEnd(water, wanted - had),
  );
}

function receiverMistake(cycle: Cycle, model: Cycle): Mistake | undefined {
  const [start, modelStart] = [cycle.elution[0], model.elution[0]];
  if (!start || !modelStart || !model.receiver) return undefined;
  const wanted = model.receiver.at_mL - modelStart.at_mL;
  const repair = receiverAfter(cycle.receiver?.id ?? -2, start.id, wanted, model.receiver.action.label);
  if (!cycle.receiver) return mistake('receiver-unchanged', start, 'the receiver was never changed', volumeOf(cycle.elution), repair);
  const off = cycle.receiver.at_mL - start.at_mL - wanted;
  if (Math.abs(off) < RECEIVER_SLACK_ML) return undefined;
  return mistake(
    off < 0 ? 'receiver-early' : 'receiver-late',
    cycle.receiver,
    // How late that is for the ions is said relative to their window, so only the volumes are given here.
    `receiver changed ${beside(wanted + off, start.action.liquid)} instead of ${beside(wanted, start.action.liquid)}`,
    Math.abs(off),
    repair,
  );
}

/** Where a change lies beside the first pour of a liquid, in words. */
function beside(after_mL: number, liquid: string): string {
  return `${mL(Math.abs(after_mL))} ${after_mL < 0 ? 'before' : 'after'} the first ${liquid}`;
}

function onBed(steps: readonly Step[]): Mistake | undefined {
  const struck = steps.filter((step): step is PourStep => step.action.do === 'pour' && step.action.how === 'bed' && step.action.hold_level !== true);
  if (struck.length === 0) return undefined;
  const what = `${struck.length === 1 ? 'one pour' : `${struck.length} pours`} onto the bed instead of down the wall, ${mL(volumeOf(struck))} in all`;
  return mistake(
    'poured-on-bed',
    struck[0],
    what,
    volumeOf(struck),
    changed(
      struck.map(({ id }) => id),
      (action): Action => (action.do === 'pour' ? { ...action, how: 'wall' } : action),
    ),
  );
}

function clamps(steps: readonly Step[], procedure: readonly Step[]): Mistake[] {
  const usual = Math.max(0, ...procedure.map(({ open }) => open));
  const set = steps.filter(({ action }) => action.do === 'clamp' && action.open_percent > 0);
  const wide = set.filter(({ open }) => open > usual + CLAMP_SLACK);
  const narrow = set.filter(({ open }) => open < usual - CLAMP_SLACK);
  const repaired = (these: readonly Step[]): Repair =>
    changed(
      these.map(({ id }) => id),
      (action): Action => (action.do === 'clamp' ? { ...action, open_percent: usual } : action),
    );
  const told = (kind: MistakeKind, these: readonly Step[]): Mistake[] => {
    if (these.length === 0) return [];
    const offOf = ({ open }: Step): number => Math.abs(open - usual);
    const most = these.reduce((far, step) => (offOf(step) > offOf(far) ? step : far));
    return [mistake(kind, most, `clamp ${most.open} % open instead of ${usual} %`, offOf(most), repaired(these))];
  };
  return [...told('wide-clamp', wide), ...told('narrow-clamp', narrow)];
}

/** Time in which nothing flowed, because the clamp was shut; the time a dried bed stood dry is not counted. */
function standing(steps: readonly Step[], procedure: readonly Step[], dryings: readonly Drying[]): Mistake | undefined {
  const idleOf = (step: Step): number => (step.action.do === 'wait' && 'elapsed_min' in step.action.until ? step.action.until.elapsed_min : 0);
  const waits = steps.filter((step) => idleOf(step) > 0 && !dryings.some(({ idle }) => idle.includes(step)));
  const [had, wanted] = [waits, procedure].map((these) => these.reduce((sum, step) => sum + idleOf(step), 0));
  if (had <= wanted + IDLE_SLACK_MIN) return undefined;
  return mistake('standing-still', waits[0], `nothing flowed for ${had.toFixed(0)} min`, had, without(waits.map(({ id }) => id)));
}

function spills(steps: readonly Step[]): Mistake[] {
  return steps.flatMap((step) =>
    step.action.do === 'spill'
      ? [mistake('spill', step, `${(100 * step.action.share).toFixed(0)} % of a vessel spilled`, step.action.share, without([step.id]))]
      : [],
  );
}

/** A loaded bed that is stirred has lost its bands; where stirring mends a bed that ran dry, it belongs to that. */
function stirs(steps: readonly Step[], procedure: readonly Step[], dryings: readonly Drying[]): Mistake[] {
  if (procedure.some(({ action }) => action.do === 'stir')) return [];
  const mending = dryings.flatMap(({ mended }) => mended);
  return steps.flatMap((step) =>
    step.action.do === 'stir' && !mending.includes(step) ? [mistake('stirred', step, 'the bed was stirred up', 1, without([step.id]))] : [],
  );
}
