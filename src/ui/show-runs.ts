import { emit } from './emit.ts';

/** Asks the page to show the list of kept runs. */
export function showRuns(host: EventTarget): void {
  emit(host, 'bf-show-runs', undefined);
}
