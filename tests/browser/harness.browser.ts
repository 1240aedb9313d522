import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeViolations } from './axe.ts';
import { launch, PHONE, type Session } from './session.ts';

const HAS_WEBGL2 = `document.createElement('canvas').getContext('webgl2') !== null`;

describe('the built page', () => {
  let session: Session;
  beforeAll(async () => {
    session = await launch();
  });
  afterAll(() => session?.close());

  test.each(['light', 'dark'] as const)('opens below a sub-path without a complaint, %s', async (colorScheme) => {
    const opened = await session.openPage({ colorScheme });
    await opened.page.locator('bf-app header').waitFor();
    expect(await opened.page.evaluate(`matchMedia('(prefers-color-scheme: dark)').matches`)).toBe(colorScheme === 'dark');
    await opened.page.waitForLoadState('networkidle');
    await opened.close();
  });

  test('has the width and the touch of a phone when asked', async () => {
    const opened = await session.openPage({ viewport: PHONE, touch: true });
    expect(await opened.page.evaluate(`[innerWidth, matchMedia('(pointer: coarse)').matches]`)).toEqual([PHONE.width, true]);
    await opened.close();
  });

  test('has WebGL 2', async () => {
    const opened = await session.openPage();
    expect(await opened.page.evaluate(HAS_WEBGL2)).toBe(true);
    await opened.close();
  });
});

describe('a complaint', () => {
  let session: Session;
  beforeAll(async () => {
    session = await launch({ webgl: false });
  });
  afterAll(() => session?.close());

  test.each([
    ['a warning', `console.warn('odd')`, /console warning: odd/],
    ['an error', `console.error('bad')`, /console error: bad/],
    ['an exception', `setTimeout(() => { throw new Error('thrown') })`, /page error: .*thrown/],
    ['a rejection', `void Promise.reject(new Error('rejected'))`, /page error: .*rejected/],
    ['a request elsewhere', `void new Image().setAttribute('src', 'http://example.invalid/x.png')`, /example\.invalid/],
    ['a missing file', `void fetch('missing.json')`, /response 404/],
    ['a warning in a worker', `void new Worker('deep.js')`, /console warning: deep/],
  ])('is made of %s', async (_, script, complaint) => {
    const opened = await session.openPage();
    // A worker from the page's own server: its policy allows no other.
    await opened.page.context().route('**/deep.js', (route) => route.fulfill({ contentType: 'text/javascript', body: "console.warn('deep')" }));
    await opened.page.evaluate(script);
    await expect.poll(() => opened.complaints.join('\n')).toMatch(complaint);
    await expect(opened.close()).rejects.toThrow(complaint);
  });

  test('is not made of the absence of WebGL', async () => {
    const opened = await session.openPage();
    expect(await opened.page.evaluate(HAS_WEBGL2)).toBe(false);
    await opened.close();
  });
});

test('axe finds an image without a text, also inside a shadow root', async () => {
  const session = await launch({ webgl: false });
  const opened = await session.openPage();
  await opened.page.evaluate(
    `document.body.appendChild(document.createElement('div')).attachShadow({ mode: 'open' }).innerHTML = '<img width="9" height="9">'`,
  );
  expect(await axeViolations(opened.page)).toContainEqual(expect.stringMatching(/^image-alt \(critical\): div.* > img:/));
  await session.close();
});
