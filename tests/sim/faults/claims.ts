import { amountOf } from '../../../sim/faults/index.ts';
import { highestLeaving, leavesAt } from '../../../sim/history/index.ts';
import type { FaultKind } from '../../../sim/terms/fault-kinds.ts';
import type { Look, Seen } from './seen.ts';

// What the signs of every fault say, clause by clause, and the figures of a run that show it. A fault without a row does not compile.

/** A figure of the run, how it stands to another, and that other. */
export type Shown = readonly [found: number, is: '>' | '<', than: number];

/** The run with the fault, its healthy twin, and both with the column left open in mid-wash. */
export interface Runs {
  readonly run: Seen;
  readonly twin: Seen;
  readonly open: () => { readonly run: Seen; readonly twin: Seen };
  /** The run with the same fault, less severe. */
  readonly milder: (severity: number) => Seen;
}

export interface Claim {
  readonly says: string;
  readonly shown: (runs: Runs) => readonly Shown[];
}

const HALF = 0.5;

/** Side of a fault that has one, degrees. */
export const SIDE_DEG = 90;

const claim = (says: string, shown: Claim['shown']): Claim => ({ says, shown });
const fastest = ({ looks }: Seen): number => Math.max(...looks.map(({ flow }) => flow));
const gassiest = ({ looks }: Seen): number => Math.max(...looks.map(({ gas }) => gas));
const leaves = ({ plan }: Seen, share: number): number => leavesAt(plan, 'Co', share) ?? Number.POSITIVE_INFINITY;
const wide = (seen: Seen, ion: 'Co' | 'Ni' = 'Co'): number => seen.peak(ion)?.width_mL ?? Number.POSITIVE_INFINITY;
const beaker = ({ plan }: Seen, label: string) => plan.results.receivers.find((receiver) => receiver.label === label);
const acid = (seen: Seen): number => beaker(seen, 'cobalt')?.HCl_mmol ?? 0;
const lean = ({ lean: found }: Look): number => found?.lean_cm ?? 0;
const core = ({ lean: found }: Look): number => found?.core_cm ?? 0;
const lanesAt = (look: Look, from: (apart: number) => boolean): number[] =>
  look.lanes.filter((_, lane) => lane > 0 && from(Math.abs((((360 * (lane - 1)) / (look.lanes.length - 1) - SIDE_DEG + 540) % 360) - 180)));
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
/** cm by which the cobalt on the side of the fault is ahead of that on the other. */
const towards = (look: Look): number => mean(lanesAt(look, (apart) => apart < 60)) - mean(lanesAt(look, (apart) => apart > 120));
const side = (look: Look): number => Math.max(...lanesAt(look, (apart) => apart < 40));
const lost = (seen: Seen): number => seen.in('nickel');
const noMoreLost: Claim['shown'] = ({ run, twin }) => [[lost(run), '<', lost(twin) + 0.003]];
const drains: Claim['shown'] = ({ open }) => [[gassiest(open().run), '>', 0.1 + gassiest(open().twin)]];

