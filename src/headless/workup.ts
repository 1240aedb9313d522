import { resultsOf, type Run } from '../../sim/run/index.ts';
import type { Issue } from '../../sim/terms/types.ts';
import type { WorkUpLog } from '../../sim/workup/index.ts';
import { type Receiver, receiverOf } from '../../sim/flask/index.ts';
import { type Interval, intervalOfMean, reportOf, richest, sampleOf, valuesWith, workUp, type WorkUpReport } from '../../sim/report/index.ts';

// What a receiver of the run comes to on the work-up bench: by given steps or the usual ones.

export interface WorkUps {
  /** Of the receiver asked for, else of the one that holds most cobalt. */
  readonly workup: WorkUpReport;
  /** Of every receiver that is worth a titration, in their order; of the one asked for alone. */
  readonly workups: readonly WorkUpReport[];
  /** Mean of these aliquots with its interval; undefined before one was titrated. */
  readonly molarity: Interval | undefined;
}

export type WorkUpOutcome = { readonly ok: true; readonly workups: WorkUps } | { readonly ok: false; readonly issues: readonly Issue[] };

/** Share of the cobalt of the fullest receiver from which another is titrated as well; a choice. */
const WORTH = 0.5;

/** `label`: which receiver; without it all that hold about as much cobalt as the fullest. */
export function workUpOf(run: Run, label: string | undefined, steps: WorkUpLog | undefined): WorkUpOutcome {
  const { receivers } = resultsOf(run);
  const labels = receivers.map((one) => one.label).join(', ');
  const chosen = label === undefined ? richest(receivers) : receivers.find((one) => one.label === label);
  if (!chosen) return refused('receiver', label === undefined ? 'a receiver with cobalt' : `one of ${labels}`, label ?? 'none');
  if (chosen.volume_mL <= 0) return refused('receiver', 'a receiver with liquid in it', `${chosen.label}, empty`);
  const cobalt = (one: Receiver) => one.Co_mmol ?? 0;
  const taken = label === undefined ? receivers.filter((one) => cobalt(one) >= WORTH * cobalt(chosen)) : [chosen];
  const workups = taken.map((one) => reportFor(run, receiverOf(one), steps));
  const workup = workups[taken.indexOf(chosen)] ?? workups[0];
  return { ok: true, workups: { workup, workups, molarity: intervalOfMean(workups.flatMap(({ interval }) => interval ?? [])) } };
}

function reportFor(run: Run, receiver: Receiver, steps: WorkUpLog | undefined): WorkUpReport {
  const { scenario, log } = run;
  const sample = sampleOf(scenario, log, receiver.label);
  return reportOf(receiver, sample, workUp(receiver, valuesWith(sample, scenario.values), scenario.seed, steps, sample?.nth));
}

/** Lines for people under the table of the run. */
export function workUpsLines({ workups, molarity }: WorkUps): string {
  if (!molarity || workups.length < 2) return workups.map(workUpLines).join('');
  const truth = workups[0].sample ? `, true ${workups[0].sample.Co_M} mol/L` : '';
  const mean = `mean of ${workups.length} aliquots: ${molarity.found_M.toFixed(5)} mol/L, ${intervalWords(molarity)}${truth}`;
  return `${workups.map(workUpLines).join('')}\n${mean}\n`;
}

function intervalWords({ level, halfWidth_M }: Interval): string {
  return `${(100 * level).toFixed(0)} % interval +/- ${halfWidth_M.toFixed(5)}`;
}

function workUpLines({
  receiver,
  sample,
  flask_mL,
  portion_mL,
  titrations,
  NaOH_whole_mL,
  NaOH_mL,
  cobalt,
  spread_M,
  budgets,
  interval,
  time_min,
  refused,
  notes,
}: WorkUpReport): string {
  const lines = [
    `work-up of ${receiver.label}: ${receiver.volume_mL.toFixed(2)} mL, ${receiver.HCl_mmol.toFixed(3)} mmol acid (${NaOH_whole_mL.toFixed(2)} mL of alkali for all of it), ${portion_mL < flask_mL ? `portions of ${portion_mL.toFixed(0)} mL from ${flask_mL.toFixed(0)} mL` : 'titrated whole'}`,
    ...titrations.map(
      (one, i) =>
        `titration ${i + 1}: ${one.titre.initial_mL.toFixed(2)} to ${one.titre.final_mL.toFixed(2)}, ${one.titre.read_mL.toFixed(2)} mL EDTA (equivalence ${one.titre.equivalence_mL.toFixed(2)}), ${one.NaOH_mL.toFixed(2)} mL NaOH, pH ${one.pH.start.toFixed(2)} to ${one.pH.end.toFixed(2)}: ${one.found_M.toFixed(5)} mol/L${one.titre.pink ? '' : ', not to the end point'}`,
    ),
  ];
  if (cobalt)
    lines.push(
      `cobalt: ${cobalt.found_mmol.toFixed(5)} mmol found, ${cobalt.held_mmol.toFixed(5)} held, ${cobalt.bias_percent.toFixed(2)} %; unknown ${cobalt.found_M.toFixed(5)} mol/L${sample ? `, true ${sample.Co_M} mol/L` : ''}${interval ? `, ${intervalWords(interval)}` : ''}`,
    );
  if (spread_M)
    lines.push(
      `titrations of one eluate: mean ${spread_M.mean.toFixed(5)} mol/L, s ${spread_M.s.toFixed(5)}, RSD ${spread_M.rsd_percent.toFixed(2)} %, 95 % interval +/- ${spread_M.halfWidth.toFixed(5)}`,
    );
  if (budgets.length > 0)
    lines.push(
      `error budget: ${budgets.map(({ spread, relative_percent }) => `${relative_percent.toFixed(2)} % (${spread})`).join(', ')}; largest ${budgets[0].largest}`,
    );
  lines.push(...refused.map(({ entry, path, expected, received }) => `step ${entry + 1} refused: ${path}: expected ${expected}; received ${received}`));
  lines.push(...notes.map(({ entry, kind, text }) => `step ${entry + 1}, ${kind}: ${text}`), `${NaOH_mL.toFixed(2)} mL NaOH, ${time_min.toFixed(1)} min`);
  return `\n${lines.join('\n')}\n`;
}

function refused(path: string, expected: string, received: string): WorkUpOutcome {
  return { ok: false, issues: [{ path, expected, received }] };
}
