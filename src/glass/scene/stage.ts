import { WebGLRenderer } from 'three';
import type { Scenario } from '../../../sim/terms/types.ts';
import { ColumnScene, type Shown } from './column-scene.ts';
import type { Layout } from '../layout.ts';
import { dropAt } from '../../store/drop.ts';
import { approach, dropsPerSecond, FALL_S, STREAM_HZ, type Turning } from './motion.ts';
import { Resolution } from './resolution.ts';

/** How the run goes on, for what drips. */
export interface Pace {
  readonly playing: boolean;
  /** Model time over real time. */
  readonly speed: number;
  /** Nothing moves by itself. */
  readonly still: boolean;
}

/** ms of rest after which a frame is drawn again at full resolution. */
const REST_MS = 200;
/** More pixels per CSS pixel than this show nothing more. */
const DENSEST = 2;
/** Longest step of a turn, s: after a pause it goes on, it does not jump. */
const STEP_S = 0.1;

const STILL: Turning = { at: 0, speed: 0 };

/** Draws a column on a canvas, and only when something has changed. */
export class Stage {
  private readonly renderer: WebGLRenderer;
  private readonly column: ColumnScene;
  private readonly resolution = new Resolution();
  private layout: Layout | undefined;
  private shown: Shown | undefined;
  private pace: Pace = { playing: false, speed: 1, still: true };
  private side: Turning = STILL;
  private down: Turning = STILL;
  private sideTarget = 0;
  private downTarget = 0;
  private drops = 0;
  private fallStart = Number.NEGATIVE_INFINITY;
  private dirty = false;
  private full = true;
  private last = 0;
  private request = 0;
  private rest: ReturnType<typeof setTimeout> | undefined;
  private lost = false;

  constructor(canvas: HTMLCanvasElement, scenario: Scenario) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.setClearAlpha(0);
    this.column = new ColumnScene(scenario);
    this.column.look(0, 0);
  }

  place(layout: Layout): void {
    this.layout = layout;
    this.column.place(layout);
    this.size();
    this.wake();
  }

  show(shown: Shown, pace: Pace): void {
    const { moment, scenario } = shown;
    const drops = Math.floor(moment.delivered_mL / dropAt(scenario, moment));
    if (drops > this.drops && pace.playing && this.shown) this.fallStart = performance.now();
    this.drops = drops;
    this.pace = pace;
    if (shown.moment !== this.shown?.moment || shown.labels !== this.shown?.labels || shown.exaggerate !== this.shown?.exaggerate) this.column.show(shown);
    this.shown = shown;
    this.wake();
  }

  /** Turns to a side and looks down by so much, at once or settling. */
  look(sideDeg: number, downDeg: number, atOnce: boolean): void {
    this.sideTarget = sideDeg;
    this.downTarget = downDeg;
    if (atOnce || this.pace.still) {
      this.side = { at: sideDeg, speed: 0 };
      this.down = { at: downDeg, speed: 0 };
    }
    this.wake();
  }

  markDepth(share: number | undefined): void {
    this.column.markDepth(share);
    this.wake();
  }

  /** After the drawing context was lost, and when it is back. */
  setLost(lost: boolean): void {
    this.lost = lost;
    if (!lost) this.wake();
  }

  dispose(): void {
    cancelAnimationFrame(this.request);
    clearTimeout(this.rest);
    this.lost = true;
    this.column.dispose();
    this.renderer.dispose();
  }

  private wake(): void {
    this.dirty = true;
    if (this.request === 0) this.request = requestAnimationFrame((now) => this.frame(now));
  }

  private frame(now: number): void {
    this.request = 0;
    if (this.lost || !this.layout || !this.dirty) return;
    this.dirty = false;
    clearTimeout(this.rest);
    const since = now - this.last;
    this.last = now;
    const moving = this.move(Math.min(STEP_S, since / 1000), now);
    this.setFull(this.resolution.note(since));
    this.renderer.render(this.column.scene, this.column.camera);
    if (moving) this.wake();
    else this.rest = setTimeout(() => this.drawStill(), REST_MS);
  }

  /** Moves turn and drops on; whether anything will move in the next frame too. */
  private move(seconds: number, now: number): boolean {
    this.side = approach(this.side, this.sideTarget, seconds);
    this.down = approach(this.down, this.downTarget, seconds);
    this.column.look(this.side.at, this.down.at);
    const turning = this.side.at !== this.sideTarget || this.down.at !== this.downTarget;
    return this.drip(now) || turning;
  }

  private drip(now: number): boolean {
    const { shown, pace } = this;
    if (!shown) return false;
    const rate = dropsPerSecond(shown.moment.flow, dropAt(shown.scenario, shown.moment), pace.speed);
    const runs = pace.playing && !pace.still && shown.moment.flow > 0;
    const streaming = runs && rate > STREAM_HZ;
    const falling_s = (now - this.fallStart) / 1000;
    const falling = runs && !streaming && falling_s < FALL_S;
    this.column.drip({ hanging: !pace.still && !streaming, falling_s: falling ? Math.max(0, falling_s) : undefined, streaming });
    return falling;
  }

  /** Leaves the reduced resolution only for a still picture. */
  private setFull(stepped: boolean): void {
    const reduced = this.resolution.share < 1;
    if (!stepped && this.full !== reduced) return;
    this.full = !reduced;
    this.size();
  }

  private drawStill(): void {
    if (this.lost || this.full) return;
    this.full = true;
    this.size();
    this.renderer.render(this.column.scene, this.column.camera);
  }

  private size(): void {
    if (!this.layout) return;
    const dense = Math.min(DENSEST, devicePixelRatio);
    this.renderer.setPixelRatio(this.full ? dense : dense * this.resolution.share);
    this.renderer.setSize(this.layout.width, this.layout.height, false);
  }
}
