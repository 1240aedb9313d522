import { describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/scenario.ts';
import { differencesBetween, effective, emptyBench, valueAt, withValueAt } from '../../../sim/lab/index.ts';
import { shippedJson } from './rig.ts';

const lab = shippedJson('cathode-leach');

describe('a place of a scenario', () => {
  test.each([
    ['title', 'A'],
    ['bed.length_cm', 5],
    ['liquids.acid.HCl_M', 8],
    ['liquids.sample.ions.Mn', 0.1],
    ['procedure[3].volume_mL', 4],
    ['curves.Co', [[1, 2]]],
  ])('%s is set and read back, and nothing else changes', (path, value) => {
    const changed = withValueAt(lab, path, value);
    expect(valueAt(changed, path)).toEqual(value);
    expect(withValueAt(changed, path, valueAt(lab, path))).toEqual(lab);
  });

  test('that is taken away takes the group with it that it leaves empty', () => {
    expect(withValueAt(withValueAt(lab, 'bed.length_cm', 5), 'bed.length_cm', undefined)).toEqual(lab);
  });

  test('of a list that is taken away closes the gap', () => {
    expect(valueAt(withValueAt({ procedure: [1, 2, 3] }, 'procedure[1]', undefined), 'procedure')).toEqual([1, 3]);
  });

  test('called like what every object has is no place', () => {
    expect(valueAt({}, 'constructor')).toBeUndefined();
    expect(valueAt({}, '__proto__.x')).toBeUndefined();
  });

  test('left out follows the grade of resin', () => {
    expect(effective({ resin: { grade: '100-200 mesh, 8 % cross-linked' } }, 'bed.bead_um')).toBeLessThan(200);
    expect(effective({ bed: { length_cm: 'seven' } }, 'bed.length_cm')).toBeUndefined();
  });
});

test('an empty bench is taken by the reader, with nothing poured', () => {
  const read = readScenario(emptyBench(), 'empty-bench');
  expect(read).toMatchObject({ ok: true, scenario: { procedure: [] } });
});

describe('the list of differences', () => {
  test('says what is seen before the end in the words of its control, the usual included', () => {
    expect(differencesBetween(lab, withValueAt(lab, 'seeing', 'eye'))).toMatchObject([{ was: 'everything', now: 'by eye only' }]);
    expect(differencesBetween(lab, withValueAt(lab, 'seeing', 'forecast'))).toEqual([]);
  });

  test('names the grade of a lab that says nothing of its resin', () => {
    expect(differencesBetween(lab, withValueAt(lab, 'resin.grade', '100-200 mesh, 8 % cross-linked'))).toContainEqual(
      expect.objectContaining({ path: 'resin.grade', was: '50-100 mesh, 8 % cross-linked', now: '100-200 mesh, 8 % cross-linked' }),
    );
  });

  test('is empty between equals', () => {
    expect(differencesBetween(lab, structuredClone(lab))).toEqual([]);
  });

  test('names each change with its unit, and putting all back leaves none', () => {
    let changed = withValueAt(lab, 'bed.length_cm', 10);
    changed = withValueAt(changed, 'liquids.acid.HCl_M', 8);
    changed = withValueAt(changed, 'liquids.sample.ions.Mn', 0.2);
    changed = withValueAt(changed, 'liquids.rinse', { label: 'weak acid', HCl_M: 1 });
    changed = withValueAt(changed, 'procedure[3].volume_mL', 4);
    changed = withValueAt(changed, 'faults', [{ kind: 'channel' }]);
    const found = differencesBetween(lab, changed);
    expect(found.map(({ path, unit, was, now }) => [path, unit, was, now])).toEqual([
      ['bed.length_cm', 'cm', '7', '10'],
      ['liquids.acid.HCl_M', 'mol/L', '9', '8'],
      ['liquids.sample.ions.Mn', 'mol/L', 'nothing', '0.2'],
      ['liquids.rinse', '', 'nothing', 'weak acid'],
      ['faults', '', 'nothing', 'channel'],
      ['procedure', '', '42 actions', 'cathode leach in 9 M HCl 1 mL earlier'],
    ]);
    const back = found.reduce<unknown>((json, { path }) => withValueAt(json, path, valueAt(lab, path)), changed);
    expect(back).toEqual(lab);
  });

  test('tells another grade once, not every number that follows from it', () => {
    expect(differencesBetween(lab, withValueAt(lab, 'resin.grade', '20-50 mesh, 8 % cross-linked')).map(({ path }) => path)).toEqual(['resin.grade']);
  });

  test('takes any JSON', () => {
    for (const odd of [null, 3, [], { liquids: [], procedure: {}, ions: 'Co', curves: 1, title: [] }]) {
      expect(() => differencesBetween(lab, odd)).not.toThrow();
      expect(() => differencesBetween(odd, lab)).not.toThrow();
    }
  });
});
