import type { Scenario } from '../../../sim/terms/types.ts';
import type { Layout } from '../layout.ts';
import { Column, type Shown } from './column.ts';
import type { Dripping } from './drips.ts';
import { dropAt } from '../../store/drop.ts';
import { approach, dropsPerSecond, FALL_S, STREAM_HZ, type Turning } from './motion.ts';
import { Panel } from './panel.ts';
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
/** More pixels per px than this show nothing more. */
const DENSEST = 2;
/** Pixels per px from which one sample a pixel is enough for beads. */
const SHARP = 1.6;
/** Longest step of a turn, s: after a pause it goes on, it does not jump. */
const STEP_S = 0.1;

/** Draws a column on a canvas, and only when something has changed. */
export class Stage {
  /** Pictures drawn so far. */
  frames = 0;
  /** Of the last picture, which may be older than what was asked for. */
  pictured: Shown['moment'] | undefined;
  /** What leaves the tip in the last of them. */
  dripping: Dripping = { hanging: false, falling_s: undefined, streaming: false };
  private readonly drawn: () => void;
  private readonly panel: Panel;
  private readonly column: Column;
  private readonly resolution = new Resolution();
  private layout: Layout | undefined;
  private shown: Shown | undefined;
  private pace: Pace = { playing: false, speed: 1, still: true };
  private side: Turning = { at: 0, speed: 0 };
  private sideTarget = 0;
  private dark = false;
  private drops = 0;
  /** A drop has let go since the last picture; it falls from the next one on, however long that takes. */
  private letGo = false;
  private fallStart = Number.NEGATIVE_INFINITY;
  private dirty = false;
  private full = true;
  private last = 0;
  private request = 0;
  private rest: ReturnType<typeof setTimeout> | undefined;
  private lost = false;

  /** `drawn` is called when another moment has come into the picture. */
  constructor(canvas: HTMLCanvasElement, scenario: Scenario, drawn: () => void) {
    this.drawn = drawn;
    this.panel = new Panel(canvas);
    this.column = new Column(this.panel, scenario);
  }

  /** Whether nothing waits to be drawn and the last picture is done. */
  get resting(): boolean {
    return this.request === 0 && this.panel.ready();
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
    if (drops > this.drops && pace.playing && this.shown) this.letGo = true;
    this.drops = drops;
    this.pace = pace;
    const before = this.shown;
    if (!before || (['moment', 'labels', 'exaggerate', 'dragged'] as const).some((name) => shown[name] !== before[name])) this.column.show(shown);
    this.shown = shown;
    this.wake();
  }

  /** Turns to a side, at once or settling. */
  look(sideDeg: number, atOnce: boolean): void {
    this.sideTarget = sideDeg;
    if (atOnce || this.pace.still) this.side = { at: sideDeg, speed: 0 };
    this.wake();
  }

  markDepth(depth_cm: number | undefined): void {
    this.column.markDepth(depth_cm);
    this.wake();
  }

  /** Whether the page round the glass is dark. */
  shade(dark: boolean): void {
    this.dark = dark;
    this.panel.set({ dark: [dark ? 1 : 0] });
    this.wake();
  }

  /** After the drawing context was lost, and when it is back. */
  setLost(lost: boolean): void {
    this.lost = lost;
    if (lost) return;
    this.panel.build();
    this.column.resend();
    this.size();
    this.shade(this.dark);
  }

  dispose(): void {
    cancelAnimationFrame(this.request);
    clearTimeout(this.rest);
    this.lost = true;
    this.panel.dispose();
  }

  private wake(): void {
    this.dirty = true;
    if (this.request === 0) this.request = requestAnimationFrame((now) => this.frame(now));
  }

  private frame(now: number): void {
    this.request = 0;
    if (this.lost || !this.layout || !this.dirty) return;
    if (!this.panel.ready()) return this.wake();
    this.dirty = false;
    clearTimeout(this.rest);
    const since = now - this.last;
    this.last = now;
    const moving = this.move(Math.min(STEP_S, since / 1000), now);
    this.setFull(this.resolution.note(since));
    this.draw();
    if (moving) this.wake();
    else this.rest = setTimeout(() => this.drawStill(), REST_MS);
  }

  /** Moves turn and drops on; whether anything will move in the next frame too. */
  private move(seconds: number, now: number): boolean {
    this.side = approach(this.side, this.sideTarget, seconds);
    return this.drip(now) || this.side.at !== this.sideTarget;
  }

  private drip(now: number): boolean {
    const { shown, pace } = this;
    if (!shown) return false;
    const rate = dropsPerSecond(shown.moment.flow, dropAt(shown.scenario, shown.moment), pace.speed);
    const runs = pace.playing && !pace.still && shown.moment.flow > 0;
    const streaming = runs && rate > STREAM_HZ;
    if (this.letGo) this.fallStart = now;
    this.letGo = false;
    const seconds = (now - this.fallStart) / 1000;
    const falling = runs && !streaming && seconds < FALL_S;
    this.dripping = { hanging: !pace.still && !streaming, falling_s: falling ? Math.max(0, seconds) : undefined, streaming };
    this.column.drip(this.dripping);
    return falling;
  }

  private draw(): void {
    this.column.look(this.side.at, this.full && devicePixelRatio < SHARP && this.side.at === this.sideTarget);
    this.panel.draw();
    this.frames++;
    const { moment } = this.shown ?? {};
    if (moment === this.pictured) return;
    this.pictured = moment;
    this.drawn();
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
    this.draw();
  }

  private size(): void {
    if (this.layout) this.panel.size(this.layout.width, this.layout.height, this.density());
  }

  private density(): number {
    const dense = Math.min(DENSEST, devicePixelRatio);
    return this.full ? dense : dense * this.resolution.share;
  }
}
