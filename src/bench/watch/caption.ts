import { bottleName } from '../../../sim/terms/bottle-name.ts';
import type { StoryMoment } from '../../../sim/teach/index.ts';
import { elementOf } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { fixed, millilitres, percent } from '../../ui/text/format.ts';
import { capital } from '../../../sim/terms/capital.ts';

/** What is said at a moment of a watched run. */
export function captionOf(moment: StoryMoment, { liquids }: Scenario): string {
  switch (moment.kind) {
    case 'start':
      return `First the column is conditioned: ${bottleName(moment.liquid, liquids)} runs through until the whole bed is full of it.`;
    case 'conditioned':
      return `Conditioned: ${millilitres(moment.poured_mL, 0)} of ${bottleName(moment.liquid, liquids)} were poured. Now the sample goes on, at the last millimetre of acid.`;
    case 'loaded':
      return `Loaded: ${millilitres(moment.poured_mL, 1)} of sample have sunk in. Look at the top: the coloured band reaches ${fixed(moment.edge_cm, 1)} cm down${moment.later ? `. It creeps on with the acid: ${millilitres(moment.later.washed_mL)} later it stands at ${fixed(moment.later.edge_cm, 1)} cm` : ''}.`;
    case 'through':
      return `${capital(elementOf(moment.ion))} has run through: nine tenths of it left between ${millilitres(moment.from_mL)} and ${millilitres(moment.to_mL)}, and nothing of it was to be seen in the bed.`;
    case 'released':
      return `After ${millilitres(moment.washed_mL)} more acid the edge stands at ${fixed(moment.edge_cm, 1)} of ${fixed(moment.length_cm, 1)} cm, so ${bottleName(moment.liquid, liquids)} is poured: where it has displaced the acid, the band is released.`;
    case 'changed':
      return `The receiver is changed, ${millilitres(moment.after_mL)} after the water was poured: what still drips is acid, not yet the band.`;
    case 'leaving':
      return `The ${elementOf(moment.ion)} begins to leave, ${millilitres(moment.after_mL)} after the water was poured. Watch the colour of the drops and in the receiver.`;
    case 'done':
      return `Done: ${percent(moment.recovered, 1)} of the ${elementOf(moment.ion)} stands in ${millilitres(moment.volume_mL)} in the receiver “${moment.label}”${shortfall(moment)}. Now you, on another column.`;
  }
}

/** Why less was caught than the task asks for; nothing if it was enough. */
function shortfall({ recovered, asked, lostBefore, lostBehind }: StoryMoment & { kind: 'done' }): string {
  if (recovered >= asked) return '';
  const why = lostBehind > lostBefore ? 'the rest is still on the column, more water would bring it' : 'the rest dripped before the receiver was changed';
  return `, less than the ${percent(asked, 1)} that the task asks for: ${why}`;
}
