import { converter, differenceCiede2000, type Rgb } from 'culori';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type BedCell, bedColour } from '../../sim/colour/bed.ts';
import { vesselStops } from '../../sim/colour/liquid.ts';
import type { Rgb as Channels } from '../../sim/colour/srgb.ts';
import type { Moment } from '../../src/store/threads/planner.ts';
import { type Cell, momentWith, scenarioWith } from '../src/glass/moment.ts';
import { axeViolations } from './axe.ts';
import { launch, type OpenedPage, type PageOptions, type Session } from './session.ts';

const WIDTH = 260;
const HEIGHT = 640;
const BED = { bedTop: 140, bedBottom: 420 };
const LANES = 13;
const PLATES = 100;
const scenario = scenarioWith({ bed: { plates: PLATES, lanes: LANES } });
/** CIEDE2000 from a general colour library; up to 3 two colours side by side are hardly told apart (common practice, no source). */
const dE00 = differenceCiede2000();
const CLOSE = 3;
const toRgb = converter('rgb');

/** Five zones, each 20 plates deep. */
const ZONES: readonly (Cell & BedCell)[] = [
  { HCl_M: 0, pore: {}, resin: {} },
  { HCl_M: 9, pore: { Ni: 0.3 }, resin: {} },
  { HCl_M: 9, pore: {}, resin: { Co: 0.003 } },
  { HCl_M: 9, pore: { Co: 0.01 }, resin: { Co: 0.05 } },
  { HCl_M: 9, pore: { Co: 0.05 }, resin: { Co: 0.4 } },
];
const zoned = momentWith(scenario, (_, plate) => ZONES[Math.floor(plate / 20)]);
/** Cobalt down to 3.5 cm in the middle, a third of the bed further on the left and as much less on the right. */
const leaning = momentWith(scenario, (lane, plate) => {
  const front = lane === 0 ? 50 : 50 + 30 * Math.sin(((lane - 1) * 30 * Math.PI) / 180);
  return { HCl_M: 9, pore: {}, resin: plate < front ? { Co: 0.1 } : {} };
});

let session: Session;
beforeAll(async () => {
  session = await launch();
});
afterAll(() => session?.close());

/** A page with the element alone in its top left corner. */
async function place(
  moment: Moment,
  tag: 'bf-glass' | 'bf-unrolled' = 'bf-glass',
  options: PageOptions = {},
  from: Session = session,
  properties: Readonly<Record<string, unknown>> = {},
): Promise<OpenedPage> {
  const opened = await from.openPage({ hash: '#bench', ...options });
  await opened.page.waitForFunction(() => customElements.get('bf-glass') !== undefined);
  await opened.page.evaluate(`(() => {
    const host = document.createElement('div');
    host.id = 'host';
    host.style.cssText = 'width:${WIDTH}px;height:${HEIGHT}px;background:var(--paper)';
    const element = Object.assign(document.createElement('${tag}'), ${plain({ ...BED, scenario, moment, labels: ['nickel', 'cobalt'], ...properties })});
    host.append(element);
    document.body.replaceChildren(host);
  })()`);
  if (tag === 'bf-glass' && from === session) await until(opened.page, `document.querySelector('bf-glass').drawing === 'shown'`);
  return opened;
}

/** Text of a value for the page, typed arrays as lists. */
function plain(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) => (part instanceof Float64Array ? [...part] : part));
}

/** Waits in the page until a condition holds; the page forbids what waitForFunction does with text. */
async function until(page: Page, condition: string): Promise<void> {
  await page.evaluate(`(async () => { while (!(${condition})) await new Promise((resolve) => setTimeout(resolve, 50)); })()`);
}

/** Colours on the screen at these places of the element, after the drawing has come to rest. */
function pixels(page: Page, places: readonly (readonly [x: number, y: number])[]): Promise<Rgb[]> {
  return patches(
    page,
    places.map(([x, y]) => [x, y, 1, 1]),
  );
}

type Patch = readonly [x: number, y: number, width: number, height: number];

