import { IONS } from '../../../sim/terms/ions.ts';
import type { Residual } from '../fit/calibrate.ts';

// Readings sorted into drawings, one drawing for each kind of quantity.

export interface Panel {
  readonly title: string;
  readonly unit: string;
  readonly readings: readonly Residual[];
  /** Title of the axis where readings do not belong to a volume delivered and stand side by side. */
  readonly beside?: string;
}

export function panelsOf(readings: readonly Residual[]): Panel[] {
  const panels = new Map<string, Omit<Panel, 'readings'> & { readings: Residual[] }>();
  for (const one of readings) {
    const kind = kindOf(one);
    const panel = panels.get(kind.title) ?? { ...kind, readings: [] };
    panel.readings.push(one);
    panels.set(kind.title, panel);
  }
  return [...panels.values()];
}

function kindOf({ quantity, solute }: Residual): Omit<Panel, 'readings'> {
  switch (quantity) {
    case 'flow test':
      return { title: 'Flow test before the run', unit: 'min', beside: 'time' };
    case 'flow':
      return { title: 'Flow', unit: 'mL/min' };
    case 'bed':
      return { title: 'Length of the bed', unit: 'cm' };
    case 'leading':
    case 'trailing':
      return { title: 'Edges of the band', unit: 'cm' };
    case 'first colour':
    case 'last colour':
      return { title: 'Coloured drops', unit: 'mL', beside: 'delivered' };
    case 'fraction':
      return { title: solute === undefined || solute === 'HCl' ? 'HCl in fractions' : `${IONS[solute].name} in fractions`, unit: 'mmol' };
    case 'alkali':
      return { title: 'NaOH to neutralise fractions', unit: 'mL' };
  }
}
