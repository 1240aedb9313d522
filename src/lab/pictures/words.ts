import { type Timetable, timetableOf } from '../../../sim/class/index.ts';
import { deliveredAtEnd, type Plan, progressOf, switchWindow, targetsOf, verdict, withStop } from '../../../sim/history/index.ts';
import { columnTimes } from '../../../sim/lab/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import type { Issue, Scenario } from '../../../sim/terms/types.ts';
import { duration, fixed, millilitres, millimoles, percent } from '../../ui/text/format.ts';

// What the run of a lab's procedure says to the instructor, in sentences.

/** When the receiver is best changed, and what the procedure's own change gives. */
export function receiverWords(scenario: Scenario, plan: Plan): string {
  const { eluent_mL, change_mL } = progressOf(scenario, plan.events);
  if (eluent_mL === undefined) return 'The procedure does not yet load a sample and start a weaker eluent after it, so there is no receiver to change.';
  const targets = withStop(plan, targetsOf(scenario));
  const window = switchWindow(plan, targets);
  const name = IONS[targets.target].name;
  const wanted = `${percent(targets.recovered)} of the ${name}, at most ${percent(targets.carried)} of any other metal and ${millimoles(targets.acid_mmol ?? 0, 0)} of acid`;
  const after = (mL: number): string => fixed(mL - eluent_mL, 1);
  const open = window
    ? `Window for the receiver: ${after(window.from_mL)} to ${millilitres(window.to_mL - eluent_mL)} after the release began, for ${wanted}.`
    : `No change of receiver collects ${wanted}.`;
  if (change_mL === undefined) return `${open} The procedure itself does not change the receiver after that.`;
  const { recovered, carried, acid_mmol } = verdict(plan, targets, change_mL, targets.stop_mL);
  return `${open} The procedure itself changes the receiver at ${millilitres(change_mL - eluent_mL)}: ${percent(recovered)} of the ${name}, ${percent(carried)} of other metals, ${millimoles(acid_mmol, 0)} of acid.`;
}

/** How long it takes, on the column and with everything that a group does. */
export function dayWords(scenario: Scenario, plan: Plan): string {
  const { values } = scenario;
  const end = `The procedure takes ${duration(plan.logEnd.time_min)} on the column and delivers ${millilitres(Math.min(plan.logEnd.delivered_mL, deliveredAtEnd(plan)))}.`;
  const timetable = dayOf(scenario, plan);
  if (!timetable) return end;
  const [period, aliquots, people, columns] = [values['class.period_min'], values['class.aliquots'], values['class.people'], values['class.columns']];
  const help = timetable.changes.find(({ fits }) => fits);
  const fit = timetable.fits
    ? `${duration(timetable.slack_min)} to spare in a period of ${duration(period)}`
    : `${duration(-timetable.slack_min)} too long for a period of ${duration(period)}${help ? `; this would be enough: ${help.text}` : ''}`;
  return `${end} ${count(aliquots, 'aliquot')} by ${count(people, 'person', 'people')} on ${count(columns, 'column')} take ${duration(timetable.length_min)} with the work-up${setBy(scenario, plan, timetable)}: ${fit}.`;
}

/** Says that more people would not shorten the day, if that is true. */
function setBy(scenario: Scenario, plan: Plan, { length_min, critical }: Timetable): string {
  const everyone = dayOf(scenario, plan, 3 * scenario.values['class.aliquots']);
  const onColumn = critical.some((id) => id.startsWith('strip'));
  if (!onColumn || !everyone || everyone.length_min < length_min) return '';
  return scenario.values['class.columns'] === 1
    ? ' (the column sets this time, not the number of people)'
    : ' (the columns set this time, not the number of people)';
}

/** The day of a group; undefined while the procedure lacks a phase, or runs the day's aliquots itself. */
function dayOf(scenario: Scenario, plan: Plan, people = scenario.values['class.people']): Timetable | undefined {
  const column = columnTimes(scenario, plan);
  const { values } = scenario;
  return (
    column &&
    timetableOf({
      column,
      period_min: values['class.period_min'],
      people,
      aliquots: values['class.aliquots'],
      columns: values['class.columns'],
    })
  );
}

/** What the bench refuses when the procedure comes to it, by the place of the action. */
export function refusedIn({ events, log }: Plan): Issue[] {
  return events.flatMap(({ entry, refused }) => {
    if (!refused || entry < 0 || entry >= log.length) return [];
    const { path, expected, received } = refused;
    return [{ path: `procedure[${entry}]`, expected: path === '' ? expected : `${path}: ${expected}`, received }];
  });
}

function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}
