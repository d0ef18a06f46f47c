import { newest } from '../../../dossier/journal.js';
import { UserMistake } from '../../../read/mistake.js';
import type { Surroundings } from '../../surroundings.js';
import { type Delivery, deliveriesOf } from '../deliveries.js';
import { type OpenDossier, openDossier } from '../open.js';
import { madeAgain } from './again.js';
import { decisionLinks, type SealedPage, sealsOf } from './decisions.js';
import { deliveryLinks } from './deliveries.js';
import { filesLooked } from './files.js';
import { findingsLooked } from './findings.js';
import { invoiceLinks } from './invoices.js';
import { broken, type Looked, NOTHING, type Said, together } from './outcome.js';
import { PAPER, paperLooked } from './paper.js';
import { verdictLooked } from './verdict.js';

/** How far an audit goes, and about what. */
export interface AuditWish {
  /** `none`: no comparison is made again. A list: these folders are the batch. Null: the batch is looked for where it lay. */
  readonly batch: readonly string[] | null | 'none';
  /** Only what concerns this file of the dossier and what it was made from; null for all. */
  readonly file: string | null;
  /** A digest as somebody typed it from a signed page; left out where none was. */
  readonly digest?: string;
}

/** What an audit found. */
export interface Audit {
  readonly broken: readonly Said[];
  readonly remarks: readonly Said[];
  /** Files that were made again, byte for byte. */
  readonly held: readonly string[];
  /** How many files the journal knows. */
  readonly files: number;
  /** What each signed page must show. */
  readonly pages: readonly SealedPage[];
}

/** Makes every link of a dossier again, from the sources to the decision. Throws UserMistake only where the dossier itself cannot be opened. */
export async function auditOf(root: string, wish: AuditWish, around: Surroundings): Promise<Audit> {
  const dossier = await openDossier(root, 'however it is');
  const known = newest(dossier.journal);
  const files = await filesLooked(dossier);
  const wrong = new Set(files.broken.flatMap(({ about }) => about.slice(0, 1)));
  const links = [
    ...dossier.layout.deliveries.flatMap((place) => [...deliveryLinks(dossier, place), ...decisionLinks(dossier, place)]),
    ...invoiceLinks(dossier, around),
  ];
  const parts: Looked[] = [files, ...(wish.digest === undefined ? [] : [paperLooked(dossier, wish.digest)])];
  for (const run of dossier.layout.deliveries.flatMap(({ runs }) => runs)) parts.push(await verdictLooked(dossier, run, wrong));
  for (const link of links) {
    around.signal.throwIfAborted();
    parts.push(await madeAgain(dossier, wrong, link));
  }
  if (wish.batch !== 'none') parts.push(await comparisons(dossier, wrong, wish.batch, around));
  const all = together(parts);
  const about = wish.file === null ? null : concerned(wish.file, dossier);
  const told = (said: readonly Said[]): readonly Said[] =>
    about === null ? said : said.filter((one) => one.about.some((name) => name === PAPER || about.has(name)));
  return { broken: told(all.broken), remarks: told(all.remarks), held: all.held, files: known.size, pages: sealsOf(dossier) };
}

async function comparisons(
  dossier: OpenDossier,
  wrong: ReadonlySet<string>,
  batch: readonly string[] | null,
  around: Surroundings,
): Promise<Looked> {
  let deliveries: readonly Delivery[];
  try {
    deliveries = await deliveriesOf(dossier);
  } catch (error) {
    // Which file cannot be read was told with the files.
    if (error instanceof UserMistake) return wrong.size > 0 ? NOTHING : broken([], error.message);
    throw error;
  }
  const parts: Looked[] = [];
  for (const { place, run } of deliveries) {
    const name = `${run.folder}/findings.json`;
    const rests = [name, ...(newest(dossier.journal).get(name)?.from ?? []).map((source) => source.name)];
    if (!rests.some((one) => wrong.has(one))) parts.push(await findingsLooked(dossier, place, deliveries, batch, around));
  }
  return together(parts);
}

/** A file and everything that it was made from. */
function concerned(file: string, { journal }: OpenDossier): ReadonlySet<string> {
  const known = newest(journal);
  const names = new Set([file]);
  for (const name of names) for (const source of known.get(name)?.from ?? []) names.add(source.name);
  return names;
}
