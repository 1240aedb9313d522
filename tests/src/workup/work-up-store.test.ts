import { beforeAll, describe, expect, test } from 'vitest';
import { runWhole } from '../../../sim/run/run.ts';
import { defaultProcedure } from '../../../sim/workup/procedure.ts';
import { reportOf } from '../../../sim/report/report.ts';
import { workUpOf } from '../../../src/headless/workup.ts';
import { movedReceiver } from '../../../sim/history/index.ts';
import { changedAt, receiverElsewhere, workedUp } from '../../../sim/report/elsewhere.ts';
import { readSaved } from '../../../src/store/keep/saved.ts';
import { columnRows } from '../../../src/notebook/readings.ts';
import type { Session } from '../../../src/store/session.ts';
import { collected } from './rig.ts';

const present = <T>(value: T | undefined): T => {
  if (value === undefined) throw new Error('expected a value');
  return value;
};

describe('a work-up by the usual steps', () => {
  let session: Session;
  beforeAll(async () => {
    session = await collected();
    session.workUp.actAsUsual(false);
  });

  test('is the usual procedure, step by step', () => {
    const { saved, receiver, values } = session.workUp;
    expect(saved.log).toEqual(defaultProcedure(present(receiver), present(values)));
    expect(session.workUp.refusals).toEqual([]);
  });

  test('gives the figures of the runner, to the last digit', () => {
    const scenario = present(session.store.scenario);
    const ran = workUpOf(runWhole(scenario), 'cobalt', undefined);
    const { receiver, sample, figures } = session.workUp;
    expect(ran.ok && ran.workups.workup.titrations).toEqual(reportOf(present(receiver), sample, present(figures)).titrations);
    expect(ran.ok && ran.workups.workup.cobalt).toEqual(present(figures).cobalt);
  });

  test('finds the unknown within 3 %, and says why not better', () => {
    const cobalt = present(session.workUp.figures?.cobalt ?? undefined);
    expect(Math.abs(cobalt.found_M / 0.18 - 1)).toBeLessThan(0.03);
    const last = present(session.workUp.figures?.titrations.at(-1));
    expect(last.causes.reduce((sum, { percent }) => sum + percent, 0)).toBeCloseTo(last.bias_percent, 6);
  });

  test('comes back from what is kept with the run', () => {
    const reading = readSaved(JSON.parse(JSON.stringify(session.saved())));
    expect(reading.ok && reading.value.workup).toEqual(session.workUp.saved);
  });

  test('is calculated as the learner does, from its last burette readings', () => {
    const readings = present(session.workUp.readings);
    const titre = readings.final_mL - readings.initial_mL;
    session.workUp.answer('titre', `${titre.toFixed(2).replace('.', ',')} mL`);
    session.workUp.answer('EDTA', `${(titre * 0.01).toFixed(5)}`);
    session.workUp.answer('portion', `${(2 * titre * 0.01).toFixed(5)}`);
    const check = present(session.workUp.own);
    expect(check.steps.slice(0, 2).map(({ verdict }) => verdict)).toEqual(['right', 'right']);
    expect(check.firstWrong?.id).toBe('portion');
  });
});

describe('while the reader looks back', () => {
  test('receivers, sample, flask and result are those of the present', async () => {
    const session = await collected();
    const { store, workUp } = session;
    workUp.actAsUsual(false);
    const { receivers, sample, state, result } = workUp;
    const end_min = store.now;
    await store.lookBack(1);
    expect(store.moment?.time_min).toBeCloseTo(1, 1);
    expect(workUp.receivers).toEqual(receivers);
    expect(workUp.receivers.map(({ label }) => label)).toContain('cobalt');
    expect(workUp.sample).toEqual(sample);
    expect(workUp.state).toBe(state);
    expect(workUp.result).toEqual(result);
    await store.lookBack(2);
    expect(workUp.receivers).toEqual(receivers);
    expect(columnRows(session).find(({ what }) => what === 'receiver “cobalt” holds')?.['time']).toBe(end_min);
    await store.lookBack(undefined);
    expect(store.moment).toEqual(store.atPresent);
    expect(store.now).toBe(end_min);
  });
});

