import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import { svg, type SVGTemplateResult } from 'lit';
import { speciation, species } from '../../../sim/chemistry/index.ts';
import type { IonId } from '../../../sim/terms/ions.ts';
import { axis, type Scale } from '../../plot/axis.ts';
import { cursor } from '../../plot/cursor.ts';
import { seriesStyle } from '../../plot/series.ts';

// Shares of the species of one ion against HCl, stacked from the cation at the bottom to the anion at the top.

export interface SpeciesDrawing {
  readonly ion: IonId;
  readonly HCl_M: number;
  readonly width: number;
  readonly height: number;
}

export const ACID_TOP_M = 12;
const STEPS = 120;
const MARGIN = { top: 8, right: 14, bottom: 46, left: 62 } as const;
/** Least thickness of a layer that can carry its name, px, and half the width of a name. */
const NAME_HEIGHT = 20;
const NAME_HALF = 36;
/** How much of the ion's colour a layer takes, by its charge, %. */
const INK_CATION = 10;
const INK_NEUTRAL = 24;
const INK_ANION = 46;

export function acidScale(width: number): Scale {
  return scaleLinear()
    .domain([0, ACID_TOP_M])
    .range([MARGIN.left, Math.max(MARGIN.left + 50, width - MARGIN.right)]);
}

export function speciesDrawing({ ion, HCl_M, width, height }: SpeciesDrawing): SVGTemplateResult {
  const x = acidScale(width);
  const y = scaleLinear()
    .domain([0, 1])
    .range([height - MARGIN.bottom, MARGIN.top]);
  const layers = layersOf(ion);
  const [left = 0, right = 0] = x.range();
  return svg`
    ${layers.map((layer) => svg`<path class="layer" d=${layerPath(layer, x, y)} fill=${inkOf(ion, layer.charge)} stroke=${seriesStyle(ion).colour}></path>`)}
    <rect class="frame" x=${left} y=${MARGIN.top} width=${right - left} height=${height - MARGIN.bottom - MARGIN.top} fill="none"></rect>
    ${axis({ scale: x, side: 'bottom', at: height - MARGIN.bottom, title: 'HCl', unit: 'mol/L' })}
    ${axis({ scale: y, side: 'left', at: left, ticks: 5, title: 'share of the ion', unit: '%', show: (share) => String(Math.round(share * 100)) })}
    ${names(layers, x, y)}
    ${cursor({ at: x(HCl_M), top: MARGIN.top, bottom: height - MARGIN.bottom })}`;
}

interface Layer {
  readonly label: string;
  readonly charge: number;
  readonly acids: readonly number[];
  readonly from: readonly number[];
  readonly to: readonly number[];
}

function layersOf(ion: IonId): Layer[] {
  const acids = Array.from({ length: STEPS + 1 }, (_, i) => (ACID_TOP_M * i) / STEPS);
  const fractions = acids.map((c) => speciation(ion, Math.max(c, 1e-6)).fractions);
  const upTo = (n: number): number[] => fractions.map((shares) => shares.slice(0, n).reduce((sum, share) => sum + share, 0));
  return species(ion).map(({ label, charge }, n) => ({ label, charge, acids, from: upTo(n), to: upTo(n + 1) }));
}

function layerPath({ acids, from, to }: Layer, x: Scale, y: Scale): string {
  return (
    area<number>()
      .digits(2)
      .x((i) => x(acids[i]))
      .y0((i) => y(from[i]))
      .y1((i) => y(to[i]))(acids.map((_, i) => i)) ?? ''
  );
}

/** Each name where its layer is thickest and no other name stands, the thickest layer first; none where it is too thin. */
function names(layers: readonly Layer[], x: Scale, y: Scale): SVGTemplateResult[] {
  const [left = 0, right = 0] = x.range();
  const taken: { x: number; y: number }[] = [];
  const places = layers.map((layer) =>
    layer.acids
      .map((c, i) => ({ x: x(c), y: (y(layer.from[i]) + y(layer.to[i])) / 2, room: y(layer.from[i]) - y(layer.to[i]) }))
      .filter((place) => place.room >= NAME_HEIGHT && place.x > left + NAME_HALF && place.x < right - NAME_HALF)
      .sort((a, b) => b.room - a.room),
  );
  const byRoom = layers.map((layer, n) => ({ layer, places: places[n] })).sort((a, b) => (b.places[0]?.room ?? 0) - (a.places[0]?.room ?? 0));
  return byRoom.flatMap(({ layer, places: free }) => {
    const place = free.find((each) => taken.every((other) => Math.abs(other.x - each.x) > 2 * NAME_HALF || Math.abs(other.y - each.y) > NAME_HEIGHT));
    if (!place) return [];
    taken.push(place);
    return [svg`<text class="haloed name" x=${place.x} y=${place.y} text-anchor="middle" dominant-baseline="central">${layer.label}</text>`];
  });
}

function inkOf(ion: IonId, charge: number): string {
  const ink = charge > 0 ? INK_CATION : charge === 0 ? INK_NEUTRAL : INK_ANION;
  return `color-mix(in oklab, ${seriesStyle(ion).colour} ${ink}%, var(--paper))`;
}
