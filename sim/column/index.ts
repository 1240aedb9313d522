// The state of the column and what is computed once for it: cells, lanes, bed, ledger. Other rooms import from here.
export { AT, type Bed, checkpoint, RECEIVERS_MAX, restore } from './bed.ts';
export { refresh, weighLane } from './cell.ts';
export { type Column, columnOf, kozenyCarman } from './column.ts';
export { columnsDiffer, drawn, intended } from './drawn.ts';
export { type Flux, fluxFor } from './flux.ts';
export { empty, widen } from './held.ts';
export { type LaneEdge, lanesOf, sectorsOf } from './lanes.ts';
export { ledgerError, liquidOf } from './ledger.ts';
export { type Band, bandIn, bandOf, bedLengthOf, frontDepth, inReceivers } from './measure.ts';
export { resistLane } from './resistance.ts';
export { amountOf, inTip, onBed, packedBed, restingAcid } from './start.ts';
export { swollen } from './swelling.ts';
