import { tickIncrement, ticks } from 'd3-array';

// Straight, logarithmic and square-root scales, with the ticks of d3. The scales of d3 itself bring colours, dates and number
// formats along, ten times the size; `tests/src/plot/scale.test.ts` compares the two.

type Pair = readonly [number, number];

/** From a quantity to a place in the drawing, px. Setters give the scale itself back; `copy` first where the other is still needed. */
export interface Scale {
  (value: number): number;
  invert(place: number): number;
  domain(): [number, number];
  domain(ends: readonly number[]): Scale;
  range(): [number, number];
  range(ends: readonly number[]): Scale;
  /** Keeps places within the range. */
  clamp(on: boolean): Scale;
  /** Widens the domain to round values, about `count` of them. */
  nice(count?: number): Scale;
  /** Round values of the domain, about `count` of them. */
  ticks(count?: number): number[];
  copy(): Scale;
}

/** What makes a scale: a function that grows evenly along it and its inverse, its ticks, and its round ends. */
interface Kind {
  readonly from: (value: number) => number;
  readonly back: (even: number) => number;
  readonly ticks: (ends: Pair, count: number) => number[];
  readonly nice: (ends: Pair, count: number) => Pair;
}

interface Settings {
  readonly domain: Pair;
  readonly range: Pair;
  readonly clamped: boolean;
}

const UNIT: Settings = { domain: [0, 1], range: [0, 1], clamped: false };
/** Rounding widens the domain and may so coarsen the step; where that does not settle they stay as they were. */
const NICE_ROUNDS = 10;
const USUAL_COUNT = 10;

export function scaleLinear(): Scale {
  return scaleOf({ from: (value) => value, back: (even) => even, ticks: evenTicks, nice: evenEnds }, UNIT);
}

export function scaleSqrt(): Scale {
  const from = (value: number): number => Math.sign(value) * Math.sqrt(Math.abs(value));
  return scaleOf({ from, back: (even) => even * Math.abs(even), ticks: evenTicks, nice: evenEnds }, UNIT);
}

/** Decades; the domain has to be above zero. */
export function scaleLog(): Scale {
  const back = (even: number): number => 10 ** even;
  return scaleOf({ from: Math.log10, back, ticks: decadeTicks, nice: decadeEnds }, { ...UNIT, domain: [1, 10] });
}

function scaleOf(kind: Kind, start: Settings): Scale {
  let settings = start;
  const place = (value: number): number => {
    const { domain, range, clamped } = settings;
    return along(range, shareOf([kind.from(domain[0]), kind.from(domain[1])], kind.from(value)), clamped);
  };
  const set = (changed: Partial<Settings>): Scale => {
    settings = { ...settings, ...changed };
    return scale;
  };
  const scale: Scale = Object.assign(place, {
    invert: (at: number) => {
      const { domain, range, clamped } = settings;
      return kind.back(along([kind.from(domain[0]), kind.from(domain[1])], shareOf(range, at), clamped));
    },
    domain: ((ends?: readonly number[]) => (ends ? set({ domain: pair(ends) }) : [...settings.domain])) as Scale['domain'],
    range: ((ends?: readonly number[]) => (ends ? set({ range: pair(ends) }) : [...settings.range])) as Scale['range'],
    clamp: (clamped: boolean) => set({ clamped }),
    nice: (count = USUAL_COUNT) => set({ domain: kind.nice(settings.domain, count) }),
    ticks: (count = USUAL_COUNT) => kind.ticks(settings.domain, count),
    copy: () => scaleOf(kind, settings),
  });
  return scale;
}

function shareOf([from, to]: Pair, value: number): number {
  // In an empty stretch everything stands in the middle.
  return to === from ? (Number.isNaN(value) ? value : 0.5) : (value - from) / (to - from);
}

function along([from, to]: Pair, share: number, clamped: boolean): number {
  const kept = clamped ? Math.max(0, Math.min(1, share)) : share;
  return from * (1 - kept) + to * kept;
}

function pair([from = 0, to = 0]: readonly number[]): Pair {
  return [from, to];
}

function evenTicks([from, to]: Pair, count: number): number[] {
  return ticks(from, to, count);
}

function evenEnds([from, to]: Pair, count: number): Pair {
  if (to < from) return [...evenEnds([to, from], count)].reverse() as [number, number];
  let ends: Pair = [from, to];
  let before = Number.NaN;
  for (let round = 0; round < NICE_ROUNDS; round++) {
    const step = tickIncrement(ends[0], ends[1], count);
    if (step === before) return ends;
    if (step === 0 || !Number.isFinite(step)) break;
    // A negative increment is the inverse of the step.
    ends =
      step > 0 ? [Math.floor(ends[0] / step) * step, Math.ceil(ends[1] / step) * step] : [Math.ceil(ends[0] * step) / step, Math.floor(ends[1] * step) / step];
    before = step;
  }
  return [from, to];
}

/** Every figure of every decade where there is room, else whole powers of ten. */
function decadeTicks([a, b]: Pair, count: number): number[] {
  const [from, to] = [Math.min(a, b), Math.max(a, b)];
  const [low, high] = [Math.log10(from), Math.log10(to)];
  const values =
    high - low < count ? figures(from, to) : ticks(low, high, Math.min(high - low, count)).map((even) => (Number.isInteger(even) ? tenTo(even) : 10 ** even));
  const enough = values.length * 2 < count ? ticks(from, to, count) : values;
  return b < a ? enough.reverse() : enough;
}

function figures(from: number, to: number): number[] {
  const found: number[] = [];
  for (let power = Math.floor(Math.log10(from)); power <= Math.ceil(Math.log10(to)); power++)
    for (let figure = 1; figure < 10; figure++) {
      // A quotient of whole numbers is nearer to the decimal than a product with a negative power.
      const value = power < 0 ? figure / tenTo(-power) : figure * tenTo(power);
      if (value >= from && value <= to) found.push(value);
    }
  return found;
}

function decadeEnds([a, b]: Pair): Pair {
  const low = (value: number): number => tenTo(Math.floor(Math.log10(value)));
  const high = (value: number): number => tenTo(Math.ceil(Math.log10(value)));
  return a <= b ? [low(a), high(b)] : [high(a), low(b)];
}

/** A whole power of ten, to the last digit; the operator is a unit in the last place off for some. */
function tenTo(power: number): number {
  return Number(`1e${power}`);
}
