import { deliveredOf, effluentCurve, flowOf, levelOf, receiverLabels, receiverOf, solutesOf, timeOf } from '../../sim/history/index.ts';
import type { Run } from '../../sim/run/index.ts';
import { csvText, type Row } from '../ui/text/csv.ts';

/** Effluent of a run as CSV, a line a frame: delivered mL, time, liquid level, flow, receiver, mol/L of every component at the tip. */
export function curveCsv({ record, events }: Run): string {
  const labels = receiverLabels(events);
  const frames = Array.from({ length: record.count }, (_, frame) => frame);
  const leaving = solutesOf(record).map((solute) => ({ key: `${solute}_M`, ...effluentCurve(record, solute, frames) }));
  const keys = ['delivered_mL', 'time_min', 'liquid_mm', 'flow_mL_per_min', 'receiver', ...leaving.map(({ key }) => key)];
  const rows = frames.map(
    (frame): Row => ({
      delivered_mL: rounded(deliveredOf(record, frame), 4),
      time_min: rounded(timeOf(record, frame), 4),
      liquid_mm: rounded(levelOf(record, frame) * 10, 2),
      flow_mL_per_min: rounded(flowOf(record, frame), 4),
      receiver: labels[receiverOf(record, frame)],
      ...Object.fromEntries(leaving.map(({ key, ys }) => [key, Number(ys[frame].toPrecision(8))])),
    }),
  );
  return csvText(
    keys.map((key) => ({ key, label: key })),
    rows,
  );
}

function rounded(value: number, places: number): number {
  return Number(value.toFixed(places));
}
