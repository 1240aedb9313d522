import ts from 'typescript';
import { at, type Source } from './tree.ts';

// The model knows no page, no clock and no chance but its seed: a run is the same, bit for bit, on every machine and at every speed.

const PAGE = ['document', 'window', 'self', 'navigator', 'localStorage', 'sessionStorage', 'console', 'fetch', 'postMessage'];
const CLOCK = ['Date', 'performance', 'setTimeout', 'setInterval', 'queueMicrotask', 'requestAnimationFrame'];
const CHANCE = ['crypto'];
const MACHINE = ['process', 'globalThis', 'require'];
/** Functions whose last bit the language leaves to the engine; sim/math/elementary.ts has them with fixed bits. */
const LEFT_TO_THE_ENGINE = new Set(
  'exp expm1 log log10 log1p log2 pow cbrt hypot sin cos tan asin acos atan atan2 sinh cosh tanh asinh acosh atanh'.split(' '),
);
const FORBIDDEN = new Set([...PAGE, ...CLOCK, ...CHANCE, ...MACHINE]);

/** "file:line: name", a line a use of something outside the model. */
export function impurities(source: Source): string[] {
  const file = ts.createSourceFile(source.path, source.text, ts.ScriptTarget.Latest, true);
  const own = declaredNames(file);
  return nodes(file).flatMap((node) => {
    const name = isUse(node) && FORBIDDEN.has(node.text) && !own.has(node.text) ? node.text : (mathOf(node) ?? powerOf(node));
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

function mathOf(node: ts.Node): string | undefined {
  if (!ts.isPropertyAccessExpression(node) || !ts.isIdentifier(node.expression) || node.expression.text !== 'Math') return undefined;
  const { text } = node.name;
  return text === 'random' || LEFT_TO_THE_ENGINE.has(text) ? `Math.${text}` : undefined;
}

function powerOf(node: ts.Node): string | undefined {
  return node.kind === ts.SyntaxKind.AsteriskAsteriskToken || node.kind === ts.SyntaxKind.AsteriskAsteriskEqualsToken ? '**' : undefined;
}
