import { expect, test } from 'vitest';
import { BEGINS_SHARE, bandAt, bandOnRuler, bedHeightOf, frameAt, leavesAt, onRuler } from '../../../sim/history/index.ts';
import type { Action } from '../../../sim/terms/types.ts';
import type { Message } from '../../../src/ui/message.ts';
import { Acting } from '../../../src/bench/acting.ts';
import { eyePredictions } from '../../../src/plot/eye-predictions.ts';
import { Session } from '../../../src/store/session.ts';
import { memory } from '../store/memory.ts';
import { directThread } from '../store/rig.ts';

const LOG: Action[] = [{ do: 'receiver', label: 'nickel' }];

/** A small run of the first lesson, with a vessel under the tip and nothing done yet. */
async function begun(): Promise<Session> {
  const session = new Session(directThread(), memory(), 'a');
  await session.start(undefined);
  await session.openRun({ base: 'cathode-leach', differences: { bed: { plates: 10, lanes: 1 } }, seed: 3, log: LOG });
  return session;
}

/** Plays the rest of the written procedure. */
async function toTheEnd({ store }: Session): Promise<void> {
  await store.carryOut((store.scenario?.procedure ?? []).slice(1));
  await store.seek(1000);
}

test('a mark set by eye is told in the run it was made in and in no other; a newer one takes its place', async () => {
  const session = await begun();
  const labels = () => eyePredictions(session).map(({ label }) => label);
  session.markByEye({ mL: 12, depth_cm: 4 });
  session.markByEye({ mL: 14, depth_cm: 5 });
  session.markByEye({ mL: 40 });
  expect(labels()).toEqual(['you: 5.0\u202fcm', expect.stringMatching(/^you: 40\.0/) as string]);
  await session.store.act({ do: 'clamp', open_percent: 100 });
  expect(labels()).toHaveLength(2);
  await session.freshColumn(17);
  expect(labels()).toEqual([]);
  await session.goBack();
  expect(labels()).toHaveLength(2);
});

test('the outcome of a mark is read on the ruler, which the bed has shrunk away from', async () => {
  const session = await begun();
  session.markByEye({ mL: 45, depth_cm: 4 });
  await session.store.carryOut((session.store.scenario?.procedure ?? []).slice(1, 34));
  await session.store.seek(1000);
  expect(session.store.moment?.delivered_mL).toBeGreaterThan(45);
  const { plan } = session.store;
  if (!plan) throw new Error('plan: expected one');
  const frame = frameAt(plan, 45);
  const depth_cm = bandAt(plan, 'Co', frame)?.leading_cm ?? Number.NaN;
  const read_cm = onRuler(plan, frame, depth_cm);
  expect(read_cm - depth_cm).toBeGreaterThan(0.05);
  expect(plan.length_cm - read_cm).toBeCloseTo(((plan.length_cm - depth_cm) * bedHeightOf(plan, frame)) / plan.length_cm, 9);
  expect(eyePredictions(session)[0].label).toBe(`you: 4.0\u202fcm, it was ${read_cm.toFixed(1)}\u202fcm`);
});

test('of a band that has broken through it is said that it had reached the bottom, not how long the bed is', async () => {
  const session = await begun();
  session.markByEye({ mL: 57, depth_cm: 6.5 });
  await toTheEnd(session);
  const { plan } = session.store;
  if (!plan) throw new Error('plan: expected one');
  // Cobalt is in the effluent by then, and in the bed.
  expect(leavesAt(plan, 'Co', 0.02)).toBeLessThan(57);
  expect(leavesAt(plan, 'Co', 0.95)).toBeGreaterThan(57);
  expect(eyePredictions(session)[0].label).toBe('you: 6.5\u202fcm, it had reached the bottom');
});

test('where a weaker eluent came before the place that was predicted, it is named beside the outcome; where it came after, not', async () => {
  const session = await begun();
  session.seeing = 'forecast';
  session.markByEye({ mL: 75 });
  session.markByEye({ mL: 78, depth_cm: 2 });
  await toTheEnd(session);
  const { plan, scenario } = session.store;
  if (!plan || !scenario) throw new Error('plan: expected one');
  const water = plan.events.find(({ action, delivered_mL }) => action?.do === 'pour' && action.liquid === 'water' && delivered_mL > 30);
  const came = `water came at ${water?.delivered_mL.toFixed(1)}\u202fmL`;
  const [leaving, depth] = eyePredictions(session);
  expect(leaving.label).toBe(`you: 75.0\u202fmL, it was ${leavesAt(plan, 'Co', BEGINS_SHARE)?.toFixed(1)}\u202fmL`);
  expect(leaving.why).toBe(came);
  expect(depth).toMatchObject({ label: 'you: 2.0\u202fcm, no band was left', why: came });
  session.markByEye({ mL: 30, depth_cm: 2 });
  expect(eyePredictions(session).find(({ mL }) => mL === 30)?.why ?? '').not.toContain('came at');
});

