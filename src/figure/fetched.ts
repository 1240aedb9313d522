import type { ReactiveElement } from 'lit';
import { showMessage } from '../ui/message.ts';

/** A part of an element that is loaded when it is first wanted; the element is drawn again when it is there. A failure is said once, with the name of the part. */
export class Fetched<T> {
  private readonly host: ReactiveElement;
  private readonly name: string;
  private readonly load: () => Promise<T>;
  private loaded: T | undefined;
  private asked = false;

  constructor(host: ReactiveElement, name: string, load: () => Promise<T>) {
    this.host = host;
    this.name = name;
    this.load = load;
  }

  get part(): T | undefined {
    return this.loaded;
  }

  want(): void {
    if (this.asked) return;
    this.asked = true;
    this.load().then(
      (part) => {
        this.loaded = part;
        this.host.requestUpdate();
      },
      () =>
        showMessage(this.host, {
          kind: 'problem',
          text: `${this.name} could not be loaded. Reload the page.`,
        }),
    );
  }
}
