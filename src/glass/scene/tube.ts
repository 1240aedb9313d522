import { BoxGeometry, type BufferGeometry, Group, Mesh, MeshBasicMaterial } from 'three';
import { vesselStops } from '../../../sim/colour/liquid.ts';
import type { Solution } from '../../../sim/colour/mixture.ts';
import type { Layout } from '../layout.ts';
import { EXAGGERATION, stainOf } from './liquids.ts';
import { latheMesh, liquidTint, plainTint, release, type Ring, rimTint, screenColour, shapeInto, tintInto } from './shapes.ts';
import { GLASS_EDGE, INK } from './vessel.ts';

type Body = Mesh<BufferGeometry, MeshBasicMaterial>;

/** px. */
const WALL = 4;
const MENISCUS = 4;
const CONE = 16;
/** The same as a share of a short outlet. */
const CONE_SHARE = 0.3;
/** Inner radius of the outlet tube, cm, for the colour in it; common small tubing, assumed. */
const OUTLET_CM = 0.15;
/** Narrowest the squeezed tube gets, as a share of its width. */
const PINCHED = 0.12;
const JAW = { width: 13, height: 11, depth: 16 } as const;

/** The glass tube with the liquid above the bed, the support, the outlet tube and its clamp. Heights from the middle of the bed. */
export class Tube {
  readonly group = new Group();
  private readonly head = latheMesh([
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ]);
  private readonly meniscus = latheMesh(
    [
      [1, 0],
      [1, 1],
    ],
    { transparent: true },
  );
  private readonly wall = latheMesh(
    [
      [1, 0],
      [1, 1],
      [1, 2],
    ],
    { transparent: true },
  );
  private readonly shine = latheMesh(
    [
      [1, 0],
      [1, 1],
    ],
    { transparent: true },
  );
  private readonly support = latheMesh([
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ]);
  private readonly outlet = latheMesh(outletRings(1, 1, 0, 0, 1));
  private readonly hose = latheMesh(outletRings(1, 1, 0, 0, 1), { transparent: true });
  private readonly jaws: readonly Mesh<BoxGeometry, MeshBasicMaterial>[];
  private layout: Layout | undefined;
  private headStain = '';
  private outletStain = '';

  constructor() {
    this.jaws = [-1, 1].map(
      () => new Mesh(new BoxGeometry(JAW.width, JAW.height, JAW.depth), new MeshBasicMaterial({ color: screenColour([0.36, 0.25, 0.19]), toneMapped: false })),
    );
    tintInto(this.meniscus, plainTint(INK, 0.4));
    tintInto(this.wall, rimTint(GLASS_EDGE, 0.84, 0.85));
    tintInto(this.shine, (across) => [1, 1, 1, across > -0.95 && across < -0.85 ? 0.55 : 0]);
    tintInto(this.support, (across) => [0.74 - 0.2 * across * across, 0.75 - 0.2 * across * across, 0.76 - 0.2 * across * across, 1]);
    tintInto(this.hose, rimTint(GLASS_EDGE, 0.45, 0.9));
    this.meniscus.renderOrder = 1;
    this.wall.renderOrder = this.hose.renderOrder = 2;
    this.shine.renderOrder = 3;
    this.group.add(...this.bodies(), ...this.jaws);
  }

  place(layout: Layout): void {
    const { radius, bedTop, bedBottom, rim, support } = layout;
    this.layout = layout;
    const up = heightIn(layout);
    const outside = radius + WALL;
    shapeInto(this.wall, [
      [outside, up(bedBottom + support)],
      [outside, up(rim + 4)],
      [outside + 2, up(rim)],
    ]);
    shapeInto(this.shine, [
      [outside, up(bedBottom)],
      [outside, up(rim + 6)],
    ]);
    shapeInto(this.support, [
      [0, up(bedBottom + support)],
      [radius, up(bedBottom + support)],
      [radius, up(bedBottom + 0.5)],
      [0, up(bedBottom + 0.5)],
    ]);
    shapeInto(this.meniscus, [
      [radius - 0.3, up(bedTop)],
      [radius - 0.3, up(bedTop) + MENISCUS],
    ]);
  }

  /** Liquid down to so many cm below the bed top, where resin is missing. */
  fill(head: Solution, level_cm: number, missing_cm: number, bore_cm: number, exaggerate: boolean): void {
    const { layout } = this;
    if (!layout) return;
    const up = heightIn(layout);
    const surface = up(layout.above(level_cm));
    const bottom = up(layout.bedTop) - missing_cm * layout.pxPerCm;
    this.head.visible = this.meniscus.visible = level_cm > 1e-4;
    shapeInto(this.head, [
      [0, bottom],
      [layout.radius - 0.4, bottom],
      [layout.radius - 0.4, surface],
      [0, surface],
    ]);
    this.meniscus.position.y = surface - up(layout.bedTop);
    const stain = stainOf(head, exaggerate);
    if (stain === this.headStain) return;
    this.headStain = stain;
    tintInto(this.head, liquidTint(vesselStops(head, bore_cm / 2, { exaggerate: exaggerate ? EXAGGERATION : 1 })));
  }

  drain(tip: Solution, clampOpen: number, exaggerate: boolean): void {
    const { layout } = this;
    if (!layout) return;
    const { radius, outletRadius: bore, bedBottom, support, clamp, tip: end } = layout;
    const up = heightIn(layout);
    const pinched = bore * (PINCHED + (1 - PINCHED) * Math.sqrt(clampOpen));
    const heights = [up(bedBottom + support), up(clamp), up(end)] as const;
    shapeInto(this.outlet, outletRings(radius - 0.4, bore, ...heights, pinched));
    shapeInto(this.hose, outletRings(radius + WALL, bore + 2, ...heights, pinched + 2));
    for (const [i, jaw] of this.jaws.entries()) jaw.position.set((i === 0 ? -1 : 1) * (pinched + 2 + JAW.width / 2), up(clamp), 0);
    const stain = stainOf(tip, exaggerate);
    if (stain === this.outletStain) return;
    this.outletStain = stain;
    tintInto(this.outlet, liquidTint(vesselStops(tip, OUTLET_CM, { exaggerate: exaggerate ? EXAGGERATION : 1 })));
  }

  dispose(): void {
    for (const mesh of [...this.bodies(), ...this.jaws]) release(mesh);
  }

  private bodies(): readonly Body[] {
    return [this.head, this.meniscus, this.wall, this.shine, this.support, this.outlet, this.hose];
  }
}

/** Height above the middle of the bed at a y of the drawing. */
export function heightIn({ bedTop, bedBottom }: Layout): (y: number) => number {
  return (y) => (bedTop + bedBottom) / 2 - y;
}

/** From the tip up: a tube, squeezed at the clamp, widening to the tube of the bed. */
function outletRings(wide: number, bore: number, top: number, clamp: number, tip: number, pinched = bore): Ring[] {
  const half = JAW.height / 2;
  const neck = top - Math.min(CONE, CONE_SHARE * (top - tip));
  return [
    [0, tip],
    [bore, tip],
    [bore, clamp - half - 5],
    [pinched, clamp - half],
    [pinched, clamp + half],
    [bore, clamp + half + 5],
    [bore, neck],
    [wide, top],
  ];
}
