// Nine spectra with their XYZ and hex, computed by a separate program from the CIE 1931 table at 5 nm. The concentrations in
// `beads` are mol per litre of beads; slabs are seen against a perfect white.
import { bedCurve, type Curve, slabCurve } from './reference.ts';

export interface ColourCase {
  readonly name: string;
  readonly curve: Curve;
  readonly XYZ: readonly [number, number, number];
  readonly hex: string;
}

export const CASES: readonly ColourCase[] = [
  { name: 'amber bed, empty', curve: bedCurve({}, 25), XYZ: [0.4781, 0.4771, 0.2145], hex: '#dbb16e' },
  { name: 'amber bed, CoCl4 0.02 M', curve: bedCurve({ CoCl4: 0.02 }, 25), XYZ: [0.2039, 0.293, 0.2114], hex: '#5ba274' },
  { name: 'amber bed, CoCl4 0.1 M', curve: bedCurve({ CoCl4: 0.1 }, 25), XYZ: [0.118, 0.1845, 0.2017], hex: '#008676' },
  { name: 'amber bed, CoCl4 0.4 M', curve: bedCurve({ CoCl4: 0.4 }, 25), XYZ: [0.0779, 0.1083, 0.1766], hex: '#006772' },
  { name: 'colourless bed, CoCl4 0.1 M', curve: bedCurve({ CoCl4: 0.1 }, 0), XYZ: [0.1954, 0.2501, 0.6154], hex: '#0094c2' },
  { name: 'Co aquo 0.1 M, 1.5 cm', curve: slabCurve({ CoAquo: 0.1 }, 1.5), XYZ: [0.7625, 0.5908, 0.5641], hex: '#ffa8bf' },
  { name: 'Ni aquo 0.1 M, 1.5 cm', curve: slabCurve({ NiAquo: 0.1 }, 1.5), XYZ: [0.7868, 0.9297, 0.8998], hex: '#d6ffe8' },
  { name: 'CoCl4 0.01 M, 1 cm', curve: slabCurve({ CoCl4: 0.01 }, 1), XYZ: [0.3085, 0.4811, 1.0106], hex: '#00cae9' },
  { name: 'Co thiocyanate 0.1 mM, 1 cm', curve: slabCurve({ CoNCS: 1e-4 }, 1), XYZ: [0.7945, 0.882, 1.0869], hex: '#d7f7ff' },
];
