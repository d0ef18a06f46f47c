import ts from 'typescript';

/** What one room may import: other rooms by name, packages and Node modules by specifier. */
export interface RoomLaw {
  readonly rooms: readonly string[];
  readonly packages: readonly string[];
}

const allRooms = [
  'model',
  'catalogue',
  'calendar',
  'read',
  'normalise',
  'reading',
  'regular',
  'expect',
  'align',
  'compare',
  'explain',
  'judge',
  'collation',
  'history',
  'sampling',
  'payment',
  'evidence',
  'profiles',
  'dossier',
  'pictures',
  'report',
] as const;

/** The way through the rooms, as data. A room is a folder of src, or a file that stands in src itself. */
export const law: Readonly<Record<string, RoomLaw>> = {
  model: { rooms: [], packages: [] },
  catalogue: { rooms: ['model'], packages: [] },
  calendar: { rooms: ['model'], packages: ['date-fns'] },
  read: {
    rooms: ['model'],
    packages: [
      'node:buffer',
      'node:fs',
      'node:module',
      'node:path',
      'node:url',
      'node:crypto',
      'node:zlib',
      'fast-xml-parser',
      'ajv',
      'p-limit',
      'csv-parse',
    ],
  },
  normalise: { rooms: ['model', 'calendar'], packages: [] },
  regular: { rooms: ['model', 'calendar', 'normalise'], packages: [] },
  reading: { rooms: ['model', 'calendar', 'normalise'], packages: [] },
  expect: { rooms: ['model', 'catalogue', 'calendar'], packages: [] },
  align: { rooms: ['model', 'calendar'], packages: [] },
  compare: { rooms: ['model', 'calendar', 'expect'], packages: [] },
  explain: { rooms: ['model', 'catalogue', 'calendar'], packages: [] },
  judge: { rooms: ['model', 'catalogue', 'calendar'], packages: [] },
  collation: { rooms: ['model', 'catalogue', 'normalise', 'calendar', 'expect', 'regular'], packages: ['csv-stringify'] },
  history: { rooms: ['model', 'catalogue'], packages: [] },
  sampling: { rooms: ['model'], packages: ['node:crypto'] },
  payment: { rooms: ['model', 'catalogue', 'calendar'], packages: [] },
  evidence: { rooms: ['model'], packages: [] },
  profiles: { rooms: ['model'], packages: [] },
  dossier: { rooms: ['model', 'calendar'], packages: [] },
  pictures: {
    rooms: [],
    packages: ['node:child_process', 'node:fs', 'node:module', 'node:process', 'sharp', '@cornerstonejs/codec-openjpeg', '@hyzyla/pdfium'],
  },
  report: { rooms: ['model', 'catalogue', 'calendar'], packages: ['csv-stringify', 'xmlbuilder2', 'write-excel-file', 'fflate'] },
  'verify.ts': {
    rooms: [
      'model',
      'catalogue',
      'calendar',
      'normalise',
      'expect',
      'align',
      'compare',
      'explain',
      'judge',
      'payment',
      'history',
      'evidence',
    ],
    packages: [],
  },
  'index.ts': { rooms: ['model', 'profiles', 'report', 'verify.ts'], packages: [] },
  acts: {
    rooms: [...allRooms, 'verify.ts'],
    packages: ['node:crypto', 'node:fs', 'node:path', 'node:process', 'node:stream', 'node:url'],
  },
  cli: { rooms: [...allRooms, 'verify.ts', 'acts'], packages: ['commander', 'node:*'] },
};

/** Specifiers of everything a source file imports or exports from, type imports included, dynamic imports and require calls too. */
export function importsOf(path: string, source: string): readonly string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (
      (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) &&
      node.moduleSpecifier &&
      ts.isStringLiteral(node.moduleSpecifier)
    ) {
      found.push(node.moduleSpecifier.text);
    } else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument) && ts.isStringLiteral(node.argument.literal)) {
      found.push(node.argument.literal.text);
    } else if (
      ts.isCallExpression(node) &&
      (node.expression.kind === ts.SyntaxKind.ImportKeyword || node.expression.getText() === 'require')
    ) {
      const [argument] = node.arguments;
      found.push(argument && ts.isStringLiteralLike(argument) ? argument.text : '(computed)');
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, source, ts.ScriptTarget.ES2022, true));
  return found;
}

