/// <reference lib="webworker" />
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import { Planner } from './planner.ts';
import { readRun } from './reading.ts';
import { signOfLife } from './watchdog.ts';

// The model's thread: answers one request at a time, in order.

export type Request =
  | { readonly call: number; readonly do: 'read'; readonly json: unknown; readonly id: string; readonly log: unknown }
  | { readonly call: number; readonly do: 'open'; readonly scenario: Scenario; readonly log: Log }
  | { readonly call: number; readonly do: 'plan'; readonly log: Log }
  | { readonly call: number; readonly do: 'rough'; readonly log: Log }
  | { readonly call: number; readonly do: 'moment'; readonly time_min: number };

export type Reply =
  /** Still at work. */
  | { readonly alive: true }
  | { readonly call: number; readonly ok: true; readonly value: unknown }
  | { readonly call: number; readonly ok: false; readonly message: string };

let planner: Planner | undefined;

self.onmessage = (event: MessageEvent<Request>) => {
  const { call } = event.data;
  try {
    reply({ call, ok: true, value: answer(event.data) });
  } catch (error) {
    reply({ call, ok: false, message: error instanceof Error ? error.message : String(error) });
  }
};

function answer(request: Request): unknown {
  if (request.do === 'read') return readRun(request.json, request.id, request.log);
  if (request.do === 'open') {
    planner = new Planner(
      request.scenario,
      signOfLife(() => reply({ alive: true })),
    );
    return planner.plan(request.log);
  }
  if (planner === undefined) throw new Error(`${request.do}: expected an open scenario; received none`);
  if (request.do === 'plan') return planner.plan(request.log);
  if (request.do === 'rough') return planner.rough(request.log);
  return planner.moment(request.time_min);
}

function reply(message: Reply): void {
  self.postMessage(message, { transfer: 'value' in message ? arraysIn(message.value) : [] });
}

/** Buffers of the arrays in a reply, so that they move instead of being copied. */
function arraysIn(value: unknown): ArrayBuffer[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap((part) => (ArrayBuffer.isView(part) && part.buffer instanceof ArrayBuffer ? [part.buffer] : []));
}
