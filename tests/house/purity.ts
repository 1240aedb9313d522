import ts from 'typescript';
import { at, type Source } from './tree.ts';

// The model knows no page, no clock and no chance but its seed: a run is the same on every machine and at every speed.

const PAGE = ['document', 'window', 'self', 'navigator', 'localStorage', 'sessionStorage', 'console', 'fetch', 'postMessage'];
const CLOCK = ['Date', 'performance', 'setTimeout', 'setInterval', 'queueMicrotask', 'requestAnimationFrame'];
const CHANCE = ['crypto'];
const MACHINE = ['process', 'globalThis', 'require'];
const FORBIDDEN = new Set([...PAGE, ...CLOCK, ...CHANCE, ...MACHINE]);

/** "file:line: name", a line a use of something outside the model. */
export function impurities(source: Source): string[] {
  const file = ts.createSourceFile(source.path, source.text, ts.ScriptTarget.Latest, true);
  const own = declaredNames(file);
  return nodes(file).flatMap((node) => {
    const name = isUse(node) && FORBIDDEN.has(node.text) && !own.has(node.text) ? node.text : isRandom(node) ? 'Math.random' : undefined;
    return name === undefined ? [] : [`${at(source, node.getStart(file))}: ${name}`];
  });
}

function nodes(root: ts.Node): ts.Node[] {
  const below: ts.Node[] = [];
  root.forEachChild((child) => {
    below.push(...nodes(child));
  });
  return [root, ...below];
}

/** Names that the file gives itself: a column of the bed may be called a window. */
function declaredNames(file: ts.SourceFile): Set<string> {
  const declared = nodes(file).flatMap((node) => {
    const bears =
      ts.isVariableDeclaration(node) || ts.isParameter(node) || ts.isBindingElement(node) || ts.isFunctionDeclaration(node) || ts.isImportSpecifier(node);
    return bears && node.name && ts.isIdentifier(node.name) ? [node.name.text] : [];
  });
  return new Set(declared);
}

function isUse(node: ts.Node): node is ts.Identifier {
  if (!ts.isIdentifier(node)) return false;
  const { parent } = node;
  const isMember = ts.isPropertyAccessExpression(parent) && parent.name === node;
  const isKey = (ts.isPropertyAssignment(parent) || ts.isPropertySignature(parent)) && parent.name === node;
  return !isMember && !isKey;
}

function isRandom(node: ts.Node): boolean {
  return ts.isPropertyAccessExpression(node) && node.name.text === 'random' && ts.isIdentifier(node.expression) && node.expression.text === 'Math';
}
