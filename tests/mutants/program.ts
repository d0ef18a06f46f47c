/** The program as the compiler sees it, so that a mutation that it would refuse is known before a test runs. */
import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import ts from 'typescript';

/** What is declared and not used is no fault of a mutant: it only lost its reader. */
const UNUSED = new Set([6133, 6138, 6192, 6196, 6198, 6199, 6205]);

export interface Program {
  readonly file: (path: string) => ts.SourceFile;
  /** All files of the program's own. */
  readonly files: () => readonly ts.SourceFile[];
  readonly checker: () => ts.TypeChecker;
  /** True where the compiler takes the file with this text in it. */
  readonly takes: (path: string, text: string) => boolean;
}

export function programOf(configPath: string): Program {
  const config = ts.parseJsonConfigFileContent(
    ts.readConfigFile(configPath, (path) => ts.sys.readFile(path)).config,
    ts.sys,
    dirname(configPath),
  );
  const changed = new Map<string, { text: string; version: number }>();
  const host: ts.LanguageServiceHost = {
    getCompilationSettings: () => ({ ...config.options, noEmit: true }),
    getScriptFileNames: () => config.fileNames,
    getScriptVersion: (path) => String(changed.get(path)?.version ?? 0),
    getScriptSnapshot: (path) => {
      const text = changed.get(path)?.text ?? ts.sys.readFile(path);
      return text === undefined ? undefined : ts.ScriptSnapshot.fromString(text);
    },
    getCurrentDirectory: () => dirname(configPath),
    getDefaultLibFileName: (options) => ts.getDefaultLibFilePath(options),
    fileExists: (path) => ts.sys.fileExists(path),
    readFile: (path) => ts.sys.readFile(path),
    readDirectory: (...args) => ts.sys.readDirectory(...args),
    directoryExists: (path) => ts.sys.directoryExists(path),
    getDirectories: (path) => ts.sys.getDirectories(path),
  };
  const service = ts.createLanguageService(host);
  const program = (): ts.Program => {
    const made = service.getProgram();
    if (made === undefined) throw new Error(`There is no program by ${configPath}.`);
    return made;
  };
  const lay = (path: string, text: string): void => {
    changed.set(path, { text, version: (changed.get(path)?.version ?? 0) + 1 });
  };
  return {
    file: (path) => {
      const found = program().getSourceFile(path);
      if (found === undefined) throw new Error(`${path} is no file of the program.`);
      return found;
    },
    files: () => config.fileNames.flatMap((path) => program().getSourceFile(path) ?? []),
    checker: () => program().getTypeChecker(),
    takes: (path, text) => {
      lay(path, text);
      const wrong = [...service.getSyntacticDiagnostics(path), ...service.getSemanticDiagnostics(path)].filter(
        ({ code }) => !UNUSED.has(code),
      );
      lay(path, readFileSync(path, 'utf8'));
      return wrong.length === 0;
    },
  };
}
