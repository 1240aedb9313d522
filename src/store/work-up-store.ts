import type { ReceiverResult } from '../../sim/history/outcome.ts';
import type { Parameters, Scenario } from '../../sim/terms/types.ts';
import type { WorkUpAction } from '../../sim/workup/actions.ts';
import { type Bench, benchOf, startOf, type WorkUpEvent, type WorkUpState } from '../../sim/workup/bench.ts';
import type { StepId } from '../../sim/report/calculation.ts';
import { type Receiver, receiverOf } from '../../sim/flask/flask.ts';
import { workUpStep } from '../../sim/workup/play.ts';
import { richest, type Sample, sampleOf, valuesWith } from '../../sim/report/sample.ts';
import { type WorkUp, workUpFigures } from '../../sim/report/workup.ts';
import type { ColumnStore } from './column-store.ts';
import { usualStep } from '../../sim/workup/usual-step.ts';
import { EMPTY_WORK_UP, ENTRIES_MAX, type Entry, KEPT_MAX, type KeptResult, type SavedWorkUp, TEXT_LONGEST } from './keep/work-up.ts';

/** The work-up as it was played. */
interface Played {
  readonly key: string;
  readonly receiver: Receiver;
  readonly bench: Bench;
  /** State before the first action and after each. */
  readonly states: WorkUpState[];
}

/** Steps that one press of the button plays at most. */
const USUAL_MAX = 60;

/**
 * The one owner of the work-up: which receiver of the run was taken, what was done to it, and what the reader made of it. The
 * state is played from the log, so it follows the run: another change of the receiver is worked up by the same steps.
 */
export class WorkUpStore extends EventTarget {
  saved: SavedWorkUp = EMPTY_WORK_UP;
  /** The last action, if it was refused. */
  refusal: WorkUpEvent | undefined;
  /** Everything that was refused; a refused action is not in the log. */
  refusals: readonly WorkUpEvent[] = [];
  private readonly column: ColumnStore;
  private undone: WorkUpAction[] = [];
  private played: Played | undefined;
  private figuresOf: { state: WorkUpState; figures: WorkUp } | undefined;

  constructor(column: ColumnStore) {
    super();
    this.column = column;
  }

  /** Receivers that hold liquid at the moment shown. */
  get receivers(): readonly ReceiverResult[] {
    return (this.column.moment?.results.receivers ?? []).filter(({ volume_mL }) => volume_mL > 0);
  }

  /** What the run's receiver of that name holds; undefined before one is taken, or if the run has none of that name. */
  get receiver(): Receiver | undefined {
    return this.play()?.receiver;
  }

  /** The receiver that holds most cobalt. */
  get richest(): ReceiverResult | undefined {
    return richest(this.receivers);
  }

  get sample(): Sample | undefined {
    const { scenario } = this.column;
    return scenario && sampleOf(scenario, this.column.taken());
  }

  get values(): Parameters | undefined {
    const { scenario } = this.column;
    return scenario && valuesWith(this.sample, scenario.values);
  }

  get bench(): Bench | undefined {
    return this.play()?.bench;
  }

  get state(): WorkUpState | undefined {
    return this.play()?.states.at(-1);
  }

  /** State before the step of that number. */
  stateBefore(entry: number): WorkUpState | undefined {
    return this.play()?.states[entry];
  }

  /** The figures of the work-up as it stands. */
  get figures(): WorkUp | undefined {
    const played = this.play();
    const state = played?.states.at(-1);
    if (!played || !state) return undefined;
    if (this.figuresOf?.state !== state) this.figuresOf = { state, figures: workUpFigures(played.receiver, state, played.bench) };
    return this.figuresOf.figures;
  }

  get canUndo(): boolean {
    return this.saved.log.length > 0;
  }

  get canRedo(): boolean {
    return this.undone.length > 0;
  }

  /** The next step of the usual order; undefined when it is done. */
  get usual(): WorkUpAction | undefined {
    const played = this.play();
    const state = played?.states.at(-1);
    return played && state && usualStep(played.receiver, state, played.bench.values);
  }

  /** Uses a kept work-up from now on; said by the column, which is opened with it. */
  open(saved: SavedWorkUp): void {
    this.undone = [];
    this.refusals = [];
    this.refusal = undefined;
    this.saved = saved;
  }

