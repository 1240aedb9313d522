import { LitElement, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { cache } from 'lit/directives/cache.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import { localStorageOf } from '../store/keep/storage.ts';
import { paced } from '../ui/announce.ts';
import type { Dialog } from '../ui/dialog.ts';
import { KeysController, handleKey } from '../ui/keys.ts';
import type { Message } from '../ui/message.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { readRoute, routeHash } from './route.ts';
import { THEME_CHOICES, chooseTheme, rememberedTheme, type ThemeChoice } from '../ui/look/theme.ts';
import { shellStyles } from './shell-styles.ts';
import type { DrawView, View } from './views.ts';
import '../ui/message.ts';

/**
 * The frame of the page: name, scenario, navigation, the view in the main landmark, message line, spoken line, keys.
 * It hears `bf-announce` (a string, spoken politely at a sane rate) and `bf-message` (a Message) from anywhere inside.
 *
 * @slot run - which scenario is open, and how it is looked at
 * @slot actions - buttons of the run in the menu, such as copy link, save, open
 * @slot notice - above the view: issues found on reading, and the like
 * @fires bf-view - {id} when another view is shown
 * @fires bf-offer-message - on the view, a Message; one that shows it itself prevents the default
 */
@customElement('bf-app')
export class App extends LitElement {
  static override styles = [controlStyles, hiddenStyles, shellStyles];

  @property({ attribute: false }) views: readonly View[] = [];
  @property({ attribute: 'scenario-title' }) scenarioTitle = '';
  /** Keeps the run before the page is loaded again; false where the browser keeps nothing. */
  @property({ attribute: false }) keep: () => boolean = () => true;
  @state() private current: View | undefined;
  @state() private draw: DrawView | undefined;
  @state() private failure = '';
  @state() private message: Message | undefined;
  /** The view that the message was meant for. */
  private messageOf: View | undefined;
  @state() private spoken = '';
  @state() private keysOpened = 0;
  @query('main') private main!: HTMLElement;
  @state() private cautionsOpened = false;
  @query('#keys') private keysDialog!: Dialog;
  @query('#cautions') private cautionsDialog!: Dialog;
  @query('#menu') private menu!: HTMLElement;
  private loading = 0;

  constructor() {
    super();
    new KeysController(this, { heading: 'Page', entries: [{ key: '?', does: 'list of keys', run: () => this.showKeys() }] });
    const say = paced((text) => {
      // A line equal to the one before is not spoken again unless the text differs.
      this.spoken = text === this.spoken ? `${text}\u00a0` : text;
    });
    this.addEventListener('bf-announce', (event) => say((event as CustomEvent<string>).detail));
    this.addEventListener('bf-message', (event) => {
      const { detail } = event as CustomEvent<Message>;
      this.message = this.takenByView(detail) ? undefined : detail;
      // Whoever says something on the way to another view has asked for that view already.
      this.messageOf = this.asked();
    });
  }

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('hashchange', this.follow);
    addEventListener('keydown', handleKey);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('hashchange', this.follow);
    removeEventListener('keydown', handleKey);
  }

  override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (changed.has('views')) this.open(this.asked(), false);
  }

  override render() {
    return html`
      <header>
        <button type="button" class="skip" @click=${this.skip}>Skip to the view</button>
        <p class="name"><a href=${routeHash({ view: this.views[0]?.id ?? '' })}>Bandfall</a></p>
        <div class="run"><span class="where">on the bench:</span><slot name="run"><p class="scenario">${this.scenarioTitle}</p></slot></div>
        ${this.views.length > 1 ? html`<nav aria-label="Views"><ul>${this.views.map((view) => this.link(view))}</ul></nav>` : nothing}
        <button type="button" class="more plain" popovertarget="menu" aria-label="Menu">⋯</button>
        <div id="menu" class="menu" popover @click=${this.leaveMenu} @bf-chosen=${() => this.menu.hidePopover()}>
          <slot name="actions"></slot>
          <button type="button" class="plain" @click=${this.showKeys}>Keys</button>
          <button type="button" class="plain" @click=${this.showCautions}>Cautions</button>
          <label>Theme
            <select @change=${this.chooseTheme}>${THEME_CHOICES.map((choice) => this.themeOption(choice))}</select></label>
        </div>
      </header>
      <slot name="notice"></slot>
      <main id="main" tabindex="-1" aria-busy=${this.current && !this.draw && !this.failure ? 'true' : 'false'}>
        ${this.failure ? this.failed() : cache(this.draw?.() ?? nothing)}
      </main>
      <bf-message-line .message=${this.message} @bf-dismiss=${this.dismiss}></bf-message-line>
      <div class="unseen" aria-live="polite">${this.spoken}</div>
      <bf-dialog id="keys" heading="Keys"><bf-keys .opened=${this.keysOpened}></bf-keys></bf-dialog>
      <bf-dialog id="cautions" heading="Cautions">${this.cautionsOpened ? html`<bf-all-cautions></bf-all-cautions>` : nothing}</bf-dialog>`;
  }

  /** Shows a view, as if its entry in the navigation had been clicked. */
  go(id: string): void {
    location.hash = routeHash({ view: id });
  }

  /** A view that keeps a place for what is said takes it there, where it covers nothing. */
  private takenByView(message: Message): boolean {
    const offer = new CustomEvent('bf-offer-message', { detail: message, cancelable: true });
    return [...this.main.children].some((view) => !view.dispatchEvent(offer));
  }

  private link(view: View) {
    return html`<li><a href=${routeHash({ view: view.id })} aria-current=${ifDefined(view === this.current ? 'page' : undefined)}>${view.label}</a></li>`;
  }

  private themeOption(choice: ThemeChoice) {
    const label = { system: 'as the system', light: 'light', dark: 'dark' }[choice];
    return html`<option value=${choice} ?selected=${choice === rememberedTheme(localStorageOf(window))}>${label}</option>`;
  }

  private failed() {
    return html`<h1>${this.current?.label}</h1><div role="alert"><p>${this.failure}</p><button type="button" @click=${this.retry}>Try again</button></div>`;
  }

  private asked(): View | undefined {
    const [asked] = readRoute(location.hash).view.split('/');
    return this.views.find(({ id }) => id === asked) ?? this.views[0];
  }

  private readonly follow = () => {
    const asked = this.asked();
    // A note is of the view it was said in, and would cover the buttons of another.
    if (asked !== this.messageOf && this.message?.kind === 'note' && !this.message.action) this.dismiss();
    if (asked !== this.current) void this.open(asked, true);
  };

  /** Loads the view's chunk; a chunk that arrives after another view was chosen is dropped. */
  private async open(view: View | undefined, byReader: boolean): Promise<void> {
    this.current = view;
    this.draw = undefined;
    this.failure = '';
    const call = ++this.loading;
    if (!view) return;
    document.title = `${view.label} - Bandfall`;
    this.dataset['view'] = view.id;
    try {
      const draw = await view.load();
      if (call === this.loading) this.draw = draw;
    } catch (error) {
      if (call === this.loading) this.failure = `${view.label}: could not be loaded (${error instanceof Error ? error.message : String(error)})`;
    }
    if (call !== this.loading) return;
    this.dispatchEvent(new CustomEvent('bf-view', { detail: { id: view.id }, bubbles: true, composed: true }));
    if (byReader) this.main.focus({ preventScroll: false });
  }

  private async retry() {
    await this.open(this.current, true);
    if (this.failure) this.failure = `${this.current?.label}: ${await this.afresh()}`;
  }

  /** Browsers may remember that a part was missing: where asking again does not help, a fresh page does. Says why there is none. */
  private async afresh(): Promise<string> {
    if (!(await serverAnswers())) return 'the server does not answer. The run is as it was; try again later.';
    if (!this.keep())
      return 'this part is no longer on the server, which may have a newer page. This browser keeps nothing: save the run as a file, then reload.';
    location.reload();
    return 'loaded anew';
  }

  private skip() {
    this.main.focus();
  }

  private readonly showKeys = async () => {
    if (!(await this.fetched('keys', () => Promise.all([import('../ui/dialog.ts'), import('./keys-list.ts')]), this.showKeys))) return;
    this.keysOpened += 1;
    void this.keysDialog.show();
  };

  private readonly showCautions = async () => {
    if (!(await this.fetched('cautions', () => Promise.all([import('../ui/dialog.ts'), import('../ui/safety/all-cautions.ts')]), this.showCautions))) return;
    this.cautionsOpened = true;
    void this.cautionsDialog.show();
  };

  /** Fetches what is shown only when it is asked for. */
  private async fetched(name: string, parts: () => Promise<unknown>, show: () => Promise<void>): Promise<boolean> {
    try {
      await parts();
      return true;
    } catch {
      const again = () =>
        parts().then(show, async () => {
          this.message = { kind: 'problem', text: `The ${name}: ${await this.afresh()}` };
        });
      this.message = { kind: 'problem', text: `The ${name} could not be loaded; the rest of the page works.`, action: { label: 'Try again', run: again } };
      return false;
    }
  }

  /** A choice made in the menu closes it; a list that is being chosen from does not. */
  private leaveMenu(event: Event) {
    const pressed = event.composedPath()[0];
    if (pressed instanceof HTMLButtonElement) this.menu.hidePopover();
  }

  private chooseTheme(event: Event & { target: HTMLSelectElement }) {
    const choice = THEME_CHOICES.find((known) => known === event.target.value) ?? 'system';
    chooseTheme(document, localStorageOf(window), choice);
  }

  private dismiss() {
    this.message = undefined;
  }
}

async function serverAnswers(): Promise<boolean> {
  try {
    return (await fetch(location.pathname, { method: 'HEAD', cache: 'no-store' })).ok;
  } catch {
    return false;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-app': App;
  }
}
