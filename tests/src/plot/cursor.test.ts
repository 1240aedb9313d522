import { expect, test } from 'vitest';
import { cursor } from '../../../src/plot/cursor.ts';
import { markup } from '../markup.ts';

test('cursor(...) is a line through all rows with its label on the right', () => {
  expect(markup(cursor({ at: 100, top: 10, bottom: 300, label: 'now', right: 640 }))).toMatchSnapshot();
});

test('cursor(...) near the right end puts its label on the left', () => {
  expect(markup(cursor({ at: 630, top: 0, bottom: 300, label: 'now', right: 640 }))).toContain('text-anchor="end"');
});
