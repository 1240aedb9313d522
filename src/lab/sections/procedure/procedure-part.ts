import { bottleName } from '../../../../sim/terms/bottle-name.ts';
import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { own, readScenario } from '../../../../sim/input/index.ts';
import { effective, procedureOf, type Recipe, recipeOf, usualRecipe } from '../../../../sim/lab/index.ts';
import { checklistOf, type Role } from '../../../../sim/teach/index.ts';
import { capital } from '../../../../sim/terms/capital.ts';
import { LIMITS } from '../../../../sim/terms/limits.ts';
import type { Scenario } from '../../../../sim/terms/types.ts';
import { LiveElement } from '../../../store/live-element.ts';
import { controlStyles } from '../../../ui/styles.ts';
import { millilitres } from '../../../ui/text/format.ts';
import { parseNumber } from '../../../ui/text/number-text.ts';
import type { LabDraft } from '../../draft.ts';
import { foldStyles, partStyles } from '../styles.ts';
import { rinseWords } from './rinse-words.ts';
import './actions-part.ts';
import '../../../ui/number.ts';

type VolumeKey = { [K in keyof Recipe]: Recipe[K] extends number ? K : never }[keyof Recipe];

const VOLUMES: readonly (readonly [key: VolumeKey, label: string])[] = [
  ['condition_mL', 'condition'],
  ['conditionPortion_mL', 'in portions of'],
  ['wash_mL', 'wash'],
  ['washPortion_mL', 'in portions of'],
  ['release_mL', 'release'],
  ['releasePortion_mL', 'in portions of'],
  ['load_mL', 'load'],
  ['change_mL', 'change the receiver after'],
];
/** These may be 0. */
const MAY_BE_NONE: readonly VolumeKey[] = ['condition_mL', 'wash_mL', 'change_mL'];
/** As the list on the bench names them; there a release has the name of its bottle. */
const TASK: Readonly<Record<Exclude<Role, 'release'>, string>> = {
  condition: 'Condition',
  load: 'Load',
  wash: 'Wash',
  change: 'Change the receiver',
  stop: 'Stop',
};
/** Taller than any bed, so that only the procedure itself is judged. */
const TALL_CM = 200;

