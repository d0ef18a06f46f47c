import type { Difference, DifferenceField, PairRef } from '../model/difference.js';
import { type Candidate, candidate } from './candidate.js';
import { counted, draft, framesInWords, issueName, rangeOf } from './draft.js';
import { groupBy, idsOf, inFilmOrder } from './runs.js';
import { differencesAt, factsOf, fieldOf, recordFrame, recordIssueOf, returnIssueOf, type Scene } from './scene.js';
import { mainDocument } from './takes.js';
import { dateTestimony, editionTestimony, filmOrder } from './witnesses.js';

/** What issues are: their dates, titles, editions, and where one ends and the next begins. */
export function identity(scene: Scene): Candidate[] {
  return [
    ...merged(scene),
    ...boundaries(scene),
    ...split(scene),
    ...carriedOver(scene),
    ...titles(scene),
    ...dates(scene),
    ...swappedEditions(scene),
  ];
}

interface Meeting {
  readonly recordIssue: number;
  readonly returnIssue: number;
  readonly pairs: readonly PairRef[];
}

/** Meetings through pages that are to be delivered. */
function deliveredMeetings(scene: Scene): Meeting[] {
  return scene.meetings.flatMap((meeting) => {
    const pairs = meeting.pairs.filter((ref) => recordFrame(scene, ref)?.deliver === true);
    return pairs.length === 0 ? [] : [{ ...meeting, pairs }];
  });
}

const FACTS: readonly DifferenceField[] = ['title', 'date', 'datePrinted', 'edition', 'editionLabel', 'volume', 'issueNumber'];

/** What follows from pages lying in the wrong document: its facts, and their order and labels there. */
function consequences(scene: Scene, meeting: Meeting): number[] {
  return [
    ...idsOf(factsOf(scene, meeting.recordIssue, meeting.returnIssue)),
    ...idsOf(meeting.pairs.flatMap((ref) => differencesAt(scene, ref, 'order', 'section'))),
  ];
}

/** Two issues of the record in one document: the second has no document of its own. */
function merged(scene: Scene): Candidate[] {
  const met = deliveredMeetings(scene);
  return met.flatMap((meeting) => {
    const main = namesake(scene, met, meeting.returnIssue);
    if (main === meeting.recordIssue || mainDocument(scene, meeting.recordIssue) !== meeting.returnIssue) return [];
    const elsewhere = met.some((other) => other.recordIssue === meeting.recordIssue && other.returnIssue !== meeting.returnIssue);
    if (elsewhere) return [];
    const first = recordIssueOf(scene, main);
    const second = recordIssueOf(scene, meeting.recordIssue);
    const sameDay = first?.title === second?.title && first?.date?.text === second?.date?.text;
    const words = framesInWords(rangeOf(scene, meeting.pairs).frames);
    const mainMeeting = met.find((other) => other.recordIssue === main && other.returnIssue === meeting.returnIssue);
    return [
      candidate(
        draft(scene, {
          code: 'issues-merged',
          cause: 'vendor-metadata',
          about: meeting.pairs,
          recordIssue: meeting.recordIssue,
          returnIssue: meeting.returnIssue,
          explains: [
            ...consequences(scene, meeting),
            ...(mainMeeting === undefined ? [] : idsOf(mainMeeting.pairs.flatMap((ref) => differencesAt(scene, ref, 'order')))),
            ...copiesOf(scene, meeting.returnIssue),
          ],
          field: sameDay ? 'edition' : 'date',
          collation: `${issueName(scene, main)}${(recordIssueOf(scene, main)?.edition ?? 1) > 1 ? ',' : ''} and ${issueName(scene, meeting.recordIssue)}`,
          return: `one document, ${issueName(scene, meeting.returnIssue, 'return')}`,
          says: `${issueName(scene, main)}${(recordIssueOf(scene, main)?.edition ?? 1) > 1 ? ',' : ''} and ${issueName(scene, meeting.recordIssue)} came as one issue; the second begins at ${words.replace(/^frames? (\S+).*$/, 'frame $1')}.`,
          instruction: `Split the document at ${words.replace(/^frames? (\S+).*$/, 'frame $1')}: ${words} are ${issueName(scene, meeting.recordIssue)}${second?.editionLabel == null ? '' : ` (${second.editionLabel})`}.`,
        }),
      ),
    ];
  });
}

