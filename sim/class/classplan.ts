import { MOLAR_MASS, NEUTRALISATION } from '../flask/index.ts';

// What to prepare for a class and what waste it makes, from what one group uses.

/** What one group uses. */
export interface GroupUse {
  readonly bed_mL: number;
  /** Strong acid for conditioning, load and wash, mL. */
  readonly acid_mL: number;
  readonly acid_M: number;
  readonly water_mL: number;
  readonly sample_mL: number;
  readonly flask_mL: number;
  readonly portion_mL: number;
  readonly titrations: number;
  readonly titre_mL: number;
  readonly EDTA_M: number;
  /** EDTA to rinse and fill the burette. */
  readonly rinse_mL: number;
  readonly thiocyanate_g: number;
  readonly acetone_mL: number;
  readonly NaOH_M: number;
  /** Alkali per group, mL. */
  readonly NaOH_mL: number;
  readonly acetic_mL: number;
}

/** Example group on a 10 mL bed: 20 mL to condition, 1 mL load, 30 mL wash; assumed, meant to be changed. */
export const GROUP_EXAMPLE: GroupUse = {
  bed_mL: 10,
  acid_mL: 51,
  acid_M: 9,
  water_mL: 50,
  sample_mL: 1,
  flask_mL: 100,
  portion_mL: 25,
  titrations: 3,
  titre_mL: 12.5,
  EDTA_M: 0.01,
  rinse_mL: 25,
  thiocyanate_g: 1,
  acetone_mL: 25,
  NaOH_M: 6,
  NaOH_mL: 12.5,
  acetic_mL: 4.2,
};

/** Spare factors. A quarter more of the acid, a fifth more of the rest; common practice, no source. */
export const SPARE = { acid: 1.25, other: 1.2 };
/** mol/L of 37 % hydrochloric acid as labelled; density tables give 12.0. */
export const STOCK_ACID_M = 12.1;
/** g of moist resin per mL of bed; manufacturer data, recalled. */
const RESIN_G_PER_ML = [0.7, 0.75] as const;

export interface Supply {
  readonly name: string;
  readonly amount: number;
  readonly unit: string;
  readonly how: string;
}

export interface WasteStream {
  readonly stream: 'A' | 'B' | 'C' | 'D' | 'E';
  readonly what: string;
  /** mL per class; undefined for solids. */
  readonly volume_mL: number | undefined;
  readonly rule: string;
}

export interface ClassPlan {
  readonly groups: number;
  readonly supplies: readonly Supply[];
  readonly waste: readonly WasteStream[];
  readonly note: string;
}

export function classPlan(groups: number, use: GroupUse = GROUP_EXAMPLE, spare = SPARE, stock_M = STOCK_ACID_M): ClassPlan {
  return { groups, supplies: suppliesOf(groups, use, spare, stock_M), waste: wasteOf(groups, use), note: NOTE };
}

const NOTE =
  'Local codes, the safety data sheets of your products, the chemical hygiene plan and a qualified safety officer decide. This is arithmetic, not permission.';

/** mL of stock for a volume of weaker acid. */
export function stockFor(volume_mL: number, molarity: number, stock_M: number): number {
  return (volume_mL * molarity) / stock_M;
}

function suppliesOf(groups: number, use: GroupUse, spare: typeof SPARE, stock_M: number): Supply[] {
  const acid = groups * use.acid_mL * spare.acid;
  const edta = groups * (use.titrations * use.titre_mL + use.rinse_mL) * spare.other;
  const stock = stockFor(acid, use.acid_M, stock_M);
  const supply = (name: string, each: number, unit: string, how: string): Supply => ({ name, amount: groups * each * spare.other, unit, how });
  return [
    {
      name: `${Number(use.acid_M.toPrecision(3))} mol/L HCl`,
      amount: acid,
      unit: 'mL',
      how: 'in the hood; add acid to water, never the other way; cool in ice above half a litre',
    },
    {
      name: `${stock_M} mol/L HCl (37 %)`,
      amount: stock,
      unit: 'mL',
      how: `for the acid above; add to ${(acid - stock).toFixed(0)} mL of water, then to volume`,
    },
    {
      name: 'moist resin, at least',
      amount: groups * use.bed_mL * RESIN_G_PER_ML[0],
      unit: 'g',
      how: `up to ${(groups * use.bed_mL * RESIN_G_PER_ML[1]).toFixed(0)} g; reused`,
    },
    { name: `${use.EDTA_M} mol/L EDTA`, amount: edta, unit: 'mL', how: 'keeps for months in plastic' },
    { name: 'Na2H2EDTA·2H2O', amount: (edta / 1000) * use.EDTA_M * MOLAR_MASS.Na2H2Y, unit: 'g', how: 'for the EDTA above' },
    supply('ammonium thiocyanate', use.titrations * use.thiocyanate_g, 'g', 'dry and dark'),
    supply('acetone', use.titrations * use.acetone_mL, 'mL', 'away from flames and from the acid'),
    supply(`${use.NaOH_M} mol/L NaOH`, use.NaOH_mL, 'mL', 'in plastic, fresh: it takes up carbon dioxide'),
    supply('1 mol/L acetic acid', use.acetic_mL, 'mL', ''),
    {
      name: `${use.NaOH_M} mol/L NaOH for waste A`,
      amount: groups * alkaliFor(use),
      unit: 'mL',
      how: 'only if A is neutralised here instead of shipped as acid',
    },
  ];
}

/** mL of alkali that neutralise the strong acid of one group. */
function alkaliFor({ acid_mL, acid_M, NaOH_M }: GroupUse): number {
  return (acid_mL * acid_M) / NaOH_M;
}

function wasteOf(groups: number, use: GroupUse): WasteStream[] {
  const acid = groups * use.acid_mL;
  const acid_mmol = acid * use.acid_M;
  const alkali = groups * alkaliFor(use);
  const kJ = (acid_mmol * NEUTRALISATION.value) / 1000;
  const titrated = groups * use.titrations * (use.portion_mL + use.acetone_mL + use.titre_mL);
  const surplus = groups * Math.max(0, use.flask_mL - use.titrations * use.portion_mL);
  return [
    {
      stream: 'A',
      what: surplus > 0 ? 'strong acid with nickel, and surplus cobalt' : 'strong acid with nickel',
      volume_mL: acid + surplus,
      rule: `never any thiocyanate; ship as acid, or dilute and neutralise in ice: ${alkali.toFixed(0)} mL of ${use.NaOH_M} mol/L NaOH, ${kJ.toFixed(0)} kJ`,
    },
    { stream: 'B', what: 'titrated flasks: acetone, cobalt-EDTA, thiocyanate', volume_mL: titrated, rule: 'flammable, neutral; never add acid or bleach' },
    { stream: 'C', what: 'resin and tips', volume_mL: undefined, rule: 'rinsed into A, then solid waste' },
    { stream: 'D', what: 'plain acetone', volume_mL: 0, rule: 'only what was not used' },
    { stream: 'E', what: 'broken glass', volume_mL: undefined, rule: 'rinsed, in its own box' },
  ];
}
