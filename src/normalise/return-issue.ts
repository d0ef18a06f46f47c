import type { Absence, Copy, DocumentProblem, Frame, FrameNumber, Issue, PageFile } from '../model/film.js';
import type { PresentWording, Profile } from '../model/profile.js';
import type { WrittenIssue, WrittenPage, WrittenReturn } from '../model/written-return.js';
import { labelKey, pageLabel, plainText, readFrameNumber, sectionLabel, withoutSection } from './labels.js';
import { factProblem, readCopy, readPlace, readPresent, readReel, readReturnDate, readTitle } from './return-facts.js';
import type { HeldPart, NeedsBook } from './return-needs.js';

/** A page on its way into a reel. */
export interface PlacedFrame {
  readonly frame: Frame;
  /** Normalised number of the reel, null where none is known. */
  readonly reel: string | null;
  readonly reelText: string;
}

/** What one issue document comes to. */
export interface ReadIssue {
  readonly issue: Issue;
  readonly frames: readonly PlacedFrame[];
  readonly absences: readonly Absence[];
}

/** The uses of which a page must name files. */
type AskedUses = Pick<WrittenReturn, 'askedUses' | 'usualUses'>;
const NO_USES: AskedUses = { askedUses: [], usualUses: [] };

/** A reel's number as it is compared and as it is written. */
export interface KnownReel {
  readonly number: string;
  readonly text: string;
}

/** Reads one issue with its pages. `index` is its place in the side's issues, `folderReel` the reel that its folder is known to hold. */
export function readIssue(
  written: WrittenIssue,
  index: number,
  folderReel: KnownReel | null,
  { profile, uses, needs }: { readonly profile: Profile; readonly uses: AskedUses; readonly needs: NeedsBook },
): ReadIssue {
  const { issue, doubts } = issueOf(written, profile, folderReel);
  const known = { title: issue.title, date: issue.date?.text ?? null, edition: issue.edition };
  needs.hold({
    part: 'issue',
    facts: written.facts,
    place: issue.place,
    known: { ...known, reel: folderReel?.number ?? null },
    taken: issue.title === null ? {} : { titleId: issue.title },
    doubts,
    silent: written.undescribed === true,
  });
  const frames: PlacedFrame[] = [];
  const absences: Absence[] = [];
  const structOrders = impliedOrders(written.pages);
  if (!issue.present) absences.push(absenceOf(issue, index, null, folderReel?.number ?? null, written.facts.present, profile, issue.place));
  let lastReel: KnownReel | null = null;
  for (const page of written.pages) {
    const frame = page.facts.frame === undefined ? null : readFrameNumber(page.facts.frame, 0);
    const own = readReel(page.facts.reel);
    const reel: KnownReel | null = own === null ? (lastReel ?? folderReel) : { number: own, text: page.facts.reel ?? own };
    lastReel = reel ?? lastReel;
    const wording = page.facts.present === undefined ? null : readPresent(page.facts.present, profile.present);
    const isAbsent = wording?.present === false || isSaidAbsent(page, wording);
    needs.hold({
      part: 'page',
      facts: page.facts,
      place: page.place,
      known: { ...known, reel: reel?.number ?? null },
      taken: reel === null || reel.number === '' ? {} : { reel: `on reel ${reel.text}` },
      doubts: () => pageDoubts(page, issue, reel),
      silent: isAbsent || page.undescribed === true,
    });
    if (isAbsent) absences.push(absenceOf(issue, index, page, reel?.number ?? null, page.facts.present, profile, page.place));
    // A page that is said to be missing and has a frame number all the same was delivered: both statements stand.
    if (isAbsent && page.facts.frame === undefined) continue;
    frames.push({
      frame: {
        ...frameOf(page, index, frame, structOrders.get(page) ?? null, profile, isAbsent ? NO_USES : uses),
        ...(own === null ? { reelInferred: true } : {}),
        ...(page.undescribed === true ? { undescribed: true } : {}),
      },
      reel: reel?.number ?? null,
      reelText: reel?.text ?? '',
    });
  }
  return { issue, frames, absences };
}

