import { isRecord, own } from '../../../sim/input/index.ts';
import { DEFAULT_GRADE, type Grade, GRADE_NAMES, GRADES } from '../../../sim/terms/grades.ts';
import type { Json } from '../../store/keep/saved.ts';
import { patched } from '../../store/keep/difference.ts';
import { emptied } from './empty.ts';

// The same scenario with another resin, in a tube that is empty or packed beforehand.

/** Grade of resin that the JSON of a scenario names. */
export function gradeOf(json: Json): Grade {
  const named = own(own(json, 'resin'), 'grade');
  return GRADE_NAMES.find((name) => name === named) ?? DEFAULT_GRADE;
}

/** Another grade brings all its numbers, so those that the scenario sets by itself give way. */
export function startOf(json: Json, grade: Grade, packed: boolean): Json {
  const resin = grade === gradeOf(json) ? json : patched(withoutNumbers(json, grade), { resin: { grade: grade === DEFAULT_GRADE ? null : grade } });
  return packed ? patched(resin, { bench: { packed: null } }) : emptied(resin);
}

function withoutNumbers(json: Json, grade: Grade): Json {
  return Object.keys(GRADES[grade]).reduce((left, path) => {
    const [group, name] = path.split('.');
    return isRecord(own(left, group)) ? patched(left, { [group]: { [name]: null } }) : left;
  }, json);
}