/** Mean light of these patches, by middle and size, as a colour: what the eye sees of beads that it does not tell apart. */
async function patches(page: Page, places: readonly Patch[]): Promise<Rgb[]> {
  await atRest(page);
  const picture = await page.screenshot({ clip: { x: 0, y: 0, width: WIDTH + 20, height: HEIGHT + 20 } });
  const read = await page.evaluate<number[][]>(`(async () => {
    // The page allows no image but its own files.
    const bytes = Uint8Array.from(atob('${picture.toString('base64')}'), (letter) => letter.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height });
    const context = canvas.getContext('2d', { willReadFrequently: true });
    context.drawImage(image, 0, 0);
    const corner = document.querySelector('#host').getBoundingClientRect();
    const light = (c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
    return ${JSON.stringify(places)}.map(([x, y, width, height]) => {
      const { data } = context.getImageData(Math.round(corner.left + x - (width - 1) / 2), Math.round(corner.top + y - (height - 1) / 2), width, height);
      const sum = [0, 0, 0];
      for (let i = 0; i < data.length; i++) if (i % 4 < 3) sum[i % 4] += light(data[i] / 255) / (width * height);
      return sum;
    });
  })()`);
  return read.map(([r, g, b]) => toRgb({ mode: 'lrgb', r, g, b }));
}

/** Waits until no frame has been drawn for a while and the last was at full resolution. */
async function atRest(page: Page): Promise<void> {
  await page.evaluate(`(async () => {
    const frames = () => {
      const stage = document.querySelector('bf-glass')?.stage;
      return stage === undefined ? 0 : stage.resting ? stage.frames : Number.NaN;
    };
    for (let seen = -1; seen !== frames(); await new Promise((resolve) => setTimeout(resolve, 500))) seen = frames();
  })()`);
}

function colour([r, g, b]: Channels): Rgb {
  return { mode: 'rgb', r, g, b };
}

function bed(cell: BedCell): Rgb {
  return colour(bedColour(cell, scenario.values['resin.tint_per_cm'], { porosity: scenario.values['bed.porosity'], beadUm: scenario.values['bed.bead_um'] }));
}

/** y of the middle of a zone. */
function zoneY(zone: number): number {
  return BED.bedTop + ((zone + 0.5) / ZONES.length) * (BED.bedBottom - BED.bedTop);
}

