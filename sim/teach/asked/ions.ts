import { bestParting, passageOf, speciation } from '../../chemistry/index.ts';
import { capital } from '../../terms/capital.ts';
import { IONS, type IonId } from '../../terms/ions.ts';
import { type About, bedVolumes, figures, HELD, LEAVES_BV, name, type Question } from './question.ts';

// Questions about the ions: which is held, how fast its band moves, what another acid would do. Each is made from the numbers of a
// scenario, or left out where they give rise to none.

/** Share of anions that counts as none. */
const NONE = 0.0005;

export function firstOut({ scenario, acid, runner, holder, D }: About): Question | undefined {
  if (runner === holder) return undefined;
  const [slow, fast] = [bedVolumes(scenario, D(holder, acid)), bedVolumes(scenario, D(runner, acid))];
  const same = slow / fast < 1.1;
  return {
    id: 'first-out',
    prompt: `${capital(name(runner))} and ${name(holder)} are washed with ${figures(acid)} M HCl. Which leaves the column first?`,
    choices: [
      { id: runner, text: name(runner) },
      { id: holder, text: name(holder) },
      { id: 'together', text: 'both together: the bed cannot tell them apart' },
    ],
    reasons: [
      { id: 'anion', text: 'what counts is which of them becomes an anion in this acid; the resin holds anions' },
      { id: 'charge', text: 'their charges as free ions decide: the higher is held longer, equal ones are held alike' },
      { id: 'cation', text: 'metal ions are cations, and the resin holds cations' },
      { id: 'reacts', text: 'the resin reacts with one metal and destroys it' },
    ],
    choice: same ? 'together' : runner,
    reason: 'anion',
    explanation: `${capital(name(runner))} needs ${figures(fast)} bed volumes, ${name(holder)} ${figures(slow)}. In this acid ${name(holder)} can become a negatively charged chloro-complex${anionic(runner, acid) < NONE ? `, ${name(runner)} cannot` : `; ${name(runner)} does so less, or its anion is held less`}. The resin is an anion exchanger: it holds what has become an anion, and as it takes up this anion, more of it forms.`,
  };
}

export function meaning({ scenario, acid, holder, D }: About): Question | undefined {
  const d = D(holder, acid);
  if (d < HELD) return undefined;
  const inLiquid = Math.round(100 * passageOf(d, scenario.values['bed.porosity']).speedShare);
  const numbers = distinct([inLiquid, Math.min(99, Math.round(d)), 50, 100 - inLiquid]);
  if (numbers.length < 3) return undefined;
  return {
    id: 'meaning',
    prompt: `In ${figures(acid)} M HCl the distribution coefficient of ${name(holder)} is ${figures(d)}: a litre of bed holds ${figures(d)} times as much in its beads as a litre of liquid holds. Of 100 ions in the bed, about how many are in the liquid at any moment?`,
    choices: numbers.map((value) => ({ id: String(value), text: value === 0 ? 'fewer than 1' : String(value) })),
    reasons: [
      { id: 'share', text: 'liquid fills only part of the bed, and only ions in the liquid move: their share is the speed of the band' },
      { id: 'stuck', text: 'ions that are held stay where they are until the eluent is changed' },
      { id: 'half', text: 'at equilibrium the two sides hold the same amount' },
    ],
    choice: String(inLiquid),
    reason: 'share',
    explanation: `Per litre of bed the liquid has ${figures(scenario.values['bed.porosity'])} L and holds ${figures(scenario.values['bed.porosity'])} parts, the beads ${figures(d)} parts: ${figures(100 * passageOf(d, scenario.values['bed.porosity']).speedShare)} of 100 ions are in the liquid. Every ion comes and goes all the time, so the band creeps at that share of the liquid's speed.`,
  };
}

export function weaker(about: About): Question | undefined {
  const { acid, holder, D } = about;
  const other = acid > 7 ? 6 : acid / 2;
  return D(holder, acid) < HELD ? undefined : otherAcid(about, other, 'weaker');
}

export function strongest(about: About): Question | undefined {
  const { acid, holder, D } = about;
  if (acid >= 11.5 || D(holder, acid) < HELD) return undefined;
  return otherAcid(about, 12, 'strongest');
}

function otherAcid({ scenario, acid, holder, D }: About, other: number, id: string): Question {
  const [now, then] = [bedVolumes(scenario, D(holder, acid)), bedVolumes(scenario, D(holder, other))];
  const change = then / now;
  const answer = change > 1.15 ? 'slower' : change < 0.87 ? 'faster' : 'same';
  const stronger = other > acid;
  // Above the maximum of a curve something else than the number of chlorides takes over.
  const reason = answer === 'same' ? 'flat' : stronger === (answer === 'slower') ? 'anion' : 'acid';
  return {
    id,
    prompt: `${stronger ? `Why not simply take the strongest acid? With ${figures(other)} M` : `With ${figures(other)} M`} HCl instead of ${figures(acid)} M, how does the ${name(holder)} band move?`,
    choices: [
      { id: 'slower', text: 'more slowly' },
      { id: 'same', text: 'about as before' },
      { id: 'faster', text: 'faster' },
    ],
    reasons: [
      { id: 'anion', text: stronger ? 'more of the metal is the chloro-anion' : 'less of the metal is the chloro-anion' },
      {
        id: 'acid',
        text: stronger ? 'H⁺ binds to the anion, and the acid inside the beads brings chloride that competes' : 'less acid competes for the resin',
      },
      { id: 'push', text: stronger ? 'stronger acid always pushes harder' : 'weaker acid always pushes less' },
      { id: 'flat', text: 'here the curve is flat: gain and loss balance' },
    ],
    choice: answer,
    reason,
    explanation: `At ${figures(acid)} M the band needs ${figures(now)} bed volumes to leave, at ${figures(other)} M ${figures(then)}. ${stronger ? 'The fall of the curve is explained by H⁺ on the anion and by more HCl inside the beads, whose chloride competes; the model is fitted to the curve and does not prove it.' : 'Weaker acid leaves fewer chlorides on the metal.'} Uptake has a maximum: see the curve.`,
  };
}

