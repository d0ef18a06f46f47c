import { renameSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { editFile, removeFile } from '../copy.js';
import { filesBelow, type IssueFacts, type NamedFile, type PageFacts } from '../facts.js';
import {
  attribute,
  edited,
  element,
  elements,
  elementsWith,
  exchanged,
  prefixed,
  type Span,
  withAttribute,
  withContent,
  without,
} from '../xml-text.js';
import { middle, ofPage, pictureOf, type Scene, type Spoiling, victim } from './scene.js';

const WRONG_LABEL = '13';

/** A page has another printed number; a paper that prints none is given one. */
export const label: Spoiling = {
  name: 'label',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page] = middle(issue);
    for (const path of issue.documents)
      editFile(scene.folder, path, (text) =>
        page.section === null
          ? withAttribute(text, divisionOf(text, page), 'ORDERLABEL', WRONG_LABEL)
          : edited(text, element(text, 'dmdSec', { ID: page.section }), labelledIn),
      );
    return ofPage(scene, issue, page, ['page-number-differs'], [WRONG_LABEL]);
  },
};

/** The section of a page with another printed number. */
export function labelledIn(section: string): string {
  const [detail] = elementsWith(section, 'detail', { type: 'page number' });
  if (detail !== undefined) return edited(section, detail, (inner) => withContent(inner, element(inner, 'number', {}), WRONG_LABEL));
  const extent = element(section, 'extent', { unit: 'pages' });
  const number = prefixed(section, extent, 'number', '', WRONG_LABEL);
  return section.slice(0, extent.to) + prefixed(section, extent, 'detail', 'type="page number"', number) + section.slice(extent.to);
}

/** A page is in no document any more; its files lie where they lay. */
export const pageOutOfTheXml: Spoiling = {
  name: 'page out of the XML',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page] = middle(issue);
    for (const path of issue.documents) editFile(scene.folder, path, (text) => withoutPage(text, page));
    const may = [{ codes: ['file-not-listed'], names: [basename(pictureOf(page).path)] }];
    return { ...ofPage(scene, issue, page, ['page-not-delivered']), may };
  },
};

/** Two pages carry each other's place and number; their frames and pictures are right. */
export const pagesExchanged: Spoiling = {
  name: 'two pages exchanged',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page, next] = middle(issue);
    for (const path of issue.documents)
      editFile(scene.folder, path, (text) => {
        const swapped = exchanged(text, divisionOf(text, page), divisionOf(text, next));
        if (page.section === null || next.section === null) {
          const first = withAttribute(swapped, divisionOf(swapped, page), 'ORDER', String(next.order));
          return withAttribute(first, divisionOf(first, next), 'ORDER', String(page.order));
        }
        return exchanged(swapped, placeIn(swapped, page.section), placeIn(swapped, next.section));
      });
    return ofPage(scene, issue, page, ['pages-swapped']);
  },
};

/** Where a section states the place and number of its page. */
function placeIn(text: string, section: string): Span {
  const { from, to } = element(text, 'dmdSec', { ID: section });
  const span = element(text.slice(from, to), 'part', {});
  return { from: span.from + from, open: span.open + from, to: span.to + from };
}

/** A frame was left out when the film was scanned: its page came in no form, and frames and places behind it are closed up. */
export const skippedFrame: Spoiling = {
  name: 'frame skipped, orders closed up',
  spoil: (scene) => {
    const issue = victim(scene);
    const [lost] = middle(issue);
    for (const path of issue.documents) editFile(scene.folder, path, (text) => withoutPage(text, lost));
    const names = new Set(lost.files.map(({ path }) => basename(path)));
    for (const path of filesBelow(scene.folder)) if (names.has(basename(path))) removeFile(scene.folder, path);
    for (const other of scene.facts.issues) for (const page of other.pages) closeUp(scene, other, issue, page, lost);
    for (const reel of scene.facts.reels)
      for (const { section, frame, files } of reel.targets) {
        if (lost.frame !== null && frame !== null && frame > lost.frame) moveFrame(scene, reel.documents, section, frame, files);
      }
    if (lost.frame === null) return ofPage(scene, issue, lost, ['page-not-delivered']);
    // where no numbers are printed, nothing says which of the pages was lost
    const told = issue.pages.some((page) => page.label !== null);
    return { must: [{ codes: ['frame-not-scanned'], names: [], ...(told ? { at: scene.frameOf(lost) } : { cause: 'unclear' }) }] };
  },
};