describe('the glass', () => {
  test.each(['light', 'dark'] as const)('shows the bed in its computed colours across its middle, bead by bead, %s', async (colorScheme) => {
    const opened = await place(zoned, 'bf-glass', { colorScheme });
    const shown = await patches(
      opened.page,
      ZONES.map((_, zone) => [WIDTH / 2, zoneY(zone), 19, 38]),
    );
    for (const [zone, cell] of ZONES.entries()) expect(dE00(shown[zone], bed(cell)), `zone ${zone}`).toBeLessThan(CLOSE);
    // Each zone of cobalt begins at its depth: 7 px to either side of the line between two, that is two beads, the nearer colour is its own.
    const edges = [2, 3, 4].flatMap((zone) =>
      [-7, 7].map((away) => ({ zone: away < 0 ? zone - 1 : zone, other: away < 0 ? zone : zone - 1, y: zoneY(zone - 0.5) + away })),
    );
    const beside = await patches(
      opened.page,
      edges.map(({ y }) => [WIDTH / 2, y, 19, 5]),
    );
    for (const [i, { zone, other }] of edges.entries()) expect(dE00(beside[i], bed(ZONES[zone])), `edge ${i}`).toBeLessThan(dE00(beside[i], bed(ZONES[other])));
    await opened.close();
  });

  test('shows the liquid above the bed in its computed colour', async () => {
    const head = Float64Array.from([9, 0, 0.3].map((c) => c * 0.64));
    const opened = await place({ ...zoned, head, headVolume: 0.64, level_cm: 1 });
    const [shown] = await pixels(opened.page, [[WIDTH / 2, BED.bedTop - 8]]);
    const stops = vesselStops({ HCl_M: 9, ions: { Ni: 0.3 } }, scenario.values['column.bore_cm'] / 2);
    expect(dE00(shown, colour(stops[4].colour))).toBeLessThan(CLOSE);
    await opened.close();
  });

  test('shows water clear before a dark page as before a light one: close to what stands behind it, not white', async () => {
    const head = Float64Array.from([0, 0, 0]);
    const lightness: number[] = [];
    for (const colorScheme of ['light', 'dark'] as const) {
      const opened = await place({ ...zoned, head, headVolume: 0.64, level_cm: 1 }, 'bf-glass', { colorScheme });
      const [{ r, g, b }] = await pixels(opened.page, [[WIDTH / 2, BED.bedTop - 8]]);
      lightness.push((r + g + b) / 3);
      await opened.close();
    }
    const [light, dark] = lightness;
    expect(light).toBeGreaterThan(0.85);
    expect(dark).toBeGreaterThan(0.2);
    expect(dark).toBeLessThan(0.6);
  });

  test('shows a leaning band leaning, and each side when asked', async () => {
    const opened = await place(leaning);
    const { page } = opened;
    const stained = bed({ HCl_M: 9, pore: {}, resin: { Co: 0.1 } });
    const bare = bed({ HCl_M: 9, pore: {}, resin: {} });
    // Half way down lies above the front on the left (at 65 % where the glass has turned by 30 degrees) and below it on the right (35 %).
    const y = (BED.bedTop + BED.bedBottom) / 2;
    const isStained = async (x: number): Promise<boolean> => {
      const [shown] = await patches(page, [[x, y, 7, 25]]);
      return dE00(shown, stained) < dE00(shown, bare);
    };
    expect([await isStained(WIDTH / 2 - 10), await isStained(WIDTH / 2 + 10)]).toEqual([true, false]);
    const turn = page.getByRole('button', { name: 'turn by a quarter' });
    await turn.click();
    expect([await isStained(WIDTH / 2 - 7), await isStained(WIDTH / 2 + 7)]).toEqual([true, true]);
    await turn.click();
    await turn.click();
    expect([await isStained(WIDTH / 2 - 7), await isStained(WIDTH / 2 + 7)]).toEqual([false, false]);
    await opened.close();
  });

  test('is looked at from the side that it is given, until it is turned', async () => {
    const opened = await place(leaning, 'bf-glass', {}, session, { from_deg: 90 });
    const { page } = opened;
    const hand = page.getByRole('slider', { name: 'Turn the column' });
    expect(await hand.getAttribute('aria-valuetext')).toBe('seen from the left');
    await hand.press('Home');
    expect(await hand.getAttribute('aria-valuetext')).toBe('seen from the front');
    await opened.close();
  });

  test('turns by keys and by dragging, and says from where it is seen', async () => {
    const opened = await place(leaning);
    const { page } = opened;
    const hand = page.getByRole('slider', { name: 'Turn the column' });
    await hand.focus();
    for (let press = 0; press < 6; press++) await page.keyboard.press('ArrowLeft');
    expect(await hand.getAttribute('aria-valuetext')).toBe('seen from the left');
    await page.keyboard.press('Home');
    const corner = await page.locator('#host').boundingBox();
    const x = (corner?.x ?? 0) + WIDTH / 2;
    await page.mouse.move(x, 250);
    await page.mouse.down();
    await page.mouse.move(x + 75, 250, { steps: 5 });
    await page.mouse.up();
    expect(await hand.getAttribute('aria-valuetext')).toBe('seen from the left');
    await opened.close();
  });

  test('tells the depth under the pointer and under the keys, and when there is none', async () => {
    const opened = await place(zoned);
    const { page } = opened;
    await page.evaluate(`void Object.assign(window, { told: [] }); addEventListener('bf-depth', (event) => told.push(event.detail.depth_cm))`);
    const corner = await page.locator('#host').boundingBox();
    const [left, top] = [corner?.x ?? 0, corner?.y ?? 0];
    await page.mouse.move(left + WIDTH / 2, top + (BED.bedTop + BED.bedBottom) / 2);
    await page.mouse.move(left + 10, top + 10);
    await page.getByRole('slider', { name: 'Turn the column' }).focus();
    await page.keyboard.press('PageDown');
    const told = await page.evaluate<(number | null)[]>('told');
    const length = scenario.values['bed.length_cm'];
    expect(told[0]).toBeCloseTo(length / 2, 1);
    expect(told[1] ?? undefined).toBeUndefined();
    expect(told[2]).toBeCloseTo(1, 6);
    await opened.close();
  });

  test('draws nothing while nothing changes', async () => {
    const opened = await place(zoned);
    await atRest(opened.page);
    const frames = `document.querySelector('bf-glass').stage.frames`;
    const before = await opened.page.evaluate(frames);
    await opened.page.waitForTimeout(1000);
    expect(await opened.page.evaluate(frames)).toBe(before);
    await opened.close();
  });

  test('says the height of the liquid that is drawn, not of a moment whose picture is still to come', async () => {
    const opened = await place({ ...zoned, level_cm: 1 });
    await atRest(opened.page);
    const said = await opened.page.evaluate<string[]>(`(async () => {
      const glass = document.querySelector('bf-glass');
      const frame = () => new Promise(requestAnimationFrame);
      const said = () => [...glass.shadowRoot.querySelectorAll('svg.words .strong')].map((text) => text.textContent).find((text) => text.endsWith('mm'));
      const before = said();
      glass.stage.panel.ready = () => false;
      glass.moment = { ...glass.moment, level_cm: 1.2 };
      for (let i = 0; i < 3; i++) await frame();
      const waiting = said();
      delete glass.stage.panel.ready;
      for (let i = 0; i < 200 && glass.stage.pictured !== glass.moment; i++) await frame();
      await glass.updateComplete;
      return [before, waiting, said()];
    })()`);
    expect(said).toEqual(['10\u202fmm', '10\u202fmm', '12\u202fmm']);
    await opened.close();
  });

  test('drips at the rate of the model, and not where motion is unwelcome', async () => {
    for (const [reducedMotion, expected] of [
      ['no-preference', 1],
      ['reduce', 0],
    ] as const) {
      const opened = await place({ ...zoned, flow: 0.5, delivered_mL: 1.001 }, 'bf-glass', { reducedMotion });
      await atRest(opened.page);
      const fallen = await opened.page.evaluate<number>(`(async () => {
        const glass = document.querySelector('bf-glass');
        Object.assign(glass, { playing: true, speed: 1 });
        await glass.updateComplete;
        let drops = 0;
        let shown = false;
        for (let frame = 0; frame < 80; frame++) {
          if (frame === 5) glass.moment = { ...glass.moment, delivered_mL: 1.052 };
          await new Promise(requestAnimationFrame);
          const falls = glass.stage.dripping.falling_s !== undefined;
          if (falls && !shown) drops++;
          shown = falls;
        }
        return drops;
      })()`);
      expect(fallen, reducedMotion).toBe(expected);
      await opened.close();
    }
  });

  test('gives way to the unrolled bed while its context is lost, and comes back in the same colours', async () => {
    const opened = await place(zoned);
    const { page } = opened;
    await page.evaluate(
      `void Object.assign(window, { lost: document.querySelector('bf-glass').shadowRoot.querySelector('canvas').getContext('webgl2').getExtension('WEBGL_lose_context') }); lost.loseContext()`,
    );
    await page.locator('bf-unrolled').waitFor();
    await page.getByText('The drawing was interrupted').waitFor();
    await page.evaluate('lost.restoreContext()');
    await page.locator('bf-unrolled').waitFor({ state: 'detached' });
    const shown = await patches(
      page,
      ZONES.map((_, zone) => [WIDTH / 2, zoneY(zone), 19, 38]),
    );
    for (const [zone, cell] of ZONES.entries()) expect(dE00(shown[zone], bed(cell)), `zone ${zone}`).toBeLessThan(CLOSE);
    await opened.close();
  });

  test('lets its drawing go when it leaves the page, and draws again when it is back', async () => {
    const opened = await place(zoned);
    const { page } = opened;
    await page.evaluate(`void Object.assign(window, { glass: document.querySelector('bf-glass') }); glass.remove()`);
    expect(await page.evaluate('glass.stage === undefined')).toBe(true);
    await page.evaluate(`document.querySelector('#host').append(glass)`);
    await until(page, 'glass.stage !== undefined');
    const [shown] = await patches(page, [[WIDTH / 2, zoneY(4), 19, 38]]);
    expect(dE00(shown, bed(ZONES[4]))).toBeLessThan(CLOSE);
    await opened.close();
  });

  test('names the ions where their bands lie, when asked', async () => {
    const bands = {
      Co: { trailing_cm: 1, leading_cm: 3, centroid_cm: 2, amount_mmol: 0.1 },
      Ni: { trailing_cm: 4, leading_cm: 6, centroid_cm: 5, amount_mmol: 0.1 },
    };
    const results = { ...zoned.results, bands, loaded: { Co_mmol: 0.1, Ni_mmol: 0.1 } };
    for (const names of [false, true]) {
      const opened = await place({ ...zoned, results } as unknown as Moment, 'bf-glass', {}, session, { names });
      expect(await opened.page.locator('.words .ion').allTextContents()).toEqual(names ? ['Co', 'Ni'] : []);
      await opened.close();
    }
  });
});

