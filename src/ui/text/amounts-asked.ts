import { html, type TemplateResult } from 'lit';

/** In place of amounts that would give the result of a titration away. */
export function amountsAsked(ask: () => void): TemplateResult {
  return html`<p>Amounts in mmol would give the result of your titration away. They come once you have written down a molarity of your own in the <a href="#notebook">notebook</a>.</p>
    <p><button type="button" @click=${ask}>Show the amounts</button></p>`;
}
