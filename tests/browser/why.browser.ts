import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { distributionOf, type Passage, passageOf } from '../../sim/chemistry/passage.ts';
import { drawn } from '../../sim/column/drawn.ts';
import type { IonId } from '../../sim/terms/ions.ts';
import { axeViolations } from './axe.ts';
import { kept, scenario } from './bench-rig.ts';
import { encodeHandOut } from '../../src/store/given/hand-out-link.ts';
import { onePage } from './one-page.ts';
import { type PageOptions, PHONE } from './session.ts';

// The explanations on the built page: the one handle, the bed, the questions, a table of one's own, the search.

const one = onePage();

const WAIT = { timeout: 30_000 };
/** The column that the page has drawn and explains, and the bottle beside it, mol/L. */
let column = drawn(scenario());
let bottle_M = Number.NaN;
/** Acid that the page shows before another is chosen, mol/L. */
const FIRST_M = 9;

/** How an ion passes this column, by the uptake of the scenario or by a D_v of one's own. */
function passage(ion: IonId, HCl_M: number, D_v = distributionOf(column, ion)(HCl_M)): Passage {
  return passageOf(D_v, column.values['bed.porosity']);
}

/** To two figures, as the page writes numbers. */
function two(value: number): string {
  return String(Number(value.toPrecision(2)));
}

/** A row of the table of ions, by its name. */
function rowOf(symbol: string, { D_v, retentionFactor, bedVolumes }: Passage): string {
  return `${symbol} ${two(D_v)} ${two(retentionFactor)} ${two(bedVolumes)} bed volumes`;
}

async function open(options: PageOptions = {}): Promise<Page> {
  const page = await one.open({ viewport: { width: 1280, height: 720 }, hash: '#why', ...options });
  await page.locator('bf-why-resin svg').waitFor(WAIT);
  // By eye nothing of the own bed is told here.
  await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('forecast');
  await expect.poll(async () => (await kept(page)).seed, WAIT).toBeGreaterThanOrEqual(0);
  column = drawn({ ...scenario(), seed: (await kept(page)).seed });
  bottle_M = column.liquids['acid']?.HCl_M ?? Number.NaN;
  return page;
}

async function withRun(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Run the procedure of this lesson' }).click();
  await page.getByRole('button', { name: /Play the front/ }).waitFor(WAIT);
}

/** Sizes of all text on screen, px, smallest first. */
const TEXT_SIZES = `(() => {
  const sizes = [];
  const visit = (root) => { for (const element of root.querySelectorAll('*')) {
    if (element.shadowRoot) visit(element.shadowRoot);
    const own = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim() !== '');
    if (own && element.getClientRects().length > 0 && !['STYLE', 'SUB', 'SMALL'].includes(element.tagName)) sizes.push(parseFloat(getComputedStyle(element).fontSize));
  } };
  visit(document.querySelector('bf-app').shadowRoot.querySelector('bf-why').shadowRoot);
  return sizes.sort((a, b) => a - b);
})()`;

describe('the view', () => {
  test('keeps where its numbers come from one press away', async () => {
    const page = await open();
    expect(
      await page
        .getByText(/recalled/)
        .filter({ visible: true })
        .count(),
    ).toBe(0);
    await page.locator('bf-why-resin').getByText('Where these numbers come from').click();
    await page.getByText(/Curves recalled from the classic papers/).waitFor(WAIT);
  });

  test('has no finding of axe, light, dark and on a telephone', async () => {
    for (const options of [{}, { colorScheme: 'dark' as const }, { viewport: PHONE, touch: true }]) {
      const page = await open(options);
      await withRun(page);
      expect(await axeViolations(page)).toEqual([]);
      await one.close();
    }
  });

  test('projected at 1280 by 720 has no text below 16 px', async () => {
    const page = await open();
    await withRun(page);
    const sizes = (await page.evaluate(TEXT_SIZES)) as number[];
    expect(sizes.length).toBeGreaterThan(100);
    expect(sizes[0]).toBeGreaterThanOrEqual(16);
  });

  test('does not scroll sideways on a telephone', async () => {
    const page = await open({ viewport: PHONE, touch: true });
    await withRun(page);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(PHONE.width);
  });

  test('is one step from the bench, and the run is kept on the way back', async () => {
    const page = await open();
    await withRun(page);
    await page.getByRole('link', { name: 'Back to the bench' }).click();
    await page.locator('bf-bench').waitFor(WAIT);
    await page.getByRole('link', { name: 'Why', exact: true }).click();
    await page.getByRole('button', { name: /Play the front/ }).waitFor(WAIT);
  });
});

