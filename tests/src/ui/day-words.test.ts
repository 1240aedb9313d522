import { expect, test } from 'vitest';
import { wholePlan } from '../../../sim/class/whole.ts';
import { dayWords, tooLongWords } from '../../../src/ui/day/day-words.ts';
import { shipped } from '../store/rig.ts';

// One run of a small bed; only the period differs, so the length of the day by itself decides what is said.

const LAB = shipped('cathode-leach', { bed: { lanes: 1, plates: 20 }, class: { people: 3, aliquots: 3, columns: 1 } });
const PLAN = wholePlan(LAB, LAB.procedure);
const within = (period_min: number) => ({ ...LAB, values: { ...LAB.values, 'class.period_min': period_min } });
const plain = (text = ''): string => text.replaceAll(/\s/g, ' ');

/** Length of the day that is told, min. */
function told(text: string): number {
  const [, h = 0, min = 0] = /take (?:(\d+) h)? ?(?:(\d+) min)? with the work-up/.exec(plain(text)) ?? [];
  return 60 * Number(h) + Number(min);
}

test('a day that is too long says so, in the words of the lab, by the difference of day and period', () => {
  const day_min = told(dayWords(within(60), PLAN));
  expect(day_min).toBeGreaterThan(60);
  const words = tooLongWords(within(day_min - 20), PLAN);
  expect(plain(words)).toMatch(/^3 aliquots by 3 people on 1 column take .*: (19|20|21) min too long for a period of /);
  expect(dayWords(within(day_min - 20), PLAN).endsWith(` ${words}`)).toBe(true);
});

test('one aliquot takes its time', () => {
  const one = { ...LAB, values: { ...LAB.values, 'class.aliquots': 1, 'class.people': 1 } };
  expect(plain(dayWords(one, PLAN))).toContain('1 aliquot by 1 person on 1 column takes ');
});

test('a day that fits has nothing to be warned of', () => {
  const day_min = told(dayWords(within(60), PLAN));
  expect(tooLongWords(within(day_min + 20), PLAN)).toBeUndefined();
  expect(plain(dayWords(within(day_min + 20), PLAN))).toMatch(/to spare in a period of/);
});
