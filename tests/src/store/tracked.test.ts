import { batch, effect } from '@preact/signals-core';
import { describe, expect, test } from 'vitest';
import { derived, tracked } from '../../../src/store/tracked.ts';

class Box {
  @tracked length = 2;
  @tracked width = 3;
  worked = 0;

  @derived get area(): number {
    this.worked += 1;
    return this.length * this.width;
  }

  @derived get large(): boolean {
    return this.area > 10;
  }
}

describe('what is held and what follows from it', () => {
  test('is seen at once after it was set, each owner for itself', () => {
    const [one, other] = [new Box(), new Box()];
    one.length = 5;
    expect([one.area, other.area]).toEqual([15, 6]);
  });

  test('is worked out once for all who read it', () => {
    const box = new Box();
    expect([box.area, box.area, box.large]).toEqual([6, 6, false]);
    expect(box.worked).toBe(1);
  });

  test('is told to those who read it, and only when it differs', () => {
    const box = new Box();
    const told: boolean[] = [];
    const stop = effect(() => void told.push(box.large));
    box.width = 4;
    box.width = 4;
    box.width = 6;
    stop();
    box.width = 1;
    expect(told).toEqual([false, true]);
  });

  test('is told once for what changes together', () => {
    const box = new Box();
    const told: number[] = [];
    effect(() => void told.push(box.area));
    batch(() => {
      box.length = 1;
      box.width = 10;
    });
    expect(told).toEqual([6, 10]);
  });
});
