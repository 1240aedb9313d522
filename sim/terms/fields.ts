// One row per parameter of a scenario. The reader, the schema, the controls and the docs all read this table.
// Adding a parameter is: a row here, the formula that uses it, and a test.
import { cellsFor } from './cells.ts';
import { DEFAULT_GRADE, GRADES } from './grades.ts';
import type { Status } from './status.ts';

export type { Status };

/** One scenario parameter. `path` is its key in scenario JSON, a dot separating the group from the name. */
export interface Field {
  readonly label: string;
  /** Unit as shown on screen; empty for a pure number. */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly default: number;
  readonly integer?: true;
  readonly meaning: string;
  readonly source: string;
  readonly status: Status;
}

/** What the default grade says about a parameter. */
function graded(path: string): Pick<Field, 'default' | 'source' | 'status'> {
  const { value, source, status } = GRADES[DEFAULT_GRADE][path];
  return { default: value, source: `${source} (${DEFAULT_GRADE})`, status };
}

const LENGTH_CM = 7;
const PACKING = 6.8;

export const FIELDS = {
  'column.bore_cm': { label: 'bore', unit: 'cm', min: 0.2, max: 5, default: 0.9, meaning: 'inner diameter of the tube', source: 'common small teaching column', status: 'choice' },
  'column.tube_cm': { label: 'tube above support', unit: 'cm', min: 1, max: 200, default: 20, meaning: 'height of the tube from the bed support to its rim', source: 'common small teaching column', status: 'choice' },
  'column.outlet_cm': { label: 'outlet drop', unit: 'cm', min: 0, max: 100, default: 1, meaning: 'height of the bed support above the outlet tip (liquid-filled outlet tube)', source: 'common small teaching column', status: 'choice' },
  'column.tip_mL': { label: 'dead volume below bed', unit: 'mL', min: 0.02, max: 5, default: 0.4, meaning: 'support, outlet tube and tip', source: 'range 0.2 to 1 mL', status: 'assumed' },
  'column.tip_plates': { label: 'mixing stages below bed', unit: '', min: 1, max: 20, default: 4, integer: true, meaning: 'the dead volume is this many stirred volumes in a row; 1 is fully mixed, many is nearly plug flow', source: 'tanks in series', status: 'assumed' },
  'column.open_cm_per_mL_min': { label: 'resistance of the open clamp', unit: 'cm/(mL/min)', min: 0, max: 20, default: 0.2, meaning: 'head of water lost in the outlet at 1 mL/min of water with the clamp fully open', source: 'Poiseuille, 1 mm bore, 3 cm long: 0.21 cm', status: 'derived' },
  'column.tip_mm': { label: 'outer diameter of the tip', unit: 'mm', min: 0.5, max: 10, default: 3, meaning: 'a drop hangs from the outer rim of the tip; its size follows from surface tension and density', source: 'drawn-out glass tip, common practice, no source', status: 'choice' },

  'bed.length_cm': { label: 'bed length', unit: 'cm', min: 0.5, max: 150, default: LENGTH_CM, meaning: 'packed height of the resin, in the liquid it is stored in', source: 'common small teaching column', status: 'choice' },
  'bed.porosity': { label: 'porosity', unit: '', min: 0.3, max: 0.6, default: 0.38, meaning: 'liquid between the beads as a share of the bed volume', source: 'random close packing 0.36, loose 0.40 to 0.42', status: 'memory' },
  'bed.bead_um': { label: 'bead diameter', unit: 'µm', min: 30, max: 1200, ...graded('bed.bead_um'), meaning: 'surface-mean (Sauter) diameter of the wet beads; set by the grade of the resin' },
  'bed.packing': { label: 'packing factor', unit: '', min: 0, max: 60, default: PACKING, meaning: 'q in the plate height of the packing, H = 1.64 r q: 1 is a perfect random packing, 3 to 10 a hand-poured one', source: 'Glueckauf 1955 via Helfferich 1962, eddy term; range estimated', status: 'memory' },
  'bed.plates': { label: 'cells along the bed', unit: '', min: 4, max: 800, default: cellsFor(LENGTH_CM, GRADES[DEFAULT_GRADE]['bed.bead_um'].value, PACKING), integer: true, meaning: 'stirred cells from top to bottom of each lane; left out, they follow from bed length, bead and packing factor', source: 'resolution of the model', status: 'choice' },
  'bed.lanes': { label: 'lanes', unit: '', min: 1, max: 25, default: 13, integer: true, meaning: '1 is a uniform bed; otherwise one core lane and the rest wall sectors', source: 'resolution of the model', status: 'choice' },
  'bed.core_share': { label: 'core share', unit: '', min: 0.05, max: 0.95, default: 0.4, meaning: 'share of the cross-section in the core lane', source: 'resolution of the model', status: 'choice' },
  'bed.spread': { label: 'packing spread', unit: '', min: 0, max: 1, default: 0.15, meaning: 'standard deviation of ln(permeability) from place to place in the cross-section: 0.05 good, 0.15 ordinary, 0.35 poor', source: 'porosity 0.36 against 0.40 alone is a factor 1.56', status: 'assumed' },
  'bed.correlation_cm': { label: 'size of loose and tight places', unit: 'cm', min: 0.02, max: 5, default: 0.3, meaning: 'distance over which the packing is alike: correlation length of ln(permeability) across the bed', source: 'about a dozen beads; no value found', status: 'assumed' },
  'bed.wall_factor': { label: 'wall permeability factor', unit: '', min: 0.2, max: 50, default: 1, meaning: 'permeability of every wall sector over that of the core', source: 'no value found for the width used here', status: 'assumed' },
  'bed.kozeny': { label: 'Kozeny constant', unit: '', min: 100, max: 250, default: 180, meaning: 'k = d^2 e^3 / (K (1-e)^2)', source: 'Carman 180; Ergun 150', status: 'memory' },
  'bed.air_entry_core': { label: 'air entry factor, core', unit: '', min: 0.02, max: 1, default: 0.6, meaning: 'suction at which air enters the core lane over that of a perfect packing', source: 'Haines; Mason and Mellor; defects estimated', status: 'assumed' },
  'bed.air_entry_wall': { label: 'air entry factor, wall', unit: '', min: 0.02, max: 1, default: 0.2, meaning: 'the same for the wall sectors, where gaps are wider: a quarter or less', source: 'Haines; Mason and Mellor; the gaps at the wall estimated', status: 'assumed' },

  'bed.air_creep_min': { label: 'air creeps on', unit: 'min', min: 1, max: 1e6, default: 60, meaning: 'minutes in which the suction that a bed can stand halves, once air has entered it and while no liquid stands above', source: 'no value found', status: 'assumed' },

  'resin.capacity_eq_per_L': { label: 'capacity', unit: 'eq/L bed', min: 0.1, max: 3, ...graded('resin.capacity_eq_per_L'), meaning: 'fixed charge per litre of packed bed; set by the grade' },
  'resin.pore_L_per_L': { label: 'resin solution', unit: 'L/L bed', min: 0.05, max: 0.6, ...graded('resin.pore_L_per_L'), meaning: 'liquid inside the beads per litre of bed; capacity over this is the fixed-charge molarity Q; set by the grade' },
  'resin.invasion': { label: 'invasion factor', unit: '', min: 0, max: 2, default: 1, meaning: 'kappa in x (x + Q) = (kappa c)^2, HCl inside the beads; 1 is ideal Donnan', source: 'ideal Donnan equality; measured uptake is higher, up to 1.5', status: 'assumed' },
  'resin.shrinkage': { label: 'shrinkage in acid', unit: '', min: 0, max: 0.5, ...graded('resin.shrinkage'), meaning: 'share of its volume that the bed loses from water to 9 M HCl, in proportion to the acid; set by the grade' },
  'resin.tint_per_cm': { label: 'resin tint', unit: '1/cm', min: 0, max: 100, ...graded('resin.tint_per_cm'), meaning: 'absorption of the resin itself at 400 nm: 0 colourless, 6 pale, 25 amber; set by the grade' },
  'resin.Ds_exchange_cm2_s': { label: 'resin diffusion, complex anion', unit: 'cm²/s', min: 1e-9, max: 1e-2, ...graded('resin.Ds_exchange_cm2_s'), meaning: 'diffusion of the chloro-complexes inside the beads; set by the grade' },
  'resin.Ds_coion_cm2_s': { label: 'resin diffusion, free cation', unit: 'cm²/s', min: 1e-9, max: 1e-2, ...graded('resin.Ds_coion_cm2_s'), meaning: 'diffusion of uncomplexed cations inside the beads: all of the nickel, and cobalt in water; set by the grade' },
  'resin.Ds_HCl_cm2_s': { label: 'resin diffusion, HCl', unit: 'cm²/s', min: 1e-9, max: 1e-2, ...graded('resin.Ds_HCl_cm2_s'), meaning: 'diffusion of invaded HCl inside the beads; set by the grade' },
  'resin.curve_scale': { label: 'D scale F', unit: '', min: 0.2, max: 2, default: 0.42, meaning: 'kg of dry resin per litre of bed of the resin of the curves (1.2 eq/L): they are per kg dry resin, and D_v = F D', source: 'that weight coefficients D = D_v/rho are per kg dry: Nelson and Michelson, J. Chromatogr. 1966 (read); 0.40 to 0.45 kg/L for an 8 to 10 % cross-linked resin recalled', status: 'memory' },

  'differ.bead': { label: 'columns differ in bead, as a share', unit: '', min: 0, max: 0.5, default: 0, meaning: 'standard deviation of ln(bead diameter) between columns: each seed draws one', source: '0.05 to 0.1 between lots and after years of use: common practice, no source', status: 'assumed' },
  'differ.porosity': { label: 'columns differ in porosity', unit: '', min: 0, max: 0.05, default: 0, meaning: 'standard deviation of the porosity between columns', source: '0.01 moves the flow by a tenth; random close 0.36 to loose 0.42', status: 'assumed' },
  'differ.length_cm': { label: 'columns differ in length', unit: 'cm', min: 0, max: 3, default: 0, meaning: 'standard deviation of the bed length, as filled and read with a ruler', source: '0.2 cm: common practice, no source', status: 'assumed' },
  'differ.spread': { label: 'columns differ in evenness, as a share', unit: '', min: 0, max: 1.5, default: 0, meaning: 'standard deviation of ln(packing spread) between columns', source: 'good 0.05 to poor 0.35 within one class: common practice, no source', status: 'assumed' },
  'differ.acid_M': { label: 'bottles differ in acid', unit: 'mol/L', min: 0, max: 2, default: 0, meaning: 'what bottles above the azeotrope have lost by fuming: absolute value of a normal with this deviation, the same for all bottles of a column', source: '0.2 mol/L: common practice, no source', status: 'assumed' },

  'bench.temperature_C': { label: 'temperature', unit: '°C', min: 10, max: 35, default: 20, meaning: 'room and liquid temperature; viscosity falls and diffusion rises with it', source: 'common practice, no source', status: 'choice' },
  'bench.start_HCl_M': { label: 'bed stored in', unit: 'mol/L', min: 0, max: 12.5, default: 0, meaning: 'HCl molarity of the liquid that fills the bed and the head at the start; 0 is water', source: 'common practice, no source', status: 'choice' },
  'bench.start_head_mm': { label: 'liquid above the bed at the start', unit: 'mm', min: 0, max: 500, default: 10, meaning: 'height of that liquid above the bed', source: 'common practice, no source', status: 'choice' },
  'bench.packed': { label: 'bed packed beforehand', unit: '', min: 0, max: 1, default: 1, integer: true, meaning: '1: the run starts with a packed bed of the stated length; 0: with an empty tube, and resin is poured by the action pack', source: 'common practice, no source', status: 'choice' },
  'bench.evaporation_mm_h': { label: 'evaporation', unit: 'mm/h', min: 0, max: 10, default: 0.1, meaning: 'height of liquid that an open bed without liquid above it loses per hour', source: 'still air in an open tube, order of magnitude', status: 'memory' },
  'bench.fuming_per_h': { label: 'fuming of open bottles', unit: '1/h', min: 0, max: 2, default: 0, meaning: 'share of the HCl above the azeotrope (6.1 mol/L) that bottles lose per hour while they stand open; 0 is stoppered', source: 'no rate found', status: 'assumed' },
  'bench.hand': { label: 'scatter of the hand', unit: '', min: 0, max: 5, default: 1, meaning: 'how much loads, portions, the drop at the tip and the film on glass differ: 0 is exact, 1 a practised hand, 2 to 3 a first day', source: 'common practice, no source', status: 'assumed' },
  'bench.NaOH_M': { label: 'NaOH for the work-up', unit: 'mol/L', min: 0.1, max: 12, default: 6, meaning: 'alkali used to neutralise the collected cobalt', source: 'common practice, no source', status: 'choice' },

  'flow.D_metal_cm2_s': { label: 'diffusion of metals', unit: 'cm²/s', min: 1e-7, max: 1e-4, default: 4.5e-6, meaning: 'molecular diffusion of metal species in the liquid', source: 'Walden scaling of Co 0.732e-5 (CRC) to 9 M HCl', status: 'derived' },
  'flow.D_HCl_cm2_s': { label: 'diffusion of HCl', unit: 'cm²/s', min: 1e-6, max: 1e-3, default: 3.34e-5, meaning: 'molecular diffusion of HCl in the liquid', source: 'Nernst-Hartley from H+ 9.311e-5 and Cl- 2.03e-5 (CRC)', status: 'derived' },
  'flow.obstruction': { label: 'obstruction factor', unit: '', min: 0.3, max: 1, default: 0.67, meaning: 'gamma: molecular diffusion in the bed over that in free liquid', source: 'Giddings; Delgado review 1.4 to 1.5 tortuosity', status: 'memory' },
  'flow.Pe_transverse': { label: 'transverse Peclet number', unit: '', min: 2, max: 1000, default: 11, meaning: 'D_T = gamma Dm + v d / Pe', source: 'Delgado 2006 review, asymptote', status: 'memory' },

  'numerics.courant': { label: 'step size', unit: '', min: 0.02, max: 2, default: 1.4, meaning: 'volume passed per step over the liquid volume of one cell, in the fastest lane', source: 'convergence study in DEVELOPERS.md', status: 'choice' },
  'numerics.step_max_min': { label: 'longest step', unit: 'min', min: 0.0005, max: 1, default: 0.1, meaning: 'longest time step when little or nothing flows', source: 'convergence study in DEVELOPERS.md', status: 'choice' },
  'numerics.frame_mL': { label: 'frame spacing', unit: 'mL', min: 0.005, max: 5, default: 0.1, meaning: 'delivered volume between recorded frames', source: 'resolution of the figure', status: 'choice' },

  'workup.sample_mL': { label: 'sample taken', unit: 'mL', min: 0.05, max: 100, default: 1, meaning: 'volume of the unknown that was put on the column', source: 'common practice, no source', status: 'choice' },
  'workup.flask_mL': { label: 'volumetric flask', unit: 'mL', min: 10, max: 2000, default: 100, meaning: 'for titration in portions: the collected cobalt is made up to this volume; the next larger flask is taken if it does not fit', source: 'common practice, no source', status: 'choice' },
  'workup.portion_mL': { label: 'portion', unit: 'mL', min: 1, max: 100, default: 25, meaning: 'volume pipetted from that flask for one titration, where the eluate is titrated in portions', source: 'common practice, no source', status: 'choice' },
  'workup.titrations': { label: 'titrations of one eluate', unit: '', min: 1, max: 6, default: 1, integer: true, meaning: '1: the whole eluate at once; more: that many portions out of a volumetric flask', source: 'common practice, no source', status: 'choice' },
  'workup.rinses': { label: 'rinses of the receiver', unit: '', min: 0, max: 10, default: 2, integer: true, meaning: 'times the receiver is rinsed into the flask with water', source: 'common practice, no source', status: 'choice' },
  'workup.rinse_mL': { label: 'water for one rinse', unit: 'mL', min: 0.5, max: 50, default: 5, meaning: 'volume of each of these rinses', source: 'common practice, no source', status: 'choice' },
  'workup.EDTA_M': { label: 'EDTA', unit: 'mol/L', min: 0.0005, max: 0.2, default: 0.01, meaning: 'disodium EDTA in the burette', source: 'common practice, no source', status: 'choice' },
  'workup.acetic_M': { label: 'acetic acid', unit: 'mol/L', min: 0.01, max: 6, default: 1, meaning: 'acid that brings the flask from slightly basic to the indicator pH', source: 'common practice, no source', status: 'choice' },
  'workup.acetate_mL': { label: 'sodium acetate, 1 mol/L', unit: 'mL', min: 0, max: 50, default: 2, meaning: 'buffer added before the acetic acid; total acetate at least 4 per cobalt, better 10 to 20', source: 'computed: 0.25 mmol ends at pH 3.6 and 3.5 % late', status: 'derived' },
  'workup.neutral_pH': { label: 'pH to stop the alkali', unit: '', min: 5, max: 13, default: 8, meaning: 'alkali is added drop by drop until the flask is at least this basic', source: 'common practice, no source', status: 'choice' },
  'workup.indicator_pH': { label: 'pH for the indicator', unit: '', min: 3.2, max: 9, default: 6, meaning: 'acetic acid is added until the flask is at most this basic', source: 'common practice, no source', status: 'choice' },
  'workup.thiocyanate_g': { label: 'ammonium thiocyanate', unit: 'g', min: 0, max: 20, default: 3, meaning: 'solid added to one titration', source: 'common practice, no source', status: 'choice' },
  'workup.acetone_mL': { label: 'acetone', unit: 'mL', min: 0, max: 250, default: 75, meaning: 'added to one titration; at least half of the liquid, titrant included, keeps the blue', source: 'common practice, no source', status: 'choice' },
  'workup.threshold_A': { label: 'faintest blue seen', unit: '', min: 0.002, max: 0.5, default: 0.02, meaning: 'absorbance of the blue complex over the path below which the eye sees no blue any more', source: 'no value found', status: 'assumed' },
  'workup.path_cm': { label: 'path through the flask', unit: 'cm', min: 0.5, max: 15, default: 4, meaning: 'depth of liquid that the eye looks through', source: '100 mL conical flask, estimated', status: 'assumed' },
  'workup.burette_mL': { label: 'burette', unit: 'mL', min: 10, max: 100, default: 25, meaning: 'capacity; sets the class tolerance', source: 'common practice, no source', status: 'choice' },
  'workup.drop_mL': { label: 'drop at the end point', unit: 'mL', min: 0.005, max: 0.2, default: 0.05, meaning: 'smallest portion of titrant and of alkali; a split drop is 0.02', source: '20 drops per mL, common practice', status: 'memory' },
  'workup.reading_mL': { label: 'burette reading error', unit: 'mL', min: 0, max: 0.2, default: 0.02, meaning: 'largest error of one reading', source: 'analytical text, table of precision as taught', status: 'read' },
  'workup.EDTA_tolerance_M': { label: 'uncertainty of the EDTA', unit: 'mol/L', min: 0, max: 0.01, default: 0.00002, meaning: 'half-width of its molarity', source: '0.2 % of 0.01 mol/L, common practice', status: 'assumed' },
  'workup.pour_mL_min': { label: 'titrant and alkali', unit: 'mL/min', min: 0.2, max: 60, default: 5, meaning: 'rate of adding; nickel takes up EDTA slowly, lumps of hydroxide redissolve slowly', source: 'common practice, no source; a burette may run up to 30 (USP <31>)', status: 'choice' },
  'workup.wait_s': { label: 'wait at the end point', unit: 's', min: 0, max: 600, default: 30, meaning: 'time the blue must stay away before the burette is read', source: 'common practice, no source', status: 'choice' },
  'workup.log_Ksp_Co': { label: 'log Ksp of cobalt hydroxide', unit: '', min: -15.6, max: -14.2, default: -14.8, meaning: 'tables run from -15.60 to -14.23; fresh pink -14.80', source: 'Kelter 2009 and CRC-type tables; fresh pink: Baes and Mesmer 1976, recalled', status: 'memory' },
  'workup.neutralisation_kJ_mol': { label: 'heat of neutralisation', unit: 'kJ/mol', min: 50, max: 60, default: 55.8, meaning: 'heat set free per mole of water formed; 57.1 is the school value, which fits 20 °C', source: 'enthalpies of formation at 25 °C', status: 'derived' },

  'task.recovered_percent': { label: 'recovered, at least', unit: '%', min: 50, max: 100, default: 99.5, meaning: 'share of the metal to be collected that its receiver must hold', source: 'a titration repeats to about the same: common practice, no source', status: 'choice' },
  'task.carried_percent': { label: 'of any other metal, at most', unit: '%', min: 0, max: 50, default: 0.5, meaning: 'largest share of any other metal that may be in that receiver', source: 'a titration repeats to about the same: common practice, no source', status: 'choice' },
  'task.acid_bed_volumes': { label: 'acid, at most', unit: 'bed volumes', min: 0, max: 20, default: 0.5, meaning: 'acid that may be in that receiver, as volumes of the bed filled with the strongest liquid of the bench', source: 'about half of the acid in the bed when water is started', status: 'choice' },

  'class.period_min': { label: 'period', unit: 'min', min: 30, max: 600, default: 180, integer: true, meaning: 'time that a group has in the laboratory', source: 'common practice, no source', status: 'choice' },
  'class.people': { label: 'people in a group', unit: '', min: 1, max: 6, default: 3, integer: true, meaning: 'who share the work of a group', source: 'common practice, no source', status: 'choice' },
  'class.aliquots': { label: 'aliquots of a group', unit: '', min: 1, max: 6, default: 3, integer: true, meaning: 'how many times a group loads and elutes in the period', source: 'common practice, no source', status: 'choice' },
  'class.columns': { label: 'columns of a group', unit: '', min: 1, max: 6, default: 1, integer: true, meaning: 'columns that a group runs side by side', source: 'common practice, no source', status: 'choice' },
  'class.groups': { label: 'groups in the class', unit: '', min: 1, max: 60, default: 8, integer: true, meaning: 'groups that work in the same period, for what the stockroom prepares', source: 'common practice, no source', status: 'choice' },
} as const satisfies Record<string, Field>;

/** Key of a scenario parameter, such as `bed.length_cm`. */
export type FieldPath = keyof typeof FIELDS;

/** Every parameter with its value, in the unit of its row. */
export type Parameters = Readonly<Record<FieldPath, number>>;

/** All defaults, as a fresh object. */
export function parameterDefaults(): Record<FieldPath, number> {
  const values = {} as Record<FieldPath, number>;
  for (const path of Object.keys(FIELDS) as FieldPath[]) values[path] = FIELDS[path].default;
  return values;
}