describe('the one molarity', () => {
  test('moves by keys, and every part follows', async () => {
    const page = await open();
    const slider = page.getByRole('slider', { name: 'HCl, slider' });
    await slider.focus();
    for (let press = 0; press < 6; press++) await page.keyboard.press('PageDown');
    await page.getByText(/^In 3\.0 M HCl most of the cobalt/).waitFor(WAIT);
    await page.getByText(/^At 3\.0 M a cobalt\(II\) ion spends/).waitFor(WAIT);
    await page.getByText(/^In 3\.0 M HCl \d+ of 100 cobalt/).waitFor(WAIT);
  });

  test('follows the bed while the front passes the band: strong acid, then nearly none', async () => {
    const page = await open();
    await withRun(page);
    // The strong acid is told for a moment only, which a slow machine can miss by looking now and then.
    const told = await page
      .getByText(/^In (water|[\d.]+ M HCl) .* of the cobalt/)
      .first()
      .evaluateHandle((sentence) => {
        const texts: string[] = [];
        const note = () => texts.push(sentence.textContent.trim());
        new MutationObserver(note).observe(sentence, { characterData: true, childList: true, subtree: true });
        return texts;
      });
    await page.getByRole('button', { name: /Play the front/ }).click();
    // Played to its end, which the view has set.
    const weak = /^In (water|0\.\d+ M HCl) most of the cobalt/;
    await expect.poll(async () => (await told.jsonValue()).at(-1), { timeout: 80_000 }).toMatch(weak);
    const strong = `In ${bottle_M.toFixed(1)} M HCl most of the cobalt`;
    const texts = await told.jsonValue();
    expect(
      texts.findIndex((text) => text.startsWith(strong)),
      texts.slice(0, 5).join('\n'),
    ).toBeGreaterThanOrEqual(0);
  });

  test('is bound to a depth by the address', async () => {
    const page = await open({ hash: '#why?depth=3.5' });
    expect(await page.getByRole('checkbox', { name: /depth of my bed/ }).isChecked()).toBe(true);
    expect(await page.getByRole('textbox', { name: 'depth in bed' }).inputValue()).toBe('3.5');
  });
});

describe('Predict', () => {
  test('marks choice and reason at once, with the explanation, by keyboard', async () => {
    const page = await open({ column: 1 });
    const predict = page.locator('bf-why-predict');
    await predict.getByLabel('nickel(II)', { exact: true }).focus();
    await page.keyboard.press('Space');
    await predict.getByLabel(/what counts is which of them becomes an anion/).focus();
    await page.keyboard.press('Space');
    await predict.getByRole('button', { name: 'See what the model says' }).press('Enter');
    await predict.getByText('Both agree with the model.').waitFor(WAIT);
    // The strength on the label, as on bottle and hand-out: what this one bottle truly holds nobody reads.
    const label_M = scenario().liquids['acid']?.HCl_M ?? Number.NaN;
    expect(label_M).not.toBeCloseTo(bottle_M, 1);
    await predict.getByText(`are washed with ${label_M} M HCl.`).waitFor(WAIT);
    const [nickel, cobalt] = (['Ni', 'Co'] as const).map((ion) =>
      two(passageOf(distributionOf(scenario(), ion)(label_M), scenario().values['bed.porosity']).bedVolumes),
    );
    await predict.getByText(`Nickel(II) needs ${nickel} bed volumes, cobalt(II) ${cobalt}.`).waitFor(WAIT);
    await predict.getByText('1 of 1 right with the right reason.').waitFor(WAIT);
  });
});

