import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type ColumnTimes, type Timetable, timetableOf } from '../../sim/class/index.ts';
import { CONTROLS } from '../../sim/terms/controls.ts';
import { FIELDS } from '../../sim/terms/fields.ts';
import type { Limit } from '../../sim/terms/limits.ts';
import { FAULTS } from '../../sim/faults/index.ts';
import { isHidden } from '../store/keep/mystery.ts';
import type { Session } from '../store/session.ts';
import { isOverByNow } from '../store/over.ts';
import { workerThread } from '../store/threads/model-thread.ts';
import { LiveElement } from '../store/live-element.ts';
import { count, fixed, quantity } from '../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { ASSUMED_TIMES, columnTimes, type SetupCard, setupCard } from '../../sim/lab/index.ts';
import { bottleWords } from '../ui/text/bottle-words.ts';
import { own } from '../../sim/input/index.ts';
import { SEED_USUAL } from '../../sim/math/random.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { ProcedureTimes } from './procedure-times.ts';
import './lanes.ts';
import '../ui/number.ts';
import '../ui/table.ts';

const TASKS = [
  { key: 'task', label: 'task' },
  { key: 'who', label: 'person' },
  { key: 'from', label: 'from', unit: 'min', show: (value: number) => fixed(value, 0) },
  { key: 'to', label: 'to', unit: 'min', show: (value: number) => fixed(value, 0) },
  { key: 'critical', label: 'sets the length' },
];
const CHANGES = [
  { key: 'change', label: 'change' },
  { key: 'saves', label: 'saves', unit: 'min', show: (value: number) => fixed(value, 0) },
  { key: 'length', label: 'then takes', unit: 'min', show: (value: number) => fixed(value, 0) },
  { key: 'fits', label: 'fits' },
];
const SUPPLIES = [
  { key: 'name', label: 'prepare' },
  { key: 'amount', label: 'amount' },
  { key: 'how', label: 'how' },
];
const WASTE = [
  { key: 'stream', label: 'stream' },
  { key: 'what', label: 'what' },
  { key: 'volume', label: 'volume' },
  { key: 'rule', label: 'rule' },
];
const PHASES = ['condition_min', 'load_min', 'wash_min', 'strip_min'] as const satisfies readonly (keyof ColumnTimes)[];

