import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Formats whose types are written by hand: the schema's name, the type and the file of src/model that it stands in. */
const WRITTEN = [
  ['account', 'Account', 'account'],
  ['decision', 'DecisionRecord', 'decision'],
  ['delivery', 'DeliveryFile', 'dossier'],
  ['dossier', 'DossierFile', 'dossier'],
  ['draw', 'SavedDraw', 'sample'],
  ['invoice', 'InvoiceResult', 'invoice'],
  ['journal', 'JournalLine', 'dossier'],
  ['lock', 'LockFile', 'dossier'],
  ['pictures', 'PicturesFile', 'pictures'],
  ['plan', 'FixedPlan', 'sample'],
  ['sample', 'SavedSample', 'sample'],
  ['worksheet', 'SavedWorksheet', 'sample'],
] as const;

/** The types that each schema gives, as files beside the written ones; they refer to each other under these names. */
const generated = new Map(
  WRITTEN.map(([schema]) => [
    schema,
    execFileSync(process.execPath, ['.config/scripts/generate-types.mjs', '--print', schema], { cwd: root, encoding: 'utf8' }).replace(
      /from '\.\/(account|decision|delivery|dossier|draw|journal|lock|invoice|plan|sample|worksheet)\.js'/g,
      "from './$1-by-schema.js'",
    ),
  ]),
);

/** What the compiler says where the types written by hand and those of the schemas are held against each other, both ways. */
function complaints(schemas: ReadonlyMap<string, string>): readonly string[] {
  const planted = new Map([...schemas].map(([schema, text]) => [`${root}src/model/${schema}-by-schema.ts`, text]));
  for (const [schema, type, file] of WRITTEN) {
    planted.set(
      `${root}src/model/${schema}-probe.ts`,
      `import type { ${type} as Written } from './${file}.js';
       import type { ${type} as Schema } from './${schema}-by-schema.js';
       // Optional fields are made required, because a field that one side lacks would else fit.
       type Full<T> = T extends readonly (infer U)[] ? readonly Full<U>[] : T extends object ? { [K in keyof T]-?: Full<T[K]> } : T;
       export const a = (x: Written): Schema => x;
       export const b = (x: Schema): Written => x;
       export const c = (x: Full<Written>): Full<Schema> => x;
       export const d = (x: Full<Schema>): Full<Written> => x;`,
    );
  }
  const options: ts.CompilerOptions = {
    strict: true,
    exactOptionalPropertyTypes: true,
    module: ts.ModuleKind.NodeNext,
    target: ts.ScriptTarget.ES2022,
    noEmit: true,
    types: [],
    skipLibCheck: true,
  };
  const disk = ts.createCompilerHost(options);
  const host: ts.CompilerHost = {
    ...disk,
    fileExists: (path) => planted.has(path) || disk.fileExists(path),
    readFile: (path) => planted.get(path) ?? disk.readFile(path),
    getSourceFile: (path, target) => {
      const text = planted.get(path);
      return text === undefined ? disk.getSourceFile(path, target) : ts.createSourceFile(path, text, target);
    },
  };
  const probes = [...planted.keys()].filter((path) => path.endsWith('-probe.ts'));
  return ts
    .getPreEmitDiagnostics(ts.createProgram(probes, options, host))
    .map((found) => `${found.file?.fileName.split('/').at(-1) ?? ''}: ${ts.flattenDiagnosticMessageText(found.messageText, '\n')}`);
}

describe('types written by hand', () => {
  it('say the same as their schemas', () => {
    expect(complaints(generated)).toEqual([]);
  });

  it.each([
    ['draw', 'a plan taken away', / \| SharePlan/, ''],
    ['draw', 'a field made optional', /readonly seed:/, 'readonly seed?:'],
    ['worksheet', 'a question taken away', / \| 'legible'/, ''],
    ['sample', 'a field taken away', /readonly widenTo: readonly string\[\];/, ''],
    ['invoice', 'a kind taken away', / \| 'total-differs'/, ''],
    ['decision', 'another type', /readonly unruled: number/, 'readonly unruled: string'],
  ])('%s would be told apart: %s', (schema, _what, pattern, put) => {
    const text = generated.get(schema as 'draw') ?? '';
    const changed = text.replace(pattern, put);
    expect(changed).not.toBe(text);
    expect(complaints(new Map([...generated, [schema, changed]]))).not.toEqual([]);
  });
});
