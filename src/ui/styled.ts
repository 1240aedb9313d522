import { noChange } from 'lit';
import { Directive, directive, type ElementPart, type PartInfo, PartType } from 'lit/directive.js';

/** Custom properties or style properties by name, with unit. */
export type StyleValues = Readonly<Record<string, string>>;

/** Sets styles of an element one by one, which a page allows that forbids style attributes (style-src 'self'). */
class Styled extends Directive {
  private before: StyleValues = {};

  constructor(info: PartInfo) {
    super(info);
    if (info.type !== PartType.ELEMENT) throw new Error('styled: expected a place among the attributes of a tag, received another');
  }

  render(_values: StyleValues): unknown {
    return noChange;
  }

  override update({ element }: ElementPart, [values]: [StyleValues]): unknown {
    if (!(element instanceof HTMLElement || element instanceof SVGElement)) return noChange;
    for (const name of Object.keys(this.before)) if (!(name in values)) element.style.removeProperty(name);
    for (const [name, value] of Object.entries(values)) if (this.before[name] !== value) element.style.setProperty(name, value);
    this.before = values;
    return noChange;
  }
}

export const styled = directive(Styled);

/** Styles of an element that stands at a place, px; what is left out stays as the style sheet has it. */
export function at(place: Readonly<Partial<Record<'left' | 'top' | 'width' | 'height', number>>>): StyleValues {
  return Object.fromEntries(Object.entries(place).map(([name, px]) => [name, `${px}px`]));
}
