import { parseJson } from '../../../sim/input/index.ts';
import { LINK_MAX, packed, unpacked } from './packed.ts';
import { readSaved, type Outcome, type SavedRun } from './saved.ts';

// A run in an address.

export { LINK_MAX, LINK_VERSION } from './packed.ts';

export interface LinkOptions {
  /**
   * Scrambles the content so that inflating the address does not show a fault the receiver is meant to find. It hides a
   * fault from view, not from a determined reader, since the page itself has to be able to read it.
   */
  readonly seal?: boolean;
}

/** Text of a run for an address. Not ok when it would be too long. */
export async function encodeLink(run: SavedRun, options: LinkOptions = {}): Promise<Outcome<string>> {
  const { base, differences, seed, log, now_min, view, mystery } = run;
  const json = JSON.stringify({
    base,
    differences,
    seed,
    log,
    ...(now_min === undefined ? {} : { now_min }),
    ...(view === undefined ? {} : { view }),
    ...(mystery === undefined ? {} : { mystery: {} }),
  });
  return packed(json, options.seal);
}

/** Reads the text of a link, or an address hash that holds one. Never throws; if the result is not ok, nothing was changed. */
export async function decodeLink(hash: string): Promise<Outcome<SavedRun>> {
  const text = hash.length > LINK_MAX ? hash : hash.replace(/^.*run=/, '').replace(/^#/, '');
  const content = await unpacked(text);
  if (!content.ok) return content;
  const parsed = parseJson(content.value, 'content');
  const reading = parsed.ok ? readSaved(parsed.json) : parsed;
  if (reading.ok) return reading;
  const first = reading.issues[0];
  return { ok: false, message: `link, ${first?.path}: expected ${first?.expected}, received ${first?.received}` };
}
