import { CylinderGeometry, DataTexture, DoubleSide, Group, LinearFilter, Mesh, MeshBasicMaterial, RepeatWrapping, SRGBColorSpace } from 'three';
import type { BedPaint } from '../bed-paint.ts';
import { BedPattern } from '../bed-pattern.ts';
import type { Layout } from '../layout.ts';
import { release, screenColour } from './shapes.ts';
import { wallLanes } from '../sides.ts';
import type { Moment } from '../../store/threads/planner.ts';

const SEGMENTS = 96;
/** Pixels of the pattern of marks round the bed: about its circumference on screen. */
const ROUND_PX = 208;
/** Thickness of the line that marks a depth and of the pale line behind it, px. */
const LINE = 1.5;
const HALO = 4;

/** The bed as seen through the glass: its wall, coloured by sector and cell, its top, marks of damage and a depth line. */
export class BedMesh {
  /** Turn it about its axis to see another side. */
  readonly group = new Group();
  private readonly lanes: readonly number[];
  private readonly plates: number;
  private readonly texels: Uint8Array<ArrayBuffer>;
  private readonly texture: DataTexture;
  private readonly wall: Mesh<CylinderGeometry, MeshBasicMaterial>;
  private painted: BedPaint | undefined;
  private version = -1;
  private readonly pattern: BedPattern;
  private readonly patternTexture: DataTexture;
  private readonly marks: Mesh<CylinderGeometry, MeshBasicMaterial>;
  private readonly top: Mesh<CylinderGeometry, MeshBasicMaterial>;
  private readonly lines: readonly Mesh<CylinderGeometry, MeshBasicMaterial>[];

  constructor(lanes: number, plates: number) {
    this.lanes = wallLanes(lanes);
    this.plates = plates;
    this.texels = new Uint8Array(4 * this.lanes.length * plates);
    this.texture = roundTexture(this.texels, this.lanes.length, plates, this.lanes.length);
    this.wall = wallMesh(new MeshBasicMaterial({ map: this.texture, alphaTest: 0.5, side: DoubleSide, toneMapped: false }));
    this.pattern = new BedPattern(this.lanes, plates, Math.ceil(ROUND_PX / this.lanes.length));
    this.patternTexture = roundTexture(new Uint8Array(this.pattern.rgba.buffer as ArrayBuffer), this.pattern.width, this.pattern.height, this.lanes.length);
    this.marks = wallMesh(new MeshBasicMaterial({ map: this.patternTexture, transparent: true, toneMapped: false }));
    this.marks.visible = false;
    this.top = new Mesh(new CylinderGeometry(1, 1, 1, SEGMENTS), new MeshBasicMaterial({ toneMapped: false }));
    this.lines = [HALO, LINE].map((thickness, i) => {
      const line = wallMesh(new MeshBasicMaterial({ color: screenColour(i === 0 ? [1, 1, 1] : [0.09, 0.12, 0.17]), toneMapped: false }));
      line.userData['thickness'] = thickness;
      line.visible = false;
      return line;
    });
    this.group.add(this.wall, this.marks, this.top, ...this.lines);
  }

  /** Puts the bed in its place; the middle of the bed is at height 0. */
  place({ radius, bedTop, bedBottom }: Layout): void {
    const height = bedBottom - bedTop;
    this.wall.scale.set(radius, height, radius);
    this.marks.scale.set(radius + 0.4, height, radius + 0.4);
    this.top.scale.set(radius - 0.6, 0.5, radius - 0.6);
    this.top.position.y = height / 2 - 0.5;
    for (const [i, line] of this.lines.entries()) line.scale.set(radius + 0.8 + 0.4 * i, line.userData['thickness'], radius + 0.8 + 0.4 * i);
  }

  paint(paint: BedPaint, moment: Moment): void {
    if (paint !== this.painted || paint.version !== this.version) this.colour(paint);
    this.top.visible = paint.rgba[3] > 0;
    if (!this.pattern.draw(moment)) return;
    this.patternTexture.needsUpdate = true;
    this.marks.visible = this.pattern.marked;
  }

  /** Marks a depth, as a share of the bed; none if undefined. */
  markDepth(share: number | undefined): void {
    for (const line of this.lines) {
      line.visible = share !== undefined;
      line.position.y = this.wall.scale.y * (0.5 - (share ?? 0));
    }
  }

  private colour(paint: BedPaint): void {
    this.painted = paint;
    this.version = paint.version;
    const width = this.lanes.length;
    for (const [column, lane] of this.lanes.entries()) {
      for (let plate = 0; plate < this.plates; plate++) {
        const from = 4 * (lane * this.plates + plate);
        const to = 4 * (plate * width + column);
        for (let channel = 0; channel < 4; channel++) this.texels[to + channel] = paint.rgba[from + channel];
      }
    }
    this.texture.needsUpdate = true;
    this.top.material.color.setRGB(paint.rgba[0] / 255, paint.rgba[1] / 255, paint.rgba[2] / 255, SRGBColorSpace);
  }

  dispose(): void {
    for (const mesh of [this.wall, this.marks, this.top, ...this.lines]) release(mesh);
    this.texture.dispose();
    this.patternTexture.dispose();
  }
}

/** A cylinder of radius and height 1 without ends, its texture running as lanes do: front, left, back, right; top row first. */
function wallMesh(material: MeshBasicMaterial): Mesh<CylinderGeometry, MeshBasicMaterial> {
  return new Mesh(new CylinderGeometry(1, 1, 1, SEGMENTS, 1, true), material);
}

/**
 * Sector i is centred at i/sectors of a turn. three runs its cylinder's texture from the front by the right and its rows from
 * the bottom, so both run backwards here; half a sector brings the middle of the first to the front.
 */
function roundTexture(pixels: Uint8Array<ArrayBuffer>, width: number, height: number, sectors: number): DataTexture {
  const texture = new DataTexture(pixels, width, height);
  texture.colorSpace = SRGBColorSpace;
  texture.wrapS = RepeatWrapping;
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearFilter;
  texture.repeat.set(-1, -1);
  texture.offset.set(1 + 0.5 / sectors, 1);
  return texture;
}
