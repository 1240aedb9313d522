import { questionsOf } from '../teach/index.ts';
import type { Scenario } from '../terms/types.ts';
import type { Answer } from './answers.ts';

/** An answer judged by the model; words are for people to judge. */
export interface Judged extends Answer {
  /** The question as it was put. */
  readonly prompt: string;
  /** What was chosen, in words. */
  readonly said: string;
  readonly right: boolean | undefined;
  readonly rightReason: boolean | undefined;
}

export function judged(scenario: Scenario, answers: readonly Answer[]): Judged[] {
  const known = new Map(questionsOf(scenario).map((question) => [question.id, question]));
  return answers.map((answer) => {
    const question = known.get(answer.question);
    if (!question) return { ...answer, prompt: answer.question, said: answer.words ?? '', right: undefined, rightReason: undefined };
    const chosen = (of: typeof question.choices, id: string | undefined): string => of.find((option) => option.id === id)?.text ?? '';
    return {
      ...answer,
      prompt: question.prompt,
      said: [chosen(question.choices, answer.choice), chosen(question.reasons, answer.reason)].filter((part) => part !== '').join('; '),
      right: answer.choice === undefined ? undefined : answer.choice === question.choice,
      rightReason: answer.reason === undefined ? undefined : answer.reason === question.reason,
    };
  });
}
