import type { Finding, Repair } from '../../src/model/findings.js';
import type { FactName } from '../../src/model/profile.js';
import type { WrittenFacts, WrittenIssue, WrittenPage, WrittenReel, WrittenReturn } from '../../src/model/written-return.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { type Verified, verifyCase } from '../bench/in-memory.js';
import { type Case, caseOf } from '../forge/algebra/case.js';
import type { Scenery } from '../forge/algebra/scenery.js';

/** Parts of a document, to be changed in place. */
type Open<T> = { -readonly [K in keyof T]: T[K] };
interface Page extends Open<WrittenPage> {
  facts: WrittenFacts;
}
interface Issue extends Open<Omit<WrittenIssue, 'pages'>> {
  pages: Page[];
}
interface Reel extends Open<Omit<WrittenReel, 'targets'>> {
  targets: Page[];
}
interface Return {
  issues: Issue[];
  reels: Reel[];
  loose: WrittenReturn['loose'][number][];
}

/** Whether a page says to be on a reel, perhaps with an end of the vendor's own, or says nothing of it. */
const isOn = (facts: WrittenFacts, reel: string | undefined): boolean => {
  const [mine, theirs] = [plain(facts.reel), plain(reel)];
  return mine === null || theirs === null || mine.startsWith(theirs) || theirs.startsWith(mine);
};

/** A number as it is compared: without padding. */
const plain = (frame: string | null | undefined): string | null => frame?.replace(/^0+(?=\d)/, '').toUpperCase() ?? null;

/** What the facts of findings are called in documents. */
const FACTS: Readonly<Record<string, FactName>> = {
  frame: 'frame',
  reel: 'reel',
  page: 'page',
  order: 'order',
  section: 'section',
  title: 'titleId',
  date: 'date',
  datePrinted: 'datePrinted',
  edition: 'edition',
  editionLabel: 'editionLabel',
  volume: 'volume',
  issueNumber: 'issueNumber',
};

/**
 * The return after everything that its findings ask for was done to it, each step read from the step alone. What is to be put in is taken from the right
 * return, as the vendor takes it from the film: a page by its frame, an absence by its issue and label. Throws where a step names what is not there.
 */
export function repaired(written: WrittenReturn, right: WrittenReturn, steps: readonly Repair[]): WrittenReturn {
  const open = structuredClone({ issues: written.issues, reels: written.reels, loose: written.loose }) as unknown as Return;
  // what is named by its number is looked up before any number is changed
  const acts = steps.map((step) => actOf(open, right, step));
  for (const act of acts) act();
  const again = new Set(
    steps.flatMap(({ do: act, field, document, element }) =>
      act === 'set' && (field === null || (field === 'file' && element === null)) ? [document] : [],
    ),
  );
  const issues = open.issues.filter(({ pages, facts }) => pages.length > 0 || facts.present !== undefined);
  const problems = written.problems.filter(({ place }) => !again.has(place.document ?? null));
  return {
    ...written,
    problems,
    issues: issues.map((issue) => ({ ...issue, pages: inOrder(issue.pages) })),
    reels: open.reels,
    loose: open.loose,
  };
}

/** Pages as the structMap has them: by their place in the issue. */
function inOrder(pages: readonly Page[]): Page[] {
  const at = (page: Page): number => Number(page.facts.order ?? Number.NaN);
  const sorted = pages.some((page) => Number.isNaN(at(page))) ? [...pages] : pages.toSorted((a, b) => at(a) - at(b));
  return sorted.map((page, i) => ({ ...page, structPosition: page.structPosition === null ? null : i + 1 }));
}

const NOTHING = (): void => undefined;

function actOf(open: Return, right: WrittenReturn, step: Repair): () => void {
  const { field } = step;
  switch (step.do) {
    case 'set':
      return field === 'absence' || field === 'file' ? asRight(open, right, step) : setFact(open, step);
    case 'renumber':
      return renumber(open, step);
    case 'remove':
      return removal(open, right, step);
    case 'add':
      // a frame that is only counted shows in the numbers of the others
      return field === 'frame' ? NOTHING : asRight(open, right, step);
    case 'rescan':
      return asRight(open, right, step);
    case 'move':
    case 'merge':
    case 'split':
      return moving(open, right, step);
    case 'exchange':
      throw new Error('nothing exchanges');
  }
}

/** Every page of the open return . */
function* pagesOf(open: Return): Generator<{ readonly page: Page }> {
  for (const { pages } of open.issues) for (const page of pages) yield { page };
  for (const { targets } of open.reels) for (const page of targets) yield { page };
}

