import type { Issue } from '../../../sim/terms/types.ts';

// Why a step of the work-up was refused, as a neighbour at the bench would say it, with what to do about it.

/** By the place of the issue. */
const SAID: Readonly<Record<string, (issue: Issue) => string>> = {
  flask: () => 'the flask is empty. Choose a receiver that holds something.',
  transfer: ({ received }) =>
    received.includes('portion') ? 'a portion is in hand already; the receiver is rinsed before the first is taken.' : 'the eluate is in the flask already.',
  'make up': () => 'a portion is in hand already; the flask is made up before the first is taken.',
  'make up.to_mL': ({ expected, received }) => `a ${received} flask is too small. It takes ${expected}.`,
  portion: () => 'EDTA is in this eluate already, and portions are taken before. Start this eluate again to work in portions.',
  EDTA: () => 'without thiocyanate no end point would be seen. Add thiocyanate and acetone first.',
  'EDTA.until': () =>
    'the flask is not blue, so there is no blue to lose. Where the blue has gone, the end point is reached: read the burette, or undo what was run in too far. Where it never was blue, it still needs thiocyanate, acetone or a pH of about 6.',
  'EDTA.mL': (issue) => (issue.expected.includes(EMPTIES) ? EMPTY : amountText(issue)),
  acetone: ({ received }) => `the flask is at ${received}, and acetone boils at 56 °C. Cool it in ice first.`,
  thiocyanate: ({ received }) => `the flask is still acid (${received}). Neutralise it before the thiocyanate.`,
  acetic: () => ACID,
  HCl: () => ACID,
};
const ACID =
  'thiocyanate is in the flask, and acid would set toxic gases free. No acid goes in any more: where the pH is wrong, undo back to before the thiocyanate.';
/** Of a burette that is read to its end; how much it would have taken is the answer, and is not said. */
const EMPTIES = 'burette is empty';
const EMPTY =
  'the burette is empty before that. This eluate holds too much cobalt to be titrated whole: start it again, pour it into a volumetric flask, make it up and take portions.';
/** Of an amount that would heat the flask to its boil. */
const BOILS = 'boil and spit';

export function refusalText(issue: Issue): string {
  return `Refused: ${(SAID[issue.path] ?? amountText)(issue)}`;
}

function amountText({ path, expected, received }: Issue): string {
  if (expected.includes(BOILS)) return `so much at once would ${BOILS} (${received}). Dilute and cool the flask, or add less at a time.`;
  if (path.endsWith('.pH')) return `pH ${received} is out of reach. Ask for ${expected}.`;
  return `this would be ${received}. It has to be ${expected}.`;
}
