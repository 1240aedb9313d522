import type { Limit } from './limits.ts';

// One row per number that the page asks for and that stands in no scenario and no log: predictions, wishes, plans, what-ifs.
// Numbers of actions are in limits.ts, parameters of a scenario in fields.ts. All ranges here are choices.

export const CONTROLS = {
  /** Its largest value is how far ahead of the present a volume can be predicted. */
  'prediction.volume_mL': { label: 'delivered volume', unit: 'mL', min: 0, max: 20, step: 0.1 },
  /** Ranges of the limits of a task (task.* in fields.ts), said again here: that table, with all its words, comes later than the bench. */
  'wish.recovered_percent': { label: 'recovered, at least', unit: '%', min: 50, max: 100, step: 0.1 },
  'wish.carried_percent': { label: 'of any other ion, at most', unit: '%', min: 0, max: 50, step: 0.1 },
  'wish.acid_mmol': { label: 'acid, at most', unit: 'mmol', min: 0, max: 1000, step: 1 },
  'bed.depth_cm': { label: 'depth in bed', unit: 'cm', min: 0, max: 150, step: 0.1 },
  'fault.depth_cm': { label: 'from the top down to', unit: 'cm', min: 0, above: true, max: 150, step: 0.1 },
  'what-if.later_mL': { label: 'receiver changed later by (earlier: below 0)', unit: 'mL', min: -8, max: 4, step: 0.5 },
  'what-if.nickel_percent': { label: 'nickel left in the bed, of what was loaded', unit: '%', min: 0, max: 20, step: 0.5 },
  'plan.condition_min': { label: 'condition', unit: 'min', min: 0, max: 600, step: 0.5 },
  'plan.load_min': { label: 'load', unit: 'min', min: 0, max: 600, step: 0.5 },
  'plan.wash_min': { label: 'wash', unit: 'min', min: 0, max: 600, step: 0.5 },
  'plan.strip_min': { label: 'release', unit: 'min', min: 0, max: 600, step: 0.5 },
  /** Thousands are for the command line. */
  'class.groups': { label: 'groups', unit: '', min: 2, max: 10_000, step: 10, integer: true },
  'hand-out.tries': { label: 'tries', unit: '', min: 1, max: 20, integer: true },
} as const satisfies Record<string, Limit>;
