import { BufferAttribute, BufferGeometry, Color, DoubleSide, FrontSide, Mesh, MeshBasicMaterial, SRGBColorSpace } from 'three';
import type { VesselStop } from '../../../sim/colour/liquid.ts';
import type { Rgb } from '../../../sim/colour/srgb.ts';

// Bodies of revolution that always show the camera the same side. They carry their colours in their corners and take no
// light, so what is computed is what appears.

/** Radius and height of one ring, px. */
export type Ring = readonly [radius: number, height: number];

/** Colour (sRGB, 0 to 1) and alpha at a place across a body, -1 left edge to 1 right edge as seen. */
export type Tint = (across: number, ring: number) => readonly [r: number, g: number, b: number, alpha: number];

const COLUMNS = 48;

const linear = new Color();

/** A body of rings from the bottom up; `tint` it before it shows anything. */
export function latheMesh(rings: readonly Ring[], { transparent = false } = {}): Mesh<BufferGeometry, MeshBasicMaterial> {
  const geometry = new BufferGeometry();
  const columns = COLUMNS + 1;
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(3 * columns * rings.length), 3));
  geometry.setAttribute('color', new BufferAttribute(new Float32Array(4 * columns * rings.length).fill(1), 4));
  const index: number[] = [];
  for (let ring = 0; ring + 1 < rings.length; ring++) {
    for (let column = 0; column < COLUMNS; column++) {
      const a = ring * columns + column;
      index.push(a, a + 1, a + columns, a + 1, a + columns + 1, a + columns);
    }
  }
  geometry.setIndex(index);
  const material = new MeshBasicMaterial({
    vertexColors: true,
    toneMapped: false,
    transparent,
    depthWrite: !transparent,
    side: transparent ? FrontSide : DoubleSide,
  });
  const mesh = new Mesh(geometry, material);
  mesh.frustumCulled = false;
  shapeInto(mesh, rings);
  return mesh;
}

/** Gives a body other rings, as many as it had. */
export function shapeInto(mesh: Mesh, rings: readonly Ring[]): void {
  const position = mesh.geometry.getAttribute('position');
  rings.forEach(([radius, height], ring) => {
    for (let column = 0; column <= COLUMNS; column++) {
      const angle = (2 * Math.PI * column) / COLUMNS;
      position.setXYZ(ring * (COLUMNS + 1) + column, radius * Math.sin(angle), height, radius * Math.cos(angle));
    }
  });
  position.needsUpdate = true;
}

export function tintInto(mesh: Mesh, tint: Tint): void {
  const colour = mesh.geometry.getAttribute('color');
  const rings = colour.count / (COLUMNS + 1);
  for (let ring = 0; ring < rings; ring++) {
    for (let column = 0; column <= COLUMNS; column++) {
      const [r, g, b, alpha] = tint(Math.sin((2 * Math.PI * column) / COLUMNS), ring);
      linear.setRGB(r, g, b, SRGBColorSpace);
      colour.setXYZW(ring * (COLUMNS + 1) + column, linear.r, linear.g, linear.b, alpha);
    }
  }
  colour.needsUpdate = true;
}

/** Tint of a clear liquid from the stops across its vessel; flat rings in the middle take the colour of the longest path. */
export function liquidTint(stops: readonly VesselStop[]): Tint {
  const last = stops.length - 1;
  return (across) => {
    const place = (Math.acos(-across) / Math.PI) * last;
    const below = Math.min(last - 1, Math.floor(place));
    const from = stops[below].colour;
    const to = stops[below + 1].colour;
    const share = place - below;
    return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1]), from[2] + share * (to[2] - from[2]), 1];
  };
}

/** One colour all over, with its alpha. */
export function plainTint([r, g, b]: Rgb, alpha = 1): Tint {
  return () => [r, g, b, alpha];
}

/** Clear in the middle, `edge` dark towards the edges from this share of the radius on. */
export function rimTint([r, g, b]: Rgb, from: number, alpha: number): Tint {
  return (across) => {
    const share = Math.max(0, (Math.abs(across) - from) / (1 - from));
    return [r, g, b, alpha * share * share * (3 - 2 * share)];
  };
}

/** Flat bars that face the camera, each x, y of its left end, length, thickness. */
export function barsMesh(
  bars: readonly (readonly [x: number, y: number, length: number, thickness: number])[],
  colour: Rgb,
  opacity = 1,
): Mesh<BufferGeometry, MeshBasicMaterial> {
  const corners = bars.flatMap(([x, y, length, thickness]) => {
    const low = y - thickness / 2;
    const high = y + thickness / 2;
    return [x, low, 0, x + length, low, 0, x + length, high, 0, x, high, 0];
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(corners), 3));
  geometry.setIndex(bars.flatMap((_, i) => [0, 1, 2, 0, 2, 3].map((corner) => 4 * i + corner)));
  const material = new MeshBasicMaterial({ color: screenColour(colour), transparent: opacity < 1, opacity, toneMapped: false });
  return new Mesh(geometry, material);
}

export function screenColour([r, g, b]: Rgb): Color {
  return new Color().setRGB(r, g, b, SRGBColorSpace);
}

export function release(mesh: Mesh): void {
  mesh.geometry.dispose();
  for (const material of [mesh.material].flat()) material.dispose();
}
