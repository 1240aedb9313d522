import { beforeEach, describe, expect, test } from 'vitest';
import { procedureOf, usualRecipe, valueAt } from '../../../sim/lab/index.ts';
import { LabDraft } from '../../../src/lab/draft.ts';
import { labAddress, openAddress } from '../../../src/lab/share.ts';
import { EMPTY_BENCH } from '../../../src/store/shipped/catalog.ts';
import type { HandOut } from '../../../sim/handed/index.ts';
import { emptied } from '../../../src/bench/packing/empty.ts';
import { Session } from '../../../src/store/session.ts';
import { memory } from '../store/memory.ts';
import { directThread } from '../store/rig.ts';

/** A long address of a school's server. */
const HERE = 'https://teaching.example.org/chemistry/instrumental-analysis/bandfall/index.html#lab';
const LINK_MAX = 2000;

let storage: Storage;
beforeEach(() => {
  storage = memory();
});

async function begun(): Promise<LabDraft> {
  const session = new Session(directThread(), memory(), 'a');
  await session.start(undefined);
  const draft = new LabDraft(storage);
  expect(await draft.begin(session)).toBe('');
  return draft;
}

/** What an instructor changes: names, column, resin, bottles, sample, procedure, faults, work-up, a curve of twelve points. */
function changed(draft: LabDraft): void {
  draft.set('title', 'Cobalt from nickel, second-year laboratory, room 214');
  draft.set('purpose', 'Separate cobalt from nickel in the unknown that your group was given, and find how much cobalt it holds by titration with EDTA.');
  draft.set('notice', ['Watch the leading edge, not the volume.', 'Never let the bed run dry.', 'Collect until long after the colour is gone.']);
  for (const [path, value] of Object.entries({
    'column.bore_cm': 1.1,
    'column.tube_cm': 30,
    'bed.length_cm': 8.5,
    'column.outlet_cm': 2,
    'resin.grade': '100-200 mesh, 8 % cross-linked',
    'workup.EDTA_M': 0.02,
    'bench.NaOH_M': 4,
    'class.period_min': 240,
    'class.groups': 12,
    'differ.bead': 0.1,
    seeing: 'eye',
    coach: 'ask',
    faults: [{ kind: 'channel', severity: 0.4, side_deg: 90 }],
    'curves.Co': Array.from({ length: 12 }, (_, i) => [i + 0.5, Number((0.1 * 1.9 ** i).toPrecision(3))]),
  }))
    draft.set(path, value);
}

describe('a lab in hand', () => {
  test('says at the place what does not fit, and is sound again when that is mended', async () => {
    const draft = await begun();
    draft.set('bed.length_cm', 25);
    expect(draft.scenario).toBeUndefined();
    expect(draft.problemAt('bed.length_cm')).toMatch(/tube must be taller/);
    draft.set('column.tube_cm', 40);
    expect(draft.issues).toEqual([]);
    expect(draft.scenario?.values['bed.length_cm']).toBe(25);
  });

  test('goes back and forth step by step, and a new step ends the way forth', async () => {
    const draft = await begun();
    const before = draft.json;
    draft.set('bed.length_cm', 8);
    draft.set('bed.length_cm', 9);
    draft.undo();
    expect(valueAt(draft.json, 'bed.length_cm')).toBe(8);
    draft.redo();
    expect(valueAt(draft.json, 'bed.length_cm')).toBe(9);
    draft.undo();
    draft.undo();
    expect(draft.json).toEqual(before);
    draft.set('bed.length_cm', 6);
    expect(draft.canRedo).toBe(false);
  });

  test('is there again in the next tab, with the steps that led to it', async () => {
    const draft = await begun();
    changed(draft);
    draft.set('bed.length_cm', 60);
    const again = await begun();
    expect(again.json).toEqual(draft.json);
    expect(again.scenario).toBeUndefined();
    again.undo();
    expect(again.scenario?.values['bed.length_cm']).toBe(8.5);
  });

  test.each(['{', '{"version":9}', '{"version":1,"labs":[{"base":7}]}', '[]'])('kept as %s is put aside, not written over', async (text) => {
    storage.setItem('bandfall.lab', text);
    const session = new Session(directThread(), memory(), 'a');
    await session.start(undefined);
    const draft = new LabDraft(storage);
    expect(await draft.begin(session)).toMatch(/could not be read/);
    draft.set('bed.length_cm', 8);
    expect(storage.getItem('bandfall.lab.unread')).toBe(text);
  });

  test('begun from an empty bench takes bottles and a procedure', async () => {
    const draft = await begun();
    expect(await draft.startFrom(EMPTY_BENCH)).toMatchObject({ ok: true });
    draft.set('liquids.acid', { label: '8 M HCl', HCl_M: 8 });
    draft.set('liquids.sample', { label: 'unknown', HCl_M: 8, ions: { Co: 0.1, Ni: 0.1 } });
    const recipe = draft.scenario && usualRecipe(draft.scenario);
    if (!recipe) throw new Error('expected a recipe');
    draft.set('procedure', procedureOf(recipe));
    expect(draft.scenario?.procedure.length).toBeGreaterThan(30);
    draft.undo();
    draft.undo();
    draft.undo();
    draft.undo();
    expect(draft.lab.base).toBe('cathode-leach');
  });
});