test('a depth that was wrong gets its reason in numbers of the run: how far each mL carried the edge; one that was right gets none', async () => {
  const session = await begun();
  session.markByEye({ mL: 45, depth_cm: 1 });
  await toTheEnd(session);
  const { plan, scenario } = session.store;
  if (!plan || !scenario) throw new Error('plan: expected one');
  const stood = (mL: number) => bandOnRuler(plan, 'Co', frameAt(plan, mL))?.leading_cm ?? Number.NaN;
  const [told] = eyePredictions(session);
  const [, over = '', moved = '', each = '', liquid = ''] =
    /^over ([\d.]+)\u202fmL its edge moved ([\d.]+)\u202fcm; each mL of [89]\.\d\u202fM acid carried it ([\d.]+)\u202fcm and the liquid ([\d.]+)\u202fcm, since most of the cobalt\(II\) sits on the resin$/.exec(
      told.why ?? '',
    ) ?? [];
  expect(told.why).toContain('since most');
  expect(Number(moved)).toBeCloseTo(stood(45) - stood(45 - Number(over)), 1);
  expect(Number(each) / (Number(moved) / Number(over))).toBeCloseTo(1, 1);
  // A mL fills so much of the liquid space of the bed: 1/(pi d²/4 times porosity).
  expect(Number(liquid)).toBeCloseTo(4 / (Math.PI * scenario.values['column.bore_cm'] ** 2 * scenario.values['bed.porosity']), 1);
  expect(told.whyBrief).toContain(`${each}\u202fcm each mL`);
  session.markByEye({ mL: 44, depth_cm: stood(44) });
  expect(eyePredictions(session).find(({ mL }) => mL === 44)?.why).toBeUndefined();
});

test('by eye a liquid that sets the band free slows the clock down, so that there is time to change the receiver; acid does not', async () => {
  const session = await begun();
  const said: Message[] = [];
  const acting = new Acting(
    () => session,
    (message) => said.push(message),
    () => undefined,
  );
  acting.take([{ do: 'pour', liquid: 'acid', volume_mL: 2 }]);
  expect(session.store.speed).toBe(20);
  expect(said).toEqual([]);
  acting.take([{ do: 'pour', liquid: 'water', volume_mL: 2 }]);
  expect(session.store.speed).toBe(5);
  expect(said.map(({ text, action }) => [text, action?.label])).toEqual([['Slowed to ×5, to watch bed and tip.', '×20 again']]);
  said[0].action?.run();
  expect(session.store.speed).toBe(20);
  await expect.poll(() => session.store.moment?.events.some(({ action }) => action?.do === 'pour' && action.liquid === 'water')).toBe(true);
  acting.take([{ do: 'pour', liquid: 'water', volume_mL: 1 }]);
  expect(session.store.speed).toBe(20);
});

test('a clock that was slowed down is as fast as before once the receiver was changed, and on the next column; a speed chosen meanwhile stays', async () => {
  const session = await begun();
  const acting = new Acting(
    () => session,
    () => undefined,
    () => undefined,
  );
  const pour = (liquid: string) => acting.take([{ do: 'pour', liquid, volume_mL: 1 }]);
  const { store } = session;
  await pour('water');
  expect(store.speed).toBe(5);
  await pour('water');
  expect(store.speed).toBe(5);
  await acting.take([{ do: 'receiver', label: 'cobalt' }]);
  expect(store.speed).toBe(5);
  await pour('water');
  expect(store.speed).toBe(20);

  await session.freshColumn(2);
  await pour('water');
  expect(store.speed).toBe(5);
  await session.freshColumn(3);
  await pour('acid');
  expect(store.speed).toBe(20);

  await pour('water');
  store.setSpeed(60);
  await pour('acid');
  expect(store.speed).toBe(60);
});
