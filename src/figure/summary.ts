import { IONS } from '../../sim/terms/ions.ts';
import type { Plan } from '../../sim/history/plan.ts';
import { spoken } from '../ui/text/format.ts';
import { FRAME } from '../../sim/history/record.ts';
import { receivings } from './rows/stretches.ts';

/** The whole run in a few sentences, for those who hear the figure. */
export function spokenRun(plan: Plan): string {
  const receivers = receivings(plan).map(({ label, from_mL, to_mL }) => `${label} from ${spoken(from_mL, 'mL')} to ${spoken(to_mL, 'mL')}`);
  const peaks = plan.ions.flatMap((ion, i) => {
    const peak = peakOf(plan, i + 1);
    return peak ? [`${IONS[ion].name} leaves most strongly at ${spoken(peak.delivered_mL, 'mL')}, ${spoken(peak.molarity_M, 'mol/L', 2)}`] : [];
  });
  return `Run against delivered volume: liquids poured, bands in the bed, effluent. ${peaks.length > 0 ? `${peaks.join('; ')}.` : 'No metal leaves.'} Receivers: ${receivers.join(', ')}.`;
}

/** mol/L below which nothing is said to leave. */
const TRACE = 1e-6;

function peakOf({ rows, stride, count }: Plan, component: number) {
  let best = 0;
  for (let frame = 1; frame < count; frame++) if (rows[frame * stride + FRAME.parts + component] > rows[best * stride + FRAME.parts + component]) best = frame;
  const molarity_M = rows[best * stride + FRAME.parts + component] ?? 0;
  return molarity_M > TRACE ? { delivered_mL: rows[best * stride + FRAME.delivered], molarity_M } : undefined;
}
