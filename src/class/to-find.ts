import { html, nothing, type TemplateResult } from 'lit';
import type { Scenario } from '../../sim/terms/types.ts';
import { isHidden } from '../store/keep/mystery.ts';
import type { Session } from '../store/session.ts';

// Whether students have to find what is wrong with the column that is handed out.

export function hasFaults({ faults, procedure }: Scenario): boolean {
  return faults.length > 0 || procedure.some((action) => action.do === 'fault');
}

/** The control for it, with what it means; not shown if there is nothing to find. */
export function findable({ written, mystery }: Session, toFind: boolean, taken: (toFind: boolean) => void): TemplateResult | typeof nothing {
  if (!written || !hasFaults(written)) return nothing;
  return html`<div><label class="check"><input type="checkbox" .checked=${toFind} @change=${(event: Event & { target: HTMLInputElement }) => taken(event.target.checked)} /><span>students have to find what is wrong with this column</span></label>
    <p class="soft">${toFind ? hiddenWords(isHidden(mystery)) : 'The scenario has faults, and everybody can see which.'}</p></div>`;
}

function hiddenWords(fromHere: boolean): string {
  const here = fromHere ? ' On this page they are hidden as well.' : '';
  return `The faults are shown only after a student has named one.${here} Title, purpose and notes are shown as they are written. The link is sealed: this hides the fault from view, but not from someone who examines the code of the page.`;
}
