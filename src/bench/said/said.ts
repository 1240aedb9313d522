import type { ReactiveControllerHost } from 'lit';
import { fits } from '../../../sim/teach/index.ts';
import type { RunEvent } from '../../../sim/history/index.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import type { Message } from '../../ui/message.ts';
import { CLOCK_STANDS, DRY_WORDS, isDry, sayRefusal } from '../words.ts';

/** The one message that the bench says: what an action was refused for, what was met, news of the page. */
export class Said {
  private shown: Message | undefined;
  /** What the page said last, such as that the model was started again: no action answers it. */
  private news: Message | undefined;
  /** The refusal that was said last. */
  private told: RunEvent | undefined;
  private logged = 0;
  private wasDry = false;
  private readonly host: ReactiveControllerHost;
  /** Stays as long as the bed is dry, so that the press beside it can be reached. */
  private readonly dryness: Message;

  /** `mend` shows what can be done about a spoilt bed. */
  constructor(host: ReactiveControllerHost, mend: () => void) {
    this.host = host;
    this.dryness = { text: DRY_WORDS, kind: 'problem', stays: true, action: { label: 'Mend', run: mend } };
  }

  get message(): Message | undefined {
    return this.shown;
  }

  /** An accepted action answers what was said before it; what offers a press and news of the page stay. */
  hushWhenActed(length: number): void {
    if (length > this.logged && this.shown && !this.shown.action && this.shown !== this.news) this.shown = undefined;
    this.logged = length;
  }

  /** Says that air has come into the bed, when it does, and a refusal that has not been said yet. */
  tell({ scenario, moment, refusal, playing }: ColumnStore): void {
    const dry = moment !== undefined && isDry(moment);
    if (dry && !this.wasDry) this.shown = this.dryness;
    else if (this.shown === this.dryness ? !dry : playing && this.shown?.text === CLOCK_STANDS) this.shown = undefined;
    this.wasDry = dry;
    if (refusal === this.told) return;
    this.told = refusal;
    if (refusal && scenario && moment) this.shown = { text: sayRefusal(refusal, fits(scenario.values, moment.headVolume)), kind: 'problem' };
  }

  readonly say = (message: Message): void => this.put(message);

  readonly hear = (event: CustomEvent<Message>): void => this.put(event.detail);

  readonly hush = (): void => this.put(undefined);

  /** News of the page stay when the next action is accepted. */
  tellNews(message: Message): void {
    this.news = message;
    this.put(message);
  }

  private put(message: Message | undefined): void {
    this.shown = message;
    this.host.requestUpdate();
  }
}
