import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { IONS } from '../../../sim/terms/ions.ts';
import { collectedAt, type FractionTargets, keptOf, keptVerdict, namesOf, type Plan, pouredOf, spansOf, togetherOf } from '../../../sim/history/index.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import { controlStyles } from '../../ui/styles.ts';
import { millimolesBeside, percentBeside } from '../../ui/text/beside-limit.ts';
import { millimoles, percent } from '../../ui/text/format.ts';
import { receiverName } from '../../ui/text/receiver-words.ts';
import { emptyTube } from '../packing/new-bed.ts';
import { anotherColumn } from '../task/ways-in.ts';

/** Whether a run that is over did what was asked, and in one sentence what the receiver that counts holds. */
export function endedWords(plan: Plan, targets: FractionTargets): { readonly good: boolean; readonly text: string } {
  const kept = keptOf(plan, targets);
  const together = togetherOf(plan, targets);
  const { target, unwanted, recovered, carried, acid_mmol = Number.POSITIVE_INFINITY } = targets;
  const name = IONS[target].symbol;
  const asked = `the task asks for ${percent(recovered, 1)}`;
  if (!kept) return { good: false, text: `none of the ${name} was collected; ${asked}.` };
  const found = together ?? keptVerdict(plan, targets, kept);
  const others = unwanted.map((ion) => IONS[ion].symbol).join(', ');
  const misses = [
    ...(found.recovered < recovered ? [asked] : []),
    ...(found.carried > carried ? [`the task allows ${percent(carried, 1)} of the ${others}`] : []),
    ...(found.acid_mmol > acid_mmol
      ? [`${together ? 'one of them' : 'it'} holds ${millimolesBeside(found.acid_mmol, acid_mmol, 0)} of acid; the task allows ${millimoles(acid_mmol, 0)}`]
      : []),
  ];
  const who = together ? `${namesOf(together)} together hold` : `“${receiverName(kept.label)}” holds`;
  const acid = found.acid_mmol <= acid_mmol && !together ? [`${millimolesBeside(found.acid_mmol, acid_mmol, 0)} of acid`] : [];
  const amounts = [
    `${percentBeside(found.recovered, recovered)} of the ${name}`,
    ...(others ? [`${percentBeside(found.carried, carried)} of the ${others}`] : []),
    ...(Number.isFinite(acid_mmol) ? acid : []),
  ];
  const held = `${who} ${amounts.slice(0, -1).join(', ')}${amounts.length > 1 ? ' and ' : ''}${amounts.at(-1)}`;
  return { good: found.meets, text: `${[held, ...misses].join('; ')}.` };
}

/**
 * The receiver that was put under the tip only after more of the target had left than the task lets go; undefined where none was.
 * What leaves before the weaker eluent is poured, at `eluent_mL`, leaves because of a long wash: no change after the wash keeps it.
 */
export function putTooLate(plan: Plan, targets: FractionTargets, eluent_mL = 0): string | undefined {
  const { target, recovered } = targets;
  // Of a day's receivers each is late for its own aliquot only.
  if (togetherOf(plan, targets)) return undefined;
  const poured = pouredOf(plan, target);
  const kept = keptOf(plan, targets);
  const changes = spansOf(plan).filter(({ from_mL, label }) => from_mL > 0 && (!kept || label === kept.label));
  const washed = collectedAt(plan, target, eluent_mL);
  const isLate = (left: number): boolean => left > (1 - recovered) * poured && left - washed > washed;
  return changes.find(({ from_mL }) => isLate(collectedAt(plan, target, from_mL)))?.label;
}

/**
 * The end of a run: what it came to, and what can be done next. Until this has been fetched, what stands inside it is shown.
 *
 * @slot debrief - the press for the debrief
 */
@customElement('bf-ended')
export class Ended extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; }
      .over { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: center; padding: var(--gap-small); background: var(--good-paper); color: var(--good-ink); font-weight: 600; }
      .missed { background: var(--problem-paper); color: var(--problem-ink); }
      .next { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
      .next > button { color: var(--ink); padding: 0 0.5em; }
      /* A place of fixed height: three presses beside the words fill it. */
      @media (max-width: 40rem) {
        .over { flex-wrap: nowrap; height: 7.2rem; padding: 2px var(--gap-small); font-size: 0.8125rem; line-height: 1.2; }
        .over > span { flex: 1; max-height: 100%; overflow-y: auto; }
        .next { --target: 2.2rem; flex: none; flex-direction: column; align-items: stretch; gap: 2px; }
      }
      @media (max-width: 40rem) and (max-height: 50rem) { .over { height: 6.75rem; } .next { --target: 2.05rem; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { plan } = this.session?.store ?? {};
    const { session } = this;
    if (!session?.targets || !plan) return html`<slot></slot><slot name="debrief"></slot>`;
    const { good, text } = endedWords(plan, session.targets);
    return html`<div class="over ${good ? '' : 'missed'}"><span><span aria-hidden="true">${good ? '✓' : '✗'}</span> The run is over: ${text} All is open now.</span>
      <div class="next"><slot name="debrief"></slot>${session.mystery || session.given ? nothing : this.again(session)}</div></div>`;
  }

  /** A run that is left is kept. */
  private again(session: Session) {
    return html`<button type="button" @click=${() => anotherColumn(session)}>New column</button>
      <button type="button" @click=${() => emptyTube(session)}>Empty tube</button>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-ended': Ended;
  }
}
