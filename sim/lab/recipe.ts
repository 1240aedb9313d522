import { eluents, sampleLiquids } from '../input/index.ts';
import { LOW_MM } from '../teach/index.ts';
import type { Action, Log, Scenario } from '../terms/types.ts';

// The usual procedure of one aliquot in a dozen numbers: condition, load, rinse in, wash, release, change the receiver, stop.
// A procedure that is not of this kind has no recipe and is written action by action.

export interface Recipe {
  /** Bottles by their key. */
  readonly acid: string;
  readonly sample: string;
  readonly water: string;
  /** Receivers by their label. */
  readonly first: string;
  readonly second: string;
  readonly condition_mL: number;
  readonly conditionPortion_mL: number;
  readonly load_mL: number;
  /** Small portions that wash the sample in. */
  readonly rinses_mL: readonly number[];
  readonly wash_mL: number;
  readonly washPortion_mL: number;
  readonly release_mL: number;
  readonly releasePortion_mL: number;
  /** Delivered after the release was begun when the receiver is changed; 0 together with it. */
  readonly change_mL: number;
}

type Pour = Extract<Action, { do: 'pour' }>;
type Bottles = Pick<Scenario, 'liquids'>;

const LOW: Action = { do: 'wait', until: { liquid_mm: LOW_MM } };

/** Volumes are summed and split to this, mL. */
const TIDY = 1e6;

/** The actions of a recipe. */
export function procedureOf(recipe: Recipe): Log {
  const { acid, sample, water, first, second, change_mL } = recipe;
  const pours = (liquid: string, volumes: readonly number[]): Action[] => volumes.flatMap((volume_mL) => [{ do: 'pour', liquid, volume_mL }, LOW]);
  const released = portions(recipe.release_mL, recipe.releasePortion_mL);
  return [
    { do: 'receiver', label: first },
    { do: 'clamp', open_percent: 100 },
    LOW,
    ...pours(acid, portions(recipe.condition_mL, recipe.conditionPortion_mL)),
    ...pours(sample, recipe.load_mL > 0 ? [recipe.load_mL] : []),
    ...pours(acid, [...recipe.rinses_mL, ...portions(recipe.wash_mL, recipe.washPortion_mL)]),
    ...releaseWithChange(water, released, change_mL, { do: 'receiver', label: second }),
    { do: 'clamp', open_percent: 0 },
  ];
}

/** The portions of the release, and the change of receiver in the one in which so much has been delivered since the first. */
function releaseWithChange(liquid: string, volumes: readonly number[], change_mL: number, change: Action): Action[] {
  const release = volumes.flatMap((volume_mL): Action[] => [{ do: 'pour', liquid, volume_mL }, LOW]);
  if (volumes.length === 0) return [];
  if (change_mL <= 0) return [change, ...release];
  let before_mL = 0;
  let at = 0;
  while (at < volumes.length - 1 && before_mL + volumes[at] < change_mL) before_mL += volumes[at++];
  return release.toSpliced(2 * at + 1, 0, { do: 'wait', until: { more_mL: tidy(change_mL - before_mL) } }, change);
}

/** The recipe that gives exactly this procedure; undefined if none does. */
export function recipeOf(scenario: Bottles & Pick<Scenario, 'procedure'>): Recipe | undefined {
  const { procedure } = scenario;
  const guess = guessOf(scenario);
  return guess && sameActions(procedureOf(guess), procedure) ? guess : undefined;
}

/** A beginning for the bottles that are there, with common volumes (common practice, no source); undefined without acid, sample and release. */
export function usualRecipe(scenario: Scenario): Recipe | undefined {
  const { acid, water } = eluents(scenario);
  const sample = sampleLiquids(scenario)[0];
  if (acid === undefined || water === undefined || sample === undefined || acid === water) return undefined;
  return {
    acid,
    sample,
    water,
    first: 'waste',
    second: 'collected',
    condition_mL: 25,
    conditionPortion_mL: 5,
    load_mL: 1,
    rinses_mL: [0.5, 0.5, 1],
    wash_mL: 24,
    washPortion_mL: 6,
    release_mL: 30,
    releasePortion_mL: 6,
    change_mL: 1.5,
  };
}

/** What a recipe would be if the procedure had one: read off its pours and receivers. */
function guessOf({ liquids, procedure }: Bottles & Pick<Scenario, 'procedure'>): Recipe | undefined {
  const pours = procedure.filter((action): action is Pour => action.do === 'pour');
  const load = pours.findIndex(({ liquid }) => Object.values(liquids[liquid]?.ions ?? {}).some((molarity) => molarity > 0));
  const [sample, next] = [pours[load], pours[load + 1]];
  if (!sample || !next) return undefined;
  const after = pours.slice(load + 1);
  const released = after.findIndex(({ liquid }) => liquid !== next.liquid);
  if (released < 0) return undefined;
  const wash = after.slice(0, released);
  const firstLarge = wash.findIndex(({ volume_mL }) => volume_mL > sample.volume_mL);
  const rinses = wash.slice(0, firstLarge < 0 ? wash.length : firstLarge);
  const labels = procedure.flatMap((action) => (action.do === 'receiver' ? [action.label] : []));
  const [condition, washing, release] = [pours.slice(0, load), wash.slice(rinses.length), after.slice(released)];
  return {
    acid: next.liquid,
    sample: sample.liquid,
    water: release[0].liquid,
    first: labels[0] ?? '',
    second: labels[1] ?? '',
    condition_mL: volumeOf(condition),
    conditionPortion_mL: condition[0]?.volume_mL ?? 5,
    load_mL: sample.volume_mL,
    rinses_mL: rinses.map(({ volume_mL }) => volume_mL),
    wash_mL: volumeOf(washing),
    washPortion_mL: washing[0]?.volume_mL ?? 6,
    release_mL: volumeOf(release),
    releasePortion_mL: release[0].volume_mL,
    change_mL: changeOf(procedure, release),
  };
}

/** What is delivered between the start of the release and the second receiver: the portions before, and what is waited for. */
function changeOf(procedure: Log, release: readonly Pour[]): number {
  const receivers = procedure.flatMap((action, i) => (action.do === 'receiver' ? [i] : []));
  const at = receivers[1] ?? 0;
  const wait = procedure[at - 1];
  if (wait?.do !== 'wait' || !('more_mL' in wait.until)) return 0;
  const begun = procedure.slice(0, at).filter((action) => action.do === 'pour' && action.liquid === release[0]?.liquid).length;
  return tidy(volumeOf(release.slice(0, begun - 1)) + wait.until.more_mL);
}

/** Equal portions and a last one that may be smaller. */
function portions(total_mL: number, each_mL: number): number[] {
  if (!(total_mL > 0) || !(each_mL > 0)) return [];
  const whole = Math.floor(total_mL / each_mL + 1e-9);
  const left = tidy(total_mL - whole * each_mL);
  return [...Array.from({ length: whole }, () => each_mL), ...(left > 0 ? [left] : [])];
}

function volumeOf(pours: readonly Pour[]): number {
  return tidy(pours.reduce((sum, { volume_mL }) => sum + volume_mL, 0));
}

function tidy(volume_mL: number): number {
  return Math.round(volume_mL * TIDY) / TIDY;
}

/** The same actions, whatever the order of their keys. */
function sameActions(a: Log, b: Log): boolean {
  return a.length === b.length && a.every((action, i) => inOrder(action) === inOrder(b[i]));
}

function inOrder(action: Action): string {
  return JSON.stringify(action, (_, value: unknown) =>
    typeof value === 'object' && value !== null ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1))) : value,
  );
}
