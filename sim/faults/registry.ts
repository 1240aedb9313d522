import type { FaultKind } from '../terms/fault-kinds.ts';
import type { FaultEntry } from './entry.ts';
import { ACID_FAULTS } from './rows-acid.ts';
import { BED_FAULTS } from './rows-bed.ts';
import { HANDS_FAULTS } from './rows-hands.ts';

// One row per fault: what the fault board, the manual and the tests say about it.

export const FAULT_GROUPS = {
  1: 'dried bed',
  2: 'channel',
  3: 'top of the bed',
  4: 'head mixing',
  5: 'overload and company',
  6: 'wrong acid',
  7: 'wrong bed',
  8: 'wrong hands',
} as const;

export const FAULTS: Readonly<Record<FaultKind, FaultEntry>> = { ...BED_FAULTS, ...ACID_FAULTS, ...HANDS_FAULTS };
