import { describe, expect, test } from 'vitest';
import { type HandedIn, type HandOut, handOutMark } from '../../../sim/handed/index.ts';
import { actionsApart } from '../../../sim/handed/actions.ts';
import { targetsOf } from '../../../sim/history/index.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { ClassRoom } from '../../../src/class/class-room.ts';
import { elsewhereWords, nameRows, objectionRows } from '../../../src/class/tables/objections.ts';
import { metWords, questionRows, runColumns, runRows, wholeTable } from '../../../src/class/tables/summary.ts';
import { marks } from '../../../src/class/marks.ts';
import { markup } from '../markup.ts';
import { csvText } from '../../../src/ui/text/csv.ts';
import { shipped } from '../store/rig.ts';
import { handedText, taken } from './handed.ts';

// What the page says of files that were taken in, each made from a run of the model and then spoiled by hand.

const JSON_OF = { bed: { lanes: 1, plates: 20 } };
const SCENARIO = { ...shipped('cathode-leach', JSON_OF), seed: 3 };
/** Three pours of the procedure made larger. */
const OWN: Log = SCENARIO.procedure.map((action, i) => (action.do === 'pour' && i < 8 ? { ...action, volume_mL: action.volume_mL + 1 } : action));

const written = (who: string, log: Log, under?: HandedIn['under']): string => handedText(who, SCENARIO, JSON_OF, log, under);

async function roomWith(...files: readonly [file: string, text: string][]): Promise<ClassRoom> {
  const room = new ClassRoom();
  room.taken = await Promise.all(files.map(([file, text]) => taken(file, text)));
  return room;
}

describe('runs of the same actions', () => {
  test('are named in table and spreadsheet where they are three or more actions from the procedure', async () => {
    expect(actionsApart(OWN, SCENARIO.procedure)).toBeGreaterThanOrEqual(3);
    const { held } = await roomWith(['a', written('Ada', OWN)], ['b', written('Bo', OWN)], ['c', written('Cy', SCENARIO.procedure)]);
    expect(runRows(held).map(({ same }) => same)).toEqual(['Bo', 'Ada', '']);
    expect(runColumns(held).map(({ label }) => label)).toContain('same actions as');
    expect(wholeTable(held).columns.map(({ label }) => label)).toContain('same actions as');
  });

  test('of many the table names two and counts the rest; the spreadsheet names them all', async () => {
    const { held } = await roomWith(...['Ada', 'Bo', 'Cy', 'Di', 'Ed'].map((who): [string, string] => [who, written(who, OWN)]));
    expect(runRows(held)[0]?.same).toBe('Bo, Cy and 2 more');
    expect(wholeTable(held).rows[0]?.same).toBe('Bo, Cy, Di, Ed');
    expect(questionRows(held)).toEqual([]);
  });

  test('are not named where both follow the procedure, and need no column', async () => {
    const { held } = await roomWith(['a', written('Ada', SCENARIO.procedure)], ['b', written('Bo', SCENARIO.procedure)]);
    expect(runRows(held).map(({ same }) => same)).toEqual(['', '']);
    expect(wholeTable(held).rows.map(({ differences }) => differences)).toEqual(['', '']);
    expect(runColumns(held).map(({ label }) => label)).not.toContain('same actions as');
  });
});

test('actionsApart() counts what was changed, added and left out, whenever it was done', () => {
  const wait = (elapsed_min: number): Log[number] => ({ do: 'wait', until: { elapsed_min } });
  expect(actionsApart([wait(1), wait(2), wait(3)], [wait(1), wait(2), wait(3)])).toBe(0);
  expect(actionsApart([{ ...wait(1), at_min: 4 }, wait(2)], [wait(1), wait(2)])).toBe(0);
  expect(actionsApart([wait(1), wait(9), wait(3)], [wait(1), wait(2), wait(3)])).toBe(1);
  expect(actionsApart([wait(1)], [wait(1), wait(2), wait(3)])).toBe(2);
});

const HAND_OUT: HandOut = { base: 'cathode-leach', differences: JSON_OF, seed: 3, column: 'same', seeing: 'figure', tries: 2, asked: [], own: [] };
const underOf = (handOut: HandOut): NonNullable<HandedIn['under']> => {
  const { column, seeing, tries } = handOut;
  return { mark: handOutMark(handOut), attempt: 1, column, seeing, tries };
};