/** A page of which something is said in words that are not agreed, and that shows neither a frame nor a file: what can it say but that the page is not there? */
function isSaidAbsent({ facts, files }: WrittenPage, wording: PresentWording | null): boolean {
  return facts.present !== undefined && wording === null && facts.frame === undefined && files.every(({ state }) => state !== 'present');
}

function issueOf(
  written: WrittenIssue,
  profile: Profile,
  reel: KnownReel | null,
): { readonly issue: Issue; readonly doubts: NonNullable<HeldPart['doubts']> } {
  const { facts, place } = written;
  const copies = written.copies.map((copy) => readCopy(copy, profile));
  const stated = readTitle(facts.titleId, profile);
  // What the document leaves out is taken from its other places, so that the comparison has something to go by.
  const title = stated ?? otherPlace(copies, 'title');
  const date = readReturnDate(facts.date, profile.facts.issue.date?.shape);
  const edition = readPlace(facts.edition) ?? (facts.edition === undefined ? readPlace(otherPlace(copies, 'edition') ?? undefined) : null);
  // That it is left out is told; what the other places say is then compared as what they say.
  const inferred = (['title', 'edition'] as const).filter((fact) => {
    const name = fact === 'title' ? 'titleId' : fact;
    return facts[name] === undefined && profile.facts.issue[name]?.needs === 'must';
  });
  const wording = facts.present === undefined ? null : readPresent(facts.present, profile.present);
  const at = { title, date, edition, reel: reel?.number ?? null };
  const document = place.document ?? 'the document';
  const doubt = (field: string, says: string, returned: string | undefined, instruction: string): DocumentProblem =>
    factProblem('vocabulary-unknown', says, at, field, returned ?? null, instruction, place);
  const doubts = (): ReturnType<NonNullable<HeldPart['doubts']>> => ({
    edition: doubt(
      'edition',
      `"${document}" gives the edition order as "${facts.edition ?? ''}", which is not a number.`,
      facts.edition,
      'Give the edition order as a number.',
    ),
    present: doubt(
      'present',
      `"${document}" says of the issue "${facts.present ?? ''}", which is none of the agreed wordings.`,
      facts.present,
      'Use one of the agreed wordings.',
    ),
  });
  const printed = readReturnDate(facts.datePrinted, profile.facts.issue.datePrinted?.shape);
  const issue: Issue = {
    title,
    date,
    datePrinted: printed,
    weekdayPrinted: null,
    edition,
    editionLabel: facts.editionLabel === undefined ? null : plainText(facts.editionLabel),
    volume: facts.volume ?? null,
    issueNumber: facts.issueNumber ?? null,
    issueNumberIntended: null,
    // an issue of which something is said in other words, and that has no page, is said to be absent
    present: wording?.present ?? (facts.present === undefined || written.pages.length > 0),
    ...(written.undescribed === true ? { undescribed: true as const } : {}),
    ...(inferred.length > 0 ? { inferred } : {}),
    copies,
    place,
  };
  return { issue, doubts };
}

function otherPlace(copies: readonly Copy[], fact: Copy['fact']): string | null {
  return copies.find((copy) => copy.fact === fact && copy.value !== null)?.value ?? null;
}

function absenceOf(
  issue: Issue,
  index: number,
  page: WrittenPage | null,
  reel: string | null,
  present: string | undefined,
  profile: Profile,
  place: Absence['place'],
): Absence {
  const section = page?.facts.section;
  const label = page?.facts.page;
  const wording = present === undefined ? null : readPresent(present, profile.present);
  return {
    reel,
    title: issue.title,
    date: issue.date,
    edition: issue.edition,
    section: section === undefined ? null : sectionLabel(section),
    page: label === undefined ? null : pageLabel(label),
    order: readPlace(page?.facts.order),
    published: present === undefined ? 'unknown' : (wording?.published ?? 'unknown'),
    ...(present !== undefined && wording === null ? { unreadWords: true as const } : {}),
    issue: index,
    place,
  };
}

