import { html, svg, type TemplateResult } from 'lit';
import { amountOf, type Place } from './debrief-numbers.ts';
import type { IonId } from '../../sim/types.ts';
import { millimoles, percent } from '../ui/format.ts';

// Where every mmol of one ion is: one bar, a part a place, told apart by pattern and label as well as by shade.

const WIDTH = 640;
const BAR = 34;
const ROW = 20;
/** Parts narrower than this have no room to be seen and are only listed, share of the bar. */
const SHARE_LEAST = 0.002;

/** Pattern of a place, by its order among the receivers or by its kind. */
function patternOf(place: Place, order: number): string {
  return place.kind === 'receiver' ? `r${order % 4}` : place.kind;
}

export function whereBar(places: readonly Place[], ion: IonId, name: string): TemplateResult {
  const total = places.reduce((sum, place) => sum + amountOf(place, ion), 0);
  if (!(total > 0)) return html`<p>No ${name} has been poured.</p>`;
  let from = 0;
  const parts = places.map((place, order) => {
    const share = amountOf(place, ion) / total;
    const part = { place, share, from, pattern: patternOf(place, order) };
    from += share;
    return part;
  });
  const shown = parts.filter(({ share }) => share >= SHARE_LEAST);
  const said = shown.map(({ place, share }) => `${place.label} ${percent(share)}`).join(', ');
  const height = BAR + 12 + shown.length * ROW;
  return html`<svg class="where" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-label="Where the ${name} is: ${said}">
    <defs>${PATTERNS}</defs>
    ${shown.map(({ share, from: at, pattern }) => svg`<rect class="part" x=${at * WIDTH} y="0" width=${Math.max(1, share * WIDTH)} height=${BAR} fill="url(#${pattern})"></rect>`)}
    <rect class="frame" x="0.5" y="0.5" width=${WIDTH - 1} height=${BAR - 1}></rect>
    ${shown.map(({ place, share, pattern }, i) => {
      const y = BAR + 12 + i * ROW;
      return svg`<rect class="part" x="0.5" y=${y} width="22" height="14" fill="url(#${pattern})"></rect>
        <text x="32" y=${y + 12}>${place.label}</text>
        <text x="400" y=${y + 12} text-anchor="end">${millimoles(amountOf(place, ion), 4)}</text>
        <text x="480" y=${y + 12} text-anchor="end">${percent(share, 2)}</text>`;
    })}
  </svg>`;
}

const LINES: Readonly<Record<string, ReturnType<typeof svg>>> = {
  r0: svg`<path d="M0 8L8 0"></path>`,
  r1: svg``,
  r2: svg`<path d="M0 0L8 8"></path>`,
  r3: svg`<path d="M0 4H8"></path>`,
  head: svg`<circle cx="4" cy="4" r="1"></circle>`,
  bed: svg`<path d="M0 8L8 0M0 0L8 8"></path>`,
  tip: svg`<path d="M4 0V8"></path>`,
  spilled: svg`<path d="M0 4H8M4 0V8"></path>`,
};

const PATTERNS = svg`${Object.entries(LINES).map(
  ([id, lines]) => svg`<pattern id=${id} width="8" height="8" patternUnits="userSpaceOnUse"><rect class="ground ${id}" width="8" height="8"></rect><g class="lines">${lines}</g></pattern>`,
)}`;
