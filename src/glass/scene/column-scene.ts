import { Group, OrthographicCamera, Scene } from 'three';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { BedMesh } from './bed-mesh.ts';
import { bedPaint, isMissing } from '../bed-paint.ts';
import { diameterCm, Drops } from './drops.ts';
import { asidePlaces, BEAKER_FULL, type Layout, type VesselPlace } from '../layout.ts';
import { beakerVolume, headSolution, receiverContents, tipSolution } from './liquids.ts';
import { dropAt } from '../../store/drop.ts';
import { hangingShare } from './motion.ts';
import { asideOrder } from '../sides.ts';
import { heightIn, Tube } from './tube.ts';
import { Vessel } from './vessel.ts';

// The whole drawing: column, drops and receivers in px, the middle of the bed at the origin. Only the bed turns; what is
// the same from all sides faces the camera, so that the receivers stay where they stand.

/** What the scene shows. */
export interface Shown {
  readonly scenario: Scenario;
  readonly moment: Moment;
  readonly labels: readonly string[];
  readonly exaggerate: boolean;
}

/** What leaves the tip at this instant. */
export interface Dripping {
  readonly hanging: boolean;
  readonly falling_s: number | undefined;
  readonly streaming: boolean;
}

/** px from the origin to the camera; nothing of the drawing reaches that far. */
const FAR = 4000;
/** Largest drop, px. */
const DROP_MAX = 11;

export class ColumnScene {
  readonly scene = new Scene();
  readonly camera = new OrthographicCamera(-1, 1, 1, -1, 1, 2 * FAR);
  private readonly bed: BedMesh;
  private readonly tube = new Tube();
  private readonly drops = new Drops();
  private readonly under = new Vessel();
  private readonly aside: Vessel[] = [];
  private readonly shelf = new Group();
  private readonly scenario: Scenario;
  private layout: Layout | undefined;
  private shown: Shown | undefined;

  constructor(scenario: Scenario) {
    this.scenario = scenario;
    this.bed = new BedMesh(scenario.values['bed.lanes'], scenario.values['bed.plates']);
    this.scene.add(this.bed.group, this.tube.group, this.drops.group, this.under.group, this.shelf);
  }

  place(layout: Layout): void {
    this.layout = layout;
    const middle = (layout.bedTop + layout.bedBottom) / 2;
    Object.assign(this.camera, { left: -layout.width / 2, right: layout.width / 2, top: middle, bottom: middle - layout.height });
    this.camera.updateProjectionMatrix();
    this.bed.place(layout);
    this.tube.place(layout);
    stand(this.under, layout.receiver, layout);
    if (this.shown) this.show(this.shown);
  }

  show(shown: Shown): void {
    this.shown = shown;
    const { layout, scenario } = this;
    if (!layout) return;
    const { moment, exaggerate } = shown;
    const paint = bedPaint(scenario, exaggerate);
    paint.paint(moment);
    this.bed.paint(paint, moment);
    this.tube.fill(headSolution(scenario, moment), moment.level_cm, missingCm(scenario, moment), scenario.values['column.bore_cm'], exaggerate);
    this.tube.drain(tipSolution(scenario, moment), moment.clampOpen, exaggerate);
    this.drops.tint(tipSolution(scenario, moment), dropAt(scenario, moment), exaggerate);
    this.pourOut(layout, shown);
  }

  /** Turns the bed so that this side faces the camera, and looks down on it by this much. */
  look(sideDeg: number, downDeg: number): void {
    this.bed.group.rotation.y = (sideDeg * Math.PI) / 180;
    const down = (downDeg * Math.PI) / 180;
    this.camera.position.set(0, FAR * Math.sin(down), FAR * Math.cos(down));
    this.camera.lookAt(0, 0, 0);
  }

  markDepth(share: number | undefined): void {
    this.bed.markDepth(share);
  }

  drip({ hanging, falling_s, streaming }: Dripping): void {
    const { layout, shown } = this;
    if (!layout || !shown) return;
    const drop_mL = dropAt(shown.scenario, shown.moment);
    const size = Math.min(DROP_MAX, diameterCm(drop_mL) * layout.pxPerCm * layout.widening);
    const up = heightIn(layout);
    this.drops.show(
      up(layout.tip),
      up(this.surface(layout, shown)),
      size,
      hanging ? hangingShare(shown.moment.delivered_mL, drop_mL) : undefined,
      falling_s,
      streaming,
    );
  }

  dispose(): void {
    for (const part of [this.bed, this.tube, this.drops, this.under, ...this.aside]) part.dispose();
  }

  private pourOut(layout: Layout, { moment, labels, exaggerate }: Shown): void {
    const contents = receiverContents(this.scenario, moment, labels);
    const nominal = beakerVolume(this.scenario, moment);
    const here = contents[moment.receiver];
    if (here) this.under.fill(here, nominal, exaggerate);
    const others = asideOrder(contents, moment.receiver);
    const places = asidePlaces(layout, others.length);
    places.forEach((place, i) => {
      const vessel = this.asideVessel(i);
      vessel.group.visible = true;
      stand(vessel, place, layout);
      vessel.fill(others[i], nominal, exaggerate);
    });
    for (const vessel of this.aside.slice(places.length)) vessel.group.visible = false;
  }

  private asideVessel(i: number): Vessel {
    const vessel = this.aside[i] ?? new Vessel();
    if (!this.aside[i]) {
      this.aside.push(vessel);
      this.shelf.add(vessel.group);
    }
    return vessel;
  }

  private surface({ receiver }: Layout, { scenario, moment }: Shown): number {
    const volume = moment.receivers[moment.receiver * (scenario.ions.length + 2)] ?? 0;
    return receiver.base - receiver.height * BEAKER_FULL * (volume / beakerVolume(scenario, moment));
  }
}

function stand({ group }: Vessel, { x, base, height }: VesselPlace, layout: Layout): void {
  group.position.set(x - layout.centre, heightIn(layout)(base), 0);
  group.scale.setScalar(height / 100);
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
