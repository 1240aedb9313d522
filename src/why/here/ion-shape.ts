import { svg, type SVGTemplateResult } from 'lit';
import type { ComplexSpecies } from '../../../sim/chemistry/index.ts';
import { type IonId, symbolOf } from '../../../sim/terms/ions.ts';
import { seriesStyle } from '../../plot/series.ts';

// One ion with its neighbours: six in an octahedron, or four in a tetrahedron, waters and chlorides told apart.

export const SHAPE_SIZE = 132;

/** From this many chlorides on an ion is drawn as a tetrahedron. Known for four; for three assumed. */
const TETRAHEDRON_FROM = 3;

interface Spot {
  readonly x: number;
  readonly y: number;
  /** In front of the ion. */
  readonly front: boolean;
}

/** Corners in units of the bond, seen a little from above and from the side; chlorides take the first. */
const OCTAHEDRON: readonly Spot[] = [
  { x: 0, y: -1, front: false },
  { x: 0, y: 1, front: true },
  { x: -0.92, y: 0.2, front: true },
  { x: 0.92, y: -0.2, front: false },
  { x: -0.55, y: -0.42, front: false },
  { x: 0.55, y: 0.42, front: true },
];
const TETRAHEDRON: readonly Spot[] = [
  { x: 0, y: -1, front: false },
  { x: -0.92, y: 0.34, front: false },
  { x: 0.92, y: 0.34, front: false },
  { x: 0.16, y: 0.66, front: true },
];
const BOND = 46;
const RADIUS = { ion: 15, water: 13, chloride: 16 } as const;

/** Number of neighbours, the shape they stand in, and how many are waters. */
export function shapeOf({ ligands }: Pick<ComplexSpecies, 'ligands'>): {
  readonly shape: 'octahedron' | 'tetrahedron';
  readonly chlorides: number;
  readonly waters: number;
} {
  const shape = ligands >= TETRAHEDRON_FROM ? 'tetrahedron' : 'octahedron';
  return { shape, chlorides: ligands, waters: (shape === 'tetrahedron' ? TETRAHEDRON : OCTAHEDRON).length - ligands };
}

export function ionShape(ion: IonId, form: ComplexSpecies): SVGTemplateResult {
  const { shape, chlorides } = shapeOf(form);
  const spots = (shape === 'tetrahedron' ? TETRAHEDRON : OCTAHEDRON).map((spot, i) => ({ ...spot, chloride: i < chlorides }));
  const middle = SHAPE_SIZE / 2;
  const drawn = (front: boolean) => spots.filter((spot) => spot.front === front).map((spot) => neighbour(spot, middle));
  return svg`${spots.map(({ x, y }) => svg`<line class="bond" x1=${middle} y1=${middle} x2=${middle + x * BOND} y2=${middle + y * BOND}></line>`)}${drawn(false)}
    <circle class="centre" cx=${middle} cy=${middle} r=${RADIUS.ion} fill=${seriesStyle(ion).colour}></circle>
    <text class="symbol" x=${middle} y=${middle} text-anchor="middle" dominant-baseline="central">${symbolOf(ion)}</text>
    ${drawn(true)}`;
}

function neighbour({ x, y, chloride }: Spot & { readonly chloride: boolean }, middle: number): SVGTemplateResult {
  const [px, py] = [middle + x * BOND, middle + y * BOND];
  return svg`<g class="neighbour ${chloride ? 'Cl' : 'water'}">
    <circle cx=${px} cy=${py} r=${chloride ? RADIUS.chloride : RADIUS.water}></circle>
    <text x=${px} y=${py} text-anchor="middle" dominant-baseline="central">${chloride ? 'Cl⁻' : 'H₂O'}</text></g>`;
}
