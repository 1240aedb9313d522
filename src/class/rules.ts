import { html, type TemplateResult } from 'lit';
import { columnsDiffer } from '../../sim/column/index.ts';
import { COLUMN_POLICIES, type HandOut } from '../../sim/handed/index.ts';
import { CONTROLS } from '../../sim/terms/controls.ts';
import { type CoachLevel, SEEINGS, type Seeing, seenAtMost } from '../../sim/terms/seeing.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { columnBriefly } from '../ui/text/task/task-words.ts';
import '../ui/number.ts';
import '../ui/segmented.ts';

// The rules of a hand-out follow the lab as long as nothing else is chosen, and say where each comes from.

export type Rules = Pick<HandOut, 'column' | 'seeing' | 'tries'>;
/** What was chosen on the page; what is left out follows the lab. */
export type ChosenRules = Partial<Rules>;

/** A first try to look, one to do better, and one more: a choice. */
const TRIES_USUAL = 3;
const SEEN: Readonly<Record<Seeing, string>> = { eye: 'by eye', figure: 'with the figure', forecast: 'with the forecast' };
const COACH: Readonly<Record<CoachLevel, string>> = { off: 'is silent', ask: 'asks', guide: 'guides' };

export function rulesOf(scenario: Scenario, chosen: ChosenRules): Rules {
  return {
    column: chosen.column ?? (columnsDiffer(scenario) ? 'fresh' : 'same'),
    // The bench shows no more than the lab allows, whatever is handed out.
    seeing: seenAtMost(chosen.seeing ?? scenario.seeing ?? 'eye', scenario.seeing ?? 'forecast'),
    tries: chosen.tries ?? TRIES_USUAL,
  };
}

/** Where each rule comes from, in a sentence each. */
export function sourcesOf(scenario: Scenario, chosen: ChosenRules) {
  const usual = rulesOf(scenario, {});
  const { column, seeing, tries } = rulesOf(scenario, chosen);
  const lab = columnsDiffer(scenario) ? 'in this lab columns differ' : 'in this lab columns do not differ';
  const most = scenario.seeing && `this lab shows at most what is seen ${SEEN[scenario.seeing]}`;
  return {
    column: column === usual.column ? `Follows the lab: ${lab}.` : `Chosen here; ${lab}.`,
    seeing: most
      ? `${seeing === usual.seeing ? 'Follows the lab' : 'Chosen here'}: ${most}.`
      : `${seeing === usual.seeing ? 'The usual choice' : 'Chosen here'}: this lab sets no limit.`,
    tries: tries === usual.tries ? 'The usual number: a lab does not say how many.' : `Chosen here; the usual number is ${TRIES_USUAL}.`,
    coach: scenario.coach ? `The coach ${COACH[scenario.coach]} at first, as the lab says.` : 'The lab leaves the coach to each student.',
  };
}

export function ruleControls(scenario: Scenario, chosen: ChosenRules, choose: (chosen: ChosenRules) => void): TemplateResult {
  const { column, seeing, tries } = rulesOf(scenario, chosen);
  const from = sourcesOf(scenario, chosen);
  const columns = COLUMN_POLICIES.map((value) => ({ value, label: columnBriefly(value, scenario) }));
  const seen = SEEINGS.map((value) => ({ value, label: SEEN[value], disabled: seenAtMost(value, scenario.seeing ?? 'forecast') !== value }));
  return html`<div><bf-segmented label="column" .choices=${columns} .value=${column} @bf-change=${(event: Chosen) => choose({ column: one(COLUMN_POLICIES, event) })}></bf-segmented>
      <p class="soft">${from.column}</p></div>
    <div><bf-segmented label="seen before the end, at most" .choices=${seen} .value=${seeing} @bf-change=${(event: Chosen) => choose({ seeing: one(SEEINGS, event) })}></bf-segmented>
      <p class="soft">${from.seeing}</p></div>
    <div><bf-number .of=${CONTROLS['hand-out.tries']} .value=${tries} @bf-change=${(event: CustomEvent<{ value: number }>) => choose({ tries: event.detail.value })}></bf-number>
      <p class="soft">${from.tries}</p></div>
    <p class="soft">${from.coach}</p>`;
}

type Chosen = CustomEvent<{ value: string }>;

function one<T extends string>(all: readonly T[], { detail }: Chosen): T | undefined {
  return all.find((value) => value === detail.value);
}
