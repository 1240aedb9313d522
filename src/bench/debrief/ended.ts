import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { IONS } from '../../../sim/terms/ions.ts';
import { collectedAt, type FractionTargets, keptOf, namesOf, type Plan, pouredOf, spansOf, togetherOf, verdict } from '../../../sim/history/index.ts';
import { millimolesBeside, percentBeside } from '../../ui/text/beside-limit.ts';
import { millimoles, percent } from '../../ui/text/format.ts';
import { receiverName } from '../../ui/text/receiver-words.ts';

/** Whether a run that is over did what was asked, and in one sentence what the receiver that counts holds. */
export function endedWords(plan: Plan, targets: FractionTargets): { readonly good: boolean; readonly text: string } {
  const kept = keptOf(plan, targets);
  const together = togetherOf(plan, targets);
  const { target, unwanted, recovered, carried, acid_mmol = Number.POSITIVE_INFINITY } = targets;
  const name = IONS[target].symbol;
  const asked = `the task asks for ${percent(recovered, 1)}`;
  if (!kept) return { good: false, text: `none of the ${name} was collected; ${asked}.` };
  const found = together ?? verdict(plan, targets, kept.from_mL, kept.to_mL);
  const others = unwanted.map((ion) => IONS[ion].symbol).join(', ');
  const misses = [
    ...(found.recovered < recovered ? [asked] : []),
    ...(found.carried > carried ? [`the task allows ${percent(carried, 1)} of the ${others}`] : []),
    ...(found.acid_mmol > acid_mmol
      ? [`${together ? 'one of them' : 'it'} holds ${millimolesBeside(found.acid_mmol, acid_mmol, 0)} of acid; the task allows ${millimoles(acid_mmol, 0)}`]
      : []),
  ];
  const who = together ? `${namesOf(together)} together hold` : `“${receiverName(kept.label)}” holds`;
  const held = `${who} ${percentBeside(found.recovered, recovered)} of the ${name}${others ? ` and ${percentBeside(found.carried, carried)} of the ${others}` : ''}`;
  return { good: found.meets, text: `${[held, ...misses].join('; ')}.` };
}

/** The receiver that was put under the tip only after more of the target had left than the task lets go; undefined where none was. */
export function putTooLate(plan: Plan, targets: FractionTargets): string | undefined {
  const { target, recovered } = targets;
  // Of a day's receivers each is late for its own aliquot only.
  if (togetherOf(plan, targets)) return undefined;
  const poured = pouredOf(plan, target);
  const kept = keptOf(plan, targets);
  const changes = spansOf(plan).filter(({ from_mL, label }) => from_mL > 0 && (!kept || label === kept.label));
  return changes.find(({ from_mL }) => collectedAt(plan, target, from_mL) > (1 - recovered) * poured)?.label;
}

/** The end of a run in one line; until this has been fetched, what stands inside it is shown. */
@customElement('bf-ended')
export class Ended extends LitElement {
  static override styles = css`
    .bad { color: var(--problem-ink); }
  `;

  @property({ attribute: false }) plan: Plan | undefined;
  @property({ attribute: false }) targets: FractionTargets | undefined;

  override render() {
    if (!this.plan || !this.targets) return html`<slot></slot>`;
    const { good, text } = endedWords(this.plan, this.targets);
    this.toggleAttribute('data-missed', !good);
    return html`<span><span aria-hidden="true">${good ? '✓' : '✗'}</span> The run is over: <span class=${good ? nothing : 'bad'}>${text}</span></span>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-ended': Ended;
  }
}
