// Answers to the questions of a hand-out: a choice with its reason, or free text.
import { choice, list, number, object, type Shape, text } from '../input/index.ts';
import { SEEINGS, type Seeing } from '../terms/seeing.ts';
import type { Issue } from '../terms/types.ts';
import { COLUMN_POLICIES, type ColumnPolicy, QUESTION_ID_MAX, QUESTION_MAX, TRIES_MAX } from './hand-out.ts';

export interface Answer {
  /** Id of the question, or the question in the instructor's words. */
  readonly question: string;
  /** Option chosen, and that chosen as the reason. */
  readonly choice?: string;
  readonly reason?: string;
  /** In the student's words. */
  readonly words?: string;
}

/** The rules under which a run was made: which hand-out, which try, and what the hand-out allowed. */
export interface Under {
  readonly mark: string;
  readonly attempt: number;
  readonly column: ColumnPolicy;
  readonly seeing: Seeing;
  readonly tries: number;
}

export const WORDS_MAX = 500;
export const ANSWERS_MAX = 20;

const wordsShape = text(WORDS_MAX);

export const answersShape: Shape<readonly Answer[]> = list(
  'answers',
  object('an answer', { question: text(QUESTION_MAX) }, { choice: text(QUESTION_ID_MAX), reason: text(QUESTION_ID_MAX), words: wordsShape }),
  0,
  ANSWERS_MAX,
);

export const underShape: Shape<Under> = object(
  'the rules of a run',
  {
    mark: text(8),
    attempt: number({ min: 1, max: 10 * TRIES_MAX, unit: '', integer: true }),
    column: choice('a choice of columns', COLUMN_POLICIES),
    seeing: choice('a way of seeing', SEEINGS),
    tries: number({ min: 1, max: TRIES_MAX, unit: '', integer: true }),
  },
  {},
);

/** Why these words cannot be kept; undefined if they can. */
export function wordsIssue(words: string): Issue | undefined {
  const issues: Issue[] = [];
  wordsShape.read(words, 'words', issues);
  return issues[0];
}

/** Words as they are kept: on one line, without spaces at the ends. */
export function tidied(words: string): string {
  return words.replace(/[\s]+/g, ' ').trim();
}
