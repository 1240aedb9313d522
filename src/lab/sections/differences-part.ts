import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type Difference, differencesBetween, emptyBench } from '../../../sim/lab/index.ts';
import { LiveElement } from '../../store/live-element.ts';
import { announce } from '../../ui/announce.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { withUnit } from '../../ui/text/format.ts';
import type { LabDraft } from '../draft.ts';
import { partStyles } from './styles.ts';
import '../../ui/segmented.ts';

/** What differs from the starting scenario or from the defaults; each difference can be put back separately. */
@customElement('bf-lab-differences')
export class DifferencesPart extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      ul { gap: 0; }
      li { display: grid; grid-template-columns: minmax(0, 1fr) auto; gap: var(--gap-small); align-items: center; border-top: 1px solid var(--rule); }
      li p { overflow-wrap: anywhere; }
      .was { color: var(--soft); }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  @state() private from: 'start' | 'defaults' = 'start';

  override render() {
    const { draft, from } = this;
    if (!draft) return nothing;
    const found = differencesBetween(this.other(draft), draft.json);
    return html`<bf-segmented label="Compared with" .value=${from} .choices=${[
      { value: 'start', label: 'the starting scenario' },
      { value: 'defaults', label: 'an empty bench and the defaults' },
    ]} @bf-change=${(event: CustomEvent<{ value: string }>) => {
      this.from = event.detail.value === 'defaults' ? 'defaults' : 'start';
    }}></bf-segmented>
      ${found.length === 0 ? html`<p>Nothing differs.</p>` : html`<ul aria-label="Differences">${found.map((one) => this.difference(draft, one))}</ul>`}`;
  }

  private difference(draft: LabDraft, { path, label, unit, was, now }: Difference) {
    const [before, after] = [was, now].map((text) => (/^-?[\d.]/.test(text) && !text.includes(' ') ? withUnit(text, unit) : text));
    return html`<li><p>${label}: <span class="was">${before} →</span> ${after}</p>
      <button type="button" @click=${() => this.putBack(draft, path, label)}>Put back<span class="unseen"> ${label}</span></button></li>`;
  }

  private other(draft: LabDraft): unknown {
    return this.from === 'start' ? draft.lab.start : emptyBench();
  }

  private putBack(draft: LabDraft, path: string, label: string) {
    draft.putBack(path, this.other(draft));
    announce(this, `${label}: put back`);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-differences': DifferencesPart;
  }
}
