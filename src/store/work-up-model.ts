// The code that computes the work-up: a separate part of the page, loaded by the views that show it.
export { receiverOf } from '../../sim/flask/index.ts';
export { checkCalculation, readingsOf, resultOf, sameAliquot, sampleOf, valuesWith, workUpFigures } from '../../sim/report/index.ts';
export { benchOf, startOf, usualStep, workUpStep } from '../../sim/workup/index.ts';
