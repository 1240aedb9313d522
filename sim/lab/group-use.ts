import { isSample } from '../history/index.ts';
import { bedVolumeOf } from '../terms/geometry.ts';
import type { Log, Scenario } from '../terms/types.ts';
import { GROUP_EXAMPLE, type GroupUse } from '../class/index.ts';
import type { WorkUp } from '../report/index.ts';

// What one group uses, from the run and the work-up on the page; what is not known yet is taken from the scenario.

/** `aliquots`: how many times this log is gone through; each sample loaded in it is collected and worked up by itself. */
export function groupUse(scenario: Scenario, log: Log, aliquots: number, figures: WorkUp | undefined): GroupUse {
  const { values, liquids } = scenario;
  const strongest = Math.max(0, ...Object.values(liquids).map(({ HCl_M }) => HCl_M));
  const poured = (wanted: (HCl_M: number, holdsMetal: boolean) => boolean): number =>
    log.reduce((sum, action) => {
      if (action.do !== 'pour' && action.do !== 'refill-from-below') return sum;
      const liquid = liquids[action.liquid];
      const holdsMetal = Object.values(liquid?.ions ?? {}).some((molarity) => molarity > 0);
      return liquid && wanted(liquid.HCl_M, holdsMetal) ? sum + action.volume_mL : sum;
    }, 0);
  const first = figures?.titrations[0];
  const titrations = figures?.titrations.length || values['workup.titrations'];
  const loads = log.filter((action) => action.do === 'pour' && liquids[action.liquid] && isSample(liquids[action.liquid])).length;
  const collected = aliquots * Math.max(1, loads);
  const water_mL = aliquots * poured((HCl_M) => HCl_M <= strongest / 2);
  return {
    bed_mL: bedVolumeOf(values),
    acid_mL: aliquots * poured((HCl_M) => HCl_M > strongest / 2),
    acid_M: strongest,
    water_mL,
    sample_mL: aliquots * poured((_, holdsMetal) => holdsMetal),
    // A single titration takes the whole eluate, and nothing is left of it.
    flask_mL: titrations > 1 ? collected * values['workup.flask_mL'] : 0,
    portion_mL: titrations > 1 ? values['workup.portion_mL'] : water_mL / collected,
    titrations: collected * titrations,
    titre_mL: first?.titre.read_mL ?? values['workup.burette_mL'] * 0.7,
    EDTA_M: values['workup.EDTA_M'],
    rinse_mL: GROUP_EXAMPLE.rinse_mL,
    thiocyanate_g: values['workup.thiocyanate_g'],
    acetone_mL: values['workup.acetone_mL'],
    NaOH_M: values['bench.NaOH_M'],
    NaOH_mL: collected * (figures && figures.NaOH_mL > 0 ? figures.NaOH_mL : GROUP_EXAMPLE.NaOH_mL),
    acetic_mL: collected * (figures && first ? titrations * first.acetic_mL : GROUP_EXAMPLE.acetic_mL),
  };
}