describe('runs beside a hand-out that they are not from', () => {
  const other: HandOut = { ...HAND_OUT, seed: 4, tries: 1 };
  const sound = written('Ada', OWN, underOf(HAND_OUT));
  const files: readonly [string, string][] = [
    ['a', sound],
    ['b', written('Bo', OWN, underOf(other))],
    ['c', written('Cy', OWN)],
    ['d', sound.slice(0, 90)],
    ['e', written('Ed', OWN, underOf(other)).replace(/"delivered_mL": [\d.]+/, '"delivered_mL": 7')],
  ];

  test('are counted in a sentence, and do not bury the files that do not agree', async () => {
    const room = await roomWith(...files);
    expect(elsewhereWords(room.held)).toBe('');
    await room.holdAgainst(HAND_OUT);
    expect(objectionRows(room.held).map(({ file, verdict }) => [file, verdict])).toEqual([
      ['d', 'damaged'],
      ['e', 'altered'],
    ]);
    expect(String(objectionRows(room.held)[1]?.['why'])).toMatch(/^delivered, mL: 7 in the file, [\d.]+ when computed again; and 1 more difference$/);
    expect(elsewhereWords(room.held)).toBe('3 runs are not of this hand-out: 2 from another hand-out, 1 from none.');
    expect(runRows(room.held).map(({ verdict }) => verdict)).toEqual(['agrees', 'another hand-out', 'no hand-out', 'damaged', 'altered']);
    room.holdAgainstNothing();
    expect(runRows(room.held).map(({ verdict }) => verdict)).toEqual(['agrees', 'agrees', 'agrees', 'damaged', 'altered']);
  });

  test('a run of this hand-out that breaks its rules still is one that does not agree', async () => {
    const room = await roomWith(['a', written('Ada', OWN, { ...underOf(HAND_OUT), attempt: 3 })]);
    await room.holdAgainst(HAND_OUT);
    expect(objectionRows(room.held)).toEqual([{ file: 'a', verdict: 'other rules', who: 'Ada', why: 'tries: expected at most 2, received try 3 of 2' }]);
    expect(elsewhereWords(room.held)).toBe('');
  });
});

describe('several files under one name', () => {
  const two: readonly [string, string][] = [
    ['a', written('Ada', OWN)],
    ['b', written('ada ', SCENARIO.procedure)],
    ['c', written('Bo', SCENARIO.procedure)],
  ];

  test('have a verdict and a table of their own, apart from files that do not agree', async () => {
    const { held } = await roomWith(...two);
    expect(runRows(held).map(({ verdict }) => verdict)).toEqual(['same name 2 times', 'same name 2 times', 'agrees']);
    expect(objectionRows(held)).toEqual([]);
    expect(nameRows(held)).toEqual([{ who: 'Ada', times: '2', tries: '1', files: 'a, b' }]);
  });

  test('are no more than there were tries: nothing is said', async () => {
    const room = await roomWith(...two);
    await room.holdAgainst(HAND_OUT);
    expect(room.problem).toBe('');
    expect(nameRows(room.held)).toEqual([]);
    await room.holdAgainst({ ...HAND_OUT, tries: 1 });
    expect(nameRows(room.held)).toHaveLength(1);
  });
});

describe('the spreadsheet of a class', () => {
  test('names the verdict, writes rounding errors as 0, and keeps small results', async () => {
    const { held } = await roomWith(['a', written('Ada', SCENARIO.procedure)]);
    const spoiled = held.map((one) => ({ ...one, run: one.run && { ...one.run, carried: 2.4e-91, acid_mmol: 2.4e-9 } }));
    const { columns, rows } = wholeTable(spoiled);
    expect(columns.map(({ label }) => label).slice(0, 3)).toEqual(['name of the file', 'who', 'verdict']);
    expect([rows[0]['carried'], rows[0]['acid']]).toEqual([0, 2.4e-9]);
    expect(csvText(columns, rows)).not.toContain('e-91');
  });

  test('has a line for every file that was not computed', async () => {
    const { held } = await roomWith(['a', written('Ada', SCENARIO.procedure)]);
    const { columns, rows } = wholeTable(held, ['b', 'c']);
    expect(rows.map(({ file, verdict }) => `${file}: ${verdict}`)).toEqual(['a: agrees', 'b: not computed', 'c: not computed']);
    expect(csvText(columns, rows)).toContain('not computed');
  });
});

describe('a file that does not agree is told in plain words', () => {
  const why = async (text: string): Promise<string> => String(objectionRows((await roomWith(['f', text])).held)[0]?.['why']);
  const sound = written('Ada', SCENARIO.procedure);

  test.each(['{\n "kind": "bandfall-handed-in",\n "version": 1,\n "wh', '{\n "kind": "bandfall-handed-in",\n "version": 1,\n'])(
    'cut off in %j',
    async (text) => {
      expect(await why(text)).toBe('the file is cut off after line 3');
    },
  );

  test('altered: by the figure that differs', async () => {
    const claims = await why(sound.replace(/"delivered_mL": [\d.]+/, '"delivered_mL": 7'));
    expect(claims).toMatch(/^delivered, mL: 7 in the file, [\d.]+ when computed again; and 1 more difference$/);
    expect(await why(sound.replace(/"HCl_mmol": [\d.]+/, '"HCl_mmol": 0.5'))).toMatch(
      /^HCl in receiver 1, mmol: 0.5 in the file, \d{3}\.\d when computed again/,
    );
    const volume = Number(/"delivered_mL": ([\d.]+)/.exec(sound)?.[1]);
    // A difference in the sixth digit takes six digits to be seen, and no more.
    const near = await why(sound.replace(/"delivered_mL": [\d.]+/, `"delivered_mL": ${volume + 4e-4}`));
    expect(near).toContain(`: ${Number((volume + 4e-4).toPrecision(6))} in the file, ${Number(volume.toPrecision(6))} when computed again`);
  });

  test('changed where no figure differs', async () => {
    expect(await why(sound.replace('"Ada"', '"Eve"'))).toBe('the text was changed since it was written, though no figure differs');
  });
});

