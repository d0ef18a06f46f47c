import type { PairRef } from '../../model/difference.js';
import type { Cause } from '../../model/findings.js';
import { capital } from '../draft.js';
import { pairKey } from '../runs.js';
import { differencesAt, pairOf, recordReelOf, returnFrame, type Scene } from '../scene.js';
import type { FactEdit } from './lift.js';
import { pageBreaks } from './page-surroundings.js';
import { RULES, type Rule } from './regular.js';
import { breaksOfNumbers } from './regular-pages.js';
import { isNotOnEveryPaper, isOfIssue } from './statements.js';
import { issueBreaks, type Readings } from './surroundings.js';

/** Which side is likelier wrong, and the sentences that speak for it. */
export interface Testimony {
  readonly cause: Cause;
  readonly evidence: readonly string[];
}

/** By so much the return's readings must be more regular to speak against the record, and the record's to speak against the return. */
const AGAINST = 3;
const FOR = 2;

/**
 * Weighs the two readings of a fact by what they do to the record's own regularity: with its own, and with the return's in their place. What is
 * left out in the return is the return's where nothing speaks for it: leaving out is far more usual than inventing. Where regularity cannot
 * tell between two readings, the film must.
 */
export function testimony(scene: Scene, edit: FactEdit): Testimony {
  const { fact, change } = edit;
  if (fact === 'number' && change.kind !== 'missing')
    return numbersTestimony(
      scene,
      edit.places.flatMap(({ refs }) => refs),
    );
  if (fact === 'reel' && change.kind !== 'missing')
    return reelsTestimony(
      scene,
      edit.places.flatMap(({ refs }) => refs),
    );
  const silent = change.kind === 'missing';
  if (silent && !isNotOnEveryPaper(fact)) return { cause: 'vendor-metadata', evidence: [] };
  // what must not be said at all is the return's, whatever the paper has
  if (change.kind === 'surplus' && fact !== 'section' && edit.places.every(({ needs }) => needs === 'must-not'))
    return { cause: 'vendor-metadata', evidence: [] };
  const weighed = weigh(scene, [edit]);
  // labels that begin anew with each issue are as regular as labels that run on through a volume
  if (change.kind === 'own-fact' && fact === 'page' && weighed.cause !== 'collation') return { ...weighed, cause: 'unclear' };
  if (!silent || (fact === 'section' && weighed.cause === 'collation')) return weighed;
  // silence is never agreement, however odd what the record has there
  return weighed.cause === 'collation' ? { ...weighed, cause: 'unclear' } : { cause: 'vendor-metadata', evidence: [] };
}

/** Weighs the record's readings of facts against the return's. */
export function weigh(scene: Scene, readings: readonly Readings[]): Testimony {
  const ofIssues = readings.filter(({ fact }) => isOfIssue(fact));
  const ofPages = readings.filter(({ fact }) => !isOfIssue(fact));
  const sides = [...(ofIssues.length > 0 ? [issueBreaks(scene, ofIssues)] : []), ...ofPages.map((one) => pageBreaks(scene, one))];
  return judged(
    sides.flatMap(([own]) => own),
    sides.flatMap(([, given]) => given),
  );
}

/** The side that breaks more of what is regular. */
export function judged(own: readonly Rule[], given: readonly Rule[]): Testimony {
  const evidence: string[] = [];
  let against = 0;
  for (const rule of Object.keys(RULES) as Rule[]) {
    const [mine, theirs] = [own, given].map((list) => list.filter((one) => one === rule).length);
    const balance = (mine ?? 0) - (theirs ?? 0);
    if (balance === 0) continue;
    against += balance * RULES[rule].cost;
    evidence.push(`${capital(RULES[rule].says)}: ${keptOrBroken(mine ?? 0, theirs ?? 0)}.`);
  }
  return { cause: against >= AGAINST ? 'collation' : against <= -FOR ? 'vendor-metadata' : 'unclear', evidence };
}

/** Which reading keeps to a rule and which does not. */
function keptOrBroken(mine: number, theirs: number): string {
  const times = (count: number): string => (count === 1 ? 'once' : count === 2 ? 'twice' : `${String(count)} times`);
  if (mine === 0) return `the record's reading keeps to that, the return's breaks it ${times(theirs)}`;
  if (theirs === 0) return `the return's reading keeps to that, the record's breaks it ${times(mine)}`;
  return `the record's reading breaks that ${times(mine)}, the return's ${times(theirs)}`;
}

/** Weighs the record's numbers of some frames of a reel against the return's, by whether the numbers of the film run on. */
export function numbersTestimony(scene: Scene, refs: readonly PairRef[]): Testimony {
  const first = refs[0];
  const reel = first === undefined ? undefined : recordReelOf(scene, first);
  if (first === undefined || reel === undefined) return { cause: 'vendor-metadata', evidence: [] };
  const given = new Map(refs.map((ref) => [pairOf(scene, ref).record, returnFrame(scene, ref)?.frame ?? null] as const));
  const own = reel.frames.map(({ frame }) => frame);
  const came = new Set(
    scene.alignments[first.alignment]?.pairs.flatMap(({ record, returned }) => (returned === null ? [] : (record ?? []))),
  );
  // which number a frame has that did not come nobody can see
  const theirs = own.map((number, at) => (given.has(at) ? (given.get(at) ?? null) : came.has(at) ? number : null));
  // of what lies in front of the first frame, and was counted too, only the record must know
  return judged(breaksOfNumbers(own, true), breaksOfNumbers(theirs, false));
}

/**
 * Weighs the reels that the record says were spliced into one against the return's. Of the box itself the record is sure, and nobody invents a splice; where
 * one reel ends and the next begins, either side may be wrong.
 */
export function reelsTestimony(scene: Scene, refs: readonly PairRef[]): Testimony {
  const given = new Map(refs.map((ref) => [pairKey(ref), differencesAt(scene, ref, 'reel')[0]?.given?.key ?? null] as const));
  const changes = (readings: readonly string[]): number => readings.filter((reading, at) => at > 0 && reading !== readings[at - 1]).length;
  const alignments = [...new Set(refs.map(({ alignment }) => alignment))];
  const open = alignments.every((alignment) => {
    const reel = scene.alignments[alignment]?.recordReel ?? -1;
    const pairs = (scene.alignments[alignment]?.pairs ?? []).flatMap(({ record }, pair) => {
      const own = scene.expected.reels[reel]?.frames[record ?? -1]?.facts.reel.right[0]?.key;
      return own === undefined || scene.record.reels[reel]?.frames[record ?? -1]?.kind !== 'page' ? [] : [{ pair, own }];
    });
    const own = pairs.map((each) => each.own);
    const theirs = pairs.map((each) => given.get(pairKey({ alignment, pair: each.pair })) ?? each.own);
    const [mine, came] = [new Set(own), new Set(theirs)];
    return mine.size > 1 && came.size === mine.size && [...came].every((reel) => mine.has(reel)) && changes(theirs) <= changes(own);
  });
  return { cause: open ? 'unclear' : 'vendor-metadata', evidence: [] };
}
