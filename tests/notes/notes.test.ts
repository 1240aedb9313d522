import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { SECTIONS } from '../../src/lab/sections/contents.ts';
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

test('a line that sends the reader to Lab names a section of it, and the dried bed has there the hour that it says', () => {
  const sent = ids.flatMap((id) => shipped(id).notice.flatMap((line) => [...line.matchAll(/in Lab, section ([^,.]+)/g)].map(([, title]) => title)));
  expect(sent).toEqual(['Procedure and task']);
  for (const title of sent) expect(SECTIONS.find((section) => section.title === title)?.places).toContain('procedure');
  expect(shipped('demo-dried-bed').procedure).toContainEqual({ do: 'wait', until: { elapsed_min: 60 } });
});

function holds([found, is, than]: Shown): boolean {
  return is === '>' ? found > than : found < than;
}

function words([found, is, than]: Shown): string {
  return `expected ${is} ${than.toPrecision(3)}, found ${found.toPrecision(3)}`;
}
