import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { changesIn } from './effects.js';
import { type Mutation, mutated, mutationsOf } from './mutations.js';
import { counted, type Fate, shuffled, type Tried } from './trial.js';
import { type Watch, watchedSource } from './watched.js';

const PATH = '/room/file.ts';

/** The mutations of a source that stands alone. */
function of(source: string) {
  const file = ts.createSourceFile(PATH, source, ts.ScriptTarget.ES2022, true);
  const host: ts.CompilerHost = {
    ...ts.createCompilerHost({}),
    getSourceFile: (path, target) => (path === PATH ? file : ts.createSourceFile(path, ts.sys.readFile(path) ?? '', target)),
  };
  const program = ts.createProgram([PATH], { target: ts.ScriptTarget.ES2022, lib: ['lib.es5.d.ts'], strict: true, types: [] }, host);
  const checker = program.getTypeChecker();
  return mutationsOf(file, checker, changesIn([file], checker));
}

const texts = (source: string): readonly string[] => of(source).map((mutation) => mutated(source, mutation));

describe('mutations', () => {
  it.each([
    ['if (a < b) go();', ['if (a <= b) go();', 'if (a >= b) go();', 'if (true) go();', 'if (false) go();', 'if (a < b) {}']],
    ['x = a && b;', ['x = a || b;', 'x = a;', 'x = b;', '{}']],
    ['x = a ?? b;', ['x = a;', 'x = b;', '{}']],
    ['x = a - 1;', ['x = a + 1;', 'x = a - 2;', '{}']],
    ['x = !a;', ['x = a;', '{}']],
    ['x = a ? b : c;', ['x = (b);', 'x = (c);', '{}']],
    ['x = a.some(b);', ['x = a.every(b);', '{}']],
    ['x = a.filter(b).map(c);', ['x = a.map(c);', 'x = a.filter(b);', '{}']],
    ['x = /^a+$/u;', ['x = /a+$/u;', 'x = /^a+/u;', 'x = /^a$/u;', '{}']],
    ["x = ['word', ''];", ['x = [];', "x = ['', ''];", "x = ['word', '~'];", '{}']],
    ['const f = (): boolean => g();', ['const f = (): boolean => !(g());']],
    ['[a, b] = [b, a];', ['[a, b] = [];', '{}']],
    ['for (;;) { continue; }', ['for (;;) { {} }']],
  ])('of %s', (source, expected) => {
    const declared = 'declare let x: any, a: any, b: any, c: any; declare function go(): void; declare function g(): boolean;\n';
    const made = of(declared + source).map((mutation) => mutated(declared + source, mutation).slice(declared.length));
    expect(made.toSorted()).toEqual(expected.toSorted());
  });

  it('of what runs alone: no types, imports, names, or sentences for people', () => {
    expect(
      texts(
        "import { a } from 'b';\ntype T = 'x' | 1;\ninterface I { readonly 'k': 'v' }\nexport const o = { 'key': `A sentence for people.` };\n",
      ),
    ).toEqual([]);
  });

  it('are told with the line on which they stand', () => {
    expect(of('export const a = 1;\n\nexport const b = 2;\n').map(({ line, was, becomes }) => [line, was, becomes])).toEqual([
      [1, '1', '2'],
      [3, '2', '3'],
    ]);
  });
});

describe('a watched source', () => {
  const source = `
    const small = (list) => list.filter((n) => n < 3)?.map((n) => n * 2) ?? [];
    const sign = (n) => { if (n < 0) return -1; for (const one of [n]) { if (one === 0) continue; return 1; } return 0; };
    const word = (n) => n === 1 ? 'one' : [n].some((m) => m > 5) && !(n > 9) ? 'some' : \`\${n + 1}\`;
    module.exports = [[1, 5].flatMap((n) => small([n])), sign(-3), sign(0), sign(4), word(1), word(7), word(2)];
  `;
  /** What it gives, and the mutations that would give something else somewhere on the way. */
  const runs = (text: string, list: readonly Mutation[]): { readonly gives: unknown; readonly noticed: readonly string[] } => {
    const seen = new Set<number>();
    const watch: Watch = {
      values: [],
      isSettled: [],
      reached: (_, mutants) => {
        for (const mutant of mutants) seen.add(mutant);
      },
      looked: (_, value, others) => {
        for (const [mutant, gives] of others()) if (JSON.stringify(gives()) !== JSON.stringify(value)) seen.add(mutant);
        return value;
      },
    };
    const module = { exports: undefined as unknown };
    Object.assign(globalThis, { __watch: watch });
    const numbered = list.map((mutation, number) => ({ mutation, number }));
    // The source is the one of the test: nothing from outside comes in here.
    // eslint-disable-next-line @typescript-eslint/no-implied-eval, @typescript-eslint/no-unsafe-call
    new Function('module', list.length === 0 ? text : watchedSource(text, numbered, 0).text)(module);
    Reflect.deleteProperty(globalThis, '__watch');
    return { gives: module.exports, noticed: list.filter((_, at) => seen.has(at)).map(({ was, becomes }) => `${was} ${becomes}`) };
  };

  it('does what the source does', () => {
    const { gives, noticed } = runs(source, of(source));
    expect(gives).toEqual(runs(source, []).gives);
    expect(gives).toEqual([[2], -1, 0, 1, 'one', 'some', '3']);
    expect(noticed.length).toBeGreaterThan(20);
  });

  it('notes a mutation where it comes by and the mutation gives something else, and no other', () => {
    const idle = 'const f = (n) => n < 3 ? n + 1 : n - 1; module.exports = f(5);';
    expect(runs(idle, of(idle)).noticed).toEqual([
      'n < 3 ? n + 1 : n - 1 []',
      'n < 3 ? n + 1 : n - 1 (n + 1)',
      '< >=',
      '- +',
      '1 2',
      `module.exports = f(5); {}`,
      '5 6',
    ]);
  });

  it('does nothing twice that changes what is outside of it, and takes it to be noticed', () => {
    const counting = 'let n = 0; const next = () => (n += 1); const a = next() > 0 || next() > 0; module.exports = [n, a];';
    const { gives, noticed } = runs(counting, of(counting));
    expect(gives).toEqual([1, true]);
    expect(noticed).toContain('|| &&');
    const keeping =
      'const kept = () => { const known = new Map(); return (key) => { if (!known.has(key)) known.set(key, known.size); return known.get(key); }; };\n' +
      "const of = kept(); module.exports = [of('a'), of('b')];";
    expect(runs(keeping, of(keeping)).gives).toEqual([0, 1]);
  });
});

describe('a sample', () => {
  it('is the same for the same seed, another for another, and loses nothing', () => {
    const all = Array.from({ length: 50 }, (_, at) => at);
    expect(shuffled(all, 7)).toEqual(shuffled(all, 7));
    expect(shuffled(all, 7)).not.toEqual(shuffled(all, 8));
    expect(shuffled(all, 7).toSorted((a, b) => a - b)).toEqual(all);
  });

  it('counts what was noticed, an endless run too, of what was tried', () => {
    const [mutant] = of('export const a = 1;').map((one) => ({ ...one, path: PATH, number: 0 }));
    const tried = (['killed', 'killed', 'late', 'survived', 'same'] satisfies Fate[]).map(
      (fate): Tried => ({ mutant: mutant!, fate, tests: 1 }),
    );
    expect(counted({ all: 9, refused: 4, tried })).toEqual({ tried: 5, killed: 3, late: 1, share: 3 / 5 });
    expect(counted({ all: 9, refused: 4, tried: [] }).share).toBe(1);
  });
});
