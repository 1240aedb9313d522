import { type Ails, holdsAir, mendingRefused } from '../../sim/bench/index.ts';
import type { RunEvent } from '../../sim/history/index.ts';
import type { Stillness } from '../../sim/teach/index.ts';
import { millilitres } from '../ui/text/format.ts';

// What stands still or is refused, in words.

/** Why a press has to wait. */
export const ON_ITS_WAY = 'That is on its way. ⇥ jumps there.';

/** An open clamp drips only while the clock runs. */
export const CLOCK_STANDS = 'The clamp is open; the clock stands still.';

/** The white beads of a bed that lets air in, or has some in it since; empty for a bed without. Two lines of a phone. */
export function airWords({ ails, clampOpen }: { readonly ails: Ails; readonly clampOpen: number }): string {
  if (ails.dry)
    return clampOpen > 0
      ? 'The bed runs dry and draws air. Mend it before anything else is poured.'
      : 'The bed is dry: air is between its white beads. Mend it before you go on.';
  return holdsAir(ails) ? `${millilitres(ails.air_mL)} of air is in the bed: liquid runs past it unevenly. “Mend” drives it out.` : '';
}

export const NO_AIR = 'No air is left in the bed.';

/** Why nothing would happen. */
export function stillWords(why: NonNullable<Stillness>): string {
  return why === 'shut'
    ? 'The clamp is shut: nothing drips. Open it first.'
    : 'The liquid stands at the bed top and the bed holds the rest: nothing drips until you pour.';
}

/** A refused action as one would say it at the bench; `room_mL` fits above the bed. */
export function sayRefusal({ action, refused }: RunEvent, room_mL: number): string {
  if (action?.do === 'pour' && refused?.path === 'volume_mL')
    return room_mL > 0 ? `Only ${millilitres(room_mL)} fit above the bed now.` : 'Nothing more fits above the bed now.';
  if (refused?.path === 'try') return 'This try counts: what was done in it cannot be undone or changed.';
  if (action?.do === 'pour' && refused?.path === 'hold_level') return 'A reservoir is still emptying onto the bed.';
  if (action?.do === 'pack' && refused?.path === 'resin_mL')
    return `There is no room for that: the slurry would stand ${refused.received} high and run over. Pour less.`;
  if (!refused) return '';
  return (action && mendingRefused(action.do, refused)) ?? `That cannot be done: ${refused.expected} is needed, there is ${refused.received}.`;
}
