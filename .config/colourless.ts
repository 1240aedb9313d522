import type { Plugin } from 'vite';

// d3-scale can also blend colours, and d3-interpolate brings d3-color for that: 5 kB gzipped of the first visit. The scales of this page
// only take numbers to numbers, so what tells colours apart always answers "no colour", and the library stays out of the release.

const NONE = ['color', 'rgb', 'hsl', 'lab', 'hcl', 'cubehelix'];
const ID = '\0no-colours';

/** For the bundler: puts six functions that know no colour in the place of d3-color. */
export function colourless(): Plugin {
  return {
    name: 'colourless',
    apply: 'build',
    enforce: 'pre',
    resolveId: (source) => (source === 'd3-color' ? ID : undefined),
    load: (id) => (id === ID ? NONE.map((name) => `export function ${name}() { return null; }`).join('\n') : undefined),
  };
}
