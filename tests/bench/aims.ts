// What the model should take, beside what it took before; figures of a quiet two-core machine, wall time.
interface Aim {
  readonly name: string;
  readonly aim_ms: number;
  /** Measured before steps followed what moves; empty where nobody had. */
  readonly former: string;
}

export const AIMS = {
  thirteen: { name: 'case of 65.6 mL, 13 lanes of 100 cells', aim_ms: 35, former: '168 to 199 ms' },
  one: { name: 'the same, one lane', aim_ms: 3, former: '13.7 ms' },
  receiver: { name: 'recompute after the last receiver change was moved', aim_ms: 20, former: '64 to 102 ms' },
  third: { name: 'recompute the last third after a changed pour', aim_ms: 20, former: '64 to 102 ms' },
  day: { name: 'lab day of 271 mL, 13 lanes of 60 cells', aim_ms: 150, former: '' },
  thousand: { name: 'a thousand one-lane aliquots (cathode leach), two threads', aim_ms: 5000, former: '' },
} as const satisfies Readonly<Record<string, Aim>>;

export type AimId = keyof typeof AIMS;

export interface Found {
  readonly id: AimId;
  /** Best wall time, and processor time of all threads in the best repeat by it. */
  readonly wall_ms: number;
  readonly processor_ms: number;
  readonly repeats: number;
}

export function verdict({ id, wall_ms }: Found): string {
  return wall_ms <= AIMS[id].aim_ms ? 'met' : 'not met';
}

/** The table of DEVELOPERS.md. */
export function markdown(found: readonly Found[], circumstances: string): string {
  const rows = found.map((one) => {
    const { name, aim_ms, former } = AIMS[one.id];
    return [name, former, time(one.wall_ms), time(one.processor_ms), time(aim_ms), verdict(one)];
  });
  return [circumstances, '', aligned([['model', 'former, quiet machine', 'now', 'processor time', 'aim', ''], ...rows])].join('\n');
}

/** A table as the formatter leaves it; its first row is the heading. */
export function aligned(cells: readonly (readonly string[])[]): string {
  const widths = cells[0].map((_, i) => Math.max(3, ...cells.map((row) => row[i].length)));
  const line = (row: readonly string[]): string => `| ${row.map((cell, i) => cell.padEnd(widths[i])).join(' | ')} |`;
  const rule = `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`;
  return [line(cells[0]), rule, ...cells.slice(1).map(line)].join('\n');
}

/** The text with what stands between the two markers replaced. */
export function between(text: string, marker: string, inside: string): string {
  const [start, end] = [`<!-- ${marker} -->`, `<!-- /${marker} -->`];
  const [from, to] = [text.indexOf(start), text.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`expected the markers ${start} and ${end}, in this order`);
  return `${text.slice(0, from + start.length)}\n\n${inside}\n\n${text.slice(to)}`;
}

export function time(ms: number): string {
  return ms < 1000 ? `${Number(ms.toPrecision(3))} ms` : `${Number((ms / 1000).toPrecision(3))} s`;
}
