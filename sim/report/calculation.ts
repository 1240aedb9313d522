import { MOLAR_MASS } from '../flask/index.ts';
import { type Dimension, parseQuantity } from './quantity.ts';
import { log10 } from '../math/elementary.ts';
import { capital } from '../terms/capital.ts';
import type { StepId } from './steps.ts';

// A learner's own way from burette readings to the cobalt of the unknown, checked step by step. A step that follows correctly
// from a wrong one is not marked wrong again: the first wrong step is the one to learn from.

/** What the learner read and what is known. */
export interface Readings {
  readonly initial_mL: number;
  readonly final_mL: number;
  readonly EDTA_M: number;
  readonly flask_mL: number;
  readonly portion_mL: number;
  readonly sample_mL: number;
}

export type Verdict = 'right' | 'follows' | 'wrong' | 'not understood' | 'missing';

export interface StepCheck {
  readonly id: StepId;
  readonly label: string;
  readonly unit: string;
  readonly verdict: Verdict;
  /** Value understood, in `unit`. */
  readonly given: number | undefined;
  /** What the readings give. */
  readonly expected: number;
  /** Why, in a sentence; empty if right without remark. */
  readonly text: string;
}

export interface CalculationCheck {
  readonly steps: readonly StepCheck[];
  readonly firstWrong: StepCheck | undefined;
  readonly complete: boolean;
}

interface Step {
  readonly id: StepId;
  readonly label: string;
  readonly unit: string;
  readonly dimension: Dimension;
  /** From the value of an earlier step. */
  readonly from: StepId | undefined;
  readonly value: (readings: Readings, earlier: number) => number;
  /** What a value means that comes from a known slip. */
  readonly slips: (readings: Readings, earlier: number) => readonly (readonly [value: number, text: string])[];
}

/** Largest relative difference that passes as rounding on the way. */
const TOLERANCE = 0.002;
/** g/mol of what is sometimes taken instead of cobalt, recalled. */
const COBALT_CHLORIDE = 129.84;
const COBALT_CHLORIDE_HYDRATE = 237.93;

const STEPS: readonly Step[] = [
  {
    id: 'titre',
    label: 'titrant used',
    unit: 'mL',
    dimension: 'volume',
    from: undefined,
    value: (r) => r.final_mL - r.initial_mL,
    slips: (r) => [
      [r.final_mL, 'The first burette reading was not subtracted.'],
      [r.final_mL + r.initial_mL, 'The first burette reading was added instead of subtracted.'],
    ],
  },
  {
    id: 'EDTA',
    label: 'EDTA used',
    unit: 'mmol',
    dimension: 'amount',
    from: 'titre',
    value: (r, titre) => titre * r.EDTA_M,
    slips: (r, titre) => [
      [titre / r.EDTA_M, 'Volume was divided by molarity: amount is volume times molarity.'],
      [r.EDTA_M / titre, 'Molarity was divided by volume: amount is volume times molarity.'],
    ],
  },
  {
    id: 'portion',
    label: 'cobalt in the portion',
    unit: 'mmol',
    dimension: 'amount',
    from: 'EDTA',
    value: (_, edta) => edta,
    slips: (_, edta) => [
      [2 * edta, 'One EDTA holds one cobalt, whatever the charges: there is no factor 2.'],
      [edta / 2, 'One EDTA holds one cobalt, whatever the charges: there is no factor 2.'],
    ],
  },
  {
    id: 'flask',
    label: 'cobalt in the whole flask',
    unit: 'mmol',
    dimension: 'amount',
    from: 'portion',
    value: (r, portion) => (portion * r.flask_mL) / r.portion_mL,
    slips: (r, portion) => [
      [portion, 'The portion is only part of the flask: multiply by flask volume over portion volume.'],
      [(portion * r.portion_mL) / r.flask_mL, 'The ratio is upside down: there is more cobalt in the flask than in the portion.'],
      [portion * r.flask_mL, 'Multiply by flask volume over portion volume, not by the flask volume alone.'],
      [portion / r.portion_mL, 'This is the molarity in the flask; the amount in it is that times its volume.'],
    ],
  },
  {
    id: 'molarity',
    label: 'cobalt in the unknown',
    unit: 'mol/L',
    dimension: 'molarity',
    from: 'flask',
    value: (r, flask) => flask / r.sample_mL,
    slips: (r, flask) => [
      [flask / r.flask_mL, 'This is the molarity in the flask: divide by the volume of unknown that went on the column.'],
      [flask / r.portion_mL, 'The cobalt came from the sample, not from the portion: divide by the volume of unknown that went on the column.'],
      [flask * r.sample_mL, 'Amount was multiplied by volume: molarity is amount over volume.'],
      [r.sample_mL / flask, 'Volume was divided by amount: molarity is amount over volume.'],
    ],
  },
  {
    id: 'mass',
    label: 'cobalt in the sample',
    unit: 'mg',
    dimension: 'mass',
    from: 'flask',
    value: (_, flask) => flask * MOLAR_MASS.Co,
    slips: (_, flask) => [
      [flask * COBALT_CHLORIDE, 'This is the mass of cobalt(II) chloride: cobalt alone is 58.933 g/mol.'],
      [flask * COBALT_CHLORIDE_HYDRATE, 'This is the mass of cobalt(II) chloride hexahydrate: cobalt alone is 58.933 g/mol.'],
      [flask / MOLAR_MASS.Co, 'Amount was divided by molar mass: mass is amount times molar mass.'],
    ],
  },
];

