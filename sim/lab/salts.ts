import { IONS, type IonId } from '../terms/ions.ts';

// The chlorides that metals are usually weighed as.

/** g/mol; CRC Handbook, recalled. */
const CHLORINE = 35.453;
const WATER = 18.0153;

/** Water of crystallisation of the usual chloride; a metal that is not here has none that keeps its formula on the shelf. */
const WATERS: Partial<Readonly<Record<IonId, number>>> = { Co: 6, Ni: 6, Mn: 4, Cu: 2, Fe3: 6 };
const CHLORIDES = ['', '', '₂', '₃'];
const COUNTS = ['', '', '2', '3', '4', '5', '6'];

export interface Salt {
  readonly formula: string;
  /** Formula mass, g/mol. */
  readonly molarMass: number;
}

/** The usual chloride of a metal; undefined where there is none. */
export function saltOf(ion: IonId): Salt | undefined {
  const waters = WATERS[ion];
  if (waters === undefined) return undefined;
  const { symbol, charge, molarMass } = IONS[ion];
  const element = /^[A-Z][a-z]?/.exec(symbol)?.[0] ?? symbol;
  return { formula: `${element}Cl${CHLORIDES[charge]}·${COUNTS[waters]}H₂O`, molarMass: molarMass + charge * CHLORINE + waters * WATER };
}
