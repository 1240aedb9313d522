import type { HandOut } from '../../../sim/handed/index.ts';
import type { Seeing } from '../../../sim/terms/seeing.ts';

// The rules of what is handed out, in words for students.

export const SEEN: Readonly<Record<Seeing, string>> = {
  eye: 'By eye until the end: glass, ruler, cylinder, drops and clock.',
  figure: 'With the figure of what has happened so far; what comes is not shown before the end.',
  forecast: 'With the forecast: what comes is shown, and what was done may be moved and taken back.',
};

export function ruleLines({ column, seeing, tries, faults }: HandOut): readonly string[] {
  return [
    SEEN[seeing],
    column === 'fresh'
      ? 'Every try is a column of its own: watch, a volume remembered from another does not hold.'
      : 'Every try, and everybody, has the same column.',
    `${tries === 1 ? 'There is one try' : `There are ${tries} tries`}, counted in the browser it is made in. A try counts from its first action${seeing === 'forecast' ? '' : ', and what was done stays done'}.`,
    ...(faults === 'hidden'
      ? ['Something may be wrong with this column, or nothing. Say what it is, and why, under “What goes wrong”: one answer counts.']
      : []),
  ];
}
