import type { WrittenFacts, WrittenIssue, WrittenPage, WrittenReel } from '../model/written-return.js';
import { openXml, problem, type Reading } from './reading.js';
import { newReceived } from './received/ledger.js';
import type { BatchFile } from './walk.js';
import type { XmlDocument } from './xml.js';

/** What a document states, by fact and by where: `page 3` or the whole. */
export interface Statement {
  readonly fact: string;
  readonly where: string;
  readonly text: string;
}

/** A reading that keeps nothing: what a second copy of a document would tell is not told twice. */
function aside(reading: Reading): Reading {
  return {
    ...reading,
    problems: [],
    questions: [],
    remarks: [],
    pageFiles: [],
    stated: [],
    respelt: [],
    seen: null,
    received: newReceived(),
    onPageText: () => undefined,
    readText: false,
  };
}

/**
 * Holds the other copies of a document against the one that was read. The vendor made one of the other, so they must say the same; where
 * they do not is told once for each copy, with the facts. `stated` reads a copy as the first was read.
 */
export function compareTwins(
  reading: Reading,
  read: { readonly file: BatchFile; readonly says: readonly Statement[] },
  twins: readonly BatchFile[],
  stated: (reading: Reading, file: BatchFile, document: Extract<XmlDocument, { ok: true }>) => readonly Statement[] | null,
): void {
  for (const file of twins) {
    const document = openXml(reading, file);
    const says = document.ok ? stated(aside(reading), file, document) : null;
    const what = document.ok
      ? says === null
        ? 'is a document of another kind'
        : otherwise(read.says, says)
      : `cannot be read: ${document.says}`;
    reading.received.document(file.path, what === null ? 'compared' : 'found');
    if (what === null) continue;
    reading.problems.push(
      problem('documents-disagree', `"${read.file.path}" was read; its other copy "${file.path}" ${what}${what.endsWith('.') ? '' : '.'}`, {
        field: 'copy of the document',
        instruction: 'Send one copy of each document, or copies that say the same.',
        place: { document: file.path },
      }),
    );
  }
}

/** In what the second list of statements is another than the first, in words; null where it is not. */
function otherwise(first: readonly Statement[], second: readonly Statement[]): string | null {
  const other = new Map(second.map((one) => [`${one.fact}\0${one.where}`, one]));
  const differing = new Map<string, { count: number; example: string }>();
  const differ = (fact: string, example: string): void => {
    const known = differing.get(fact);
    if (known === undefined) differing.set(fact, { count: 1, example });
    else known.count += 1;
  };
  for (const one of first) {
    const key = `${one.fact}\0${one.where}`;
    const twin = other.get(key);
    other.delete(key);
    if (twin?.text !== one.text)
      differ(one.fact, `${one.where === '' ? '' : `${one.where}: `}${twin?.text ?? 'nothing'} instead of ${one.text}`);
  }
  for (const one of other.values()) differ(one.fact, `${one.where === '' ? '' : `${one.where}: `}${one.text} instead of nothing`);
  if (differing.size === 0) return null;
  const list = [...differing].map(
    ([fact, { count, example }]) => `${fact} (${example}${count > 1 ? `, and ${String(count - 1)} more` : ''})`,
  );
  return `states otherwise: ${list.slice(0, 6).join('; ')}${list.length > 6 ? ` and ${String(list.length - 6)} more facts` : ''}`;
}

/** What the issues and reels of a document state of themselves and of their pages or targets. Files and their names are not facts. */
export function statementsOf({
  issues,
  reels,
}: {
  readonly issues: readonly WrittenIssue[];
  readonly reels: readonly WrittenReel[];
}): readonly Statement[] {
  const several = issues.length > 1;
  return [
    ...issues.flatMap(({ facts, pages }, at) => partStatements(several ? `issue ${String(at + 1)}` : '', 'page', facts, pages)),
    ...reels.flatMap(({ facts, reelFacts, targets }) => [...reelStatements(reelFacts), ...partStatements('', 'target', facts, targets)]),
  ];
}

function partStatements(of: string, word: string, facts: WrittenFacts, parts: readonly WrittenPage[]): readonly Statement[] {
  const within = of === '' ? '' : `${of}, `;
  return [
    ...statements(of, facts),
    { fact: `number of ${word}s`, where: of, text: String(parts.length) },
    ...parts.flatMap((part, at) => statements(`${within}${word} ${String(at + 1)}`, part.facts)),
  ];
}

/** A fact may be written several times, for each of the film's titles or targets. */
function reelStatements(facts: WrittenReel['reelFacts']): readonly Statement[] {
  const byName = new Map<string, string>();
  for (const { name, text } of facts) byName.set(name, byName.has(name) ? `${byName.get(name) ?? ''}; ${text}` : text);
  return [...byName].map(([fact, text]) => ({ fact, where: '', text }));
}

function statements(where: string, facts: WrittenFacts): readonly Statement[] {
  return Object.entries(facts).map(([fact, text]) => ({ fact, where, text }));
}