/** The issue that a document says it is, where it holds one; else the one that most of its pages belong to. */
function namesake(scene: Scene, met: readonly Meeting[], returnIssue: number): number {
  const own = met.find(
    (meeting) =>
      meeting.returnIssue === returnIssue && factsOf(scene, meeting.recordIssue, returnIssue, 'title', 'date', 'edition').length === 0,
  );
  return own?.recordIssue ?? mainIssue(met, returnIssue);
}

function mainIssue(met: readonly Meeting[], returnIssue: number): number {
  let best = met.find((meeting) => meeting.returnIssue === returnIssue);
  for (const meeting of met)
    if (meeting.returnIssue === returnIssue && best !== undefined && meeting.pairs.length > best.pairs.length) best = meeting;
  return best?.recordIssue ?? -1;
}

/** The last pages of one issue in the next one's document, or the first pages of one in the document before. */
function boundaries(scene: Scene): Candidate[] {
  const met = deliveredMeetings(scene);
  return met.flatMap((meeting) => {
    const home = mainDocument(scene, meeting.recordIssue);
    const host = mainIssue(met, meeting.returnIssue);
    if (home === null || home === meeting.returnIssue || host === meeting.recordIssue || mainDocument(scene, host) !== meeting.returnIssue)
      return [];
    const all = (scene.pairsOfRecordIssue.get(meeting.recordIssue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    const last = meeting.pairs.at(-1)?.pair === all.at(-1)?.pair;
    const words = framesInWords(rangeOf(scene, meeting.pairs).frames);
    const touched = [home, meeting.returnIssue].flatMap((document) =>
      (scene.pairsOfReturnIssue.get(document) ?? []).flatMap((ref) => differencesAt(scene, ref, 'order')),
    );
    return [
      candidate(
        draft(scene, {
          code: 'issue-boundary-moved',
          cause: 'vendor-metadata',
          about: meeting.pairs,
          recordIssue: meeting.recordIssue,
          returnIssue: meeting.returnIssue,
          explains: [...consequences(scene, meeting), ...idsOf(touched)],
          field: 'date',
          collation: `${words} in ${issueName(scene, meeting.recordIssue)}`,
          return: `in ${issueName(scene, meeting.returnIssue, 'return')}`,
          says: `The ${last ? 'last' : 'first'} ${meeting.pairs.length === 1 ? 'page' : counted(meeting.pairs.length, 'page')} of ${issueName(scene, meeting.recordIssue)} (${words}) came as part of ${issueName(scene, host)}.`,
          instruction: `Move ${words} back to ${issueName(scene, meeting.recordIssue)} and count the pages of both issues anew.`,
        }),
      ),
    ];
  });
}

/** Pages of one issue in a second document that holds nothing else. */
function split(scene: Scene): Candidate[] {
  const met = deliveredMeetings(scene);
  return met.flatMap((meeting) => {
    const home = mainDocument(scene, meeting.recordIssue);
    if (home === null || home === meeting.returnIssue || mainIssue(met, meeting.returnIssue) !== meeting.recordIssue) return [];
    const words = framesInWords(rangeOf(scene, meeting.pairs).frames);
    const reels = idsOf(meeting.pairs.flatMap((ref) => differencesAt(scene, ref, 'reel')));
    return [
      candidate(
        draft(scene, {
          code: 'issue-split',
          cause: 'vendor-metadata',
          about: meeting.pairs,
          recordIssue: meeting.recordIssue,
          returnIssue: meeting.returnIssue,
          explains: [
            ...idsOf(fieldOf(scene, 'extra-document').filter((difference) => difference.returnIssue === meeting.returnIssue)),
            ...consequences(scene, meeting),
            ...reels,
            ...copiesOf(scene, meeting.returnIssue),
          ],
          field: 'edition',
          collation: issueName(scene, meeting.recordIssue),
          return: `two documents, ${issueName(scene, home, 'return')} and ${issueName(scene, meeting.returnIssue, 'return')}`,
          says: `${issueName(scene, meeting.recordIssue)} came as two issues: ${words} lie in a second document.`,
          instruction: `Join ${words} to ${issueName(scene, meeting.recordIssue)}${reels.length > 0 ? ' and correct their reel number' : ''}: one issue, pages in one order.`,
        }),
      ),
    ];
  });
}

/** Documents' other copies of their facts, which differ because the document itself is wrong. */
function copiesOf(scene: Scene, returnIssue: number): number[] {
  return idsOf(
    fieldOf(scene, 'copy').filter(
      (difference) => difference.returnIssue === returnIssue && /^(date|edition|title|editionLabel) /.test(difference.about ?? ''),
    ),
  );
}

/** Copies of a document's fact that say what the record says: the document's own reading is the wrong one. */
function agreeingCopies(
  scene: Scene,
  returnIssue: number,
  fact: 'date' | 'edition' | 'title',
  record: string | null,
): { ids: number[]; sources: string[] } {
  const found = fieldOf(scene, 'copy').filter(
    (difference) => difference.returnIssue === returnIssue && difference.ref === null && (difference.about ?? '').startsWith(`${fact} `),
  );
  const copies = returnIssueOf(scene, returnIssue)?.copies.filter((copy) => copy.fact === fact && copy.value === record) ?? [];
  return { ids: idsOf(found), sources: [...new Set(copies.map((copy) => copy.source))] };
}

/** A date that was left standing from the issue before, over two or more issues. */
function carriedOver(scene: Scene): Candidate[] {
  const wrong = mainDates(scene);
  const found: Candidate[] = [];
  let run: Difference[] = [];
  const close = (): void => {
    if (run.length >= 2) found.push(carriedRun(scene, run));
    run = [];
  };
  for (const difference of wrong) {
    const last = run.at(-1);
    // the same date left standing, or each issue one behind
    const continues =
      last !== undefined &&
      (last.returned === difference.returned || (isPreviousDate(scene, difference) && isPreviousDate(scene, last))) &&
      follows(scene, last.recordIssue, difference.recordIssue);
    if (continues) run.push(difference);
    else {
      close();
      if (isPreviousDate(scene, difference)) run = [difference];
    }
  }
  close();
  return found;
}

/** Date differences between issues and their main documents, in film order. */
function mainDates(scene: Scene): Difference[] {
  return fieldOf(scene, 'date')
    .filter((difference) => difference.recordIssue !== null && mainDocument(scene, difference.recordIssue) === difference.returnIssue)
    .sort((a, b) => (a.pairs[0]?.alignment ?? 0) - (b.pairs[0]?.alignment ?? 0) || (a.pairs[0]?.pair ?? 0) - (b.pairs[0]?.pair ?? 0));
}

function follows(scene: Scene, first: number | null, second: number | null): boolean {
  if (first === null || second === null) return false;
  const order = filmOrder(scene, second);
  return order.indexOf(second) - order.indexOf(first) === 1;
}

function isPreviousDate(scene: Scene, difference: Difference): boolean {
  if (difference.recordIssue === null) return false;
  const order = filmOrder(scene, difference.recordIssue);
  const before = order[order.indexOf(difference.recordIssue) - 1];
  return before !== undefined && recordIssueOf(scene, before)?.date?.text === difference.returned;
}

function carriedRun(scene: Scene, run: readonly Difference[]): Candidate {
  const pairs = inFilmOrder(run.flatMap((difference) => difference.pairs));
  const words = framesInWords(rangeOf(scene, pairs).frames);
  const dates = run.map((difference) => difference.collation ?? '');
  return candidate(
    draft(scene, {
      code: 'date-carried-over',
      cause: 'vendor-metadata',
      about: pairs,
      recordIssue: run[0]?.recordIssue ?? null,
      explains: [...idsOf(run), ...run.flatMap((difference) => sameDocument(scene, difference))],
      field: 'date',
      collation: dates.join(', '),
      return: [...new Set(run.map((difference) => difference.returned ?? ''))].join(', '),
      says: `${counted(run.length, 'issue')} (${dates[0] ?? ''} to ${dates.at(-1) ?? ''}, ${words}) ${run.at(-1)?.returned === run[0]?.returned ? `all carry the date of the issue before them, ${run[0]?.returned ?? ''}` : 'each carry the date of the issue before'}.`,
      instruction: `Give these issues the dates ${dates.join(', ')}, in film order.`,
      evidence: [`${run[0]?.returned ?? ''} is the date of the issue before the first of them.`],
    }),
  );
}

/** Differences that a wrong date brings with it: an edition counted under that date, a printed date given as the real one, copies that follow. */
function sameDocument(scene: Scene, difference: Difference): number[] {
  if (difference.recordIssue === null || difference.returnIssue === null) return [];
  const printed = recordIssueOf(scene, difference.recordIssue)?.datePrinted;
  const gave = returnIssueOf(scene, difference.returnIssue)?.date;
  const facts = factsOf(scene, difference.recordIssue, difference.returnIssue, 'edition');
  const lost =
    printed != null && gave != null && (printed.day ?? printed.text) === (gave.day ?? gave.text)
      ? factsOf(scene, difference.recordIssue, difference.returnIssue, 'datePrinted')
      : [];
  const copies = agreeingCopies(scene, difference.returnIssue, 'date', difference.collation).ids;
  return [
    ...idsOf(facts),
    ...idsOf(lost),
    ...copies,
    ...idsOf(
      fieldOf(scene, 'copy').filter(
        (copy) => copy.returnIssue === difference.returnIssue && copy.about?.startsWith('edition ') === true && facts.length > 0,
      ),
    ),
  ];
}

/** A wrong title on an issue, or on a run of them. */
function titles(scene: Scene): Candidate[] {
  const groups = groupBy(fieldOf(scene, 'title'), (difference) => `${difference.collation ?? ''}|${difference.returned ?? ''}`);
  return [...groups.values()].flatMap((differences) => {
    const runs: Difference[][] = [];
    for (const difference of differences) {
      const run = runs.at(-1);
      const last = run?.at(-1);
      if (run !== undefined && last !== undefined && follows(scene, last.recordIssue, difference.recordIssue)) run.push(difference);
      else runs.push([difference]);
    }
    return runs.map((run) => {
      const pairs = inFilmOrder(run.flatMap((difference) => difference.pairs));
      const words = framesInWords(rangeOf(scene, pairs).frames);
      const first = run[0];
      return candidate(
        draft(scene, {
          code: 'title-differs',
          cause: 'vendor-metadata',
          about: pairs,
          recordIssue: first?.recordIssue ?? null,
          returnIssue: first?.returnIssue ?? null,
          explains: [
            ...idsOf(run),
            ...run.flatMap((difference) => (difference.returnIssue === null ? [] : copiesOf(scene, difference.returnIssue))),
          ],
          field: 'title',
          collation: first?.collation ?? null,
          return: first?.returned ?? null,
          says: `${run.length === 1 ? issueName(scene, first?.recordIssue ?? null) : counted(run.length, 'issue')} (${words}) came under the title ${first?.returned ?? '?'} instead of ${first?.collation ?? '?'}.`,
          instruction: `Set the title of ${words} to ${first?.collation ?? '?'}.`,
          evidence: [],
        }),
      );
    });
  });
}

/** A wrong date of one issue. */
function dates(scene: Scene): Candidate[] {
  return fieldOf(scene, 'date').map((difference) => {
    const mine = difference.recordIssue ?? -1;
    const theirs = difference.returnIssue ?? -1;
    const testimony = dateTestimony(scene, mine, theirs);
    const words = framesInWords(rangeOf(scene, difference.pairs).frames);
    const printed = recordIssueOf(scene, mine)?.datePrinted ?? null;
    const copies = agreeingCopies(scene, theirs, 'date', difference.collation);
    const own = testimony.cause === 'collation';
    return candidate(
      draft(scene, {
        code: 'date-differs',
        cause: testimony.cause,
        about: difference.pairs,
        recordIssue: mine,
        returnIssue: theirs,
        explains: [difference.id, ...sameDocument(scene, difference)],
        field: 'date',
        collation: difference.collation,
        return: difference.returned,
        says: own
          ? `The record dates the issue on ${words} ${difference.collation ?? '?'}, the return ${difference.returned ?? '?'}; the film speaks for the return.`
          : `${issueName(scene, mine)} (${words}) is dated ${difference.returned ?? '?'} in the return.`,
        instruction: own
          ? `Compare the paper on ${words} with both dates before anything is changed.`
          : `Give the issue on ${words} the date ${difference.collation ?? '?'}${printed === null ? '' : `, and ${printed.text} as the date printed on the paper`}.`,
        evidence: [
          ...testimony.evidence,
          ...copies.sources.map((source) => `The return's own ${source} says ${difference.collation ?? '?'}.`),
        ],
        alternatives: own
          ? [
              {
                says: `The record is right, and the return's ${difference.returned ?? '?'} is wrong.`,
                cause: 'vendor-metadata',
                instruction: `Give the issue on ${words} the date ${difference.collation ?? '?'}.`,
              },
            ]
          : [],
        corrections: setAll(scene, difference.pairs, 'date', difference),
      }),
    );
  });
}

/** Corrections that would set a field on every frame of the pairs to the return's reading. */
export function setAll(
  scene: Scene,
  pairs: readonly PairRef[],
  field: string,
  difference: Difference,
): { reel: string; frame: string; action: 'set'; field: string; from: string; to: string }[] {
  return pairs.flatMap((ref) => {
    const frame = recordFrame(scene, ref);
    const alignment = scene.alignments[ref.alignment];
    const reel = alignment?.recordReel == null ? undefined : scene.record.reels[alignment.recordReel];
    return frame?.frame == null
      ? []
      : [
          {
            reel: reel?.text ?? '',
            frame: frame.frame.text,
            action: 'set' as const,
            field,
            from: difference.collation ?? '',
            to: difference.returned ?? '',
          },
        ];
  });
}

/** Two editions of one day that carry each other's number. */
function swappedEditions(scene: Scene): Candidate[] {
  const differences = fieldOf(scene, 'edition');
  return differences.flatMap((one, at) =>
    differences.slice(at + 1).flatMap((two) => {
      const a = recordIssueOf(scene, one.recordIssue);
      const b = recordIssueOf(scene, two.recordIssue);
      if (a === undefined || b === undefined || a.title !== b.title || a.date?.text !== b.date?.text) return [];
      if (one.collation !== two.returned || two.collation !== one.returned) return [];
      const pairs = inFilmOrder([...one.pairs, ...two.pairs]);
      const words = framesInWords(rangeOf(scene, pairs).frames);
      const labels = [one, two].flatMap((difference) =>
        difference.recordIssue === null || difference.returnIssue === null
          ? []
          : factsOf(scene, difference.recordIssue, difference.returnIssue, 'editionLabel'),
      );
      return [
        candidate(
          draft(scene, {
            code: 'editions-swapped',
            cause: 'vendor-metadata',
            about: pairs,
            recordIssue: one.recordIssue,
            returnIssue: one.returnIssue,
            explains: [one.id, two.id, ...idsOf(labels)],
            field: 'edition',
            collation: `${one.collation ?? ''}, then ${two.collation ?? ''}`,
            return: `${one.returned ?? ''}, then ${two.returned ?? ''}`,
            says: `The two editions of ${issueName(scene, one.recordIssue).replace(/, edition \d+$/, '')} (${words}) carry each other's number.`,
            instruction: `Exchange the edition numbers: ${framesInWords(rangeOf(scene, one.pairs).frames)} are edition ${one.collation ?? ''}, ${framesInWords(rangeOf(scene, two.pairs).frames)} edition ${two.collation ?? ''}; leave the images where they are.`,
          }),
        ),
      ];
    }),
  );
}

const LESSER: Readonly<Partial<Record<DifferenceField, { code: string; name: string }>>> = {
  edition: { code: 'edition-differs', name: 'edition' },
  editionLabel: { code: 'edition-label-differs', name: 'edition label' },
  volume: { code: 'volume-differs', name: 'volume' },
  issueNumber: { code: 'issue-number-differs', name: 'issue number' },
};

/** What no cause explains of an issue's facts: one finding per issue and fact. Runs that repeat the same wrong value are one. */
export function plainIssueFacts(scene: Scene, left: readonly Difference[]): Candidate[] {
  const facts = left.filter(
    (difference) => FACTS.includes(difference.field) && difference.field !== 'title' && difference.field !== 'date',
  );
  const groups: Difference[][] = [];
  for (const difference of facts) {
    const run = groups.find((group) => {
      const last = group.at(-1);
      return (
        last !== undefined &&
        last.field === difference.field &&
        difference.field === 'volume' &&
        last.collation === difference.collation &&
        last.returned === difference.returned &&
        follows(scene, last.recordIssue, difference.recordIssue)
      );
    });
    if (run === undefined) groups.push([difference]);
    else run.push(difference);
  }
  return groups.flatMap((run) => {
    const first = run[0];
    if (first === undefined) return [];
    const pairs = inFilmOrder(run.flatMap((difference) => difference.pairs));
    const words = framesInWords(rangeOf(scene, pairs).frames);
    const name = run.length === 1 ? issueName(scene, first.recordIssue) : counted(run.length, 'issue');
    const base = {
      about: pairs,
      recordIssue: first.recordIssue,
      returnIssue: first.returnIssue,
      field: first.field,
      collation: first.collation,
      return: first.returned,
    };
    if (first.field === 'datePrinted') return [candidate(printedDate(scene, first, base, idsOf(run), words, name))];
    const lesser = LESSER[first.field];
    if (lesser === undefined) return [];
    const testimony =
      first.field === 'edition' && first.recordIssue !== null
        ? editionTestimony(scene, first.recordIssue)
        : ({ cause: 'vendor-metadata', evidence: [] } as const);
    const copies =
      first.field === 'edition' && first.returnIssue !== null
        ? idsOf(
            fieldOf(scene, 'copy').filter(
              (copy) => copy.returnIssue === first.returnIssue && copy.ref === null && copy.about?.startsWith('edition ') === true,
            ),
          )
        : [];
    return [
      candidate(
        draft(scene, {
          ...base,
          code: lesser.code,
          cause: testimony.cause,
          explains: [...idsOf(run), ...copies],
          says: `${name} (${words}) has the ${lesser.name} ${quoted(first.returned, lesser.name)} in the return; the record has ${quoted(first.collation, lesser.name)}.`,
          instruction:
            testimony.cause === 'collation'
              ? `Compare the paper on ${words} with both readings before anything is changed.`
              : `Set the ${lesser.name} of ${words} to ${first.collation ?? '?'}${first.field === 'issueNumber' ? ', as printed' : ''}.`,
          evidence: [...testimony.evidence, ...numberEvidence(scene, first)],
          corrections: setAll(scene, pairs, first.field, first),
        }),
      ),
    ];
  });
}

function numberEvidence(scene: Scene, difference: Difference): string[] {
  if (difference.field !== 'issueNumber' || difference.recordIssue === null) return [];
  const intended = recordIssueOf(scene, difference.recordIssue)?.issueNumberIntended;
  return intended == null
    ? []
    : [`The paper prints ${difference.collation ?? '?'}, although ${intended} was meant; the printed number is to be given.`];
}

function printedDate(
  scene: Scene,
  difference: Difference,
  base: {
    about: readonly PairRef[];
    recordIssue: number | null;
    returnIssue: number | null;
    field: string;
    collation: string | null;
    return: string | null;
  },
  explains: readonly number[],
  words: string,
  name: string,
): ReturnType<typeof draft> {
  const surplus = difference.collation === 'as the date';
  if (difference.returned === null) {
    return draft(scene, {
      ...base,
      code: 'printed-date-not-given',
      cause: 'vendor-metadata',
      explains,
      return: 'not given',
      says: `The paper of ${name} (${words}) prints ${difference.collation ?? '?'}, and the return does not give that date.`,
      instruction: `Give ${difference.collation ?? '?'} as the date printed on the paper for ${words}.`,
    });
  }
  if (difference.collation === 'not to be given') {
    return draft(scene, {
      ...base,
      at: null,
      frames: null,
      count: 1,
      code: 'not-ordered',
      cause: 'vendor-metadata',
      explains,
      says: `The return gives ${difference.returned} as the printed date of ${name} (${words}); the agreement leaves printed dates out.`,
      instruction: `Take back the printed date ${difference.returned} of ${words}.`,
    });
  }
  return draft(scene, {
    ...base,
    code: 'printed-date-differs',
    cause: 'vendor-metadata',
    explains,
    says: surplus
      ? `The return gives ${difference.returned} as the printed date of ${name} (${words}); the record has no other printed date.`
      : `The printed date of ${name} (${words}) is ${difference.returned} in the return; the record has ${difference.collation ?? '?'}.`,
    instruction: surplus
      ? `Take back the printed date ${difference.returned} of ${words}.`
      : `Give ${difference.collation ?? '?'} as the date printed on the paper for ${words}.`,
    corrections: setAll(scene, base.about, 'datePrinted', difference),
  });
}

/** A label's words in quotes, so that they are not read as part of the sentence; numbers and what is not there as they are. */
function quoted(text: string | null, name: string): string {
  if (text === null) return '?';
  return name === 'edition label' && text !== 'no label' ? `"${text}"` : text;
}