/** `read/layouts/x.ts` -> `read`; `verify.ts` -> `verify.ts`. */
export function roomOf(path: string): string {
  return path.split('/')[0] ?? path;
}

/** Path below src of what a relative specifier points to, or null where it leaves src. */
function resolve(from: string, specifier: string): string | null {
  const parts = from.split('/').slice(0, -1);
  for (const part of specifier.split('/')) {
    if (part === '..') {
      if (parts.length === 0) return null;
      parts.pop();
    } else if (part !== '.') parts.push(part);
  }
  return parts.join('/').replace(/\.js$/, '.ts');
}

/** Package name of a bare specifier: `csv-parse/sync` -> `csv-parse`, `@a/b/c` -> `@a/b`, `node:fs/promises` -> `node:fs`. */
function packageOf(specifier: string): string {
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}

/** Sentences, one per arrow that the table does not allow. `path` is below src. */
export function breaches(path: string, source: string, table: Readonly<Record<string, RoomLaw>> = law): readonly string[] {
  const room = roomOf(path);
  const allowed = table[room];
  if (!allowed) return [`${path}: ${room} is no room of the table`];
  return importsOf(path, source).flatMap((specifier) => {
    if (specifier.startsWith('.')) {
      const target = resolve(path, specifier);
      if (target === null) return [`${path}: ${specifier} leaves src`];
      const other = roomOf(target);
      return other === room || allowed.rooms.includes(other) ? [] : [`${path}: ${room} may not import ${other}`];
    }
    const name = packageOf(specifier);
    const fits = allowed.packages.includes(name) || (name.startsWith('node:') && allowed.packages.includes('node:*'));
    return fits ? [] : [`${path}: ${room} may not import ${name}`];
  });
}

/**
 * Sentences, one per import of the forge that is neither its own, nor a Node module, nor a type of `src/model`: what writes the returns must not know
 * how they are read. `path` is below tests.
 */
export function forgeBreaches(path: string, source: string): readonly string[] {
  const own = (specifier: string): boolean => resolve(path, specifier)?.startsWith('forge/') ?? false;
  const model = (specifier: string): boolean => /^(\.\.\/)+src\/model\//.test(specifier);
  return importsOf(path, source)
    .filter((specifier) => !specifier.startsWith('node:') && !own(specifier) && !model(specifier))
    .map((specifier) => `${path}: the forge may not import ${specifier}`);
}

/** True when the file holds types only: nothing of it is left at run time. */
export function hasTypesOnly(source: string): boolean {
  return ts
    .createSourceFile('types.ts', source, ts.ScriptTarget.ES2022, true)
    .statements.every(
      (statement) =>
        ts.isInterfaceDeclaration(statement) ||
        ts.isTypeAliasDeclaration(statement) ||
        (ts.isImportDeclaration(statement) && statement.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword) ||
        (ts.isExportDeclaration(statement) && statement.isTypeOnly),
    );
}

/** Lines on which the type `any` is written, or the compiler is told to look away. */
export function linesWithAny(source: string): readonly number[] {
  const file = ts.createSourceFile('any.ts', source, ts.ScriptTarget.ES2022, true);
  const lines: number[] = [];
  const visit = (node: ts.Node): void => {
    if (node.kind === ts.SyntaxKind.AnyKeyword) lines.push(file.getLineAndCharacterOfPosition(node.getStart()).line + 1);
    ts.forEachChild(node, visit);
  };
  visit(file);
  source.split('\n').forEach((line, index) => {
    if (/@ts-(ignore|nocheck|expect-error)/.test(line)) lines.push(index + 1);
  });
  return lines;
}

/** Names of the outside world that a file reaches for: the console, the process, the clock, chance, timers, the network. */
export function outsideWorld(source: string): readonly string[] {
  const found: string[] = [];
  const forbidden = new Set(['console', 'process', 'performance', 'setTimeout', 'setInterval', 'fetch', 'globalThis', 'Date']);
  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node) && forbidden.has(node.text)) {
      const parent = node.parent;
      const isName =
        (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
        (ts.isPropertyAssignment(parent) && parent.name === node) ||
        ts.isPropertySignature(parent) ||
        ts.isJSDoc(parent);
      if (!isName) found.push(node.text);
    }
    if (ts.isPropertyAccessExpression(node) && node.getText() === 'Math.random') found.push('Math.random');
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile('world.ts', source, ts.ScriptTarget.ES2022, true));
  return found;
}
