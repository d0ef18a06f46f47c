import type { PairRef } from '../../model/difference.js';
import type { Copy, Issue } from '../../model/film.js';
import { type Candidate, cheapestCauses, weighed } from '../choose.js';
import { capital, counted, draft, type FindingDraft, framesInWords, issueName, rangeOf } from '../draft.js';
import { factName } from '../facts/fact-names.js';
import { HOW } from '../facts/how.js';
import { type FactEdit, isWide, liftedEdits } from '../facts/lift.js';
import { bearer, FACT_NAMES } from '../facts/names.js';
import type { Fact, Statement } from '../facts/statements.js';
import { groupBy, idsOf, inFilmOrder } from '../runs.js';
import { returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { wrongItself } from './copies.js';

/** What a copy is a copy of; a frame number in a file name is compared as one. */
const FACT_OF: Readonly<Record<Copy['fact'], Fact>> = {
  date: 'date',
  edition: 'edition',
  title: 'title',
  editionLabel: 'editionLabel',
  frame: 'number',
  exposure: 'number',
  reel: 'reel',
  order: 'order',
  page: 'page',
  section: 'section',
  datePrinted: 'datePrinted',
  volume: 'volume',
  issueNumber: 'issueNumber',
  // whether a page is there: words like those of a label
  present: 'editionLabel',
};

/** So many readings are given one by one. */
const LISTED = 12;

/** Copies of facts that differ from the documents' own readings: one finding for each change, as far as it reaches. */
export function copiesTold(
  scene: Scene,
  list: readonly WordedDifference[],
  refOf: (difference: WordedDifference) => PairRef[],
): Candidate[] {
  return [...groupBy(list, ({ about }) => about ?? '')].flatMap(([about, differences]) => {
    const [fact, ...words] = about.split(' ');
    const source = words.join(' ');
    const kind = fact as Copy['fact'];
    const places = copyPlaces(scene, kind, source, differences, refOf);
    const open = new Set(idsOf(differences));
    // where a document is wrong itself, its copies may have been made from it or from what is right
    const asOrdered = places.map((place) => rightPlace(scene, place));
    const bases = asOrdered.some((place, at) => place !== places[at]) ? [places, asOrdered] : [places];
    const edits = bases.flatMap((base) =>
      liftedEdits(scene, FACT_OF[kind], (id) => open.has(id), base, base)
        .filter((edit) => base === places || edit.places.length > 1)
        .map((edit) => weighed(told(scene, edit, kind, source), edit.cost)),
    );
    const { chosen } = cheapestCauses(edits, [...open], new Set(), 0);
    return chosen.map(({ draft }) => weighed(draft, 0));
  });
}

/** Every place where such a copy stands, in film order. */
function copyPlaces(
  scene: Scene,
  fact: Copy['fact'],
  source: string,
  differences: readonly WordedDifference[],
  refOf: (difference: WordedDifference) => PairRef[],
): readonly Statement[] {
  const { returned } = scene;
  const isCopy = (copy: Copy): boolean => copy.fact === fact && copy.source === source;
  const keyOf = (issue: number | null, ref: WordedDifference['ref']): string =>
    `${String(issue)} ${ref === null ? '' : `${String(ref.reel)}:${String(ref.frame)}`}`;
  const wrong = groupBy(differences, ({ returnIssue, ref }) => keyOf(returnIssue, ref));
  const place = (copy: Copy, issue: number | null, ref: WordedDifference['ref']): Statement => {
    const differs = wrong.get(keyOf(issue, ref))?.[0] ?? null;
    const right = differs?.expected ?? [{ key: copy.value ?? copy.text, text: copy.text }];
    const title = returnIssueOf(scene, issue)?.title ?? null;
    return {
      issue,
      document: issue,
      refs: differs === null ? [] : refOf(differs),
      reel: ref?.reel ?? reelOf(scene, issue),
      title,
      needs: 'must',
      right,
      differs,
    };
  };
  const ofIssues = inFilm(scene).flatMap((at) => (returned.issues[at]?.copies ?? []).filter(isCopy).map((copy) => place(copy, at, null)));
  const ofFrames = returned.reels.flatMap((reel, r) =>
    reel.frames.flatMap((frame, f) => frame.copies.filter(isCopy).map((copy) => place(copy, frame.issue, { reel: r, frame: f }))),
  );
  return [...ofIssues, ...ofFrames];
}

/** The documents of the return in the order in which their pages lie on the film; what has no page there comes last. */
function inFilm({ returned, pairsOfReturnIssue }: Scene): readonly number[] {
  const first = returned.issues.map((_, at) => pairsOfReturnIssue.get(at)?.[0]);
  const last = Number.POSITIVE_INFINITY;
  return [...returned.issues.keys()].sort((a, b) => {
    const [one, two] = [first[a], first[b]];
    return (one?.alignment ?? last) - (two?.alignment ?? last) || (one?.pair ?? last) - (two?.pair ?? last) || a - b;
  });
}

/** The same place with what must stand there, where the document itself is wrong. */
function rightPlace(scene: Scene, place: Statement): Statement {
  const own = place.differs === null ? undefined : wrongItself(scene, place.differs);
  const right = own?.expected ?? [];
  return right.length === 0 || right[0]?.key === place.right[0]?.key ? place : { ...place, right };
}

/** The reel that a document of the return has its pages on; null where it has none. */
function reelOf(scene: Scene, document: number | null): number | null {
  const first = scene.pairsOfReturnIssue.get(document ?? -1)?.[0];
  const at = first === undefined ? null : scene.alignments[first.alignment]?.pairs[first.pair]?.returned;
  return at?.reel ?? null;
}

function told(scene: Scene, { fact, change, places, scope, could }: FactEdit, kind: Copy['fact'], source: string): FindingDraft {
  const differences = places.flatMap(({ differs }) => differs ?? []);
  const first = differences[0];
  const issues = [...new Set(places.map(({ issue }) => issue))];
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const document = issues.length === 1 ? (issues[0] ?? null) : null;
  const name = issueName(scene, document, 'return');
  const ofFrames = first?.ref != null;
  const { frames } = rangeOf(scene, refs);
  // what the record does not have is on none of its frames
  const where = frames !== null && ofFrames ? ` on ${framesInWords(frames)}` : '';
  const rights = places.map((place) => place.right[0]?.text ?? '?');
  const [right, given] = [rights[0] ?? '?', first?.returned ?? '?'];
  const alone = places.length === 1;
  const what = ofFrames ? 'page' : bearer(fact);
  const many = FACT_NAMES[fact].many;
  const all = places.length === could && isWide(scope);
  const whose =
    document === null
      ? `${all ? 'all ' : ''}${counted(places.length, what)}${all || change.kind === 'permuted' ? '' : ' in a row'}`
      : `${counted(places.length, what)} of ${name}`;
  const how = HOW[change.kind](change, [given]);
  const silent = issues.every((issue) => isSilent(returnIssueOf(scene, issue), kind));
  const base = {
    about: refs,
    returnIssue: document,
    explains: idsOf(differences),
    code: 'documents-disagree',
    // where the document says nothing, the record alone stands against it
    cause: silent ? 'unclear' : 'vendor-metadata',
    reach: scope,
    field: kind,
    collation: alone ? right : rights.slice(0, LISTED).join(', '),
    return: alone
      ? given
      : differences
          .slice(0, LISTED)
          .map(({ returned }) => returned ?? '?')
          .join(', '),
    ...(ofFrames ? {} : { at: null, frames: null, count: places.length }),
    ...(document === null ? { title: null, date: null, edition: null, page: null } : {}),
  } as const;
  // what stands in the document is no measure where that is wrong itself
  const isWrong = differences.some((difference) => wrongItself(scene, difference) !== undefined);
  const stands = (returnIssueOf(scene, document)?.copies ?? []).find((copy) => copy.fact === kind && copy.source === source)?.place;
  if (source === 'second statement')
    return draft(scene, {
      ...base,
      says: `Of ${whoseDocument(name, document, issues.length)}${where}, the document states the ${factName(kind)} twice: ${right} and ${given}${alone ? '' : `, and the like in ${counted(places.length - 1, 'other place')}`}. The first was read.`,
      instruction: `State the ${factName(kind)}${where} once.`,
      ...(stands === undefined ? {} : { places: [stands] }),
    });
  if (alone)
    return draft(scene, {
      ...base,
      says: silent
        ? `Of ${name}${where}, the ${source} gives the ${factName(kind)} as ${given}; the record has ${right}, and the document itself gives none.`
        : `Of ${name}${where}, the ${source} gives the ${factName(kind)} as ${given} instead of ${right}, which stands in the document itself${isWrong ? ' and is wrong there too' : ''}.`,
      instruction: silent
        ? `Look at the film${where}: where the record is right, correct the ${factName(kind)} in the ${source} to ${right}.`
        : isWrong
          ? `Give the ${source}${where} the ${factName(kind)} that the document must have.`
          : `Correct the ${factName(kind)} in the ${source}${where} to ${right}.`,
      ...(stands === undefined ? {} : { places: [stands] }),
    });
  return draft(scene, {
    ...base,
    says: `In the ${source}, the ${many} of ${whose}${where} ${how.says} (first: ${given} instead of ${right}); the documents themselves ${silent ? 'give none' : 'say otherwise'}.`,
    instruction: silent
      ? `Look at the film: where the record is right, correct the ${many} in the ${source}${where} to ${rights.slice(0, LISTED).join(', ')}${places.length > LISTED ? ' and so on' : ''}, in this order.`
      : isWrong
        ? `Correct the ${many} in the ${source} of ${whose}${where} to those that the documents must have.`
        : places.length <= LISTED && document === null
          ? `Correct the ${many} in the ${source} to ${rights.join(', ')}, in this order.`
          : `${capital(how.mend(`the ${many} in the ${source} of ${whose}${where}`))}.`,
    constant: true,
  });
}

/** True where the document itself does not say, in a way that can be read, what the copy repeats. */
function isSilent(issue: Issue | undefined, fact: Copy['fact']): boolean {
  if (issue === undefined) return false;
  return fact === 'date' ? issue.date?.day == null : issue.inferred?.includes(fact) === true;
}

function whoseDocument(name: string, document: number | null, issues: number): string {
  return document === null ? counted(issues, 'issue') : name;
}
