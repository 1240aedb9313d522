import { decodeLink, encodeLink } from '../store/keep/link.ts';
import type { Outcome } from '../store/keep/saved.ts';
import { inWords } from '../../sim/input/index.ts';
import { askForFile, fileName, offerFile, openRunFile, runFileText } from '../store/keep/files.ts';
import type { LabDraft } from './draft.ts';

// A lab as a link or a file between instructors. It is written as a run without actions, so that the bench can open it as well.

const PLACE = '#lab?lab=';
/** Address of the part that fits the lab to what was measured. */
export const CALIBRATE = '#lab?calibrate';

/** Address that opens the lab for editing. Where the faults are hidden it is sealed like a link for students. */
export async function labAddress(draft: LabDraft, here: string): Promise<Outcome<string>> {
  const unsound = refusal(draft, 'link');
  if (unsound) return unsound;
  const link = await encodeLink(draft.saved(), { seal: draft.lab.hidden });
  return link.ok ? { ok: true, value: new URL(`${PLACE}${link.value}`, here).href } : link;
}

/** Opens the lab of an address; undefined where the address holds none. */
export async function openAddress(draft: LabDraft, hash: string): Promise<Outcome<undefined> | undefined> {
  if (!hash.startsWith(PLACE)) return undefined;
  const link = await decodeLink(hash.slice(PLACE.length));
  return link.ok ? draft.open(link.value) : link;
}

/** Offers the lab as a file. */
export function saveLab(draft: LabDraft, page: Document): Outcome<undefined> {
  const { scenario } = draft;
  if (!scenario) return refusal(draft, 'file') ?? { ok: false, message: 'file: the lab could not be read' };
  offerFile(page, fileName(`lab-${scenario.title}`, 'json'), runFileText(draft.saved()));
  return { ok: true, value: undefined };
}

/** Asks for a file and opens its lab; undefined when the reader changes their mind. */
export async function openLab(draft: LabDraft, page: Document): Promise<Outcome<undefined> | undefined> {
  const file = await askForFile(page);
  if (!file) return undefined;
  const reading = await openRunFile(file);
  return reading.ok ? draft.open(reading.value) : { ok: false, message: `${file.name} was not opened. ${inWords(reading.issues)}` };
}

/** Only a valid lab can be read elsewhere. */
function refusal({ scenario, issues }: LabDraft, noun: string): Outcome<never> | undefined {
  return scenario ? undefined : { ok: false, message: `${noun}: expected a valid lab, received one with ${inWords(issues)}` };
}
