// The faults a scenario or an instructor can impose on a run, in the order of the eight groups shown on the fault board.

export const FAULT_KINDS = [
  'dried-bed',
  'channel',
  'crater',
  'loose-top',
  'tilted-bed',
  'deep-head',
  'water-rinse',
  'overload',
  'interfering-ions',
  'weak-acid',
  'fumed-acid',
  'short-conditioning',
  'wrong-bottle',
  'short-bed',
  'coarse-beads',
  'fines',
  'wide-bead-range',
  'uneven-packing',
  'swelling',
  'load-volume',
  'receiver-early',
  'receiver-late',
  'stopped-early',
  'fast-flow',
  'spill',
  'no-recondition',
  'carry-over',
] as const;

export type FaultKind = (typeof FAULT_KINDS)[number];
