import { expect, test } from 'vitest';
import { between, markdown, verdict } from './aims.ts';

test('an aim is met up to itself', () => {
  const found = (wall_ms: number) => ({ id: 'one', wall_ms, processor_ms: wall_ms, repeats: 7 }) as const;
  expect([verdict(found(3)), verdict(found(3.01))]).toEqual(['met', 'not met']);
});

test('the table has a row a figure, beside its aim', () => {
  const table = markdown([{ id: 'day', wall_ms: 1234, processor_ms: 99.96, repeats: 7 }], 'when and where').split('\n');
  expect(table[0]).toBe('when and where');
  expect(table[4]).toMatch(/^\| lab day .* 1\.23 s .* 100 ms .* 150 ms .* not met +\|$/);
});

test('goes between the markers and nowhere else', () => {
  expect(between('a\n<!-- x -->\nold\n<!-- /x -->\nb', 'x', 'new')).toBe('a\n<!-- x -->\n\nnew\n\n<!-- /x -->\nb');
  expect(() => between('a <!-- /x --> <!-- x -->', 'x', 'new')).toThrow('expected the markers');
});
