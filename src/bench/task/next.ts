import { bottleName } from '../../../sim/terms/bottle-name.ts';
import { checklistOf, firstReceiver, fits, LOW_MM, minutesToLow, type Standing, type Step, stillness, stopAbove_cm } from '../../../sim/teach/index.ts';
import type { Ails } from '../../../sim/bench/index.ts';
import type { Log, Scenario, Until } from '../../../sim/terms/types.ts';
import type { Message } from '../../ui/message.ts';
import { duration, fixed, millilitres, plannedMillilitres } from '../../ui/text/format.ts';
import { airWords, stillWords } from '../words.ts';

export { washToByEye } from '../../../sim/teach/index.ts';

// What can happen next, in words, and how far a wash may go: fetched when the list is drawn.

/** The column as it is looked at, with what its bed suffers from. */
type Seen = Standing & { readonly ails: Ails };

/** What happens if nothing more is done, and what could be. `wash`: what is to be said of the wash in hand. `waits`: the clamp was shut to think. */
export function nextWords(scenario: Scenario, at: Seen, over: boolean, { wash = '', waits = false } = {}): string {
  if (over) return 'Nothing more is due on this column: the debrief tells where everything is. Pouring goes on with it.';
  const air = airWords(at);
  if (waits && air) return `${air} The run waits meanwhile. ${room(scenario, at)}`;
  if (waits) return `The clamp is shut, and the run waits: open it to go on, or end the run in the list. ${room(scenario, at)}`;
  return `${wash}${flowWords(scenario, at)}`;
}

function room({ values }: Scenario, { headVolume }: Standing): string {
  const room_mL = fits(values, headVolume);
  return room_mL > 0 ? `${millilitres(room_mL)} fit above the bed.` : 'Nothing more fits above the bed.';
}

function flowWords(scenario: Scenario, at: Seen): string {
  const still = stillness(at);
  const fit = room(scenario, at);
  const air = airWords(at);
  if (air) return `${air} ${still === 'shut' && !at.ails.dry ? `${stillWords(still)} ` : ''}${fit}`;
  if (still) return `${stillWords(still)} ${fit}`;
  const minutes = minutesToLow(at);
  if (minutes !== undefined) return `${fit} The liquid is ${LOW_MM} mm above the bed in ${duration(minutes)}.`;
  return at.level_cm > 0
    ? `${fit} Pour before the liquid sinks into the bed.`
    : `The liquid has sunk to the bed top: pour now, or the bed may draw air. ${fit}`;
}

/** What a press that waits is waiting for: `rest` is what is left of the log. Not what it would do next, whose amount changes while the liquid sinks. */
export function underWayWords({ liquids }: Pick<Scenario, 'liquids'>, rest: Log): string {
  const wait = rest.find((action) => action.do === 'wait');
  const to = wait ? untilWords(wait.until) : '';
  const pour = rest.find((action) => action.do === 'pour');
  const then = pour ? `, then ${plannedMillilitres(pour.volume_mL)} ${bottleName(pour.liquid, liquids)}` : '';
  return `On its way${to}${then}…`;
}

function untilWords(until: Until): string {
  if ('liquid_mm' in until) return `: sinks to ${until.liquid_mm}\u202fmm`;
  return 'more_mL' in until ? `: ${millilitres(until.more_mL)} run through` : '';
}

/** Where to stop while a wash goes on, that it is enough until something weaker is poured; empty at any other time. */
export function washWords(scenario: Scenario, steps: readonly Step[]): string {
  const at = steps.findIndex(({ state }) => state === 'now');
  const due = steps[at];
  if (due?.role === 'wash' && due.poured_mL > 0) {
    const above_cm = stopAbove_cm(scenario);
    return `Wash until the band’s edge, where half its colour is, stands at ${fixed(scenario.values['bed.length_cm'] - above_cm, 1)}\u202fcm, ${above_cm}\u202fcm above the bottom. `;
  }
  const enough = due?.role === 'release' && due.poured_mL === 0 && steps[at - 1]?.role === 'wash';
  return enough ? 'Washed enough: the band must not reach the bottom. ' : '';
}

/** The list goes on with the next aliquot of a day: what became of this one can be looked at already. Undefined where the procedure keeps none. */
export function collectedIn(scenario: Scenario, aliquot: number): Message | undefined {
  const kept = checklistOf(scenario, []).filter(({ role, label }) => role === 'change' && label !== firstReceiver(scenario));
  const label = kept[aliquot - 1]?.label;
  const action = {
    label: 'Flask',
    run: () => {
      location.hash = 'workup';
    },
  };
  return label === undefined ? undefined : { text: `Aliquot ${aliquot} is in “${label}”. Titrate it now, or go on.`, kind: 'note', action };
}
