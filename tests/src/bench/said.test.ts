import { expect, test } from 'vitest';
import type { Message } from '../../../src/ui/message.ts';
import { Doing } from '../../../src/bench/doing.ts';
import { CLOCK_STANDS } from '../../../src/bench/words.ts';
import { Said } from '../../../src/bench/said/said.ts';
import { Session } from '../../../src/store/session.ts';
import { memory } from '../store/memory.ts';
import { directThread } from '../store/rig.ts';

/** A run of the first lesson on beads so coarse that its bed lets air in. */
async function begun(): Promise<Session> {
  const session = new Session(directThread(), memory(), 'a');
  await session.start(undefined);
  await session.openRun({ base: 'cathode-leach', differences: { bed: { lanes: 3, bead_um: 300 } }, seed: 1, log: [] });
  return session;
}

test('air that comes into the bed is said when it comes, with the way to mend it, and not again while it stays', async () => {
  const { store } = await begun();
  const asked: string[] = [];
  const host = { addController: () => undefined, removeController: () => undefined, requestUpdate: () => undefined, updateComplete: Promise.resolve(true) };
  const said = new Said(host, () => asked.push('mend'));
  said.tell(store);
  expect(said.message).toBeUndefined();
  await store.carryOut([
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { elapsed_min: 30 } },
  ]);
  await store.seek(30);
  said.tell(store);
  expect(said.message?.text).toMatch(/^The bed runs dry: air enters/);
  said.message?.action?.run();
  expect(asked).toEqual(['mend']);
  expect(said.message?.stays).toBe(true);
  said.hush();
  said.tell(store);
  expect(said.message).toBeUndefined();
});

test('what was said of a dry bed is taken back once it is wet, and of a clock that stands once it runs', async () => {
  const { store } = await begun();
  const host = { addController: () => undefined, removeController: () => undefined, requestUpdate: () => undefined, updateComplete: Promise.resolve(true) };
  const said = new Said(host, () => undefined);
  await store.carryOut([
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { elapsed_min: 30 } },
  ]);
  await store.seek(30);
  said.tell(store);
  await store.act({ do: 'pour', liquid: 'acid', volume_mL: 6 });
  await store.seek(30.1);
  said.tell(store);
  expect(said.message).toBeUndefined();
  store.pause();
  said.say({ text: CLOCK_STANDS, kind: 'note' });
  said.tell(store);
  expect(said.message).toBeDefined();
  store.play();
  said.tell(store);
  expect(said.message).toBeUndefined();
});

test('a clamp that is opened by hand while the clock stands still says so and offers to play; a clock that runs needs no word', async () => {
  const session = await begun();
  const said: Message[] = [];
  const doing = new Doing({ session: () => session, say: (message) => said.push(message), pour: () => ({ do: 'stir' }), poured: () => undefined });
  const open = (open_percent: number) => doing.act(new CustomEvent('bf-act', { detail: { action: { do: 'clamp', open_percent } as const } }));
  await open(100);
  expect(said.map(({ text }) => text)).toEqual(['The clamp is open; the clock stands still.']);
  said[0].action?.run();
  expect(session.store.playing).toBe(true);
  await open(50);
  expect(said).toHaveLength(1);
});
