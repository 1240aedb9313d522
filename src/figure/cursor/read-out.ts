import { html, type TemplateResult } from 'lit';
import { IONS } from '../../../sim/terms/ions.ts';
import { duration, fixed, millilitres, significant, spoken, withUnit } from '../../ui/text/format.ts';
import { styled } from '../../ui/styled.ts';
import type { Drawing } from '../drawing.ts';
import type { FigureLayout } from '../layout.ts';
import type { Look } from './look.ts';
import { type Point, pointAt } from './point.ts';

// The point under the cursor, as a small table and as a sentence.

/** What the run holds where one looks: said, and as a box beside the place. */
export function readPlace(drawing: Drawing, look: Look, delivered_mL: number, depth_cm: number): { readonly said: string; readonly box: TemplateResult } {
  const point = pointAt(drawing.scenario, drawing.plan, delivered_mL, depth_cm);
  return { said: spokenPoint(point), box: html`<div class="read-out" ${styled(besideLook(drawing, look))}>${readOut(point)}</div>` };
}

function readOut(point: Point): TemplateResult {
  const { delivered_mL, time_min, poured, receiver, depth_cm, read } = point;
  return html`<p><b>${millilitres(delivered_mL, 2)}</b> ${duration(time_min)}</p>
    <p>${poured} poured, into ${receiver}</p>
    <table><thead><tr><td></td><th scope="col">at ${withUnit(fixed(read(depth_cm), 2), 'cm')}</th><th scope="col">band, cm</th><th scope="col">leaving, mol/L</th></tr></thead>
    <tbody><tr><th scope="row">HCl</th><td>${withUnit(small(point.acid_M), 'mol/L')}</td><td></td><td>${small(point.acidLeaving_M)}</td></tr>
    ${point.ions.map(
      ({ ion, inBed, edges, leaving_M }) => html`<tr><th scope="row">${IONS[ion].symbol}</th><td>${withUnit(small(inBed), 'mmol/mL')}</td>
      <td>${edges ? `${fixed(read(edges.trailing_cm), 1)} to ${fixed(read(edges.leading_cm), 1)}` : ''}</td><td>${small(leaving_M)}</td></tr>`,
    )}</tbody></table>`;
}

export function spokenPoint({ delivered_mL, time_min, poured, receiver, depth_cm, read, acid_M, acidLeaving_M, ions }: Point): string {
  const bed = ions.map(
    ({ ion, inBed, edges }) =>
      `${IONS[ion].name} ${spoken(traceless(inBed), 'mmol/mL', 2)}${edges ? `, band from ${fixed(read(edges.trailing_cm), 1)} to ${spoken(read(edges.leading_cm), 'cm', 2)}` : ''}`,
  );
  const tip = ions.map(({ ion, leaving_M }) => `${IONS[ion].name} ${significant(traceless(leaving_M), 2)}`);
  return `${spoken(delivered_mL, 'mL')} delivered, ${spoken(time_min, 'min')}, ${poured} poured, into ${receiver}. At ${spoken(read(depth_cm), 'cm', 2)} depth: HCl ${spoken(traceless(acid_M), 'mol/L')}, ${bed.join(', ')}. Leaving: HCl ${spoken(traceless(acidLeaving_M), 'mol/L')}, ${tip.join(', ')}.`;
}

/** Below these, mol/L or mmol/mL, a value is shown as zero, as less than the next, and spoken as zero: no method of the lesson could find it. */
const NOTHING = 1e-7;
const LEAST = 1e-4;
const NOTHING_SPOKEN = 5e-5;

/** A number for the table: never a power of ten. */
export function small(value: number): string {
  if (value < NOTHING) return '0';
  return value < LEAST ? `< ${LEAST}` : significant(value);
}

function traceless(value: number): number {
  return value < NOTHING_SPOKEN ? 0 : value;
}

/** Styles of the read-out: over the row that is not being looked at, on the side away from the cursor. */
function besideLook({ layout, x }: Drawing, { mL, share }: Look): Record<string, string> {
  const { height, depth, effluent, narrow } = layout;
  const side = narrow ? { left: '0.25rem', right: '0.25rem' } : sideAway(layout, x(mL));
  return share <= 1 ? { ...side, top: `${effluent.top}px` } : { ...side, bottom: `${height - depth.bottom + 8}px` };
}

function sideAway({ left, right, width }: FigureLayout, at: number): Record<string, string> {
  return at > (left + right) / 2 ? { left: `${left + 8}px` } : { right: `${width - right + 8}px` };
}
