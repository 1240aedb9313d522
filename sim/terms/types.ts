// Data that travels between the reader, the model, the runner and the page. House units: mL, cm, min, mol/L (= mmol/mL), mmol.
import type { FieldPath, Parameters } from './fields.ts';
import type { FaultKind } from './fault-kinds.ts';
import type { IonId } from './ions.ts';
import type { CoachLevel, Seeing } from './seeing.ts';

/** Something wrong in input: where, what was expected, what was given. Readers return all issues, never just the first. */
export interface Issue {
  readonly path: string;
  readonly expected: string;
  readonly received: string;
}

/** A bottle on the bench. */
export interface Liquid {
  readonly label: string;
  readonly HCl_M: number;
  /** mol/L of each metal. */
  readonly ions: Readonly<Partial<Record<IonId, number>>>;
}

/** Where a wait ends; exactly one key, `ion`, `edge` and `depth_cm` going together. */
export type Until =
  | { readonly time_min: number }
  | { readonly elapsed_min: number }
  | { readonly delivered_mL: number }
  | { readonly more_mL: number }
  | { readonly liquid_mm: number }
  | { readonly ion: IonId; readonly edge: 'leading' | 'trailing'; readonly depth_cm: number };

/** A pour is left out if the leading edge of this ion's band then stands so high above the bottom of the bed, or lower. */
export interface Unless {
  readonly ion: IonId;
  readonly above_bottom_mm: number;
}

/** When an action is taken: at a model time (min), at a delivered volume (mL), or at once after the one before. */
export interface When {
  readonly at_min?: number;
  readonly at_mL?: number;
}

export type Action = When &
  (
    | {
        readonly do: 'pour';
        readonly liquid: string;
        readonly volume_mL: number;
        readonly how?: 'wall' | 'bed';
        readonly hold_level?: boolean;
        readonly unless?: Unless;
      }
    | { readonly do: 'clamp'; readonly open_percent: number }
    | { readonly do: 'receiver'; readonly label: string }
    | { readonly do: 'wait'; readonly until: Until }
    | { readonly do: 'stir' }
    | { readonly do: 'refill-from-below'; readonly liquid: string; readonly volume_mL: number }
    | { readonly do: 'pack'; readonly resin_mL: number; readonly pour?: 'once' | 'spoonfuls'; readonly into?: 'liquid' | 'glass'; readonly tapped?: boolean }
    | { readonly do: 'top-up'; readonly resin_mL: number }
    | { readonly do: 'spill'; readonly share: number }
    | { readonly do: 'fault'; readonly fault: Fault }
  );

/** A fault imposed on the bed; severity 0 to 1, meaning per kind in `FAULTS`. */
export interface Fault {
  readonly kind: FaultKind;
  readonly severity?: number;
  /** Degrees round the bed, 0 at the front, for faults that have a side. */
  readonly side_deg?: number;
  /** Share of the depth affected from the top, 0 to 1. */
  readonly depth_share?: number;
}

export type Log = readonly Action[];

/** A scenario after reading: every parameter present, every reference resolved. */
export interface Scenario {
  readonly id: string;
  readonly title: string;
  readonly purpose: string;
  readonly notice: readonly string[];
  readonly sources: readonly string[];
  readonly ions: readonly IonId[];
  readonly liquids: Readonly<Record<string, Liquid>>;
  readonly values: Parameters;
  /** A user's own D_v tables, replacing the built-in curve: pairs of HCl mol/L and D_v. */
  readonly curves: Readonly<Partial<Record<IonId, readonly (readonly [number, number])[]>>>;
  readonly faults: readonly Fault[];
  readonly procedure: Log;
  /** The most that is shown before the run ends; left out for all. */
  readonly seeing?: Seeing;
  /** How the coach begins; left out for the reader's own choice. */
  readonly coach?: CoachLevel;
  readonly seed: number;
  /** There where numbers were fitted to a run of the user's own: what is said of them in the table no longer holds. */
  readonly fitted?: Fitted;
}

/** Numbers with the status "fitted": when, and between which values with 95 %. */
export type Fitted = Readonly<Partial<Record<FieldPath, { readonly date: string; readonly low: number; readonly high: number }>>>;

/** Amounts of every component, mmol. */
export type Amounts = Readonly<{ HCl_mmol: number } & Partial<Record<`${IonId}_mmol`, number>>>;

export type { FieldPath, IonId, Parameters };
