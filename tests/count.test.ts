import { expect, test } from 'vitest';
import { countReport } from '../.config/count.ts';

const file = (status: string, ...tests: string[]) => ({ status, assertionResults: tests.map((state) => ({ status: state })) });

test.each([
  ['nothing but passed tests', [file('passed', 'passed', 'passed'), file('passed', 'passed')], 0, { passed: 3, failed: 0 }],
  ['a failed test', [file('failed', 'passed', 'failed')], 1, { passed: 1, failed: 1 }],
  ['a skipped test', [file('passed', 'passed', 'skipped')], 0, { passed: 1, failed: 1 }],
  ['a file that could not be read', [file('passed', 'passed'), file('failed')], 1, { passed: 1, failed: 1 }],
  ['a file whose closing step failed', [file('failed', 'passed')], 1, { passed: 1, failed: 1 }],
  ['an error outside every test', [file('passed', 'passed')], 1, { passed: 1, failed: 1 }],
  ['no test at all', [], 0, { passed: 0, failed: 1 }],
])('a run with %s is counted as it is', (_, testResults, code, count) => {
  expect(countReport({ testResults }, code)).toEqual(count);
});

test('a run without a report has failed', () => {
  expect(countReport(undefined, 0)).toEqual({ passed: 0, failed: 1 });
});
