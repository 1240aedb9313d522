// What each flaw of a bed does to it. Other rooms import from here.
export { LEFT_MAX } from './carry-over.ts';
export { CHANNEL_MAX } from './channel.ts';
export { blow, churn, digCrater, sideOf } from './crater.ts';
export { DRY_MAX_MIN } from './dried.ts';
export { FINES_MAX } from './fines.ts';
export { impose, isBedFault } from './impose.ts';
export { LOOSE_MAX_CM } from './loose.ts';
export { SHRINK_MAX } from './swelling.ts';
export { TILT_MAX_DEG } from './tilt.ts';
export { SPREAD_MAX } from './uneven.ts';
