// Equilibria and colour of the flask while it is neutralised, made blue and titrated. Other rooms import from here.
export { type Appearance, appearanceOf } from './appearance.ts';
export { CHEMISTRY, type Chemistry } from './balance.ts';
export { added, dissolved, passed, type Surroundings } from './change.ts';
export { HEAT_CAPACITY, MOLAR_MASS, NEUTRALISATION, THIOCYANATE_HEAT } from './constants.ts';
export { acetoneShare, balanceIn, emptyAmounts, type Flask, flaskOf, mixed, parted, type Reagent, type Receiver, receiverOf, restingBalance } from './flask.ts';
export { blueAbsorbance } from './indicator.ts';
export { edtaOf, endPoint, equivalence, type Ideal, type Titration, titrationCurve } from './titrate.ts';
