import { expect, test } from 'vitest';
import { AIR_ENTERS, runWhole } from '../../../sim/run/run.ts';
import type { Action } from '../../../sim/terms/types.ts';
import { shipped } from '../faults/seen.ts';

// The clamp forgotten in the wash, on the columns that a class draws. Losses in shares of the cobalt put on; no source.

test.each([1, 4])(
  'on the column of seed %d a clamp left open for 2, 20 and 120 minutes costs more and more cobalt, and the run says that air came in',
  (seed) => {
    const leach = shipped('cathode-leach');
    const [, afterSecond = 0] = leach.procedure.flatMap((step, k) => (step.do === 'pour' && step.liquid === 'acid' && step.volume_mL === 6 ? [k + 2] : []));
    const [short = 0, long = 0, longest = 0] = [2, 20, 120].map((elapsed_min) => {
      const open: Action = { do: 'wait', until: { elapsed_min } };
      const { bed, events } = runWhole({ ...leach, seed }, [...leach.procedure.slice(0, afterSecond), open, ...leach.procedure.slice(afterSecond)]);
      expect(events.filter(({ note }) => note?.startsWith(AIR_ENTERS)).length).toBeGreaterThan(0);
      return bed.receivers[2] / bed.pouredAmount[1];
    });
    expect(long).toBeGreaterThan(short + 0.0002);
    expect(longest).toBeGreaterThan(long + 0.02);
  },
);
