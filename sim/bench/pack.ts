// Resin into an empty tube, a portion at a time. How it is poured decides level, gaps and unevenness through states the bed has anyway:
// porosity, resistance by lane and depth, gas, the suction at which air enters, a loose top. Shares and factors here are estimates.
import { amountOf, AT, type Bed, bedLengthOf, type Column, kozenyCarman, lanesOf, restingAcid } from '../column/index.ts';
import { stillBeside, trappedGas } from '../flow/index.ts';
import { renew, settlingTime } from '../packing/index.ts';
import { beadOf } from '../terms/geometry.ts';
import type { Action, Issue } from '../terms/types.ts';

type Packing = Extract<Action, { do: 'pack' }>;

/** Porosity that a bed has over a tapped one if it is not tapped: random loose 0.40 to 0.42 against 0.38 (recalled). */
const LOOSER = 0.03;
/** Settled resin in one spoonful, mL; spread between lanes over that of one pour; resistance of a seam, where the fines of a spoonful end up. */
const SPOONFUL_ML = 1;
const SPOON_SPREAD = 2;
const SEAM = 1.3;
/** Suction at which air enters beside glass that was dry, over that of a bed settled in liquid. */
const DRY_ENTRY = 0.5;
/** Top that stays loose without tapping, cm. */
const LOOSE_TOP_CM = 0.5;

/** Pours a slurry of `resin_mL` settled resin in as much liquid again. */
export function pack(bed: Bed, column: Column, action: Packing): Issue | undefined {
  const s = bed.scalar;
  if (s[AT.clampOpen] > 0) return { path: 'do', expected: 'the clamp shut before resin is poured', received: `${(100 * s[AT.clampOpen]).toFixed(0)} % open` };
  const before = liquidIn(bed);
  const spoons = action.pour === 'spoonfuls' ? Math.ceil(action.resin_mL / SPOONFUL_ML) : 1;
  if (action.into === 'glass' && s[AT.portions] > 0) return { path: 'into', expected: 'liquid: the tube is wet once resin is in it', received: 'glass' };
  for (let n = 0; n < spoons; n++) layer(bed, column, action, action.resin_mL / spoons, n > 0);
  if (action.into === 'glass') trapAir(bed, column);
  s[AT.headVolume] += action.resin_mL;
  bed.head[0] += action.resin_mL * column.scenario.values['bench.start_HCl_M'];
  const tube = column.scenario.values['column.tube_cm'];
  const stands = bedLengthOf(bed, column) + s[AT.headVolume] / column.section;
  if (stands > tube) return { path: 'resin_mL', expected: `slurry that stands no higher than the tube, ${tube} cm`, received: `${stands.toFixed(1)} cm` };
  s[AT.poured] += liquidIn(bed) - before;
  s[AT.settledAt] = s[AT.time] + settlingTime((2 * action.resin_mL) / column.section, beadOf(column.scenario.values));
  if (action.tapped === false) s[AT.looseTop] = Math.max(s[AT.looseTop], LOOSE_TOP_CM);
  bed.pouredAmount[0] = amountOf(bed, column, 0);
  renew(bed, column);
  return undefined;
}

/** One portion on top of what is there: all cells hold as much resin as one another again, the upper ones the new resin. */
function layer(bed: Bed, column: Column, action: Packing, resin_mL: number, seam: boolean): void {
  const s = bed.scalar;
  const { plates } = bed;
  const had = s[AT.portions] > 0 ? bed.resinShare[0] : 0;
  const share = had + resin_mL / (column.section * column.length);
  const fresh = had > 0 ? Math.max(1, Math.round((plates * (share - had)) / share)) : plates;
  const porosity = column.porosity + (action.tapped === false ? LOOSER : 0);
  const drawn = unevenness(column, s[AT.portions], action.pour === 'spoonfuls');
  for (let i = 0; i < bed.lanes; i++) {
    const base = i * plates;
    const old = Array.from({ length: plates }, (_, j) => placeOf(bed, column, base + j));
    for (let j = 0; j < plates; j++) {
      const kept = old[Math.floor(((j - fresh) * plates) / Math.max(1, plates - fresh))];
      const uneven = drawn[i] * (seam && j === fresh - 1 ? SEAM : 1);
      setPlace(bed, column, base + j, share, j < fresh ? { porosity, uneven } : kept);
    }
  }
  s[AT.portions] += 1;
}

/** How a cell is packed, whatever resin it holds: porosity, and resistance over that of this porosity. */
interface Place {
  readonly porosity: number;
  readonly uneven: number;
}

function placeOf(bed: Bed, column: Column, at: number): Place {
  const lane = Math.floor(at / bed.plates);
  if (bed.height[at] <= 0) return { porosity: column.porosity, uneven: 1 };
  const porosity = bed.room[at] / (bed.height[at] * column.cellVolume[lane]);
  return { porosity, uneven: bed.packing[at] / bed.height[at] / easier(column, porosity) };
}

function setPlace(bed: Bed, column: Column, at: number, share: number, { porosity, uneven }: Place): void {
  const lane = Math.floor(at / bed.plates);
  const acid = column.scenario.values['bench.start_HCl_M'];
  bed.resinShare[at] = share;
  bed.height[at] = (share * (1 - column.porosity)) / (1 - porosity);
  bed.room[at] = bed.height[at] * column.cellVolume[lane] * porosity;
  bed.mobile[at] = bed.room[at];
  bed.packing[at] = bed.height[at] * easier(column, porosity) * uneven;
  bed.pore[at] = acid;
  bed.sorbed[at] = share * restingAcid(column, acid);
}

/** Resistance of a length of bed at this porosity over that of the scenario's (Kozeny-Carman). */
function easier(column: Column, porosity: number): number {
  return kozenyCarman(1, column.porosity, 1) / kozenyCarman(1, porosity, 1);
}

/** Resistance of each lane over that of the bed of the scenario: the first portion poured in one go is that bed, any other another draw. */
function unevenness(column: Column, portion: number, spooned: boolean): Float64Array {
  const { values, seed } = column.scenario;
  if (portion === 0 && !spooned) return new Float64Array(column.lanes.count).fill(1);
  const spread = values['bed.spread'] * (spooned ? SPOON_SPREAD : 1);
  const drawn = lanesOf({ ...values, 'bed.spread': spread }, seed + 1_000_003 * (portion + 1)).permeability;
  return drawn.map((permeability, i) => column.lanes.permeability[i] / permeability);
}

/** Resin poured onto dry glass closes round air. */
function trapAir(bed: Bed, column: Column): void {
  for (let at = 0; at < bed.room.length; at++) {
    const lane = Math.floor(at / bed.plates);
    bed.gas[at] = trappedGas(bed, column, lane, at % bed.plates, 1);
    const liquid = bed.room[at] * (1 - bed.gas[at]);
    bed.stillVolume[at] = stillBeside(bed.gas[at]) * liquid;
    bed.still[at] = bed.pore[at];
    bed.mobile[at] = liquid - bed.stillVolume[at];
  }
  for (let i = 0; i < bed.lanes; i++) bed.airEntry[i] *= DRY_ENTRY;
  bed.scalar[AT.uneven] = 1;
}

function liquidIn(bed: Bed): number {
  let volume = bed.scalar[AT.headVolume];
  for (let at = 0; at < bed.mobile.length; at++) volume += bed.mobile[at] + bed.stillVolume[at];
  return volume;
}
