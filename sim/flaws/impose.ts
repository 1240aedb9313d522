import { AT, type Bed, type Column } from '../column/index.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { carryOver } from './carry-over.ts';
import { channel } from './channel.ts';
import { crater } from './crater.ts';
import { driedBed } from './dried.ts';
import { fines } from './fines.ts';
import { FAULT_KINDS, type FaultKind } from '../terms/fault-kinds.ts';
import { looseTop } from './loose.ts';
import { swelling } from './swelling.ts';
import { tilt } from './tilt.ts';
import { unevenPacking } from './uneven.ts';

type BedFault = (bed: Bed, column: Column, fault: Fault) => Issue | undefined;

/** Faults that are a state of the bed: they can be imposed at any time. */
const BED_FAULTS: Readonly<Partial<Record<FaultKind, BedFault>>> = {
  'dried-bed': driedBed,
  channel,
  crater,
  'loose-top': looseTop,
  'tilted-bed': tilt,
  fines,
  'uneven-packing': unevenPacking,
  swelling,
  'carry-over': carryOver,
};

/** Faults that multiply what is there: each once, until the bed is stirred up and has settled again. */
const ONCE: ReadonlySet<FaultKind> = new Set(['channel', 'loose-top', 'tilted-bed', 'fines', 'uneven-packing', 'carry-over']);

/** Imposes a fault on the bed now; refused if it is one of the bottles, the packing or the procedure. Severity 0 changes nothing. */
export function impose(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  const act = BED_FAULTS[fault.kind];
  if (!act) return { path: 'fault.kind', expected: 'a fault of the bed; the others are set before the first action', received: fault.kind };
  if (fault.severity === 0) return undefined;
  const mark = ONCE.has(fault.kind) ? 1 << FAULT_KINDS.indexOf(fault.kind) : 0;
  const marks = bed.scalar[AT.imposed];
  if ((marks & mark) !== 0)
    return { path: 'fault.kind', expected: 'each fault of its kind once, until the bed is stirred up', received: `${fault.kind} again` };
  const refused = act(bed, column, fault);
  if (!refused) bed.scalar[AT.imposed] = marks | mark;
  return refused;
}

export function isBedFault(kind: FaultKind): boolean {
  return BED_FAULTS[kind] !== undefined;
}
