import { emit } from './emit.ts';

/** Shortest time between two spoken lines; a screen reader needs about this long for one short sentence. Common practice, no source. */
export const ANNOUNCE_INTERVAL_MS = 2000;

/** Asks the shell to speak a line politely. */
export function announce(host: EventTarget, text: string): void {
  emit(host, 'bf-announce', text);
}

/**
 * Wraps `say` so that it is called at most once per interval. The first line is said at once; of those that arrive
 * while waiting only the last is said, because the older ones describe a bed that is no longer there.
 */
export function paced(say: (text: string) => void, interval_ms: number = ANNOUNCE_INTERVAL_MS): (text: string) => void {
  let waiting: string | undefined;
  let resting = false;

  function rest(): void {
    resting = true;
    setTimeout(wake, interval_ms);
  }

  function wake(): void {
    resting = false;
    if (waiting === undefined) return;
    const text = waiting;
    waiting = undefined;
    rest();
    say(text);
  }

  return (text) => {
    waiting = text;
    if (!resting) wake();
  };
}
