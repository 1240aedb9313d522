import { expect, test } from 'vitest';
import { csvText } from '../../../src/ui/text/csv.ts';

const COLUMNS = [
  { key: 'place', label: 'place' },
  { key: 'amount', label: 'cobalt', unit: 'mmol' },
];

test('csvText(...) ends every record in CR LF and quotes commas, quotes and line breaks (RFC 4180, 2.1 to 2.7)', () => {
  const rows = [
    { place: 'receiver "A", first', amount: 0.125 },
    { place: 'two\nlines', amount: -1e-7 },
  ];
  expect(csvText(COLUMNS, rows)).toBe('place,"cobalt, mmol"\r\n"receiver ""A"", first",0.125\r\n"two\nlines",-1e-7\r\n');
});

test('csvText(...) leaves unknown values empty', () => {
  expect(csvText(COLUMNS, [{ place: 'tip' }, { place: 'bed', amount: Number.NaN }])).toBe('place,"cobalt, mmol"\r\ntip,\r\nbed,\r\n');
});

test('csvText(...) keeps text that a spreadsheet would run as a formula as text', () => {
  expect(csvText([{ key: 'a', label: 'a' }], [{ a: '=1+1' }, { a: '@x' }, { a: 'x=1' }])).toBe("a\r\n'=1+1\r\n'@x\r\nx=1\r\n");
});
