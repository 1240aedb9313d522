// A lab period for a class: timetable, supplies, waste. Other rooms import from here.
export { classPlan, GROUP_EXAMPLE, type GroupUse } from './classplan.ts';
export type { Placed } from './schedule.ts';
export { type ColumnTimes, type Timetable, timetableOf } from './timetable.ts';
