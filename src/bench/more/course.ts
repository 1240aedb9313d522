import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Until } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import './until.ts';

/**
 * Longer stretches of model time: until something is reached, the whole procedure, and ways back.
 *
 * @fires bf-done - the run goes on and is to be looked at
 */
@customElement('bf-course')
export class CourseControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: grid; gap: var(--gap-small); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;

  override render() {
    const { store } = this;
    if (!store?.moment) return nothing;
    return html`<bf-until .store=${store} @bf-until=${this.runUntil}></bf-until>
      <div class="row">
        <button type="button" @click=${this.procedure}>Play the procedure</button>
        <button type="button" ?disabled=${!store.canRedo} @click=${() => store.redo()}>Redo</button>
        <button type="button" ?disabled=${store.taken.length === 0} @click=${() => store.stepBack()}>Step back</button>
        <button type="button" @click=${this.startAgain}>Start again</button>
      </div>`;
  }

  private async runUntil(event: CustomEvent<Until>) {
    emit(this, 'bf-done', undefined);
    await this.store?.runUntil(event.detail);
    await this.jumpIfStill();
  }

  private async procedure() {
    emit(this, 'bf-done', undefined);
    await this.store?.playProcedure();
    await this.jumpIfStill();
  }

  private async startAgain() {
    emit(this, 'bf-done', undefined);
    await this.store?.startAgain();
  }

  /** Readers who want no motion get the end at once. */
  private async jumpIfStill() {
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) await this.store?.skip();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-course': CourseControl;
  }
}
