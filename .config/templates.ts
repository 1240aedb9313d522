import { resolve } from 'node:path';
import { DefaultLitAnalyzerContext, LitAnalyzer, type LitDiagnostic, makeConfig } from 'lit-analyzer';
import ts from 'typescript';

// Checks the lit templates under src: tags, attributes, properties, events and the types of their bindings.
// The analyser's own command line is not used: it ends with 0 after a crash, and it takes `nothing` for a value.

const CONFIG = makeConfig({
  strict: true,
  // Its list of CSS properties ends before accent-color and text-wrap.
  rules: { 'no-invalid-css': 'off' },
});

/** Correct in the HTML standard, refused by the analyser's older table of attributes. */
const REFUSED_WRONGLY = new Set([`Type '"any"' is not assignable to 'number'`]); // <input step="any">

const NOTHING = { file: 'lit-html.d.ts', symbol: 'declare const nothing: unique symbol', never: 'declare const nothing: never' };

const { options, fileNames } = readProject('src/tsconfig.json');
const program = ts.createProgram(fileNames, options, hostWithNothingAsNever(options));
const context = new DefaultLitAnalyzerContext({ ts, getProgram: () => program });
context.updateConfig(CONFIG);
const analyzer = new LitAnalyzer(context);
const own = new Set(fileNames.map((name) => resolve(name)));
const files = program.getSourceFiles().filter((file) => own.has(resolve(file.fileName)));
const found = files.flatMap((file) => analyzer.getDiagnosticsInFile(file)).filter(({ message }) => !REFUSED_WRONGLY.has(message));
for (const diagnostic of found) process.stdout.write(`${line(diagnostic)}\n`);
process.stdout.write(`templates: ${files.length} files read, ${found.length} problems\n`);
if (found.length > 0 || files.length === 0) process.exitCode = 1;

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
