import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { CURES, cureWords, mendingRefused, raised } from '../../sim/bench/index.ts';
import { FAULTS } from '../../sim/faults/index.ts';
import { eluents } from '../../sim/input/index.ts';
import type { Action } from '../../sim/terms/types.ts';
import { imposedOn, takeAtOnce } from './imposed/impose.ts';
import { isHidden } from '../store/keep/mystery.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { announce } from '../ui/announce.ts';
import { millilitres } from '../ui/text/format.ts';
import { controlStyles } from '../ui/styles.ts';
import { partStyles } from './styles.ts';
import '../ui/safety/caution.ts';

/** Clamp that slows a bed down, percent; a choice. */
const PINCHED = 20;
/** Resin that a hollow is topped up with at most, mL, and liquid poured at once, mL; choices. */
const RESIN_ML = 0.5;
const AT_ONCE_ML = 5;

interface Rescue {
  readonly label: string;
  readonly does: string;
  readonly actions: (session: Session) => readonly Action[];
  /** Later actions of the run are dropped. */
  readonly ends?: boolean;
}

/** Prevention and rescue for the imposed faults, and the rescues that can be done in the model now. */
@customElement('bf-rescue')
export class RescuePart extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      .do { list-style: none; padding: 0; display: grid; gap: var(--gap-small); max-width: none; }
      .do li { display: grid; grid-template-columns: minmax(11rem, auto) 1fr; gap: var(--gap-small) var(--gap); align-items: center; }
      .halves { display: grid; gap: var(--gap-large); grid-template-columns: repeat(auto-fit, minmax(min(100%, 24rem), 1fr)); }
      bf-caution { margin-top: var(--gap); }
      @media (max-width: 36rem) { .do li { grid-template-columns: 1fr; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private said = '';
  @state() private refused = false;

  override render() {
    const { session } = this;
    if (!session?.store.moment) return nothing;
    return html`<div class="halves">
      <section aria-labelledby="now"><h2 id="now">What can be done now</h2>
        <p>An action is taken at the moment shown; the later actions of the run follow after it. The twin gets the same action.</p>
        <ul class="do">${RESCUES.map((rescue) => html`<li><button type="button" @click=${() => this.take(rescue)}>${rescue.label}</button><span>${rescue.does}</span></li>`)}</ul>
        <p class=${this.refused ? 'problem' : ''} role=${this.refused ? 'alert' : 'status'}>${this.said}</p>
        <div class="row"><button type="button" ?disabled=${!session.store.canUndo} @click=${() => session.store.undo()}>Undo</button></div>
        <p class="soft">Not in the model: changing to another column, and passing what is in a receiver through the bed again. At the bench, a fraction with cobalt that left too early is made strongly acidic again and passed through the conditioned bed; what was spilled is lost.</p>
        <bf-caution topic="acid" read></bf-caution><bf-caution topic="column" read></bf-caution>
      </section>
      ${isHidden(session.mystery) ? nothing : this.advice(session)}
    </div>`;
  }

  private advice(session: Session) {
    const kinds = [...new Set(imposedOn(session).map(({ fault }) => fault.kind))];
    return html`<section aria-labelledby="advice"><h2 id="advice">Prevention and rescue for the imposed faults</h2>
      ${
        kinds.length === 0
          ? html`<p>Nothing is imposed. The fault board gives prevention and rescue for every fault.</p>`
          : kinds.map((kind) => {
              const { label, prevention, rescue, source, status } = FAULTS[kind];
              return html`<div class="card"><h3>${label}</h3><dl><dt>prevention</dt><dd>${prevention}</dd><dt>rescue</dt><dd>${rescue}</dd><dt>basis</dt><dd class="soft">${source} (${status})</dd></dl></div>`;
            })
      }</section>`;
  }

  private async take({ label, actions, ends }: Rescue) {
    const { session } = this;
    if (!session) return;
    session.store.pause();
    const taken = actions(session);
    const [first] = taken;
    const refusal = ends && first ? (await session.store.act(first))?.refused : await takeAtOnce(session.store, taken);
    const what = taken.find(({ do: done }) => done !== 'clamp' && done !== 'pour')?.do;
    this.refused = refusal !== undefined;
    this.said = refusal
      ? `${label}: ${(what && mendingRefused(what, refusal)) ?? `expected ${refusal.expected}, received ${refusal.received}`}`
      : `${label}: done`;
    if (!refusal) announce(this, this.said);
  }
}

const RESCUES: readonly Rescue[] = [
  {
    label: 'Shut the clamp',
    does: 'Nothing drips out while you think. The rest of the planned run is dropped.',
    actions: () => [{ do: 'clamp', open_percent: 0 }],
    ends: true,
  },
  {
    label: 'Pinch the clamp',
    does: `To ${PINCHED} %: slower flow gives the beads more time to exchange.`,
    actions: () => [{ do: 'clamp', open_percent: PINCHED }],
  },
  {
    label: CURES['refill-from-below'].label,
    does: `${cureWords('refill-from-below')} Here: the clamp is shut meanwhile, and one hold-up volume of acid is pushed in.`,
    actions: (session) => shut(session, [{ do: 'refill-from-below', liquid: acidOf(session), volume_mL: session.store.moment?.results.bed.holdup_mL ?? 1 }]),
  },
  {
    label: CURES.stir.label,
    does: `${cureWords('stir')} Here: the clamp is shut meanwhile, and what acid is missing is poured.`,
    actions: (session) => shut(session, [...pouredFirst(session), { do: 'stir' }]),
  },
  {
    label: CURES['top-up'].label,
    does: `${cureWords('top-up')} Here: up to ${millilitres(RESIN_ML)}.`,
    actions: () => [{ do: 'top-up', resin_mL: RESIN_ML }],
  },
  {
    label: 'Pour acid at once',
    does: `${millilitres(AT_ONCE_ML, 0)} of the strongest acid down the wall: cobalt that is still on the bed is held again.`,
    actions: (session) => [{ do: 'pour', liquid: acidOf(session), volume_mL: AT_ONCE_ML }],
  },
  {
    label: 'Pour more water',
    does: `${millilitres(AT_ONCE_ML, 0)} of the weakest eluent into the same receiver.`,
    actions: (session) => [{ do: 'pour', liquid: waterOf(session), volume_mL: AT_ONCE_ML }],
  },
];

/** With the clamp shut, and afterwards as it was. */
function shut({ store }: Session, actions: readonly Action[]): Action[] {
  const open = 100 * (store.moment?.clampOpen ?? 0);
  return [...(open > 0 ? [{ do: 'clamp', open_percent: 0 } as const] : []), ...actions, ...(open > 0 ? [{ do: 'clamp', open_percent: open } as const] : [])];
}

function pouredFirst(session: Session): Action[] {
  const { scenario, moment } = session.store;
  return scenario && moment ? raised(scenario, moment, acidOf(session)) : [];
}

function acidOf({ store: { scenario } }: Session): string {
  return (scenario && eluents(scenario).acid) ?? '';
}

function waterOf({ store: { scenario } }: Session): string {
  return (scenario && eluents(scenario).water) ?? '';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rescue': RescuePart;
  }
}