function frameOf(
  page: WrittenPage,
  index: number,
  frame: FrameNumber | null,
  structOrder: number | null,
  profile: Profile,
  uses: AskedUses,
): Frame {
  const { facts } = page;
  const section = facts.section === undefined ? null : sectionLabel(facts.section);
  const label = facts.page === undefined ? null : pageLabel(facts.page);
  const copies: Copy[] = page.copies.map((copy) => readCopy(copy, profile, section));
  if (structOrder !== null && page.structPosition !== null)
    copies.push({
      fact: 'order',
      source: 'structMap',
      text: `place ${String(page.structPosition)}`,
      value: String(structOrder),
      place: page.place,
    });
  return {
    frame,
    kind: 'page',
    deliver: true,
    issue: index,
    section,
    supplement: false,
    page: label,
    pagePrinted: null,
    pageKey: label === null ? null : labelKey(withoutSection(label, section)),
    pagePrintedKey: null,
    order: readPlace(facts.order),
    duplicateOf: null,
    retakeOf: null,
    sourceReel: null,
    condition: [],
    note: facts.presentNote ?? null,
    files: [...page.files, ...unnamedFiles(page, uses)],
    copies,
    place: page.place,
  };
}

/** Files that the page must have and does not name. A page that no division places has none to name. */
function unnamedFiles(page: WrittenPage, { askedUses, usualUses }: AskedUses): readonly PageFile[] {
  if (page.structPosition === null) return [];
  // A place for a page that is not on the film has neither a number nor files.
  const isBare = page.files.length === 0 && page.facts.frame !== undefined;
  return (isBare ? [...new Set([...askedUses, ...usualUses])].sort() : askedUses)
    .filter((use) => page.files.every((file) => file.use !== use))
    .map((use) => ({ use, href: '', path: null, state: 'unnamed', digest: null, width: null, height: null }));
}

/**
 * The order that each page's place in the structMap implies: the orders of the issue, sorted, dealt out along the structMap. So a hole left for
 * a page that is not recorded makes no difference. None where orders are missing or repeat.
 */
function impliedOrders(pages: readonly WrittenPage[]): ReadonlyMap<WrittenPage, number> {
  const placed = pages.filter((page) => page.structPosition !== null);
  const orders = placed.map((page) => readPlace(page.facts.order));
  const known = orders.filter((order) => order !== null);
  if (known.length !== placed.length || new Set(known).size !== known.length) return new Map();
  const sorted = [...known].sort((a, b) => a - b);
  return new Map(placed.map((page, at) => [page, sorted[at] ?? 0]));
}

/** What each fact of a page that cannot be understood is to be told as. */
function pageDoubts(page: WrittenPage, issue: Issue, reel: KnownReel | null): ReturnType<NonNullable<HeldPart['doubts']>> {
  const { facts, place } = page;
  const at = { title: issue.title, date: issue.date, edition: issue.edition, reel: reel?.number ?? null };
  const where = `The page section ${place.element === undefined ? '' : `"${place.element}" `}in "${place.document ?? ''}"`;
  const doubt = (fact: 'present' | 'order' | 'frame' | 'reel', says: string, instruction: string): DocumentProblem =>
    factProblem('vocabulary-unknown', `${where} ${says}`, at, fact, facts[fact] ?? null, instruction, place);
  return {
    present: doubt('present', `says "${facts.present ?? ''}", which is none of the agreed wordings.`, 'Use one of the agreed wordings.'),
    order: doubt(
      'order',
      `gives its place in the issue as "${facts.order ?? ''}", which is not a number.`,
      'Give the place of the page in the issue as a number.',
    ),
    frame: doubt('frame', `gives the frame number as "${facts.frame ?? ''}", which is none.`, 'Give the frame number.'),
    reel: doubt('reel', `gives the reel number as "${facts.reel ?? ''}".`, 'Give the reel number of the page.'),
  };
}
