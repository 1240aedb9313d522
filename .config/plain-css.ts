import type { Plugin } from 'vite';

// Styles of elements are text inside the code, which no bundler makes smaller: a release would carry their comments and the spaces
// that line them up.

const STYLES = /(?<=\bcss`)(?:[^`\\]|\\.)*(?=`)/g;

/** For the bundler: styles of elements without comments and lined-up spaces. */
export function plainCss(): Plugin {
  return {
    name: 'plain-css',
    apply: 'build',
    enforce: 'pre',
    transform: (code, id) => (/\/src\/.*\.ts$/.test(id) && code.includes('css`') ? { code: code.replace(STYLES, withoutSpaces), map: null } : undefined),
  };
}

/** One space is kept where a word, or a value that is put in, could end. */
function withoutSpaces(styles: string): string {
  return styles
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\s+/g, ' ')
    .replace(/(?<!\$)\{ |; | \}/g, (match) => match.trim());
}
