import { dirname, resolve } from 'node:path';
import { DefaultLitAnalyzerContext, LitAnalyzer, type LitDiagnostic, makeConfig } from 'lit-analyzer';
import ts from 'typescript';

// Checks the lit templates under src: tags, attributes, properties, events and the types of their bindings.
// The analyser's own command line is not used: it ends with 0 after a crash, and it takes `nothing` for a value.

const CONFIG = makeConfig({
  strict: true,
  // Its list of CSS properties ends before accent-color and text-wrap.
  rules: { 'no-invalid-css': 'off' },
  // In the HTML standard, not yet in its table.
  globalAttributes: ['popover', 'popovertarget'],
});

/** Correct in the HTML standard, refused by the analyser's older table of attributes: <input step="any">. */
const REFUSED_WRONGLY = new Set([`Type '"any"' is not assignable to 'number'`]);
const TAG = /@customElement\('([^']+)'\)/g;
const SHARED = /\/src\/(store|ui|plot)$/;

const NOTHING = { file: 'lit-html.d.ts', symbol: 'declare const nothing: unique symbol', never: 'declare const nothing: never' };

const { options, fileNames } = readProject('src/tsconfig.json');
const program = ts.createProgram(fileNames, options, hostWithNothingAsNever(options));
const context = new DefaultLitAnalyzerContext({ ts, getProgram: () => program });
context.updateConfig(CONFIG);
const analyzer = new LitAnalyzer(context);
const own = new Set(fileNames.map((name) => resolve(name)));
const files = program.getSourceFiles().filter((file) => own.has(resolve(file.fileName)));
const folderOfTag = new Map(files.flatMap((file) => [...file.text.matchAll(TAG)].map((match) => [match[1], dirname(file.fileName)] as const)));
const found = files.flatMap((file) => analyzer.getDiagnosticsInFile(file)).filter((diagnostic) => !isRefusedWrongly(diagnostic) && !isWiredByApp(diagnostic));
for (const diagnostic of found) process.stdout.write(`${line(diagnostic)}\n`);
process.stdout.write(`templates: ${files.length} files read, ${found.length} problems\n`);
if (found.length > 0 || files.length === 0) process.exitCode = 1;

function isRefusedWrongly({ message }: LitDiagnostic): boolean {
  return REFUSED_WRONGLY.has(message);
}

/** A view may show the element of another view without importing it: src/app loads both. */
function isWiredByApp({ source, message, file }: LitDiagnostic): boolean {
  if (source !== 'no-missing-import') return false;
  const folder = folderOfTag.get(/<([^>]+)>/.exec(message)?.[1] ?? '');
  return folder !== undefined && folder !== dirname(file.fileName) && !SHARED.test(folder);
}

function readProject(path: string): ts.ParsedCommandLine {
  const { config, error } = ts.readConfigFile(path, ts.sys.readFile);
  if (error) throw new Error(`${path}: ${ts.flattenDiagnosticMessageText(error.messageText, '\n')}`);
  return ts.parseJsonConfigFileContent(config, ts.sys, resolve(path, '..'));
}

/** `cond ? value : nothing` then has the type of the value, which is what the binding gets to see. */
function hostWithNothingAsNever(compilerOptions: ts.CompilerOptions): ts.CompilerHost {
  const host = ts.createCompilerHost(compilerOptions);
  const readFile = host.readFile.bind(host);
  host.getSourceFile = (name, version) => {
    const text = readFile(name);
    if (text === undefined) return undefined;
    return ts.createSourceFile(name, name.endsWith(`/${NOTHING.file}`) ? replaced(name, text) : text, version, true);
  };
  return host;
}

function replaced(name: string, text: string): string {
  if (!text.includes(NOTHING.symbol)) throw new Error(`${name}: expected "${NOTHING.symbol}"`);
  return text.replace(NOTHING.symbol, NOTHING.never);
}

function line({ file, location, message, source }: LitDiagnostic): string {
  const { line: row, character } = file.getLineAndCharacterOfPosition(location.start);
  return `${file.fileName}:${row + 1}:${character + 1}: ${message} (${source})`;
}
