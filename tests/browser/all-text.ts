import type { Page } from 'playwright-core';

const ALL_TEXT = `(() => {
  const found = [document.title, location.href];
  const visit = (node) => {
    if (node.nodeType === 3) found.push(node.data);
    if (node.nodeType === 1) for (const { value } of node.attributes) found.push(value);
    if (node.nodeName === 'SELECT' || node.nodeName === 'STYLE') return;
    if (node.shadowRoot) visit(node.shadowRoot);
    node.childNodes.forEach(visit);
  };
  visit(document);
  return found.join('\\n').toLowerCase();
})()`;

/** All text that the document holds in lower case, shadow roots and attributes included, but for lists to choose from. */
export function allText(page: Page): Promise<string> {
  return page.evaluate<string>(ALL_TEXT);
}
