import type { FindingCode } from '../../catalogue/codes.js';
import type { PairRef } from '../../model/difference.js';
import type { FrameFact, IssueFact } from '../../model/expected.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, counted, draft, framesByName, framesInWords, issueName, rangeOf } from '../draft.js';
import { groupBy, idsOf, inFilmOrder } from '../runs.js';
import { fieldOf, recordFrame, recordIssueOf, recordReelOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

type Fact = Exclude<FrameFact, 'section'> | IssueFact;

interface FactWords {
  readonly field: Fact;
  readonly code: FindingCode;
  readonly of: 'page' | 'issue';
  readonly noun: string;
  /** What is to be given where it is left out everywhere. */
  readonly give: string;
  /** How the instruction for a single place names it, where not by the noun. */
  readonly as?: string;
  /** What is so of a single issue, where it can be said better. */
  readonly says?: (issue: string, frames: string, reading: string) => string;
}

/** What the return can leave out. A section that is lost is told as what it does to the labels. */
const FACTS: readonly FactWords[] = [
  { field: 'number', code: 'frame-number-wrong', of: 'page', noun: 'frame number', give: 'the number of its frame on the reel' },
  { field: 'reel', code: 'reel-number-wrong', of: 'page', noun: 'reel number', give: 'the number of its reel' },
  { field: 'order', code: 'page-order-differs', of: 'page', noun: 'place in the issue', give: 'its place in the issue, counted from 1' },
  { field: 'page', code: 'page-number-differs', of: 'page', noun: 'page number', give: 'the number that is printed on it' },
  { field: 'title', code: 'title-differs', of: 'issue', noun: 'title identifier', give: 'its title identifier' },
  { field: 'date', code: 'date-differs', of: 'issue', noun: 'date', give: 'its date' },
  {
    field: 'datePrinted',
    code: 'printed-date-not-given',
    of: 'issue',
    noun: 'printed date',
    give: 'the date that is printed on it',
    as: 'date printed on the paper',
    says: (issue, frames, reading) => `The paper of ${issue} (${frames}) prints ${reading}, and the return does not give that date.`,
  },
  { field: 'edition', code: 'edition-differs', of: 'issue', noun: 'edition order', give: 'its edition order' },
  {
    field: 'editionLabel',
    code: 'edition-label-differs',
    of: 'issue',
    noun: 'edition label',
    give: 'the edition label that is printed on it',
  },
  { field: 'volume', code: 'volume-differs', of: 'issue', noun: 'volume', give: 'the volume that is printed on it' },
  { field: 'issueNumber', code: 'issue-number-differs', of: 'issue', noun: 'issue number', give: 'the issue number that is printed on it' },
];

/** So large a share of the places that must state a fact and do not is one slip over all of them. */
const SHARE = 0.8;

/** A fact that must be stated and is not: one finding over as much as it is left out of, the batch, a reel, a title, an issue or a page. */
export function leftOut(scene: Scene): Candidate[] {
  return FACTS.flatMap((fact) => {
    let open = fieldOf(scene, fact.field).filter(({ form }) => form === 'missing');
    if (open.length === 0) return [];
    const all = mustState(scene, fact);
    const found: Candidate[] = [];
    const take = (list: readonly WordedDifference[], candidates: readonly Candidate[]): void => {
      found.push(...candidates);
      const gone = new Set(idsOf(list));
      open = open.filter(({ id }) => !gone.has(id));
    };
    for (const scopeOf of WIDE) {
      const could = groupBy(all, (place) => scopeOf(scene, place));
      for (const [scope, list] of groupBy(open, (one) => scopeOf(scene, placeOf(one)))) {
        const places = could.get(scope)?.length ?? list.length;
        const issues = new Set(list.map(({ recordIssue }) => recordIssue)).size;
        if (scope !== null && issues > 1 && list.length >= places * SHARE) take(list, [wide(scene, fact, list, places, scope)]);
      }
    }
    for (const [issue, list] of groupBy(open, ({ recordIssue }) => recordIssue)) take(list, narrow(scene, fact, list, issue));
    return found;
  });
}

interface FactPlace {
  readonly issue: number | null;
  readonly ref: PairRef | undefined;
}

function placeOf(difference: WordedDifference): FactPlace {
  return { issue: difference.recordIssue, ref: difference.pairs[0] };
}

/** From the widest: the whole return, one reel of several, one title of several. Null where there is only one. */
const WIDE: readonly ((scene: Scene, place: FactPlace) => string | null)[] = [
  () => 'the return',
  (scene, { ref }) => {
    const reel = ref === undefined ? undefined : recordReelOf(scene, ref);
    return reel === undefined || scene.record.reels.length < 2 ? null : `reel ${reel.text}`;
  },
  (scene, { issue }) => {
    const id = recordIssueOf(scene, issue)?.title ?? null;
    return id === null || scene.record.titles.length < 2 ? null : (scene.record.titles.find((title) => title.id === id)?.name ?? id);
  },
];

/** Every place that met something in the return and must state the fact. */
function mustState(scene: Scene, { field, of }: FactWords): readonly FactPlace[] {
  if (of === 'issue')
    return scene.meetings
      .filter(({ recordIssue }) => scene.expected.issues[recordIssue]?.[field as IssueFact].needs === 'must')
      .map(({ recordIssue, pairs }) => ({ issue: recordIssue, ref: pairs[0] }));
  return scene.meetings.flatMap(({ recordIssue, pairs }) =>
    pairs
      .filter((ref) => {
        const alignment = scene.alignments[ref.alignment];
        const frame = alignment?.pairs[ref.pair]?.record ?? -1;
        return scene.expected.reels[alignment?.recordReel ?? -1]?.frames[frame]?.facts[field as FrameFact].needs === 'must';
      })
      .map((ref) => ({ issue: recordIssue, ref })),
  );
}

function wide(scene: Scene, fact: FactWords, list: readonly WordedDifference[], places: number, scope: string): Candidate {
  const refs = inFilmOrder(list.flatMap(({ pairs }) => pairs));
  const what = fact.of === 'page' ? 'page' : 'issue';
  const gives = fact.of === 'page' ? 'page of' : 'issue of';
  const whole = list.length === places;
  const says = whole
    ? `No ${gives} ${scope} gives its ${fact.noun}: ${counted(list.length, what)}.`
    : `${String(list.length)} of ${counted(places, what)} of ${scope} give no ${fact.noun}.`;
  return candidate(
    draft(scene, {
      code: fact.code,
      cause: 'vendor-metadata',
      about: refs,
      explains: idsOf(list),
      title: null,
      date: null,
      edition: null,
      page: null,
      field: fact.field === 'number' ? 'frame' : fact.field,
      collation: `${counted(places, what)} with one`,
      return: whole ? 'none' : `${String(places - list.length)} with one`,
      says,
      instruction: `Give every ${what} of ${scope} ${fact.give}.`,
    }),
  );
}

/** One issue that leaves a fact out, or the pages of one that do. */
function narrow(scene: Scene, fact: FactWords, list: readonly WordedDifference[], issue: number | null): readonly Candidate[] {
  const refs = inFilmOrder(list.flatMap(({ pairs }) => pairs));
  const range = rangeOf(scene, refs);
  const words = framesInWords(range.frames);
  const name = issueName(scene, issue);
  const readings = list.map(({ collation }) => collation ?? '?');
  const one = list.length === 1;
  const certain = list.every(({ expected }) => expected.length > 0);
  const page = one && fact.of === 'page' && refs[0] !== undefined ? recordFrame(scene, refs[0])?.page : null;
  const who = fact.of === 'issue' ? `${name} (${words})` : `${capital(words)}${page == null ? '' : `, page ${page}`} of ${name}`;
  const verb = fact.of === 'issue' || one ? 'gives' : 'give';
  return [
    candidate(
      draft(scene, {
        code: fact.code,
        cause: 'vendor-metadata',
        about: refs,
        recordIssue: issue,
        returnIssue: list[0]?.returnIssue ?? null,
        explains: idsOf(list),
        field: fact.field === 'number' ? 'frame' : fact.field,
        collation: readings.join(', '),
        return: 'not given',
        says: fact.says?.(name, words, readings.join(', ')) ?? `${who} ${verb} no ${fact.noun}; the record has ${readings.join(', ')}.`,
        instruction: certain
          ? `Give ${readings.join(', ')} as the ${fact.as ?? fact.noun}${one ? '' : 's'} for ${framesByName(range.frames)}.`
          : `Give ${fact.give} for ${words}.`,
      }),
    ),
  ];
}
