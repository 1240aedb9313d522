// Activity of the acid, chloro-complexes, uptake by the resin, and how a load lowers it. Other rooms import from here.
export { AZEOTROPE_M, density, invasion } from './acid.ts';
export { type ComplexSpecies, speciation, species } from './complexes.ts';
export { chlorideLeft, loadPull, saltOf } from './loading.ts';
export { bestParting, distributionOf, isHeld, type Parting, passageOf, resolutionOf } from './passage.ts';
export { liquidTable, resinFrom, shareTable, TABLE_STEPS, tableIndex, tableValue, uptakeCurve, type UptakeTable, uptakeTable } from './uptake.ts';
