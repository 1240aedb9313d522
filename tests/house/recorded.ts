import ts from 'typescript';
import { at, type Source } from './tree.ts';

// How a run is recorded (rows of frames, their stride, profiles by plate) is known in sim/history alone; everything else asks it in the words of the trade.

const OWNER = 'sim/history/';
const LAYOUT = new Set(['profiles', 'stride']);
/** Tables have rows too, so a row counts only where its owner is called a record of a run. */
const RECORD = /\b(record|plan|whole|preview)$/i;

/** "file:line: name", a line a place that reads the layout of a record outside its room. */
export function decodings(source: Source): string[] {
  if (source.path.startsWith(OWNER) || !/^(sim|src)\/.*\.ts$/.test(source.path)) return [];
  const file = ts.createSourceFile(source.path, source.text, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const name = namesLayout(node) ?? importsFrame(node);
    if (name !== undefined) found.push(`${at(source, node.getStart(file))}: ${name}`);
    node.forEachChild(visit);
  };
  visit(file);
  return found;
}

/** `record.rows`, or `{ stride } = plan`. */
function namesLayout(node: ts.Node): string | undefined {
  if (ts.isPropertyAccessExpression(node)) {
    const name = node.name.text;
    return LAYOUT.has(name) || (name === 'rows' && RECORD.test(node.expression.getText())) ? name : undefined;
  }
  if (!ts.isBindingElement(node) || !ts.isObjectBindingPattern(node.parent)) return undefined;
  const key = node.propertyName ?? node.name;
  return ts.isIdentifier(key) && LAYOUT.has(key.text) ? key.text : undefined;
}

function importsFrame(node: ts.Node): string | undefined {
  return ts.isImportSpecifier(node) && (node.propertyName ?? node.name).text === 'FRAME' ? 'FRAME' : undefined;
}
