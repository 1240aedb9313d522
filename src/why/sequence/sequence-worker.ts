/// <reference lib="webworker" />
import { findSequence, type Progress, type Sequence, type SequenceGoal } from '../../../sim/sequence/index.ts';
import type { Alive } from '../../store/threads/errand.ts';
import { signOfLife } from '../../store/threads/watchdog.ts';
import type { Scenario } from '../../../sim/terms/types.ts';

// Searches for a programme of acids beside the page; ended from outside to cancel.

export interface SequenceRequest {
  readonly scenario: Scenario;
  readonly goal: SequenceGoal;
}

export type SequenceReply =
  | { readonly kind: 'progress'; readonly progress: Progress }
  | { readonly kind: 'found'; readonly sequence: Sequence | undefined }
  | { readonly kind: 'failed'; readonly message: string };

self.onmessage = ({ data }: MessageEvent<SequenceRequest>) => {
  try {
    tell({
      kind: 'found',
      sequence: findSequence(
        data.scenario,
        data.goal,
        (progress) => tell({ kind: 'progress', progress }),
        signOfLife(() => tell({ alive: true })),
      ),
    });
  } catch (error) {
    tell({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
};

function tell(reply: SequenceReply | Alive): void {
  self.postMessage(reply);
}