test('answers that were not given are counted as asked', async () => {
  const { held } = await roomWith(['a', written('Ada', SCENARIO.procedure)]);
  const answer = { question: 'q', prompt: 'q', said: 'yes', choice: 'a', right: true, rightReason: true };
  const of = (asked: number | undefined) => runRows(held.map((one) => ({ ...one, asked, run: one.run && { ...one.run, answers: [answer] } })))[0]?.['answers'];
  expect([of(2), of(1), of(undefined)]).toEqual(['1 of 1 answered (2 asked)', '1 of 1', '1 of 1']);
});

test('runs that met the task are counted above and told in table and spreadsheet', async () => {
  const at = SCENARIO.procedure.findLastIndex((action) => action.do === 'receiver');
  const late = SCENARIO.procedure.map((action, i) => (i === at - 1 ? ({ do: 'wait', until: { more_mL: 4 } } as const) : action));
  const { held } = await roomWith(['a', written('Ada', SCENARIO.procedure)], ['b', written('Bo', late)], ['c', written('Cy', SCENARIO.procedure).slice(0, 80)]);
  const targets = targetsOf(SCENARIO);
  const cobalt = (log: Log): number => {
    const { receivers, loaded } = resultsOf(runWhole(SCENARIO, log));
    return Number(receivers.find(({ label }) => label === 'cobalt')?.Co_mmol) / (loaded.Co_mmol ?? Number.NaN);
  };
  expect(cobalt(late)).toBeLessThan(targets.recovered);
  expect(held.map(({ run }) => run?.meets)).toEqual([cobalt(SCENARIO.procedure) >= targets.recovered, false, undefined]);
  const good = held[0]?.run?.meets ? 1 : 0;
  expect(metWords(held)).toBe(`${good} of the 2 that agree met the task.`);
  expect(runRows(held).map(({ met }) => met)).toEqual([good === 1 ? 'yes' : 'no', 'no', undefined]);
  const { columns, rows } = wholeTable(held);
  expect([columns.map(({ label }) => label).includes('met the task'), rows[1]?.['met']]).toEqual([true, 'no']);
});

test('the spreadsheet names what a run did otherwise than the procedure', async () => {
  const loaded = SCENARIO.procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'sample');
  const short: Log = SCENARIO.procedure.map((action, i) =>
    action.do === 'pour' && action.liquid === 'acid' && i > loaded ? { ...action, volume_mL: action.volume_mL / 2 } : action,
  );
  const { held } = await roomWith(['a', written('Ada', short)]);
  expect(wholeTable(held).rows[0].differences).toContain('short wash');
});

test('a receiver that was changed with the water has its mark beside that of the water', async () => {
  const { held } = await roomWith(['a', written('Ada', SCENARIO.procedure)]);
  const run = held.flatMap((one) => one.run ?? [])[0];
  const drawn = markup(marks([{ ...run, eluent_mL: 50, change_mL: 50 }]));
  const [, x = '', y = ''] = /translate\(([\d.]+) ([\d.]+)\)/.exec(drawn) ?? [];
  const [, cx = '', cy = ''] = /<circle class="change" cx=([\d.]+) cy=([\d.]+)/.exec(drawn.replaceAll(/(c[xy]=)"([\d.]+)"/g, '$1$2')) ?? [];
  expect(Number(cx)).toBe(Number(x));
  expect(Number(cy) - Number(y)).toBeGreaterThanOrEqual(8);
});

test('a share just beyond its limit is not shown as if it met it', async () => {
  const { held } = await roomWith(['a', written('Ada', SCENARIO.procedure)]);
  const shown = held.map((one) => ({
    ...one,
    run: one.run && { ...one.run, recovered: 0.9947, carried: 0.0052, targets: { ...one.run.targets, recovered: 0.995, carried: 0.005 } },
  }));
  const [row] = runRows(shown);
  const text = (key: string) => {
    const column = runColumns(shown).find((one) => one.key === key);
    return column?.show?.(Number(row[key]), row).replaceAll('\u202f', ' ');
  };
  expect([text('recovered'), text('carried')]).toEqual(['99.47 %', '0.52 %']);
});