describe('the things on the glass', () => {
  async function placed(options: PageOptions = {}): Promise<OpenedPage> {
    const opened = await place({ ...zoned, clampOpen: 1 }, 'bf-glass', options, session, { acts: true });
    await opened.page.evaluate(`void Object.assign(window, { told: [] });
      for (const name of ['glass-clamp', 'glass-pour', 'glass-receiver', 'glass-depth']) addEventListener(name, (event) => told.push([name, event.detail]))`);
    return opened;
  }

  test('can be pressed, by pointer and by keys', async () => {
    const opened = await placed();
    const { page } = opened;
    await page.getByRole('button', { name: 'Clamp, open 100 %' }).click();
    await page.getByRole('button', { name: 'Pour into the tube' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /^Receiver cobalt/ }).click();
    expect((await page.evaluate<unknown[][]>('told')).filter(([name]) => name !== 'glass-depth')).toEqual([
      ['glass-clamp', {}],
      ['glass-pour', {}],
      ['glass-receiver', { label: 'cobalt' }],
    ]);
    await opened.close();
  });

  test('let a receiver be dragged under the tip, and only there', async () => {
    const opened = await placed();
    const { page } = opened;
    const box = await page.getByRole('button', { name: /^Receiver cobalt/ }).boundingBox();
    const corner = await page.locator('#host').boundingBox();
    if (!box || !corner) throw new Error('receiver: expected to be on the page');
    for (const to of [box.x + box.width / 2 + 20, corner.x + WIDTH / 2]) {
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(to, box.y + 20, { steps: 4 });
      await page.mouse.up();
    }
    expect((await page.evaluate<unknown[][]>('told')).filter(([name]) => name === 'glass-receiver')).toEqual([['glass-receiver', { label: 'cobalt' }]]);
    await opened.close();
  });

  test('tell which depth was pressed', async () => {
    const opened = await placed();
    const { page } = opened;
    const corner = await page.locator('#host').boundingBox();
    await page.mouse.click((corner?.x ?? 0) + WIDTH / 2, (corner?.y ?? 0) + (BED.bedTop + BED.bedBottom) / 2);
    const told = await page.evaluate<[string, { depth_cm: number; pressed: boolean }][]>('told');
    const pressed = told.filter(([name, detail]) => name === 'glass-depth' && detail.pressed);
    expect(pressed).toHaveLength(1);
    expect(pressed[0][1].depth_cm).toBeCloseTo(scenario.values['bed.length_cm'] / 2, 1);
    await opened.close();
  });

  test.each(['bf-glass', 'bf-unrolled'])('need no style in the text of the page: %s', async (tag) => {
    const opened = await session.openPage({ hash: '#bench' });
    const { page } = opened;
    await page.waitForFunction(() => customElements.get('bf-glass') !== undefined);
    const refused = await page.evaluate<string[]>(`(async () => {
      document.body.replaceChildren();
      const told = [];
      addEventListener('securitypolicyviolation', (event) => told.push(event.effectiveDirective + ' ' + event.sample));
      const host = document.createElement('div');
      host.style.cssText = 'width:260px;height:640px';
      const element = Object.assign(document.createElement('${tag}'), ${plain({ ...BED, scenario, moment: { ...zoned, level_cm: 1 }, whole: true, labels: ['nickel', 'cobalt'], acts: true, names: true, exaggerate: true, depth_cm: 3 })});
      host.append(element);
      document.body.append(host);
      while ('${tag}' === 'bf-glass' ? element.drawing !== 'shown' : !element.canvas) await new Promise((resolve) => setTimeout(resolve, 50));
      const probe = document.createElement('div');
      probe.setAttribute('style', 'top:0');
      await new Promise((resolve) => setTimeout(resolve, 100));
      return told;
    })()`);
    // The one refusal is that of the probe: the policy is in force.
    expect(refused).toHaveLength(1);
    expect(refused[0]).toContain('style-src');
    opened.complaints.length = 0;
    await opened.close();
  });
});

