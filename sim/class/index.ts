// A lab period for a class: timetable, supplies, waste, and what its groups will see. Other rooms import from here.
export { classPlan, GROUP_EXAMPLE, type GroupUse, SPARE, STOCK_ACID_M, stockFor, type Supply, type WasteStream } from './classplan.ts';
export type { Placed } from './schedule.ts';
export { type ColumnTimes, type Timetable, timetableOf } from './timetable.ts';
export { type ClassAnswer, type ClassForecast, type ClassTask, classAnswer, classForecast, classTasks, forClass, GROUPS_MAX } from './groups.ts';
export { HALF_WASH_ML, STOP_ABOVE_CM, WASH_ML } from './group.ts';
export type { Distribution } from './quantiles.ts';
export { SPREAD_IDS, type SpreadId, USUAL_SPREADS } from './spreads.ts';
