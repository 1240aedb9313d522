// The actions on the flask, from the eluate to the end point. Other rooms import from here.
export { type Dose, type ReagentId, REAGENTS, type WorkUpAction, type WorkUpLog } from './actions.ts';
export { FILM_ML } from './apparatus.ts';
export { type Bench, benchOf, inHand, type Note, type Reading, startOf, type Titre, titreInHand, type WorkUpEvent, type WorkUpState } from './bench.ts';
export { readWorkUpLog, type WorkUpLogResult, workUpLogShape } from './log.ts';
export { playWorkUp, workUpStep } from './play.ts';
export { defaultProcedure } from './procedure.ts';
export { buretteReads } from './titration.ts';
export { usualStep } from './usual-step.ts';
