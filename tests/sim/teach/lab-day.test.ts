import { describe, expect, test } from 'vitest';
import { wholePlan } from '../../../sim/class/whole.ts';
import { checklistOf, isWashed, type Offer, offerFor, type Step } from '../../../sim/teach/index.ts';
import type { Action, Log } from '../../../sim/terms/types.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../../src/store/rig.ts';

// A day of three aliquots, in which bottles and receivers are wanted again and again.

/** One lane is fast; what is due does not depend on the lanes. */
const DAY = shipped('lab-day', { bed: { lanes: 1 } });
/** More presses than the day takes. */
const PRESSES = 80;

class Day {
  log: Log = [];
  private readonly planner = new Planner(DAY);

  get moment() {
    return this.planner.moment(this.planner.plan(this.log).logEnd.time_min);
  }

  /** Leading edge above the bottom of the bed. */
  get above_mm(): number {
    const { bands } = this.moment.results;
    return (this.planner.plan(this.log).length_cm - (bands.Co?.leading_cm ?? 0)) * 10;
  }

  get steps(): Step[] {
    const { moment } = this;
    return checklistOf(DAY, moment.events, false, isWashed(DAY, moment));
  }

  get due(): Step | undefined {
    return this.steps.find(({ state }) => state === 'now');
  }

  offer(of: (step: Step) => boolean = ({ state }) => state === 'now'): Offer | undefined {
    const step = this.steps.find(of);
    return step && offerFor(DAY, this.moment, step);
  }

  do(...actions: Action[]): void {
    this.log = [...this.log, ...actions];
  }

  /** Presses what is due until this step is. */
  until(role: Step['role'], label = ''): void {
    for (let n = 0; n < PRESSES && !(this.due?.role === role && this.due.label === label); n++) this.do(...(this.offer()?.actions ?? []));
  }
}

describe('the list of a day', () => {
  test('has the same six steps for each aliquot: acid after the water makes the bed ready for the next', () => {
    const roles = checklistOf(DAY, []).map(({ role, label }) => label || role);
    const aliquot = (n: number) => ['condition', 'load', 'wash', `cobalt ${n}`, 'release'];
    expect(roles).toEqual([...aliquot(1), 'waste', ...aliquot(2), 'waste', ...aliquot(3), 'stop']);
  });

  test('followed press by press ends with receivers that hold what the written day gives', () => {
    const day = new Day();
    let presses = 0;
    for (; presses < PRESSES; presses++) {
      const offer = day.offer();
      if (!offer) break;
      day.do(...offer.actions);
    }
    const { events, results } = day.moment;
    expect(events.filter(({ refused }) => refused)).toEqual([]);
    expect(day.steps.every(({ state }) => state === 'done')).toBe(true);
    const written = wholePlan(DAY, DAY.procedure).results;
    expect(results.receivers.map(({ label }) => label)).toEqual(['waste', 'cobalt 1', 'cobalt 2', 'cobalt 3']);
    for (const [n, held] of written.receivers.entries()) {
      const by = results.receivers[n];
      expect(by.volume_mL, held.label).toBeCloseTo(held.volume_mL, 1);
      // Of 0.18 mmol a load: larger portions wash a little differently, by less than half a per cent.
      expect(Math.abs(Number(by.Co_mmol) - Number(held.Co_mmol)), held.label).toBeLessThan(0.0009);
    }
  });

  test('ticks a receiver that is wanted twice only in its turn, and until then pours no acid into the cobalt', () => {
    const day = new Day();
    day.until('change', 'cobalt 2');
    expect(day.steps.filter(({ label }) => label === 'waste').map(({ state }) => state)).toEqual(['done', 'later']);
    day.do(...(day.offer()?.actions ?? []));
    day.until('change', 'waste');
    expect(day.steps.filter(({ label }) => label === 'waste').map(({ state }) => state)).toEqual(['done', 'now']);
    expect(day.offer(({ state, role }) => state === 'open' && role === 'condition')).toBeUndefined();
    expect(day.steps.filter(({ role }) => role === 'condition').map(({ state }) => state)).toEqual(['done', 'done', 'later']);
  });

  test('takes back a change when the receiver before it is put back, and no tick comes of putting back what was there', () => {
    const day = new Day();
    day.until('wash');
    day.do({ do: 'receiver', label: 'waste' });
    expect(day.steps.filter(({ role }) => role === 'change').every(({ state }) => state === 'later')).toBe(true);
    day.until('change', 'cobalt 1');
    day.do({ do: 'receiver', label: 'cobalt 1' });
    day.do({ do: 'pour', liquid: 'water', volume_mL: 5 }, { do: 'wait', until: { liquid_mm: 1 } }, { do: 'receiver', label: 'waste' });
    expect(day.steps.find(({ label }) => label === 'waste')?.state).toBe('done');
    day.do({ do: 'receiver', label: 'cobalt 1' });
    expect(day.steps.find(({ label }) => label === 'waste')?.state).toBe('later');
    expect(day.due).toMatchObject({ role: 'release', poured_mL: 5 });
  });

  test('counts water that comes again while the bed is made ready for the water before, and passes no sample over', () => {
    const day = new Day();
    day.until('condition');
    day.until('change', 'waste');
    day.do({ do: 'receiver', label: 'waste' }, { do: 'pour', liquid: 'acid', volume_mL: 5 }, { do: 'wait', until: { liquid_mm: 1 } });
    day.do({ do: 'pour', liquid: 'water', volume_mL: 2 });
    expect(day.steps.find(({ role }) => role === 'release')?.poured_mL).toBeCloseTo(32, 9);
    expect(day.due).toMatchObject({ role: 'condition', poured_mL: 5 });
  });

  test('calls a receiver that was left out missed once the acid of the next aliquot is poured, and goes on', () => {
    const day = new Day();
    day.until('change', 'cobalt 1');
    const water: Log = [1, 2, 3, 4].flatMap(() => [{ do: 'pour', liquid: 'water', volume_mL: 7.5 } as const, { do: 'wait', until: { liquid_mm: 1 } } as const]);
    day.do(...water);
    expect(day.due).toMatchObject({ role: 'change', label: 'cobalt 1' });
    day.do({ do: 'receiver', label: 'waste' }, { do: 'pour', liquid: 'acid', volume_mL: 5 });
    expect(day.steps.find(({ label }) => label === 'cobalt 1')?.state).toBe('missed');
    expect(day.due).toMatchObject({ role: 'condition', poured_mL: 5 });
  });
});

describe('the wash of a day', () => {
  test('is pressed in the portions after which the procedure looks, and ends once the leading edge is as near the bottom as it says', () => {
    const day = new Day();
    day.until('wash');
    const pressed: number[] = [];
    for (let offer = day.offer(); day.due?.role === 'wash'; offer = day.offer()) {
      expect(day.above_mm).toBeGreaterThan(5);
      pressed.push(offer?.volume_mL ?? Number.NaN);
      day.do(...(offer?.actions ?? []));
    }
    // 2 mL wash the sample in; then 18 mL without a look, in a tube that takes 8.2, and 4, 4, 3, 3 ... as written.
    expect(pressed.slice(0, 5)).toEqual([6, 6, 6, 4, 4]);
    expect(pressed.length).toBeLessThan(10);
    expect(day.above_mm).toBeLessThan(5);
    expect(day.due).toMatchObject({ role: 'change', label: 'cobalt 1' });
  });
});
