import type { IonId } from '../../sim/terms/ions.ts';
import { IONS, LIGAND_FIELD } from '../../sim/terms/ions.ts';
import { distributionOf, isHeld, passageOf, speciation } from '../../sim/chemistry/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { fixed, percent, significant } from '../ui/text/format.ts';
import { capital } from '../../sim/terms/capital.ts';

// What the numbers say, in words. Every sentence is made from values of the model.

/** Below this a share is called none. */
const NONE = 0.0005;
/** D_v below which an ion counts as running with the liquid. Our rule, as in the questions. */
const RUNS = 0.3;
/** Below this share of anions their uptake needs a word. Our rule. */
const TRACES = 0.05;
/** Share of anions from which nobody asks why the resin holds the ion. A choice. */
const MOSTLY = 0.9;
/** Acids that the best one is compared with, mol/L. */
const COMPARED_M = [3, 6, 9, 12] as const;
/** kJ/mol from which the loss on becoming a tetrahedron is called large. Our rule: between cobalt's and copper's. */
const LARGE_LOSS = 50;

export function acidText(c: number): string {
  return c < 0.005 ? 'water' : `${fixed(c, c < 0.1 ? 3 : 1)} M HCl`;
}

/** How long an ion is in the liquid, and what that makes of its band. */
export function motionSentence(scenario: Scenario, ion: IonId, c: number): string {
  const passage = passageOf(distributionOf(scenario, ion)(c), scenario.values['bed.porosity']);
  const { speedShare, D_v } = passage;
  const { name } = IONS[ion];
  const at = c < 0.005 ? 'In water' : `At ${fixed(c, 1)} M`;
  if (D_v < 0.02) return `${at} ${article(name)} ion is in the liquid practically all the time: the band moves with the liquid.`;
  if (!isHeld(passage))
    return `${at} ${article(name)} ion spends ${percent(speedShare, 0)} of its time in the liquid: the band moves at ${percent(speedShare, 0)} of the liquid's speed.`;
  return `${at} ${article(name)} ion spends 1 part in ${significant(1 / speedShare, 2)} of its time in the liquid: the band moves at ${percentOf(speedShare)} of the liquid's speed.`;
}

/** Where an ion is held best, and what weaker acid, stronger acid and water do instead. */
export function peakSentence(scenario: Scenario, ion: IonId): string {
  const D = distributionOf(scenario, ion);
  const volumes = (c: number): string => significant(passageOf(D(c), scenario.values['bed.porosity']).bedVolumes, 2);
  const acids = Array.from({ length: 120 }, (_, i) => (i + 1) / 10);
  const best = acids.reduce((held, c) => (D(c) > D(held) ? c : held));
  if (D(best) < RUNS) return `No strength of HCl holds ${IONS[ion].name}: it never needs more than ${volumes(best)} bed volumes.`;
  const others = COMPARED_M.filter((c) => Math.abs(c - best) > 1.5).map((c) => `${volumes(c)} at ${c} M`);
  return `${capital(IONS[ion].name)} is held best at ${fixed(best, 1)} M: ${volumes(best)} bed volumes until it leaves, against ${[...others, `${volumes(0)} in water`].join(', ')}.`;
}

/** What the ion mostly is, and how much of it is the tetrachloro anion. */
export function formSentence(ion: IonId, c: number): string {
  const { species, fractions } = speciation(ion, c);
  const most = fractions.indexOf(Math.max(...fractions));
  const anions = fractions.reduce((sum, share, n) => sum + (species[n].charge < 0 ? share : 0), 0);
  const rest = anions < NONE ? 'none of it is an anion' : `${percentOf(anions)} carries a negative charge`;
  // Where it is the only anion there is, its share is theirs and is said once.
  const alone = species[most].charge < 0 && anions - fractions[most] < NONE;
  const part = fractions[most] > 0.5 ? 'most' : 'the largest part';
  return `In ${acidText(c)} ${part} of the ${IONS[ion].name} is ${alone ? 'the anion ' : ''}${species[most].label} (${percentOf(fractions[most])})${alone ? '' : `; ${rest}`}.`;
}

