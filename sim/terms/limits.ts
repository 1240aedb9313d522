// One row per number of a bench action or a liquid. The reader of logs and scenarios, the schema and the page's controls all
// take range and unit from here; parameters of a scenario are in fields.ts.

export interface Limit {
  readonly label: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** The smallest value itself is not allowed. */
  readonly above?: true;
  readonly integer?: true;
  /** What an arrow key or a slider changes it by; 1 if left out. */
  readonly step?: number;
}

/** Longest run, min: about a week. */
export const RUN_MAX_MIN = 10_000;
/** Largest single volume, mL. */
export const POUR_MAX = 1000;

export const LIMITS = {
  /** About 38 % by mass, the strongest acid that is sold. */
  'liquid.HCl_M': { label: 'HCl', unit: 'mol/L', min: 0, max: 12.5, step: 0.1 },
  /** Near the solubility of the chlorides. Common practice, no source. */
  'liquid.ion_M': { label: 'metal', unit: 'mol/L', min: 0, max: 3, step: 0.01 },
  'pour.volume_mL': { label: 'volume', unit: 'mL', min: 0, above: true, max: POUR_MAX, step: 0.1 },
  /** As high as the tallest tube. */
  'unless.above_bottom_mm': { label: 'leading edge above the bottom', unit: 'mm', min: 0, max: 2000, step: 1 },
  'clamp.open_percent': { label: 'open', unit: '%', min: 0, max: 100, step: 5 },
  'wait.time_min': { label: 'time', unit: 'min', min: 0, max: RUN_MAX_MIN, step: 1 },
  'wait.volume_mL': { label: 'volume', unit: 'mL', min: 0, max: 10_000, step: 0.5 },
  /** As high as the tallest tube. */
  'wait.liquid_mm': { label: 'above the bed', unit: 'mm', min: 0, max: 2000, step: 1 },
  'wait.depth_cm': { label: 'depth in bed', unit: 'cm', min: 0, max: 150, step: 0.5 },
  'refill-from-below.volume_mL': { label: 'volume', unit: 'mL', min: 0, above: true, max: POUR_MAX, step: 0.5 },
  'pack.resin_mL': { label: 'settled resin', unit: 'mL', min: 0, above: true, max: POUR_MAX, step: 0.1 },
  'top-up.resin_mL': { label: 'resin', unit: 'mL', min: 0, above: true, max: POUR_MAX, step: 0.1 },
  'spill.share': { label: 'share spilled', unit: '', min: 0, above: true, max: 1, step: 0.05 },
  'work-up.rinses': { label: 'rinses', unit: '', min: 0, max: 10, integer: true },
  'work-up.rinse_mL': { label: 'water for one rinse', unit: 'mL', min: 0, above: true, max: 50, step: 0.5 },
  'work-up.make_up_mL': { label: 'volumetric flask', unit: 'mL', min: 0, above: true, max: 2000, step: 1 },
  'work-up.portion_mL': { label: 'pipette', unit: 'mL', min: 0, above: true, max: 100, step: 0.5 },
  'work-up.drops': { label: 'amount', unit: 'drops', min: 1, max: 2000, integer: true },
  /** Largest titration flask. */
  'work-up.mL': { label: 'amount', unit: 'mL', min: 0, above: true, max: 500, step: 0.1 },
  'work-up.g': { label: 'amount', unit: 'g', min: 0, above: true, max: 50, step: 0.1 },
  'work-up.pH': { label: 'pH to reach', unit: '', min: 0, max: 14, step: 0.1 },
  'work-up.time_min': { label: 'time', unit: 'min', min: 0, above: true, max: 600, step: 1 },
  'fault.severity': { label: 'severity', unit: '', min: 0, max: 1, step: 0.05 },
  'fault.side_deg': { label: 'from the front, round by the left', unit: '°', min: 0, max: 360, step: 15 },
  'fault.depth_share': { label: 'share of the depth', unit: '', min: 0, max: 1, step: 0.05 },
} as const satisfies Record<string, Limit>;
