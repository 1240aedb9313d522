import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { shipped } from '../sim/faults/seen.ts';
import { NOTES, runsOf, type Shown } from './claims.ts';

// Purpose and notes of every scenario, held line by line to the run they speak of.

const MOST_MS = 120_000;
const ids = readdirSync('scenarios')
  .filter((file) => file.endsWith('.json') && file !== 'schema.json')
  .map((file) => file.slice(0, -'.json'.length));

describe.each(ids)('%s', (id) => {
  const { purpose, notice } = NOTES[id] ?? { purpose: [], notice: [] };

  test('has no line without a run that shows it', () => {
    expect(notice.map(({ says }) => says)).toEqual(shipped(id).notice);
    expect(purpose.map(({ says }) => says).join(' ')).toBe(shipped(id).purpose);
  });

  test(
    'shows what its lines say',
    () => {
      const runs = runsOf(id);
      const wrong = [...purpose, ...notice].flatMap(({ says, shown }) =>
        (shown?.(runs) ?? []).filter((figures) => !holds(figures)).map((figures) => `${says} ${words(figures)}`),
      );
      expect(wrong).toEqual([]);
    },
    MOST_MS,
  );
});

function holds([found, is, than]: Shown): boolean {
  return is === '>' ? found > than : found < than;
}

function words([found, is, than]: Shown): string {
  return `expected ${is} ${than.toPrecision(3)}, found ${found.toPrecision(3)}`;
}