/** The page that a step names: by its element where it has one, and by its number. */
function named(open: Return, { document, element, frame }: Repair): { readonly page: Page } {
  const found = [...pagesOf(open)].filter(
    ({ page: { place, facts } }) =>
      (document === null || place.document === document) &&
      (element === null || place.element === element) &&
      (frame === null || plain(facts.frame) === plain(frame)),
  );
  const [first] = found;
  if (first === undefined) throw new Error(`no page is ${document ?? '-'} ${element ?? '-'} frame ${frame ?? '-'}`);
  if (found.length > 1) throw new Error(`${String(found.length)} pages are ${document ?? '-'} ${element ?? '-'} frame ${frame ?? '-'}`);
  return first;
}

const withFact = (facts: WrittenFacts, name: FactName, to: string | null): WrittenFacts => {
  const others = Object.fromEntries(Object.entries(facts).filter(([each]) => each !== name));
  return to === null ? others : { ...others, [name]: to };
};

const OF_PAGE: readonly FactName[] = ['frame', 'reel', 'page', 'order', 'section'];

function setFact(open: Return, step: Repair): () => void {
  const { document, element, frame, field, from, to } = step;
  // a document that cannot be read comes again
  if (field === null) return NOTHING;
  const name = FACTS[field];
  if (name === undefined) return setCopy(open, step) ?? setReelFact(open, step);
  const loose = open.loose.find((one) => one.place.document === document && plain(one.frame) === plain(frame));
  if (loose !== undefined && name === 'frame')
    return () => {
      open.loose = open.loose.map((one) => (one === loose ? { ...one, frame: to ?? '' } : one));
    };
  if (OF_PAGE.includes(name)) {
    const { page } = named(open, step);
    const stands = page.facts[name] ?? null;
    if (stands !== from && !(from !== null && stands?.includes(from) === true) && plain(stands) !== plain(from))
      throw new Error(`${name} of ${frame ?? '-'} is ${stands ?? '-'}, not ${from ?? '-'}`);
    return () => {
      page.facts = withFact(page.facts, name, to);
    };
  }
  const issue = open.issues.find(({ place }) => place.document === document && (element === null || place.element === element));
  if (issue === undefined) throw new Error(`no issue is ${document ?? '-'}`);
  return () => {
    issue.facts = withFact(issue.facts, name, to);
  };
}

/** The other places where a fact stands: folder, manifest, file name. */
function setCopy(open: Return, { document, element, field, from, to }: Repair): (() => void) | null {
  const [fact, ...source] = (field ?? '').split(' ');
  const isMeant = (copy: WrittenPage['copies'][number]): boolean =>
    copy.fact === fact &&
    copy.source === source.join(' ') &&
    copy.text === from &&
    (document === null || copy.place.document === document) &&
    (element === null || copy.place.element === element);
  const mine = holdersOf(open).filter(({ copies }) => copies.some(isMeant));
  if (mine.length === 0) return null;
  const meant = new Set(mine.flatMap(({ copies }) => copies.filter(isMeant)));
  return () => {
    for (const holder of mine) holder.copies = holder.copies.map((copy) => (meant.has(copy) ? { ...copy, text: to ?? '' } : copy));
  };
}

const holdersOf = (open: Return): (Issue | Reel | Page)[] => [...open.issues, ...open.reels, ...[...pagesOf(open)].map(({ page }) => page)];

function setReelFact(open: Return, { document, field, to }: Repair): () => void {
  const reel = open.reels.find(({ place }) => place.document === document);
  if (reel === undefined) throw new Error(`no reel document is ${document ?? '-'} for ${field ?? '-'}`);
  return () => {
    reel.reelFacts = reel.reelFacts.map((fact) => (fact.name === field ? { ...fact, text: to ?? '' } : fact));
  };
}

const NUMBER = /^(\d+)(.*)$/;

