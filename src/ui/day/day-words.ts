import { type Timetable, timetableOf } from '../../../sim/class/index.ts';
import { deliveredAtEnd, type Plan } from '../../../sim/history/index.ts';
import { columnTimes } from '../../../sim/lab/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { count, duration, millilitres } from '../text/format.ts';

// What the run of a lab's procedure says of the day, in sentences.

/** How long it takes, on the column and with everything that a group does. */
export function dayWords(scenario: Scenario, plan: Plan): string {
  const end = `The procedure takes ${duration(plan.logEnd.time_min)} on the column and delivers ${millilitres(Math.min(plan.logEnd.delivered_mL, deliveredAtEnd(plan)))}.`;
  const timetable = dayOf(scenario, plan);
  return timetable ? `${end} ${periodWords(scenario, plan, timetable)}` : end;
}

/** The same of a day that does not fit into its period; undefined for one that does. */
export function tooLongWords(scenario: Scenario, plan: Plan): string | undefined {
  const timetable = dayOf(scenario, plan);
  return timetable && !timetable.fits ? periodWords(scenario, plan, timetable) : undefined;
}

function periodWords(scenario: Scenario, plan: Plan, timetable: Timetable): string {
  const { values } = scenario;
  const [period, aliquots, people, columns] = [values['class.period_min'], values['class.aliquots'], values['class.people'], values['class.columns']];
  const help = timetable.changes.find(({ fits }) => fits);
  const fit = timetable.fits
    ? `${duration(timetable.slack_min)} to spare in a period of ${duration(period)}`
    : `${duration(-timetable.slack_min)} too long for a period of ${duration(period)}${help ? `; this would be enough: ${help.text}` : ''}`;
  return `${count(aliquots, 'aliquot')} by ${count(people, 'person', 'people')} on ${count(columns, 'column')} ${aliquots === 1 ? 'takes' : 'take'} ${duration(timetable.length_min)} with the work-up${setBy(scenario, plan, timetable)}: ${fit}.`;
}

/** Says that more people would not shorten the day, if that is true. */
function setBy(scenario: Scenario, plan: Plan, { length_min, critical }: Timetable): string {
  const everyone = dayOf(scenario, plan, 3 * scenario.values['class.aliquots']);
  const onColumn = critical.some((id) => id.startsWith('release'));
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
