// What hands do to the bed: stir, top up, refill, pack, spill. Other rooms import from here.
export { attempt } from './attempt.ts';
export { fumedAcid } from './fumes.ts';
export { pack } from './pack.ts';
export { gasVolume, refillFromBelow } from './refill-below.ts';
export { spill } from './spill.ts';
export { stir } from './stir.ts';
export { topUp } from './top-up.ts';
