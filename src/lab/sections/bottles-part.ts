import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { isRecord, own } from '../../../sim/input/index.ts';
import { acidName, valueAt } from '../../../sim/lab/index.ts';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import { LIMITS } from '../../../sim/terms/limits.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { SECTIONS } from './contents.ts';
import { partStyles } from './styles.ts';
import './fields.ts';
import '../../ui/number.ts';

/** As many as a scenario may have. */
const BOTTLES_MAX = 20;
const [{ more: MORE }] = SECTIONS.filter(({ id }) => id === 'bottles');
/** What a new bottle holds, mol/L HCl; a choice. */
const NEW_BOTTLE_M = 9;

/** The bottles on the bench: name, acid, metals. A bottle with metals in it is a sample. */
@customElement('bf-lab-bottles')
export class BottlesPart extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      li { border-top: 1px solid var(--rule); padding-top: var(--gap-small); }
      label.text { flex: 1 1 10rem; max-width: 20rem; }
      button.remove { margin-left: auto; }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const bottles = Object.keys(recordAt(draft.json, 'liquids'));
    return html`<ul>${bottles.map((id) => this.bottle(draft, id))}</ul>
      <p class="problem" role="alert">${draft.problemAt('liquids')}</p>
      <div class="row"><button type="button" ?disabled=${bottles.length >= BOTTLES_MAX} @click=${() => this.add(bottles, false)}>Add a bottle</button>
        <button type="button" ?disabled=${bottles.length >= BOTTLES_MAX} @click=${() => this.add(bottles, true)}>Add a sample</button></div>
      <bf-lab-fields heading="Open bottles fume" .draft=${draft} .more=${MORE}></bf-lab-fields>`;
  }

  private bottle(draft: LabDraft, id: string) {
    const path = `liquids.${id}`;
    const label = valueAt(draft.json, `${path}.label`);
    const name = typeof label === 'string' ? label : id;
    const problem = draft.problemAt(`${path}.label`);
    return html`<li><div role="group" aria-label="Bottle ${name}">
      <div class="row">
        <label class="text" data-path=${`${path}.label`}>Bottle<input type="text" autocomplete="off" aria-invalid=${problem ? 'true' : 'false'} .value=${live(name)} @change=${(event: Event & { target: HTMLInputElement }) => draft.set(`${path}.label`, event.target.value.trim())} /></label>
        ${this.number(draft, `${path}.HCl_M`, LIMITS['liquid.HCl_M'], 'HCl')}
        ${this.ionsOf(draft, id).map((ion) => this.number(draft, `${path}.ions.${ion}`, LIMITS['liquid.ion_M'], IONS[ion].name))}
        <button type="button" class="plain remove" @click=${() => draft.set(path, undefined)}>Remove<span class="unseen"> ${name}</span></button>
      </div>
      <p class="problem" role="alert">${problem}</p></div></li>`;
  }

  /** For a sample: the metals of the lab and any others that it holds. */
  private ionsOf({ json }: LabDraft, id: string): IonId[] {
    const held = Object.keys(recordAt(json, `liquids.${id}.ions`));
    if (valueAt(json, `liquids.${id}.ions`) === undefined) return [];
    const listed = valueAt(json, 'ions');
    const all = [...(Array.isArray(listed) ? listed.map(String) : []), ...held];
    return [...new Set(all)].filter((ion): ion is IonId => Object.hasOwn(IONS, ion));
  }

  private number(draft: LabDraft, path: string, of: (typeof LIMITS)['liquid.HCl_M'] | (typeof LIMITS)['liquid.ion_M'], label: string) {
    const value = valueAt(draft.json, path);
    // A metal that is not in the bottle is left out of it.
    const take = ({ detail }: CustomEvent<{ value: number }>) => draft.set(path, detail.value === 0 && path.includes('.ions.') ? undefined : detail.value);
    return html`<bf-number data-path=${path} .of=${of} label=${label} .value=${typeof value === 'number' ? value : 0} .error=${live(draft.problemAt(path))} @bf-change=${take}></bf-number>`;
  }

  private add(bottles: readonly string[], sample: boolean) {
    const { draft } = this;
    if (!draft) return;
    const stem = sample ? 'sample' : 'bottle';
    const id = bottles.includes(stem) ? freeName(stem, bottles) : stem;
    const listed = valueAt(draft.json, 'ions');
    const first = Array.isArray(listed) ? String(listed[0]) : 'Co';
    draft.set(`liquids.${id}`, {
      label: sample ? 'sample' : acidName(NEW_BOTTLE_M),
      HCl_M: NEW_BOTTLE_M,
      ...(sample ? { ions: { [first]: 0.1 } } : {}),
    });
  }
}

function freeName(stem: string, taken: readonly string[]): string {
  let n = 2;
  while (taken.includes(`${stem}${n}`)) n++;
  return `${stem}${n}`;
}

function recordAt(json: unknown, path: string): Readonly<Record<string, unknown>> {
  const value = path.split('.').reduce<unknown>((part, key) => own(part, key), json);
  return isRecord(value) ? value : {};
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-bottles': BottlesPart;
  }
}
