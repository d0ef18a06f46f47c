import { create } from 'xmlbuilder2';
import type { XMLBuilder } from 'xmlbuilder2/lib/interfaces.js';
import type { DueAbsence, DuePage } from '../../model/expected-delivery.js';
import type { Profile } from '../../model/profile.js';
import { xmlText } from '../xml/escape.js';
import { add, addIssueFacts, addOriginal, addPagePart, addPresent, METS, MODS, presentWords, XLINK } from './mods.js';
import type { NamedDelivery, NamedFilm, NamedIssue } from './names.js';

/** One file of the return: its path below the folder, and its text. */
export interface DueFile {
  readonly path: string;
  readonly text: string;
}

/** The files of a page: identifier, use and ending. None of them is written; their names are what a vendor may compare. */
const USES = [
  ['master', 'tif'],
  ['service', 'jp2'],
  ['derivative', 'pdf'],
  ['ocr', 'xml'],
] as const;

/** The documents of a return in which each issue is one METS document: manifest, issues, and reels where targets are listed. */
export function issueMetsFiles({ issues, films }: NamedDelivery, profile: Profile, batch: string): readonly DueFile[] {
  const reels = films.filter(({ document }) => document !== null);
  return [
    { path: 'BATCH.xml', text: manifest(issues, reels, batch) },
    ...issues.map((named) => ({ path: `${named.folder}/${named.document}`, text: issueDocument(named, profile) })),
    ...reels.map((named) => ({ path: `${named.folder}/${named.document ?? ''}`, text: reelDocument(named) })),
  ];
}

function written(document: XMLBuilder): string {
  return `${document.end({ prettyPrint: true })}\n`;
}

function metsDocument(kind: string, label: string | null): XMLBuilder {
  const root = create({ version: '1.0', encoding: 'UTF-8' }).ele(METS, 'mets');
  root.att('http://www.w3.org/2000/xmlns/', 'xmlns:mods', MODS).att('http://www.w3.org/2000/xmlns/', 'xmlns:xlink', XLINK);
  root.att('TYPE', `urn:reeltally:expected:${kind}`);
  if (label !== null) root.att('LABEL', xmlText(label));
  return root;
}

/** A metadata section with MODS in it, ready to be filled. */
function addSection(root: XMLBuilder, id: string): XMLBuilder {
  const data = add(add(add(root, 'dmdSec', { ID: id }), 'mdWrap', { MDTYPE: 'MODS' }), 'xmlData');
  return add(data, 'mods:mods');
}

function manifest(issues: readonly NamedIssue[], reels: readonly NamedFilm[], batch: string): string {
  const root = create({ version: '1.0', encoding: 'UTF-8' }).ele('batch', { name: xmlText(batch) });
  for (const { issue, folder, document } of issues) {
    const facts = {
      ...(issue.title === null ? {} : { lccn: issue.title }),
      ...(issue.isCertain ? { issueDate: (issue.date ?? '').slice(0, 10) } : {}),
      editionOrder: String(issue.edition),
    };
    add(root, 'issue', facts, `./${folder}/${document}`);
  }
  for (const { film, folder, document } of reels) add(root, 'reel', { reelNumber: film.number }, `./${folder}/${document ?? ''}`);
  return written(root);
}

type Leaf = { readonly page: DuePage; readonly name: string } | { readonly absence: DueAbsence };

/** Pages and places for pages that are not on the film, in the order of the issue. */
function leavesOf({ issue, pages }: NamedIssue): readonly Leaf[] {
  const leaves: (Leaf & { readonly order: number })[] = [
    ...issue.pages.map((page, at) => ({ page, name: pages[at] ?? '', order: page.order ?? 0 })),
    ...issue.absent.map((absence) => ({ absence, order: absence.order ?? Number.MAX_SAFE_INTEGER })),
  ];
  return leaves.toSorted((a, b) => a.order - b.order);
}

function issueDocument(named: NamedIssue, profile: Profile): string {
  const { issue } = named;
  const label =
    issue.isCertain && issue.titleName !== null
      ? [issue.titleName, issue.date, issue.editionLabel].filter((one) => one !== null).join(', ')
      : null;
  const root = metsDocument('issue', label);
  const mods = addSection(root, 'issueModsBib');
  const host = add(mods, 'mods:relatedItem', { type: 'host' });
  if (issue.title !== null) add(host, 'mods:identifier', { type: 'lccn' }, issue.title);
  addIssueFacts(mods, host, issue);
  addPresent(mods, presentWords(profile, issue.absentAsWhole));
  const leaves = leavesOf(named);
  leaves.forEach((leaf, at) => {
    const page = addSection(root, `pageModsBib${String(at + 1)}`);
    addPagePart(page, 'page' in leaf ? leaf.page : leaf.absence);
    if ('page' in leaf) addOriginal(page, leaf.page.reel, leaf.page.frame);
    addPresent(page, presentWords(profile, 'page' in leaf ? null : leaf.absence.published));
  });
  if (leaves.some((leaf) => 'page' in leaf)) {
    const files = add(root, 'fileSec');
    leaves.forEach((leaf, at) => {
      if (!('page' in leaf)) return;
      const group = add(files, 'fileGrp', { ID: `pageFileGrp${String(at + 1)}` });
      for (const [use, ending] of USES) {
        const file = add(group, 'file', { ID: `${use}File${String(at + 1)}`, USE: use });
        add(file, 'FLocat', { LOCTYPE: 'OTHER', OTHERLOCTYPE: 'file', 'xlink:href': `${leaf.name}.${ending}` });
      }
    });
  }
  const division = add(add(root, 'structMap'), 'div', { TYPE: 'np:issue', DMDID: 'issueModsBib' });
  leaves.forEach((leaf, at) => {
    const page = add(division, 'div', { TYPE: 'np:page', DMDID: `pageModsBib${String(at + 1)}` });
    if ('page' in leaf) for (const [use] of USES) add(page, 'fptr', { FILEID: `${use}File${String(at + 1)}` });
  });
  return written(root);
}

function reelDocument({ film }: NamedFilm): string {
  const root = metsDocument('reel', film.number);
  film.targets.forEach((frame, at) => addOriginal(addSection(root, `targetModsBib${String(at + 1)}`), film.number, frame));
  const division = add(add(root, 'structMap'), 'div', { TYPE: 'np:reel' });
  film.targets.forEach((_, at) => add(division, 'div', { TYPE: 'np:target', DMDID: `targetModsBib${String(at + 1)}` }));
  return written(root);
}
