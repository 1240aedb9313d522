/** What is needed of a worker that is asked and answers; tests replace it by a plain object. */
export interface Thread<Asked, Answered> {
  onmessage: ((event: MessageEvent<Answered>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(asked: Asked): void;
  terminate(): void;
}
