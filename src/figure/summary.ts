import { receiverName } from '../ui/text/receiver-words.ts';
import { IONS } from '../../sim/terms/ions.ts';
import { highestLeaving, type Plan } from '../../sim/history/index.ts';
import { spoken } from '../ui/text/format.ts';
import { receivings } from './rows/stretches.ts';

/** mol/L below which nothing is said to leave. */
const TRACE = 1e-6;

/** The whole run in a few sentences, for those who hear the figure. */
export function spokenRun(plan: Plan): string {
  const receivers = receivings(plan).map(({ label, from_mL, to_mL }) => `${receiverName(label)} from ${spoken(from_mL, 'mL')} to ${spoken(to_mL, 'mL')}`);
  const peaks = plan.ions.flatMap((ion) => {
    const { delivered_mL, molarity_M } = highestLeaving(plan, ion);
    return molarity_M > TRACE ? [`${IONS[ion].name} leaves most strongly at ${spoken(delivered_mL, 'mL')}, ${spoken(molarity_M, 'mol/L', 2)}`] : [];
  });
  return `Run against delivered volume: liquids poured, bands in the bed, effluent. ${peaks.length > 0 ? `${peaks.join('; ')}.` : 'No metal leaves.'} Receivers: ${receivers.join(', ')}.`;
}
