import { FIELDS, type FieldPath } from '../../../sim/terms/fields.ts';

// Which section sets what. Every parameter of the tables is in one section; the few that a lab decides are in sight, the rest behind
// one press.

export type SectionId = 'lesson' | 'column' | 'resin' | 'bottles' | 'sample' | 'procedure' | 'seen' | 'faults' | 'differ' | 'workup' | 'class' | 'model';

export interface Section {
  readonly id: SectionId;
  readonly title: string;
  /** Parameters in sight. */
  readonly main: readonly FieldPath[];
  /** Parameters behind one press. */
  readonly more: readonly FieldPath[];
  /** Beginnings of the other paths that are set here. */
  readonly places: readonly string[];
}

const MAIN = {
  column: ['column.bore_cm', 'bed.length_cm', 'column.tube_cm'],
  differ: ['differ.bead', 'differ.porosity', 'differ.length_cm', 'differ.spread', 'differ.acid_M'],
  workup: ['workup.titrations', 'workup.EDTA_M', 'bench.NaOH_M', 'workup.thiocyanate_g', 'workup.acetone_mL', 'workup.burette_mL'],
  class: ['class.period_min', 'class.people', 'class.aliquots', 'class.columns', 'class.groups'],
} as const satisfies Partial<Record<SectionId, readonly FieldPath[]>>;

const PACKING: readonly FieldPath[] = ['bed.bead_um', 'bed.porosity', 'bed.packing', 'bed.spread', 'bed.wall_factor'];
const BEFORE: readonly FieldPath[] = ['bench.packed', 'bench.start_HCl_M', 'bench.start_head_mm', 'bench.temperature_C', 'bench.evaporation_mm_h'];

export const SECTIONS: readonly Section[] = [
  { id: 'lesson', title: 'Lesson', main: [], more: [], places: ['title', 'purpose', 'notice', 'sources'] },
  { id: 'column', title: 'Column', main: MAIN.column, more: [...without(group('column'), MAIN.column), ...BEFORE], places: [] },
  { id: 'resin', title: 'Resin', main: [], more: [...PACKING, ...group('resin')], places: ['resin.grade'] },
  { id: 'bottles', title: 'Bottles', main: [], more: ['bench.fuming_per_h'], places: ['liquids'] },
  { id: 'sample', title: 'Metals and sample', main: [], more: ['workup.sample_mL'], places: ['ions', 'curves'] },
  { id: 'procedure', title: 'Procedure and task', main: group('task'), more: [], places: ['procedure'] },
  { id: 'seen', title: 'What students see', main: [], more: [], places: ['seeing', 'coach', 'seed'] },
  { id: 'faults', title: 'Faults', main: [], more: [], places: ['faults'] },
  { id: 'differ', title: 'How columns and hands differ', main: [...MAIN.differ, 'bench.hand'], more: [], places: [] },
  { id: 'workup', title: 'Work-up', main: MAIN.workup, more: without(group('workup'), [...MAIN.workup, 'workup.sample_mL']), places: [] },
  { id: 'class', title: 'Period and people', main: MAIN.class, more: without(group('class'), MAIN.class), places: [] },
  {
    id: 'model',
    title: 'Inside the model',
    main: [],
    more: [...without(group('bed'), [...PACKING, 'bed.length_cm']), ...group('flow'), ...group('numerics')],
    places: ['fitted', 'scenario'],
  },
];

/** The section in which a place is set; a path that no section names belongs to the inside of the model. */
export function sectionOf(path: string): SectionId {
  const found = SECTIONS.find(
    ({ main, more, places }) =>
      [...main, ...more].some((field) => field === path) ||
      places.some((place) => path === place || path.startsWith(`${place}.`) || path.startsWith(`${place}[`)),
  );
  return found?.id ?? 'model';
}

/** Step of one arrow key: a power of ten, between a hundredth and a tenth of the default. */
export function stepOf(path: FieldPath): number {
  const field: { default: number; min: number; max: number; integer?: true } = FIELDS[path];
  if (field.integer) return 1;
  const size = field.default > 0 ? field.default / 10 : (field.max - field.min) / 100;
  return Number((10 ** Math.floor(Math.log10(size))).toPrecision(1));
}

function group(name: string): FieldPath[] {
  return (Object.keys(FIELDS) as FieldPath[]).filter((path) => path.startsWith(`${name}.`));
}

function without(paths: readonly FieldPath[], those: readonly FieldPath[]): FieldPath[] {
  return paths.filter((path) => !those.includes(path));
}
