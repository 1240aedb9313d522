import { FRAME } from '../../sim/history/record.ts';
import type { Run } from '../../sim/run/run.ts';
import { receiverLabels } from '../../sim/history/receivers.ts';

/** Effluent of a run as CSV, a line a frame: delivered mL, time, liquid level, flow, receiver, mol/L of every component at the tip. */
export function curveCsv(run: Run): string {
  const { record, column } = run;
  const labels = receiverLabels(run.events);
  const head = ['delivered_mL', 'time_min', 'liquid_mm', 'flow_mL_per_min', 'receiver', 'HCl_M', ...column.ions.map((ion) => `${ion}_M`)];
  const lines = [head.join(',')];
  for (let f = 0; f < record.count; f++) {
    const row = record.rows.subarray(f * record.stride, (f + 1) * record.stride);
    const label = JSON.stringify(labels[row[FRAME.receiver]]);
    const parts = Array.from(row.subarray(FRAME.parts, FRAME.parts + record.components), (value) => value.toPrecision(8));
    const fixed = [row[FRAME.delivered].toFixed(4), row[FRAME.time].toFixed(4), (row[FRAME.level] * 10).toFixed(2), row[FRAME.flow].toFixed(4), label];
    lines.push([...fixed, ...parts].join(','));
  }
  return `${lines.join('\n')}\n`;
}
