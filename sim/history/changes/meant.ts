import { targetOf } from '../../input/index.ts';
import { IONS } from '../../terms/ions.ts';
import type { IonId, Log, Scenario } from '../../terms/types.ts';
import { isSample, isWeaker } from './progress.ts';

// Which receivers a scenario's procedure means for an ion: what a run keeps goes by their labels.

/**
 * Labels of the receivers that the procedure puts under the tip for this ion, one a sample at most; empty where it puts none. With
 * several weaker eluents after one sample only a label that names the ion tells which release is its own.
 */
export function receiversFor(scenario: Scenario, ion: IonId): string[] {
  const labels = aliquotsOf(scenario).flatMap(({ after, sample_M }) => {
    const released = after.filter((action) => action.do === 'pour' && isWeaker(scenario.liquids[action.liquid], sample_M));
    const eluents = new Set(released.map((action) => (action.do === 'pour' ? action.liquid : '')));
    if (eluents.size > 1) return naming(after, ion);
    const label = ion === targetOf(scenario) ? atRelease(after, after.indexOf(released[0])) : undefined;
    return label === undefined ? [] : [label];
  });
  return [...new Set(labels)];
}

/** What follows each sample up to the next one. */
function aliquotsOf({ liquids, procedure }: Scenario): { readonly after: Log; readonly sample_M: number }[] {
  const samples = procedure.flatMap((action, i) =>
    action.do === 'pour' && liquids[action.liquid] && isSample(liquids[action.liquid]) ? [{ at: i, sample_M: liquids[action.liquid].HCl_M }] : [],
  );
  return samples.map(({ at, sample_M }, i) => ({ after: procedure.slice(at + 1, samples[i + 1]?.at), sample_M }));
}

/** The receiver put there together with the release, else the first one after it, else the last one before. */
function atRelease(after: Log, release: number): string | undefined {
  if (release < 0) return undefined;
  const washed = after.findLastIndex((action, i) => i < release && action.do === 'pour');
  const labels = (part: Log): string[] => part.flatMap((action) => (action.do === 'receiver' ? [action.label] : []));
  return labels(after.slice(washed + 1, release)).at(-1) ?? labels(after.slice(release))[0] ?? labels(after.slice(0, release)).at(-1);
}

function naming(after: Log, ion: IonId): string[] {
  const metal = IONS[ion].name.replace(/\(.*/, '').toLowerCase();
  return after.flatMap((action) => (action.do === 'receiver' && action.label.toLowerCase().includes(metal) ? [action.label] : []));
}
