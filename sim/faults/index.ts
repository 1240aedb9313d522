// What can go wrong: one table, and how each fault enters a scenario or a log. Other rooms import from here.
export { amountOf, amountRange, severityOf } from './amount.ts';
export { healthyTwin, sameLog } from './healthy.ts';
export { type Given, goesWithBed, imposed, withFault } from './imposed.ts';
export { FAULT_GROUPS, FAULTS } from './registry.ts';
