import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Box, crosses, overlap } from '../../../src/plot/box.ts';
import { type LabelWish, placeLabels } from '../../../src/plot/place-labels.ts';

// Properties that hold by the meaning of a readable drawing; no figures of the program itself.

const FIELD: Box = { left: 0, right: 400, top: 0, bottom: 150 };
const width = (text: string): number => text.length * 7.4;
const place = fc.record({
  x: fc.double({ min: -20, max: 420, noNaN: true }),
  y: fc.double({ min: -20, max: 170, noNaN: true }),
  anchor: fc.constantFrom('start', 'middle', 'end'),
});
const wish: fc.Arbitrary<LabelWish> = fc.record({
  texts: fc.array(fc.string({ minLength: 1, maxLength: 30 }), { minLength: 1, maxLength: 3 }),
  places: fc.array(place, { minLength: 1, maxLength: 3 }),
  within: fc.constant(FIELD),
});

test('no label lies over another, over what is taken, or outside its bounds', () => {
  fc.assert(
    fc.property(fc.array(wish, { maxLength: 14 }), (wishes) => {
      const taken = [{ left: 100, right: 180, top: 40, bottom: 70 }];
      const boxes = placeLabels(wishes, { width, taken }).flatMap((label) => (label ? [label.box] : []));
      for (const [i, box] of boxes.entries()) {
        expect([...taken, ...boxes.slice(0, i)].filter((other) => overlap(other, box))).toEqual([]);
        expect(box.left >= FIELD.left && box.right <= FIELD.right + 1e-9 && box.top >= FIELD.top && box.bottom <= FIELD.bottom).toBe(true);
      }
    }),
    { seed: 7 },
  );
});

test('a label alone says all it has to say and stands where it wants to be', () => {
  fc.assert(
    fc.property(wish, fc.double({ min: 120, max: 280, noNaN: true }), fc.double({ min: 20, max: 140, noNaN: true }), (given, x, y) => {
      const at = { x, y, anchor: 'middle' } as const;
      const text = given.texts[0].slice(0, 20);
      const [label] = placeLabels([{ ...given, texts: [text, 'short'], places: [at, ...given.places] }], { width });
      expect(label).toMatchObject({ ...at, text });
    }),
    { seed: 7 },
  );
});

test('the label that is wanted more keeps its place; the other moves a line, is shortened where no line is free, or is left out', () => {
  const at = { x: 50, y: 20, anchor: 'start' } as const;
  const wishes = ['you: 3.0 cm, it was 2.5 cm', 'Co falls'].map((text) => ({ texts: [text, text.slice(0, 2)], places: [at], within: FIELD }));
  const [first, second] = placeLabels(wishes, { width });
  expect(first).toMatchObject(at);
  expect(second).toMatchObject({ text: 'Co falls', x: 50, y: 38 });
  const line = { ...FIELD, bottom: 24, right: 270 };
  const one = wishes.map((each, i) => ({ ...each, places: [{ ...at, x: i === 0 ? 50 : 252 }], within: line }));
  expect(placeLabels(one, { width })[1]).toMatchObject({ text: 'Co', x: 252 });
  expect(
    placeLabels(
      one.map((each) => ({ ...each, texts: [each.texts[0]] })),
      { width },
    )[1],
  ).toBeUndefined();
});

test('a label with no room on the side it wants goes to the other side of its mark, not over it', () => {
  const places = [
    { x: 390, y: 60, anchor: 'start' },
    { x: 370, y: 60, anchor: 'end' },
  ] as const;
  expect(placeLabels([{ texts: ['you: 2.7 cm'], places, within: FIELD }], { width })[0]).toMatchObject(places[1]);
});

test('a label keeps off a curve as long as it can, and is not lost to one where it cannot', () => {
  const at = { x: 50, y: 60, anchor: 'start' } as const;
  const wished = { texts: ['acid front'], places: [at], within: FIELD };
  const flat = [
    { x: 0, y: 55 },
    { x: 400, y: 55 },
  ];
  const [moved] = placeLabels([wished], { width, covers: (box) => crosses(flat, box) });
  expect(moved && crosses(flat, moved.box)).toBe(false);
  const dense = Array.from({ length: 60 }, (_, i) => [
    { x: 0, y: i * 3 },
    { x: 400, y: i * 3 },
  ]);
  expect(placeLabels([wished], { width, covers: (box) => dense.some((line) => crosses(line, box)) })[0]).toMatchObject(at);
});

test('a line crosses a box that it runs through between two points, not one that it passes', () => {
  const box = { left: 10, right: 20, top: 10, bottom: 20 };
  expect(
    crosses(
      [
        { x: 0, y: 0 },
        { x: 30, y: 30 },
      ],
      box,
    ),
  ).toBe(true);
  expect(
    crosses(
      [
        { x: 12, y: 12 },
        { x: 13, y: 12 },
      ],
      box,
    ),
  ).toBe(true);
  expect(
    crosses(
      [
        { x: 0, y: 15 },
        { x: 9, y: 15 },
      ],
      box,
    ),
  ).toBe(false);
  expect(
    crosses(
      [
        { x: 0, y: 12 },
        { x: 12, y: 0 },
      ],
      box,
    ),
  ).toBe(false);
  expect(
    crosses(
      [
        { x: 5, y: 0 },
        { x: 5, y: 30 },
      ],
      box,
    ),
  ).toBe(false);
});
