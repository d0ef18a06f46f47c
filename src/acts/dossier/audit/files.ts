import { join } from 'node:path';
import { clockFaults, journalFaults, newest } from '../../../dossier/journal.js';
import { isPassing, JOURNAL_FILE, LOCK_FILE } from '../../../dossier/places.js';
import type { JournalLine } from '../../../model/dossier.js';
import { digestOf, digestOfFile } from '../digest.js';
import type { OpenDossier } from '../open.js';
import { broken, type Looked, remark, together } from './outcome.js';

/** What people put into a dossier, as against what the program writes there. */
const BROUGHT =
  /^(?:record\/|sent\/|agreement\.json$|profile\.json$|delivery-\d+\/(?:run-\d+\/)?(?:rulings|answers|discrepancies(?!\.[a-z]+$))[^/]*$|delivery-\d+\/spot\/[^.]*worksheet[^/]*$)/;
/** What the program writes there. */
const WRITTEN = /^(?:dossier\.json|account\.json|delivery-\d+\/.+|invoices\/.+|decisions\/.+)$/;

/** Holds the journal against itself, and every file against the journal. */
export async function filesLooked({ root, names, journal }: OpenDossier): Promise<Looked> {
  const chain = journalFaults(journal, JOURNAL_FILE, digestOf).map((says) => broken([JOURNAL_FILE], says));
  if (journal.length === 0)
    chain.push(broken([JOURNAL_FILE], `${JOURNAL_FILE} is gone or empty: nothing tells any more what was written here.`));
  for (const says of clockFaults(journal, JOURNAL_FILE)) chain.push(remark([JOURNAL_FILE], says));
  const known = newest(journal);
  const parts: Looked[] = [];
  for (const [name, line] of known) parts.push(await fileLooked(root, names, name, line));
  for (const name of names) {
    if (known.has(name) || name === JOURNAL_FILE || name === LOCK_FILE || isPassing(name)) continue;
    if (BROUGHT.test(name)) parts.push(remark([name], `${name} was not taken in yet: nothing rests on it.`));
    else if (WRITTEN.test(name))
      parts.push(
        broken([name, JOURNAL_FILE], `${name} is in no line of ${JOURNAL_FILE}: it was brought here from elsewhere, or lines are gone.`),
      );
    else parts.push(remark([name], `${name} is not part of the dossier; nothing rests on it.`));
  }
  return together([...chain, ...parts, ...journal.flatMap(({ line }) => (line === null ? [] : [sourcesLooked(line, known, journal)]))]);
}

async function fileLooked(root: string, names: readonly string[], name: string, line: JournalLine): Promise<Looked> {
  const told = `the journal tells of it as it was ${line.did} on ${line.at}${line.by === '' ? '' : ` by ${line.by}`}`;
  if (!names.includes(name)) return broken([name], `${name} is gone: ${told}.`);
  if ((await digestOfFile(join(root, name))) === line.sha256) return together([]);
  return broken([name], `${name} was changed since: ${told}, with another SHA-256.`);
}

/** A source that the journal knows must be one that it knew; where it was replaced since, that is said for what still stands on it. */
function sourcesLooked(line: JournalLine, known: ReadonlyMap<string, JournalLine>, journal: OpenDossier['journal']): Looked {
  if (known.get(line.name) !== line) return together([]);
  return together(
    line.from.map(({ name, sha256 }) => {
      const now = known.get(name);
      // The documents of a batch lie elsewhere.
      if (now === undefined || now.sha256 === sha256) return together([]);
      const before = journal.some((one) => one.line?.name === name && one.line.sha256 === sha256);
      if (!before)
        return broken([line.name, name], `${line.name} says that it was made from ${name} with a SHA-256 that the journal does not know.`);
      return remark(
        [line.name, name],
        `${line.name} was made from ${name} as it was before ${now.at}, when ${now.by === '' ? 'somebody' : now.by} replaced it.`,
      );
    }),
  );
}
