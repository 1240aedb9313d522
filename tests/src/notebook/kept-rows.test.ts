import { beforeAll, describe, expect, test } from 'vitest';
import { KEPT_COLUMNS, keptRow } from '../../../src/notebook/kept-rows.ts';
import type { Session } from '../../../src/store/session.ts';
import { csvText } from '../../../src/ui/text/csv.ts';
import { collected } from '../workup/rig.ts';

// A quarter of the eluate is titrated: 25 mL of 100.

describe('alkali expected and alkali used', () => {
  let session: Session;
  beforeAll(async () => {
    session = await collected({ workup: { titrations: 2, portion_mL: 25, flask_mL: 100 } });
    session.workUp.actAsUsual(false);
  });

  function row(expected: string, expectedFor: 'eluate' | 'portion') {
    session.workUp.expect(expected, expectedFor);
    const { result } = session.workUp;
    if (!result) throw new Error('expected a result');
    return keptRow(result, 0);
  }

  test('stand side by side for the whole eluate, whichever was asked for and whatever part was titrated', () => {
    const one_mL = session.workUp.figures?.titrations.at(-1)?.NaOH_mL ?? Number.NaN;
    expect(row('2.2', 'eluate')).toMatchObject({ expected: 2.2, NaOH: expect.closeTo(4 * one_mL, 9) });
    expect(row('0.55', 'portion')).toMatchObject({ expected: expect.closeTo(2.2, 9), NaOH: expect.closeTo(4 * one_mL, 9) });
  });

  test('are near one another for who divides the acid of the eluate by the molarity of the alkali', () => {
    const acid_mmol = session.workUp.receiver?.HCl_mmol ?? Number.NaN;
    const { expected, NaOH } = row(String(acid_mmol / (session.workUp.values?.['bench.NaOH_M'] ?? 1)), 'eluate');
    // Drops of 0.05 mL, four times, and a little for the pH.
    expect(Math.abs(Number(NaOH) - Number(expected))).toBeLessThan(0.4);
  });

  test('say in the file what they are for', () => {
    const [head = '', line = ''] = csvText(KEPT_COLUMNS, [row('2.2', 'eluate')]).split('\r\n');
    const at = (label: string) =>
      head
        .replaceAll(/"[^"]*"/g, (cell) => cell.replaceAll(',', ';'))
        .split(',')
        .findIndex((cell) => cell.includes(label));
    const cells = line.replaceAll(/"[^"]*"/g, (cell) => cell.replaceAll(',', ';')).split(',');
    expect(cells[at('alkali expected for the whole eluate')]).toBe('2.2');
    expect(Number(cells[at('alkali used; for the whole eluate; mL')])).toBeGreaterThan(1);
  });

  test('kept before that are told with what they were for, not as numbers beside the others', () => {
    const { result } = session.workUp;
    if (!result) throw new Error('expected a result');
    const { alkali_for: _, ...earlier } = { ...result, expected_mL: 2.2, NaOH_mL: 0.55 };
    expect(keptRow(earlier, 0)).toMatchObject({ expected: '2.20\u202fmL as it was asked', NaOH: '0.55\u202fmL in one titration' });
  });
});
