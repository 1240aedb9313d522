import type { Action, Issue } from '../terms/types.ts';

/** What stands in the way of mending a bed, as one would say it; undefined for any other refusal. */
export function mendingRefused(done: Action['do'], { path, expected, received }: Issue): string | undefined {
  if (path === 'do' && expected.startsWith('the clamp shut')) return 'Shut the clamp first.';
  if (done === 'stir' && path === 'do')
    return received === 'drained cells' ? 'Pour first: a bed is stirred up full of liquid.' : `Pour first: stirring needs ${expected}, not ${received}.`;
  if (done === 'refill-from-below' && path === 'volume_mL') return `That is too much: ${expected}.`;
  return done === 'top-up' && path === 'do' ? 'There is no hollow to fill: the bed is full.' : undefined;
}
