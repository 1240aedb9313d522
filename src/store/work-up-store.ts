import { batch } from '@preact/signals-core';
import type { ReceiverResult } from '../../sim/history/index.ts';
import type { Parameters } from '../../sim/terms/types.ts';
import type { Bench, WorkUpAction, WorkUpEvent, WorkUpState } from '../../sim/workup/index.ts';
import type { CalculationCheck, KeptResult, Readings, Sample, StepId, WorkUp } from '../../sim/report/index.ts';
import type { Receiver } from '../../sim/flask/index.ts';
import type { ColumnStore } from './column-store.ts';
import type { PlayedWorkUp } from './played-work-up.ts';
import { derived, tracked } from './tracked.ts';
import { EMPTY_WORK_UP, ENTRIES_MAX, type Entry, type ExpectedFor, KEPT_MAX, type SavedWorkUp, TEXT_LONGEST, VALUE_LONGEST } from './keep/work-up.ts';

type Model = typeof import('./work-up-model.ts');

/** Steps that one press of the button plays at most. */
const USUAL_MAX = 60;

/**
 * The one owner of the work-up: which receiver of the run was taken, what was done to it, and what the reader calculated from it. The
 * state is played from the log, so it follows the run: another change of the receiver is worked up by the same steps. Before
 * `load` it only holds what was kept, and everything that is computed from it is undefined.
 */
export class WorkUpStore {
  @tracked saved: SavedWorkUp = EMPTY_WORK_UP;
  /** The last action, if it was refused. */
  @tracked refusal: WorkUpEvent | undefined;
  /** Everything that was refused; a refused action is not in the log. */
  @tracked refusals: readonly WorkUpEvent[] = [];
  private readonly column: ColumnStore;
  @tracked private model: Model | undefined;
  /** The reader wants to see the amounts without a result of their own. */
  @tracked private asked = false;
  @tracked private undone: readonly WorkUpAction[] = [];
  /** What was played last, so that only what is new has to be. */
  private before: PlayedWorkUp | undefined;

  constructor(column: ColumnStore) {
    this.column = column;
  }

  /** Loads the code that computes the work-up; a view that shows it calls this first. */
  async load(): Promise<void> {
    this.model ??= await import('./work-up-model.ts');
  }

  /** Receivers that hold liquid at the present. */
  @derived get receivers(): readonly ReceiverResult[] {
    return (this.column.atPresent?.results.receivers ?? []).filter(({ volume_mL }) => volume_mL > 0);
  }

  /** What the run's receiver of that name holds; undefined before one is taken, or if the run has none of that name. */
  get receiver(): Receiver | undefined {
    return this.played?.receiver;
  }

  /** The receiver that holds most cobalt. */
  @derived get richest(): ReceiverResult | undefined {
    return this.model?.richest(this.receivers);
  }

  @derived get sample(): Sample | undefined {
    const { scenario } = this.column;
    return scenario && this.model?.sampleOf(scenario, this.column.takenByNow, this.saved.receiver || undefined);
  }

  /** Volume of the aliquots of this receiver, as a share of all that was pipetted. */
  get aliquotShare(): number {
    const { scenario, takenByNow } = this.column;
    const all = scenario && this.model?.sampleOf(scenario, takenByNow)?.volume_mL;
    return all && this.sample ? this.sample.volume_mL / all : 1;
  }

  @derived get values(): Parameters | undefined {
    const { scenario } = this.column;
    return scenario && this.model?.valuesWith(this.sample, scenario.values);
  }

  get bench(): Bench | undefined {
    return this.played?.bench;
  }

  get state(): WorkUpState | undefined {
    return this.played?.states.at(-1);
  }

  /** State before the step of that number. */
  stateBefore(entry: number): WorkUpState | undefined {
    return this.played?.states[entry];
  }

  /** The figures of the present work-up. */
  @derived get figures(): WorkUp | undefined {
    const { model, played } = this;
    const state = played?.states.at(-1);
    if (!model || !played || !state) return undefined;
    return model.workUpFigures(played.receiver, state, played.bench);
  }

  /** The readings from which the reader calculates: the last titration; undefined before there is one. */
  @derived get readings(): Readings | undefined {
    const { figures, model, values } = this;
    return figures && values && model?.readingsOf(figures, values);
  }

  /** The reader's own calculation, checked; undefined before there are readings. */
  @derived get own(): CalculationCheck | undefined {
    return this.readings && this.model?.checkCalculation(this.readings, this.saved.answers);
  }

  /** Whether the reader has come to a molarity, right or wrong, in this titration or one that was kept: then what gives it away may be open. */
  get hasOwnResult(): boolean {
    const { answers, kept } = this.saved;
    return (answers.molarity ?? '').trim() !== '' || kept.some(({ own_M }) => own_M !== null);
  }

  /**
   * Whether amounts of cobalt, and how much titrant they truly take, may be shown: they give the result away, so the reader has one,
   * or asks for them, or nothing is to be titrated.
   */
  get showsAmounts(): boolean {
    return this.asked || this.hasOwnResult || !this.column.scenario?.ions.includes('Co');
  }

