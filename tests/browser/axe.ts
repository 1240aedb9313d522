import axe, { type AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';

/** WCAG 2.2 A and AA by tag of axe-core, and its best practices. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** What axe finds on the page as it is shown, a line a node: rule, impact, place, what is asked. Empty when all is well. */
export async function axeViolations(page: Page, { within, tags = TAGS }: { within?: string; tags?: readonly string[] } = {}): Promise<string[]> {
  await page.evaluate(axe.source);
  // As text, for the page has no module to take the call from.
  const call = `axe.run(${JSON.stringify(within ?? null)} ?? document, ${JSON.stringify({ runOnly: tags, resultTypes: ['violations'] })})`;
  const { violations } = await page.evaluate<AxeResults>(call);
  return violations.flatMap(({ id, impact, nodes, help }) => nodes.map(({ target }) => `${id} (${impact}): ${target.flat().join(' > ')}: ${help}`));
}
