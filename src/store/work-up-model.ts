// The code that computes the work-up: a separate part of the page, loaded by the views that show it.
export { checkCalculation, portionShareOf, readingsOf, resultOf, richest, sameAliquot, sampleOf, valuesWith, workUpFigures } from '../../sim/report/index.ts';
export { usualStep, workUpStep } from '../../sim/workup/index.ts';
export { playedOn, unreadable } from './played-work-up.ts';
