// Elementary functions that give the same bits on every engine. The language leaves Math.exp, Math.log, `**` and their kin to the engine,
// and engines differ in the last place; here only operations are used whose rounding IEEE 754 fixes: + - * / and the square root.
// Method and coefficients of exp, ln, log10, sine and cosine: FDLIBM 5.3, Sun Microsystems 1993 (from memory; checked in
// tests/sim/math/elementary.test.ts against decimal arithmetic of 40 digits).

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
const LARGEST_EXP = 709.782712893384;
const SMALLEST_EXP = -745.1332191019412;
const SMALLEST_NORMAL = 2.2250738585072014e-308;
const TWO_54 = 18014398509481984;

const BITS = new DataView(new ArrayBuffer(8));

/** e to the x. */
export function exp(x: number): number {
  if (Number.isNaN(x)) return x;
  if (x > LARGEST_EXP) return Number.POSITIVE_INFINITY;
  if (x < SMALLEST_EXP) return 0;
  const k = Math.round(x / Math.LN2);
  const high = x - k * LN2_HIGH;
  const low = k * LN2_LOW;
  const r = high - low;
  const t = r * r;
  const c =
    r - t * (0.16666666666666602 + t * (-0.0027777777777015593 + t * (6.613756321437934e-5 + t * (-1.6533902205465252e-6 + t * 4.1381367970572385e-8))));
  return scaled(1 - (low - (r * c) / (2 - c) - high), k);
}

/** 10 to the x: whole powers come from the decimal notation itself, so they are exact to the last place. */
export function pow10(x: number): number {
  if (Number.isNaN(x)) return x;
  const n = Math.round(x);
  if (n > 308 || n < -307) return exp(x * Math.LN10);
  return n === x ? TENS[n + 307] : TENS[n + 307] * exp((x - n) * Math.LN10);
}

const TENS = Float64Array.from({ length: 616 }, (_, i) => Number(`1e${i - 307}`));

/** Natural logarithm. Negative numbers give NaN, 0 gives minus infinity. */
export function ln(x: number): number {
  if (!(x > 0) || x === Number.POSITIVE_INFINITY) return x === 0 ? Number.NEGATIVE_INFINITY : x > 0 ? x : Number.NaN;
  const k = split(x);
  return lnNear(part.mantissa, k);
}

/** Common logarithm; exact for whole powers of ten up to 1e22. */
export function log10(x: number): number {
  if (!(x > 0) || x === Number.POSITIVE_INFINITY) return ln(x);
  const k = split(x);
  // A mantissa of 1 to 2 for positive exponents and of 0.5 to 1 for negative ones keeps the two parts of the same sign.
  const whole = part.mantissa < 1 && k > 0 ? k - 1 : part.mantissa >= 1 && k < 0 ? k + 1 : k;
  const rest = part.mantissa * (whole === k ? 1 : whole < k ? 2 : 0.5);
  return whole * 3.694239077158931e-13 + 0.4342944819032518 * ln(rest) + whole * 0.30102999566361177;
}

/** ln(1 + x) without loss for small x (Kahan). */
export function log1p(x: number): number {
  const u = 1 + x;
  return u === 1 ? x : (ln(u) * x) / (u - 1);
}

/** x to the y, x not negative unless y is whole. The whole part of y is multiplied out, so that only the rest meets the logarithm. */
export function power(x: number, y: number): number {
  const n = Math.abs(y) <= 64 ? Math.trunc(y) : 0;
  const multiplied = n < 0 ? 1 / whole(x, -n) : whole(x, n);
  return n === y || x === 0 ? (x === 0 && y > 0 ? 0 : multiplied) : multiplied * exp((y - n) * ln(x));
}

/** Cube root of any number: a start from the logarithm, then two steps of Newton's method. */
export function cbrt(x: number): number {
  if (x === 0 || !Number.isFinite(x)) return x;
  const size = Math.abs(x);
  let root = exp(ln(size) / 3);
  for (let i = 0; i < 2; i++) root -= (root - size / (root * root)) / 3;
  return x < 0 ? -root : root;
}

export function asinh(x: number): number {
  const size = Math.abs(x);
  const value = log1p(size + (size * size) / (1 + Math.sqrt(1 + size * size)));
  return x < 0 ? -value : value;
}

/** Sine and cosine of angles up to some thousand turns, rad. */
export function sin(x: number): number {
  return quadrant(x, 0);
}

export function cos(x: number): number {
  return quadrant(x, 1);
}

export function tan(x: number): number {
  return sin(x) / cos(x);
}

const part = { mantissa: 1 };

/** Takes x apart into 2^k times a mantissa from sqrt(1/2) to sqrt(2); the mantissa goes to `part`. */
function split(x: number): number {
  const lifted = x < SMALLEST_NORMAL;
  BITS.setFloat64(0, lifted ? x * TWO_54 : x);
  const word = BITS.getUint32(0);
  let k = (word >>> 20) - 1023 - (lifted ? 54 : 0);
  BITS.setUint32(0, (word & 0xfffff) | 0x3ff00000);
  part.mantissa = BITS.getFloat64(0);
  if (part.mantissa > Math.SQRT2) {
    part.mantissa /= 2;
    k += 1;
  }
  return k;
}

function lnNear(mantissa: number, k: number): number {
  const f = mantissa - 1;
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const odd = w * (0.3999999999940942 + w * (0.22222198432149784 + w * 0.15313837699209373));
  const even = z * (0.6666666666666735 + w * (0.2857142874366239 + w * (0.1818357216161805 + w * 0.14798198605116586)));
  const half = 0.5 * f * f;
  return k * LN2_HIGH - (half - (s * (half + odd + even) + k * LN2_LOW) - f);
}

/** y times 2^k. Subnormal results are reached in two steps. */
function scaled(y: number, k: number): number {
  if (k < -1021) return y * binary(k + 54) * 5.551115123125783e-17;
  return k > 1023 ? y * 2 * binary(k - 1) : y * binary(k);
}

function binary(k: number): number {
  BITS.setUint32(0, (k + 1023) << 20);
  BITS.setUint32(4, 0);
  return BITS.getFloat64(0);
}

function whole(x: number, n: number): number {
  let result = 1;
  let factor = x;
  for (let left = n; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result *= factor;
    factor *= factor;
  }
  return result;
}

function quadrant(x: number, ahead: number): number {
  if (!Number.isFinite(x)) return Number.NaN;
  const n = Math.round((x * 2) / Math.PI);
  const r = x - n * 1.5707963267341256 - n * 6.077100506506192e-11;
  const turn = (((n + ahead) % 4) + 4) % 4;
  const value = turn % 2 === 0 ? sinNear(r) : cosNear(r);
  return turn < 2 ? value : -value;
}

function sinNear(x: number): number {
  const z = x * x;
  const rest = 0.00833333333332249 + z * (-0.0001984126982985795 + z * (2.7557313707070068e-6 + z * (-2.5050760253406863e-8 + z * 1.58969099521155e-10)));
  return x + z * x * (-0.16666666666666632 + z * rest);
}

function cosNear(x: number): number {
  const z = x * x;
  const rest =
    0.0416666666666666 +
    z * (-0.001388888888887411 + z * (2.480158728947673e-5 + z * (-2.7557314351390663e-7 + z * (2.087572321298175e-9 + z * -1.1359647557788195e-11))));
  return 1 - (0.5 * z - z * z * rest);
}
