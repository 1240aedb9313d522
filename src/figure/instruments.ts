// What takes an instrument to see: bands in colour, acid fronts, curves of the effluent, windows, losses, and the handles on them.
// A run seen by eye needs none of it, so it is loaded on its own.
export { depthWords } from './depth-words.ts';
export { placedHandles, stems } from './handles.ts';
export { readPlace } from './cursor/read-out.ts';
export { legend } from './rows/legend.ts';
export { lossMarks, lossWishes } from './rows/losses.ts';
export { effluentRow, effluentWords } from './rows/row-effluent.ts';
export { startBand, verdictLine, windowBand, uprightsOf, windowWishes } from './rows/targets.ts';
export { acidFronts } from './streaks/fronts.ts';
export { measuredFor } from './streaks/measured.ts';
export { StreakImage } from './streaks/streak-image.ts';
