import { isRecord, own } from '../../../sim/input/index.ts';
import type { Calibration } from './calibrate.ts';

/** Significant figures of a fitted number in the file: more than any interval justifies. */
const FIGURES = 6;

/**
 * The JSON of a scenario with the fitted numbers in it and their status beside them. Numbers that the measurements leave open take the
 * value that goes with the others, or the lab would not give back its readings, but get no status. If all are open nothing changes.
 */
export function fittedJson(json: unknown, { parameters }: Calibration, date: string): Readonly<Record<string, unknown>> {
  let written: Readonly<Record<string, unknown>> = isRecord(json) ? json : {};
  const notes: Record<string, unknown> = { ...recordOf(own(json, 'fitted')) };
  if (parameters.every(({ open }) => open)) return written;
  for (const { path, value, before, interval, open } of parameters) {
    if (open && rounded(value) === rounded(before)) continue;
    const [group = '', name = ''] = path.split('.');
    written = { ...written, [group]: { ...recordOf(own(written, group)), [name]: rounded(value) } };
    if (!open) notes[path] = { date, low: rounded(interval[0]), high: rounded(interval[1]) };
  }
  return { ...written, fitted: notes };
}

/** Takes one number, now typed by hand, out of the note of a fit. Returns the same JSON if the note did not name it. */
export function withoutNote(json: unknown, path: string): unknown {
  const notes = own(json, 'fitted');
  if (!isRecord(json) || !isRecord(notes) || !Object.hasOwn(notes, path)) return json;
  const kept = without(notes, path);
  return Object.keys(kept).length === 0 ? without(json, 'fitted') : { ...json, fitted: kept };
}

function without(record: Readonly<Record<string, unknown>>, key: string): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(record).filter(([one]) => one !== key));
}

function recordOf(value: unknown): Readonly<Record<string, unknown>> {
  return isRecord(value) ? value : {};
}

function rounded(value: number): number {
  return Number(value.toPrecision(FIGURES));
}
