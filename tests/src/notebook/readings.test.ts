import { beforeAll, describe, expect, test } from 'vitest';
import { csvText } from '../../../src/ui/text/csv.ts';
import { predictionLines, READING_COLUMNS, readingRows } from '../../../src/notebook/readings.ts';
import { eyePredictions } from '../../../src/plot/eye-predictions.ts';
import type { Session } from '../../../src/store/session.ts';
import { collected } from '../workup/rig.ts';

describe('the readings of a run', () => {
  let session: Session;
  beforeAll(async () => {
    session = await collected();
    session.workUp.expect('0,5', 'eluate');
    session.workUp.actAsUsual(false);
  });

  test('hold every pour, every receiver and every step of the work-up', () => {
    const rows = readingRows(session);
    const pours = session.store.log.filter((action) => action.do === 'pour').length;
    expect(rows.filter(({ what }) => String(what).endsWith('poured'))).toHaveLength(pours);
    expect(rows.filter(({ where }) => where === 'work-up')).toHaveLength(session.workUp.saved.log.length);
    expect(rows.map(({ what }) => what)).toContain('receiver “cobalt” holds');
  });

  test('hold what was done for the bed, and a clamp only where it was turned', async () => {
    const other = await collected();
    const { store } = other;
    const crater = { kind: 'crater', severity: 0.5 } as const;
    await store.replace(
      [
        { do: 'clamp', open_percent: 0 },
        { do: 'pour', liquid: 'acid', volume_mL: 6 },
        { do: 'clamp', open_percent: 0 },
        { do: 'stir' },
        { do: 'fault', fault: crater },
        { do: 'top-up', resin_mL: 0.1 },
        { do: 'refill-from-below', liquid: 'acid', volume_mL: 0.5 },
        { do: 'clamp', open_percent: 50 },
        { do: 'clamp', open_percent: 50 },
        { do: 'clamp', open_percent: 0 },
      ],
      0,
    );
    await store.seek(store.plan?.logEnd.time_min ?? 0);
    expect(store.moment?.events.filter(({ refused }) => refused)).toEqual([]);
    const done = readingRows(other).flatMap(({ where, what }) => (where === 'column' && !String(what).startsWith('receiver') ? [what] : []));
    expect(done).toEqual([
      'clamp shut',
      '6.00 mL 9 M HCl poured',
      'bed stirred up and settled',
      'topped up with 0.10 mL resin',
      '0.50 mL 9 M HCl pushed in from below',
      'clamp open to 50 %',
      'clamp shut',
    ]);
  });

  test('show the burette as it was read at each end point', () => {
    const read = readingRows(session).flatMap(({ burette }) => (burette === undefined ? [] : [burette]));
    expect(read).toEqual(session.workUp.figures?.titrations.map(({ titre }) => titre.final_mL));
  });

  test('are one line each in the file', () => {
    const rows = readingRows(session);
    expect(csvText(READING_COLUMNS, rows).trimEnd().split('\r\n')).toHaveLength(rows.length + 1);
  });

  test('keep what was set by eye, with what it was, as the figure says it', async () => {
    const other = await collected();
    const { store } = other;
    const end_min = store.now;
    await store.seek(0.5);
    other.markByEye({ mL: 40, depth_cm: 1 });
    other.markByEye({ mL: 50 });
    const last = predictionLines(other);
    expect(last).toHaveLength(2);
    expect(last[0]).not.toContain('it was');
    await store.seek(end_min);
    const [depth, leaving] = predictionLines(other);
    const [inFigure, atFoot] = eyePredictions(other).map(({ label }) => label);
    expect(depth).toBe(`leading edge of the cobalt(II) at 40.0\u202fmL, set by eye; ${inFigure}: ${eyePredictions(other)[0].why}`);
    expect(depth).toMatch(/you: 1\.0\scm, it was \d\.\d\scm: over [\d.]+\smL its edge moved /);
    expect(leaving).toBe(`where the cobalt(II) begins to leave (its first 1\u202f%), set by eye; ${atFoot}`);
    await store.lookBack(1);
    expect(predictionLines(other)).toEqual([depth, leaving]);
  });

  test('keep what was expected', () => {
    expect(predictionLines(session)).toEqual(['alkali for all of the eluate: 0,5 mL']);
    session.workUp.expect('1,1', 'portion');
    expect(predictionLines(session)).toEqual(['alkali for one portion of the eluate: 1,1 mL']);
  });
});