describe('a step', () => {
  test('of acid into thiocyanate is refused, named as a hazard, and not in the log', async () => {
    const { workUp } = await collected();
    while (workUp.state?.used.thiocyanate === 0) workUp.actAsUsual(true);
    const before = workUp.saved.log;
    const event = workUp.act({ do: 'add', reagent: 'acetic', dose: { drops: 1 } });
    expect(event?.refused?.received).toBe('acid into thiocyanate');
    expect(event?.notes.map(({ hazard }) => hazard)).toEqual(['thiocyanate']);
    expect(workUp.saved.log).toBe(before);
    expect(workUp.refusals).toHaveLength(1);
  });

  test('of titrant before the indicator is refused', async () => {
    const { workUp } = await collected();
    expect(workUp.act({ do: 'add', reagent: 'EDTA', dose: { drops: 1 } })?.refused?.expected).toContain('thiocyanate');
  });

  test('is taken back and done again to the same state', async () => {
    const { workUp } = await collected();
    for (let i = 0; i < 4; i++) workUp.actAsUsual(true);
    const done = workUp.state;
    workUp.undo();
    expect(workUp.state?.events).toHaveLength(3);
    workUp.redo();
    expect(workUp.state).toEqual(done);
  });
});

describe('another change of the receiver', () => {
  test('4 mL earlier is imagined as the column then really delivers it', async () => {
    const session = await collected();
    const { store, workUp } = session;
    const plan = present(store.plan);
    const imagined = receiverElsewhere(plan, present(workUp.receiver), -4, 0);
    const entry = plan.events.findLastIndex(({ action }) => action?.do === 'receiver');
    const at = present(changedAt(plan, 'cobalt'));
    await store.replace(movedReceiver(plan.log, plan.events, present(plan.events[entry]).entry, at - 4), 0);
    await store.seek(present(store.plan).logEnd.time_min);
    const real = present(workUp.receiver);
    expect(real.volume_mL).toBeCloseTo(imagined.volume_mL, 1);
    // Frames are 0.1 mL apart; a change between two of them is interpolated.
    expect(Math.abs(real.HCl_mmol / imagined.HCl_mmol - 1)).toBeLessThan(0.01);
    expect(real.HCl_mmol).toBeGreaterThan(36);
  });

  test('or nickel left in the bed moves the reported number: nickel up, late change down', async () => {
    const { store, workUp } = await collected();
    const plan = present(store.plan);
    const scenario = present(store.scenario);
    const found = (later_mL: number, nickel: number): number =>
      present(workedUp(scenario, plan, receiverElsewhere(plan, present(workUp.receiver), later_mL, nickel)).figures.cobalt ?? undefined).found_M;
    const asItWas = found(0, 0);
    // 2 % of 0.22 mmol nickel on 0.18 mmol cobalt counts as cobalt once it has reacted.
    const raised = found(0, 0.02) / asItWas - 1;
    expect(raised).toBeGreaterThan(0.02);
    expect(raised).toBeLessThan(0.026);
    const cobalt = present(receiverElsewhere(plan, present(workUp.receiver), 1, 0).Co_mmol) / present(workUp.receiver?.Co_mmol);
    expect(cobalt).toBeLessThan(0.98);
    expect(Math.abs(found(1, 0) / asItWas - cobalt)).toBeLessThan(0.005);
  });
});

