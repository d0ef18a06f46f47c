import type { Capture, PlanIssue, ReturnPlan } from '../../plan.js';
import { altoOf } from '../alto.js';
import {
  dates,
  factsOfAbsent,
  factsOfCapture,
  form,
  frameText,
  identifier,
  mixOf,
  numbers,
  type PageFacts,
  partOf,
  reproductionNote,
  titleOf,
} from '../facts.js';
import { contentOf, fileNames, sha1, type WrittenFile } from '../files.js';
import type { WriteStyle } from '../style.js';
import { type Element, el, writeXml } from '../xml.js';

const AUTHORITY = 'Statens Avissamling';

/**
 * The batch as one MODS document per page and edition, a film document per reel, the test targets of the films and of the work shift, and the frames
 * that belong to no issue.
 */
export function* writePageMods(plan: ReturnPlan, style: WriteStyle): Generator<WrittenFile> {
  for (let n = 1; n <= style.scannerTargets; n += 1) {
    const name = `WORKSHIFT-ISO-TARGET/Target-${String(n).padStart(6, '0')}-0001`;
    yield* imageFiles(name, testTarget(`work shift ${n}`), style);
  }
  for (const [r, reel] of plan.reels.entries()) {
    const film = reel.number + style.filmSuffix;
    const key = plan.issues.find((issue) => issue.reel === r)?.title ?? plan.titles[0]?.id ?? '';
    const document = (root: Element): string => writeXml(root, style.xml);
    yield { path: `${film}/${key}-${film}.film.xml`, text: document(filmDocument(film, reel.facts)) };
    for (const stray of plan.documents)
      if (stray.kind === 'stray-document' && stray.reel === r)
        yield { path: `${film}/${stray.name}`, text: document(filmDocument(film, reel.facts)) };
    yield* imageFiles(`${film}/FILM-ISO-target/${key}-${film}-ISO-1`, testTarget(film), style);
    for (const [i, issue] of plan.issues.entries()) {
      const pages = reel.captures.filter((capture) => capture.use === 'page' && capture.issue === i);
      if (issue.reel === r || pages.length > 0) yield* writeEdition(plan, { issue, i, film, here: issue.reel === r, pages }, style);
    }
    const unmatched = reel.captures.filter((capture) => capture.use !== 'page');
    for (const [capture, name] of fileNames(unmatched)) yield* imageFiles(`${film}/UNMATCHED/${key}-${film}-${name}`, capture, style);
  }
}

/** An image with what stands beside it under its name: the MIX document always, image and text where they came with this copy of the batch. */
function* imageFiles(name: string, capture: Capture, style: WriteStyle): Generator<WrittenFile> {
  const image = contentOf(capture, 'service', name, style);
  yield { path: `${name}.mix.xml`, text: writeXml(mixOf(capture, style, sha1(image)), style.xml) };
  const came = (use: 'service' | 'ocr'): boolean => style.files.includes(use) && capture.lost?.includes(use) !== true;
  if (came('service')) yield { path: `${name}.jp2`, text: image };
  if (came('ocr') && capture.use !== 'target')
    yield { path: `${name}.alto.xml`, text: writeXml(altoOf(capture, `${name}.jp2`), style.xml) };
}

interface Edition {
  readonly issue: PlanIssue;
  readonly i: number;
  readonly film: string;
  /** True on the reel where the issue begins. */
  readonly here: boolean;
  readonly pages: readonly Capture[];
}

function* writeEdition(plan: ReturnPlan, edition: Edition, style: WriteStyle): Generator<WrittenFile> {
  const { issue, i, film, here, pages } = edition;
  const { date, edition: number } = issue.folder ?? issue;
  const folder = `${date}-${String(number).padStart(2, '0')}`;
  const base = `${film}/${folder}/${issue.title}-${folder}`;
  const missing = plan.documents.some((fault) => fault.kind === 'issue-document-missing' && fault.issue === i);
  const cut = plan.documents.some((fault) => fault.kind === 'unreadable' && fault.issue === i);
  const document = (root: Element): string => writeXml(root, style.xml);
  const text = document(editionDocument(plan, issue));
  if (!missing) yield { path: `${base}.edition.xml`, text: cut ? text.slice(0, Math.floor(text.length / 2)) : text };
  for (const [capture, name] of fileNames(pages)) {
    const page = pageDocument(factsOfCapture(capture, style.filmSuffix), issue.title, style);
    yield { path: `${base}-${name}.mods.xml`, text: document(page) };
    yield* imageFiles(`${base}-${name}`, capture, style);
  }
  if (!here) return;
  for (const [n, page] of issue.absent.entries()) {
    yield {
      path: `${base}-X${String(n + 1).padStart(4, '0')}.mods.xml`,
      text: document(pageDocument(factsOfAbsent(page, film), issue.title, style)),
    };
  }
}

function uniformTitle(id: string): Element {
  return el('mods:titleInfo', { type: 'uniform', authority: AUTHORITY }, el('mods:title', {}, id));
}

function pageDocument(facts: PageFacts, title: string, style: WriteStyle): Element {
  const original = el(
    'mods:relatedItem',
    { type: 'original' },
    identifier('reel number', facts.reel),
    identifier('reel sequence number', frameText(facts, style)),
    form(),
    reproductionNote(facts.statement, 'digitised'),
  );
  return el(
    'mods:mods',
    {},
    partOf(facts, 'pageNumber', 'sectionLabel', style),
    original,
    el('mods:relatedItem', { type: 'host' }, uniformTitle(title)),
  );
}

function editionDocument(plan: ReturnPlan, issue: PlanIssue): Element {
  const name = plan.titles.find((title) => title.id === issue.title)?.name ?? issue.title;
  return el(
    'mods:mods',
    {},
    titleOf(issue) === null ? null : uniformTitle(issue.title),
    el('mods:titleInfo', {}, el('mods:title', {}, name)),
    dates(issue),
    reproductionNote(issue.statement, 'digitised', issue.statementText),
    el('mods:relatedItem', { type: 'host' }, numbers(issue)),
  );
}

function filmDocument(film: string, facts: Readonly<Record<string, string>>): Element {
  const names = ['titles', 'startDate', 'endDate', 'batchIdFilmId', 'numberOfPictures', 'reductionRatio'];
  // The count includes the test target of the film, which has no frame number (row 2E-5 of the Danish film appendix).
  const pictures = String(Number(facts['numberOfPictures'] ?? '0') + 1);
  const all: Readonly<Record<string, string>> = { ...facts, batchIdFilmId: film, numberOfPictures: pictures };
  return el(
    'film:reelMetadata',
    {},
    ...names.flatMap((name) => (all[name] === undefined || all[name] === '' ? [] : [el(`film:${name}`, {}, all[name])])),
  );
}

function testTarget(of: string): Capture {
  const nothing = { frame: '', reel: '', issue: null, order: null, page: null, section: null };
  return { ...nothing, picture: 0, use: 'target', width: 4700, height: 6500, image: `test target of ${of}` };
}
