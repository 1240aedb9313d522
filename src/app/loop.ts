import type { ColumnStore } from '../store/column-store.ts';

/** Plays the store's run in real time, a tick per frame, for as long as it is playing. */
export function playLoop(store: ColumnStore): void {
  let last = 0;
  let running = false;
  const frame = (time_ms: number): void => {
    const elapsed_s = last === 0 ? 0 : (time_ms - last) / 1000;
    last = time_ms;
    void store.tick(elapsed_s);
    if (store.playing) requestAnimationFrame(frame);
    else running = false;
  };
  store.addEventListener('change', () => {
    if (!store.playing || running) return;
    running = true;
    last = 0;
    requestAnimationFrame(frame);
  });
}
