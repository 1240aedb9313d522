// What hands do to the bed: stir, top up, refill, pack, spill. Other rooms import from here.
export { type Ails, ailsOf } from './ails.ts';
export { attempt } from './attempt.ts';
export { holdsAir } from './air-told.ts';
export { type CureKind, CURE_KINDS, CURES, cureWords, fitsNow, raised, withNeeds } from './cures.ts';
export { fumedAcid } from './fumes.ts';
export { pack } from './pack.ts';
export { gasVolume, refillFromBelow } from './refill-below.ts';
export { mendingRefused } from './refusals.ts';
export { spill } from './spill.ts';
export { stir } from './stir.ts';
export { topUp } from './top-up.ts';