describe('in a try that counts', () => {
  test('the procedure is run as on the bench where nothing was done yet, and not offered where something was', async () => {
    const link = await encodeHandOut({ base: 'cathode-leach', differences: {}, seed: 5, column: 'same', seeing: 'figure', tries: 2, asked: [], own: [] });
    if (!link.ok) throw new Error(link.message);
    const page = await one.open({ viewport: { width: 1280, height: 720 }, hash: `#bench?task=${link.value}` });
    await page.getByText('Handed out: try 1 of 2').waitFor(WAIT);
    await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('figure');
    await page.evaluate(`location.hash = '#why'`);
    const press = page.getByRole('button', { name: 'Run the procedure of this lesson' });
    await press.click();
    // It is played, as on the bench, since with the figure only the past is shown.
    await page.getByText(/^Now, at [\d.]+ cm: [\d.]+ mol\/L HCl/).waitFor(WAIT);
    await expect.poll(async () => (await kept(page)).log.length, WAIT).toBe(scenario().procedure.length);

    await page.evaluate(`location.hash = '#bench'`);
    await page.getByText('Handed out: try 1 of 2').click();
    await page.getByRole('button', { name: 'End this try' }).click();
    await page.getByRole('button', { name: 'Next try, 1 left' }).click();
    await page.getByText('Handed out: try 2 of 2').waitFor(WAIT);
    await page.getByRole('button', { name: 'Pour', exact: true }).click();
    await page.evaluate(`location.hash = '#why'`);
    await page.locator('bf-why').waitFor(WAIT);
    expect(await press.count()).toBe(0);
  });
});

describe('a table of one’s own', () => {
  test('with a fault names its line, without one is used, and can be taken out', async () => {
    const page = await open();
    await page.getByText('Use my own table for cobalt(II)').click();
    const field = page.getByRole('textbox', { name: /One line a point/ });
    await field.fill('3; 1,0\nsix; 8\n9; 100');
    await page.getByRole('button', { name: 'Use it in the run' }).click();
    await page.getByText('line 2').waitFor(WAIT);
    await field.fill('3; 1,0\n6; 8\n9; 100');
    await page.getByRole('button', { name: 'Use it in the run' }).click();
    await page.getByText(/Your own table is used for Co²⁺/).waitFor(WAIT);
    // Porosity + 100 bed volumes at 9 M: the definition.
    await page.getByRole('row', { name: rowOf('Co²⁺', passage('Co', FIRST_M, 100)) }).waitFor(WAIT);
    await page.getByRole('button', { name: 'Take my table for cobalt(II) out' }).click();
    await page.getByRole('row', { name: rowOf('Co²⁺', passage('Co', FIRST_M)) }).waitFor(WAIT);
  });
});

describe('Find a sequence', () => {
  test('parts nickel and cobalt and plays it on the bench', async () => {
    const page = await open();
    await page.getByRole('button', { name: 'Find a sequence' }).click();
    await page.getByText(/Every metal has a receiver of its own: Ni²⁺, Co²⁺/).waitFor({ timeout: 60_000 });
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Play it on the bench' }).click();
    await page.locator('bf-bench').waitFor(WAIT);
    expect(new URL(page.url()).hash).toBe('#bench');
  });

  test('can be cancelled', async () => {
    const page = await open();
    await page.getByRole('button', { name: 'Find a sequence' }).click();
    await page.getByRole('button', { name: 'Cancel' }).click(WAIT);
    await page.getByRole('button', { name: 'Find a sequence' }).waitFor(WAIT);
  });
});
