import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { isRecord, own } from '../../../../sim/input/index.ts';
import { IONS, type IonId } from '../../../../sim/terms/ions.ts';
import { type Limit, LIMITS } from '../../../../sim/terms/limits.ts';
import type { Action } from '../../../../sim/terms/types.ts';
import { LiveElement } from '../../../store/live-element.ts';
import { controlStyles } from '../../../ui/styles.ts';
import type { LabDraft } from '../../draft.ts';
import { partStyles } from '../styles.ts';
import '../../../ui/number.ts';

type Choices = readonly (readonly [value: string, label: string])[];

/** Actions that can be added to a procedure here, with their first values. The bottle is filled in later. */
const BEGINNINGS: Readonly<Record<string, readonly [label: string, action: Action]>> = {
  pour: ['pour', { do: 'pour', liquid: '', volume_mL: 5 }],
  wait: ['wait', { do: 'wait', until: { liquid_mm: 1 } }],
  receiver: ['change the receiver', { do: 'receiver', label: 'receiver' }],
  clamp: ['set the clamp', { do: 'clamp', open_percent: 100 }],
  stir: ['stir the bed up', { do: 'stir' }],
  'refill-from-below': ['push liquid in from below', { do: 'refill-from-below', liquid: '', volume_mL: 2 }],
  pack: ['pour resin slurry', { do: 'pack', resin_mL: 4 }],
  'top-up': ['add resin', { do: 'top-up', resin_mL: 0.5 }],
  spill: ['spill', { do: 'spill', share: 0.1 }],
};

const NUMBERS: Readonly<Record<string, readonly (readonly [key: string, of: Limit])[]>> = {
  pour: [['volume_mL', LIMITS['pour.volume_mL']]],
  clamp: [['open_percent', LIMITS['clamp.open_percent']]],
  'refill-from-below': [['volume_mL', LIMITS['refill-from-below.volume_mL']]],
  pack: [['resin_mL', LIMITS['pack.resin_mL']]],
  'top-up': [['resin_mL', LIMITS['top-up.resin_mL']]],
  spill: [['share', LIMITS['spill.share']]],
};

const UNTIL: Readonly<Record<string, readonly [label: string, of: Limit, usual: number]>> = {
  liquid_mm: ['the liquid stands this high above the bed', LIMITS['wait.liquid_mm'], 1],
  more_mL: ['this much more has been delivered', LIMITS['wait.volume_mL'], 2],
  delivered_mL: ['this total volume has been delivered', LIMITS['wait.volume_mL'], 20],
  elapsed_min: ['this time has passed', LIMITS['wait.time_min'], 5],
  ion: ['an edge of a band reaches a depth', LIMITS['wait.depth_cm'], 5],
};

const HOW: Choices = [
  ['wall', 'down the wall'],
  ['bed', 'onto the bed'],
];

/** Where a wash usually ends, mm above the bottom. Common practice, no source. */
const STOP_MM = 5;

/** A new action of a kind; pours take the first of these bottles. */
export function newAction(kind: string, bottles: readonly string[]): Action {
  const [, action] = BEGINNINGS[kind] ?? BEGINNINGS['wait'];
  return 'liquid' in action ? { ...action, liquid: bottles[0] ?? '' } : action;
}