/** Why an ion does, or does not, give up its six waters for four chlorides. */
export function fieldSentence(ion: IonId): string {
  const { dElectrons, octahedralPreference_kJ_mol: loss } = LIGAND_FIELD[ion];
  const cobalt = LIGAND_FIELD.Co.octahedralPreference_kJ_mol;
  const shape = `${capital(IONS[ion].name)} has ${dElectrons} d electrons.`;
  if (ion === 'Ni') {
    return `${shape} Going from six waters in an octahedron to four chlorides in a tetrahedron would cost it about ${loss} kJ/mol of ligand-field stabilisation, cobalt(II) only about ${cobalt}. So nickel keeps its octahedron, takes up at most two chlorides, and never becomes the anion that the resin holds.`;
  }
  if (ion === 'Cu')
    return `${shape} A regular tetrahedron would cost it about ${loss} kJ/mol of ligand-field stabilisation; copper forms CuCl₄²⁻ all the same, as a flattened tetrahedron.`;
  if (loss === 0)
    return `${shape} All its d orbitals are equally filled, so six neighbours or four make no difference to the ligand field, and the change to the tetrachloro anion costs nothing on that account.`;
  const compared =
    loss < LARGE_LOSS && ion !== 'Co'
      ? ` (nickel(II): about ${LIGAND_FIELD.Ni.octahedralPreference_kJ_mol})`
      : `, nickel(II) about ${LIGAND_FIELD.Ni.octahedralPreference_kJ_mol}`;
  return `${shape} Four chlorides in a tetrahedron instead of six waters in an octahedron cost it only about ${loss} kJ/mol of ligand-field stabilisation${compared}: enough chloride in little free water makes it the anion.`;
}

/** What is sure about an ion in hydrochloric acid, what is argued about, and what this model only fits. */
export interface Story {
  readonly known: string;
  readonly disputed: string;
  readonly fitted: string;
}

export function storyOf(ion: IonId): Story {
  const { name, anionCharge } = IONS[ion];
  if (anionCharge === 0)
    return {
      known: `${capital(name)} keeps six neighbours in an octahedron and takes up a chloride or two in strong acid; it makes no anion that the resin holds.`,
      disputed: 'How much of it carries one chloride or two: the shares drawn here rest on assumed constants.',
      fitted: 'Nothing: the resin is assumed to hold only what enters the beads with the acid.',
    };
  const known =
    ion === 'Co'
      ? 'The pink ion with six waters in an octahedron changes, as chloride rises and free water falls, into the blue CoCl₄²⁻, a tetrahedron. That anion is what the resin holds.'
      : `With enough chloride ${name} becomes a tetrachloro anion, and that is what the resin holds.`;
  const measured = speciation(ion, 1).basis === 'read';
  return {
    known,
    disputed: `Which forms stand between, and how much of each: ${measured ? 'the shares drawn are one reading of measurements, others find other steps' : 'no measured shares were found, those drawn come from constants that fit uptake'}.`,
    fitted: `Uptake is not computed from these shares. Its curve is fitted to published measurements, and so is its fall in the strongest acid, which is put down to H⁺ on the anion and to HCl inside the beads.`,
  };
}

/** Why a resin can hold what is hardly an anion in the liquid; empty where nothing needs to be explained. */
export function tracesSentence(scenario: Scenario, ion: IonId, c: number): string {
  const { species, fractions } = speciation(ion, Math.max(c, 1e-6));
  const anions = fractions.reduce((sum, share, n) => sum + (species[n].charge < 0 ? share : 0), 0);
  if (anions >= MOSTLY || distributionOf(scenario, ion)(c) < 1) return '';
  const few = anions < TRACES ? 'Few of its ions are anions in the liquid' : `In the liquid only ${percent(anions, 0)} of its ions are anions`;
  return `${few}, yet the beads hold most of it: the resin takes up the anions, and more form in their place.`;
}

export function article(name: string): string {
  return `${/^[aeiou]/.test(name) ? 'an' : 'a'} ${name}`;
}

/** A share with as many decimals as tell it from nothing and from all. */
export function percentOf(share: number): string {
  if (share > 0 && share < 1e-4) return 'less than 0.01 %';
  const near = Math.min(share, 1 - share);
  return percent(share, near <= 0 ? 0 : near < 0.001 ? 2 : near < 0.1 ? 1 : 0);
}
