/** A source that tells which of its mutations could be noticed where a test comes by. */
import ts from 'typescript';
import { type Mutation, mutated, type Probe } from './mutations.js';

/** What a watched source finds in the global `__watch`: `values` are kept by the number of the probe, from `first` on. */
export interface Watch {
  readonly values: unknown[];
  /** True by the number of a probe as long as nobody need look at it again. */
  readonly isSettled: boolean[];
  /** The probe was reached: all these mutations may be noticed. */
  readonly reached: (probe: number, mutants: readonly number[]) => void;
  /** What the probe gave, given back, after those mutations were noted that give something else. */
  readonly looked: (probe: number, value: unknown, others: () => readonly (readonly [mutant: number, gives: () => unknown])[]) => unknown;
}

/** A mutation with its number among all that are watched. */
export interface Numbered {
  readonly mutation: Mutation;
  readonly number: number;
}

interface Piece {
  readonly at: number;
  readonly text: string;
  readonly order: number;
  readonly opens: boolean;
}

/** True where the text can stand as an expression: what does not read is refused by the compiler later, and must not break the whole. */
function reads(text: string): boolean {
  const { diagnostics = [] } = ts.transpileModule(`void (${text}\n);`, { reportDiagnostics: true });
  return diagnostics.length === 0;
}

function piecesOf(source: string, probe: Probe, number: number, its: readonly Numbered[]): readonly [Piece, Piece] {
  const { start, end, isStatement } = probe;
  const text = source.slice(start, end);
  const others = its.map(({ mutation, number: mutant }) => {
    const changed = mutated(text, { start: mutation.start - start, end: mutation.end - start, becomes: mutation.becomes });
    return { mutant, changed };
  });
  const noted = `__watch.isSettled[${number}] || __watch.reached(${number}, [${its.map((one) => one.number).join()}])`;
  const canLook = probe.isRepeatable && others.every(({ changed }) => reads(changed));
  const gives = others.map(({ mutant, changed }) => `[${mutant}, () => (${changed}\n)]`);
  const value = `__watch.values[${number}]`;
  const looked = `__watch.isSettled[${number}] ? ${value} : __watch.looked(${number}, ${value}, () => [${gives.join()}])`;
  const opening = isStatement ? `{${noted};` : canLook ? `((${value} = (` : `(${noted}, `;
  const closing = isStatement ? '}' : canLook ? `\n)), ${looked})` : ')';
  return [
    { at: start, text: opening, order: -end * 2 - (isStatement ? 1 : 0), opens: true },
    { at: end, text: closing, order: -start * 2 + (isStatement ? 1 : 0), opens: false },
  ];
}

/** The source that does what it does and tells what could be noticed. `first` is the number of its first probe. */
export function watchedSource(
  source: string,
  list: readonly Numbered[],
  first: number,
): { readonly text: string; readonly probes: number } {
  const groups = new Map<Probe, Numbered[]>();
  for (const one of list) {
    const group = groups.get(one.mutation.probe);
    if (group === undefined) groups.set(one.mutation.probe, [one]);
    else group.push(one);
  }
  const pieces = [...groups].flatMap(([probe, its], index) => piecesOf(source, probe, first + index, its));
  // At one place what ends there comes first; then the wider opens before the narrower, and the narrower closes before the wider.
  pieces.sort((a, b) => a.at - b.at || Number(a.opens) - Number(b.opens) || a.order - b.order);
  let text = '';
  let from = 0;
  for (const piece of pieces) {
    text += source.slice(from, piece.at) + piece.text;
    from = piece.at;
  }
  return { text: `const __watch = globalThis.__watch;${text}${source.slice(from)}`, probes: groups.size };
}
