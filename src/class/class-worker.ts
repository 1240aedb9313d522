/// <reference lib="webworker" />
import { type ClassAnswer, type ClassTask, classAnswer } from '../../sim/class/index.ts';
import { type Taken, takenIn } from '../../sim/handed/index.ts';
import type { Alive } from '../store/threads/errand.ts';
import { signOfLife } from '../store/threads/watchdog.ts';
import type { Scenario } from '../../sim/terms/types.ts';

// Computes handed-in runs again, and virtual groups; one piece of work at a time.

export type ClassRequest =
  /** `shipped`: the JSON of the scenario that the file names, if it names one that is known. */
  | { readonly do: 'take'; readonly file: string; readonly source: string; readonly shipped: unknown }
  | { readonly do: 'group'; readonly scenario: Scenario; readonly task: ClassTask };

export type ClassReply = { readonly ok: true; readonly value: Taken | ClassAnswer } | { readonly ok: false; readonly message: string };

self.onmessage = async ({ data }: MessageEvent<ClassRequest>) => {
  try {
    say({ ok: true, value: await answer(data) });
  } catch (error) {
    say({ ok: false, message: error instanceof Error ? error.message : String(error) });
  }
};

async function answer(request: ClassRequest): Promise<Taken | ClassAnswer> {
  const alive = signOfLife(() => say({ alive: true }));
  if (request.do === 'group') return classAnswer(request.scenario, request.task, alive);
  return takenIn(request.file, request.source, async () => request.shipped, alive);
}

function say(reply: ClassReply | Alive): void {
  self.postMessage(reply);
}
