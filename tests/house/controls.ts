import { at, type Source } from './tree.ts';

// A number that the page asks for takes label, unit, range and step from a row of sim/terms: fields.ts, limits.ts or controls.ts.
// What follows from the run, such as the length of the bed, may go before a row.

const CONTROL = /<bf-number\b[\s\S]*?<\/bf-number>/g;
const OWN_RANGE = /\s\.?(?:min|max|step)=(?:\$\{\s*-?[\d.]+\s*\}|["'\d])/g;
const OWN_UNIT = /\s\.?unit=(?!\$\{\w)/g;

/** "file:line: words", a line a control of the page that brings its own range or unit. */
export function ownRanges(source: Source): string[] {
  if (!/^src\/.*\.ts$/.test(source.path)) return [];
  return [...source.text.matchAll(CONTROL)].flatMap(({ 0: control, index }) =>
    [OWN_RANGE, OWN_UNIT].flatMap((pattern) => [...control.matchAll(pattern)].map((match) => `${at(source, index + match.index)}: ${match[0].trim()}`)),
  );
}
