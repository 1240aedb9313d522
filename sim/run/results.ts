// The figures of a run, as one plain object: what the runner prints and the page shows.
import { AT, bandOf, bedLengthOf, inTip, ledgerError, onBed } from '../column/index.ts';
import { receiverLabels, type ReceiverResult, type Results } from '../history/index.ts';
import type { Run } from './run.ts';
import type { Amounts } from '../terms/types.ts';

/** Figures of the run as it stands. Amounts in mmol, volumes in mL, depths in cm as the ruler reads them, time in min. */
export function resultsOf(run: Run): Results {
  const { bed, column, scenario } = run;
  const s = bed.scalar;
  const volume = column.section * column.length;
  return {
    scenario: scenario.id,
    seed: scenario.seed,
    bed: { volume_mL: volume, holdup_mL: volume * column.porosity, plates: bed.plates, lanes: bed.lanes },
    loaded: amounts(run, (k) => bed.pouredAmount[k]),
    receivers: receiverLabels(run.events).map((label, slot) => receiver(run, label, slot)),
    onBed: amounts(run, (k) => onBed(bed, column, k)),
    inTip: amounts(run, (k) => inTip(bed, column, k)),
    inHead: amounts(run, (k) => bed.head[k]),
    spilled: amounts(run, (k) => bed.spilledAmount[k]),
    ledger: { worstRelativeError: Math.max(s[AT.worstLedger], ledgerError(bed, column)) },
    bands: Object.fromEntries(column.ions.map((ion) => [ion, bandOf(bed, column, ion, bedLengthOf(bed, column)) ?? null])),
    time_min: s[AT.time],
    delivered_mL: s[AT.delivered],
    lowestLiquid_mm: (s[AT.lowestHead] / column.section) * 10,
    refused: run.events.flatMap(({ entry, refused }) => (refused ? [{ entry, ...refused }] : [])),
  };
}

function amounts(run: Run, of: (component: number) => number): Amounts {
  return Object.fromEntries([['HCl_mmol', of(0)], ...run.column.ions.map((ion, i) => [`${ion}_mmol`, of(i + 1)])]);
}

function receiver(run: Run, label: string, slot: number): ReceiverResult {
  const { bed } = run;
  const at = slot * (bed.components + 1);
  return { label, volume_mL: bed.receivers[at], ...amounts(run, (k) => bed.receivers[at + 1 + k]) } as ReceiverResult;
}
