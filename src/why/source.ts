import { html, type TemplateResult } from 'lit';

/** Where the numbers of a part come from and how far they can be trusted, one press away. */
export function sourceOf(words: unknown): TemplateResult {
  return html`<details class="source"><summary>Where these numbers come from</summary><p class="status">${words}</p></details>`;
}
