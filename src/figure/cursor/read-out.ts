import { html, type TemplateResult } from 'lit';
import { IONS } from '../../../sim/terms/ions.ts';
import { duration, fixed, millilitres, significant, spoken, withUnit } from '../../ui/text/format.ts';
import type { Point } from './point.ts';

// The point under the cursor, as a small table and as a sentence.

export function readOut(point: Point): TemplateResult {
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
