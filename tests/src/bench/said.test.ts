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

const HOST = { addController: () => undefined, removeController: () => undefined, requestUpdate: () => undefined, updateComplete: Promise.resolve(true) };

/** The same, run dry with the clamp open. */
async function dry(): Promise<Session['store']> {
  const { store } = await begun();
  await store.carryOut([
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { elapsed_min: 30 } },
  ]);
  await store.seek(30);
  return store;
}

test('air in the bed is said when it comes, with the way to mend it, and stays said whatever else is, the clamp open or shut', async () => {
  const asked: string[] = [];
  const said = new Said(HOST, () => asked.push('mend'));
  said.tell((await begun()).store);
  expect(said.message).toBeUndefined();
  const store = await dry();
  said.say({ text: 'before', kind: 'note' });
  said.tell(store);
  expect(said.message?.text).toMatch(/^The bed runs dry and draws air/);
  said.message?.action?.run();
  expect(asked).toEqual(['mend']);
  expect(said.message?.stays).toBe(true);
  const standing = said.message;
  said.say({ text: 'something else', kind: 'note' });
  said.tell(store);
  expect(said.message?.text).toBe('something else');
  said.hush();
  // The same object: it is not said, nor drawn, anew.
  expect(said.message).toBe(standing);
  await store.act({ do: 'clamp', open_percent: 0 });
  said.tell(store);
  expect(said.message).toMatchObject({ text: 'The bed is dry: air is between its white beads. Mend it before you go on.', kind: 'problem' });
  expect(said.message?.action?.label).toBe('Mend');
});

test('what was poured over a dry bed leaves air in it, which is told by its volume; pushed out from below it is gone, and that is said once', async () => {
  const store = await dry();
  const said = new Said(HOST, () => undefined);
  said.tell(store);
  await store.act({ do: 'pour', liquid: 'acid', volume_mL: 6 });
  await store.seek(30.1);
  said.tell(store);
  expect(said.message?.text).toMatch(/^0\.\d\u202fmL of air is in the bed/);
  expect(said.message?.kind).toBe('note');
  expect(said.message?.action?.label).toBe('Mend');
  await store.actAll([
    { do: 'clamp', open_percent: 0 },
    { do: 'refill-from-below', liquid: 'acid', volume_mL: 1.5 },
  ]);
  said.tell(store);
  expect(said.message).toMatchObject({ text: 'No air is left in the bed.', kind: 'note' });
  said.hush();
  said.tell(store);
  expect(said.message).toBeUndefined();

  // One press, one step back: the clamp is open again and the air is there; taken back further, nobody mended anything.
  await store.undo();
  said.tell(store);
  expect(store.moment?.clampOpen).toBe(1);
  expect(said.message?.text).toMatch(/of air is in the bed/);
  await store.undo();
  await store.undo();
  said.tell(store);
  expect(store.moment?.ails.air_mL).toBe(0);
  expect(said.message).toBeUndefined();
});

test('a run that is over needs no mending, and another run that is opened was not mended', async () => {
  const session = await begun();
  const { store } = session;
  const said = new Said(HOST, () => undefined);
  await store.carryOut([
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { liquid_mm: 1 } },
    { do: 'pour', liquid: 'sample', volume_mL: 1 },
    { do: 'wait', until: { liquid_mm: 1 } },
    { do: 'pour', liquid: 'water', volume_mL: 6 },
    { do: 'wait', until: { liquid_mm: 1 } },
    { do: 'pour', liquid: 'water', volume_mL: 6 },
    { do: 'wait', until: { elapsed_min: 60 } },
    { do: 'clamp', open_percent: 0 },
  ]);
  const end = store.plan?.logEnd.time_min ?? 0;
  await store.seek(end - 1);
  said.tell(store);
  expect(said.message?.text).toMatch(/^The bed runs dry/);
  await store.seek(end);
  said.tell(store);
  expect(store.moment?.ails.dry).toBe(true);
  expect(said.message).toBeUndefined();
  await store.seek(end - 1);
  said.tell(store);
  await session.openRun({ base: 'cathode-leach', differences: { bed: { lanes: 3, bead_um: 300 } }, seed: 2, log: [] });
  said.tell(store);
  expect(said.message).toBeUndefined();
});

test('of a clock that stands nothing more is said once it runs', async () => {
  const { store } = await begun();
  const said = new Said(HOST, () => undefined);
  await store.act({ do: 'clamp', open_percent: 100 });
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