/** Form for changing one action of the procedure. */
@customElement('bf-lab-action')
export class ActionForm extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      label { display: grid; gap: 0.125rem; font-size: var(--text-small); color: var(--soft); justify-items: start; min-width: 0; }
      select, input { font-size: 1rem; color: var(--ink); }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  @property({ type: Number }) at = 0;

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const kind = String(own(this.action, 'do'));
    const kinds: Choices = Object.entries(BEGINNINGS).map(([value, [label]]) => [value, label]);
    const known = Object.hasOwn(BEGINNINGS, kind);
    return html`<div class="row">
      ${this.select('action', kind, known ? kinds : [[kind, kind], ...kinds], (value) => draft.set(this.path(), newAction(value, Object.keys(this.bottles()))))}
      ${kind === 'pour' || kind === 'refill-from-below' ? this.bottle(draft) : nothing}
      ${(NUMBERS[kind] ?? []).map(([key, of]) => this.number(draft, key, of))}
      ${kind === 'pour' ? this.select('poured', String(own(this.action, 'how') ?? 'wall'), HOW, (value) => draft.set(this.path('how'), value === 'wall' ? undefined : value)) : nothing}
      ${kind === 'pour' ? this.unless(draft) : nothing}
      ${kind === 'receiver' ? this.label(draft) : nothing}
      ${kind === 'wait' ? this.until(draft) : nothing}
    </div>
    <p class="problem" role="alert">${[
      this.path(),
      this.path('liquid'),
      this.path('do'),
      this.path('until'),
      this.path('label'),
      this.path('until.ion'),
      this.path('unless'),
      this.path('unless.ion'),
    ]
      .map((path) => draft.problemAt(path))
      .filter((text) => text !== '')
      .join('. ')}</p>`;
  }

  private get action(): unknown {
    const list = own(this.draft?.json, 'procedure');
    return Array.isArray(list) ? list[this.at] : undefined;
  }

  private path(key = ''): string {
    return `procedure[${this.at}]${key === '' ? '' : `.${key}`}`;
  }

  private bottles(): Readonly<Record<string, unknown>> {
    const bottles = own(this.draft?.json, 'liquids');
    return isRecord(bottles) ? bottles : {};
  }

  private bottle(draft: LabDraft) {
    const liquid = String(own(this.action, 'liquid') ?? '');
    const bottles: Choices = Object.entries(this.bottles()).map(([id, bottle]) => [id, String(own(bottle, 'label') ?? id)]);
    const there = bottles.some(([id]) => id === liquid);
    return this.select(
      'bottle',
      liquid,
      there ? bottles : [[liquid, `${liquid} (missing)`], ...bottles],
      (value) => draft.set(this.path('liquid'), value),
      'liquid',
    );
  }

  private label(draft: LabDraft) {
    const label = own(this.action, 'label');
    return html`<label data-path=${this.path('label')}>name<input type="text" autocomplete="off" .value=${live(typeof label === 'string' ? label : '')}
      @change=${(event: Event & { target: HTMLInputElement }) => draft.set(this.path('label'), event.target.value.trim())} /></label>`;
  }

  private until(draft: LabDraft) {
    const until = own(this.action, 'until');
    const key = Object.keys(UNTIL).find((one) => own(until, one) !== undefined) ?? 'liquid_mm';
    const kinds: Choices = Object.entries(UNTIL).map(([value, [label]]) => [value, label]);
    const take = (value: string) => {
      const [, , usual] = UNTIL[value];
      draft.set(this.path('until'), value === 'ion' ? { ion: this.ions()[0] ?? 'Co', edge: 'leading', depth_cm: usual } : { [value]: usual });
    };
    const [, of] = UNTIL[key];
    return html`${this.select('until', key, kinds, take)}
      ${key === 'ion' ? this.band(draft, until) : nothing}
      ${this.number(draft, key === 'ion' ? 'until.depth_cm' : `until.${key}`, of)}`;
  }

  /** Whether a pour is left out once a band is low enough. */
  private unless(draft: LabDraft) {
    const ion = own(own(this.action, 'unless'), 'ion');
    const bands: Choices = this.ions().map((one) => [one, `only while the edge of ${IONS[one].name} is higher than`]);
    const take = (value: string) => draft.set(this.path('unless'), value === '' ? undefined : { ion: value, above_bottom_mm: STOP_MM });
    return html`${this.select('when', String(ion ?? ''), [['', 'always'], ...bands], take, 'unless')}
      ${ion === undefined ? nothing : this.number(draft, 'unless.above_bottom_mm', LIMITS['unless.above_bottom_mm'])}`;
  }

  private band(draft: LabDraft, until: unknown) {
    const ions: Choices = this.ions().map((ion) => [ion, IONS[ion].name]);
    const edges: Choices = [
      ['leading', 'leading'],
      ['trailing', 'trailing'],
    ];
    return html`${this.select('metal', String(own(until, 'ion')), ions, (value) => draft.set(this.path('until.ion'), value))}
      ${this.select('edge', String(own(until, 'edge')), edges, (value) => draft.set(this.path('until.edge'), value))}`;
  }

  private ions(): IonId[] {
    const listed = own(this.draft?.json, 'ions');
    return (Array.isArray(listed) ? listed.map(String) : []).filter((ion): ion is IonId => Object.hasOwn(IONS, ion));
  }

  private number(draft: LabDraft, key: string, of: Limit) {
    const value = key.split('.').reduce<unknown>((part, name) => own(part, name), this.action);
    const path = this.path(key);
    return html`<bf-number data-path=${path} .of=${of} .value=${typeof value === 'number' ? value : Number.NaN} .error=${live(draft.problemAt(path))}
      @bf-change=${(event: CustomEvent<{ value: number }>) => draft.set(path, event.detail.value)}></bf-number>`;
  }

  private select(label: string, value: string, choices: Choices, take: (value: string) => void, key = '') {
    return html`<label data-path=${key === '' ? nothing : this.path(key)}>${label}<select @change=${(event: Event & { target: HTMLSelectElement }) => take(event.target.value)}>
      ${choices.map(([one, words]) => html`<option value=${one} .selected=${one === value}>${words}</option>`)}</select></label>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-action': ActionForm;
  }
}
