import type { Pictogram } from './pictograms.ts';

// Hazards of the exercise and what is usually done about them. Common laboratory practice, no single source; it does
// not replace the safety data sheet, the local codes or the person in charge.

export interface Caution {
  readonly pictogram: Pictogram;
  readonly heading: string;
  readonly lines: readonly string[];
}

export const CAUTION_CLOSE =
  'Local codes, the safety data sheet of the product you use and the person in charge of the laboratory come first. This page is a rehearsal; it gives no permission.';

export const CAUTIONS = {
  acid: {
    pictogram: 'acid',
    heading: 'Strong hydrochloric acid burns skin, eyes and lungs',
    lines: [
      'Fume hood for every use of strong (about 6 mol/L and above) or concentrated acid; keep the beaker and the receiver covered.',
      'Goggles, and a face shield while pouring; gloves changed after a splash, coat, closed shoes.',
      'Dilute by adding acid to water, slowly, never water to acid. Carry it capped and in a tray.',
      'Splash in the eyes: eyewash for 15 minutes and call for help. On skin: water at once, clothing off.',
    ],
  },
  column: {
    pictogram: 'glass',
    heading: 'A glass column is held, never forced',
    lines: [
      'Hold the tube at two points and stand a tray beneath it.',
      'Never close the top of the tube or push liquid through with pressure.',
      'No force on the tip or the clamp: a broken tip empties the acid onto the bench.',
    ],
  },
  metals: {
    pictogram: 'hand',
    heading: 'Cobalt and nickel can sensitise for life',
    lines: [
      'No skin contact, no dust, no spray; wash hands before leaving.',
      'Anyone sensitised, asthmatic or pregnant asks the person in charge before starting.',
      'Nothing that contains cobalt or nickel goes down the sink: collect it as metal waste.',
    ],
  },
  alkali: {
    pictogram: 'eyes',
    heading: 'Strong alkali blinds as fast as acid, and neutralising is hot',
    lines: [
      'Goggles stay on while sodium hydroxide is open.',
      'Add it in small portions to a cooled, stirred solution; strong acid and strong alkali mixed fast boil and spit.',
    ],
  },
  thiocyanate: {
    pictogram: 'apart',
    heading: 'Keep thiocyanate away from acid and from oxidisers',
    lines: [
      'Neutralise and cool first; never add acid to a flask that holds thiocyanate.',
      'Never bleach, peroxide or nitric acid in any flask of this exercise.',
      'Thiocyanate waste has its own bottle.',
    ],
  },
  acetone: {
    pictogram: 'flame',
    heading: 'Acetone vapour catches fire from a distance',
    lines: [
      'No flame, hot plate or unrated heater in the room; stopper the flasks.',
      'Acetone flasks stand away from the hood with the strong acid; acetone waste is kept apart.',
    ],
  },
} as const satisfies Record<string, Caution>;

export type CautionId = keyof typeof CAUTIONS;
