import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import type { Issue } from '../../../sim/terms/types.ts';
import { isRecord } from '../../../sim/input/index.ts';
import type { Json } from '../../store/keep/saved.ts';
import type { Session } from '../../store/session.ts';
import { LiveElement } from '../../store/live-element.ts';
import { showMessage } from '../../ui/message.ts';
import { fileStyles } from '../../ui/look/file-styles.ts';
import { controlStyles } from '../../ui/styles.ts';
import { capital } from '../../../sim/terms/capital.ts';
import { partStyles } from '../styles.ts';
import { readTable, type Scale } from '../../ui/text/curve-table.ts';
import '../../ui/issues.ts';
import '../../ui/segmented.ts';

/** A table larger than this is not one of D_v, bytes. */
const FILE_MAX = 100_000;

/** A user's own D_v table for one ion: pasted or from a file, used by the run, and taken out again. */
@customElement('bf-own-table')
export class OwnTable extends LiveElement {
  static override styles = [
    controlStyles,
    fileStyles,
    partStyles,
    css`
      textarea { font: inherit; font-variant-numeric: tabular-nums; width: 100%; max-width: 30rem; min-height: 9em; background: var(--sheet); color: inherit; border: 1px solid var(--edge); border-radius: var(--round); padding: 0.5em; }
      label { display: block; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property() ion: IonId = 'Co';
  @state() private text = '';
  @state() private scale: Scale = 'plain';
  @state() private issues: readonly Issue[] = [];

  override render() {
    const scenario = this.session?.store.scenario;
    if (!scenario?.ions.includes(this.ion))
      return html`<p class="status">${capital(IONS[this.ion].name)} is not in this scenario; its curve is only shown.</p>`;
    const { name } = IONS[this.ion];
    return html`<details>
      <summary>Use my own table for ${name}</summary>
      <label for="table">One line a point: HCl in mol/L and D<sub>v</sub>. Separated by tab, semicolon, blank, or one comma; decimal comma or point.</label>
      <textarea id="table" spellcheck="false" placeholder="4; 1,2&#10;6; 8,3&#10;9; 35" .value=${this.text} @input=${this.type}></textarea>
      <div class="row">
        <bf-segmented label="second number" .value=${this.scale} .choices=${[{ value: 'plain', label: 'D_v' }, { value: 'log', label: 'log D_v' }]} @bf-change=${this.takeScale}></bf-segmented>
        <label class="file">Or from a file<input type="file" accept=".csv,.txt,.tsv,text/*" @change=${this.open} /></label>
      </div>
      <div class="row">
        <button type="button" class=${this.text.trim() === '' ? '' : 'primary'} @click=${this.use} ?disabled=${this.text.trim() === ''}>Use it in the run</button>
        ${scenario.curves[this.ion] ? html`<button type="button" @click=${this.takeOut}>Take my table for ${name} out</button>` : nothing}
      </div>
      ${this.issues.length > 0 ? html`<bf-issues source="Table" .issues=${this.issues}></bf-issues>` : nothing}
    </details>`;
  }

  private type(event: Event & { target: HTMLTextAreaElement }) {
    this.text = event.target.value;
    this.issues = [];
  }

  private takeScale(event: CustomEvent<{ value: string }>) {
    this.scale = event.detail.value === 'log' ? 'log' : 'plain';
  }

  private async open(event: Event & { target: HTMLInputElement }) {
    const file = event.target.files?.[0];
    if (!file) return;
    if (file.size > FILE_MAX) this.issues = [{ path: file.name, expected: `a table of at most ${FILE_MAX} bytes`, received: `${file.size}` }];
    else this.text = await file.text();
  }

  private async use() {
    const read = readTable(this.text, this.scale);
    this.issues = read.ok ? [] : read.issues;
    if (!read.ok) return;
    const done = await this.change((curves) => ({ ...curves, [this.ion]: read.points.map(([c, D]) => [c, D]) }));
    if (done) showMessage(this, { kind: 'note', text: `${IONS[this.ion].name}: your ${read.points.length} points are used by the run` });
  }

  private async takeOut() {
    await this.change((curves) => Object.fromEntries(Object.entries(curves).filter(([ion]) => ion !== this.ion)));
  }

  /** Changes the curves of the scenario; the run is recomputed with what was done so far. */
  private async change(of: (curves: Readonly<Record<string, Json>>) => Json): Promise<boolean> {
    const { session } = this;
    if (!session || !isRecord(session.json)) return false;
    const { json } = session;
    const curves = 'curves' in json && isRecord(json['curves']) ? (json['curves'] as Readonly<Record<string, Json>>) : {};
    const done = await session.change({ ...json, curves: of(curves) });
    if (!done) this.issues = session.issues;
    return done;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-own-table': OwnTable;
  }
}
