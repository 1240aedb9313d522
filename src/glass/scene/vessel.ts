import { type BufferGeometry, Group, type Mesh, type MeshBasicMaterial } from 'three';
import { vesselStops } from '../../../sim/colour/liquid.ts';
import { BEAKER_FULL, BEAKER_WIDTH } from '../layout.ts';
import { beakerDiameter, EXAGGERATION, type ReceiverContent, stainOf } from './liquids.ts';
import { barsMesh, latheMesh, liquidTint, plainTint, release, rimTint, tintInto } from './shapes.ts';

/** Colours of glass and ink, sRGB: drawn on the edges, never over what is looked at. */
export const GLASS_EDGE = [0.36, 0.44, 0.52] as const;
export const INK = [0.09, 0.12, 0.17] as const;
/** Thickness of the wall and of the dark line where liquid meets it, px, for a beaker of height 100. */
const WALL = 3;
const MENISCUS = 3;
/** Marks on a beaker: at each tenth of its nominal volume, every second one longer. */
const MARKS = 10;

/** A beaker of height 100 standing on 0, with marks, that fills and takes the colour of what is in it. */
export class Vessel {
  readonly group = new Group();
  private readonly liquid: Mesh<BufferGeometry, MeshBasicMaterial>;
  private readonly meniscus: Mesh<BufferGeometry, MeshBasicMaterial>;
  private readonly glass: readonly Mesh<BufferGeometry, MeshBasicMaterial>[];
  private stain = '';

  constructor() {
    const radius = 50 * BEAKER_WIDTH;
    const inside = radius - WALL;
    this.liquid = latheMesh([
      [0, 0],
      [inside, 0],
      [inside, 1],
      [0, 1],
    ]);
    this.meniscus = latheMesh(
      [
        [inside, 0],
        [inside, MENISCUS],
      ],
      { transparent: true },
    );
    tintInto(this.meniscus, plainTint(INK, 0.35));
    const wall = latheMesh(
      [
        [radius, -WALL],
        [radius, 97],
        [radius + 2, 100],
      ],
      { transparent: true },
    );
    tintInto(wall, rimTint(GLASS_EDGE, 0.8, 0.75));
    const base = latheMesh(
      [
        [0, -WALL - 0.5],
        [radius, -WALL - 0.5],
        [radius, 0],
      ],
      { transparent: true },
    );
    tintInto(base, plainTint(GLASS_EDGE, 0.45));
    this.glass = [wall, base, marks(radius)];
    this.liquid.position.y = 0.2;
    this.meniscus.renderOrder = 1;
    wall.renderOrder = base.renderOrder = 2;
    this.group.add(this.liquid, this.meniscus, ...this.glass);
  }

  fill({ volume_mL, solution }: ReceiverContent, nominal_mL: number, exaggerate: boolean): void {
    const height = 100 * BEAKER_FULL * (volume_mL / nominal_mL);
    this.liquid.visible = this.meniscus.visible = height > 0.05;
    this.liquid.scale.y = Math.max(height, 0.05);
    this.meniscus.position.y = height;
    const stain = `${nominal_mL} ${stainOf(solution, exaggerate)}`;
    if (stain === this.stain) return;
    this.stain = stain;
    const options = { exaggerate: exaggerate ? EXAGGERATION : 1 };
    tintInto(this.liquid, liquidTint(vesselStops(solution, beakerDiameter(nominal_mL) / 2, options)));
  }

  dispose(): void {
    for (const mesh of [this.liquid, this.meniscus, ...this.glass]) release(mesh);
  }
}

function marks(radius: number): Mesh<BufferGeometry, MeshBasicMaterial> {
  const bars = Array.from({ length: MARKS }, (_, i) => {
    const length = (i % 2 === 1 ? 0.36 : 0.22) * radius;
    return [0.06 * radius, (100 * BEAKER_FULL * (i + 1)) / MARKS, length, 0.9] as const;
  });
  const mesh = barsMesh(bars, INK, 0.55);
  mesh.position.z = radius + 1;
  mesh.renderOrder = 3;
  return mesh;
}
