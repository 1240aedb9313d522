import { bottleName } from '../../sim/terms/bottle-name.ts';
import { receiverName } from '../ui/text/receiver-words.ts';
import type { RunEvent } from '../../sim/history/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Prediction } from '../../sim/handed/index.ts';
import { eyePredictionLines, judgedNow } from '../plot/eye-predictions.ts';
import type { Session } from '../store/session.ts';
import type { Column, Row } from '../ui/text/csv.ts';
import { fixed } from '../ui/text/format.ts';
import { refusalText } from '../ui/text/work-up-refusals.ts';
import { doneWords, seenShort } from '../ui/text/work-up-words.ts';

// Everything that was read or done, in the order in which it was, as rows of a table.

const SHOW = { time: (value: number) => fixed(value, 1), hundredths: (value: number) => fixed(value, 2) };

export const COLUMN_COLUMNS: readonly Column[] = [
  { key: 'time', label: 'time', unit: 'min', show: SHOW.time },
  { key: 'what', label: 'what was done' },
  { key: 'volume', label: 'volume', unit: 'mL', show: SHOW.hundredths },
];

export const WORK_UP_COLUMNS: readonly Column[] = [
  { key: 'what', label: 'what was done' },
  { key: 'volume', label: 'volume', unit: 'mL', show: SHOW.hundredths },
  { key: 'pH', label: 'pH', show: SHOW.hundredths },
  { key: 'temperature', label: 'temp.', unit: '°C', show: SHOW.time },
  { key: 'burette', label: 'burette', unit: 'mL', show: SHOW.hundredths },
  { key: 'seen', label: 'seen' },
];

/** Of the file: both, with the place. */
export const READING_COLUMNS: readonly Column[] = [{ key: 'where', label: 'where' }, ...COLUMN_COLUMNS, ...WORK_UP_COLUMNS.slice(2)];

export function readingRows(session: Session): Row[] {
  return [...columnRows(session), ...workUpRows(session)];
}

/** What was done at the column; waits are left out, since the times show them. */
export function columnRows({ store }: Session): Row[] {
  const { scenario, atPresent: moment } = store;
  if (!scenario || !moment) return [];
  let stands: number | undefined;
  const done = moment.events.flatMap((event): Row[] => {
    const { action, refused } = event;
    const turned = action?.do === 'clamp' && !refused ? action.open_percent : undefined;
    // A clamp that stood so already was not turned: shut once more, it says that the run ends.
    const what = turned !== undefined && turned === stands ? undefined : columnWords(event, scenario);
    stands = turned ?? stands;
    return what === undefined ? [] : [{ where: 'column', time: event.time_min, what, volume: event.delivered_mL, seen: '' }];
  });
  const receivers = moment.results.receivers.map(
    ({ label, volume_mL }): Row => ({ where: 'column', time: moment.time_min, what: `receiver “${receiverName(label)}” holds`, volume: volume_mL }),
  );
  return [...done, ...receivers];
}

function columnWords({ action, refused, note }: RunEvent, scenario: Scenario): string | undefined {
  if (refused) return refusalText(refused);
  if (note !== undefined) return note;
  const bottle = (liquid: string): string => bottleName(liquid, scenario.liquids);
  switch (action?.do) {
    case 'pour':
      return `${fixed(action.volume_mL, 2)} mL ${bottle(action.liquid)} poured`;
    case 'receiver':
      return `receiver “${action.label}” under the tip`;
    case 'clamp':
      return action.open_percent === 0 ? 'clamp shut' : `clamp open to ${fixed(action.open_percent, 0)} %`;
    case 'stir':
      return 'bed stirred up and settled';
    case 'refill-from-below':
      return `${fixed(action.volume_mL, 2)} mL ${bottle(action.liquid)} pushed in from below`;
    case 'top-up':
      return `topped up with ${fixed(action.resin_mL, 2)} mL resin`;
    case 'pack':
      return `slurry of ${fixed(action.resin_mL, 2)} mL resin poured into the tube`;
    case 'spill':
      return `${fixed(100 * action.share, 0)} % of the receiver spilled`;
    default:
      // Waits are seen by the times; a fault may be hidden from the reader.
      return undefined;
  }
}

export function workUpRows({ workUp }: Session): Row[] {
  const { state, bench } = workUp;
  if (!state || !bench) return [];
  return state.events.map((event): Row => {
    const { reading } = event;
    return {
      where: 'work-up',
      what: doneWords(event, bench),
      ...(reading && { volume: reading.volume_mL, pH: reading.pH, temperature: reading.temperature_C, seen: seenShort(reading) }),
      ...(reading && reading.burette_mL > 0 ? { burette: reading.burette_mL } : {}),
    };
  });
}

const OCCASIONS: Readonly<Record<Prediction['occasion'], string>> = {
  load: 'before loading',
  eluent: 'before the weaker eluent',
  receiver: 'before changing the receiver',
  stop: 'before stopping',
};

/** What was expected, in words. */
export function predictionLines(session: Session): string[] {
  const asked = session.validPredictions().map(({ occasion, asked_mL, choice, volume_mL, reason }) => {
    const said = [choice, volume_mL === undefined ? '' : `${fixed(volume_mL, 1)} mL`].filter(Boolean).join(', ');
    return `${OCCASIONS[occasion]}, at ${fixed(asked_mL, 1)} mL: ${said}${reason === '' ? '' : `; because ${reason}`}`;
  });
  const { expected, expected_for } = session.workUp.saved;
  const what = { eluate: 'all of the eluate', portion: 'one portion of the eluate' }[expected_for ?? 'eluate'];
  return [...eyePredictionLines(judgedNow(session)), ...asked, ...(expected === undefined ? [] : [`alkali for ${what}: ${expected} mL`])];
}