/** Group timetable and class plan: who does what when, whether it fits the period, and what a class needs and leaves. */
@customElement('bf-plan')
export class PlanView extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      section { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap); margin-bottom: var(--gap-large); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap-large); align-items: end; }
      .row bf-number { flex: 0 1 auto; }
      h2 { margin: 0; }
      p { margin: 0; }
      .soft { color: var(--soft); font-size: var(--text-small); }
      .verdict { font-weight: 600; }
      .warn { padding: var(--gap-small) var(--gap); color: var(--caution-ink); background: var(--caution-paper); border-radius: var(--round); max-width: 60rem; }
      .warn a { color: inherit; }
      .good { color: var(--good-ink); }
      .bad { color: var(--problem-ink); }
      .pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 26rem), 1fr)); gap: var(--gap-large); align-items: start; }
      summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; }
      summary::before { content: '▸'; width: 1.25em; }
      details[open] summary::before { content: '▾'; }
      @media print { section { break-inside: avoid; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  /** What the reader has set over the scenario. */
  @state() private chosen: Partial<Record<'period_min' | 'people' | 'aliquots' | 'columns' | 'groups', number>> = {};
  /** Times that the reader has set over those of the run. */
  @state() private own: Partial<Record<keyof ColumnTimes, number>> = {};

  private readonly procedure = new ProcedureTimes(() => workerThread());

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.procedure.close();
  }

  override updated() {
    const { session } = this;
    if (session?.written && !finishedTimes(session)) this.procedure.show(this.asWritten(session, session.written));
  }

  override render() {
    const { store } = this.session ?? {};
    if (!this.session || !store?.scenario || !store.plan) return html`<h1>Plan</h1><p role="status">The run is being opened …</p>`;
    const run = finishedTimes(this.session);
    const { times, working } = this.procedure;
    const column = { ...(run ?? times ?? ASSUMED_TIMES), ...this.own };
    const [period_min, people, aliquots, columns] = [this.of('period_min'), this.of('people'), this.of('aliquots'), this.of('columns')];
    const log = run ? store.plan.log : store.scenario.procedure;
    const throttled = log.some((action) => action.do === 'clamp' && action.open_percent > 0 && action.open_percent < 100);
    const timetable = timetableOf({ column, period_min, people, aliquots, columns, throttled });
    return html`<h1>Plan</h1>
      <section aria-labelledby="time"><h2 id="time">A group and its period</h2>
        <div class="row">
          ${(['period_min', 'people', 'aliquots', 'columns'] as const).map((key) => this.choice(key))}
        </div>
        <div class="row">${PHASES.map((key) =>
          number(CONTROLS[`plan.${key}`], Math.round(column[key] * 10) / 10, (value) => {
            this.own = { ...this.own, [key]: value };
          }),
        )}
          ${
            Object.keys(this.own).length > 0
              ? html`<button type="button" @click=${() => {
                  this.own = {};
                }}>Times of the run again</button>`
              : nothing
          }</div>
        ${faultWarning(this.session, run !== undefined)}
        <p class="soft" role="status">${sourceWords(run, times, working)} Times of the bench work are estimates for a first-time group.</p>
        ${!run && working ? nothing : verdict(timetable)}
        ${(!run && working) || timetable.fits || aliquots === columns ? nothing : eachItsOwn(timetableOf({ column, period_min, people, aliquots, columns: aliquots, conditioned: true }), aliquots)}
        <bf-lanes .timetable=${timetable} .period_min=${period_min} .people=${people}></bf-lanes>
        <p class="soft">Framed and bold: the tasks that set the length. Broken outline: a column or burette in use. P is a person.</p>
        <div class="pair">
          ${timetable.changes.length === 0 ? html`<p>None of the usual changes shortens it.</p>` : html`<bf-table caption="What would shorten it" .columns=${CHANGES} .rows=${timetable.changes.map(({ text, saves_min, length_min, fits }) => ({ change: text, saves: saves_min, length: length_min, fits: fits ? 'yes' : 'no' }))} no-copy></bf-table>`}
          <details><summary>The same as a list</summary><bf-table caption="Tasks in order" .columns=${TASKS} .rows=${taskRows(timetable)}></bf-table></details>
        </div>
      </section>
      ${this.classPart(this.session)}`;
  }

  private written: { readonly of: Scenario; readonly hidden: boolean; readonly asked: Scenario } | undefined;

  /** On the column that Lab looks at, whichever this try is on; faults that are hidden show in no time. */
  private asWritten({ shipped, mystery }: Session, written: Scenario): Scenario {
    const hidden = isHidden(mystery);
    if (this.written?.of === written && this.written.hidden === hidden) return this.written.asked;
    const seed = own(shipped, 'seed');
    const asked = { ...written, seed: typeof seed === 'number' ? seed : SEED_USUAL, ...(hidden ? { faults: [] } : {}) };
    this.written = { of: written, hidden, asked };
    return asked;
  }

  /** What the reader has set, else what the scenario says. */
  private of(key: keyof typeof this.chosen): number {
    return this.chosen[key] ?? this.session?.store.scenario?.values[`class.${key}`] ?? FIELDS[`class.${key}`].default;
  }

  /** By the bottles as they are labelled, not as this column's turned out. */
  private classPart({ written }: Session) {
    if (!written) return nothing;
    const card = setupCard(written, { groups: this.of('groups'), aliquots: this.of('aliquots'), columns: this.of('columns') });
    const { waste, note } = card;
    return html`<section aria-labelledby="class"><h2 id="class">A class</h2>
      <div class="row">${this.choice('groups')}</div>
      <p class="soft">${count(card.aliquots, 'aliquot')} a group by the procedure of the scenario, as on the set-up card of Lab: a quarter more of the acid and a fifth more of the rest.</p>
      <div class="pair">
        <bf-table caption="To prepare" .columns=${SUPPLIES} .rows=${toPrepare(card)}></bf-table>
        <bf-table caption="Waste, kept apart" .columns=${WASTE} .rows=${waste.map(({ stream, what, volume_mL, rule }) => ({ stream, what, volume: volume_mL === undefined ? 'solid' : quantity(volume_mL, 'mL', 2), rule }))}></bf-table>
      </div>
      <p>Fume hood for all strong acid, acid into water, goggles and gloves; acetone away from flames and from the acid. ${note}</p></section>`;
  }

  private choice(key: keyof typeof this.chosen) {
    return number(FIELDS[`class.${key}`], this.of(key), (value) => {
      this.chosen = { ...this.chosen, [key]: value };
    });
  }
}

