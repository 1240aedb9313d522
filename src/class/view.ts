import { css, html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { cache } from 'lit/directives/cache.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import type { HandOut } from '../../sim/handed/index.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { controlStyles } from '../ui/styles.ts';
import { ClassRoom } from './class-room.ts';
import './ahead/forecast-part.ts';
import './hand-out-part.ts';
import './take-in.ts';

/** Parts of the view by their names in the address, `#class/hand-out`. */
const PARTS = [
  { id: 'take-in', label: 'Take in' },
  { id: 'hand-out', label: 'Hand out' },
  { id: 'ahead', label: 'What will the class see?' },
] as const;
type PartId = (typeof PARTS)[number]['id'];

/** For an instructor: hands out a scenario, takes in the runs of a class, forecasts what a class will see. */
@customElement('bf-class')
export class ClassView extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; }
      nav ul { display: flex; flex-wrap: wrap; gap: var(--gap-small); list-style: none; margin: 0 0 var(--gap-large); padding: 0; }
      nav a { display: flex; align-items: center; min-height: var(--target); padding: 0 0.75em; border: 1px solid var(--edge); border-radius: var(--round); color: inherit; text-decoration: none; }
      nav a:hover { background: var(--wash); }
      nav a[aria-current] { background: var(--ink); border-color: var(--ink); color: var(--paper); font-weight: 600; }
      @media print { nav, h1 { display: none; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private chosen: PartId = 'take-in';
  private readonly room = new ClassRoom();

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('hashchange', this.follow);
    this.follow();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('hashchange', this.follow);
    this.room.cancelTaking();
    this.room.cancelForecast();
  }

  override render() {
    return html`<h1>Class</h1>
      <nav aria-label="Class"><ul>${PARTS.map(
        ({ id, label }) => html`<li><a href="#class/${id}" aria-current=${ifDefined(id === this.chosen ? 'page' : undefined)}>${label}</a></li>`,
      )}</ul></nav>
      ${cache(this.shown())}`;
  }

  private shown() {
    const { session, room } = this;
    switch (this.chosen) {
      case 'take-in':
        return html`<bf-take-in .session=${session} .room=${room}></bf-take-in>`;
      case 'hand-out':
        return html`<h2>Hand out</h2><bf-hand-out .session=${session} @bf-handed-out=${this.handedOut}></bf-hand-out>`;
      case 'ahead':
        return html`<h2>What will the class see?</h2><bf-class-forecast .session=${session} .room=${room}></bf-class-forecast>`;
    }
  }

  private readonly follow = () => {
    const asked = /^#class\/([a-z-]+)/.exec(location.hash)?.[1];
    if (location.hash.startsWith('#class')) this.chosen = PARTS.find(({ id }) => id === asked)?.id ?? 'take-in';
  };

  private readonly handedOut = (event: CustomEvent<{ handOut: HandOut }>) => {
    void this.room.holdAgainst(event.detail.handOut);
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-class': ClassView;
  }
}
