import { join } from 'node:path';
import { type JournalEntry, newest, tiedLines } from '../../dossier/journal.js';
import { JOURNAL_FILE } from '../../dossier/places.js';
import type { SourceFile } from '../../model/sample.js';
import { UserMistake } from '../../read/mistake.js';
import { type ResultFile, writeResults } from '../outputs/results-folder.js';
import { programVersion } from '../program-version.js';
import type { Surroundings } from '../surroundings.js';
import { digestOf, digestOfFile } from './digest.js';
import { type OpenDossier, openDossier } from './open.js';

/** Files for one folder of a dossier, and what they are made from. */
export interface Made {
  /** The folder, from that of the dossier; empty for the dossier's own. */
  readonly folder: string;
  readonly files: readonly ResultFile[];
  readonly from: readonly SourceFile[];
  /** May be written over: what is kept up to date rather than kept. */
  readonly over?: boolean;
}

/** The name of a file of a folder of the dossier. */
export const nameIn = (folder: string, file: string): string => (folder === '' ? file : `${folder}/${file}`);

/** Writes files into a dossier, none over another unless it says so, and a line for each into the journal. Gives their names. Throws UserMistake. */
export async function putIn(root: string, made: readonly Made[], around: Surroundings): Promise<readonly string[]> {
  around.signal.throwIfAborted();
  const entries: JournalEntry[] = [];
  for (const { folder, files, from, over = false } of made) {
    const place = join(root, folder);
    const ours = new Set(files.map(({ name }) => name));
    await writeResults(place, files, over, ours);
    for (const { name, content } of files) entries.push(entry(nameIn(folder, name), digestOf(content), 'written', from, around));
  }
  await append(root, entries);
  return entries.map(({ name }) => name);
}

/** Notes in the journal the files that people brought or filled in, as far as they are not noted as they are now. Gives the names of those that are new or changed. */
export async function takeIn(dossier: OpenDossier, names: readonly string[], around: Surroundings): Promise<readonly string[]> {
  const known = newest(dossier.journal);
  const entries: JournalEntry[] = [];
  for (const name of names) {
    const sha256 = await digestOfFile(join(dossier.root, name));
    if (known.get(name)?.sha256 !== sha256) entries.push(entry(name, sha256, 'taken in', [], around));
  }
  await append(dossier.root, entries);
  return entries.map(({ name }) => name);
}

/** A file of the dossier as a source: its name and what the journal knows it by. Throws UserMistake where the journal does not know it. */
export function sourceIn({ journal }: OpenDossier, name: string): SourceFile {
  const line = newest(journal).get(name);
  if (line === undefined) throw new UserMistake(`${name} is not in the journal of this dossier.`);
  return { name, sha256: line.sha256 };
}

function entry(
  name: string,
  sha256: string,
  did: JournalEntry['did'],
  from: readonly SourceFile[],
  { who, now }: Surroundings,
): JournalEntry {
  return { name, sha256, did, at: now, by: who, version: programVersion(), from };
}

async function append(root: string, entries: readonly JournalEntry[]): Promise<void> {
  if (entries.length === 0) return;
  // Read again: the lines of this very act stand there too.
  const { journal, names } = await openDossier(root);
  const broken = journal.find(({ line }) => line === null);
  if (broken !== undefined)
    throw new UserMistake(
      `${JOURNAL_FILE}, line ${String(broken.number)}: this is not a line of a journal. Bring back the file as it was; "reeltally audit" says what does not hold.`,
    );
  const texts = [...journal.map(({ text }) => text), ...tiedLines(entries, journal.at(-1)?.text ?? '', digestOf)];
  const content = `${texts.join('\n')}\n`;
  await writeResults(root, [{ name: JOURNAL_FILE, content }], names.includes(JOURNAL_FILE), new Set([JOURNAL_FILE]));
}
