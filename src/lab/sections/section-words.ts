import { sum } from '../../../sim/math/sum.ts';
import { isRecord, own } from '../../../sim/input/index.ts';
import { effective, valueAt } from '../../../sim/lab/index.ts';
import { FIELDS, type FieldPath } from '../../../sim/terms/fields.ts';
import { DEFAULT_GRADE, isSieved, sieveOf } from '../../../sim/terms/grades.ts';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import { significant, withUnit } from '../../ui/text/format.ts';
import { SECTIONS, type SectionId, sectionOf } from './contents.ts';

// A section in a few words, for when it is folded, and the name of a path.

/** Longest brief, characters. */
const BRIEF_MAX = 60;

export function sectionWords(json: unknown, id: SectionId): string {
  const words = wordsOf(json, id);
  return words.length > BRIEF_MAX ? `${words.slice(0, BRIEF_MAX)}…` : words;
}

/** Name of a path for a reader: the label of its row in the tables, or else the name of its action, bottle or section. */
export function labelAt(json: unknown, path: string): string {
  if (Object.hasOwn(FIELDS, path)) return FIELDS[path as FieldPath].label;
  const action = /^procedure\[(\d+)\]/.exec(path);
  if (action) return `action ${Number(action[1]) + 1} of the procedure`;
  const bottle = /^liquids\.([^.]+)/.exec(path);
  if (bottle) return `bottle ${String(valueAt(json, `liquids.${bottle[1]}.label`) ?? bottle[1])}`;
  return SECTIONS.find((section) => section.id === sectionOf(path))?.title.toLowerCase() ?? path;
}

/** The grade, and a bead that was set to what its sieves do not let through. */
function gradeWords(json: unknown): string {
  const grade = valueAt(json, 'resin.grade') ?? DEFAULT_GRADE;
  const sieve = sieveOf(grade);
  const bead_um = effective(json, 'bed.bead_um');
  if (!sieve || bead_um === undefined || isSieved(sieve, bead_um)) return String(grade);
  return `beads of ${plain(bead_um, 'µm')}, not in ${String(grade)}`;
}

function wordsOf(json: unknown, id: SectionId): string {
  const number = (path: FieldPath): string => plain(effective(json, path) ?? Number.NaN, FIELDS[path].unit);
  switch (id) {
    case 'lesson':
      return String(own(json, 'title') ?? '');
    case 'column':
      return `${number('column.bore_cm')} bore, ${number('bed.length_cm')} of resin`;
    case 'resin':
      return gradeWords(json);
    case 'bottles':
      return bottleNames(json).join(', ');
    case 'sample':
      return listAt(json, 'ions')
        .map((ion) => IONS[ion as IonId]?.symbol ?? String(ion))
        .join(', ');
    case 'procedure':
      return pourWords(listAt(json, 'procedure'));
    case 'seen':
      return `${{ eye: 'by eye', figure: 'with the figure', forecast: 'everything' }[String(own(json, 'seeing') ?? 'forecast')] ?? ''}, coach ${String(own(json, 'coach') ?? 'as they choose')}`;
    case 'faults':
      return listAt(json, 'faults').length === 0 ? 'none' : `${listAt(json, 'faults').length}`;
    case 'differ':
      return (['differ.bead', 'differ.porosity', 'differ.length_cm', 'differ.spread', 'differ.acid_M'] as const).some((path) => effective(json, path) !== 0)
        ? 'each different'
        : 'all alike';
    case 'workup':
      return `${number('workup.EDTA_M')} EDTA, ${number('bench.NaOH_M')} NaOH`;
    case 'class':
      return `${number('class.groups')} groups, ${number('class.aliquots')} aliquots, ${number('class.period_min')}`;
    case 'model':
      return `${number('bed.lanes')} lanes of ${number('bed.plates')} cells`;
  }
}

/** As it was typed, without trailing zeros. */
function plain(value: number, unit: string): string {
  const text = String(Number(value.toPrecision(4)));
  return withUnit(Number.isFinite(value) && !text.includes('e') ? text : significant(value), unit);
}

function bottleNames(json: unknown): string[] {
  const bottles = own(json, 'liquids');
  return isRecord(bottles) ? Object.entries(bottles).map(([id, bottle]) => String(own(bottle, 'label') ?? id)) : [];
}

function listAt(json: unknown, key: string): readonly unknown[] {
  const list = own(json, key);
  return Array.isArray(list) ? list : [];
}

function pourWords(procedure: readonly unknown[]): string {
  const pours = procedure.filter((action) => own(action, 'do') === 'pour').map((action) => Number(own(action, 'volume_mL')));
  return pours.length === 0 ? 'nothing poured yet' : `${pours.length} pours, ${plain(sum(pours), 'mL')} in all`;
}