function renumber(open: Return, { frame, to, document, reel, field }: Repair): () => void {
  const [first = '', last = ''] = (frame ?? '').split(' to ');
  const by = Number(to);
  const number = (text: string): number => Number(NUMBER.exec(text)?.[1] ?? Number.NaN);
  const moved = (text: string): string => {
    const [, digits = '', half = ''] = NUMBER.exec(text) ?? [];
    return String(Number(digits) + by).padStart(digits.length, '0') + half;
  };
  const pages = [...pagesOf(open)].flatMap(({ page }) => {
    const at = number(page.facts.frame ?? '');
    const mine = document === null ? isOn(page.facts, reel) : page.place.document === document;
    return mine && at >= number(first) && at <= number(last) ? [page] : [];
  });
  const loose = open.loose.filter(
    ({ frame: at, reel: of }) => (reel === undefined || of === reel) && number(at) >= number(first) && number(at) <= number(last),
  );
  const source = (field ?? '').split(' ').slice(1).join(' ');
  return () => {
    if (field === 'frame') open.loose = open.loose.map((one) => (loose.includes(one) ? { ...one, frame: moved(one.frame) } : one));
    for (const page of pages)
      if (field === 'frame') page.facts = { ...page.facts, frame: moved(page.facts.frame ?? '') };
      else
        page.copies = page.copies.map((copy) =>
          copy.fact === 'frame' && copy.source === source ? { ...copy, text: moved(copy.text) } : copy,
        );
  };
}

function removal(open: Return, right: WrittenReturn, step: Repair): () => void {
  const { document, element, frame, field } = step;
  if (field === 'frame') return NOTHING;
  const isIt = ({ place }: { readonly place: WrittenPage['place'] }): boolean => place.document === document;
  if (element === null && frame === null && field === null)
    return () => {
      open.issues = open.issues.filter((issue) => !isIt(issue));
    };
  if (field === 'absence') {
    const inPlace = (part: { readonly place: WrittenPage['place'] }): boolean =>
      isIt(part) && (element === null || part.place.element === element);
    return () => {
      open.issues = open.issues.filter((issue) => !(issue.pages.length === 0 && inPlace(issue)));
      for (const issue of open.issues) issue.pages = issue.pages.filter((page) => page.facts.frame !== undefined || !inPlace(page));
    };
  }
  const loose = open.loose.find((one) => isIt(one) && plain(one.frame) === plain(frame));
  if (loose !== undefined)
    return () => {
      open.loose = open.loose.filter((one) => one !== loose);
    };
  const { page } = named(open, step);
  // what is held back is sent outside any issue where the programme asks for that
  const outside = right.loose.find((one) => plain(one.frame) === plain(page.facts.frame) && (page.facts.reel ?? one.reel) === one.reel);
  return () => {
    if (outside !== undefined) open.loose.push({ ...outside, frame: page.facts.frame ?? outside.frame });
    for (const part of open.issues) part.pages = part.pages.filter((one) => one !== page);
    for (const part of open.reels) part.targets = part.targets.filter((one) => one !== page);
  };
}

/** Puts what is missing where the right return has it, as the right return has it. */
function asRight(open: Return, right: WrittenReturn, step: Repair): () => void {
  const { document, frame, field, to, reel } = step;
  if (field === 'absence') return absences(open, right, step);
  if (field === 'file') return files(open, right, step);
  const onFrame = ({ page: { facts } }: { readonly page: WrittenPage }): boolean =>
    plain(facts.frame) === plain(frame) && isOn(facts, reel);
  if (field === 'target') {
    const target = right.reels.flatMap((reel) => reel.targets.map((page) => ({ reel, page }))).find(onFrame);
    if (target === undefined) throw new Error(`the right return has no target ${frame ?? '-'}`);
    return () => {
      open.reels.find(({ reelFolder }) => reelFolder === target.reel.reelFolder)?.targets.push(structuredClone(target.page));
    };
  }
  const of = right.issues.flatMap((issue) => issue.pages.map((page) => ({ issue, page })));
  const inDocument = of.filter(({ issue, page: { facts } }) => issue.place.document === document && to !== null && facts.page === to);
  // where halves are counted on, the record's number of a frame is that of another in the return
  const there = inDocument.length === 1 ? inDocument : of.filter(onFrame);
  const one = there.find(({ page }) => page.facts.page === to) ?? there[0];
  if (one === undefined) throw new Error(`the right return has no page ${to ?? '-'} on frame ${frame ?? '-'}`);
  const page = structuredClone(one.page) as Page;
  // what came outside any issue comes in it now
  const loose = open.loose.filter((each) => plain(each.frame) === plain(frame) && (reel === undefined || each.reel === reel));
  // a file of that name may be there, of another frame
  page.files = page.files.map((file) => ({ ...file, href: `again/${file.href}`, path: `again/${file.path ?? ''}` }));
  return () => {
    open.loose = open.loose.filter((each) => !loose.includes(each));
    put(open, one.issue, page, document);
  };
}