function toPrepare({ bottles, stock_M, stock_mL, supplies }: SetupCard) {
  return [
    ...bottles.map((bottle) => ({ name: bottle.label, amount: quantity(bottle.class_mL, 'mL'), how: bottleWords(bottle, stock_M) })),
    { name: `${stock_M} mol/L HCl (37 %)`, amount: quantity(stock_mL, 'mL'), how: 'for all the bottles above' },
    ...supplies.map(({ name, amount, unit, how }) => ({ name, amount: quantity(amount, unit), how })),
  ];
}

function number(of: Limit, value: number, take: (value: number) => void) {
  return html`<bf-number .of=${of} .value=${value} @bf-change=${(event: CustomEvent<{ value: number }>) => take(event.detail.value)}></bf-number>`;
}

/** Times of the run on the bench once it is over; undefined before that, and where it lacks a phase. */
function finishedTimes({ store }: Session): ColumnTimes | undefined {
  const { scenario, plan } = store;
  return scenario && plan && isOverByNow(store) ? columnTimes(scenario, plan) : undefined;
}

function sourceWords(run: ColumnTimes | undefined, times: ColumnTimes | undefined, working: boolean): string {
  if (run) return 'Column times are those of the run on the bench.';
  if (working) return 'The procedure of the scenario is being worked out …';
  return times
    ? 'Column times are those of the procedure of the scenario, until a run on the bench is over.'
    : 'The procedure of the scenario does not load, wash and release: column times are assumed.';
}

/** Times of a run with a fault are not those of a sound column; what is hidden stays hidden. */
function faultWarning(session: Session, ofRun: boolean) {
  const { scenario, plan } = session.store;
  if (isHidden(session.mystery) || !scenario || !plan) return nothing;
  const during = (ofRun ? plan.events : []).flatMap(({ action, refused }) => (action?.do === 'fault' && !refused ? [action.fault] : []));
  const kinds = [...new Set([...session.faults, ...during].map(({ kind }) => FAULTS[kind].label))];
  if (kinds.length === 0) return nothing;
  return html`<p class="warn">The run on the bench has a fault imposed: ${kinds.join(', ')}. These column times come from ${ofRun ? 'that run' : 'the procedure with it'}, not from a sound column. <a href="#faults">Take it away</a></p>`;
}

function verdict({ fits, slack_min, length_min, critical, changes }: Timetable) {
  const help = changes.find((change) => change.fits);
  const words = fits
    ? `It fits: ${fixed(length_min, 0)} min, ${fixed(slack_min, 0)} min to spare.`
    : `It does not fit: ${fixed(length_min, 0)} min, ${fixed(-slack_min, 0)} min too long. ${help ? `What would do: ${help.text}.` : changes.length > 0 ? 'No single change is enough; take two together.' : ''}`;
  return html`<p class="verdict ${fits ? 'good' : 'bad'}" role="status"><span aria-hidden="true">${fits ? '✓' : '✗'} </span>${words}</p>
    <p>The length is set by: ${critical.join(' → ')}.</p>`;
}

/** What more glass would do. */
function eachItsOwn({ length_min, fits }: Timetable, columns: number) {
  return html`<p>With ${columns} columns side by side, conditioned before the period, it would take ${fixed(length_min, 0)} min${fits ? '' : ': still too long, so share the aliquots among groups or over two periods'}.</p>`;
}

function taskRows({ tasks, critical }: Timetable) {
  return [...tasks]
    .sort((a, b) => a.start_min - b.start_min)
    .map((task) => ({
      task: task.id === task.label ? task.label : `${task.id}: ${task.label}`,
      who: String(task.person + 1),
      from: task.start_min,
      to: task.end_min,
      critical: critical.includes(task.id) ? 'yes' : '',
    }));
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-plan': PlanView;
  }
}
