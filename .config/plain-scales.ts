import type { Plugin } from 'vite';

// d3-scale can also blend colours, dates and texts and write numbers, and the libraries that it brings for that are 9 kB gzipped of the
// first visit. The scales of this page only take numbers to numbers, and the page writes its numbers itself, so a release holds no more
// than that: blending as in d3-interpolate, and functions that refuse.

const FORMATS = ['format', 'formatPrefix', 'formatSpecifier', 'precisionFixed', 'precisionPrefix', 'precisionRound'];
const INSTEAD: Readonly<Record<string, string>> = {
  'd3-interpolate': `export const interpolateNumber = (a, b) => (t) => a * (1 - t) + b * t;
export const interpolateRound = (a, b) => (t) => Math.round(a * (1 - t) + b * t);
export { interpolateNumber as interpolate };
${refusing(['piecewise'])}`,
  'd3-format': refusing(FORMATS),
};
const MARK = '\0plain:';

/** For the bundler: what stands in the place of d3-interpolate and d3-format. */
export function plainScales(): Plugin {
  return {
    name: 'plain-scales',
    apply: 'build',
    enforce: 'pre',
    resolveId: (source) => (source in INSTEAD ? MARK + source : undefined),
    load: (id) => (id.startsWith(MARK) ? INSTEAD[id.slice(MARK.length)] : undefined),
  };
}

function refusing(names: readonly string[]): string {
  return names.map((name) => `export function ${name}() { throw new Error('${name}: left out of the release'); }`).join('\n');
}