/** Every absence of the issue as the right return states it. */
function absences(open: Return, right: WrittenReturn, { document }: Repair): () => void {
  return () => {
    const isSame = (one: WrittenFacts, two: WrittenFacts): boolean =>
      one.titleId === two.titleId && one.date === two.date && (one.edition ?? '1') === (two.edition ?? '1');
    for (const issue of right.issues) {
      const stated = issue.pages.filter(({ facts }) => facts.frame === undefined);
      const known =
        open.issues.find(({ place, facts }) => place.document === document && isSame(facts, issue.facts)) ??
        open.issues.find(({ facts }) => isSame(facts, issue.facts));
      if (known === undefined) {
        if (issue.pages.every(({ facts }) => facts.frame === undefined)) open.issues.push(structuredClone(issue) as unknown as Issue);
      } else if (document === null || known.place.document === document)
        known.pages = [...known.pages.filter(({ facts }) => facts.frame !== undefined), ...(structuredClone(stated) as Page[])];
    }
  };
}

/** The files of a page as they are in the right return. */
function files(open: Return, right: WrittenReturn, step: Repair): () => void {
  // a frame outside any issue is nothing but its files
  if (open.loose.some(({ place }) => place.document === step.document)) return NOTHING;
  // of a file that is too much, or wrong itself, another one comes
  if (step.element === null && step.frame === null) return NOTHING;
  const { page } = named(open, step);
  const isSame = ({ facts, place }: WrittenPage): boolean => facts.frame === page.facts.frame && place.document === page.place.document;
  const of = right.issues.flatMap(({ pages }) => pages).find(isSame);
  if (of === undefined) throw new Error(`the right return has no frame ${page.facts.frame ?? '-'}`);
  return () => {
    page.files = of.files;
  };
}

/** Puts a page into a document, or into a new one that says of its issue what the right one says. */
function put(open: Return, issue: WrittenIssue, page: Page, document: string | null): void {
  const known =
    open.issues.find(({ place }) => place.document === (document ?? issue.place.document)) ??
    open.issues.find(
      ({ facts }) => facts.titleId === issue.facts.titleId && facts.date === issue.facts.date && facts.edition === issue.facts.edition,
    );
  if (known !== undefined) known.pages.push(page);
  else open.issues.push({ ...structuredClone(issue), pages: [page] });
}

/** Puts a page into the document that is named, or, where it is named by its issue, into a new one. */
function moving(open: Return, right: WrittenReturn, step: Repair): () => void {
  const { document, element, frame, to } = step;
  const home = open.issues.find(({ place }) => place.document === to);
  if (element === null && frame === null) {
    const from = open.issues.find(({ place }) => place.document === document);
    if (from === undefined || home === undefined) throw new Error(`no document is ${document ?? '-'} or ${to ?? '-'}`);
    return () => {
      home.pages.push(...from.pages);
      open.issues = open.issues.filter((issue) => issue !== from);
    };
  }
  const { page } = named(open, step);
  const isSame = ({ facts }: WrittenPage): boolean => plain(facts.frame) === plain(page.facts.frame) && facts.reel === page.facts.reel;
  const theirs = right.issues.find(({ pages }) => pages.some(isSame));
  const copies = theirs?.pages.find(isSame)?.copies;
  return () => {
    for (const part of open.issues) part.pages = part.pages.filter((one) => one !== page);
    // a page that goes into another document is named after it
    if (copies !== undefined) page.copies = copies;
    if (home !== undefined) home.pages.push(page);
    else if (theirs !== undefined) put(open, theirs, page, null);
    else throw new Error(`nothing is known of ${to ?? '-'}`);
  };
}

const rightReturns = new WeakMap<Scenery, Promise<Verified>>();

/**
 * What is still told, of severity minor or above, after all that the findings ask for was done to the return (law 1). Null where the law does not apply: where
 * the record is wrong as well, or is held to be, in which case nothing is to be done to the return.
 */
export async function leftAfterRepair(one: Case, { written, profile, findings, again }: Verified): Promise<readonly string[] | null> {
  const weighty = (list: readonly Finding[]): Finding[] => list.filter(({ severity }) => severity !== 'note');
  const told = weighty(findings.findings);
  if (one.planted.some(({ edit }) => edit.side === 'record') || told.some(({ cause }) => cause === 'collation' || cause === 'film'))
    return null;
  const right = rightReturns.get(one.scenery) ?? verifyCase(caseOf(one.scenery, []));
  rightReturns.set(one.scenery, right);
  try {
    const mended = repaired(
      written,
      (await right).written,
      told.flatMap(({ repair }) => repair),
    );
    return weighty(again(normaliseReturn(mended, profile)).findings).map(({ code, says }) => `left: ${code}: ${says}`);
  } catch (error) {
    return [`cannot be done: ${String(error)}`];
  }
}