export function order({ scenario, D }: About): Question | undefined {
  if (scenario.ions.length < 3) return undefined;
  const release = new Map(scenario.ions.map((ion) => [ion, releasedBelow((c) => bedVolumes(scenario, D(ion, c)))]));
  const releaseOf = (ion: IonId): number => release.get(ion) ?? 0;
  const right = [...scenario.ions].sort((a, b) => releaseOf(b) - releaseOf(a));
  const text = (ions: readonly IonId[]): string => ions.map((ion) => IONS[ion].symbol).join(', ');
  const byMass = [...scenario.ions].sort((a, b) => IONS[a].molarMass - IONS[b].molarMass);
  return {
    id: 'order',
    prompt: `All are loaded in strong acid; then weaker and weaker acid is poured. In which order do they leave?`,
    choices: [
      { id: 'release', text: text(right) },
      { id: 'reverse', text: text([...right].reverse()) },
      { id: 'mass', text: `${text(byMass)} (by mass)` },
    ].filter(({ text: shown, id }, n, all) => id === 'release' || all.findIndex((other) => other.text === shown) === n),
    reasons: [
      { id: 'break', text: 'each anion falls apart at its own acid strength: the weakest complex lets go first' },
      { id: 'mass', text: 'light ions move faster' },
      { id: 'charge', text: 'ions of lower charge go first' },
    ],
    choice: 'release',
    reason: 'break',
    explanation: `Acid below which each leaves within ${figures(LEAVES_BV)} bed volumes: ${right.map((ion) => `${IONS[ion].symbol} ${releaseOf(ion) >= 12 ? 'any' : `${figures(releaseOf(ion))} M`}`).join(', ')}.`,
  };
}

export function pair({ scenario }: About): Question | undefined {
  const pairs = scenario.ions.flatMap((a, i) => scenario.ions.slice(i + 1).map((b) => bestParting(scenario, a, b)));
  if (pairs.length === 0) return undefined;
  const closest = pairs.reduce((worst, each) => (each.ratio < worst.ratio ? each : worst));
  const possible = closest.ratio > 1.2;
  const { first, second, HCl_M, ratio, firstBedVolumes, secondBedVolumes, platesNeeded } = closest;
  return {
    id: 'pair',
    prompt: `${scenario.ions.length > 2 ? 'The closest pair here is ' : 'Can '}${name(first)} and ${name(second)}${scenario.ions.length > 2 ? '. Can they' : ''} be separated in HCl, and by which programme?`,
    choices: [
      { id: 'strong', text: `yes: ${name(first)} in about ${figures(HCl_M)} M, then ${name(second)} in another acid or water` },
      { id: 'swapped', text: `yes: ${name(second)} in about ${figures(HCl_M)} M, then ${name(first)} in another acid or water` },
      { id: 'no', text: 'no: no strength of HCl holds one and lets the other go' },
    ],
    reasons: [
      { id: 'ratio', text: 'it depends on the ratio of their distribution coefficients at one acid strength' },
      { id: 'charge', text: 'ions of the same charge cannot be separated' },
      { id: 'mass', text: 'it depends on the difference of their masses' },
    ],
    choice: possible ? 'strong' : 'no',
    reason: 'ratio',
    explanation: `At ${figures(HCl_M)} M they need ${figures(firstBedVolumes)} and ${figures(secondBedVolumes)} bed volumes, a ratio of ${figures(ratio)}, the best any strength gives. ${Number.isFinite(platesNeeded) ? `Clean separation in one acid needs about ${figures(platesNeeded)} plates.` : ''}`,
  };
}

/** Strongest acid up to which an ion always leaves within LEAVES_BV, mol/L; 12 when it does in any. */
function releasedBelow(volumes: (c: number) => number): number {
  let released = 0;
  for (let c = 0.005; c <= 12; c *= 1.02) {
    if (volumes(c) > LEAVES_BV) return released;
    released = c;
  }
  return 12;
}

function anionic(ion: IonId, c: number): number {
  const { species, fractions } = speciation(ion, c);
  return fractions.reduce((sum, fraction, n) => sum + (species[n].charge < 0 ? fraction : 0), 0);
}

function distinct(values: readonly number[]): number[] {
  return [...new Set(values)];
}
