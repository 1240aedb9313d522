// How beads and gas move: settling, cracks, swelling, drying. Other rooms import from here.
export { age } from './aging.ts';
export { crackBed } from './cracks.ts';
export { setGas } from './gas.ts';
export { cellsAbove, mixLiquid, mixResin, type Placed, resize } from './moving.ts';
export { renew } from './renew.ts';
export { settlingTime } from './settling.ts';
