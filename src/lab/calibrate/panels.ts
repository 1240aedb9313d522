import { IONS } from '../../../sim/terms/ions.ts';
import type { Residual } from '../fit/calibrate.ts';

// Readings sorted into drawings, one drawing for each kind of quantity.

export interface Panel {
  readonly title: string;
  readonly unit: string;
  readonly readings: readonly Residual[];
  /** The reading is itself a volume delivered. */
  readonly isVolume: boolean;
}

export function panelsOf(readings: readonly Residual[]): Panel[] {
  const panels = new Map<string, { title: string; unit: string; isVolume: boolean; readings: Residual[] }>();
  for (const one of readings) {
    const kind = kindOf(one);
    const panel = panels.get(kind.title) ?? { ...kind, readings: [] };
    panel.readings.push(one);
    panels.set(kind.title, panel);
  }
  return [...panels.values()];
}

function kindOf({ quantity, solute }: Residual): Omit<Panel, 'readings'> {
  const isVolume = quantity === 'first colour' || quantity === 'last colour';
  switch (quantity) {
    case 'flow':
      return { title: 'Flow', unit: 'mL/min', isVolume };
    case 'bed':
      return { title: 'Length of the bed', unit: 'cm', isVolume };
    case 'leading':
    case 'trailing':
      return { title: 'Edges of the band', unit: 'cm', isVolume };
    case 'first colour':
    case 'last colour':
      return { title: 'Coloured drops', unit: 'mL', isVolume };
    case 'fraction':
      return { title: solute === undefined || solute === 'HCl' ? 'HCl in fractions' : `${IONS[solute].name} in fractions`, unit: 'mmol', isVolume };
    case 'alkali':
      return { title: 'NaOH to neutralise fractions', unit: 'mL', isVolume };
  }
}
