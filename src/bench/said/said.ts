import type { ReactiveControllerHost } from 'lit';
import { holdsAir } from '../../../sim/bench/index.ts';
import { fits } from '../../../sim/teach/index.ts';
import type { RunEvent } from '../../../sim/history/index.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import type { Moment } from '../../store/threads/planner.ts';
import type { Message } from '../../ui/message.ts';
import { isOver } from '../../store/over.ts';
import { airWords, CLOCK_STANDS, NO_AIR, sayRefusal } from '../words.ts';

/** The one message that the bench says: what an action was refused for, what was met, news of the page. */
export class Said {
  private shown: Message | undefined;
  /** What the page said last, such as that the model was started again: no action answers it. */
  private news: Message | undefined;
  /** The refusal that was said last. */
  private told: RunEvent | undefined;
  private logged = 0;
  private readonly host: ReactiveControllerHost;
  private readonly mend: () => void;
  /** What is to be said whenever nothing else is, as long as air is in the bed. */
  private standing: Message | undefined;
  /** The moment that was told of last, and of which lab. */
  private before: Pick<ColumnStore, 'scenario' | 'moment'> = { scenario: undefined, moment: undefined };

  /** `mend` shows what can be done about a spoilt bed. */
  constructor(host: ReactiveControllerHost, mend: () => void) {
    this.host = host;
    this.mend = mend;
  }

  get message(): Message | undefined {
    return this.shown ?? this.standing;
  }

  /** An accepted action answers what was said before it; what offers a press and news of the page stay. */
  hushWhenActed(length: number): void {
    if (length > this.logged && this.shown && !this.shown.action && this.shown !== this.news) this.shown = undefined;
    this.logged = length;
  }

  /** Says that air has come into the bed, as long as it is there, that it has left, and a refusal that has not been said yet. */
  tell(store: ColumnStore): void {
    const { scenario, moment, refusal, playing } = store;
    if (moment) this.tellOfAir(store, moment);
    if (playing && this.shown?.text === CLOCK_STANDS) this.shown = undefined;
    if (refusal === this.told) return;
    this.told = refusal;
    if (refusal && scenario && moment) this.shown = { text: sayRefusal(refusal, fits(scenario.values, moment.headVolume)), kind: 'problem' };
  }

  /** The way to mend a bed stays beside what is said of it, whatever the clamp does; only a run that is over needs none. */
  private tellOfAir(store: ColumnStore, moment: Moment): void {
    const { scenario, moment: before } = this.before;
    this.before = { scenario: store.scenario, moment };
    const text = isOver(store) ? '' : airWords(moment);
    if (text !== (this.standing?.text ?? ''))
      this.standing = text === '' ? undefined : { text, kind: moment.ails.dry ? 'problem' : 'note', stays: true, action: { label: 'Mend', run: this.mend } };
    const sameRun = before !== undefined && scenario === store.scenario && moment.entry >= before.entry;
    const [had, has] = [before !== undefined && holdsAir(before.ails), holdsAir(moment.ails)];
    // What was said before makes way where the bed has changed.
    if (moment.ails.dry && !before?.ails.dry) this.shown = undefined;
    if (had && !has && sameRun) this.shown = { text: NO_AIR, kind: 'note' };
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
