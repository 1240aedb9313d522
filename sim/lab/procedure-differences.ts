import { isRecord, own } from '../input/index.ts';

// In what two procedures differ, in words of the bench. Takes any JSON; volumes are those that the actions name, no run is computed.

/** Shifts and volumes are told from here on, mL; no cylinder is read finer. A choice. */
const CLOSE_ML = 0.05;

/** Pours of one liquid in a row. */
interface Stretch {
  readonly liquid: string;
  readonly volume_mL: number;
}

/** A receiver put under the tip, after so many mL of the stretch it stands in. */
interface Change {
  readonly label: string;
  readonly stretch: number;
  readonly after_mL: number;
}

interface Course {
  readonly stretches: readonly Stretch[];
  readonly changes: readonly Change[];
  readonly pours: number;
  /** Pours onto the bed rather than down the wall. */
  readonly ontoBed: number;
  /** How often each other kind of action is taken. */
  readonly others: ReadonlyMap<string, number>;
  readonly clamp: string;
}

/** Such as "3 more pours; water 4.0 mL earlier"; empty where no volume, receiver or number of actions differs. `labels`: bottles by key. */
export function procedureDifferences(before: readonly unknown[], after: readonly unknown[], labels: (liquid: string) => string): string[] {
  const [was, now] = [courseOf(before), courseOf(after)];
  return [...pourWords(was, now), ...stretchWords(was, now, labels), ...changeWords(was, now), ...otherWords(was, now)];
}

function courseOf(actions: readonly unknown[]): Course {
  const stretches: Stretch[] = [];
  const changes: Change[] = [];
  const others = new Map<string, number>();
  const clamps: unknown[] = [];
  let [pours, ontoBed, delivered_mL] = [0, 0, 0];
  for (const action of actions) {
    const kind = own(action, 'do');
    if (kind === 'pour') {
      const [liquid, volume_mL] = [String(own(action, 'liquid')), numberIn(action, 'volume_mL')];
      const last = stretches.at(-1);
      if (last?.liquid === liquid) stretches[stretches.length - 1] = { liquid, volume_mL: last.volume_mL + volume_mL };
      else stretches.push({ liquid, volume_mL });
      if (last?.liquid !== liquid) delivered_mL = 0;
      pours += 1;
      ontoBed += own(action, 'how') === 'bed' ? 1 : 0;
    } else if (kind === 'receiver') changes.push({ label: String(own(action, 'label')), stretch: stretches.length - 1, after_mL: delivered_mL });
    else if (kind === 'wait') delivered_mL = deliveredAfter(own(action, 'until'), delivered_mL, stretches.at(-1)?.volume_mL ?? 0);
    else if (kind === 'clamp') clamps.push(own(action, 'open_percent'));
    else others.set(String(kind), (others.get(String(kind)) ?? 0) + 1);
  }
  return { stretches, changes, pours, ontoBed, others, clamp: clamps.join(', ') };
}

/** mL of this stretch that have run through after a wait: as many as it says, or all that was poured where it waits for the level. */
function deliveredAfter(until: unknown, delivered_mL: number, poured_mL: number): number {
  if (!isRecord(until)) return delivered_mL;
  if ('more_mL' in until) return delivered_mL + numberIn(until, 'more_mL');
  return 'liquid_mm' in until ? poured_mL : delivered_mL;
}

function pourWords(was: Course, now: Course): string[] {
  const [more, onto] = [now.pours - was.pours, now.ontoBed - was.ontoBed];
  return [
    ...(more === 0 ? [] : [`${counted(more, 'pour')}`]),
    ...(onto === 0
      ? []
      : [
          `${Math.abs(onto)} ${Math.abs(onto) === 1 ? 'pour' : 'pours'} ${onto > 0 ? 'onto the bed instead of down the wall' : 'down the wall instead of onto the bed'}`,
        ]),
  ];
}

/** A stretch that got longer or shorter moves the next one; the last has only its volume. */
function stretchWords({ stretches: was }: Course, { stretches: now }: Course, labels: (liquid: string) => string): string[] {
  const names = (list: readonly Stretch[]): string => list.map(({ liquid }) => labels(liquid)).join(', ');
  if (was.length !== now.length || was.some(({ liquid }, i) => liquid !== now[i].liquid)) return [`liquids in turn: ${names(now) || 'none'}`];
  return now.flatMap(({ liquid, volume_mL }, i) => {
    const more = volume_mL - was[i].volume_mL;
    if (Math.abs(more) < CLOSE_ML) return [];
    const next = now.at(i + 1);
    return [next ? `${labels(next.liquid)} ${mL(more)} ${more > 0 ? 'later' : 'earlier'}` : `${mL(more)} ${more > 0 ? 'more' : 'less'} ${labels(liquid)}`];
  });
}

/** Receivers by their label, counted from the liquid that was begun last before them. */
function changeWords({ changes: was }: Course, { changes: now }: Course): string[] {
  const gone = was.filter(({ label }) => !now.some((one) => one.label === label)).map(({ label }) => `no receiver “${label}”`);
  const told = now.flatMap(({ label, stretch, after_mL }) => {
    const old = was.find((one) => one.label === label);
    if (!old) return [`a receiver “${label}”`];
    if (old.stretch !== stretch) return [`receiver “${label}” ${stretch > old.stretch ? 'after' : 'before'} another liquid`];
    const later = after_mL - old.after_mL;
    return Math.abs(later) < CLOSE_ML ? [] : [`receiver “${label}” ${mL(later)} ${later > 0 ? 'later' : 'earlier'}`];
  });
  return [...gone, ...told];
}

function otherWords(was: Course, now: Course): string[] {
  const kinds = [...new Set([...was.others.keys(), ...now.others.keys()])];
  const counts = kinds.flatMap((kind) => {
    const more = (now.others.get(kind) ?? 0) - (was.others.get(kind) ?? 0);
    return more === 0 ? [] : [`“${kind}” ${Math.abs(more)} ${Math.abs(more) === 1 ? 'time' : 'times'} ${more > 0 ? 'more' : 'less'}`];
  });
  return was.clamp === now.clamp ? counts : [...counts, `clamp open to ${now.clamp || 'no'} % instead of ${was.clamp || 'no'} %`];
}

function counted(more: number, noun: string): string {
  return `${Math.abs(more)} ${more > 0 ? 'more' : 'fewer'} ${noun}${Math.abs(more) === 1 ? '' : 's'}`;
}

function mL(volume: number): string {
  return `${Number(Math.abs(volume).toFixed(1))} mL`;
}

function numberIn(value: unknown, key: string): number {
  const found = own(value, key);
  return typeof found === 'number' && Number.isFinite(found) ? found : 0;
}
