import { sectionOf } from '../../sim/terms/geometry.ts';
import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
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

/** Liquid that a bed is stirred under, in bed heights; the model asks for half of one. */
const STIRRED_UNDER = 0.55;
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
    const [first] = actions(session);
    const refusal = ends && first ? (await session.store.act(first))?.refused : await takeAtOnce(session.store, actions(session));
    this.refused = refusal !== undefined;
    this.said = refusal ? `${label}: expected ${refusal.expected}, received ${refusal.received}` : `${label}: done`;
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
    label: 'Refill from below',
    does: 'With the clamp shut, one hold-up volume of acid is pushed in slowly from below; the gas rises out.',
    actions: (session) => shut(session, [{ do: 'refill-from-below', liquid: acidOf(session), volume_mL: session.store.moment?.results.bed.holdup_mL ?? 1 }]),
  },
  {
    label: 'Stir and repack',
    does: 'With the clamp shut and half a bed height of acid above it, the bed is stirred up and settles again. A loaded bed loses its bands.',
    actions: (session) => shut(session, [...raised(session), { do: 'stir' }]),
  },
  {
    label: 'Top up with resin',
    does: `Up to ${millilitres(RESIN_ML)} of resin is added to a hollow bed top.`,
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

/** Acid poured until the bed can be stirred up under it. */
function raised(session: Session): Action[] {
  const { scenario, moment } = session.store;
  if (!scenario || !moment) return [];
  const section = sectionOf(scenario.values);
  const missing_mL = section * (STIRRED_UNDER * scenario.values['bed.length_cm'] - moment.level_cm);
  return missing_mL > 0 ? [{ do: 'pour', liquid: acidOf(session), volume_mL: Number(missing_mL.toFixed(2)) }] : [];
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
