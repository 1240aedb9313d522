import { AT, type Bed, type Column } from '../column/index.ts';
import { isDrained } from '../flow/index.ts';
import { dryOut } from './cracks.ts';
import { dryTop } from './evaporation.ts';
import { dissolveGas } from './gas.ts';
import { swell } from './swell.ts';

/** What changes slowly in a damaged bed, for the last `time` min: water that dries off, minutes dry, gas, shrinkage, the clogged support. */
export function age(bed: Bed, column: Column, time: number): void {
  const s = bed.scalar;
  if (s[AT.clogPerMl] > 0) s[AT.supportClog] += s[AT.clogPerMl] * s[AT.flow] * time;
  if (s[AT.headVolume] <= 0 && s[AT.portions] > 0) dryTop(bed, column, time);
  if (s[AT.uneven] > 0) {
    if (s[AT.headVolume] <= 0 && isDrained(bed)) dryOut(bed, column, time);
    else dissolveGas(bed, column, time);
  }
  if (s[AT.shrinkage] > 0) swell(bed, column);
}