  /** Takes a receiver of the run to the work-up bench. */
  take(label: string): void {
    const { entries, kept, expected } = this.saved;
    this.undone = [];
    this.put({ ...EMPTY_WORK_UP, receiver: label, entries, kept, ...(label === this.saved.receiver && expected !== undefined ? { expected } : {}) });
  }

  /** What the action came to. */
  act(action: WorkUpAction): WorkUpEvent | undefined {
    const played = this.play();
    const before = played?.states.at(-1);
    if (!played || !before) return undefined;
    const event = workUpStep(before, action, played.bench).events.at(-1);
    if (event?.refused) {
      this.refusals = [...this.refusals, event];
      this.refusal = event;
      this.tell();
      return event;
    }
    this.undone = [];
    this.put({ ...this.saved, log: [...this.saved.log, action] });
    return event;
  }

  /** The usual steps up to the end, or to the first refusal; `one`: only the next. */
  actAsUsual(one: boolean): void {
    for (let i = 0; i < (one ? 1 : USUAL_MAX); i++) {
      const step = this.usual;
      if (!step || this.act(step)?.refused) return;
    }
  }

  undo(): void {
    const last = this.saved.log.at(-1);
    if (!last) return;
    this.undone = [...this.undone, last];
    this.put({ ...this.saved, log: this.saved.log.slice(0, -1) });
  }

  redo(): void {
    const next = this.undone.at(-1);
    if (!next) return;
    this.undone = this.undone.slice(0, -1);
    this.put({ ...this.saved, log: [...this.saved.log, next] });
  }

  /** The same receiver, nothing done to it yet. */
  startAgain(): void {
    this.undone = [];
    this.put({ ...this.saved, log: [] });
  }

  expect(text: string): void {
    this.put({ ...this.saved, expected: text.slice(0, TEXT_LONGEST) });
  }

  answer(id: StepId, text: string): void {
    this.put({ ...this.saved, answers: { ...this.saved.answers, [id]: text.slice(0, TEXT_LONGEST) } });
  }

  write({ what, value }: Entry): void {
    const entry = { what: what.slice(0, TEXT_LONGEST), value: value.slice(0, TEXT_LONGEST) };
    this.put({ ...this.saved, entries: [...this.saved.entries, entry].slice(-ENTRIES_MAX) });
  }

  strike(place: number): void {
    this.put({ ...this.saved, entries: this.saved.entries.filter((_, i) => i !== place) });
  }

  /** Keeps the result of this aliquot. One of the same seed is replaced: it would repeat the same glass and the same bed. */
  keep(result: KeptResult): void {
    const others = this.saved.kept.filter(({ seed, scenario }) => seed !== result.seed || scenario !== result.scenario);
    this.put({ ...this.saved, kept: [...others, result].slice(-KEPT_MAX) });
  }

  drop(place: number): void {
    this.put({ ...this.saved, kept: this.saved.kept.filter((_, i) => i !== place) });
  }

  private put(saved: SavedWorkUp): void {
    this.saved = saved;
    this.refusal = undefined;
    this.tell();
  }

  /** The log played on what the receiver holds now; only new actions are played when nothing else has changed. */
  private play(): Played | undefined {
    const { scenario } = this.column;
    const found = this.receivers.find(({ label }) => label === this.saved.receiver);
    const values = this.values;
    if (!scenario || !found || !values) return undefined;
    const key = keyOf(scenario, found, values);
    const { log } = this.saved;
    if (this.played?.key !== key) {
      const bench = benchOf(values, scenario.seed);
      const receiver = receiverOf(found);
      this.played = { key, receiver, bench, states: [startOf(receiver, bench)] };
    }
    const { states, bench } = this.played;
    const last = states[states.length - 1];
    const shared = last.events.findIndex(({ action }, i) => action !== log[i]);
    if (shared >= 0) states.length = shared + 1;
    for (let i = states.length - 1; i < log.length; i++) states.push(workUpStep(states[i], log[i], bench));
    return this.played;
  }

  private tell(): void {
    this.dispatchEvent(new Event('change'));
  }
}

function keyOf(scenario: Scenario, receiver: ReceiverResult, values: Parameters): string {
  return JSON.stringify([scenario.id, scenario.seed, receiver, values]);
}
