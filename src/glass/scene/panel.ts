import { coverProgram, sendTexels, smoothTexture } from './gl.ts';
import bed from './shader/bed.glsl?raw';
import common from './shader/common.glsl?raw';
import main from './shader/panel.glsl?raw';
import tube from './shader/tube.glsl?raw';
import vessel from './shader/vessel.glsl?raw';

/** Values of the picture by the names that the shader gives them. */
export type PanelValues = Readonly<Partial<Record<ValueName, readonly number[]>>>;

const SIZES = {
  room: 3,
  dark: 1,
  tube: 4,
  bed: 4,
  turn: 3,
  head: 4,
  outlet: 4,
  clampOpen: 1,
  drop: 4,
  beaker: 4,
  fill: 2,
  ruler: 4,
  zero: 1,
  mark: 1,
} as const;
type ValueName = keyof typeof SIZES;

const TEXTURES = ['cells', 'state', 'stains'] as const;
export type TextureName = (typeof TEXTURES)[number];

/** The picture of the glass: one program over the whole canvas, with three small textures. */
export class Panel {
  private readonly gl: WebGL2RenderingContext;
  private readonly places = new Map<ValueName, WebGLUniformLocation | null>();
  private program: WebGLProgram | undefined;
  private textures: readonly WebGLTexture[] = [];
  /** Set while the last picture may still be in the making. */
  private drawn: WebGLSync | undefined;

  constructor(canvas: HTMLCanvasElement) {
    const gl = canvas.getContext('webgl2', { alpha: true, antialias: false, depth: false, premultipliedAlpha: true });
    if (!gl) throw new Error('drawing of the glass: expected WebGL 2, the browser gives none');
    this.gl = gl;
    this.build();
  }

  /** Makes everything on the graphics side; again after the context was lost. */
  build(): void {
    const { gl } = this;
    const program = coverProgram(gl, [common, bed, tube, vessel, main].join('\n'));
    gl.useProgram(program);
    this.program = program;
    this.drawn = undefined;
    this.textures = TEXTURES.map((_, unit) => smoothTexture(gl, unit));
    for (const [unit, name] of TEXTURES.entries()) gl.uniform1i(gl.getUniformLocation(program, name), unit);
    // The type of the keys is lost on the way through Object.keys.
    for (const name of Object.keys(SIZES) as ValueName[]) this.places.set(name, gl.getUniformLocation(program, name));
  }

  set(values: PanelValues): void {
    for (const [name, numbers] of Object.entries(values) as [ValueName, readonly number[]][])
      this.gl[SETTERS[SIZES[name]]](this.places.get(name) ?? null, numbers);
  }

  send(name: TextureName, width: number, height: number, rgba: Uint8Array): void {
    sendTexels(this.gl, TEXTURES.indexOf(name), width, height, rgba);
  }

  /** `dense`: pixels per px. */
  size(width: number, height: number, dense: number): void {
    const { canvas } = this.gl;
    canvas.width = Math.round(width * dense);
    canvas.height = Math.round(height * dense);
    this.gl.viewport(0, 0, canvas.width, canvas.height);
    this.set({ room: [width, height, dense] });
  }

  draw(): void {
    this.gl.clear(this.gl.COLOR_BUFFER_BIT);
    this.gl.drawArrays(this.gl.TRIANGLE_STRIP, 0, 4);
    this.drawn = this.gl.fenceSync(this.gl.SYNC_GPU_COMMANDS_COMPLETE, 0) ?? undefined;
    this.gl.flush();
  }

  /** Whether the last picture is done, so that pictures do not queue up where they take long. */
  ready(): boolean {
    const { gl, drawn } = this;
    if (!drawn) return true;
    if (gl.getSyncParameter(drawn, gl.SYNC_STATUS) !== gl.SIGNALED) return false;
    gl.deleteSync(drawn);
    this.drawn = undefined;
    return true;
  }

  dispose(): void {
    for (const texture of this.textures) this.gl.deleteTexture(texture);
    this.gl.deleteProgram(this.program ?? null);
  }
}

const SETTERS = { 1: 'uniform1fv', 2: 'uniform2fv', 3: 'uniform3fv', 4: 'uniform4fv' } as const;
