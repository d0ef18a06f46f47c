import { LIBRARY } from '../film/names.js';
import type { Capture, PlanIssue, PlanReel, ReturnPlan } from '../plan.js';
import { type Ids, idsOf, USES } from './mets-ids.js';
import {
  agency,
  dates,
  factsOfAbsent,
  factsOfCapture,
  frameText,
  identifier,
  location,
  numbers,
  type PageFacts,
  partOf,
  reproductionNote,
} from './mods.js';
import { padded, type WriteStyle } from './style.js';
import { technicalIds, technicalOf } from './technical.js';
import { type Element, el, writeXml } from './xml.js';

/** One file of a return: its path inside the batch and its text. */
export interface WrittenFile {
  readonly path: string;
  readonly text: string;
}

/** The batch as manifest, reel documents and one METS document per issue with a MODS section per page. */
export function* writeIssueMets(plan: ReturnPlan, style: WriteStyle): Generator<WrittenFile> {
  const paths = issuePaths(plan);
  yield { path: 'BATCH.xml', text: writeXml(manifest(plan, paths, style), style.xml) };
  const pages = pagesByIssue(plan);
  for (const [r, reel] of plan.reels.entries()) {
    yield { path: reelPath(plan, r), text: writeXml(reelDocument(plan, reel, style), style.xml) };
    for (const stray of plan.documents)
      if (stray.kind === 'stray-document' && stray.reel === r)
        yield { path: reelPath(plan, r).replace(/[^/]*$/, stray.name), text: writeXml(reelDocument(plan, reel, style), style.xml) };
  }
  for (const [i, issue] of plan.issues.entries()) {
    if (plan.documents.some((fault) => fault.kind === 'issue-document-missing' && fault.issue === i)) continue;
    const text = writeXml(issueDocument(plan, issue, pages[i] ?? [], style), style.xml);
    const cut = plan.documents.some((fault) => fault.kind === 'unreadable' && fault.issue === i);
    yield { path: paths[i] ?? '', text: cut ? text.slice(0, Math.floor(text.length / 2)) : text };
  }
}

/** Captures of every document in reading order. */
export function pagesByIssue(plan: ReturnPlan): Capture[][] {
  const out: Capture[][] = plan.issues.map(() => []);
  for (const reel of plan.reels)
    for (const capture of reel.captures) if (capture.use === 'page' && capture.issue !== null) out[capture.issue]?.push(capture);
  return out.map((list) =>
    list
      .map((capture, i) => ({ capture, i }))
      .sort((a, b) => (a.capture.order ?? 0) - (b.capture.order ?? 0) || a.i - b.i)
      .map(({ capture }) => capture),
  );
}

function issuePaths(plan: ReturnPlan): string[] {
  const taken = new Set<string>();
  return plan.issues.map((issue) => {
    const { date, edition } = issue.folder ?? issue;
    const name = `${date.replaceAll('-', '')}${String(edition).padStart(2, '0')}`;
    const path = `${issue.title}/${plan.reels[issue.reel]?.number ?? ''}/${name}/${name}.xml`;
    if (taken.has(path)) throw new RangeError(`Two documents of the plan would be written to ${path}.`);
    taken.add(path);
    return path;
  });
}

function reelPath(plan: ReturnPlan, r: number): string {
  const number = plan.reels[r]?.number ?? '';
  const title = plan.issues.find((issue) => issue.reel === r)?.title ?? plan.titles[0]?.id ?? '';
  return `${title}/${number}/${number}.xml`;
}

