import { effect } from '@preact/signals-core';
import { LitElement } from 'lit';

/**
 * An element that always shows the present state. It is drawn when it enters the page, and again whenever something changes that
 * it read from a store while it was drawn (`willUpdate`, `render` and `updated` alike).
 */
export class LiveElement extends LitElement {
  private unfollow: () => void = () => undefined;

  override connectedCallback() {
    super.connectedCallback();
    this.requestUpdate();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.unfollow();
  }

  protected override performUpdate(): void {
    if (!this.isUpdatePending) return;
    this.unfollow();
    if (!this.isConnected) return super.performUpdate();
    let drawn = false;
    this.unfollow = effect(() => {
      // Called again after a change: Lit then redraws and everything is read again.
      if (drawn) return this.requestUpdate();
      drawn = true;
      super.performUpdate();
    });
  }
}
