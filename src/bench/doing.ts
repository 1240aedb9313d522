import { timeAt } from '../../sim/history/index.ts';
import type { Action, Log } from '../../sim/terms/types.ts';
import type { Place } from '../store/pointing.ts';
import type { Session } from '../store/session.ts';
import { tracked } from '../store/tracked.ts';
import type { Message } from '../ui/message.ts';
import { Acting } from './acting.ts';
import { CLOCK_STANDS } from './words.ts';
import type { Dragging, HandleMove } from './dragging.ts';

/** What doing needs of the bench. */
interface Bench {
  readonly session: () => Session | undefined;
  readonly say: (message: Message) => void;
  /** Shows the pour that is set in the strip, and returns it. */
  readonly pour: () => Action;
  /** Sets in the strip what the list pours. */
  readonly poured: (actions: Log) => void;
}

/** What the reader does on the bench: on the glass, in the figure, with the strip; each a listener for one event. */
export class Doing {
  private readonly bench: Bench;
  private readonly acting: Acting;
  /** There once a handle has been moved. */
  @tracked private dragging: Dragging | undefined;

  constructor(bench: Bench) {
    this.bench = bench;
    this.acting = new Acting(bench.session, bench.say, () =>
      bench.say({ text: 'You are looking back. Return to the present to act (Escape).', kind: 'problem' }),
    );
  }

  /** The action that waits for the coach. */
  get held(): Action | undefined {
    return this.acting.held;
  }

  get moved() {
    return this.dragging?.moved;
  }

  readonly act = ({ detail }: CustomEvent<{ action: Action }>) => this.do(detail.action);
  readonly carryOut = ({ detail }: CustomEvent<{ actions: Log }>) => {
    this.bench.poured(detail.actions);
    void this.acting.take(detail.actions);
  };

  readonly go = async ({ detail }: CustomEvent<{ action: Action; taken: (refused: boolean) => void }>) => {
    await this.acting.go(detail.action, detail.taken);
    this.clockStands(detail.action);
  };

  readonly drop = () => this.acting.drop();

  readonly flipClamp = ({ detail }: CustomEvent<{ open_percent: number | undefined }>) => {
    const over = (this.bench.session()?.store.moment?.clampOpen ?? 0) > 0 ? 0 : 100;
    void this.do({ do: 'clamp', open_percent: detail.open_percent ?? over });
  };

  readonly putReceiver = ({ detail }: CustomEvent<{ label: string }>) => void this.acting.take([{ do: 'receiver', label: detail.label }]);
  readonly pour = () => void this.acting.take([this.bench.pour()]);

  readonly drag = async ({ detail }: CustomEvent<HandleMove>) => {
    if (!this.dragging) {
      const { Dragging } = await import('./dragging.ts');
      this.dragging ??= new Dragging();
    }
    const { store } = this.bench.session() ?? {};
    if (store) this.dragging.take(store, detail);
  };

  readonly lookBack = ({ detail }: CustomEvent<{ delivered_mL: number | undefined }>) => {
    const { store } = this.bench.session() ?? {};
    const { delivered_mL } = detail;
    if (store?.plan) void store.lookBack(delivered_mL === undefined ? undefined : timeAt(store.plan, delivered_mL));
  };

  readonly predict = ({ detail }: CustomEvent<{ mL: number; depth_cm?: number }>) => this.bench.session()?.markByEye(detail);
  readonly ask = ({ detail }: CustomEvent<Place>) => this.bench.session()?.pointing.ask(detail);

  readonly askAtDepth = ({ detail }: CustomEvent<{ depth_cm: number | undefined; pressed: boolean }>) => {
    if (detail.pressed && detail.depth_cm !== undefined) this.bench.session()?.pointing.ask({ depth_cm: detail.depth_cm });
  };

  /** A clamp that stands so already is left alone: one that is shut once more ends the run, and that is asked for in words. */
  private async do(action: Action) {
    const stands = 100 * (this.bench.session()?.store.moment?.clampOpen ?? Number.NaN);
    if (action.do === 'clamp' && Math.abs(action.open_percent - stands) <= 1e-9) return;
    await this.acting.take([action]);
    this.clockStands(action);
  }

  /** An open clamp drips only while the clock runs: a reader who opened it by hand would wait. Said once it is open. */
  private clockStands({ do: done }: Action): void {
    const { store } = this.bench.session() ?? {};
    const { clampOpen = 0, level_cm = 0 } = store?.moment ?? {};
    if (!store || done !== 'clamp' || store.playing || clampOpen === 0 || level_cm <= 0) return;
    this.bench.say({ text: CLOCK_STANDS, kind: 'note', action: { label: 'Play', run: () => store.play() } });
  }
}