/** The procedure in a dozen numbers, or action by action; and the task that students tick off. */
@customElement('bf-lab-procedure')
export class ProcedurePart extends LiveElement {
  static override styles = [
    controlStyles,
    foldStyles,
    partStyles,
    css`
      .grid { display: grid; grid-template-columns: repeat(auto-fill, minmax(9.5rem, 1fr)); gap: var(--gap-small) var(--gap); align-items: start; margin-bottom: var(--gap-small); }
      .grid > * { min-width: 0; }
      label.text input, label.text select { width: 100%; }
      ol { margin: 0; padding-left: 1.5rem; }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  /** Place of an action that is led to. */
  @property() sought = '';
  @state() private fault = '';
  @state() private opened = false;

  override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (changed.has('sought') && this.sought.startsWith('procedure')) this.opened = true;
  }

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const scenario = draft.scenario ?? partly(draft.json);
    const recipe = scenario && recipeOf(scenario);
    const list = own(draft.json, 'procedure');
    const count = Array.isArray(list) ? list.length : 0;
    return html`${recipe ? this.form(draft, scenario, recipe) : this.without(draft, scenario, count)}
      <p class="problem" role="alert">${draft.problemAt('procedure')}</p>
      <details .open=${this.opened} @toggle=${(event: ToggleEvent & { target: HTMLDetailsElement }) => {
        this.opened = event.target.open;
      }}><summary>Action by action (${count})</summary>${this.opened ? html`<bf-lab-actions data-path="procedure" .draft=${draft} .sought=${this.sought}></bf-lab-actions>` : nothing}</details>
      ${scenario && count > 0 ? html`<details><summary>The task as students tick it off</summary>${task(scenario)}</details>` : nothing}`;
  }

  private form(draft: LabDraft, scenario: Scenario, recipe: Recipe) {
    const { liquids } = scenario;
    const rinsed = rinseWords(scenario, recipe);
    const take = (change: Partial<Recipe>) => draft.set('procedure', procedureOf({ ...recipe, ...change }));
    const bottle = (
      key: 'acid' | 'sample' | 'water',
      label: string,
    ) => html`<label class="text">${label}<select @change=${(event: Event & { target: HTMLSelectElement }) => take({ [key]: event.target.value })}>
      ${Object.entries(liquids).map(([id, liquid]) => html`<option value=${id} .selected=${id === recipe[key]}>${liquid.label}</option>`)}</select></label>`;
    const receiver = (
      key: 'first' | 'second',
      label: string,
    ) => html`<label class="text">${label}<input type="text" autocomplete="off" .value=${live(recipe[key])}
      @change=${(event: Event & { target: HTMLInputElement }) => take({ [key]: event.target.value.trim() || recipe[key] })} /></label>`;
    const volume = (at: number) => {
      const [key, label] = VOLUMES[at];
      const least = MAY_BE_NONE.includes(key) ? 0 : LIMITS['pour.volume_mL'].step;
      return html`<bf-number .of=${LIMITS['pour.volume_mL']} label=${label} .min=${least} .value=${recipe[key]} @bf-change=${(event: CustomEvent<{ value: number }>) => take({ [key]: event.detail.value })}></bf-number>`;
    };
    return html`
      <div class="grid">${bottle('acid', 'acid')}${volume(0)}${volume(1)}</div>
      <div class="grid">${bottle('sample', 'sample')}${volume(6)}${this.rinses(recipe, take)}</div>
      <div class="grid">${volume(2)}${volume(3)}${receiver('first', 'runs into')}</div>
      ${rinsed === '' ? nothing : html`<p class="soft rinsed">${rinsed}</p>`}
      <div class="grid">${bottle('water', 'release with')}${volume(4)}${volume(5)}</div>
      <div class="grid">${volume(7)}${receiver('second', 'collect in')}</div>
      <p class="soft">Every liquid drains to a millimetre above the bed before the next is poured. The volume for the change of receiver counts from the start of water.</p>`;
  }

  private rinses(recipe: Recipe, take: (change: Partial<Recipe>) => void) {
    const read = (event: Event & { target: HTMLInputElement }) => {
      const { value } = event.target;
      const parts = value.split(/[;\s]+/).filter((part) => part !== '');
      const volumes = parts.map(parseNumber);
      const { max, unit } = LIMITS['pour.volume_mL'];
      const sound = volumes.filter((volume) => volume !== undefined && volume > 0 && volume <= max);
      this.fault = sound.length === parts.length ? '' : `rinses: expected volumes above 0 to ${max} ${unit}, separated by spaces, received ${value.trim()}`;
      if (this.fault === '') take({ rinses_mL: sound.map(Number) });
    };
    return html`<label class="text">rinses, mL each<input type="text" autocomplete="off" aria-invalid=${this.fault ? 'true' : 'false'} .value=${recipe.rinses_mL.join(' ')} @change=${read} /></label>
      <p class="problem" role="alert">${this.fault}</p>`;
  }

  private without(draft: LabDraft, scenario: Scenario | undefined, count: number) {
    const usual = scenario && usualRecipe(scenario);
    const words =
      count === 0
        ? 'The procedure is empty.'
        : 'This procedure is written action by action: it is not the usual one, in which the bed is conditioned and one aliquot is loaded, washed, released and collected in two receivers.';
    return html`<p class="soft">${words} ${usual ? '' : 'The usual procedure needs an acid, a sample and a weaker liquid among the bottles.'}</p>
      ${usual ? html`<div class="row"><button type="button" @click=${() => draft.set('procedure', procedureOf(usual))}>${count === 0 ? 'Begin with the usual procedure' : 'Replace it with the usual procedure'}</button></div>` : nothing}`;
  }
}

/** Bottles and procedure alone, for a lab in which something else is not valid. */
function partly(json: unknown): Scenario | undefined {
  const length_cm = effective(json, 'bed.length_cm');
  const bare = {
    title: 'procedure',
    purpose: 'procedure',
    ions: own(json, 'ions'),
    liquids: own(json, 'liquids'),
    procedure: own(json, 'procedure') ?? [],
    column: { tube_cm: TALL_CM },
    ...(length_cm === undefined ? {} : { bed: { length_cm } }),
  };
  const read = readScenario(bare, 'lab');
  return read.ok ? read.scenario : undefined;
}

function task(scenario: Scenario) {
  return html`<ol>${checklistOf(scenario, []).map(({ role, liquid, label, planned_mL }) => {
    const bottle = bottleName(liquid, scenario.liquids);
    if (role === 'release') return html`<li>${capital(bottle)}: ${millilitres(planned_mL)}</li>`;
    const what = liquid === '' ? label : `${millilitres(planned_mL)} of ${bottle}`;
    return html`<li>${TASK[role]}${what === '' ? '' : `: ${what}`}</li>`;
  })}</ol>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-procedure': ProcedurePart;
  }
}