describe('the link of a lab', () => {
  test('holds an ordinary lab in under 2,000 characters, and opens as the same', async () => {
    const draft = await begun();
    changed(draft);
    const address = await labAddress(draft, HERE);
    if (!address.ok) throw new Error(address.message);
    expect(address.value.length).toBeLessThan(LINK_MAX);
    const other = await begun();
    other.undo();
    expect(await openAddress(other, new URL(address.value).hash)).toMatchObject({ ok: true });
    expect(other.json).toEqual(draft.json);
  });

  test('holds one from an empty bench too, procedure and all', async () => {
    const draft = await begun();
    await draft.startFrom(EMPTY_BENCH);
    draft.set('liquids.acid', { label: '8 M HCl', HCl_M: 8 });
    draft.set('liquids.sample', { label: 'unknown', HCl_M: 8, ions: { Co: 0.1, Ni: 0.1 } });
    const recipe = draft.scenario && usualRecipe(draft.scenario);
    draft.set('procedure', recipe && procedureOf(recipe));
    changed(draft);
    const address = await labAddress(draft, HERE);
    if (!address.ok) throw new Error(address.message);
    expect(address.value.length).toBeLessThan(LINK_MAX);
  });

  test('is refused while something does not fit, and damaged changes nothing', async () => {
    const draft = await begun();
    const { json } = draft;
    expect(await openAddress(draft, '#lab?lab=1.00000000.abc')).toMatchObject({ ok: false, message: expect.stringMatching(/damaged/) });
    expect(draft.json).toBe(json);
    draft.set('bed.length_cm', 60);
    expect(await labAddress(draft, HERE)).toMatchObject({ ok: false, message: expect.stringMatching(/bed\.length_cm/) });
  });

  test('for students names no demonstration where the fault is to be found', async () => {
    const draft = await begun();
    await draft.startFrom('demo-channel');
    draft.setHidden(true);
    const run = await draft.forStudents();
    expect(run).toMatchObject({ base: 'cathode-leach', mystery: {}, log: [] });
    const session = new Session(directThread(), memory(), 'a');
    expect(await session.openRun(run)).toBe(true);
    expect(session.faults.map(({ kind }) => kind)).toEqual(['channel']);
  });
});

describe('the name of a bottle', () => {
  const labels = (draft: LabDraft) => Object.values(draft.scenario?.liquids ?? {}).map(({ label }) => label);

  test('follows its acid where it tells the molarity, is one step of undo, and the lab differs in both', async () => {
    const draft = await begun();
    expect(labels(draft)).toEqual(['9 M HCl', 'cathode leach in 9 M HCl', 'water']);
    draft.set('liquids.acid.HCl_M', 8);
    draft.set('liquids.sample.HCl_M', 7.5);
    draft.set('liquids.water.HCl_M', 0.1);
    expect(labels(draft)).toEqual(['8 M HCl', 'cathode leach in 7.5 M HCl', '0.1 M HCl']);
    draft.set('liquids.water.HCl_M', 0);
    draft.undo();
    expect(labels(draft)[2]).toBe('0.1 M HCl');
  });

  test('stays where the lab gave its own', async () => {
    const draft = await begun();
    draft.set('liquids.acid.label', 'strong acid');
    draft.set('liquids.acid.HCl_M', 8);
    draft.set('liquids.sample.label', '19 M HCl, a joke');
    draft.set('liquids.sample.HCl_M', 8);
    expect(labels(draft)).toEqual(['strong acid', '19 M HCl, a joke', 'water']);
  });
});

describe('what is on the bench', () => {
  const handOut: HandOut = {
    base: 'cathode-leach',
    differences: { title: 'Handed out' },
    seed: 5,
    column: 'fresh',
    seeing: 'eye',
    tries: 1,
    asked: [],
    own: [],
  };
  const onBench = async (prepare: (session: Session) => Promise<unknown>): Promise<{ session: Session; draft: LabDraft }> => {
    const session = new Session(directThread(), memory(), 'a');
    await session.start(undefined);
    await prepare(session);
    const draft = new LabDraft(memory());
    await draft.begin(session);
    return { session, draft };
  };

  test('is taken as the lab has it, with its bed, though the run was begun with an empty tube', async () => {
    const { session, draft } = await onBench((session) => session.beginOther(emptied(session.json)));
    expect(session.store.scenario?.values['bench.packed']).toBe(0);
    expect(draft.issues).toEqual([]);
    expect(draft.scenario?.values['bench.packed']).toBe(1);
    draft.set('bed.length_cm', 9);
    expect(await draft.openBench(session)).toMatchObject({ ok: true });
    expect([draft.issues, draft.scenario?.values['bench.packed']]).toEqual([[], 1]);
  });

  test('is not drawn while it is a try of a hand-out that does not allow the forecast', async () => {
    const { session, draft } = await onBench((session) => session.task.open(handOut));
    expect(valueAt(draft.json, 'title')).toBe('My lab');
    expect(valueAt(draft.json, 'procedure')).toBeUndefined();
    expect(await draft.openBench(session)).toMatchObject({ ok: false, message: expect.stringContaining('when its tries are over') });
    session.task.end();
    await session.store.act({ do: 'pour', liquid: 'acid', volume_mL: 2 });
    session.task.end();
    expect(await draft.openBench(session)).toMatchObject({ ok: true });
    expect(valueAt(draft.json, 'title')).toBe('Handed out');
  });

  test('is drawn where the hand-out allows the forecast', async () => {
    const { draft } = await onBench((session) => session.task.open({ ...handOut, seeing: 'forecast' }));
    expect(valueAt(draft.json, 'title')).toBe('Handed out');
  });
});
