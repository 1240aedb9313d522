import { expect, test } from 'vitest';
import { readRoute, routeHash, takeSharedRun } from '../../../src/app/route.ts';

test.each([
  ['', { view: '' }],
  ['#bench', { view: 'bench' }],
  ['#/bench', { view: 'bench' }],
  ['#bench?run=1.00000000.abc', { view: 'bench', run: '1.00000000.abc' }],
  ['#run=1.00000000.abc', { view: '', run: '1.00000000.abc' }],
  ['#bench?other=1', { view: 'bench' }],
])('readRoute(%j) is %j', (hash, route) => {
  expect(readRoute(hash)).toEqual(route);
});

test('readRoute(...) reads back what routeHash(...) writes', () => {
  const route = { view: 'notebook', run: '1s.0123abcd.x-_Y' };
  expect(readRoute(routeHash(route))).toEqual(route);
});

test('takeSharedRun(...) takes the run out of the address and keeps the view', () => {
  const addresses: string[] = [];
  const past = {
    state: null,
    replaceState: (_state: unknown, _unused: string, url: string) => {
      addresses.push(url);
    },
  };
  // Only `hash`, `state` and `replaceState` are used.
  const run = takeSharedRun({ hash: '#bench?run=1.00000000.abc' } as Location, past as unknown as History);
  expect(run).toBe('1.00000000.abc');
  expect(addresses).toEqual(['#bench']);
});
