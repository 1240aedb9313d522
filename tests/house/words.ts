import { at, type Source } from './tree.ts';

// Words that the project does without, put together here so that this file does without them too.

const UNWANTED: readonly RegExp[] = [
  ['vid', 'eos?'],
  ['screen', '-?casts?'],
  ['walk', '[- ]?throughs?'],
  ['recording', ' of'],
].map(([a, b]) => new RegExp(`\\b${a}${b}\\b`, 'gi'));
const NEIGHBOUR = /(\.\.\/|\/work\/)shared\b/g;
/** Written by npm. */
const NOT_READ = new Set(['package-lock.json']);

/** "file:line: word", a line a word that is not wanted or an address beside the project. */
export function unwantedWords(source: Source): string[] {
  if (NOT_READ.has(source.path)) return [];
  return [...UNWANTED, NEIGHBOUR].flatMap((pattern) => [...source.text.matchAll(pattern)].map((match) => `${at(source, match.index)}: ${match[0]}`));
}
