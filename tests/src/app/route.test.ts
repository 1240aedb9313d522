import { expect, test } from 'vitest';
import { readRoute, type Route, routeHash, takeShared } from '../../../src/app/route.ts';

test.each([
  ['', { view: '' }],
  ['#bench', { view: 'bench' }],
  ['#/bench', { view: 'bench' }],
  ['#bench?run=1.00000000.abc', { view: 'bench', shared: { kind: 'run', text: '1.00000000.abc' } }],
  ['#run=1.00000000.abc', { view: '', shared: { kind: 'run', text: '1.00000000.abc' } }],
  ['#class/hand-out', { view: 'class/hand-out' }],
  ['#class?handed=1.00000000.abc', { view: 'class', shared: { kind: 'handed', text: '1.00000000.abc' } }],
  ['#bench?other=1', { view: 'bench' }],
])('readRoute(%j) is %j', (hash, route) => {
  expect(readRoute(hash)).toEqual(route);
});

test('readRoute(...) reads back what routeHash(...) writes', () => {
  const route: Route = { view: 'notebook', shared: { kind: 'task', text: '1s.0123abcd.x-_Y' } };
  expect(readRoute(routeHash(route))).toEqual(route);
});

test('takeShared(...) takes the run out of the address and keeps the view', () => {
  const addresses: string[] = [];
  const past = {
    state: null,
    replaceState: (_state: unknown, _unused: string, url: string) => {
      addresses.push(url);
    },
  };
  // Only `hash`, `state` and `replaceState` are used.
  const shared = takeShared({ hash: '#bench?run=1.00000000.abc' } as Location, past as unknown as History);
  expect(shared).toEqual({ kind: 'run', text: '1.00000000.abc' });
  expect(addresses).toEqual(['#bench']);
});
