import { AT } from '../../../sim/column/bed.ts';
import { type Checkpoint, checkpointOf, restoreTo, type Run } from '../../../sim/run/run.ts';

// Runs on one column whose logs begin alike share that beginning: a later one goes on from where they part, and is the same run
// bit for bit (`trail.test.ts`).

/** What has been seen of a run so far; mL. */
export interface Sights<Look> {
  stored: Look;
  loaded?: Look | undefined;
  washed?: Look | undefined;
  /** Delivered when the sample went in, and when to look again. */
  loadedAt: number;
  next: number;
  looks: Look[];
}

/** A point of a run at which an action of its log became the next. */
interface Stop<Look> {
  readonly entry: number;
  readonly point: Checkpoint;
  readonly sights: Sights<Look>;
  readonly looks: number;
}

/** Where a run has passed. `marks` are the entries of its log at which it is looked at. */
export class Trail<Look> {
  readonly run: Run;
  readonly sights: Sights<Look>;
  /** Actions of the log that were taken over from another run. */
  shared = 0;
  private readonly marks: readonly number[];
  private readonly stops: Stop<Look>[] = [];

  constructor(run: Run, marks: readonly number[], sights: Sights<Look>) {
    this.run = run;
    this.marks = marks;
    this.sights = sights;
  }

  /** Remembers the present if another action has become the next. */
  mark(): void {
    const entry = this.run.bed.scalar[AT.entry];
    if (entry === this.stops.at(-1)?.entry) return;
    this.stops.push({ entry, point: checkpointOf(this.run), sights: { ...this.sights }, looks: this.sights.looks.length });
  }

  /** Puts a run that has not begun to where its log parts from the other's. */
  follow(other: Trail<Look>): void {
    if (columnOf(other.run) !== columnOf(this.run)) return;
    const alike = this.alikeWith(other);
    const stop = other.stops.findLast(({ entry }) => entry < alike);
    if (!stop) return;
    const { record, events } = other.run;
    Object.assign(this.run.record, { rows: record.rows.slice(), profiles: record.profiles.slice() });
    this.run.events.splice(0, Number.POSITIVE_INFINITY, ...events);
    restoreTo(this.run, stop.point);
    this.shared = stop.entry;
    this.stops.push(...other.stops.slice(0, other.stops.indexOf(stop) + 1));
    Object.assign(this.sights, { ...stop.sights, looks: stop.sights.looks.slice(0, stop.looks) });
  }

  /** Actions at the beginning that both logs have, of those before the marks differ. */
  private alikeWith(other: Trail<Look>): number {
    const differ = this.run.log.findIndex((action, entry) => JSON.stringify(action) !== JSON.stringify(other.run.log[entry]));
    const marked = this.marks.flatMap((mark, i) => (mark === other.marks[i] ? [] : [Math.min(mark, other.marks[i]) + 1]));
    return Math.min(differ < 0 ? this.run.log.length : differ, ...marked);
  }
}

/** All that a run depends on but its log. */
function columnOf({ scenario: { procedure: _log, ...column } }: Run): string {
  return JSON.stringify(column);
}
