import { effect } from '@preact/signals-core';
import type { ColumnStore } from '../store/column-store.ts';

/** Where drawing is so slow that no frame comes, model time goes on all the same after this, ms. */
const FRAME_WAIT_MS = 250;

/** Plays the store's run in real time, a tick per frame, for as long as it is playing and the page is in sight. */
export function playLoop(store: ColumnStore): void {
  let last = 0;
  let running = false;
  let frame = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const next = (): void => {
    frame = requestAnimationFrame(play);
    timer = setTimeout(() => (document.hidden ? undefined : play()), FRAME_WAIT_MS);
  };
  const play = (): void => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
    const time_ms = performance.now();
    void store.tick(last === 0 ? 0 : (time_ms - last) / 1000);
    last = time_ms;
    if (store.playing) next();
    else running = false;
  };
  effect(() => {
    if (!store.playing || running) return;
    running = true;
    last = 0;
    next();
  });
}
