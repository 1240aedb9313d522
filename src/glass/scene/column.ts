import type { Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { dropAt } from '../../store/drop.ts';
import { bedPaint, isMissing } from '../bed-paint.ts';
import { asidePlaces, BEAKER_FULL, depthY, type Layout, type VesselPlace } from '../layout.ts';
import { asideOrder } from '../sides.ts';
import { beakerDiameter, beakerVolume, headSolution, type ReceiverContent, receiverContents, tipSolution } from './liquids.ts';
import { diameterCm, type Dripping, dropShape } from './drips.ts';
import type { Panel } from './panel.ts';
import { SmoothBed } from './smooth-bed.ts';
import { STAIN, STAIN_POINTS, STAIN_ROWS, Stains } from './stains.ts';

// What the panel shows of a moment: column, drops and receivers.

/** What is shown. */
export interface Shown {
  readonly scenario: Scenario;
  readonly moment: Moment;
  readonly labels: readonly string[];
  readonly exaggerate: boolean;
  /** A receiver, by its slot, that is being dragged, and px to the right of where it stands. */
  readonly dragged: { readonly taken: number; readonly by: number } | undefined;
}

/** Inner radius of the outlet tube, cm, for the colour in it; common small tubing, assumed. */
const OUTLET_CM = 0.15;
/** Most beakers drawn, as the shader has places for. */
const BEAKERS = 6;
/** Least px of a bead that can be seen, for one of 125 um; others in the same proportion, but less steeply. */
const SEEN_PX = 3.3;
const SEEN_UM = 125;
const BEAD_PX = [2.4, 8] as const;

export class Column {
  private readonly panel: Panel;
  private readonly scenario: Scenario;
  private readonly bed: SmoothBed;
  private readonly stains = new Stains();
  private layout: Layout | undefined;
  private shown: Shown | undefined;

  constructor(panel: Panel, scenario: Scenario) {
    this.panel = panel;
    this.scenario = scenario;
    this.bed = new SmoothBed(scenario.values['bed.lanes'], scenario.values['bed.plates']);
  }

  place(layout: Layout): void {
    this.layout = layout;
    const { centre, radius, wall, rim, bedTop, bedBottom, pxPerCm, zero, outletTop, outletRadius, clamp, tip, ruler } = layout;
    this.panel.set({
      tube: [centre, radius, wall, rim],
      bed: [bedTop, bedBottom, pxPerCm, beadPx(this.scenario, layout)],
      outlet: [outletTop, outletRadius, clamp, tip],
      ruler: [ruler.left, ruler.width, ruler.top, ruler.bottom],
      zero: [zero],
    });
    if (this.shown) this.show(this.shown);
  }

  show(shown: Shown): void {
    this.shown = shown;
    const { layout, scenario, panel } = this;
    if (!layout) return;
    const { moment, exaggerate } = shown;
    const paint = bedPaint(scenario, exaggerate);
    paint.paint(moment);
    if (this.bed.paint(paint, moment)) this.sendBed();
    const wet = moment.level_cm > 1e-4 ? 1 : 0;
    panel.set({
      head: [layout.above(moment.level_cm), layout.break ?? -1, wet, missingCm(scenario, moment) * layout.pxPerDepth],
      clampOpen: [moment.clampOpen],
    });
    this.pourOut(layout, shown);
  }

  /** Sends everything again, to a context that was lost. */
  resend(): void {
    this.sendBed();
    this.sendStains();
    if (this.layout) this.place(this.layout);
  }

  /** Turns the bed so that this side is looked at; `fine`: several samples a pixel. */
  look(sideDeg: number, fine: boolean): void {
    if (!this.layout) return;
    const round = Math.max(6, Math.round((2 * Math.PI * this.layout.radius) / beadPx(this.scenario, this.layout)));
    this.panel.set({ turn: [sideDeg / 360, round, fine ? 2 : 1] });
  }

  markDepth(depth_cm: number | undefined): void {
    const { layout } = this;
    if (layout) this.panel.set({ mark: [depth_cm === undefined ? -1 : depthY(layout, depth_cm)] });
  }

  drip(dripping: Dripping): void {
    const { layout, shown } = this;
    if (layout && shown) this.panel.set({ drop: dropShape(dripping, shown, layout, this.surface(layout, shown)) });
  }

  private pourOut(layout: Layout, { moment, labels, exaggerate, dragged }: Shown): void {
    const contents = receiverContents(this.scenario, moment, labels);
    const nominal = beakerVolume(this.scenario, moment);
    const others = asideOrder(contents, moment.receiver);
    const here = contents[moment.receiver];
    const standing = [
      ...(here ? [[here, layout.receiver] as const] : []),
      ...asidePlaces(layout, others.length).map((place, i) => [others[i], place] as const),
    ];
    const shown = standing.slice(0, BEAKERS);
    const beaker = new Array<number>(4 * BEAKERS).fill(0);
    const fill = new Array<number>(2 * BEAKERS).fill(0);
    shown.forEach(([content, place], i) => {
      const by = dragged?.taken === content.slot ? dragged.by : 0;
      beaker.splice(4 * i, 4, place.x + by, place.base, place.height, place.radius);
      fill.splice(2 * i, 2, filledPx(content, place, nominal), STAIN.receivers + i);
    });
    this.panel.set({ beaker, fill });
    this.stain(
      moment,
      shown.map(([content]) => content),
      beakerDiameter(nominal) / 2,
      exaggerate,
    );
  }

  private stain(moment: Moment, receivers: readonly ReceiverContent[], beaker_cm: number, exaggerate: boolean): void {
    const { scenario, stains } = this;
    const { values } = scenario;
    const tip = tipSolution(scenario, moment);
    const changed = [
      stains.fill(STAIN.head, headSolution(scenario, moment), values['column.bore_cm'] / 2, exaggerate),
      stains.fill(STAIN.outlet, tip, OUTLET_CM, exaggerate),
      stains.fill(STAIN.drop, tip, diameterCm(dropAt(scenario, moment)) / 2, exaggerate),
      ...receivers.map(({ solution }, i) => stains.fill(STAIN.receivers + i, solution, beaker_cm, exaggerate)),
    ];
    if (changed.includes(true)) this.sendStains();
  }

  private sendStains(): void {
    this.panel.send('stains', STAIN_POINTS, STAIN_ROWS, this.stains.rgba);
  }

  private sendBed(): void {
    const { panel, bed } = this;
    panel.send('cells', bed.width, bed.height, bed.colours);
    panel.send('state', bed.width, bed.height, bed.state);
  }

  private surface({ receiver }: Layout, { scenario, moment }: Shown): number {
    const volume = moment.receivers[moment.receiver * (scenario.ions.length + 2)] ?? 0;
    return receiver.base - receiver.height * BEAKER_FULL * (volume / beakerVolume(scenario, moment));
  }
}

function filledPx({ volume_mL }: ReceiverContent, { height }: VesselPlace, nominal_mL: number): number {
  return height * BEAKER_FULL * (volume_mL / nominal_mL);
}

/** Px across a bead: true where that can be seen, else large enough to see, and larger for larger beads. */
function beadPx({ values }: Scenario, { pxPerCm }: Layout): number {
  const um = values['bed.bead_um'];
  const seen = SEEN_PX * Math.sqrt(um / SEEN_UM);
  return Math.min(BEAD_PX[1], Math.max(BEAD_PX[0], seen, um * 1e-4 * pxPerCm));
}

/** Greatest depth (cm) from the bed top over which a lane has lost its resin. */
function missingCm({ values }: Scenario, moment: Moment): number {
  const plates = values['bed.plates'];
  let deepest = 0;
  for (let lane = 0; lane < values['bed.lanes']; lane++) {
    let plate = 0;
    while (plate < plates && isMissing(moment, lane * plates + plate)) plate++;
    deepest = Math.max(deepest, plate);
  }
  return (deepest * values['bed.length_cm']) / plates;
}
