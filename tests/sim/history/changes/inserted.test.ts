import { expect, test } from 'vitest';
import { logWithActionsAt } from '../../../../sim/history/index.ts';

test('logWithActionsAt(...) lets a wait that is going on wait only for what is left', () => {
  const log = [
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { more_mL: 5 } },
    { do: 'receiver', label: 'b' },
  ] as const;
  const events = [{ entry: 0, time_min: 1, delivered_mL: 2, action: log[0] }];
  expect(logWithActionsAt({ log, events }, { time_min: 3, delivered_mL: 4, entry: 1 }, [{ do: 'stir' }])).toEqual([
    log[0],
    { do: 'stir', at_min: 3 },
    { do: 'wait', until: { more_mL: 3 } },
    log[2],
  ]);
});
