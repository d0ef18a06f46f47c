import type { FindingCode } from '../../catalogue/codes.js';
import type { DifferenceField, PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, framesInWords, issueName, rangeOf } from '../draft.js';
import { editionTestimony, follows } from '../film/witnesses.js';
import { idsOf, inFilmOrder } from '../runs.js';
import { fieldOf, recordIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { setAll } from './corrections.js';

const FACTS: readonly DifferenceField[] = ['title', 'date', 'datePrinted', 'edition', 'editionLabel', 'volume', 'issueNumber'];

const LESSER: Readonly<Partial<Record<DifferenceField, { code: FindingCode; name: string }>>> = {
  edition: { code: 'edition-differs', name: 'edition' },
  editionLabel: { code: 'edition-label-differs', name: 'edition label' },
  volume: { code: 'volume-differs', name: 'volume' },
  issueNumber: { code: 'issue-number-differs', name: 'issue number' },
};

/** What no cause explains of an issue's facts: one finding per issue and fact. Runs that repeat the same wrong value are one. */
export function plainIssueFacts(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const facts = left.filter(
    (difference) => FACTS.includes(difference.field) && difference.field !== 'title' && difference.field !== 'date',
  );
  const groups: WordedDifference[][] = [];
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

function numberEvidence(scene: Scene, difference: WordedDifference): string[] {
  if (difference.field !== 'issueNumber' || difference.recordIssue === null) return [];
  const intended = recordIssueOf(scene, difference.recordIssue)?.issueNumberIntended;
  return intended == null
    ? []
    : [`The paper prints ${difference.collation ?? '?'}, although ${intended} was meant; the printed number is to be given.`];
}

function printedDate(
  scene: Scene,
  difference: WordedDifference,
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
