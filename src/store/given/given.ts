import {
  type Answer,
  type Claimed,
  type HandOut,
  type Prediction,
  type Under,
  answersShape,
  claimedShape,
  handOutMark,
  handOutShape,
  predictionsShape,
} from '../../../sim/handed/index.ts';
import { type Shape, logShape, number, object } from '../../../sim/input/index.ts';
import type { Log } from '../../../sim/terms/types.ts';

// A try of a hand-out, as it is kept with the run.

/** The run at the end of the try: this is what is handed in, even if the reader goes on with the run afterwards. */
export interface EndedTry {
  readonly log: Log;
  readonly claimed: Claimed;
  readonly predictions: readonly Prediction[];
}

export interface Given {
  readonly handOut: HandOut;
  /** Counted from 1, in this browser. */
  readonly attempt: number;
  readonly answers: readonly Answer[];
  readonly ended?: EndedTry;
}

const ATTEMPTS_MAX = 200;

export const givenShape: Shape<Given> = object(
  'a try of a hand-out',
  { handOut: handOutShape, attempt: number({ min: 1, max: ATTEMPTS_MAX, unit: '', integer: true }), answers: answersShape },
  { ended: object('an ended try', { log: logShape, claimed: claimedShape, predictions: predictionsShape }, {}, 'left out') },
  'left out',
);

export function isOf(given: Given | undefined, handOut: HandOut): boolean {
  return given !== undefined && handOutMark(given.handOut) === handOutMark(handOut);
}

/** The rules that are written into a handed-in run. */
export function underOf({ handOut, attempt }: Given): Under {
  const { column, seeing, tries } = handOut;
  return { mark: handOutMark(handOut), attempt, column, seeing, tries };
}

/** Actions cannot be undone while the try lasts, unless the forecast is allowed. */
export function isFixed(given: Given | undefined): boolean {
  return given !== undefined && given.ended === undefined && given.handOut.seeing !== 'forecast';
}

/** The try with an answer to a question; an empty one is left out. */
export function withAnswer(given: Given, answer: Answer): Given {
  const others = given.answers.filter(({ question }) => question !== answer.question);
  const blank = !answer.choice && !answer.reason && !answer.words;
  return { ...given, answers: blank ? others : [...others, answer] };
}