function manifest(plan: ReturnPlan, paths: readonly string[], style: WriteStyle): Element {
  const issues = plan.issues.flatMap((issue, i) => {
    if (issue.manifest === 'left-out') return [];
    const { date, edition } = issue.manifest ?? issue;
    const attributes = { lccn: issue.title, issueDate: date, editionOrder: String(edition).padStart(style.editionDigits, '0') };
    const entry = el('batch:issue', attributes, `./${paths[i] ?? ''}`);
    return plan.documents.some((fault) => fault.kind === 'listed-twice' && fault.issue === i) ? [entry, entry] : [entry];
  });
  const reels = plan.reels.map((reel, r) => el('batch:reel', { reelNumber: reel.number }, `./${reelPath(plan, r)}`));
  return el('batch:batch', { name: plan.batch, awardee: LIBRARY.code, awardYear: '2031' }, ...issues, ...reels);
}

function dmd(id: string, label: string, ...mods: readonly (Element | null)[]): Element {
  return el(
    'mets:dmdSec',
    { ID: id },
    el('mets:mdWrap', { MDTYPE: 'MODS', LABEL: label }, el('mets:xmlData', {}, el('mods:mods', {}, ...mods))),
  );
}

function header(): Element {
  const name = el('mets:name', {}, LIBRARY.name);
  return el('mets:metsHdr', { CREATEDATE: '2031-03-04T10:00:00' }, el('mets:agent', { ROLE: 'CREATOR', TYPE: 'ORGANIZATION' }, name));
}

function pageMods(facts: PageFacts, id: string, style: WriteStyle): Element {
  const original = el(
    'mods:relatedItem',
    { type: 'original' },
    el('mods:physicalDescription', {}, el('mods:form', { type: 'microfilm' })),
    identifier('reel number', facts.reel),
    identifier('reel sequence number', frameText(facts, style)),
    location(),
  );
  return dmd(
    id,
    'Page metadata',
    partOf(facts, 'page number', null, style),
    original,
    agency(),
    reproductionNote(facts.statement, 'digitized'),
  );
}

interface PageOfDocument {
  readonly facts: PageFacts;
  readonly capture: Capture | null;
}

function issueDocument(plan: ReturnPlan, issue: PlanIssue, captures: readonly Capture[], style: WriteStyle): Element {
  const ids = idsOf(style);
  const reel = plan.reels[issue.reel]?.number ?? '';
  const pages: PageOfDocument[] = [
    ...captures.map((capture) => ({ facts: factsOfCapture(capture), capture })),
    ...issue.absent.map((page) => ({ facts: factsOfAbsent(page, reel), capture: null })),
  ].sort((a, b) => (a.facts.order ?? 0) - (b.facts.order ?? 0));
  const sections = runsBySection(pages);
  const name = plan.titles.find((title) => title.id === issue.title)?.name ?? issue.title;
  const host = el('mods:relatedItem', { type: 'host' }, identifier('lccn', issue.title), numbers(issue));
  const label = [name, issue.date, ...(issue.editionLabel === null ? [] : [issue.editionLabel])].join(', ');
  const sectionMods = sections.flatMap(({ section }, n) =>
    section === null
      ? []
      : [
          dmd(
            ids.section(n + 1),
            'Section metadata',
            el('mods:part', {}, el('mods:detail', { type: 'section label' }, el('mods:number', {}, style.sectionPrefix + section))),
          ),
        ],
  );
  const divs = sections.map(({ section, members }, n) => {
    const list = members.map((page) => pageDiv(page, pages.indexOf(page) + 1, ids));
    return section === null ? list : [el('mets:div', { TYPE: 'np:section', DMDID: ids.section(n + 1) }, ...list)];
  });
  const files = pages.flatMap(({ capture }, i) =>
    capture === null ? [] : [fileGroup(capture, `pageFileGrp${i + 1}`, i + 1, ids, style, USES)],
  );
  const technical = pages.flatMap(({ capture }, i) => (capture === null ? [] : technicalOf(capture, i + 1, ids, style)));
  return el(
    'mets:mets',
    { TYPE: 'urn:example:verrin:mets:newspaper:issue', PROFILE: 'urn:example:verrin:mets:profiles:issue:v1', LABEL: label },
    header(),
    dmd(ids.issue, 'Issue metadata', host, dates(issue), reproductionNote(issue.statement, 'digitized', issue.statementText)),
    ...sectionMods,
    ...pages.map(({ facts }, i) => pageMods(facts, ids.page(i + 1), style)),
    technical.length === 0 ? null : el('mets:amdSec', {}, ...technical),
    files.length === 0 ? null : el('mets:fileSec', {}, ...files),
    el('mets:structMap', {}, el('mets:div', { TYPE: 'np:issue', DMDID: ids.issue }, ...divs.flat())),
  );
}