/** Names of the steps in order, for a form. */
export const CALCULATION_STEPS = STEPS.map(({ id, label, unit }) => ({ id, label, unit }));

/** Checks typed answers; steps left out are passed over. */
export function checkCalculation(readings: Readings, answers: Readonly<Partial<Record<StepId, string>>>): CalculationCheck {
  const right = new Map<StepId, number>();
  const given = new Map<StepId, number>();
  const steps = STEPS.map((step) => {
    const expected = step.value(readings, step.from ? (right.get(step.from) ?? Number.NaN) : 0);
    right.set(step.id, expected);
    const earlier = step.from ? (given.get(step.from) ?? right.get(step.from) ?? Number.NaN) : 0;
    const check = checkStep(step, readings, answers[step.id] ?? '', expected, earlier);
    given.set(step.id, check.given ?? step.value(readings, earlier));
    return check;
  });
  const firstWrong = steps.find(({ verdict }) => verdict === 'wrong' || verdict === 'not understood');
  return { steps, firstWrong, complete: steps.every(({ verdict }) => verdict !== 'missing' && verdict !== 'not understood') };
}

function checkStep(step: Step, readings: Readings, answer: string, expected: number, earlier: number): StepCheck {
  const base = { id: step.id, label: step.label, unit: step.unit, expected };
  if (answer.trim() === '') return { ...base, verdict: 'missing', given: undefined, text: '' };
  const quantity = parseQuantity(answer, step.dimension);
  if (!quantity.ok)
    return { ...base, verdict: 'not understood', given: undefined, text: `${step.label}: expected ${quantity.expected}, received ${quantity.received}` };
  const { value, rounding, figures, note } = quantity;
  const matches = (target: number) => Math.abs(value - target) <= Math.abs(target) * TOLERANCE + rounding;
  const few = figures < 3 ? 'Too few figures for a titration: give three or four.' : '';
  // The unit stands beside the field: how a number without one was read only matters where it is off.
  if (matches(expected)) return { ...base, verdict: 'right', given: value, text: few };
  if (matches(step.value(readings, earlier)))
    return { ...base, verdict: 'follows', given: value, text: 'This step is right, but it carries over an earlier mistake.' };
  return {
    ...base,
    verdict: 'wrong',
    given: value,
    text: [slipOf(step, readings, value, earlier, matches), readingOf(note, value / step.value(readings, earlier))].filter(Boolean).join(' '),
  };
}

/** How a number was read, where that may be why it is off: by a power of ten, or with a comma. */
function readingOf(note: string, ratio: number): string {
  const tens = log10(Math.abs(ratio));
  const shifted = Math.abs(tens) > 0.5 && Math.abs(tens - Math.round(tens)) < 0.01;
  return note !== '' && (shifted || note.includes('comma')) ? `${capital(note)}.` : '';
}

function slipOf(step: Step, readings: Readings, value: number, earlier: number, matches: (target: number) => boolean): string {
  const target = step.value(readings, earlier);
  const slip = step.slips(readings, earlier).find(([wrong]) => matches(wrong) && !matches(target));
  if (slip) return slip[1];
  const ratio = value / target;
  if (Math.abs(log10(Math.abs(ratio)) - 3) < 0.01 || Math.abs(log10(Math.abs(ratio)) + 3) < 0.01) return 'A factor of 1000: mL against L, or mmol against mol.';
  if (value < 0) return 'A negative value: a subtraction is the wrong way round.';
  return `Expected ${target.toPrecision(4)} ${step.unit} from ${step.from ? 'the step before' : 'the burette readings'}.`;
}
