/** Which test files lead to which source files, by their imports. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';

/** The files that a file imports by a relative path, types left out: they do not run. */
function importedBy(path: string): readonly string[] {
  const { importedFiles } = ts.preProcessFile(
    ts.transpileModule(readFileSync(path, 'utf8'), {
      compilerOptions: { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022, verbatimModuleSyntax: true },
    }).outputText,
  );
  return importedFiles
    .filter(({ fileName }) => fileName.startsWith('.'))
    .map(({ fileName }) => join(dirname(path), fileName.replace(/\.js$/, '.ts')))
    .filter((found) => found.endsWith('.ts') && existsSync(found));
}

/** How many imports lead from each test file to each file that it needs: 1 where it names it itself. */
export function distances(tests: readonly string[]): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const known = new Map<string, readonly string[]>();
  const next = (path: string): readonly string[] => {
    const found = known.get(path) ?? importedBy(path);
    known.set(path, found);
    return found;
  };
  return new Map(
    tests.map((test) => {
      const steps = new Map([[test, 0]]);
      // A Map is walked in the order of what is put in, what is put in on the way too: the nearest come first.
      for (const [path, step] of steps) for (const to of next(path)) if (!steps.has(to)) steps.set(to, step + 1);
      return [test, steps];
    }),
  );
}
