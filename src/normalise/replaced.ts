import type { Findings, Repair } from '../model/findings.js';
import type { Profile } from '../model/profile.js';
import type { WrittenIssue, WrittenReturn } from '../model/written-return.js';
import { readFrameNumber } from './labels.js';
import { readPlace, readReel, readReturnDate, readTitle } from './return-facts.js';

/** A document of an earlier folder that one of a later folder replaces under another name. */
type Replaced = NonNullable<Findings['run']['replaced']>[number];

/**
 * Takes out of a return that came in several folders the issues that a later folder replaces under another name: those that the earlier result asked to
 * be called so, to be given to that document or taken out, those that were replaced before, and those whose every frame came again as the same issue (or,
 * without an earlier result, at all). Each is told in a remark; in one folder nothing replaces anything.
 */
export function withoutReplaced(
  written: WrittenReturn,
  profile: Profile,
  earlier: Findings | null,
): { readonly written: WrittenReturn; readonly replaced: readonly Replaced[] } {
  const newest = Math.max(0, ...written.issues.map(({ folder = 0 }) => folder));
  if (newest === 0) return { written, replaced: [] };
  const issues = written.issues.map((issue) => shownBy(issue, profile));
  const replaced = issues.flatMap((issue): Replaced[] => {
    const later = issues.filter(({ folder }) => folder > issue.folder);
    const by = newDocuments(issue, later, earlier, profile);
    return by.length === 0 ? [] : [{ document: issue.document, by }];
  });
  const gone = new Set(replaced.map(({ document }) => document));
  const stays = ({ place }: { readonly place: WrittenIssue['place'] }): boolean => !gone.has(place.document ?? '');
  return {
    written: {
      ...written,
      issues: written.issues.filter(stays),
      problems: written.problems.filter(stays),
      remarks: [
        ...written.remarks,
        ...replaced.map(
          ({ document, by }) =>
            `"${document}" of an earlier folder was left out: ${by.map((name) => `"${name}"`).join(', ')} of a later one ${by.length === 1 ? 'takes' : 'take'} its place under another name.`,
        ),
      ],
    },
    replaced,
  };
}

/** What a document shows of its issue. */
interface Shown {
  readonly document: string;
  readonly folder: number;
  /** Title, day and edition, as texts that can be compared. */
  readonly issue: Readonly<Record<'title' | 'date' | 'edition', string>>;
  /** Its frames with their reel, as the vendor numbers them. */
  readonly frames: readonly string[];
  /** Names of the elements that describe its pages. */
  readonly elements: readonly string[];
}

function shownBy({ facts, pages, place, folder = 0, reelFolder }: WrittenIssue, profile: Profile): Shown {
  return {
    document: place.document ?? '',
    folder,
    issue: identity({ title: facts.titleId, date: facts.date, edition: facts.edition }, profile),
    frames: pages.flatMap((page) => {
      const frame = page.facts.frame === undefined ? null : readFrameNumber(page.facts.frame, 0);
      return frame === null ? [] : [`${readReel(page.facts.reel) ?? reelFolder ?? ''}\n${String(page.facts.frame)}`];
    }),
    elements: pages.flatMap((page) => page.place.element ?? []),
  };
}

function identity(facts: Readonly<Record<'title' | 'date' | 'edition', string | undefined>>, profile: Profile): Shown['issue'] {
  return {
    title: readTitle(facts.title, profile) ?? '',
    date: readReturnDate(facts.date, profile.facts.issue.date?.shape)?.day ?? '',
    edition: String(readPlace(facts.edition) ?? 1),
  };
}

const sameIssue = (a: Shown['issue'], b: Shown['issue']): boolean =>
  a.title === b.title && a.date === b.date && a.edition === b.edition && a.date !== '';

/** The documents of later folders that stand for this one; none where it stands for itself. */
function newDocuments(old: Shown, later: readonly Shown[], earlier: Findings | null, profile: Profile): readonly string[] {
  const names = (documents: readonly Shown[]): readonly string[] => [...new Set(documents.map(({ document }) => document))];
  const before = earlier?.run.replaced?.find(({ document }) => document === old.document);
  if (before !== undefined) return before.by;
  const steps = (earlier?.findings ?? []).flatMap(({ repair }) => repair).filter(({ document }) => document === old.document);
  const asked = later.filter(({ issue }) => sameIssue(issue, asAsked(old, steps, profile)) && !sameIssue(issue, old.issue));
  if (asked.length > 0) return names(asked);
  const given = givenTo(old, steps, later);
  if (given.length > 0) return names(given);
  const same = later.filter(({ issue }) => earlier === null || sameIssue(issue, old.issue));
  const again = new Set(same.flatMap(({ frames }) => frames));
  if (old.frames.length === 0 || !old.frames.every((frame) => again.has(frame))) return [];
  return names(same.filter(({ frames }) => frames.some((frame) => old.frames.includes(frame))));
}

/** What the issue was to be called, by the steps of what was found in it. */
function asAsked(old: Shown, steps: readonly Repair[], profile: Profile): Shown['issue'] {
  const to = (field: keyof Shown['issue']): string =>
    steps.findLast((step) => step.do === 'set' && step.element === null && step.field === field)?.to ?? old.issue[field];
  return identity({ title: to('title'), date: to('date'), edition: to('edition') }, profile);
}

/** The later documents to which all its pages were to be given; those that were to be held back left aside. */
function givenTo(old: Shown, steps: readonly Repair[], later: readonly Shown[]): readonly Shown[] {
  const whole = steps.filter(({ field }) => field === null);
  const merged = whole.filter((step) => step.do === 'merge' && step.element === null);
  const moved = whole.filter((step) => step.do === 'move' || step.do === 'merge');
  const told = new Set(whole.filter((step) => step.do === 'remove' || moved.includes(step)).map(({ element }) => element));
  if (merged.length === 0 && !old.elements.every((element) => told.has(element))) return [];
  return later.filter(({ document }) => moved.some(({ to }) => to === document));
}
