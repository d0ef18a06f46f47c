import type { Capture, PlanIssue, ReturnPlan } from '../../plan.js';
import {
  agency,
  dates,
  detail,
  factsOfAbsent,
  factsOfCapture,
  form,
  frameText,
  identifier,
  location,
  numbers,
  type PageFacts,
  partOf,
  reproductionNote,
  titleOf,
} from '../facts.js';
import { fileNames } from '../files.js';
import { reelAsPlace, type WriteStyle } from '../style.js';
import { type Element, el } from '../xml.js';
import { type Ids, idsOf } from './ids.js';
import { administrative, dmd, fileSection, type GroupOfFiles, header, pointers } from './parts.js';

interface PageOfDocument {
  readonly facts: PageFacts;
  readonly capture: Capture | null;
}

/** Pages of an issue in reading order, those that are known to be absent among them. */
function pagesOfIssue(issue: PlanIssue, captures: readonly Capture[], reel: string): PageOfDocument[] {
  return [
    ...captures.map((capture) => ({ facts: factsOfCapture(capture), capture })),
    ...issue.absent.map((page) => ({ facts: factsOfAbsent(page, reel), capture: null })),
  ].sort((a, b) => placeOf(a) - placeOf(b));
}

/** A page whose place is left out lies where it belongs all the same. */
function placeOf({ facts, capture }: PageOfDocument): number {
  return capture?.order ?? facts.order ?? 0;
}

/** The files that an issue document names, numbered by the pages they belong to; what lies on another reel lies in that reel's folder. */
export function groupsOfIssue(plan: ReturnPlan, issue: PlanIssue, captures: readonly Capture[], style: WriteStyle): GroupOfFiles[] {
  const folder = folderOfIssue(issue);
  const places = new Map<Capture, string>();
  plan.reels.forEach((reel, r) => {
    const mine = captures.filter((capture) => reel.captures.includes(capture));
    const before = r === issue.reel ? '' : `../../${reelAsPlace(reel.number, style)}/${folder}/`;
    for (const [capture, name] of fileNames(mine)) places.set(capture, before + name);
  });
  return pagesOfIssue(issue, captures, plan.reels[issue.reel]?.number ?? '').flatMap(({ capture }, i) =>
    capture === null ? [] : [{ capture, name: places.get(capture) ?? capture.frame, n: i + 1 }],
  );
}

/** Day and edition as the name of an issue's folder. */
export function folderOfIssue(issue: PlanIssue): string {
  const { date, edition } = issue.folder ?? issue;
  return `${date.replaceAll('-', '')}${String(edition).padStart(2, '0')}`;
}

/** One issue: its MODS section, one per section of the paper and one per page, the files, and the divisions that hold them together. */
export function issueDocument(plan: ReturnPlan, issue: PlanIssue, captures: readonly Capture[], style: WriteStyle): Element {
  const ids = idsOf(style);
  const pages = pagesOfIssue(issue, captures, plan.reels[issue.reel]?.number ?? '');
  const groups = groupsOfIssue(plan, issue, captures, style);
  const sections = runsBySection(pages);
  const name = plan.titles.find((title) => title.id === issue.title)?.name ?? issue.title;
  const host = el('mods:relatedItem', { type: 'host' }, identifier('lccn', titleOf(issue)), numbers(issue));
  const label = [name, issue.date, ...(issue.editionLabel === null ? [] : [issue.editionLabel])].join(', ');
  const sectionMods = sections.flatMap(({ section }, n) =>
    section === null
      ? []
      : [dmd(ids.section(n + 1), 'Section metadata', el('mods:part', {}, detail('section label', style.sectionPrefix + section)))],
  );
  const divs = sections.map(({ section, members }, n) => {
    const list = members.map((page) => pageDiv(page, pages.indexOf(page) + 1, ids));
    return section === null ? list : [el('mets:div', { TYPE: 'np:section', DMDID: ids.section(n + 1) }, ...list)];
  });
  return el(
    'mets:mets',
    { TYPE: 'urn:example:verrin:mets:newspaper:issue', PROFILE: 'urn:example:verrin:mets:profiles:issue:v1', LABEL: label },
    header(style),
    dmd(ids.issue, 'Issue metadata', host, dates(issue), reproductionNote(issue.statement, 'digitized', issue.statementText)),
    ...sectionMods,
    ...pages.map(({ facts }, i) => pageMods(facts, ids.page(i + 1), style)),
    administrative([], groups, ids, label, style),
    fileSection('pageFileGrp', groups, ids, style),
    el('mets:structMap', {}, el('mets:div', { TYPE: 'np:issue', DMDID: ids.issue }, ...divs.flat())),
  );
}

function pageMods(facts: PageFacts, id: string, style: WriteStyle): Element {
  const original = el(
    'mods:relatedItem',
    { type: 'original' },
    style.sourceForm ? form() : null,
    identifier('reel number', facts.reel),
    identifier('reel sequence number', frameText(facts, style)),
    location(style),
  );
  return dmd(
    id,
    'Page metadata',
    partOf(facts, 'page number', null, style),
    original,
    agency(style),
    reproductionNote(facts.statement, 'digitized'),
  );
}

function pageDiv(page: PageOfDocument, n: number, ids: Ids): Element {
  return el('mets:div', { TYPE: 'np:page', DMDID: ids.page(n) }, ...(page.capture === null ? [] : pointers(n, ids)));
}

function runsBySection(pages: readonly PageOfDocument[]): { readonly section: string | null; readonly members: PageOfDocument[] }[] {
  const out: { readonly section: string | null; readonly members: PageOfDocument[] }[] = [];
  for (const page of pages) {
    const last = out.at(-1);
    if (last !== undefined && last.section === page.facts.section) last.members.push(page);
    else out.push({ section: page.facts.section, members: [page] });
  }
  return out;
}
