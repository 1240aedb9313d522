import type { Plugin } from 'vite';

// The model's thread computes and tells no one what a parameter is called, what it means or where its number comes from: that
// is said by the page.

/** Tables of parameters whose rows carry words. */
const TABLES = /\/sim\/terms\/(fields|grades|limits|controls)\.ts$/;
const WORDS = /\b(label|meaning|source): '(?:[^'\\]|\\.)*'/g;

/** For a thread: leaves the words of the tables out; the numbers stay. */
export function wordless(): Plugin {
  return {
    name: 'wordless',
    enforce: 'pre',
    transform(code, id) {
      return TABLES.test(id) ? { code: code.replace(WORDS, "$1: ''"), map: null } : undefined;
    },
  };
}