export const CLAIMS: Readonly<Record<FaultKind, readonly Claim[]>> = {
  'dried-bed': [
    claim('Slower flow at the same head,', ({ run, twin }) => [[fastest(run), '<', 0.9 * fastest(twin)]]),
    claim('a ragged band,', ({ run, twin }) => [[lean(run.washed), '>', 2 * lean(twin.washed)]]),
    claim('early cobalt,', ({ run, twin }) => [[lost(run), '>', lost(twin) + 0.05]]),
    claim('a wide peak', ({ run, twin }) => [[wide(run), '>', 1.5 * wide(twin)]]),
    claim('and cobalt left at the end;', ({ run, twin }) => [[run.onBed(), '>', twin.onBed() + 0.001]]),
    claim('after a long drying one side of the wall runs ahead.', ({ run, twin }) => [
      [Math.max(...run.loaded.lanes), '>', 2 * Math.max(...twin.loaded.lanes)],
    ]),
  ],
  channel: [
    claim('Two leading edges for one band,', ({ run }) => [[side(run.loaded), '>', 2 * mean(lanesAt(run.loaded, (apart) => apart > 80))]]),
    claim('early breakthrough,', ({ run, twin }) => [[leaves(run, 0.01), '<', leaves(twin, 0.01) - 10]]),
    claim('and a wide peak;', ({ run, twin }) => [[wide(run), '>', 1.2 * wide(twin)]]),
    claim('the channel takes a larger share while water follows acid.', ({ run }) => [
      [Math.max(...run.looks.map(({ speeds }) => Math.max(...speeds))), '>', 1.1 * Math.max(...run.loaded.speeds)],
    ]),
    claim('Seen from one side only.', ({ run, twin }) => [
      [mean(lanesAt(run.loaded, (apart) => apart > 80)), '<', 1.05 * mean(lanesAt(twin.loaded, (apart) => apart > 80))],
    ]),
  ],
  crater: [
    claim('The top of the bed is hollow;', ({ run, twin }) => [[run.loaded.hollow, '>', twin.loaded.hollow + 0.5]]),
    claim('the band begins thick', ({ run, twin }) => [[run.loaded.edge('Co'), '>', 1.1 * twin.loaded.edge('Co')]]),
    claim('and bent, ahead in the middle,', ({ run, twin }) => [[core(run.loaded), '>', core(twin.loaded) + 0.3]]),
    claim('and stays bent.', ({ run, twin }) => [[core(run.washed), '>', core(twin.washed) + 0.3]]),
    claim('No cobalt is lost in 9 M acid.', noMoreLost),
  ],
  'loose-top': [
    claim('A thick,', ({ run, twin }) => [[run.loaded.edge('Co'), '>', 1.3 * twin.loaded.edge('Co')]]),
    claim('even band from the start,', ({ run, twin }) => [[lean(run.loaded), '<', 1.1 * lean(twin.loaded)]]),
    claim('and acid that lingers when water follows it.', ({ run, twin }) => [[acid(run), '>', 1.02 * acid(twin)]]),
  ],
  'tilted-bed': [
    claim('The bands lean towards the short side,', ({ run, twin }) => [[towards(run.loaded), '>', towards(twin.loaded) + 0.05]]),
    claim('the more the further they run.', ({ run, twin }) => [
      [towards(run.washed) - towards(twin.washed), '>', 2 * (towards(run.loaded) - towards(twin.loaded))],
    ]),
    claim('In a narrow tube this is less than ordinary packing bends them,', ({ run, twin }) => [
      [towards(run.washed) - towards(twin.washed), '<', lean(twin.washed)],
    ]),
    claim('and no cobalt is lost.', noMoreLost),
  ],
  'deep-head': [
    claim('The nickel peak is lower', ({ run, twin }) => [[highestLeaving(run.plan, 'Ni').molarity_M, '<', 0.8 * highestLeaving(twin.plan, 'Ni').molarity_M]]),
    claim('and twice as wide,', ({ run, twin }) => [
      [wide(run, 'Ni'), '>', 1.6 * wide(twin, 'Ni')],
      [wide(run, 'Ni'), '<', 2.4 * wide(twin, 'Ni')],
    ]),
    claim('since the sample goes in diluted.', ({ run, twin }) => [[run.loaded.edge('Co'), '<', 1.05 * twin.loaded.edge('Co')]]),
    claim('In 9 M acid the cobalt is still held: no more of it is lost.', noMoreLost),
  ],
  'water-rinse': [
    claim('The band starts thick:', ({ run, twin }) => [[run.loaded.edge('Co'), '>', 2 * twin.loaded.edge('Co')]]),
    claim('cobalt runs ahead with the weak acid until the next acid catches it,', ({ run, twin }) => [
      [run.washed.middle('Co'), '>', twin.washed.middle('Co') + 1],
    ]),
    claim('and what has reached the outlet is lost.', ({ run, twin }) => [[lost(run), '>', lost(twin) + 0.1]]),
  ],
  overload: [
    claim('A long saturated zone,', ({ run, twin }) => [
      [run.loaded.middle('Co'), '>', 3 * twin.loaded.middle('Co')],
      // Two sites for every anion of two charges.
      [2 * run.loaded.densest('Co'), '>', 0.5 * run.scenario.values['resin.capacity_eq_per_L']],
    ]),
    claim('a leading edge far down the bed during the wash,', ({ run }) => [[run.loaded.edge('Co'), '>', run.scenario.values['bed.length_cm'] / 2]]),
    claim('cobalt in the nickel receiver.', ({ run, twin }) => [[lost(run), '>', lost(twin) + 0.1]]),
  ],
  'interfering-ions': [
    claim('Bands above and below the cobalt;', ({ run }) => [
      [run.loaded.middle('Fe3'), '<', run.loaded.middle('Co')],
      [run.loaded.middle('Cu'), '>', run.loaded.middle('Co')],
    ]),
    claim('water releases iron and zinc with it,', ({ run }) => [
      [run.in('cobalt', 'Fe3'), '>', 0.5],
      [run.in('cobalt', 'Zn'), '>', 0.5],
    ]),
    claim('copper leaves mostly with the nickel.', ({ run }) => [[run.in('nickel', 'Cu'), '>', 0.5]]),
  ],
  'weak-acid': [
    claim('The cobalt band is paler', ({ run, twin }) => [[run.loaded.densest('Co'), '<', 0.6 * twin.loaded.densest('Co')]]),
    claim('and crawls several times as fast during the wash.', ({ run, twin }) => [[run.loaded.middle('Co'), '>', 3 * twin.loaded.middle('Co')]]),
  ],
  'fumed-acid': [
    claim('The cobalt band runs a little faster than it should,', ({ run, twin }) => [
      [run.washed.middle('Co'), '>', 1.02 * twin.washed.middle('Co')],
      [run.washed.middle('Co'), '<', 1.25 * twin.washed.middle('Co')],
    ]),
    claim('and more so as the wash goes on;', ({ run, twin }) => [
      [run.washed.middle('Co') / twin.washed.middle('Co'), '>', run.loaded.middle('Co') / twin.loaded.middle('Co')],
    ]),
    claim('within an hour the harm is small in 9 M acid.', ({ run, twin }) => [
      [run.minutes, '<', 60],
      [lost(run), '<', lost(twin) + 0.01],
    ]),
  ],
  'short-conditioning': [
    claim('Part of the cobalt runs ahead with the acid front and leaves soon after the sample;', ({ run }) => [
      [leaves(run, 0.01), '<', run.loaded.delivered_mL + 2],
      [lost(run), '>', 0.03],
    ]),
    claim('the rest is held once acid has filled the bed.', ({ run }) => [
      [run.in('cobalt'), '>', 0.85],
      [leaves(run, 0.5), '>', run.washed.delivered_mL],
    ]),
  ],
  'wrong-bottle': [
    claim('The band breaks loose in the middle of the wash', ({ run, twin }) => [[run.washed.edge('Co'), '>', twin.washed.edge('Co') + 1]]),
    claim('and runs down with the weak acid.', ({ run }) => [[leaves(run, 0.5), '<', run.washed.delivered_mL]]),
  ],
  'short-bed': [
    claim('Faster flow;', ({ run, twin }) => [[fastest(run), '>', 1.3 * fastest(twin)]]),
    claim('cobalt leaves early;', ({ run, twin }) => [[leaves(run, 0.1), '<', leaves(twin, 0.1) - 2]]),
    claim('a wash that used to be safe is too long.', ({ run, twin }) => [
      [lost(twin), '<', 0.01],
      [lost(run), '>', 0.1],
    ]),
  ],
  'coarse-beads': [
    claim('Faster flow: twice the usual with beads 1.5 times as coarse,', ({ twin, milder }) => [
      [amountOf('coarse-beads', HALF), '>', 1.499],
      [amountOf('coarse-beads', HALF), '<', 1.501],
      [fastest(milder(HALF)), '>', 1.85 * fastest(twin)],
      [fastest(milder(HALF)), '<', 2.25 * fastest(twin)],
    ]),
    claim('three to four times it with beads twice as coarse;', ({ run, twin }) => [
      [amountOf('coarse-beads', 1), '>', 1.999],
      [amountOf('coarse-beads', 1), '<', 2.001],
      [fastest(run), '>', 3 * fastest(twin)],
      [fastest(run), '<', 4 * fastest(twin)],
    ]),
    claim('a wide band that leaves early,', ({ run, twin, milder }) => [
      [run.loaded.edge('Co'), '>', 2 * twin.loaded.edge('Co')],
      [lost(run), '>', 0.1],
      [milder(HALF).loaded.edge('Co'), '>', 2 * twin.loaded.edge('Co')],
      [lost(milder(HALF)), '>', 0.05],
    ]),
    claim('and with the coarsest much that is not off at the end;', ({ run, milder }) => [
      [run.onBed(), '>', 0.1],
      [milder(HALF).onBed(), '<', 0.05],
    ]),
    claim('the bed does not hold its liquid when the level reaches the top.', drains),
  ],
  fines: [
    claim('Slow flow', ({ run, twin }) => [[fastest(run), '<', 0.3 * fastest(twin)]]),
    claim('that gets slower;', ({ run }) => [[flowAt(run, 0.6), '<', 0.99 * flowAt(run, 0.1)]]),
    claim('bands are narrow, since at slow flow ions have time to exchange.', ({ run, twin }) => [
      [run.washed.edge('Co') - run.washed.rear('Co'), '<', twin.washed.edge('Co') - twin.washed.rear('Co')],
      [wide(run), '<', wide(twin)],
    ]),
  ],
  'wide-bead-range': [
    claim('Normal flow', ({ run, twin }) => [
      [fastest(run), '<', 1.1 * fastest(twin)],
      [fastest(run), '>', 0.9 * fastest(twin)],
    ]),
    claim('with wider bands', ({ run, twin }) => [[run.loaded.edge('Co'), '>', 1.15 * twin.loaded.edge('Co')]]),
    claim('and longer tails.', ({ run, twin }) => [[leaves(run, 0.95) - leaves(run, 0.5), '>', 1.2 * (leaves(twin, 0.95) - leaves(twin, 0.5))]]),
  ],
  'uneven-packing': [
    claim('Ragged bands,', ({ run, twin }) => [[lean(run.loaded), '>', 3 * lean(twin.loaded)]]),
    claim('several small leading edges;', ({ run, twin }) => [[ahead(run.loaded), '>', ahead(twin.loaded) + 1]]),
    claim('the bed drains when its liquid runs out.', drains),
  ],
  swelling: [
    claim('A shorter bed in acid,', ({ run, twin }) => [[run.washed.bed_cm, '<', twin.washed.bed_cm - 0.1]]),
    claim('and liquid that runs down the wall: bands are ahead all round, by millimetres.', ({ run, twin }) => [
      [core(run.washed), '<', core(twin.washed) - 0.1],
      [core(run.washed), '>', core(twin.washed) - 1],
    ]),
    claim('No cobalt is lost in 9 M acid.', noMoreLost),
  ],
  'load-volume': [
    claim('A darker,', ({ run, twin }) => [[run.loaded.densest('Co'), '>', 1.3 * twin.loaded.densest('Co')]]),
    claim('longer band;', ({ run, twin }) => [[run.washed.edge('Co'), '>', twin.washed.edge('Co') + 0.1]]),
    claim('the result is off by the same share.', ({ run, twin }) => [
      [amount(run), '>', 1.97 * amount(twin)],
      [amount(run), '<', 2.03 * amount(twin)],
    ]),
  ],
  'receiver-early': [
    claim('All the cobalt,', ({ run }) => [[run.in('cobalt'), '>', 0.99]]),
    claim('but with much acid that must be neutralised.', ({ run, twin }) => [[acid(run), '>', 2 * acid(twin)]]),
  ],
  'receiver-late': [
    claim('Colour in the waste before the receiver is changed.', ({ run, twin }) => [
      // 10 mmol/L of pink cobalt are plain to see; common practice, no source.
      [highestLeaving(run.plan, 'Co').molarity_M, '>', 0.01],
      [lost(run), '>', lost(twin) + 0.3],
    ]),
  ],
  'stopped-early': [claim('Colour left on the bed.', ({ run, twin }) => [[run.onBed(), '>', twin.onBed() + 0.3]])],
  'fast-flow': [
    claim('A wide band', ({ run, twin }) => [[wide(run), '>', 1.3 * wide(twin)]]),
    claim('and an early leading edge', ({ run, twin }) => [[run.loaded.edge('Co'), '>', 2 * twin.loaded.edge('Co')]]),
    claim('at several mL/min;', ({ run }) => [[fastest(run), '>', 6]]),
    claim('the bed drains when its liquid runs out.', drains),
  ],
  spill: [
    claim('Less volume than was delivered.', ({ run, twin }) => [[beaker(run, 'cobalt')?.volume_mL ?? 0, '<', 0.6 * (beaker(twin, 'cobalt')?.volume_mL ?? 0)]]),
  ],
  'no-recondition': [
    claim('The second band is not held at the top: it starts thick and runs ahead with the acid front.', ({ run, twin }) => [
      [2 * run.in('nickel, second'), '>', lost(twin)],
      [
        Math.max(...run.looks.filter(({ delivered_mL }) => delivered_mL > twin.plan.logEnd.delivered_mL).map((look) => look.edge('Co'))),
        '>',
        1.3 * twin.loaded.edge('Co'),
      ],
    ]),
    claim('In strong acid it is caught again further down, and little is lost.', ({ run }) => [
      [2 * run.in('nickel, second'), '<', 0.1],
      [2 * run.in('cobalt, second'), '>', 0.9],
    ]),
  ],
  'carry-over': [
    claim('Colour low on the bed before anything is loaded;', ({ run, twin }) => [
      [run.stored.middle('Co'), '>', run.scenario.values['bed.length_cm'] / 2],
      [twin.stored.densest('Co'), '<', 1e-9],
    ]),
    claim('cobalt in the first effluent, since water does not hold it.', ({ run }) => [[leaves(run, 0.1), '<', 10]]),
    claim('The receiver holds hardly more than was put on, since the conditioning acid has washed the rest out before.', ({ run, twin }) => [
      [amount(run), '<', 1.02 * amount(twin)],
      [lost(run), '>', 0.1],
    ]),
  ],
};

/** mmol of cobalt in its beaker. */
function amount(seen: Seen): number {
  return Number(beaker(seen, 'cobalt')?.Co_mmol ?? 0);
}

/** Lanes whose edge is 15 % ahead of the mean. */
function ahead({ lanes }: Look): number {
  return lanes.filter((edge) => edge > 1.15 * mean(lanes)).length;
}

/** Highest flow within 8 mL from this share of the looks on: at the head of a fresh pour. */
function flowAt({ looks }: Seen, share: number): number {
  const from = Math.floor(share * looks.length);
  return Math.max(...looks.slice(from, from + 32).map(({ flow }) => flow));
}
