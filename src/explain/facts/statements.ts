import type { PairRef } from '../../model/difference.js';
import type { FrameFact, IssueFact, Needs, Reading } from '../../model/expected.js';
import type { Frame } from '../../model/film.js';
import { groupBy } from '../runs.js';
import { differencesAt, expectedFrame, factsOf, recordFrame, recordIssueOf, returnFrame, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** A fact that a place of the return can state. */
export type Fact = FrameFact | IssueFact;

/** One place where a fact was compared: a page, or an issue where it met a document. */
export interface Statement {
  /** Index into the issues of the record, and of the document into the return's. */
  readonly issue: number | null;
  readonly document: number | null;
  readonly refs: readonly PairRef[];
  /** Index into the record's reels. */
  readonly reel: number | null;
  readonly title: string | null;
  readonly needs: Needs;
  readonly right: readonly Reading[];
  /** The difference there; null where the return is right. */
  readonly differs: WordedDifference | null;
}

const ISSUE_FACTS: readonly Fact[] = ['title', 'date', 'datePrinted', 'edition', 'editionLabel', 'volume', 'issueNumber'];

/** Whether a fact belongs to an issue as a whole. */
export function isOfIssue(fact: Fact): fact is IssueFact {
  return ISSUE_FACTS.includes(fact);
}

const NOT_ON_EVERY_PAPER: readonly Fact[] = ['section', 'datePrinted', 'editionLabel', 'volume', 'issueNumber'];

/** Whether a fact may be wanting on the paper: only there a record can have given what is not there. */
export function isNotOnEveryPaper(fact: Fact): boolean {
  return NOT_ON_EVERY_PAPER.includes(fact);
}

/** The reading that must stand at a place, as it can change places, '' for none: no printed date is one that only may stand there. */
export function readingOf(fact: Fact, { needs, right }: Statement): string {
  return needs === 'must-not' || (fact === 'datePrinted' && needs === 'may') ? '' : (right[0]?.key ?? '');
}

/** The reading that came at a place, '' for none. */
export function cameAs(fact: Fact, statement: Statement): string {
  return statement.differs === null ? readingOf(fact, statement) : (statement.differs.given?.key ?? '');
}

interface Known {
  readonly around: readonly Statement[];
  readonly stated: readonly Statement[];
}

const known = new WeakMap<Scene, Map<Fact, Known>>();

/** Every place where a fact was compared, in film order. What the return may state and does not is no place. */
export function statementsOf(scene: Scene, fact: Fact): readonly Statement[] {
  return knownOf(scene, fact).stated;
}

/** The same with the issues of which both sides say nothing: what stands beside a place may be that nothing stands there. */
export function placesAround(scene: Scene, fact: Fact): readonly Statement[] {
  return knownOf(scene, fact).around;
}

function knownOf(scene: Scene, fact: Fact): Known {
  let byFact = known.get(scene);
  if (byFact === undefined) known.set(scene, (byFact = new Map<Fact, Known>()));
  let own = byFact.get(fact);
  if (own === undefined) {
    const around = isOfIssue(fact) ? ofIssues(scene, fact) : ofPages(scene, fact);
    byFact.set(fact, (own = { around, stated: isOfIssue(fact) ? around.filter((place) => isStated(scene, fact, place)) : around }));
  }
  return own;
}

const byDifference = new WeakMap<readonly Statement[], ReadonlyMap<number, readonly Statement[]>>();

/** The places at which a fact has these differences. */
export function statementsWith(scene: Scene, fact: Fact, ids: readonly number[]): readonly Statement[] {
  const all = statementsOf(scene, fact);
  let found = byDifference.get(all);
  if (found === undefined) {
    found = groupBy(
      all.filter(({ differs }) => differs !== null),
      ({ differs }) => differs?.id ?? -1,
    );
    byDifference.set(all, found);
  }
  return ids.flatMap((id) => found.get(id) ?? []);
}

function ofIssues(scene: Scene, fact: IssueFact): readonly Statement[] {
  return scene.meetings.flatMap(({ recordIssue, returnIssue, pairs }): Statement[] => {
    const right = scene.expected.issues[recordIssue]?.[fact];
    const differs = factsOf(scene, recordIssue, returnIssue, fact)[0] ?? null;
    if (right === undefined || returnIssueOf(scene, returnIssue) === undefined) return [];
    const title = recordIssueOf(scene, recordIssue)?.title ?? null;
    return [{ issue: recordIssue, document: returnIssue, refs: pairs, reel: reelOf(scene, pairs), title, ...right, differs }];
  });
}

function isStated(scene: Scene, fact: IssueFact, { differs, needs, document }: Statement): boolean {
  const theirs = returnIssueOf(scene, document);
  return differs !== null || needs === 'must-not' || (theirs !== undefined && theirs[fact] !== null);
}

function ofPages(scene: Scene, fact: FrameFact): readonly Statement[] {
  return scene.alignments.flatMap((alignment, a) =>
    alignment.pairs.flatMap((_, pair): Statement[] => {
      const ref = { alignment: a, pair };
      const [mine, theirs] = [recordFrame(scene, ref), returnFrame(scene, ref)];
      const right = expectedFrame(scene, ref)?.facts[fact];
      if (mine === undefined || theirs === undefined || right === undefined) return [];
      if (fact !== 'number' && (mine.kind !== 'page' || theirs.kind !== 'page')) return [];
      const differs = differencesAt(scene, ref, fact)[0] ?? null;
      if (differs === null && right.needs !== 'must-not' && !statesPageFact(theirs, fact)) return [];
      const title = recordIssueOf(scene, mine.issue)?.title ?? null;
      return [{ issue: mine.issue, document: theirs.issue, refs: [ref], reel: alignment.recordReel, title, ...right, differs }];
    }),
  );
}

function reelOf(scene: Scene, refs: readonly PairRef[]): number | null {
  return refs[0] === undefined ? null : (scene.alignments[refs[0].alignment]?.recordReel ?? null);
}

function statesPageFact(frame: Frame, fact: FrameFact): boolean {
  if (fact === 'number') return frame.frame !== null;
  if (fact === 'reel') return frame.reelInferred !== true;
  return (fact === 'page' ? frame.pageKey : frame[fact]) !== null;
}
