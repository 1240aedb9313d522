import cathodeLeach from '../../../scenarios/cathode-leach.json?raw';
import { parseScenario } from '../../../sim/input/scenario.ts';
import '../../../src/figure/figure.ts';
import { handlesOf, switchWindow } from '../../../sim/history/index.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { installTheme } from '../../../src/ui/look/theme.ts';

// The figure alone with a whole run of the cathode leach, one lane for speed, and nothing that answers its events.

installTheme(document, undefined);
const read = parseScenario(cathodeLeach, 'cathode-leach');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const scenario = { ...read.scenario, values: { ...read.scenario.values, 'bed.lanes': 1 } };
const plan = new Planner(scenario).plan(scenario.procedure);
const targets = { target: 'Co', unwanted: ['Ni'], recovered: 0.995, carried: 0.005, NaOH_M: scenario.values['bench.NaOH_M'] } as const;

const main = document.createElement('main');
const heading = document.createElement('h1');
heading.textContent = 'Run figure';
const figure = document.createElement('bf-figure');
figure.style.height = '600px';
Object.assign(figure, {
  scenario,
  plan,
  targets,
  now_mL: 46,
  handles: handlesOf(plan.log, plan.events),
  window: switchWindow(plan, targets),
  predictions: [{ mL: 44, label: 'predicted: first Co' }],
});
main.append(heading, figure);
document.querySelector('bf-app')?.replaceWith(main);
