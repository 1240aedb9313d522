// Plate height of a bed of beads with a linear isotherm. cm and s; u superficial, v = u/eps interstitial velocity.

export interface Bead {
  /** Diameter, cm. */
  readonly d: number;
  readonly eps: number;
  /** Retention factor; K = k eps/(1-eps) is bead over liquid. */
  readonly k: number;
  /** Diffusivity in the bead and in the liquid, cm²/s. */
  readonly Ds: number;
  readonly Dm: number;
}

export interface Height {
  readonly packing: number;
  readonly along: number;
  readonly bead: number;
  readonly film: number;
  readonly total: number;
}

/** Film coefficient, Sh = (1.09/eps)(Re Sc)^(1/3): Wilson and Geankoplis 1966, Ind. Eng. Chem. Fundam. 5, 9 (range read, 1.09 recalled). */
export function filmCoefficient({ d, eps, Dm }: Bead, u: number): number {
  return ((1.09 / eps) * Math.cbrt((u * d) / Dm) * Dm) / d;
}

/** Rate of the linear driving force, 1/s: 1/kL = r²/(15 Ds) + K r/(3 kf) (Glueckauf 1955, recalled). */
export function drivingForceRate(bead: Bead, u: number): number {
  const r = bead.d / 2;
  return 1 / ((r * r) / (15 * bead.Ds) + (capacityRatio(bead) * r) / (3 * filmCoefficient(bead, u)));
}

/** H = 2 gamma Dm/v + 1.64 r q + 2 k v/(1+k)² (r²/(15 Ds) + K r/(3 kf)): exact second moment (Kubin 1965, Kucera 1965, recalled). */
export function plateHeight(bead: Bead, u: number, obstruction = 0.67, q = 1): Height {
  const { d, eps, k, Ds, Dm } = bead;
  const r = d / 2;
  const v = u / eps;
  const lag = (2 * k * v) / (1 + k) ** 2;
  const parts = {
    packing: 1.64 * r * q,
    along: (2 * obstruction * Dm) / v,
    bead: (lag * r * r) / (15 * Ds),
    film: (lag * capacityRatio(bead) * r) / (3 * filmCoefficient(bead, u)),
  };
  return { ...parts, total: parts.packing + parts.along + parts.bead + parts.film };
}

/** Glueckauf's own formula with superficial u (1955, after Helfferich 1962, recalled); L = k eps is resin over liquid per volume of bed. */
export function glueckaufHeight({ d, eps, k, Ds, Dm }: Bead, u: number): number {
  const r = d / 2;
  const L = k * eps;
  return 1.64 * r + (L / (L + eps) ** 2) * ((0.142 * r * r * u) / Ds) + (L / (L + eps)) ** 2 * ((0.266 * r * r * u) / (Dm * (1 + 70 * r * u)));
}

function capacityRatio({ k, eps }: Bead): number {
  return (k * eps) / (1 - eps);
}
