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
  hand.liquid = 'water';
  hand.suit({ ...SHUFFLED });
  expect(hand.liquid).toBe('water');
  hand.suit({ ...SHUFFLED, liquids: { water, acid, sample } });
  expect(hand.liquid).toBe('acid');
});
