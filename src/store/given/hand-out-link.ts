import { type HandOut, handOutText, readHandOut } from '../../../sim/handed/index.ts';
import { inWords, own } from '../../../sim/input/index.ts';
import { packed, unpacked } from '../keep/packed.ts';
import type { Outcome } from '../keep/saved.ts';

/** Text of a hand-out for an address. It is sealed if its scenario has faults, since students may have to find them. */
export function encodeHandOut(handOut: HandOut): Promise<Outcome<string>> {
  const faults = own(handOut.differences, 'faults');
  return packed(handOutText(handOut), handOut.faults === 'hidden' || (Array.isArray(faults) && faults.length > 0));
}

export async function decodeHandOut(text: string): Promise<Outcome<HandOut>> {
  const content = await unpacked(text);
  if (!content.ok) return content;
  const read = readHandOut(content.value);
  return read.ok ? { ok: true, value: read.handOut } : { ok: false, message: `hand-out: ${inWords(read.issues)}` };
}
