import { describe, expect, test } from 'vitest';
import { HIDDEN_TITLE, hiddenRun } from '../../../src/store/keep/hidden-run.ts';
import { imposeFromStart } from '../../../src/faults/imposed/impose.ts';
import { decodeLink, encodeLink } from '../../../src/store/keep/link.ts';
import { isHidden } from '../../../src/store/keep/mystery.ts';
import { readSaved } from '../../../src/store/keep/saved.ts';
import { Session } from '../../../src/store/session.ts';
import { directThread } from '../store/rig.ts';
import { shortSession } from './rig.ts';

async function hidden(): Promise<{ session: Session; link: string }> {
  const { store, json } = await faulty();
  const link = await encodeLink(await hiddenRun(json, store.scenario?.seed ?? 1, store.log), { seal: true });
  if (!link.ok) throw new Error(link.message);
  const session = new Session(directThread(), undefined, 'b');
  await session.start(link.value);
  return { session, link: link.value };
}

async function faulty(): Promise<Session> {
  const session = await shortSession();
  await imposeFromStart(session, { kind: 'crater', severity: 0.6, side_deg: 180 });
  return session;
}

describe('a sealed run', () => {
  test('has the faults, hidden, under a title that gives nothing away', async () => {
    const { session } = await hidden();
    expect(session.faults).toEqual([{ kind: 'crater', severity: 0.6, side_deg: 180 }]);
    expect(isHidden(session.mystery)).toBe(true);
    expect(session.store.scenario?.title).toBe(HIDDEN_TITLE);
    expect(session.base).toBe('cathode-leach');
  });

  test('cannot be read off its address, nor off one copied from it', async () => {
    const { session, link } = await hidden();
    const again = await session.link();
    for (const text of [link, again.ok ? again.value : '']) {
      expect(text).toMatch(/^1s\./);
      expect(Buffer.from(text.split('.')[2] ?? '', 'base64url').toString('latin1')).not.toContain('crater');
    }
  });

  test('of a demonstration does not name it', async () => {
    const session = new Session(directThread(), undefined, 'c');
    await session.openScenario('demo-crater');
    const run = await hiddenRun(session.json, 1, []);
    expect(run.base).toBe('cathode-leach');
    expect(
      JSON.stringify(run.differences)
        .toLowerCase()
        .replace(/"faults":\[[^\]]*\]/, ''),
    ).not.toMatch(/demonstration|crater|poured onto/);
  });

  test('keeps the answer with the run, and passes the question on without it', async () => {
    const { session } = await hidden();
    session.diagnose({ kind: 'channel', reason: 'It leans.', time_min: 12 });
    expect(isHidden(session.mystery)).toBe(false);
    const saved = JSON.parse(JSON.stringify(session.saved()));
    expect(readSaved(saved)).toMatchObject({ ok: true, value: { mystery: { answer: { kind: 'channel', reason: 'It leans.', time_min: 12 } } } });
    const link = await session.link();
    const read = link.ok ? await decodeLink(link.value) : link;
    expect(read.ok && read.value.mystery).toEqual({});
  });
});

test.each([
  ['mystery', 7],
  ['mystery.answer', { answer: 'crater' }],
  ['mystery.answer.kind', { answer: { kind: 'gremlin', reason: '', time_min: 0 } }],
  ['mystery.answer.time_min', { answer: { kind: 'nothing', reason: '', time_min: -1 } }],
])('a saved run is refused for a wrong %s', (path, mystery) => {
  const read = readSaved({ base: 'cathode-leach', seed: 1, log: [], mystery });
  expect(read.ok ? [] : read.issues.map((issue) => issue.path)).toEqual([path]);
});
