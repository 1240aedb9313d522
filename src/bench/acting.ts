import type { RunEvent } from '../../sim/history/index.ts';
import { firstReceiver, releases } from '../../sim/teach/index.ts';
import type { Action, Log, Scenario } from '../../sim/terms/types.ts';
import type { Session } from '../store/session.ts';
import { tracked } from '../store/tracked.ts';
import type { Message } from '../ui/message.ts';
import { isUnnamed } from './receivers.ts';

/** Speed at which a drop falls about every fifth of a second. A choice. */
const WATCHFUL = 5;

/** What the reader wants to do, on its way to the run: where the coach asks, it waits until the coach lets it go. */
export class Acting {
  /** An action that waits for the coach. */
  @tracked held: Action | undefined;
  /** What follows the action that waits, in the same press. */
  private following: Log = [];
  /** The speed before the run was slowed down to be watched, and how long the log was then. */
  private slowed: { readonly from: number; readonly entry: number } | undefined;
  private readonly session: () => Session | undefined;
  private readonly say: (message: Message) => void;
  /** Called instead of acting while the reader looks back. */
  private readonly looksBack: () => void;

  constructor(session: () => Session | undefined, say: (message: Message) => void, looksBack: () => void) {
    this.session = session;
    this.say = say;
    this.looksBack = looksBack;
  }

  /** The coach lets an action go at once when there is nothing to ask. Resolves once it is done, or waits for the coach. */
  async take(actions: Log): Promise<void> {
    const session = this.session();
    const [first, ...rest] = this.named(actions);
    if (!session || !first) return;
    const asked = actions.find((action) => action.do === 'pour' || action.do === 'receiver') ?? first;
    this.following = asked === first ? rest : [first, ...rest];
    if (session.store.present !== undefined) return this.looksBack();
    if (session.coach === 'off' || session.sees === 'eye') await this.perform(first, rest);
    else this.held = asked;
  }

  /** The coach lets an action go, and hears whether it was refused. */
  async go(action: Action, taken: (refused: boolean) => void): Promise<void> {
    const { held, following } = this;
    this.held = undefined;
    const all = following.includes(action) ? following : [action, ...following];
    const [first, ...rest] = all;
    if (!held || !first) return;
    const refusal = await this.perform(first, rest);
    taken(refusal !== undefined);
  }

  drop(): void {
    this.held = undefined;
  }

  /** Before anything has dripped the beaker that stands there gets its name with the first action. */
  private named(actions: Log): Log {
    const { store } = this.session() ?? {};
    const label = store?.scenario && firstReceiver(store.scenario);
    if (!store || label === undefined || !isUnnamed(store) || actions.some((action) => action.do === 'receiver')) return actions;
    return [{ do: 'receiver', label }, ...actions];
  }

  private perform(first: Action, rest: Log): Promise<RunEvent | undefined> | undefined {
    const { store } = this.session() ?? {};
    this.slowDown([first, ...rest]);
    return rest.some((action) => action.do === 'wait') ? this.play([first, ...rest]) : store?.actAll([first, ...rest]);
  }

  /** What a weaker liquid sets free leaves within a few millilitres: by eye there must be time to see it and to change the receiver. A second portion comes too late for that. */
  private slowDown(actions: Log): void {
    const { store, sees } = this.session() ?? {};
    const scenario = store?.scenario;
    if (!store || !scenario) return;
    this.speedUp(store, scenario, actions);
    if (sees !== 'eye' || store.speed <= WATCHFUL) return;
    const last = store.moment?.events.findLast(({ action, refused }) => action?.do === 'pour' && !refused)?.action;
    const before = last?.do === 'pour' ? last.liquid : undefined;
    if (!actions.some((action) => action.do === 'pour' && action.liquid !== before && releases(scenario, action.liquid))) return;
    const { speed } = store;
    this.slowed = { from: speed, entry: store.log.length };
    store.setSpeed(WATCHFUL);
    const back = { label: `×${speed} again`, run: () => store.setSpeed(speed) };
    this.say({ text: `Slowed to ×${WATCHFUL}, to watch bed and tip.`, kind: 'note', action: back });
  }

  /** There is no more to watch at the pour after the receiver was changed, or where nothing is set free, as on the next column. A speed chosen since stays. */
  private speedUp(store: Session['store'], scenario: Scenario, actions: Log): void {
    const { slowed } = this;
    const pour = actions.find((action) => action.do === 'pour');
    if (!slowed || !pour) return;
    if (releases(scenario, pour.liquid) && !store.taken.slice(slowed.entry).some((action) => action.do === 'receiver')) return;
    this.slowed = undefined;
    if (store.speed === WATCHFUL) store.setSpeed(slowed.from);
  }

  private async play(actions: Log): Promise<RunEvent | undefined> {
    const { store } = this.session() ?? {};
    const refused = await store?.carryOut(actions);
    if (!refused && matchMedia('(prefers-reduced-motion: reduce)').matches) await store?.skip();
    return refused;
  }
}