/** Moves a page behind the lost one by one: its frame and the names of its files, and inside the same issue its place. */
function closeUp(scene: Scene, other: IssueFacts, issue: IssueFacts, page: PageFacts, lost: PageFacts): void {
  if (other === issue && page.order > lost.order) {
    const place = String(page.order - 1);
    for (const path of issue.documents)
      editFile(scene.folder, path, (text) =>
        page.section === null
          ? withAttribute(text, divisionOf(text, page), 'ORDER', place)
          : edited(text, element(text, 'dmdSec', { ID: page.section }), (part) => withContent(part, element(part, 'start', {}), place)),
      );
  }
  if (page.section !== null && page.frame !== null && lost.frame !== null && page.frame > lost.frame)
    moveFrame(scene, other.documents, page.section, page.frame, page.files);
}

/** Gives a page or target the number before its own, and its files the names that go with it. */
function moveFrame(scene: Scene, documents: readonly string[], section: string, frame: number, files: readonly NamedFile[]): void {
  const nameOf = (number: number): string => String(number).padStart(4, '0');
  const moved = (path: string): string => basename(path).replace(nameOf(frame), nameOf(frame - 1));
  for (const path of documents)
    editFile(scene.folder, path, (text) => {
      const numbered = edited(text, element(text, 'dmdSec', { ID: section }), (part) =>
        withContent(part, element(part, 'identifier', { type: 'reel sequence number' }), String(frame - 1)),
      );
      return files.reduce((after, file) => after.replace(`${basename(file.path)}"`, `${moved(file.path)}"`), numbered);
    });
  for (const { path } of files) renameSync(join(scene.folder, path), join(scene.folder, dirname(path), moved(path)));
}

/** The division of a page: the one that points to its section, or else to its first file. */
export function divisionOf(text: string, page: PageFacts): Span {
  const ofItsSection = page.section === null ? [] : elementsWith(text, 'div', { DMDID: page.section });
  const ofItsFile = elements(text, 'div').filter(
    (span) =>
      /^(?:page|\w+_PAGE)$/.test(attribute(text, span, 'TYPE') ?? '') &&
      text.slice(span.from, span.to).includes(`FILEID="${page.files[0]?.id ?? ''}"`),
  );
  const [division] = page.section === null ? ofItsFile : ofItsSection;
  if (division === undefined) throw new RangeError(`No division is that of page ${page.order}.`);
  return division;
}

/** A document without one page: its division, its section, and every file entry of its names, those of groups that no division points to too. */
function withoutPage(text: string, page: PageFacts): string {
  let after = without(text, divisionOf(text, page));
  if (page.section !== null) after = without(after, element(after, 'dmdSec', { ID: page.section }));
  const names = page.files.map(({ path }) => basename(path));
  const ofPageFile = (span: Span, whole: string): boolean =>
    elements(whole.slice(span.from, span.to), 'FLocat').some((location) =>
      names.includes(basename(attribute(whole.slice(span.from), location, 'href') ?? '')),
    );
  // from the last to the first: what is taken out leaves the places before it as they are
  for (const span of elements(after, 'file').reverse()) if (ofPageFile(span, after)) after = without(after, span);
  for (const span of elements(after, 'fileGrp').reverse())
    if (elements(after.slice(span.from, span.to), 'file').length === 0) after = without(after, span);
  return after;
}
