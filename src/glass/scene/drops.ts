import { BackSide, Group, Mesh, MeshBasicMaterial, SphereGeometry } from 'three';
import { liquidColour } from '../../../sim/colour/liquid.ts';
import type { Solution } from '../../../sim/colour/mixture.ts';
import { EXAGGERATION, stainOf } from './liquids.ts';
import { fallen } from './motion.ts';
import { latheMesh, plainTint, release, screenColour, shapeInto, tintInto } from './shapes.ts';
import { INK } from './vessel.ts';

/** Diameter of a drop of this volume is that of a ball, cm; drawn in px at the scale of the tube's width. */
const OUTLINE = 1.18;
const STREAM_RADIUS = 1.6;

/** What leaves the tip: a drop that grows, one that falls, or a stream. */
export class Drops {
  readonly group = new Group();
  private readonly hanging = drop();
  private readonly falling = drop();
  private readonly stream = latheMesh([
    [STREAM_RADIUS, 0],
    [STREAM_RADIUS, 1],
  ]);

  private stain = '';

  constructor() {
    this.group.add(this.hanging, this.falling, this.stream);
    this.show(0, 0, 0, undefined, undefined, false);
  }

  tint(solution: Solution, drop_mL: number, exaggerate: boolean): void {
    const stain = stainOf(solution, exaggerate);
    if (stain === this.stain) return;
    this.stain = stain;
    const colour = liquidColour(solution, diameterCm(drop_mL), { exaggerate: exaggerate ? EXAGGERATION : 1 });
    for (const ball of [this.hanging, this.falling]) {
      const body = ball.children[0];
      if (body instanceof Mesh && body.material instanceof MeshBasicMaterial) body.material.color.copy(screenColour(colour));
    }
    tintInto(this.stream, (across) => (Math.abs(across) > 0.6 ? [0.55, 0.6, 0.66, 1] : plainTint(colour)(across, 0)));
  }

  /** `size` px of a whole drop; shares of a drop hanging and of the way fallen, if any. */
  show(tip: number, surface: number, size: number, hanging: number | undefined, fallingFor_s: number | undefined, streaming: boolean): void {
    const radius = (size / 2) * Math.cbrt(hanging ?? 0);
    this.hanging.visible = !streaming && radius > 0.4;
    this.hanging.scale.setScalar(radius);
    this.hanging.position.y = tip - radius * 0.8;
    this.falling.visible = !streaming && fallingFor_s !== undefined;
    this.falling.scale.setScalar(size / 2);
    this.falling.position.y = tip - size / 2 - (tip - size / 2 - surface) * fallen(fallingFor_s ?? 0);
    this.stream.visible = streaming;
    if (streaming)
      shapeInto(this.stream, [
        [STREAM_RADIUS, surface],
        [STREAM_RADIUS, tip],
      ]);
  }

  dispose(): void {
    release(this.stream);
    for (const ball of [this.hanging, this.falling]) for (const part of ball.children) if (part instanceof Mesh) release(part);
  }
}

export function diameterCm(drop_mL: number): number {
  return Math.cbrt((6 * drop_mL) / Math.PI);
}

function drop(): Group {
  const group = new Group();
  const body = new Mesh(new SphereGeometry(1, 20, 14), new MeshBasicMaterial({ toneMapped: false }));
  const outline = new Mesh(
    new SphereGeometry(OUTLINE, 20, 14),
    new MeshBasicMaterial({ color: screenColour(INK), side: BackSide, transparent: true, opacity: 0.55, toneMapped: false }),
  );
  group.add(body, outline);
  return group;
}
