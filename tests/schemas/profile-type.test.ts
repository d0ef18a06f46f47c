import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const generated = execFileSync(process.execPath, ['.config/scripts/generate-types.mjs', '--print', 'profile'], {
  cwd: root,
  encoding: 'utf8',
});

/** What the compiler says where the type written by hand and the schema's type are held against each other, both ways. */
function complaints(schemaTypes: string): readonly string[] {
  const schemaFile = `${root}src/model/profile-by-schema.ts`;
  const probe = `${root}src/model/profile-probe.ts`;
  const planted = new Map([
    [schemaFile, schemaTypes],
    [
      probe,
      `import type { OwnProfile as Written } from './profile.js';
       import type { OwnProfile as Schema } from './profile-by-schema.js';
       // Optional fields are made required, because a field that one side lacks would else fit.
       type Full<T> = T extends readonly (infer U)[] ? readonly Full<U>[] : T extends object ? { [K in keyof T]-?: Full<T[K]> } : T;
       export const a = (x: Written): Schema => x;
       export const b = (x: Schema): Written => x;
       export const c = (x: Full<Written>): Full<Schema> => x;
       export const d = (x: Full<Schema>): Full<Written> => x;`,
    ],
  ]);
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
  const program = ts.createProgram([probe], options, host);
  return ts.getPreEmitDiagnostics(program).map((found) => ts.flattenDiagnosticMessageText(found.messageText, '\n'));
}

describe('the type of an own profile', () => {
  it('says the same as its schema', () => {
    expect(complaints(generated)).toEqual([]);
  });

  it.each([
    ['a field taken away', /readonly altoImageNumber\?:[^;]*;/, ''],
    ['a fact taken away', /readonly volume\?: OwnFactRule;/, ''],
    ['a field made required', /readonly present\?:/, 'readonly present:'],
    ['a value taken away', /'frame' \| 'order' \| 'nothing'/, "'frame' | 'order'"],
    ['another type', /readonly laterCopies\?: boolean/, 'readonly laterCopies?: string'],
  ])('would be told apart: %s', (_what, pattern, put) => {
    const changed = generated.replace(pattern, put);
    expect(changed).not.toBe(generated);
    expect(complaints(changed)).not.toEqual([]);
  });
});
