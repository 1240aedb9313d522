import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import type { Attribution } from '../../sim/attribution/index.ts';
import { IONS } from '../../sim/terms/ions.ts';
import { percent } from '../ui/text/format.ts';

// The lost target as a bar: one part for each cause, told apart by pattern and number, not by colour.

const WIDTH = 640;
const HEIGHT = 34;
/** Narrower parts have no number inside; the table has it. */
const NUMBER_WIDTH = 18;

/** Undefined parts that helped are left out of the bar; the table has them. */
export function lossBar({ target, lines, notSeparable, repaired, actual }: Attribution, nameOf: (kind: string) => string): TemplateResult | typeof nothing {
  if (!(actual.lost_mmol > 1e-6)) return nothing;
  const all = [
    ...lines.map(({ kind, lost_mmol }) => ({ name: nameOf(kind), lost_mmol })),
    { name: 'not separable', lost_mmol: notSeparable.lost_mmol },
    { name: 'by none of these', lost_mmol: repaired.lost_mmol },
  ];
  const parts = all.map((part, place) => ({ ...part, place })).filter(({ lost_mmol }) => lost_mmol > 0);
  const total = parts.reduce((sum, { lost_mmol }) => sum + lost_mmol, 0);
  if (!(total > 0)) return nothing;
  let from = 0;
  const pieces = parts.map(({ place, lost_mmol }) => {
    const width = (lost_mmol / total) * WIDTH;
    const piece = svg`<g>${patternPiece(place, from, width, HEIGHT)}${
      width > NUMBER_WIDTH
        ? svg`<rect x=${from + width / 2 - 9} y=${HEIGHT / 2 - 10} width="18" height="20" rx="4" fill="var(--paper)"></rect>
      <text x=${from + width / 2} y=${HEIGHT / 2} text-anchor="middle" dominant-baseline="central" fill="var(--ink)" font-weight="600">${place + 1}</text>`
        : nothing
    }</g>`;
    from += width;
    return piece;
  });
  const spoken = parts.map(({ name, lost_mmol }) => `${name} ${percent(lost_mmol / actual.loaded_mmol)}`).join(', ');
  return html`<svg class="plot" viewBox="0 0 ${WIDTH} ${HEIGHT}" width=${WIDTH} role="img" aria-label="Lost ${IONS[target].name}, share of the load: ${spoken}">${pieces}</svg>`;
}

/** A rectangle in the pattern of its place: plain, hatched three ways, dotted, then again with a wider pitch. */
export function patternPiece(place: number, x: number, width: number, height: number): SVGTemplateResult {
  const pitch = 5 + 3 * Math.floor(place / 5);
  const lines = [plain, rising, falling, upright, level][place % 5](x, width, height, pitch);
  return svg`<rect x=${x + 0.5} y="0.5" width=${Math.max(0, width - 1)} height=${height - 1} fill=${place % 5 === 0 ? 'var(--soft)' : 'var(--sheet)'} stroke="var(--ink)"></rect>
    ${lines === '' ? nothing : svg`<path d=${lines} stroke="var(--ink)" stroke-width="1.5" fill="none"></path>`}`;
}

function plain(): string {
  return '';
}

function rising(x: number, width: number, height: number, pitch: number): string {
  return steps(width + height, pitch)
    .map((reach) => {
      const [x1, y1] = [Math.max(0, reach - height), Math.min(height, reach)];
      const [x2, y2] = [Math.min(width, reach), Math.max(0, reach - width)];
      return `M${x + x1} ${y1}L${x + x2} ${y2}`;
    })
    .join('');
}

function falling(x: number, width: number, height: number, pitch: number): string {
  return steps(width + height, pitch)
    .map((reach) => {
      const [x1, y1] = [Math.max(0, reach - height), height - Math.min(height, reach)];
      const [x2, y2] = [Math.min(width, reach), height - Math.max(0, reach - width)];
      return `M${x + x1} ${y1}L${x + x2} ${y2}`;
    })
    .join('');
}

function upright(x: number, width: number, height: number, pitch: number): string {
  return steps(width, pitch)
    .map((reach) => `M${x + reach} 0V${height}`)
    .join('');
}

function level(x: number, width: number, height: number, pitch: number): string {
  return steps(height, pitch)
    .map((reach) => `M${x} ${reach}H${x + width}`)
    .join('');
}

function steps(length: number, pitch: number): number[] {
  return Array.from({ length: Math.floor(length / pitch) }, (_, i) => (i + 0.5) * pitch);
}
