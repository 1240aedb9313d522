import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { isRecord, own } from '../../../sim/input/index.ts';
import { valueAt, withValueAt } from '../../../sim/lab/index.ts';
import { ION_IDS, IONS, type IonId } from '../../../sim/terms/ions.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { foldStyles, partStyles } from './styles.ts';
import '../curves/curve-part.ts';
import './field.ts';

/** Which metals the lab has, and the volume of sample for which the result is calculated. What each bottle holds is set with the bottles. */
@customElement('bf-lab-sample')
export class SamplePart extends LiveElement {
  static override styles = [
    controlStyles,
    foldStyles,
    partStyles,
    css`
      fieldset { border: 0; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: 0 var(--gap); }
      legend { padding: 0; font-size: var(--text-small); color: var(--soft); }
      fieldset label { display: flex; gap: var(--gap-small); align-items: center; min-height: var(--target); }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  /** Place that is led to. */
  @property() sought = '';
  @state() private opened = false;

  override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (changed.has('sought') && this.sought.startsWith('curves')) this.opened = true;
  }

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const listed = ionsIn(draft.json);
    return html`<fieldset data-path="ions"><legend>Metals in this lab</legend>${ION_IDS.map(
      (ion) =>
        html`<label><input type="checkbox" .checked=${listed.includes(ion)} @change=${(event: Event & { target: HTMLInputElement }) => this.list(ion, event.target.checked)} />${IONS[ion].name}</label>`,
    )}</fieldset>
      <p class="problem" role="alert">${problems(draft)}</p>
      <p class="soft">These ${ION_IDS.length} are all: no other metal can be added. What can be replaced is the distribution curve of any of them, under “Your own curves”.</p>
      <p class="soft">Set how much of each metal a sample holds with its bottle, and how much sample is loaded with the procedure.</p>
      <bf-lab-field data-path="workup.sample_mL" .draft=${draft} .path=${'workup.sample_mL'}></bf-lab-field>
      <details .open=${this.opened} @toggle=${this.fold}><summary>Your own curves</summary>${this.opened ? html`<bf-lab-curve data-path="curves" .draft=${draft}></bf-lab-curve>` : nothing}</details>`;
  }

  private fold(event: ToggleEvent & { target: HTMLDetailsElement }) {
    this.opened = event.target.open;
  }

  /** A metal that is removed is also removed from bottles and curves; one undo brings it back. */
  private list(ion: IonId, on: boolean) {
    const { draft } = this;
    if (!draft) return;
    const before = ionsIn(draft.json);
    const ions = on ? ION_IDS.filter((id) => id === ion || before.includes(id)) : before.filter((id) => id !== ion);
    const named = withValueAt(draft.json, 'ions', ions);
    draft.change(on ? withIon(named, ion) : withoutIon(named, ion));
  }
}

/** A new metal is added to the first sample, so that its amount can be set there. */
function withIon(json: unknown, ion: IonId): unknown {
  const sample = bottlesIn(json).find(([, bottle]) => own(bottle, 'ions') !== undefined)?.[0];
  return sample === undefined ? json : withValueAt(json, `liquids.${sample}.ions.${ion}`, NEW_METAL_M);
}

/** Concentration of a metal that is new to a sample, mol/L; a choice. */
const NEW_METAL_M = 0.1;

function withoutIon(json: unknown, ion: IonId): unknown {
  return bottlesIn(json).reduce<unknown>(
    (changed, [id]) => {
      const place = `liquids.${id}.ions.${ion}`;
      return valueAt(changed, place) === undefined ? changed : withValueAt(changed, place, undefined);
    },
    valueAt(json, `curves.${ion}`) === undefined ? json : withValueAt(json, `curves.${ion}`, undefined),
  );
}

function bottlesIn(json: unknown): [string, unknown][] {
  const bottles = own(json, 'liquids');
  return isRecord(bottles) ? Object.entries(bottles) : [];
}

function ionsIn(json: unknown): string[] {
  const listed = own(json, 'ions');
  return Array.isArray(listed) ? listed.map(String) : [];
}

function problems({ issues }: LabDraft): string {
  return issues
    .filter(({ path }) => path === 'ions' || path.startsWith('ions['))
    .map(({ expected, received }) => `expected ${expected}; received ${received}`)
    .join('. ');
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-sample': SamplePart;
  }
}
