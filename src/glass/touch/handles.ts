import { type TemplateResult, html } from 'lit';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { at, styled } from '../../ui/styled.ts';
import { millilitres, percent } from '../../ui/text/format.ts';
import type { Layout } from '../layout.ts';
import { receiverContents } from '../scene/liquids.ts';
import type { Carrying } from './carrying.ts';
import { clampBox, mouthBox, receiverBoxes } from './places.ts';

export interface Handles {
  readonly scenario: Scenario;
  readonly moment: Moment;
  readonly labels: readonly string[];
  readonly layout: Layout;
  readonly carrying: Carrying;
  readonly clamp: () => void;
  readonly pour: () => void;
}

/** The things on the drawing that can be pressed, as buttons over it: the mouth of the tube, the clamp, the receivers. */
export function handles({ scenario, moment, labels, layout, carrying, clamp, pour }: Handles): TemplateResult {
  const contents = receiverContents(scenario, moment, labels);
  const open = moment.clampOpen > 0 ? `open ${percent(moment.clampOpen, 0)}` : 'shut';
  return html`<button type="button" class="handle" aria-label="Pour into the tube" ${styled(at(mouthBox(layout)))} @click=${pour}></button>
    <button type="button" class="handle" aria-label="Clamp, ${open}" ${styled(at(clampBox(layout)))} @click=${clamp}></button>
    ${receiverBoxes(layout, contents, moment.receiver).map(([{ slot, label, volume_mL }, box]) => {
      const here = slot === moment.receiver;
      return html`<button type="button" class="handle ${here ? '' : 'carried'}" aria-label="Receiver ${label}, ${millilitres(volume_mL)}${here ? ', under the tip' : ': put it under the tip'}"
        aria-pressed=${here} ${styled(at(box))} @click=${() => carrying.press(label)}
        @pointerdown=${(event: PointerEvent) => here || carrying.take(event, slot)} @pointermove=${carrying.move}
        @pointerup=${(event: PointerEvent) => carrying.letGo(event, label, layout)} @pointercancel=${carrying.drop}></button>`;
    })}`;
}
