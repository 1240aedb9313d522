import { classPlan, SPARE, STOCK_ACID_M, stockFor, type Supply, type WasteStream } from '../class/index.ts';
import { sampleLiquids } from '../input/index.ts';
import { bedVolumeOf } from '../terms/geometry.ts';
import { IONS, type IonId } from '../terms/ions.ts';
import type { Liquid, Scenario } from '../terms/types.ts';
import { groupUse } from './group-use.ts';

// What the stockroom sets out for a class: columns, resin, bottles with how to make them, waste. Amounts follow from the procedure.

export interface BottleAmount {
  readonly label: string;
  readonly HCl_M: number;
  /** What one group pours in the whole period, mL. */
  readonly each_mL: number;
  /** For the class, with spare, mL. */
  readonly class_mL: number;
  /** Stock acid in that, mL; 0 for water. */
  readonly stock_mL: number;
  /** Metals in it; g of the metal, whatever its salt. */
  readonly metals: readonly { readonly ion: IonId; readonly molarity_M: number; readonly metal_g: number }[];
}

export interface SetupCard {
  readonly groups: number;
  readonly aliquots: number;
  readonly columns: number;
  /** Settled resin of one column, with the liquid between the beads, mL. */
  readonly resin_mL: number;
  /** For all columns of the class, with spare, mL. */
  readonly resinClass_mL: number;
  readonly stock_M: number;
  readonly bottles: readonly BottleAmount[];
  /** For the work-up. */
  readonly supplies: readonly Supply[];
  readonly waste: readonly WasteStream[];
  readonly note: string;
}

/** The card for this many groups, each running its aliquots by the procedure of the scenario. */
export function setupCard(scenario: Scenario, groups: number): SetupCard {
  const { values, procedure, liquids } = scenario;
  const columns = values['class.columns'];
  // A procedure may hold the whole day itself.
  const aliquots = Math.max(1, Math.round(values['class.aliquots'] / Math.max(1, loadsIn(scenario))));
  const use = groupUse(scenario, procedure, aliquots, undefined);
  const { supplies, waste, note } = classPlan(groups, { ...use, bed_mL: use.bed_mL * columns });
  const resin_mL = bedVolumeOf(values);
  return {
    groups,
    aliquots: values['class.aliquots'],
    columns,
    resin_mL,
    resinClass_mL: resin_mL * columns * groups * SPARE.other,
    stock_M: STOCK_ACID_M,
    bottles: Object.entries(liquids).map(([id, liquid]) => bottleOf(liquid, aliquots * pouredOf(scenario, id), groups, sampleLiquids(scenario).includes(id))),
    supplies: supplies.filter(({ name }) => !name.includes('HCl')),
    waste,
    note,
  };
}

function bottleOf({ label, HCl_M, ions }: Liquid, each_mL: number, groups: number, isSample: boolean): BottleAmount {
  const class_mL = each_mL * groups * (HCl_M > 0 && !isSample ? SPARE.acid : SPARE.other);
  return {
    label,
    HCl_M,
    each_mL,
    class_mL,
    stock_mL: stockFor(class_mL, HCl_M, STOCK_ACID_M),
    metals: (Object.entries(ions) as [IonId, number][])
      .filter(([, molarity_M]) => molarity_M > 0)
      .map(([ion, molarity_M]) => ({ ion, molarity_M, metal_g: (class_mL / 1000) * molarity_M * IONS[ion].molarMass })),
  };
}

/** mL of a bottle that the procedure uses once through. */
function pouredOf({ procedure }: Scenario, id: string): number {
  return procedure.reduce(
    (sum, action) => ((action.do === 'pour' || action.do === 'refill-from-below') && action.liquid === id ? sum + action.volume_mL : sum),
    0,
  );
}

function loadsIn(scenario: Scenario): number {
  const samples = sampleLiquids(scenario);
  return scenario.procedure.filter((action) => action.do === 'pour' && samples.includes(action.liquid)).length;
}
