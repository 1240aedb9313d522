import { describe, expect, test } from 'vitest';
import { Settling } from '../../../src/bench/task/settling.ts';

// What a second tap of a finger means. The browser tests press the page itself; here the times are exact, in ms.

const press = new EventTarget();

/** A list whose one press becomes another thing at 1000 ms, after a press at 900 ms. */
function changing(pointerType: string, detail = 1) {
  const settling = new Settling();
  settling.drawn([[press, 'next: load the sample']], 0);
  const tap = (timeStamp: number, by = pointerType, clicks = detail, busy = false) => {
    if (clicks > 0) settling.take({ pointerType: by, timeStamp } as PointerEvent);
    return settling.hasty({ detail: clicks, currentTarget: press }, busy);
  };
  expect(tap(900)).toBe(false);
  settling.drawn([[press, 'next: wash']], 1000);
  return { settling, tap };
}

describe('a press that has just become another thing', () => {
  test('does nothing under the finger that pressed it before, and then does what it says', () => {
    const { tap } = changing('touch');
    expect(tap(1400)).toBe(true);
    expect(tap(1699)).toBe(true);
    expect(tap(1700)).toBe(false);
  });

  test('does nothing where it changed between the finger coming down and going up', () => {
    const { settling, tap } = changing('touch');
    settling.take({ pointerType: 'touch', timeStamp: 2000 } as PointerEvent);
    settling.drawn([[press, 'next: water']], 2050);
    expect(settling.hasty({ detail: 1, currentTarget: press }, false)).toBe(true);
    expect(tap(2800)).toBe(false);
  });

  test('does nothing while the finger’s press before is being answered', () => {
    const { tap } = changing('touch');
    expect(tap(5000, 'touch', 1, true)).toBe(true);
    expect(tap(5400)).toBe(false);
  });

  test('counts the time from a change of what it is for, not from a drawing of the same', () => {
    const { settling, tap } = changing('touch');
    settling.drawn([[press, 'next: wash']], 1600);
    expect(tap(1750)).toBe(false);
  });

  test('is pressed by keys and screen readers, which count no clicks, also after a touch', () => {
    const { tap } = changing('touch');
    expect(tap(1100, '', 0)).toBe(false);
    expect(tap(1200)).toBe(false);
  });

  test('is pressed by a mouse, whose double click is told by its count', () => {
    const { tap } = changing('mouse');
    expect(tap(1100)).toBe(false);
    expect(tap(1200, 'mouse', 2)).toBe(true);
  });
});
