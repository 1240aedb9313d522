import { IONS, type IonId } from '../../terms/ions.ts';
import { passageOf } from '../../chemistry/index.ts';
import type { Scenario } from '../../terms/types.ts';

// What a single question is, and what those about the ions and those about the liquids share.

export interface Option {
  readonly id: string;
  readonly text: string;
}

export interface Question {
  readonly id: string;
  readonly prompt: string;
  readonly choices: readonly Option[];
  readonly reasons: readonly Option[];
  readonly choice: string;
  readonly reason: string;
  /** Shown at once after the answer, whatever it was. */
  readonly explanation: string;
}

/** D_v below and above which an ion counts as running with the liquid, or as held. Our rule: 1/4 and 3 times the liquid's space. */
export const RUNS = 0.3;
export const HELD = 1;
/** Bed volumes within which an ion is said to leave. Our rule. */
export const LEAVES_BV = 2;

/** What the questions are about. */
export interface About {
  readonly scenario: Scenario;
  readonly acid: number;
  /** The ions least and most held in the main acid. */
  readonly runner: IonId;
  readonly holder: IonId;
  readonly D: (ion: IonId, c: number) => number;
}

export function bedVolumes(scenario: Scenario, D: number): number {
  return passageOf(D, scenario.values['bed.porosity']).bedVolumes;
}

export function name(ion: IonId): string {
  return IONS[ion].name;
}

/** Two figures, without a power of ten. */
export function figures(value: number): string {
  return String(Number(value.toPrecision(value >= 100 ? 3 : 2)));
}
