import { classPlan, SPARE, STOCK_ACID_M, stockFor, type Supply, type WasteStream } from '../class/index.ts';
import { sampleLiquids } from '../input/index.ts';
import { bedVolumeOf } from '../terms/geometry.ts';
import { IONS, type IonId } from '../terms/ions.ts';
import type { Liquid, Scenario } from '../terms/types.ts';
import { groupUse } from './group-use.ts';
import { type Salt, saltOf } from './salts.ts';

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
  /** Metals in it: g of the metal, and of its usual chloride. */
  readonly metals: readonly { readonly ion: IonId; readonly molarity_M: number; readonly metal_g: number; readonly salt?: Salt & { readonly g: number } }[];
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
  /** Stock acid for all bottles, mL. */
  readonly stock_mL: number;
  readonly bottles: readonly BottleAmount[];
  /** For the work-up. */
  readonly supplies: readonly Supply[];
  readonly waste: readonly WasteStream[];
  readonly note: string;
}

/** What may be asked of a class other than its scenario says. */
export interface Asked {
  readonly groups?: number;
  readonly aliquots?: number;
  readonly columns?: number;
}

/** The card for a class that works by the procedure of the scenario, from bottles that hold what their labels say. */
export function setupCard(scenario: Scenario, asked: Asked = {}): SetupCard {
  const { values, procedure, liquids } = scenario;
  const { groups = values['class.groups'], columns = values['class.columns'] } = asked;
  const wanted = asked.aliquots ?? values['class.aliquots'];
  // A procedure may hold the whole day itself.
  const aliquots = Math.max(1, Math.round(wanted / Math.max(1, loadsIn(scenario))));
  const use = groupUse(scenario, procedure, aliquots, undefined);
  const { supplies, waste, note } = classPlan(groups, { ...use, bed_mL: use.bed_mL * columns });
  const resin_mL = bedVolumeOf(values);
  const samples = sampleLiquids(scenario);
  const bottles = Object.entries(liquids).map(([id, liquid]) => bottleOf(liquid, aliquots * pouredOf(scenario, id), groups, samples.includes(id)));
  return {
    groups,
    aliquots: wanted,
    columns,
    resin_mL,
    resinClass_mL: resin_mL * columns * groups * SPARE.other,
    stock_M: STOCK_ACID_M,
    bottles,
    stock_mL: bottles.reduce((sum, { stock_mL }) => sum + stock_mL, 0),
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
      .map(([ion, molarity_M]) => metalOf(ion, molarity_M, class_mL)),
  };
}

function metalOf(ion: IonId, molarity_M: number, class_mL: number): BottleAmount['metals'][number] {
  const moles = (class_mL / 1000) * molarity_M;
  const salt = saltOf(ion);
  return { ion, molarity_M, metal_g: moles * IONS[ion].molarMass, ...(salt ? { salt: { ...salt, g: moles * salt.molarMass } } : {}) };
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
