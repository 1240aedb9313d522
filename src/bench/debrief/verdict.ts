import { receiverName } from '../../ui/text/receiver-words.ts';
import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { CONTROLS } from '../../../sim/terms/controls.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import {
  type FractionTargets,
  type Plan,
  keptOf,
  keptVerdict,
  leavesAt,
  namesOf,
  type StartWindow,
  type SwitchWindow,
  togetherOf,
  type Verdict,
} from '../../../sim/history/index.ts';
import { emit } from '../../ui/emit.ts';
import { millimolesBeside, percentBeside } from '../../ui/text/beside-limit.ts';
import { millilitres, millimoles } from '../../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import '../../ui/number.ts';

/**
 * What the kept fraction holds, now or as it would be while a handle is dragged, against its targets.
 *
 * @fires bf-targets - the FractionTargets that the reader wants
 */
@customElement('bf-verdict')
export class VerdictPanel extends LitElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      h2 { font-size: 1em; margin: 0 0 var(--gap-small); }
      .of { color: var(--soft); font-weight: 400; font-size: var(--text-small); }
      dl { margin: 0; display: grid; grid-template-columns: 1fr auto; gap: 0.125em var(--gap); }
      dt { color: var(--soft); }
      dd { margin: 0; text-align: right; white-space: nowrap; }
      .miss { color: var(--problem-ink); font-weight: 600; }
      p { margin: var(--gap-small) 0 0; color: var(--soft); font-size: var(--text-small); }
      details { margin-top: var(--gap-small); font-size: var(--text-small); }
      summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; color: var(--soft); }
      summary::before { content: '▸'; width: 1.25em; }
      details[open] summary::before { content: '▾'; }
      .fields { display: grid; gap: var(--gap-small); }
    `,
  ];

  @property({ attribute: false }) plan: Plan | undefined;
  /** The plan is one that is only being tried out. */
  @property({ type: Boolean }) trying = false;
  @property({ attribute: false }) targets: FractionTargets | undefined;
  /** What falls short is marked as missed: the run is over, or another handling of it is tried out. */
  @property({ type: Boolean }) due = false;
  /** The windows, where the coach allows showing them. */
  @property({ attribute: false }) window: SwitchWindow | undefined;
  @property({ attribute: false }) startWindow: StartWindow | undefined;

  override render() {
    const { plan, targets } = this;
    if (!plan || !targets) return nothing;
    const kept = keptOf(plan, targets);
    const together = togetherOf(plan, targets);
    const symbol = IONS[targets.target].symbol;
    return html`<section aria-labelledby="heading">
      <h2 id="heading">${together ? `In ${namesOf(together)}` : kept ? html`In “${receiverName(kept.label)}”` : 'The fraction'} <span class="of">${this.trying ? 'if moved here' : 'if nothing more is done'}</span></h2>
      ${kept ? this.numbers(together ?? keptVerdict(plan, targets, kept), targets) : html`<p>${leavesAt(plan, targets.target, 0) === undefined ? `No ${symbol} leaves the column yet.` : `No receiver takes ${symbol} apart from the rest.`}</p>`}
      ${this.windows(symbol)}
      ${this.wishes(targets)}
    </section>`;
  }

  private numbers(found: Pick<Verdict, 'recovered' | 'carried' | 'acid_mmol' | 'volume_mL'>, targets: FractionTargets) {
    const most = targets.acid_mmol ?? Number.POSITIVE_INFINITY;
    return html`<dl>
      ${line(`${IONS[targets.target].symbol} recovered`, percentBeside(found.recovered, targets.recovered), this.due && found.recovered < targets.recovered)}
      ${targets.unwanted.length === 0 ? nothing : line(`${unwantedName(targets)} carried`, percentBeside(found.carried, targets.carried), this.due && found.carried > targets.carried)}
      ${line(found.acid_mmol > most ? `acid carried (the task allows ${millimoles(most, 0)})` : 'acid carried', millimolesBeside(found.acid_mmol, most), false)}
      ${line('volume', millilitres(found.volume_mL), false)}
    </dl>`;
  }

  private windows(symbol: string) {
    const { window: change, startWindow: start } = this;
    if (!change && !start) return nothing;
    return html`${start ? html`<p>Weaker eluent may start ${start.fromOpen ? 'before' : 'from'} ${millilitres(start.from_mL)} ${start.toOpen ? 'and beyond' : 'to'} ${millilitres(start.to_mL)}.</p>` : nothing}
      ${change ? html`<p>Change the receiver from ${millilitres(change.from_mL)} to ${millilitres(change.to_mL)}: before is needless acid, after is lost ${symbol}.</p>` : nothing}`;
  }

  private wishes(targets: FractionTargets) {
    return html`<details>
      <summary>Targets for this fraction</summary>
      <div class="fields">
        <bf-number .of=${CONTROLS['wish.recovered_percent']} .value=${tenth(targets.recovered)} @bf-change=${(event: NumberEvent) => this.wish({ recovered: event.detail.value / 100 })}></bf-number>
        <bf-number .of=${CONTROLS['wish.carried_percent']} .value=${tenth(targets.carried)} @bf-change=${(event: NumberEvent) => this.wish({ carried: event.detail.value / 100 })}></bf-number>
        <bf-number .of=${CONTROLS['wish.acid_mmol']} .value=${targets.acid_mmol ?? CONTROLS['wish.acid_mmol'].max} @bf-change=${(event: NumberEvent) => this.wish({ acid_mmol: event.detail.value })}></bf-number>
      </div>
    </details>`;
  }

  private wish(part: Partial<FractionTargets>) {
    if (this.targets) emit(this, 'bf-targets', { ...this.targets, ...part });
  }
}

type NumberEvent = CustomEvent<{ value: number }>;

function line(label: string, value: string, missed: boolean) {
  return html`<dt>${label}</dt><dd class=${missed ? 'miss' : ''}>${missed ? html`<span aria-hidden="true">✗ </span><span class="unseen">missed: </span>` : nothing}${value}</dd>`;
}

function unwantedName({ unwanted }: FractionTargets): string {
  const [only] = unwanted;
  return unwanted.length === 1 && only ? IONS[only].symbol : 'most of another ion';
}

function tenth(share: number): number {
  return Number((share * 100).toFixed(2));
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-verdict': VerdictPanel;
  }
}
