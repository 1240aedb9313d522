import { type ClassForecast, type Distribution, SPREAD_IDS } from '../../../sim/class/index.ts';
import { columnsDiffer } from '../../../sim/column/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { fixed, millilitres, millimoles, percent, significant } from '../../ui/text/format.ts';

// What a class will see, as a sentence and two tables.

const FIGURES = [
  { key: 'leading_20_cm', label: 'leading edge after 20 mL of acid, rinses included, below the bed top as it stands then', unit: 'cm' },
  { key: 'leading_40_cm', label: 'leading edge after 40 mL of acid, rinses included, below the bed top as it stands then', unit: 'cm' },
  { key: 'window_from_mL', label: 'window for the receiver opens, after the start of water', unit: 'mL' },
  { key: 'window_to_mL', label: 'window for the receiver closes, after the start of water', unit: 'mL' },
  { key: 'recovered', label: 'recovered share', unit: '' },
  { key: 'acid_mmol', label: 'acid collected', unit: 'mmol' },
  { key: 'titre_mL', label: 'titre', unit: 'mL' },
  { key: 'time_min', label: 'time', unit: 'min' },
] as const;
export const SPREAD_COLUMNS = [
  { key: 'figure', label: 'figure' },
  { key: 'itself', label: 'this lab itself' },
  { key: 'median', label: 'median' },
  { key: 'low10', label: '10 %' },
  { key: 'high90', label: '90 %' },
  { key: 'least', label: 'least' },
  { key: 'most', label: 'most' },
  { key: 'cause', label: 'main causes (share of the variance)' },
];
const PROCEDURES = [
  { key: 'written', label: 'as in the scenario' },
  { key: 'forty', label: '40 mL of acid' },
  { key: 'stopped', label: 'until 5 mm above the bottom, at most 40 mL' },
] as const;
export const CHANGE_COLUMNS = [
  { key: 'procedure', label: 'wash' },
  { key: 'wash', label: 'acid, mL' },
  { key: 'met', label: 'groups that meet the task' },
  { key: 'recovered', label: 'recovered share, median (least)' },
  { key: 'acid', label: 'acid collected, mmol' },
  { key: 'time', label: 'time, min' },
];
/** Groups unless the reader sets another number: enough for shares, and soon computed. A choice. */
export const GROUPS_USUAL = 24;
/** Fewer groups tell nothing about shares. */
const GROUPS_LEAST = 10;
/** Causes that are named beside a figure. */
const CAUSES = 3;

/** In what the groups differ, and where that is known from. */
export function groupsWords(lab: Scenario): string {
  if (columnsDiffer(lab))
    return 'Columns, bottles and hands differ from group to group, as far apart as the lab says; each group gets its own, drawn from a seed.';
  return 'This lab has one column for all. In a class the columns are not quite alike, nor are bottles and hands, so a usual spread is taken; each group gets its own, drawn from a seed.';
}

/** Whether the receiver change that is planned serves every group. */
export function lossWords({ groups, target, procedures }: ClassForecast): string {
  const { ion, recovered, missedBy } = target;
  const name = IONS[ion].name;
  const planned = 'If the receiver is changed as the procedure says,';
  if (missedBy === 0) return `${planned} no group loses more than ${percent(1 - recovered)} of its ${name}.`;
  const most = percent(1 - (procedures.written.recovered?.least ?? 0));
  return `${planned} ${missedBy} of ${groups} groups ${missedBy === 1 ? 'loses' : 'lose'} more than ${percent(1 - recovered)} of ${missedBy === 1 ? 'its' : 'their'} ${name}; the largest loss is ${most}.`;
}

