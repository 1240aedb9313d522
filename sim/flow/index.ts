// How liquid moves through head, bed and tip, and what it takes along. Other rooms import from here.
export { drainable, drainLane, isDrained, refill, stillBeside, trappedGas } from './drainage.ts';
export { dropOf } from './drops.ts';
export { fingeringVelocity, flowInto, levelOf } from './hydraulics.ts';
export { mix, MIX_EVERY, MIX_PACED } from './mixing.ts';
export { acidIsSteady, BESIDE_M, passSteadyAcid, sweepAcid } from './sweep-acid.ts';
export { MUCH, sweepMetals } from './sweep-metals.ts';