describe('the glass of another scenario', () => {
  test('is drawn anew, also after a while without a moment', async () => {
    const opened = await place(zoned);
    const { page } = opened;
    const other = {
      scenario: scenarioWith({ bed: { plates: 20, lanes: 5 } }),
      moment: momentWith(scenarioWith({ bed: { plates: 20, lanes: 5 } }), () => ZONES[4]),
    };
    await page.evaluate(
      `void Object.assign(window, { glass: document.querySelector('bf-glass') }); Object.assign(glass, { scenario: undefined, moment: undefined })`,
    );
    await page.evaluate('glass.updateComplete');
    await page.evaluate(`Object.assign(glass, ${plain(other)})`);
    await until(page, `glass.drawing === 'shown'`);
    const shown = await patches(page, [
      [WIDTH / 2, zoneY(0), 19, 38],
      [WIDTH / 2, zoneY(4), 19, 38],
    ]);
    for (const colourShown of shown) expect(dE00(colourShown, bed(ZONES[4]))).toBeLessThan(CLOSE);
    await opened.close();
  });
});

describe('a bed that has shrunk by a fifth', () => {
  const [top, bottom] = [BED.bedTop + 0.2 * (BED.bedBottom - BED.bedTop), BED.bedBottom];
  const shrunk = { ...zoned, bed_cm: 0.8 * scenario.values['bed.length_cm'] };

  test.each([
    ['bf-glass', CLOSE],
    ['bf-unrolled', 1],
  ] as const)('stands on its support in %s, every zone at its share of what is left, with liquid where it was', async (tag, close) => {
    const opened = await place(shrunk, tag);
    const places = ZONES.map((_, zone): Patch => [WIDTH / 2, top + ((zone + 0.5) / ZONES.length) * (bottom - top), 10, 20]);
    const shown = await patches(opened.page, [...places, [WIDTH / 2, BED.bedTop + 20, 4, 4]]);
    for (const [zone, cell] of ZONES.entries()) expect(dE00(shown[zone], bed(cell)), `zone ${zone}`).toBeLessThan(close);
    expect(dE00(shown[ZONES.length], bed(ZONES[0]))).toBeGreaterThan(10);
    await opened.close();
  });
});

