import type { Plugin } from 'vite';

// Templates and styles of elements are text inside the code, which no bundler makes smaller: a release would carry their comments
// and the spaces that line them up. Neither is seen: a browser takes a line's end with any spaces after it for one space.

const STYLES = /(?<=\bcss`)(?:[^`\\]|\\.)*(?=`)/g;
const INDENT = /\n[ \t]+/g;

/** For the bundler: templates without indentation, styles without comments and lined-up spaces. */
export function plainTemplates(): Plugin {
  return {
    name: 'plain-templates',
    apply: 'build',
    enforce: 'pre',
    transform: (code, id) => (/\/src\/.*\.ts$/.test(id) ? { code: code.replace(STYLES, withoutSpaces).replace(INDENT, '\n'), map: null } : undefined),
  };
}

/** One space is kept where a word, or a value that is put in, could end. */
function withoutSpaces(styles: string): string {
  return styles
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\s+/g, ' ')
    .replace(/(?<!\$)\{ |[;:,] | \}/g, (match) => match.trim())
    .replaceAll(';}', '}');
}
