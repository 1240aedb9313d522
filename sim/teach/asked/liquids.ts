import { bedVolumeOf } from '../../terms/geometry.ts';
import { invasion, resinFrom } from '../../chemistry/index.ts';
import { type About, bedVolumes, figures, HELD, LEAVES_BV, name, type Question, RUNS } from './question.ts';

// Questions about the liquids: conditioning, water after acid, when to change the receiver. Each is made from the numbers of a scenario,
// or left out where they give rise to none.

/** Bed volumes of water that take most of a held ion off, the acid that has to leave first included: found by runs of the shipped columns. */
const RELEASED_BV = 3;

export function pushing({ scenario, acid, holder, D }: About): Question | undefined {
  const strong = bedVolumes(scenario, D(holder, acid));
  if (strong < LEAVES_BV * 2 || bedVolumes(scenario, D(holder, 0)) > LEAVES_BV) return undefined;
  return {
    id: 'pushing',
    prompt: `To get the ${name(holder)} off the bed a classmate wants to go on with ${figures(acid)} M HCl: "acid pushes everything off". What gets it off with the least liquid?`,
    choices: [
      { id: 'acid', text: `more ${figures(acid)} M HCl` },
      { id: 'water', text: 'water' },
      { id: 'either', text: 'either: only the volume counts' },
    ],
    reasons: [
      { id: 'undone', text: 'without chloride around it the anion falls apart into a cation, which the resin does not hold' },
      { id: 'push', text: 'H⁺ takes the place of the metal on the resin' },
      { id: 'rinse', text: 'the band is only carried along, whatever the liquid' },
    ],
    choice: 'water',
    reason: 'undone',
    explanation: `In ${figures(acid)} M HCl it takes ${figures(strong)} bed volumes. Water takes the chloride away: most of it is off within ${RELEASED_BV} bed volumes of water. The acid is what holds it: the charges fixed in the resin are positive, so H⁺ has nothing to replace there.`,
  };
}

export function conditioning({ scenario, acid, holder, D }: About): Question | undefined {
  if (scenario.values['bench.start_HCl_M'] > 1 || D(holder, acid) < HELD || D(holder, 0.5) > RUNS) return undefined;
  return {
    id: 'conditioning',
    prompt: `The bed was stored in ${scenario.values['bench.start_HCl_M'] === 0 ? 'water' : 'weak acid'}. The sample in ${figures(acid)} M HCl is put on without conditioning, then washed as usual. Where does its ${name(holder)} go?`,
    choices: [
      { id: 'ahead', text: 'part of it runs ahead with the thinned acid and leaves early' },
      { id: 'top', text: 'all of it stays in a band near the top, as on a conditioned bed' },
    ],
    reasons: [
      { id: 'needs', text: 'it is an anion only where the acid is strong, and water in and between the beads thins the acid' },
      { id: 'rinse', text: 'conditioning only rinses dust away, so nothing changes' },
      { id: 'always', text: 'the resin holds this metal in any liquid' },
    ],
    choice: 'ahead',
    reason: 'needs',
    explanation: `D_v is ${figures(D(holder, acid))} in ${figures(acid)} M HCl and ${figures(D(holder, 0.5))} in 0.5 M. The first of the sample meets water, its acid is thinned and soaks into the beads, and there the metal runs with the liquid: the band starts deeper, and some of it leaves with the first effluent. Conditioning fills bed and beads with acid first.`,
  };
}

export function lateAcid({ scenario, acid }: About): Question | undefined {
  const resin = resinFrom(scenario.values);
  const inside = invasion(acid, resin.Q, resin.kappa) * resin.pore;
  const outside = acid * scenario.values['bed.porosity'];
  const holdups = 1 + inside / outside;
  if (holdups < 1.1) return undefined;
  return {
    id: 'late-acid',
    prompt: `${figures(acid)} M HCl is followed by water. The liquid between the beads is one hold-up volume. When is the acid out of the bed?`,
    choices: [
      { id: 'later', text: `after more than one hold-up volume` },
      { id: 'one', text: 'after exactly one hold-up volume' },
      { id: 'sooner', text: 'sooner: water runs through the middle' },
    ],
    reasons: [
      { id: 'inside', text: 'acid also sits inside the beads and has to come out' },
      { id: 'push', text: 'water pushes the acid out like a piston' },
      { id: 'charge', text: 'the fixed charges repel the acid, so none is in the beads' },
    ],
    choice: 'later',
    reason: 'inside',
    explanation: `A litre of bed holds ${figures(outside)} mol of HCl between the beads and ${figures(inside)} mol inside them: on average the acid takes ${figures(holdups)} hold-up volumes. The metal leaves with this late front, not with the first of the water.`,
  };
}

export function twoSwitches({ scenario, acid, holder, D }: About): Question | undefined {
  if (D(holder, acid) < HELD || D(holder, 0) > RUNS) return undefined;
  const v = scenario.values;
  const holdup = bedVolumeOf(v) * v['bed.porosity'];
  const wait = holdup + v['column.tip_mL'];
  return {
    id: 'two-switches',
    prompt: `You pour water and change the receiver at the same moment. What drips into the new receiver first?`,
    choices: [
      { id: 'acid', text: `strong acid without ${name(holder)}` },
      { id: 'metal', text: `${name(holder)}` },
      { id: 'water', text: 'water' },
    ],
    reasons: [
      { id: 'volume', text: 'what is in the bed and below it has to leave first' },
      { id: 'release', text: 'water releases the metal at once, everywhere' },
      { id: 'fast', text: 'water is thinner and overtakes the acid' },
    ],
    choice: 'acid',
    reason: 'volume',
    explanation: `Bed and tip hold ${figures(wait)} mL of ${figures(acid)} M HCl: about ${figures(wait * acid)} mmol of acid would go into the receiver ahead of the ${name(holder)} and would have to be neutralised. Change the receiver later than the eluent.`,
  };
}
