import { css, html, nothing } from 'lit';
import { columnsDiffer } from '../../sim/column/index.ts';
import type { HandOut } from '../../sim/handed/index.ts';
import { targetsOf } from '../../sim/history/index.ts';
import { questionsOf } from '../../sim/teach/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { CAUTION_CLOSE, CAUTIONS } from '../ui/safety/cautions.ts';
import { pictogram } from '../ui/safety/pictograms.ts';
import { askedWords } from '../ui/text/task/asked-words.ts';
import { ruleLines } from '../ui/text/task/task-words.ts';
import { type Modules, qrDrawing } from './qr.ts';
import { groupLine, leftOutLines, pouredRows } from './sheet-words.ts';

// The page for students, to be printed: task, limits, volumes, rules, questions, cautions, and the link. The notices of a scenario stay on the
// page: they are hints, and some give the judgement away.

export interface Sheet {
  readonly scenario: Scenario;
  readonly handOut: HandOut;
  readonly link: string;
  readonly modules: Modules | undefined;
}

export const sheetStyles = css`
  .sheet { background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); padding: var(--gap-large); max-width: 52rem; display: grid; gap: var(--gap); grid-template-columns: minmax(0, 1fr); }
  .sheet h2, .sheet h3, .sheet p, .sheet ul, .sheet ol { margin: 0; }
  .sheet ul, .sheet ol { padding-left: 1.25em; }
  .sheet .way { display: flex; flex-wrap: wrap; gap: var(--gap); align-items: start; }
  .sheet .qr { width: 62mm; max-width: 100%; height: auto; flex: none; }
  .sheet .link { overflow-wrap: anywhere; flex: 1 1 14rem; min-width: 0; font-size: var(--text-small); }
  .sheet .cautions { display: grid; gap: var(--gap-small) var(--gap-large); grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr)); font-size: var(--text-small); }
  .sheet .cautions h4 { display: flex; gap: var(--gap-small); align-items: center; margin: 0; font-size: 1em; }
  .sheet .cautions h4 svg { flex: none; }
  .sheet table { border-collapse: collapse; width: 100%; font-size: var(--text-small); }
  .sheet th, .sheet td { padding: 0.15em 0.8em 0.15em 0; text-align: left; vertical-align: top; font-weight: 400; overflow-wrap: anywhere; }
  .sheet thead th { color: var(--soft); border-bottom: 1px solid var(--edge); }
  .sheet tbody tr + tr > * { border-top: 1px solid var(--rule); }
  /* Blocks, since a grid that is broken over sheets may begin on a new one. */
  @media print {
    .sheet { display: block; border: 0; padding: 0; max-width: none; }
    .sheet > * + :is(h3, p, ul, ol, div, table) { margin-top: var(--gap-small); }
    .sheet .cautions > div, .sheet .way, .sheet tr { break-inside: avoid; }
    .sheet h3 { break-after: avoid; }
  }
`;

export function sheet({ scenario, handOut, link, modules }: Sheet) {
  const known = questionsOf(scenario);
  const questions = [...handOut.asked.flatMap((id) => known.find((one) => one.id === id)?.prompt ?? []), ...handOut.own];
  return html`<article class="sheet" aria-label="Page for students">
    <h2>${scenario.title}</h2>
    <p>${scenario.purpose}</p>
    <h3>What must be reached</h3>
    <p>${askedWords(targetsOf(scenario))}</p>
    <p>${groupLine(scenario)}</p>
    ${volumes(scenario, handOut)}
    <h3>Rules</h3>
    <ul>${ruleLines(handOut, scenario).map((line) => html`<li>${line}</li>`)}</ul>
    ${questions.length > 0 ? html`<h3>Asked at the end</h3><ol>${questions.map((question) => html`<li>${question}</li>`)}</ol>` : nothing}
    <h3>Where to find it</h3>
    <div class="way">${modules ? qrDrawing(modules) : nothing}<p class="link">${link}</p></div>
    <p>When the try has ended, press “Answer and hand in”, give your name or code, and give the file or the link to your instructor. It works in any current browser; nothing is sent from the page.</p>
    <h3>Cautions at the bench</h3>
    <p>${CAUTION_CLOSE}</p>
    <div class="cautions">${Object.values(CAUTIONS).map(
      ({ heading, lines, pictogram: sign }) => html`<div><h4>${pictogram(sign)}${heading}</h4><ul>${lines.map((line) => html`<li>${line}</li>`)}</ul></div>`,
    )}</div>
  </article>`;
}

function volumes(scenario: Scenario, { column }: HandOut) {
  const rows = pouredRows(scenario);
  if (rows.length === 0) return nothing;
  return html`<h3>Volumes of the procedure</h3>
    <table><thead><tr><th scope="col">step</th><th scope="col">bottle</th><th scope="col">volume</th></tr></thead>
      <tbody>${rows.map(({ step, bottle, volume }) => html`<tr><th scope="row">${step}</th><td>${bottle}</td><td>${volume}</td></tr>`)}</tbody></table>
    ${leftOutLines(scenario).map((line) => html`<p>${line}</p>`)}
    ${column === 'same' || !columnsDiffer(scenario) ? nothing : html`<p>Columns differ: where the volume and the column disagree, believe the column.</p>`}`;
}
