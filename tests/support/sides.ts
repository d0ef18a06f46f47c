import type { AbsentEntry, CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import type { Absence, DateReading, Frame, FrameNumber, Issue, IssueStatement, Place, Reel, Side } from '../../src/model/film.js';
import { labelKey, withoutSection } from '../../src/normalise/labels.js';
import { isDay } from '../forge/film/days.js';
import type { Capture, PlanIssue, ReturnPlan } from '../forge/plan.js';
import { contentOf, sha1 } from '../forge/write/files.js';
import { USUAL } from '../forge/write/style.js';

/** The record as one side in memory. Written apart from src/normalise on purpose: tests compare the two. */
export function sideOfRecord(record: CollationRecord): Side {
  const only = record.titles.length === 1 ? (record.titles[0]?.id ?? null) : null;
  const issues: Issue[] = [];
  const known = new Map<string, number>();
  const issueIndex = (entry: FrameEntry | AbsentEntry, present: boolean): number => {
    const title = entry.title ?? only;
    const edition = entry.edition ?? 1;
    const key = JSON.stringify([title, entry.date, edition]);
    const found = known.get(key);
    if (found !== undefined) return found;
    const detail: Partial<FrameEntry> = 'frame' in entry ? entry : {};
    known.set(key, issues.length);
    issues.push({
      title,
      date: reading(entry.date ?? ''),
      datePrinted: detail.datePrinted === undefined ? null : reading(detail.datePrinted),
      weekdayPrinted: detail.weekdayPrinted ?? null,
      edition,
      editionLabel: detail.editionLabel ?? null,
      volume: detail.volume ?? null,
      issueNumber: detail.issueNumber ?? null,
      issueNumberIntended: detail.issueNumberIntended ?? null,
      present,
      copies: [],
      place: {},
    });
    return issues.length - 1;
  };
  const reels: Reel[] = record.reels.map((reel) => ({
    number: normalReel(reel.number),
    text: reel.number,
    alsoKnownAs: [],
    frames: reel.frames.map((entry) => recordFrame(entry, entry.date === undefined ? null : issueIndex(entry, true))),
    facts: {
      ...(reel.position === undefined ? {} : { position: reel.position }),
      ...(reel.reduction === undefined ? {} : { reductionRatio: reel.reduction }),
    },
    targetsListed: false,
    place: {},
  }));
  const absences = record.reels.flatMap((reel) =>
    (reel.absent ?? []).map((entry): Absence => {
      const whole = entry.page === undefined;
      return {
        reel: normalReel(reel.number),
        title: entry.title ?? only,
        date: reading(entry.date),
        edition: entry.edition ?? 1,
        section: entry.section ?? null,
        page: entry.page ?? null,
        order: entry.order ?? null,
        published: entry.published ?? 'unknown',
        issue: issueIndex(entry, !whole),
        place: {},
      };
    }),
  );
  return {
    titles: record.titles.map((title) => ({
      id: title.id,
      name: title.name ?? title.id,
      language: title.language ?? '',
      readingDirection: title.readingDirection ?? 'ltr',
      patterns: title.patterns ?? [],
    })),
    issues,
    reels,
    absences,
    problems: [],
    unchecked: [],
    remarks: [],
  };
}

function recordFrame(entry: FrameEntry, issue: number | null): Frame {
  const kind = entry.kind ?? 'page';
  return {
    ...emptyFrame,
    frame: frameNumber(entry.frame),
    kind,
    deliver: entry.deliver ?? kind === 'page',
    issue,
    section: entry.section ?? null,
    supplement: entry.supplement ?? false,
    page: entry.page ?? null,
    pagePrinted: entry.pagePrinted ?? null,
    pageKey: keyOf(entry.page ?? null, entry.section ?? null),
    pagePrintedKey: keyOf(entry.pagePrinted ?? null, entry.section ?? null),
    order: entry.order ?? null,
    duplicateOf: reference(entry.duplicateOf),
    retakeOf: reference(entry.retakeOf),
    sourceReel: entry.sourceReel === undefined ? null : { number: normalReel(entry.sourceReel), text: entry.sourceReel },
    condition: entry.condition ?? [],
    note: entry.note ?? null,
    ...saidOfIssue(entry, issue),
  };
}

const OF_ISSUE = ['weekdayPrinted', 'editionLabel', 'volume', 'issueNumber', 'issueNumberIntended'] as const;

/** What the row says of its issue beside title, day and edition: nothing where it says no more, or belongs to none. */
function saidOfIssue(entry: FrameEntry, issue: number | null): Pick<Frame, 'ofIssue'> {
  const words = OF_ISSUE.flatMap((name) => (entry[name] === undefined ? [] : [[name, entry[name]] as const]));
  const said = [...words, ...(entry.datePrinted === undefined ? [] : [['datePrinted', reading(entry.datePrinted)] as const])];
  return issue === null || said.length === 0 ? {} : { ofIssue: Object.fromEntries(said) as IssueStatement };
}

const nowhere: Place = {};
const emptyFrame: Frame = {
  frame: null,
  kind: 'page',
  deliver: true,
  issue: null,
  section: null,
  supplement: false,
  page: null,
  pagePrinted: null,
  pageKey: null,
  pagePrintedKey: null,
  order: null,
  duplicateOf: null,
  retakeOf: null,
  sourceReel: null,
  condition: [],
  note: null,
  files: [],
  copies: [],
  place: nowhere,
};

/** How much of a plan the XML shows: `page-mods` also names the frames that belong to no issue. */
export type Shape = 'issue-mets' | 'page-mods';

/** The return as one side in memory: by stated reel, frames by exposure and half, equal numbers in document order. */
export function sideOfPlan(plan: ReturnPlan, shape: Shape = 'issue-mets'): Side {
  const issues = plan.issues.map((issue): Issue => returnedIssue(plan, issue));
  const stated = new Map<string, Frame[]>(plan.reels.map((reel) => [reel.number, []]));
  for (const { capture, position } of inDocumentOrder(plan)) {
    if (capture.use === 'held' && shape === 'issue-mets') continue;
    const frames = stated.get(capture.reel) ?? [];
    frames.push(returnedFrame(plan, capture, position, shape));
    stated.set(capture.reel, frames);
  }
  plan.issues.forEach((issue, index) => {
    for (const page of issue.absent.filter(({ statement }) => statement === 'present')) {
      const number = plan.reels[issue.reel]?.number ?? '';
      const nothing = { frame: '', reel: number, picture: 0, use: 'page', width: 0, height: 0, image: '' } as const;
      const frame = returnedFrame(
        plan,
        { ...nothing, issue: index, order: page.order, page: page.page, section: page.section },
        page.order,
        shape,
      );
      stated.set(number, [...(stated.get(number) ?? []), { ...frame, frame: null, files: [] }]);
    }
  });
  const reels = [...stated].map(
    ([number, frames]): Reel => ({
      number: normalReel(number),
      text: number,
      alsoKnownAs: [],
      frames: inOrder(frames),
      facts: shownFacts(plan.reels.find((reel) => reel.number === number)?.facts ?? null, shape),
      targetsListed: plan.targetsListed && shape === 'issue-mets' && plan.reels.some((reel) => reel.number === number),
      place: {},
    }),
  );
  const absences = plan.issues.flatMap((issue, index): Absence[] => {
    const base = {
      reel: normalReel(plan.reels[issue.reel]?.number ?? ''),
      title: issue.title,
      date: reading(issue.date),
      edition: issue.edition,
      issue: index,
      place: { document: issueDocument(plan, issue) },
    };
    const whole: Absence[] =
      issue.statement === 'present' ? [] : [{ ...base, section: null, page: null, order: null, published: publishedBy(issue.statement) }];
    const pages = issue.absent.flatMap((page): Absence[] =>
      page.statement === 'present'
        ? []
        : [
            {
              ...base,
              section: page.section,
              page: page.page,
              order: page.order,
              published: publishedBy(page.statement),
            },
          ],
    );
    return [...whole, ...pages];
  });
  return { titles: [], issues, reels, absences, problems: [], unchecked: [], remarks: [], documentsPerReel: shape === 'page-mods' };
}

/** Each layout has its own facts about a reel: only film documents count the pictures, test targets included; only reel documents give the position and, as published ones do, the resolution. */
function shownFacts(facts: Record<string, string> | null, shape: Shape): Record<string, string> {
  if (facts === null) return {};
  const { numberOfPictures = '0', position = '', ...both } = facts;
  const all: Record<string, string> =
    shape === 'issue-mets'
      ? { ...both, position, captureResolutionOriginal: '400' }
      : { ...both, numberOfPictures: String(Number(numberOfPictures) + 1), isoTargets: '1' };
  return Object.fromEntries(Object.entries(all).filter(([, text]) => text !== ''));
}

function inDocumentOrder(plan: ReturnPlan): { capture: Capture; position: number }[] {
  const all = plan.reels.flatMap((reel) => reel.captures);
  const inIssues = plan.issues.flatMap((_, index) => pagesInOrder(all, index).map((capture, i) => ({ capture, position: i + 1 })));
  const rest = all.filter((capture) => capture.use !== 'page').map((capture) => ({ capture, position: 0 }));
  return [...inIssues, ...rest];
}

/** Pages of one document as the structMap lists them: by order, equal ones as captured. */
export function pagesInOrder(captures: readonly Capture[], issue: number): Capture[] {
  const pages = captures.filter((capture) => capture.use === 'page' && capture.issue === issue);
  return pages
    .map((capture, i) => ({ capture, i }))
    .sort((a, b) => (a.capture.order ?? 0) - (b.capture.order ?? 0) || a.i - b.i)
    .map(({ capture }) => capture);
}

function returnedIssue(plan: ReturnPlan, issue: PlanIssue): Issue {
  const place = { document: issueDocument(plan, issue) };
  const copies = [
    ...(issue.folder === null ? [] : copiesOf('folder name', issue.folder, place)),
    ...(issue.manifest === null || issue.manifest === 'left-out' ? [] : copiesOf('manifest', issue.manifest, { document: 'BATCH.xml' })),
  ];
  return {
    title: issue.title,
    date: reading(issue.date),
    datePrinted: issue.datePrinted === null ? null : reading(issue.datePrinted),
    weekdayPrinted: null,
    edition: issue.edition,
    editionLabel: issue.editionLabel,
    volume: issue.volume,
    issueNumber: issue.issueNumber,
    issueNumberIntended: null,
    present: issue.statement === 'present',
    copies,
    place,
  };
}

function copiesOf(source: string, facts: { date: string; edition: number }, place: Place): Issue['copies'] {
  return [
    { fact: 'date', source, text: facts.date, value: facts.date, place },
    { fact: 'edition', source, text: String(facts.edition), value: String(facts.edition), place },
  ];
}

function returnedFrame(plan: ReturnPlan, capture: Capture, position: number, shape: Shape): Frame {
  const issue = capture.issue === null ? undefined : plan.issues[capture.issue];
  const document = issue === undefined ? capture.reel : issueDocument(plan, issue);
  const name = `${capture.frame.replace(/[AB]$/, '').padStart(4, '0')}${/[AB]$/.exec(capture.frame)?.[0] ?? ''}`;
  const file = { state: 'not-looked-for', width: capture.width, height: capture.height } as const;
  const kind = capture.use === 'page' ? 'page' : capture.use === 'target' && shape === 'issue-mets' ? 'target' : 'unmatched';
  const uses = [
    ['master', 'tif'],
    ['service', 'jp2'],
    ['derivative', 'pdf'],
    ['ocr', 'xml'],
  ] as const;
  return {
    ...emptyFrame,
    frame: frameNumber(capture.frame),
    kind,
    deliver: kind === 'page',
    issue: capture.issue,
    section: capture.section,
    page: capture.page,
    pageKey: keyOf(capture.page, capture.section),
    order: capture.order ?? (capture.use === 'page' ? position : null),
    files: uses.map(([use, extension]) => ({
      ...file,
      use,
      href: `${name}.${extension}`,
      path: null,
      digest: use === 'master' ? `sha1:${sha1(contentOf(capture, 'master', name, USUAL))}` : null,
      ...(use === 'master' ? {} : { width: null, height: null }),
    })),
    place: { document },
  };
}

/** The path of an issue document inside the batch, as issue-mets names it. */
export function issueDocument(plan: ReturnPlan, issue: PlanIssue): string {
  const { date, edition } = issue.folder ?? issue;
  const name = `${date.replaceAll('-', '')}${String(edition).padStart(2, '0')}`;
  return `${issue.title}/${plan.reels[issue.reel]?.number ?? ''}/${name}/${name}.xml`;
}

function publishedBy(statement: PlanIssue['statement']): Absence['published'] {
  return statement === 'published' ? 'yes' : statement === 'not-published' ? 'no' : 'unknown';
}

/** By number; a page without one lies behind the page before it in its issue. */
function inOrder(frames: readonly Frame[]): Frame[] {
  const result = frames.filter((frame) => frame.frame !== null).sort(byFrame);
  for (const frame of frames.filter((one) => one.frame === null)) {
    const before = result.findLastIndex((one) => one.issue === frame.issue && (one.order ?? 0) < (frame.order ?? 0));
    result.splice(before < 0 ? result.length : before + 1, 0, frame);
  }
  return result;
}

function byFrame(a: Frame, b: Frame): number {
  if (a.frame === null || b.frame === null) return (a.frame === null ? 1 : 0) - (b.frame === null ? 1 : 0);
  return a.frame.exposure - b.frame.exposure || (a.frame.half < b.frame.half ? -1 : a.frame.half > b.frame.half ? 1 : 0);
}

/** A date of the invented film as read: a real day, or text that is none. */
export function reading(text: string): DateReading {
  return { text, day: isDay(text) ? text : null, uncertain: /[?~%X]/.test(text) };
}

/** `12A` as exposure 12, half A. */
export function frameNumber(text: string): FrameNumber {
  const match = /^0*(\d+)([A-Z]?)$/.exec(text);
  return { text, exposure: Number(match?.[1] ?? '0'), half: match?.[2] ?? '' };
}

function keyOf(label: string | null, section: string | null): string | null {
  return label === null ? null : labelKey(withoutSection(label, section));
}

function normalReel(number: string): string {
  return number.replace(/^0+/, '').toLowerCase();
}

function reference(text: string | undefined): Frame['duplicateOf'] {
  if (text === undefined) return null;
  const [first, second] = text.split(':');
  return second === undefined ? { reel: null, frame: text, text } : { reel: normalReel(first ?? ''), frame: second, text };
}
