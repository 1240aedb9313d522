import { FRAME } from '../../sim/history/record.ts';
import type { Run } from '../../sim/run/run.ts';
import { receiverLabels } from '../../sim/history/receivers.ts';
import { csvText, type Row } from '../ui/text/csv.ts';

/** Effluent of a run as CSV, a line a frame: delivered mL, time, liquid level, flow, receiver, mol/L of every component at the tip. */
export function curveCsv(run: Run): string {
  const { record, column } = run;
  const labels = receiverLabels(run.events);
  const parts = ['HCl_M', ...column.ions.map((ion) => `${ion}_M`)];
  const keys = ['delivered_mL', 'time_min', 'liquid_mm', 'flow_mL_per_min', 'receiver', ...parts];
  const rows = Array.from({ length: record.count }, (_, f): Row => {
    const row = record.rows.subarray(f * record.stride, (f + 1) * record.stride);
    return {
      delivered_mL: rounded(row[FRAME.delivered], 4),
      time_min: rounded(row[FRAME.time], 4),
      liquid_mm: rounded(row[FRAME.level] * 10, 2),
      flow_mL_per_min: rounded(row[FRAME.flow], 4),
      receiver: labels[row[FRAME.receiver]],
      ...Object.fromEntries(parts.map((key, k) => [key, Number(row[FRAME.parts + k].toPrecision(8))])),
    };
  });
  return csvText(
    keys.map((key) => ({ key, label: key })),
    rows,
  );
}

function rounded(value: number, places: number): number {
  return Number(value.toFixed(places));
}
