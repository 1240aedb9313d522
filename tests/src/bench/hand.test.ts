import { expect, test } from 'vitest';
import { bottlesInOrder, Hand } from '../../../src/bench/hand.ts';
import { small } from '../store/rig.ts';

const SCENARIO = small();
const { acid, sample, water } = SCENARIO.liquids;
const SHUFFLED = { ...SCENARIO, liquids: { water, spare: acid, sample, acid } };

test('bottles stand in the order in which the procedure first pours them, unused ones last', () => {
  expect(bottlesInOrder(SHUFFLED)).toEqual(['acid', 'sample', 'water', 'spare']);
});

test('the bottle of the first pour is in hand when a bench is opened, and a choice stays while its bottles stay', () => {
  const hand = new Hand();
  hand.suit(SHUFFLED);
  expect(hand.liquid).toBe('acid');
  hand.take('water');
  hand.suit({ ...SHUFFLED });
  expect(hand.liquid).toBe('water');
  hand.suit({ ...SHUFFLED, liquids: { water, acid, sample } });
  expect(hand.liquid).toBe('acid');
});

test('a bottle comes with the amount of its first pour in the procedure, and keeps the one that was set', () => {
  const hand = new Hand();
  hand.suit(SCENARIO);
  const sample_mL = SCENARIO.procedure.find((action) => action.do === 'pour' && action.liquid === 'sample');
  hand.take('sample');
  expect(hand.pour).toEqual({ do: 'pour', liquid: 'sample', volume_mL: sample_mL?.do === 'pour' ? sample_mL.volume_mL : Number.NaN, how: 'wall' });
  hand.volume_mL = 0.7;
  hand.take('water');
  hand.take('sample');
  expect(hand.volume_mL).toBe(0.7);
});

test('the bottle that the list pours is in hand from then on; presses that pour nothing change nothing', () => {
  const hand = new Hand();
  hand.suit(SCENARIO);
  hand.follow([{ do: 'receiver', label: 'cobalt' }]);
  expect(hand.liquid).toBe('acid');
  hand.follow([
    { do: 'clamp', open_percent: 100 },
    { do: 'pour', liquid: 'sample', volume_mL: 1 },
    { do: 'pour', liquid: 'water', volume_mL: 6 },
  ]);
  expect(hand.liquid).toBe('water');
  hand.suit({ ...SCENARIO, seed: SCENARIO.seed + 1 });
  expect(hand.liquid).toBe('acid');
});