/** Whether the fraction is as free of acid as the task asks in every group; empty where the task does not ask. */
export function acidWords({ groups, target: { acid_mmol, tooAcid }, procedures }: Pick<ClassForecast, 'groups' | 'target' | 'procedures'>): string {
  if (acid_mmol === undefined) return '';
  const limit = millimoles(acid_mmol, 0);
  if (tooAcid === 0) return `No group collects more than the ${limit} of acid that the task allows.`;
  const most = millimoles(procedures.written.acid_mmol?.most ?? 0, 0);
  return `${tooAcid} of ${groups} groups ${tooAcid === 1 ? 'collects' : 'collect'} more than the ${limit} of acid that the task allows; the most is ${most}.`;
}

/** Where depths are counted from, and how a median relates to a fit; empty where nothing was loaded. */
export function depthWords({ itself, spreads }: Pick<ClassForecast, 'itself' | 'spreads'>): string {
  const { top_20_cm: top, delivered_20_mL: delivered } = itself?.depths ?? {};
  if (top === undefined || delivered === undefined) return '';
  const ruler =
    Number(fixed(top, 1)) === 0
      ? ''
      : ` The ruler of the bench, whose 0 is the bed top as packed, reads ${fixed(top, 1)} cm more, since the bed is shorter in acid.`;
  const fumed =
    spreads.acid.size > 0
      ? ' The median of the groups need not be the same: groups scatter, and bottles only lose acid, never gain any, which moves the band one way.'
      : '';
  return `Edges are counted as in Calibrate, from the bed top as it stands then; after 20 mL of acid the cylinder holds ${millilitres(delivered)} since the start of the run.${ruler} “This lab itself” is the column, bottles and volumes as the lab has them, which is what a fit brings to the readings.${fumed}`;
}

export function figureRows(forecast: ClassForecast) {
  const all: Readonly<Record<string, Distribution | undefined>> = { ...forecast.procedures.written, ...forecast.depths };
  const itself: Readonly<Record<string, number | boolean | undefined>> = { ...forecast.itself?.written, ...forecast.itself?.depths };
  return FIGURES.flatMap(({ key, label, unit }) => {
    const spread = all[key];
    if (!spread) return [];
    const { median, low10, high90, least, most } = spread;
    return [
      {
        figure: unit === '' ? label : `${label}, ${unit}`,
        ...texts({ itself: Number(itself[key] ?? Number.NaN), median, low10, high90, least, most }),
        cause: causes(forecast, key),
      },
    ];
  });
}

function causes({ shares, spreads, groupsAlone }: ClassForecast, key: (typeof FIGURES)[number]['key']): string {
  if (groupsAlone < GROUPS_LEAST) return `needs ${GROUPS_LEAST} groups or more`;
  const found = shares[key];
  const known = SPREAD_IDS.map((id) => ({ label: spreads[id].label, share: found?.[id] ?? 0 })).filter(({ share }) => share >= 0.02);
  const most = known.sort((a, b) => b.share - a.share).slice(0, CAUSES);
  return most.map(({ label, share }) => `${label} ${Math.round(100 * share)} %`).join(', ');
}

/** Relative uncertainty of a share, which is a ratio of two variances, each from a number of groups (chi-square, 2/(n - 1)). */
export function doubtOf({ groups, groupsAlone }: Pick<ClassForecast, 'groups' | 'groupsAlone'>): number {
  return Math.sqrt(2 / (groupsAlone - 1) + 2 / (groups - 1));
}

export function changeRows({ procedures, met, groups }: Pick<ClassForecast, 'procedures' | 'met' | 'groups'>) {
  return PROCEDURES.map(({ key, label }) => {
    const { wash_mL, recovered, acid_mmol, time_min } = procedures[key];
    const median = (figure: Distribution | undefined): string => (figure ? significant(figure.median, 3) : '');
    return {
      procedure: label,
      wash: median(wash_mL),
      met: `${met[key]} of ${groups}`,
      recovered: recovered ? `${significant(recovered.median, 4)} (${significant(recovered.least, 4)})` : '',
      acid: median(acid_mmol),
      time: median(time_min),
    };
  });
}

function texts(values: Readonly<Record<string, number>>): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(values).map(([key, value]) => [key, significant(value, 3)]));
}
