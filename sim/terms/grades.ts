import { ln } from '../math/elementary.ts';
import type { Status } from './status.ts';

// Resin as it is sold: a sieve class and a cross-linking set wet bead size, capacity, water inside the beads, diffusion in them,
// swelling and tint together. Any one of these numbers can be set by itself in a scenario.

/** One number of a grade, with where it comes from and how far it can be trusted. */
export interface GradeNumber {
  readonly value: number;
  readonly source: string;
  readonly status: Status;
}

/** Limits of the wet beads, µm. Dry sieve openings (20, 50, 100, 200 mesh: 841, 297, 149, 74 µm) are smaller: beads swell in water. */
export interface SieveClass {
  readonly wetLeast_um: number;
  readonly wetMost_um: number;
  readonly source: string;
  readonly status: Status;
  /** Surface-mean bead where the even spread between the sieves is not taken. */
  readonly bead?: GradeNumber;
}

export const SIEVE_CLASSES = {
  '20-50 mesh': { wetLeast_um: 300, wetMost_um: 850, source: 'wet sieve class of gel resins', status: 'memory' },
  '50-100 mesh': {
    wetLeast_um: 180,
    wetMost_um: 425,
    source: 'wet sieve class of gel resins',
    status: 'memory',
    bead: {
      value: 250,
      source: 'a lot somewhat finer than an even spread between 180 and 425 µm, 268; chosen as 95 % of the cobalt then leaves within 10 mL of water',
      status: 'assumed',
    },
  },
  '100-200 mesh': { wetLeast_um: 106, wetMost_um: 180, source: 'wet sieve class of gel resins', status: 'memory' },
} as const satisfies Record<string, SieveClass>;

/** Numbers that go with the cross-linking, whatever the bead size. Keys are parameters of a scenario. */
export const CROSS_LINKINGS = {
  '4 % cross-linked': {
    'resin.capacity_eq_per_L': { value: 1, source: 'strong-base gel resin, 4 % cross-linked', status: 'memory' },
    'resin.pore_L_per_L': { value: 0.37, source: '62 % beads by volume, 60 % of a bead liquid', status: 'memory' },
    'resin.shrinkage': { value: 0.2, source: 'a 4 % sulfonic resin loses 40 % from water to 9 M HBr (Nelson and Michelson, read): a bound', status: 'assumed' },
    'resin.tint_per_cm': { value: 18, source: 'paler than 8 %: less polymer per volume', status: 'assumed' },
    'resin.Ds_exchange_cm2_s': { value: 3e-7, source: 'three times that of 8 %, as diffusion rises with the liquid share', status: 'assumed' },
    'resin.Ds_coion_cm2_s': { value: 5e-7, source: 'two to three times that of 8 %', status: 'assumed' },
    'resin.Ds_HCl_cm2_s': { value: 2e-6, source: 'twice that of 8 %', status: 'assumed' },
  },
  '8 % cross-linked': {
    'resin.capacity_eq_per_L': { value: 1.2, source: 'strong-base gel resin, 8 % cross-linked', status: 'memory' },
    'resin.pore_L_per_L': { value: 0.286, source: 'capacity 1.2 eq/L over Q 4.2 mol/L', status: 'derived' },
    'resin.shrinkage': { value: 0.05, source: 'no value found; 0 to 15 %, far less than 4 % cross-linked', status: 'assumed' },
    'resin.tint_per_cm': { value: 25, source: 'no measured spectrum found', status: 'assumed' },
    'resin.Ds_exchange_cm2_s': { value: 1e-7, source: 'divalent anions 3e-8 to 2e-7, Boyd and Soldano 1953 via Helfferich', status: 'memory' },
    'resin.Ds_coion_cm2_s': {
      value: 2.7e-7,
      source: 'Na+ as co-ion in an 8 % gel 5e-7 (read) times Co2+ over Na+ in water, 0.732/1.334 (CRC)',
      status: 'derived',
    },
    'resin.Ds_HCl_cm2_s': { value: 1e-6, source: 'Cl- 6e-7 in a gel resin, supplier data; H+ faster', status: 'assumed' },
  },
} as const satisfies Record<string, Readonly<Record<string, GradeNumber>>>;

type Sieve = keyof typeof SIEVE_CLASSES;
type CrossLinking = keyof typeof CROSS_LINKINGS;
export type Grade = `${Sieve}, ${CrossLinking}`;

/** What a class has: it drips briskly from a bed of 7 cm, which 100-200 mesh does not. */
export const DEFAULT_GRADE: Grade = '50-100 mesh, 8 % cross-linked';

/** Every grade with all its numbers, keyed by parameter. */
export const GRADES: Readonly<Record<Grade, Readonly<Record<string, GradeNumber>>>> = gradeTable();

export const GRADE_NAMES = Object.keys(GRADES) as readonly Grade[];

/** Number of a grade for a parameter; undefined if the grade says nothing about it, or is not known. */
export function gradeNumber(grade: unknown, path: string): number | undefined {
  const numbers: Readonly<Record<string, GradeNumber>> | undefined =
    typeof grade === 'string' && Object.hasOwn(GRADES, grade) ? GRADES[grade as Grade] : undefined;
  return numbers && Object.hasOwn(numbers, path) ? numbers[path].value : undefined;
}

/** Whether beads of this diameter are among those that the sieves let through. */
export function isSieved({ wetLeast_um, wetMost_um }: SieveClass, bead_um: number): boolean {
  return bead_um >= wetLeast_um && bead_um <= wetMost_um;
}

/** Sieve class of a grade; undefined if the grade is not known. */
export function sieveOf(grade: unknown): SieveClass | undefined {
  return Object.entries(SIEVE_CLASSES).find(([name]) => String(grade).startsWith(`${name},`))?.[1];
}

/**
 * Surface-mean (Sauter) diameter of beads whose volume is spread evenly over the logarithm of the diameter between two sieves:
 * ln(b/a) / (1/a - 1/b), derived from the definition (sum of d³ over sum of d²). The spread itself is assumed.
 */
export function sauterMean(least: number, most: number): number {
  return ln(most / least) / (1 / least - 1 / most);
}

function gradeTable(): Record<Grade, Readonly<Record<string, GradeNumber>>> {
  const table: Partial<Record<Grade, Readonly<Record<string, GradeNumber>>>> = {};
  const classes: readonly (readonly [string, SieveClass])[] = Object.entries(SIEVE_CLASSES);
  for (const [sieve, { wetLeast_um, wetMost_um, source, bead: lot }] of classes) {
    const bead = lot ?? {
      value: Math.round(sauterMean(wetLeast_um, wetMost_um)),
      source: `Sauter mean between ${wetLeast_um} and ${wetMost_um} µm, ${source}`,
      status: 'derived' as const,
    };
    for (const [linking, numbers] of Object.entries(CROSS_LINKINGS)) table[`${sieve}, ${linking}` as Grade] = { 'bed.bead_um': bead, ...numbers };
  }
  // Every pair of keys has been filled in.
  return table as Record<Grade, Readonly<Record<string, GradeNumber>>>;
}
