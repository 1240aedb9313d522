import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { CAUTION_CLOSE, CAUTIONS } from '../../../src/ui/safety/cautions.ts';
import { shipped } from '../store/rig.ts';

// Cautions stand beside every lab, whatever is in its bottles, so no number in them may leave a bottle out.

const LINES = Object.values(CAUTIONS).flatMap(({ lines }) => lines);
/** Theory: traces in weak acid, which nobody pours. */
const THEORY = 'theory-one-lane';
const SCENARIOS = readdirSync(join(import.meta.dirname, '../../../scenarios')).flatMap((name) =>
  name === 'schema.json' || name === `${THEORY}.json` ? [] : [name.replace('.json', '')],
);

test('the hood is for the strong acid of every lesson, whatever its molarity', () => {
  const [from_M] = LINES.flatMap((line) => [...line.matchAll(/about (\d+) mol\/L and above/g)].map(([, M]) => Number(M)));
  const strongest = SCENARIOS.map((id) => Math.max(...Object.values(shipped(id).liquids).map(({ HCl_M }) => HCl_M)));
  expect(from_M).toBeLessThan(8);
  expect(strongest.filter((M) => !(M >= from_M))).toEqual([]);
});

test('no other line names a molarity', () => {
  expect(LINES.filter((line) => /\d\s*(?:mol\/L|M\b)/.test(line.replace(/about \d+ mol\/L and above/, '')))).toEqual([]);
});

test('local codes and the safety data sheet come first', () => {
  expect(CAUTION_CLOSE).toMatch(/Local codes, the safety data sheet .* come first/);
});
