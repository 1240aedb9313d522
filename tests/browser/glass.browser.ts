import { differenceCiede2000, type Rgb } from 'culori';
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
async function place(moment: Moment, tag: 'bf-glass' | 'bf-unrolled' = 'bf-glass', options: PageOptions = {}, from: Session = session): Promise<OpenedPage> {
  const opened = await from.openPage({ hash: '#bench', ...options });
  await opened.page.evaluate(`customElements.whenDefined('bf-glass')`);
  await opened.page.evaluate(`(() => {
    const host = document.createElement('div');
    host.id = 'host';
    host.style.cssText = 'width:${WIDTH}px;height:${HEIGHT}px;background:var(--paper)';
    const element = Object.assign(document.createElement('${tag}'), ${plain({ ...BED, scenario, moment, labels: ['nickel', 'cobalt'] })});
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
async function pixels(page: Page, places: readonly (readonly [x: number, y: number])[]): Promise<Rgb[]> {
  await atRest(page);
  const picture = await page.screenshot({ clip: { x: 0, y: 0, width: WIDTH + 20, height: HEIGHT + 20 } });
  const read = await page.evaluate<number[][]>(`(async () => {
    const image = new Image();
    image.src = 'data:image/png;base64,${picture.toString('base64')}';
    await image.decode();
    const canvas = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height });
    const context = canvas.getContext('2d', { willReadFrequently: true });
    context.drawImage(image, 0, 0);
    const corner = document.querySelector('#host').getBoundingClientRect();
    return ${JSON.stringify(places)}.map(([x, y]) => [...context.getImageData(Math.round(corner.left + x), Math.round(corner.top + y), 1, 1).data]);
  })()`);
  return read.map(([r, g, b]) => ({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 }));
}

/** Waits until no frame has been drawn for a while and the last was at full resolution. */
async function atRest(page: Page): Promise<void> {
  await page.evaluate(`(async () => {
    const frames = () => document.querySelector('bf-glass')?.stage?.renderer.info.render.frame ?? 0;
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
  test.each(['light', 'dark'] as const)('shows the bed in its computed colours across its whole middle, %s', async (colorScheme) => {
    const opened = await place(zoned, 'bf-glass', { colorScheme });
    for (const across of [-20, 0, 20]) {
      const shown = await pixels(
        opened.page,
        ZONES.map((_, zone) => [WIDTH / 2 + across, zoneY(zone)]),
      );
      for (const [zone, cell] of ZONES.entries()) expect(dE00(shown[zone], bed(cell)), `zone ${zone} at ${across} px`).toBeLessThan(CLOSE);
    }
    // Each zone begins at its depth: 4 px to either side of the line between two, which is little more than one plate.
    const edges = [1, 2, 3, 4].flatMap((zone) => [-4, 4].map((away) => ({ zone: away < 0 ? zone - 1 : zone, y: zoneY(zone - 0.5) + away })));
    const beside = await pixels(
      opened.page,
      edges.map(({ y }) => [WIDTH / 2, y]),
    );
    for (const [i, { zone }] of edges.entries()) expect(dE00(beside[i], bed(ZONES[zone])), `edge ${i}`).toBeLessThan(CLOSE);
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

  test('shows a leaning band leaning, and each side when asked', async () => {
    const opened = await place(leaning);
    const { page } = opened;
    const stained = bed({ HCl_M: 9, pore: {}, resin: { Co: 0.1 } });
    const bare = bed({ HCl_M: 9, pore: {}, resin: {} });
    // 58 % down lies above the front near the left (65 to 80 %) and below it near the right (20 to 35 %).
    const y = BED.bedTop + 0.58 * (BED.bedBottom - BED.bedTop);
    const near = async (x: number, wanted: Rgb): Promise<number> => dE00((await pixels(page, [[x, y]]))[0], wanted);
    expect(await near(WIDTH / 2 - 27, stained)).toBeLessThan(CLOSE);
    expect(await near(WIDTH / 2 + 27, bare)).toBeLessThan(CLOSE);
    await page.getByRole('button', { name: 'left' }).click();
    expect(await near(WIDTH / 2, stained)).toBeLessThan(CLOSE);
    await page.getByRole('button', { name: 'right' }).click();
    expect(await near(WIDTH / 2, bare)).toBeLessThan(CLOSE);
    await opened.close();
  });

  test('turns by keys and by dragging, and says from where it is seen', async () => {
    const opened = await place(leaning);
    const { page } = opened;
    const hand = page.getByRole('slider', { name: 'Turn the glass' });
    await hand.focus();
    for (let press = 0; press < 6; press++) await page.keyboard.press('ArrowLeft');
    expect(await hand.getAttribute('aria-valuetext')).toBe('seen from the left');
    await page.keyboard.press('ArrowUp');
    expect(await hand.getAttribute('aria-valuetext')).toBe('seen from the left, a little from above');
    await page.keyboard.press('Home');
    const corner = await page.locator('#host').boundingBox();
    const x = (corner?.x ?? 0) + WIDTH / 2;
    await page.mouse.move(x, 250);
    await page.mouse.down();
    await page.mouse.move(x + 150, 250, { steps: 5 });
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
    await page.getByRole('slider', { name: 'Turn the glass' }).focus();
    await page.keyboard.press('PageDown');
    const told = await page.evaluate<(number | null)[]>('told');
    const length = scenario.values['bed.length_cm'];
    expect(told[0]).toBeCloseTo(length / 2, 1);
    expect(told[1] ?? undefined).toBeUndefined();
    expect(told[2]).toBeCloseTo(length / 20, 6);
    await opened.close();
  });

  test('draws nothing while nothing changes', async () => {
    const opened = await place(zoned);
    await atRest(opened.page);
    const frames = `document.querySelector('bf-glass').stage.renderer.info.render.frame`;
    const before = await opened.page.evaluate(frames);
    await opened.page.waitForTimeout(1000);
    expect(await opened.page.evaluate(frames)).toBe(before);
    await opened.close();
  });

  test('drips at the rate of the model, and not where motion is unwelcome', async () => {
    for (const [reducedMotion, expected] of [
      ['no-preference', 1],
      ['reduce', 0],
    ] as const) {
      const opened = await place({ ...zoned, flow: 0.5, delivered_mL: 1.001 }, 'bf-glass', { reducedMotion });
      const fallen = await opened.page.evaluate<number>(`(async () => {
        const glass = document.querySelector('bf-glass');
        Object.assign(glass, { playing: true, speed: 1 });
        await glass.updateComplete;
        const { falling } = glass.stage.column.drops;
        let drops = 0;
        let shown = false;
        for (let frame = 0; frame < 40; frame++) {
          if (frame === 5) glass.moment = { ...glass.moment, delivered_mL: 1.052 };
          await new Promise(requestAnimationFrame);
          if (falling.visible && !shown) drops++;
          shown = falling.visible;
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
    const shown = await pixels(
      page,
      ZONES.map((_, zone) => [WIDTH / 2, zoneY(zone)]),
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
    const [shown] = await pixels(page, [[WIDTH / 2, zoneY(4)]]);
    expect(dE00(shown, bed(ZONES[4]))).toBeLessThan(CLOSE);
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
    const shown = await pixels(page, [
      [WIDTH / 2, zoneY(0)],
      [WIDTH / 2, zoneY(4)],
    ]);
    for (const colourShown of shown) expect(dE00(colourShown, bed(ZONES[4]))).toBeLessThan(CLOSE);
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
    const opened = await place(zoned, tag, { colorScheme });
    await atRest(opened.page);
    // The page is the element alone: it has no landmarks and no heading of its own.
    expect((await axeViolations(opened.page, { within: '#host' })).filter((line) => !/^(region|landmark-one-main|page-has-heading-one)/.test(line))).toEqual(
      [],
    );
    await opened.close();
  });
});
