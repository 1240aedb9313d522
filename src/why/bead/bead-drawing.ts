import { symbol, symbolCircle } from 'd3-shape';
import { svg, type SVGTemplateResult } from 'lit';
import { distributionOf, invasion, resinFrom } from '../../../sim/chemistry/index.ts';
import type { IonId } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { seriesStyle } from '../../plot/series.ts';

// One bead and the liquid around it, with symbols in proportion to what a litre of bed holds.

/** What a litre of bed holds at equilibrium with an acid, mol, and where an ion is. */
export interface BeadContents {
  /** Charges fixed to the resin, each with its chloride. */
  readonly fixed: number;
  /** HCl that has come into the beads, and HCl between them. */
  readonly invaded: number;
  readonly outside: number;
  /** The same as concentrations, mol/L of the liquid in the beads and of that around them. */
  readonly invaded_M: number;
  readonly outside_M: number;
  /** Share of a trace of the ion that is in the beads. */
  readonly ionInside: number;
}

export function beadContents(scenario: Scenario, ion: IonId, HCl_M: number): BeadContents {
  const resin = resinFrom(scenario.values);
  const porosity = scenario.values['bed.porosity'];
  const invaded_M = invasion(HCl_M, resin.Q, resin.kappa);
  const D = distributionOf(scenario, ion)(HCl_M);
  return {
    fixed: resin.Q * resin.pore,
    invaded: invaded_M * resin.pore,
    outside: HCl_M * porosity,
    invaded_M,
    outside_M: HCl_M,
    ionInside: D / (porosity + D),
  };
}

export interface BeadDrawing {
  readonly contents: BeadContents;
  readonly ion: IonId;
  readonly porosity: number;
  readonly size: number;
  /** Metal ions drawn, in the bead and around it; none where there are none. */
  readonly ions?: number;
}

/** mol in a litre of bed that one symbol stands for. */
export const SYMBOL_MOL = 0.2;
/** Metal ions drawn, so that the count reads as per cent. */
export const IONS_DRAWN = 100;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const GOLDEN_ANGLE = 2 * Math.PI * (1 - GOLDEN);
/** Symbols keep this far from the rim of bead and picture, px. */
const RIM = 9;

type Sign = 'fixed' | 'chloride' | 'hydrogen' | 'ion';

export function beadDrawing({ contents, ion, porosity, size, ions = IONS_DRAWN }: BeadDrawing): SVGTemplateResult {
  // The bead takes the share of the square that beads take of the bed.
  const radius = Math.sqrt(((1 - porosity) * size * size) / Math.PI);
  const inside = Math.round(contents.ionInside * ions);
  const count = (amount: number): number => Math.round(amount / SYMBOL_MOL);
  const within = mixed({ fixed: count(contents.fixed), chloride: count(contents.fixed + contents.invaded), hydrogen: count(contents.invaded), ion: inside });
  const around = mixed({ fixed: 0, chloride: count(contents.outside), hydrogen: count(contents.outside), ion: ions - inside });
  const middle = size / 2;
  return svg`
    <rect class="liquid" x="0" y="0" width=${size} height=${size} rx="6"></rect>
    <circle class="bead" cx=${middle} cy=${middle} r=${radius}></circle>
    ${inCircle(within.length, radius - RIM).map(([x, y], i) => sign(within[i], ion, middle + x, middle + y))}
    ${outsideCircle(around.length, size, radius + RIM).map(([x, y], i) => sign(around[i], ion, x, y))}`;
}

/** The sign of a kind for the key. */
export function sign(kind: Sign, ion: IonId, x: number, y: number): SVGTemplateResult {
  switch (kind) {
    case 'fixed':
      return svg`<g class="fixed" transform="translate(${x} ${y})"><rect x="-6" y="-6" width="12" height="12" rx="2"></rect><path d="M-3.5 0H3.5M0 -3.5V3.5"></path></g>`;
    case 'chloride':
      return svg`<circle class="chloride" cx=${x} cy=${y} r="4"></circle>`;
    case 'hydrogen':
      return svg`<path class="hydrogen" d="M-3.5 0H3.5M0 -3.5V3.5" transform="translate(${x} ${y})"></path>`;
    default:
      return svg`<path class="metal" d=${symbol(symbolCircle, 56).digits(2)() ?? ''} transform="translate(${x} ${y})" fill=${seriesStyle(ion).colour}></path>`;
  }
}

/** Kinds mixed evenly: each kind is spread over the whole list. */
function mixed(counts: Readonly<Record<Sign, number>>): Sign[] {
  const kinds = Object.entries(counts) as [Sign, number][];
  const places = kinds.flatMap(([kind, count], which) => Array.from({ length: count }, (_, i) => ({ kind, at: (i + 0.5 + which * 0.07) / count })));
  return places.sort((a, b) => a.at - b.at).map(({ kind }) => kind);
}

/** Places equally dense over a disc, on a sunflower spiral; neighbours in the list lie apart, so that no kind lines up. */
function inCircle(count: number, radius: number): [number, number][] {
  const visited = Array.from({ length: count }, (_, i) => i).sort((a, b) => ((a * GOLDEN) % 1) - ((b * GOLDEN) % 1));
  return visited.map((i) => {
    const out = radius * Math.sqrt((i + 0.5) / count);
    return [out * Math.cos(i * GOLDEN_ANGLE), out * Math.sin(i * GOLDEN_ANGLE)];
  });
}

/** Evenly scattered places in the corners of the square (Halton's sequence in bases 2 and 3), outside the disc. */
function outsideCircle(count: number, size: number, radius: number): [number, number][] {
  const places: [number, number][] = [];
  for (let i = 1; places.length < count; i++) {
    const x = RIM + halton(i, 2) * (size - 2 * RIM);
    const y = RIM + halton(i, 3) * (size - 2 * RIM);
    if (Math.hypot(x - size / 2, y - size / 2) >= radius) places.push([x, y]);
  }
  return places;
}

function halton(index: number, base: number): number {
  let value = 0;
  let part = 1 / base;
  for (let rest = index; rest > 0; rest = Math.floor(rest / base)) {
    value += (rest % base) * part;
    part /= base;
  }
  return value;
}
