// Glassware and hands as they really are: volumes drawn within their tolerances. Other rooms import from here.
export { flaskSize, TITRE_SHARE_MIN, tolerance, type Vessel } from './glass.ts';
export { handOf, hanging, loaded } from './hand.ts';
export { inHands } from './in-hands.ts';
export { HAND_SPREADS, type HandSpreadId, type Spread } from './spreads.ts';
