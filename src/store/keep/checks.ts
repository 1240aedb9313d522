import type { Issue } from '../../../sim/terms/types.ts';

export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** An issue with the received value in short. */
export function issue(path: string, expected: string, received: unknown): Issue {
  const text = received === undefined ? 'nothing' : (JSON.stringify(received) ?? String(received));
  return { path, expected, received: text.length > 60 ? `${text.slice(0, 57)}...` : text };
}
