import { nothing, svg, type SVGTemplateResult } from 'lit';
import { styled } from '../../ui/styled.ts';
import { seriesStyle } from '../../plot/series.ts';
import { millilitres } from '../../ui/text/format.ts';
import { onLine } from '../../plot/place-labels.ts';
import type { Drawing } from '../drawing.ts';
import { endedAt, type Pouring, pourings } from './stretches.ts';
import { drawnWords, fits, placedWords, textWidth } from './labels.ts';

// First row: the liquids as bars. The stronger the acid, the darker the bar, as in the bed below.

/** Share of the acid's line colour in the bar of the strongest acid, %. */
const TINT_MOST = 45;
/** Metals in a liquid show as a strip along the bottom of its bar, px. */
const STRIP = 5;
const NOTCH = 4;

/** Bars up to a delivered volume; what is poured later is not told. */
export function pouredRow(drawing: Drawing, until_mL?: number): SVGTemplateResult {
  const { scenario, plan } = drawing;
  const { poured, left, narrow } = drawing.layout;
  const all = endedAt(pourings(scenario, plan), until_mL);
  const strongest = Math.max(1e-9, ...Object.values(scenario.liquids).map(({ HCl_M }) => HCl_M), ...all.map(({ HCl_M }) => HCl_M));
  return svg`<g class="poured">
    ${narrow ? nothing : svg`<text class="row-title" x=${left - 8} y=${(poured.top + poured.bottom) / 2} text-anchor="end" dominant-baseline="central">poured</text>`}
    ${all.map((pouring) => bar(drawing, pouring, strongest))}
  </g>`;
}

/** What the bars hold: in them, or under those too short for their words. */
export function pouredNotes(drawing: Drawing, until_mL?: number): SVGTemplateResult {
  const { layout, scenario, plan, x } = drawing;
  const { poured, left, narrow } = layout;
  const all = endedAt(pourings(scenario, plan), until_mL);
  const outside = all.filter((pouring) => !fitsInside(drawing, pouring) && (pouring.ions.length > 0 || !narrow)).sort((a, b) => b.ions.length - a.ions.length);
  const y = poured.bottom + 15;
  const within = onLine(y, left, layout.right);
  const notes = placedWords(
    outside.map((pouring) => ({
      texts: [outsideText(pouring, narrow)],
      places: [{ x: (x(pouring.from_mL) + x(pouring.to_mL)) / 2, y, anchor: 'middle' }],
      within,
      look: 'bar-note',
    })),
    { apart: 10 },
  );
  const middle = (poured.top + poured.bottom) / 2;
  const inside = all.filter((pouring) => fitsInside(drawing, pouring));
  return svg`<g class="words">${inside.map(
    ({ label, from_mL, to_mL }) =>
      svg`<text class="bar-label" x=${(x(from_mL) + x(to_mL)) / 2} y=${middle} text-anchor="middle" dominant-baseline="central">${label}</text>`,
  )}${drawnWords(notes)}</g>`;
}

function bar(drawing: Drawing, pouring: Pouring, strongest: number): SVGTemplateResult {
  const {
    layout: { poured },
    x,
  } = drawing;
  const left = x(pouring.from_mL);
  const width = Math.max(1, x(pouring.to_mL) - left);
  const height = poured.bottom - poured.top;
  const tint = `color-mix(in oklab, var(--line-HCl) ${Math.round((TINT_MOST * pouring.HCl_M) / strongest)}%, var(--sheet))`;
  return svg`<g><title>${titleOf(pouring)}</title>
    <rect class="bar" x=${left} y=${poured.top} width=${width} height=${height} rx="3" ${styled({ fill: tint })}></rect>
    ${pouring.portions.filter((at) => at <= pouring.to_mL).map((at) => svg`<line class="portion" x1=${x(at)} x2=${x(at)} y1=${poured.top} y2=${poured.top + NOTCH}></line>`)}
    ${pouring.ions.map((ion, i) => svg`<rect x=${left + (width * i) / pouring.ions.length} y=${poured.bottom - STRIP} width=${width / pouring.ions.length} height=${STRIP} fill=${seriesStyle(ion).colour}></rect>`)}
  </g>`;
}

function fitsInside({ x }: Drawing, { label, from_mL, to_mL }: Pouring): boolean {
  return fits(label, x(to_mL) - x(from_mL) - 8);
}

function outsideText({ label, volume_mL }: Pouring, narrow: boolean): string {
  return narrow || volume_mL === 0 || textWidth(label) > 220 ? label : `${label}, ${millilitres(volume_mL, 2)}`;
}

function titleOf({ label, volume_mL, from_mL }: Pouring): string {
  return volume_mL > 0 ? `${label}: ${millilitres(volume_mL, 2)} poured from ${millilitres(from_mL)} delivered` : label;
}
