import { columnsDiffer } from '../../../../sim/column/index.ts';
import type { ColumnPolicy, HandOut } from '../../../../sim/handed/index.ts';
import type { Seeing } from '../../../../sim/terms/seeing.ts';
import type { Scenario } from '../../../../sim/terms/types.ts';

// The rules of what is handed out, in words for students.

export const SEEN: Readonly<Record<Seeing, string>> = {
  eye: 'By eye until the end: glass, ruler, cylinder, drops and clock.',
  figure: 'With the figure of what has happened so far; the forecast is not shown before the end.',
  forecast: 'With the forecast: what comes is shown, and actions can be moved and undone.',
};

export function ruleLines({ column, seeing, tries, faults }: HandOut, scenario: Scenario): readonly string[] {
  return [
    SEEN[seeing],
    columnLine(column, scenario),
    `${tries === 1 ? 'There is one try' : `There are ${tries} tries`}, counted in each browser. A try counts from its first action${seeing === 'forecast' ? '' : ', and actions cannot be undone'}.`,
    ...(faults === 'hidden'
      ? [
          `Something may be wrong with this column, or nothing. Say what is wrong, and why, under “Faults”${seeing === 'forecast' ? '' : ', which opens when the run has ended'}. You can answer once.`,
        ]
      : []),
  ];
}

/** Which column a try gets, as a choice. */
export function columnBriefly(column: ColumnPolicy, scenario: Scenario): string {
  if (column === 'same') return 'one column for all';
  return columnsDiffer(scenario) ? 'a fresh column each try' : 'the same column, packed anew each try';
}

function columnLine(column: ColumnPolicy, scenario: Scenario): string {
  if (column === 'same') return 'Everybody has the same column, in every try.';
  return columnsDiffer(scenario)
    ? 'Every try has its own column. Watch the column: a volume remembered from another try does not apply.'
    : 'Every try has the same resin, bed and bottles, packed anew: only the loose places in the bed lie elsewhere.';
}