function pageDiv(page: PageOfDocument, n: number, ids: Ids): Element {
  const pointers = page.capture === null ? [] : USES.map(([use]) => el('mets:fptr', { FILEID: ids.file(use, n) }));
  return el('mets:div', { TYPE: 'np:page', DMDID: ids.page(n) }, ...pointers);
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

function fileGroup(
  capture: Capture,
  id: string,
  n: number,
  ids: Ids,
  style: WriteStyle,
  uses: readonly (readonly [string, string])[],
): Element {
  const name = padded(capture.frame, 4);
  const files = uses.map(([use, extension]) => {
    const admid = capture.use === 'page' ? technicalIds(use, n, ids, style) : null;
    const place = el('mets:FLocat', { LOCTYPE: 'OTHER', OTHERLOCTYPE: 'file', 'xlink:href': `${name}.${extension}` });
    return el('mets:file', { ID: ids.file(use, n), USE: use, ADMID: admid }, place);
  });
  return el('mets:fileGrp', { ID: id }, ...files);
}

function reelDocument(plan: ReturnPlan, reel: PlanReel, style: WriteStyle): Element {
  const targets = plan.targetsListed ? reel.captures.filter((capture) => capture.use === 'target') : [];
  const ids = idsOf(style);
  const original = (number: string, frame: string | null): Element =>
    el(
      'mods:relatedItem',
      { type: 'original' },
      identifier('reel number', number),
      identifier('reel sequence number', frame),
      frame === null ? location() : null,
    );
  const facts = ['titles', 'startDate', 'endDate', 'position', 'reductionRatio'].flatMap((name) => {
    const text = reel.facts[name];
    return text === undefined || text === '' ? [] : [el(`batch:${name}`, {}, text)];
  });
  const technical = el(
    'mets:mdWrap',
    { MDTYPE: 'OTHER', OTHERMDTYPE: 'REEL', LABEL: 'Reel metadata' },
    el('mets:xmlData', {}, el('batch:reelTechMD', {}, ...facts)),
  );
  const uses = USES.slice(0, 2);
  return el(
    'mets:mets',
    {
      TYPE: 'urn:example:verrin:mets:newspaper:reel',
      PROFILE: 'urn:example:verrin:mets:profiles:reel:v1',
      LABEL: `Microfilm reel ${reel.number}`,
    },
    header(),
    dmd('reelModsBib', 'Reel metadata', original(reel.number, null), agency()),
    ...targets.map((capture, i) =>
      dmd(`targetModsBib${i + 1}`, 'Target metadata', original(capture.reel, padded(capture.frame, style.padFrames))),
    ),
    el('mets:amdSec', {}, el('mets:techMD', { ID: 'reelTechMD' }, technical)),
    targets.length === 0
      ? null
      : el('mets:fileSec', {}, ...targets.map((capture, i) => fileGroup(capture, `targetFileGrp${i + 1}`, i + 1, ids, style, uses))),
    el(
      'mets:structMap',
      {},
      el(
        'mets:div',
        { TYPE: 'np:reel', DMDID: 'reelModsBib', ADMID: 'reelTechMD' },
        ...targets.map((_, i) =>
          el(
            'mets:div',
            { TYPE: 'np:target', DMDID: `targetModsBib${i + 1}` },
            ...uses.map(([use]) => el('mets:fptr', { FILEID: ids.file(use, i + 1) })),
          ),
        ),
      ),
    ),
  );
}
