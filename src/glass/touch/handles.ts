import { receiverName } from '../../ui/text/receiver-words.ts';
import { type TemplateResult, html } from 'lit';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { at, styled } from '../../ui/styled.ts';
import { millilitres, percent } from '../../ui/text/format.ts';
import type { Layout } from '../layout.ts';
import { colourWord, liquidColour } from '../../../sim/colour/index.ts';
import { beakerDiameter, beakerVolume, type ReceiverContent, receiverContents } from '../scene/liquids.ts';
import type { Carrying } from './carrying.ts';
import type { Squeezing } from './squeezing.ts';
import { asideOrder } from '../sides.ts';
import { type Hint, hintBox, pressHints } from './hints.ts';
import { clampBox, mouthBox, receiverBoxes } from './places.ts';

export interface Handles {
  readonly scenario: Scenario;
  readonly moment: Moment;
  readonly labels: readonly string[];
  readonly layout: Layout;
  readonly carrying: Carrying;
  readonly squeezing: Squeezing;
  readonly pour: () => void;
}

/** The things on the drawing that can be pressed, as buttons over it: the mouth of the tube, the clamp, the receivers. */
export function handles(options: Handles): TemplateResult {
  const { scenario, moment, labels, layout, carrying, squeezing, pour } = options;
  const contents = receiverContents(scenario, moment, labels);
  const open = moment.clampOpen > 0 ? `open ${percent(moment.clampOpen, 0)}` : 'shut';
  return html`<button type="button" class="handle" aria-label="Pour into the tube" ${styled(at(mouthBox(layout)))} @click=${pour}></button>
    <button type="button" class="handle turned" aria-label="Clamp, ${open}: press to open or shut, arrow keys turn it" ${styled(at(clampBox(layout)))} @click=${squeezing.press}
      @pointerdown=${(event: PointerEvent) => squeezing.take(event, 100 * moment.clampOpen)} @pointermove=${squeezing.move} @pointerup=${squeezing.letGo} @pointercancel=${squeezing.drop}
      @keydown=${(event: KeyboardEvent) => squeezing.key(event, moment.clampOpen)}></button>
    ${receiverBoxes(layout, contents, moment.receiver).map(([content, box]) => {
      const { slot, label } = content;
      const here = slot === moment.receiver;
      return html`<button type="button" class="handle ${here ? '' : 'carried'}" aria-label="Receiver ${receiverName(label)}, ${contentWords(content, beakerDiameter(beakerVolume(scenario, moment)))}${here ? ', under the tip' : ': put it under the tip'}"
        aria-pressed=${here} ${styled(at(box))} @click=${() => carrying.press(label)}
        @pointerdown=${(event: PointerEvent) => here || carrying.take(event, slot)} @pointermove=${carrying.move}
        @pointerup=${(event: PointerEvent) => carrying.letGo(event, label, layout)} @pointercancel=${carrying.drop}></button>`;
    })}
    ${pressHints({ scenario, moment, layout, receivers: contents }).map((hint) => hinted(hint, options, contents))}`;
}

/** Over the words that say where to press: what they point at is a button of its own, so that keys and readers of the page need no second. */
function hinted(hint: Hint, { moment, layout, carrying, squeezing, pour }: Handles, contents: readonly ReceiverContent[]) {
  const place = styled(at(hintBox(hint)));
  const aside = asideOrder(contents, moment.receiver)[0];
  if (hint.does === 'pour') return html`<div class="handle hint" aria-hidden="true" ${place} @click=${pour}></div>`;
  if (hint.does === 'clamp')
    return html`<div class="handle hint turned" aria-hidden="true" ${place} @click=${squeezing.press}
      @pointerdown=${(event: PointerEvent) => squeezing.take(event, 100 * moment.clampOpen)} @pointermove=${squeezing.move} @pointerup=${squeezing.letGo} @pointercancel=${squeezing.drop}></div>`;
  return html`<div class="handle hint carried" aria-hidden="true" ${place} @click=${() => carrying.press(aside.label)}
      @pointerdown=${(event: PointerEvent) => carrying.take(event, aside.slot)} @pointermove=${carrying.move}
      @pointerup=${(event: PointerEvent) => carrying.letGo(event, aside.label, layout)} @pointercancel=${carrying.drop}></div>`;
}

/** "12.0 mL, pale pink": the colour as the beaker is drawn. */
function contentWords({ volume_mL, solution }: ReceiverContent, path_cm: number): string {
  return volume_mL > 0 ? `${millilitres(volume_mL)}, ${colourWord(liquidColour(solution, path_cm, { exaggerate: 1 }))}` : millilitres(volume_mL);
}