describe('the unrolled bed', () => {
  test('shows every cell in its computed colour, at the depth it was given', async () => {
    const opened = await place(zoned, 'bf-unrolled');
    const shown = await pixels(
      opened.page,
      ZONES.map((_, zone) => [WIDTH / 2, zoneY(zone)]),
    );
    for (const [zone, cell] of ZONES.entries()) expect(dE00(shown[zone], bed(cell)), `zone ${zone}`).toBeLessThan(1);
    await opened.close();
  });

  test('stands in for the glass without WebGL, with the reason', async () => {
    const without = await launch({ webgl: false });
    const opened = await place(leaning, 'bf-glass', {}, without);
    await opened.page.getByText('This browser draws no WebGL').waitFor();
    expect(await opened.page.locator('bf-unrolled').evaluate((element) => element.shadowRoot?.querySelector('#words')?.textContent)).toContain('Liquid stands');
    await opened.close();
    await without.close();
  });
});

describe.each(['light', 'dark'] as const)('in the %s', (colorScheme) => {
  test.each(['bf-glass', 'bf-unrolled'] as const)('axe finds nothing in %s', async (tag) => {
    const opened = await place(zoned, tag, { colorScheme }, session, { acts: true, names: true, exaggerate: true });
    await atRest(opened.page);
    // The page is the element alone: it has no landmarks and no heading of its own.
    expect((await axeViolations(opened.page, { within: '#host' })).filter((line) => !/^(region|landmark-one-main|page-has-heading-one)/.test(line))).toEqual(
      [],
    );
    await opened.close();
  });
});
