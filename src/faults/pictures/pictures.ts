import { targetOf } from '../../../sim/input/index.ts';
import { FAULTS, withFault } from '../../../sim/faults/index.ts';
import { deliveredAtEnd, progressOf, timeAt } from '../../../sim/history/index.ts';
import { FAULT_KINDS, type FaultKind } from '../../../sim/terms/fault-kinds.ts';
import type { Fault, Log, Scenario } from '../../../sim/terms/types.ts';
import type { ModelThread } from '../../store/threads/model-thread.ts';
import { tracked } from '../../store/tracked.ts';
import { type Picture, pictureOf } from './picture.ts';

/** Severity at which a fault is pictured, as a share of the most; a choice. */
export const PICTURED_SEVERITY = 0.6;
const LEFT_DEG = 90;
/** The pictures are small: a coarse bed shows the shape, and all of them are there within seconds. A choice. */
const COARSE = { 'bed.plates': 24, 'bed.lanes': 9 } as const;

/** Why there is no picture, where the procedure of the scenario never brings its wanted ion off the column. */
const NOTHING_LEAVES = 'The procedure of this scenario brings nothing wanted off the column, so there is no whole run to picture.';

/**
 * A picture of every fault, each from a run of the open scenario by its own procedure with that fault imposed, in a bed that is
 * packed beforehand, whatever the run on the bench has come to. The bed is seen at
 * the volume at which the healthy run has its weaker eluent poured: the band has been washed, and nothing has freed it yet.
 */
export class FaultPictures {
  @tracked healthy: Picture | undefined;
  @tracked of: ReadonlyMap<FaultKind, Picture> = new Map();
  @tracked failure = '';
  /** Nothing more will come. */
  @tracked done = false;
  private readonly makeThread: () => ModelThread;
  private thread: ModelThread | undefined;
  private drawn = '';

  constructor(makeThread: () => ModelThread) {
    this.makeThread = makeThread;
  }

  /** Draws the pictures of this scenario; calling it again for the same scenario does nothing. */
  async draw(written: Scenario): Promise<void> {
    const scenario = coarse(written);
    const key = JSON.stringify(scenario);
    if (key === this.drawn) return;
    this.stop();
    this.drawn = key;
    this.of = new Map();
    this.healthy = undefined;
    this.failure = '';
    this.done = false;
    const thread = this.makeThread();
    this.thread = thread;
    try {
      await this.drawAll(thread, scenario);
    } catch (error) {
      if (this.thread === thread) this.failure = error instanceof Error ? error.message : String(error);
    }
    if (this.thread !== thread) return;
    this.done = true;
    thread.close();
    this.thread = undefined;
  }

  /** Ends the runs; what is not drawn yet is drawn again next time. */
  stop(): void {
    if (!this.thread) return;
    this.thread.close();
    this.thread = undefined;
    this.drawn = '';
  }

  private async drawAll(thread: ModelThread, scenario: Scenario): Promise<void> {
    const { picture, seen_mL } = await healthyPicture(thread, scenario);
    if (this.thread !== thread) return;
    if (!picture || isEmpty(picture)) {
      this.failure = NOTHING_LEAVES;
      return;
    }
    this.healthy = picture;
    for (const kind of FAULT_KINDS) {
      const given = withFault(scenario, scenario.procedure, pictured(kind));
      const drawn = await drawnBy(thread, given.scenario, given.log, seen_mL);
      if (this.thread !== thread) return;
      if (drawn) this.of = new Map([...this.of, [kind, drawn]]);
    }
  }
}

/** A fault that has a side is pictured on the left, where it can be seen in the unrolled bed. */
export function pictured(kind: FaultKind): Fault {
  return { kind, severity: PICTURED_SEVERITY, ...(FAULTS[kind].hasSide ? { side_deg: LEFT_DEG } : {}) };
}

function coarse(written: Scenario): Scenario {
  // The procedure packs no bed: in a tube that begins empty all of it would be refused.
  return { ...written, faults: [], values: { ...written.values, ...COARSE, 'bench.packed': 1 } };
}

function isEmpty({ curves, target }: Picture): boolean {
  return !curves.some(({ ion, ys }) => ion === target && ys.some((y) => y > 0));
}

async function healthyPicture(thread: ModelThread, scenario: Scenario) {
  const plan = await thread.open(scenario, scenario.procedure);
  const seen_mL = progressOf(scenario, plan.events).eluent_mL ?? deliveredAtEnd(plan) / 2;
  return { seen_mL, picture: await drawnBy(thread, scenario, scenario.procedure, seen_mL) };
}

async function drawnBy(thread: ModelThread, scenario: Scenario, log: Log, seen_mL: number): Promise<Picture | undefined> {
  const target = targetOf(scenario);
  if (!target) return undefined;
  const plan = await thread.open(scenario, log);
  const moment = await thread.moment(timeAt(plan, Math.min(seen_mL, deliveredAtEnd(plan))));
  return pictureOf(scenario, plan, moment, target);
}
