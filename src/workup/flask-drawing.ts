import { nothing, svg, type SVGTemplateResult } from 'lit';
import { hexOf, type Solution, vesselStops } from '../../sim/colour/index.ts';

// The flask under its burette, drawn to the colours of the spectra before a white card.

export interface FlaskDrawing {
  readonly solution: Solution;
  readonly volume_mL: number;
  /** Capacity of the vessel, mL. */
  readonly capacity_mL: number;
  readonly path_cm: number;
  /** A conical flask for a portion, a beaker for the eluate as it came from the column. */
  readonly vessel: 'conical' | 'beaker';
  readonly solid: string;
  /** Shares of the burette that are filled; undefined without a burette. */
  readonly burette: number | undefined;
}

export const WIDTH = 200;
export const HEIGHT = 400;

const MIDDLE = WIDTH / 2;
const FLOOR = 384;
/** Conical part: half width at the floor and at the shoulder, and its height, px. */
const BASE = 78;
const NECK = 17;
const CONE = 138;
const LIP = 205;
/** Top of the white card behind the vessel, px. */
export const CARD_TOP = LIP - 12;
const BEAKER = { half: 66, height: 120 };
const BURETTE = { half: 9, top: 8, bottom: 158, tip: 196 };

/** Colours in which the hydroxides of `IN_FLASK` are drawn, by the first word that names one; assumed, so that they can be told apart. */
const SOLID_COLOURS: readonly (readonly [RegExp, string])[] = [
  [/^blue/, '#5b86d6'],
  [/green/, '#86b08a'],
  [/brown/, '#a5612f'],
  [/pale blue/, '#8fb9e0'],
  [/white/, '#e2e2e2'],
];
const GRAINS = 46;

export function flaskDrawing(drawing: FlaskDrawing): SVGTemplateResult {
  const share = Math.min(1, Math.max(0, drawing.volume_mL / drawing.capacity_mL));
  const conical = drawing.vessel === 'conical';
  const level = conical ? coneHeight(share) : share * BEAKER.height;
  return svg`<defs><linearGradient id="liquid">${vesselStops(drawing.solution, drawing.path_cm / 2).map(
    ({ offset, colour }) => svg`<stop offset=${offset.toFixed(3)} stop-color=${hexOf(colour)}></stop>`,
  )}</linearGradient></defs>
    <rect class="card" x="6" y=${CARD_TOP} width=${WIDTH - 12} height=${HEIGHT - CARD_TOP - 4} rx="6"></rect>
    ${drawing.burette === undefined ? nothing : buretteDrawing(drawing.burette)}
    ${share > 0 ? svg`<path class="liquid" d=${conical ? coneLiquid(level) : beakerLiquid(level)} fill="url(#liquid)"></path>` : nothing}
    ${drawing.solid === '' ? nothing : grains(drawing.solid, level, conical)}
    <path class="glass" d=${conical ? coneOutline() : beakerOutline()}></path>`;
}

/** Height of the liquid in a cone that holds this share of its volume, px. */
export function coneHeight(share: number): number {
  const taper = 1 - NECK / BASE;
  const rest = 1 - share * (1 - (1 - taper) ** 3);
  return ((1 - Math.cbrt(rest)) / taper) * CONE;
}

function halfAt(height: number): number {
  return BASE - ((BASE - NECK) * height) / CONE;
}

function coneLiquid(level: number): string {
  const half = halfAt(level);
  return `M${MIDDLE - BASE} ${FLOOR}L${MIDDLE - half} ${FLOOR - level}H${MIDDLE + half}L${MIDDLE + BASE} ${FLOOR}Z`;
}

function coneOutline(): string {
  const shoulder = FLOOR - CONE;
  return `M${MIDDLE - NECK - 4} ${LIP}L${MIDDLE - NECK} ${LIP + 5}V${shoulder}L${MIDDLE - BASE} ${FLOOR}H${MIDDLE + BASE}L${MIDDLE + NECK} ${shoulder}V${LIP + 5}L${MIDDLE + NECK + 4} ${LIP}`;
}

function beakerLiquid(level: number): string {
  return `M${MIDDLE - BEAKER.half} ${FLOOR}V${FLOOR - level}H${MIDDLE + BEAKER.half}V${FLOOR}Z`;
}

function beakerOutline(): string {
  const top = FLOOR - BEAKER.height - 22;
  return `M${MIDDLE - BEAKER.half - 5} ${top}L${MIDDLE - BEAKER.half} ${top + 7}V${FLOOR}H${MIDDLE + BEAKER.half}V${top}`;
}

function buretteDrawing(filled: number): SVGTemplateResult {
  const { half, top, bottom, tip } = BURETTE;
  const length = bottom - top;
  const level = top + length * (1 - Math.min(1, Math.max(0, filled)));
  const marks = Array.from({ length: 11 }, (_, i) => top + (length * i) / 10);
  return svg`<g class="burette">
    <rect class="titrant" x=${MIDDLE - half} y=${level} width=${2 * half} height=${bottom - level}></rect>
    <path class="glass" d="M${MIDDLE - half} ${top - 6}V${bottom}L${MIDDLE - 2.5} ${bottom + 10}V${tip}M${MIDDLE + half} ${top - 6}V${bottom}L${MIDDLE + 2.5} ${bottom + 10}V${tip}"></path>
    ${marks.map((y) => svg`<line class="mark" x1=${MIDDLE - half} x2=${MIDDLE - half + 7} y1=${y} y2=${y}></line>`)}
    <rect class="tap" x=${MIDDLE - 13} y=${bottom + 13} width="26" height="7" rx="2"></rect>
  </g>`;
}

/** Specks on the floor of the vessel, more of them low down; the places are fixed so that nothing flickers. */
function grains(solid: string, level: number, conical: boolean): SVGTemplateResult {
  const colour = SOLID_COLOURS.find(([name]) => name.test(solid))?.[1] ?? '#c8c8c8';
  const specks = Array.from({ length: GRAINS }, (_, i) => {
    const height = Math.min(level - 3, 3 + ((i * 0.6180339887) % 1) ** 2 * level * 0.7);
    const half = conical ? halfAt(Math.max(0, height)) : BEAKER.half;
    return svg`<circle cx=${MIDDLE + (((i * 0.7548776662) % 1) * 2 - 1) * (half - 6)} cy=${FLOOR - height} r=${2 + (i % 3)}></circle>`;
  });
  return svg`<g class="solid" fill=${colour}>${specks}</g>`;
}