  readonly askForAmounts = (): void => {
    this.asked = true;
  };

  /** The result of this aliquot as it would be kept; undefined before an end point was seen. */
  @derived get result(): KeptResult | undefined {
    const { figures, model, receiver, sample, own, saved, column, values, state } = this;
    const { scenario, atPresent } = column;
    if (!model || !figures || !receiver || !sample || !scenario || !values) return undefined;
    return model.resultOf({
      scenario,
      loaded: atPresent?.results.loaded,
      aliquotShare: this.aliquotShare,
      receiver,
      sample,
      figures,
      expected: saved.expected,
      expectedFor: saved.expected_for,
      portionShare: model.portionShareOf(values, state?.flask_mL),
      own,
    });
  }

  get canUndo(): boolean {
    return this.saved.log.length > 0;
  }

  get canRedo(): boolean {
    return this.undone.length > 0;
  }

  /** The next step of the usual order; undefined when it is done. */
  @derived get usual(): WorkUpAction | undefined {
    const played = this.played;
    const state = played?.states.at(-1);
    return played && state && this.model?.usualStep(played.receiver, state, played.bench.values);
  }

  /** Uses a kept work-up from now on; called when the run that it belongs to is opened. */
  open(saved: SavedWorkUp): void {
    batch(() => {
      this.undone = this.refusals = [];
      this.asked = false;
      this.put(saved);
    });
  }

  /** Takes a receiver of the run to the work-up bench. */
  take(label: string): void {
    const { entries, kept, expected, expected_for } = this.saved;
    const estimate = { ...(expected !== undefined && { expected }), ...(expected_for && { expected_for }) };
    this.undone = [];
    this.put({ ...EMPTY_WORK_UP, receiver: label, entries, kept, ...(label === this.saved.receiver && estimate) });
  }

  /** Takes an action; returns what became of it. */
  act(action: WorkUpAction): WorkUpEvent | undefined {
    const { model, played } = this;
    const before = played?.states.at(-1);
    if (!model || !played || !before) return undefined;
    const wrong = model.unreadable([...this.saved.log, action]);
    const event = wrong
      ? { entry: this.saved.log.length, action, refused: wrong, notes: [], used: 0 }
      : model.workUpStep(before, action, played.bench).events.at(-1);
    if (event?.refused) {
      batch(() => {
        this.refusals = [...this.refusals, event];
        this.refusal = event;
      });
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

  expect(text: string, expected_for: ExpectedFor): void {
    this.put({ ...this.saved, expected: text.slice(0, TEXT_LONGEST), expected_for });
  }

  /** The molarity that the reader comes to belongs to this aliquot, also where it was kept before it was calculated. */
  answer(id: StepId, text: string): void {
    this.put({ ...this.saved, answers: { ...this.saved.answers, [id]: text.slice(0, TEXT_LONGEST) } });
    const { result, model } = this;
    if (!result) return;
    const { own_M } = result;
    this.put({ ...this.saved, kept: this.saved.kept.map((one) => (model?.sameAliquot(one, result) ? { ...one, own_M } : one)) });
  }

  write({ what, value }: Entry): void {
    const entry = { what: what.slice(0, TEXT_LONGEST), value: value.slice(0, VALUE_LONGEST) };
    this.put({ ...this.saved, entries: [...this.saved.entries, entry].slice(-ENTRIES_MAX) });
  }

  /** Replaces what was written under the same name; an empty value removes it. */
  writeOver({ what, value }: Entry): void {
    const others = this.saved.entries.filter((entry) => entry.what !== what);
    this.put({ ...this.saved, entries: value === '' ? others : [...others, { what, value: value.slice(0, VALUE_LONGEST) }].slice(-ENTRIES_MAX) });
  }

  strike(place: number): void {
    this.put({ ...this.saved, entries: this.saved.entries.filter((_, i) => i !== place) });
  }

  /** Keeps the result of this aliquot. One of the same receiver of the same run is replaced: it would repeat the same load and the same readings. */
  keep(result: KeptResult): void {
    const others = this.saved.kept.filter((one) => !this.model?.sameAliquot(one, result));
    this.put({ ...this.saved, kept: [...others, result].slice(-KEPT_MAX) });
  }

  drop(place: number): void {
    this.put({ ...this.saved, kept: this.saved.kept.filter((_, i) => i !== place) });
  }

  private put(saved: SavedWorkUp): void {
    batch(() => {
      this.saved = saved;
      this.refusal = undefined;
    });
  }

  /** The log played on what the receiver holds now. */
  @derived private get played(): PlayedWorkUp | undefined {
    const { scenario } = this.column;
    const held = this.receivers.find(({ label }) => label === this.saved.receiver);
    const { model, values } = this;
    if (!model || !scenario || !held || !values) return undefined;
    this.before = model.playedOn({ scenario, held, values, nth: this.sample?.nth }, this.saved.log, this.before);
    return this.before;
  }
}
