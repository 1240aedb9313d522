import type { Results } from '../../sim/history/index.ts';
import type { Run } from '../../sim/run/index.ts';
import type { Amounts } from '../../sim/terms/types.ts';

/** Figures of a run as a table for people: mmol of every component in every place, bands, times. */
export function tableOf(run: Run, results: Results): string {
  const parts = ['HCl', ...run.column.ions];
  const places: [string, string, Amounts][] = [
    ['poured', '', results.loaded],
    ...results.receivers.map((r): [string, string, Amounts] => [r.label, r.volume_mL.toFixed(2), r as Amounts]),
    ['on the bed', '', results.onBed],
    ['below the bed', '', results.inTip],
    ['above the bed', '', results.inHead],
    ['spilled or dried off', '', results.spilled],
  ];
  const rows = [
    ['mmol in', 'mL', ...parts],
    ...places.map(([name, volume, amounts]) => [name, volume, ...parts.map((part) => figure(amounts[`${part}_mmol` as keyof Amounts]))]),
  ];
  return `${[title(run, results), '', grid(rows), '', ...bands(results), ...refusals(results), footer(results)].join('\n')}\n`;
}

function title(run: Run, { seed, bed }: Results): string {
  return `${run.scenario.title} (seed ${seed})\nbed ${bed.volume_mL.toFixed(2)} mL, hold-up ${bed.holdup_mL.toFixed(2)} mL, ${bed.lanes} lanes of ${bed.plates} cells`;
}

function bands(results: Results): string[] {
  return Object.entries(results.bands).flatMap(([ion, band]) =>
    band ? [`${ion} on the bed: ${band.trailing_cm.toFixed(2)} to ${band.leading_cm.toFixed(2)} cm, centroid ${band.centroid_cm.toFixed(2)} cm`] : [],
  );
}

function refusals({ refused }: Results): string[] {
  return refused.map(({ entry, path, expected, received }) => `action ${entry + 1} refused: ${path}: expected ${expected}; received ${received}`);
}

function footer({ time_min, delivered_mL, ledger, lowestLiquid_mm }: Results): string {
  return `${time_min.toFixed(1)} min, ${delivered_mL.toFixed(2)} mL delivered, lowest liquid ${lowestLiquid_mm.toFixed(1)} mm above the bed, ledger closes to ${ledger.worstRelativeError.toExponential(1)}`;
}

/** Four significant figures; anything below a nanomole counts as none. */
function figure(mmol: number | undefined): string {
  if (mmol === undefined || Math.abs(mmol) < 1e-6) return '0';
  return mmol >= 1000 ? mmol.toFixed(0) : mmol.toPrecision(4);
}

function grid(rows: string[][]): string {
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => row[column].length)));
  return rows.map((row) => row.map((cell, column) => (column === 0 ? cell.padEnd(widths[column]) : cell.padStart(widths[column]))).join('  ')).join('\n');
}
