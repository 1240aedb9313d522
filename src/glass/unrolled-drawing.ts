import type { Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { bedPaint } from './bed-paint.ts';
import { BedPattern } from './bed-pattern.ts';
import { SIDES, turned, wallLanes } from './sides.ts';

// The bed unrolled on a flat canvas, seen from outside with the front in the middle: back, left, front, right, back.

/** Room for the depth ticks on the left and px on the right of the map. */
const LEFT = 46;
const RIGHT = 4;
/** Strip for the core: share of the width, and the gap before it, px. */
const CORE_SHARE = 0.15;
const GAP = 8;
/** Pixels across the marks of the core and of all sectors together, about those on screen. */
const CORE_PX = 48;
const MAP_PX = 300;

interface Marks {
  readonly pattern: BedPattern;
  readonly image: HTMLCanvasElement;
}

export interface Columns {
  readonly left: number;
  readonly width: number;
  readonly gap: number;
  readonly strips: readonly { readonly lane: number; readonly x: number; readonly width: number }[];
  readonly core: { readonly x: number; readonly width: number } | undefined;
  readonly sides: readonly { readonly side: string; readonly x: number }[];
}

/** Where each lane is drawn, px from the left of the canvas. A sector cut by either edge appears at both. */
export function columnsOf(lanes: number, roomWidth: number): Columns {
  const width = Math.max(40, roomWidth - LEFT - RIGHT);
  if (lanes === 1) return { left: LEFT, width, gap: 0, strips: [{ lane: 0, x: 0, width }], core: undefined, sides: [{ side: 'all sides', x: width / 2 }] };
  const coreWidth = Math.max(16, CORE_SHARE * width);
  const map = width - coreWidth - GAP;
  const walls = wallLanes(lanes);
  const one = map / walls.length;
  const strips = walls.flatMap((lane, i) => {
    const x = placeOf((i * 360) / walls.length) * map - one / 2;
    return x < -1e-9
      ? [
          { lane, x, width: one },
          { lane, x: x + map, width: one },
        ]
      : x + one > map + 1e-9
        ? [
            { lane, x: x - map, width: one },
            { lane, x, width: one },
          ]
        : [{ lane, x, width: one }];
  });
  const sides = [...SIDES.map(({ side, deg }) => ({ side: side as string, x: placeOf(deg) * map })), { side: 'core', x: width - coreWidth / 2 }];
  return {
    left: LEFT,
    width,
    gap: GAP,
    strips,
    core: { x: width - coreWidth, width: coreWidth },
    sides: sides.map((mark) => (mark.side === 'back' ? { ...mark, x: 14 } : mark)),
  };
}

/** Draws cells and marks; keeps its images between moments. */
export class UnrolledDrawing {
  private readonly scenario: Scenario;
  private readonly cells: HTMLCanvasElement;
  private readonly marks: readonly Marks[];

  constructor(scenario: Scenario) {
    const lanes = scenario.values['bed.lanes'];
    this.scenario = scenario;
    const plates = scenario.values['bed.plates'];
    this.cells = sheet(lanes, plates);
    this.marks = Array.from({ length: lanes }, (_, lane) => {
      const pattern = new BedPattern([lane], plates, lane === 0 ? CORE_PX : Math.ceil(MAP_PX / lanes));
      return { pattern, image: sheet(pattern.width, pattern.height) };
    });
  }

  draw(canvas: HTMLCanvasElement, moment: Moment, exaggerate: boolean, columns: Columns, density: number): void {
    this.fillCells(moment, exaggerate);
    for (const { pattern, image } of this.marks) if (pattern.draw(moment)) putInto(image, pattern.rgba);
    const { clientWidth, clientHeight } = canvas;
    canvas.width = Math.round(clientWidth * density);
    canvas.height = Math.round(clientHeight * density);
    const context = canvas.getContext('2d');
    if (!context) return;
    context.imageSmoothingEnabled = false;
    const strips = columns.core ? [{ lane: 0, ...columns.core }, ...columns.strips] : columns.strips;
    const mapEnd = columns.core ? columns.core.x - columns.gap : columns.width;
    for (const { lane, x, width } of strips) {
      const end = lane === 0 ? x + width : Math.min(mapEnd, x + width);
      this.drawStrip(context, lane, Math.round(Math.max(0, x) * density), Math.round(end * density), canvas.height);
    }
  }

  private drawStrip(context: CanvasRenderingContext2D, lane: number, from: number, to: number, height: number): void {
    context.drawImage(this.cells, lane, 0, 1, this.cells.height, from, 0, to - from, height);
    const { pattern, image } = this.marks[lane];
    if (pattern.marked) context.drawImage(image, from, 0, to - from, height);
  }

  private fillCells(moment: Moment, exaggerate: boolean): void {
    const paint = bedPaint(this.scenario, exaggerate);
    paint.paint(moment);
    const { lanes, plates, rgba } = paint;
    const pixels = new Uint8Array(rgba.length);
    for (let cell = 0; cell < lanes * plates; cell++) {
      const to = 4 * ((cell % plates) * lanes + Math.floor(cell / plates));
      for (let channel = 0; channel < 3; channel++) pixels[to + channel] = rgba[4 * cell + channel];
      pixels[to + 3] = 255;
    }
    putInto(this.cells, pixels);
  }
}

/** Share of the map's width at which a side stands. */
function placeOf(deg: number): number {
  return (turned(180 - deg) % 360) / 360;
}

function sheet(width: number, height: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  return canvas;
}

function putInto(canvas: HTMLCanvasElement, pixels: Uint8Array): void {
  const image = new ImageData(Uint8ClampedArray.from(pixels), canvas.width, canvas.height);
  canvas.getContext('2d')?.putImageData(image, 0, 0);
}
