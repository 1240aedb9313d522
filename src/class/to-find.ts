import { html, nothing, type TemplateResult } from 'lit';
import { FAULTS } from '../../sim/faults/index.ts';
import { own } from '../../sim/input/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { isHidden } from '../store/keep/mystery.ts';
import { patched } from '../store/keep/difference.ts';
import type { Json } from '../store/keep/saved.ts';
import type { Session } from '../store/session.ts';

// Whether students have to find what is wrong with the column that is handed out.

export function hasFaults({ faults, procedure }: Scenario): boolean {
  return faults.length > 0 || procedure.some((action) => action.do === 'fault');
}

/** Names of the faults that a scenario begins with or that its procedure brings, in their order. */
export function faultNames({ faults, procedure }: Scenario): string[] {
  const brought = procedure.flatMap((action) => (action.do === 'fault' ? [action.fault] : []));
  return [...new Set([...faults, ...brought].map(({ kind }) => FAULTS[kind].label))];
}

/** A scenario without its faults, once it is read. */
export function soundOf(scenario: Scenario): Scenario {
  return { ...scenario, faults: [], procedure: scenario.procedure.filter((action) => action.do !== 'fault') };
}

/** The JSON of a scenario without its faults; `shipped` is what it differs from. */
export function withoutFaults(json: Json, shipped: Json): Json {
  const list = own(shipped, 'faults') === undefined ? null : [];
  const procedure = own(json, 'procedure');
  const left = patched(json, { faults: list });
  return Array.isArray(procedure) ? patched(left, { procedure: procedure.filter((action) => own(action, 'do') !== 'fault') }) : left;
}

/** What can be said and done about faults: whether they are to be found, and to hand out without them. */
export interface Findable {
  readonly toFind: boolean;
  readonly left: boolean;
  readonly takeToFind: (toFind: boolean) => void;
  readonly leaveOut: (left: boolean) => void;
}

/** The controls for it, with what they mean; not shown if there is nothing to find. */
export function findable({ written, mystery }: Session, { toFind, left, takeToFind: taken, leaveOut }: Findable): TemplateResult | typeof nothing {
  if (!written || !hasFaults(written)) return nothing;
  if (left)
    return html`<div class="row"><p>Handed out without the fault that is on the bench${isHidden(mystery) ? '' : `: ${faultNames(written).join(', ')}`}.</p>
      <button type="button" @click=${() => leaveOut(false)}>Hand out with it</button></div>`;
  return html`<div><label class="check"><input type="checkbox" .checked=${toFind} @change=${(event: Event & { target: HTMLInputElement }) => taken(event.target.checked)} /><span>students have to find what is wrong with this column</span></label>
    ${toFind ? html`<p class="soft">${hiddenWords(isHidden(mystery))}</p>` : openWords(written)}
    <button type="button" @click=${() => leaveOut(true)}>Hand out without it</button></div>`;
}

function openWords(scenario: Scenario): TemplateResult {
  const names = faultNames(scenario);
  return html`<p><strong>This column is handed out with ${names.length === 1 ? 'a fault' : 'faults'}: ${names.join(', ')}.</strong> Everybody can see which.</p>`;
}

function hiddenWords(fromHere: boolean): string {
  const here = fromHere ? ' On this page they are hidden as well.' : '';
  return `The faults are shown only after a student has named one.${here} Title, purpose and notes are shown as they are written. The link is sealed: this hides the fault from view, but not from someone who examines the code of the page.`;
}