describe('aliquots', () => {
  test('are kept with seeds of their own; one of the same seed is replaced', async () => {
    const session = await collected();
    session.workUp.actAsUsual(false);
    session.workUp.keep(present(session.workUp.result));
    session.workUp.keep(present(session.workUp.result));
    expect(session.workUp.saved.kept).toHaveLength(1);
    expect(await session.nextAliquot(true)).toBe(true);
    expect(session.store.scenario?.seed).toBe(present(session.workUp.saved.kept[0]).seed + 1);
    expect(session.workUp.saved.log).toEqual([]);
    session.workUp.actAsUsual(false);
    session.workUp.keep(present(session.workUp.result));
    const [first, second] = session.workUp.saved.kept;
    expect(session.workUp.saved.kept).toHaveLength(2);
    expect(first?.titres_mL).not.toEqual(second?.titres_mL);
  });

  test('take the molarity that is calculated after they were kept, and no other one', async () => {
    const session = await collected();
    const { workUp } = session;
    workUp.actAsUsual(false);
    workUp.keep(present(workUp.result));
    await session.nextAliquot(true);
    workUp.actAsUsual(false);
    workUp.keep(present(workUp.result));
    const titres = workUp.saved.kept.map(({ titres_mL }) => titres_mL);
    workUp.answer('titre', '17.9');
    expect(workUp.saved.kept.map(({ own_M }) => own_M)).toEqual([null, null]);
    workUp.answer('molarity', '0,179 mol/L');
    expect(workUp.saved.kept.map(({ own_M }) => own_M)).toEqual([null, 0.179]);
    workUp.answer('molarity', '');
    expect(workUp.saved.kept.map(({ own_M }) => own_M)).toEqual([null, null]);
    expect(workUp.saved.kept.map(({ titres_mL }) => titres_mL)).toEqual(titres);
  });

  test('handled the same are loaded with the same log, played to its end, and hold their cobalt', async () => {
    const session = await collected();
    const { store, workUp } = session;
    workUp.actAsUsual(false);
    workUp.keep(present(workUp.result));
    const { log } = store;
    await store.lookBack(1);
    await session.nextAliquot(true);
    expect(store.log).toEqual(log);
    expect(store.now).toBe(store.plan?.logEnd.time_min);
    expect(workUp.receiver?.label).toBe('cobalt');
    expect(workUp.receiver?.Co_mmol).toBeGreaterThan(0.17);
    expect(workUp.state?.events).toEqual([]);
  });

  test('begin by hand with nothing done at the column', async () => {
    const session = await collected();
    await session.nextAliquot(false);
    expect(session.store.log).toEqual([]);
    expect(session.workUp.receiver).toBeUndefined();
  });
});

describe('a kept work-up', () => {
  const good = { receiver: 'cobalt', log: [{ do: 'portion', mL: 10 }], answers: { titre: '17,8' }, entries: [{ what: 'mass', value: '1 g' }], kept: [] };

  /** Places of what is wrong with a run that keeps this work-up. */
  function wrongWith(workup: unknown): string[] {
    const read = readSaved({ base: 'cathode-leach', seed: 1, log: [], workup });
    return read.ok ? [] : read.issues.map(({ path }) => path);
  }

  test('is accepted as the page writes it', () => {
    expect(wrongWith(good)).toEqual([]);
    expect(wrongWith(undefined)).toEqual([]);
  });

  test.each([
    ['an unknown key', { ...good, other: 1 }, 'workup.other'],
    ['a receiver that is no text', { ...good, receiver: 3 }, 'workup.receiver'],
    ['an action that nobody knows', { ...good, log: [{ do: 'boil' }] }, 'workup.log[0]'],
    ['an impossible volume', { ...good, log: [{ do: 'portion', mL: -1 }] }, 'workup.log[0].mL'],
    ['an answer to no step', { ...good, answers: { guess: '1' } }, 'workup.answers.guess'],
    ['an entry without a value', { ...good, entries: [{ what: 'x' }] }, 'workup.entries[0]'],
    ['a kept result that is not one', { ...good, kept: [{ seed: 1 }] }, 'workup.kept[0]'],
    ['more results than there are', { ...good, kept: [1, 2, 3, 4] }, 'workup.kept'],
  ])('with %s is refused with its place', (_, value, path) => {
    expect(wrongWith(value)).toContainEqual(expect.stringContaining(path));
  });
});
