import { agreeingCopies } from '../documents/issue-copies.js';
import { draft, type FindingDraft, framesInWords, issueName, rangeOf } from '../draft.js';
import { dateEvidence } from '../film/witnesses.js';
import { factsOf, recordIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { FACT_NAMES } from './names.js';
import type { Fact } from './statements.js';

/** One fact of one issue that came otherwise. */
export function singleIssueFact(scene: Scene, difference: WordedDifference, explains: readonly number[]): FindingDraft {
  if (difference.field === 'date') return date(scene, difference, explains);
  if (difference.field === 'datePrinted') return printedDate(scene, difference, explains);
  const words = framesInWords(rangeOf(scene, difference.pairs).frames);
  const name = issueName(scene, difference.recordIssue);
  const noun =
    difference.field === 'edition' ? 'edition' : difference.field === 'title' ? 'title' : FACT_NAMES[difference.field as Fact].one;
  const readings = [difference.returned, difference.collation].map((text) => quoted(text, difference.field));
  return draft(scene, {
    ...base(difference),
    code: FACT_NAMES[difference.field as Fact].code,
    cause: 'vendor-metadata',
    explains,
    says:
      difference.field === 'title'
        ? `${name} (${words}) came under the title ${readings[0] ?? '?'} instead of ${readings[1] ?? '?'}.`
        : `${name} (${words}) has the ${noun} ${readings[0] ?? '?'} in the return; the record has ${readings[1] ?? '?'}.`,
    instruction: `Set the ${noun} of ${words} to ${difference.collation ?? '?'}${difference.field === 'issueNumber' ? ', as printed' : ''}.`,
    evidence: numberEvidence(scene, difference),
  });
}

function base(difference: WordedDifference) {
  return {
    about: difference.pairs,
    recordIssue: difference.recordIssue,
    returnIssue: difference.returnIssue,
    field: difference.field,
    collation: difference.collation,
    return: difference.returned,
  };
}

/** A label's words in quotes, so that they are not read as part of the sentence; numbers and what is not there as they are. */
function quoted(text: string | null, field: string): string {
  if (text === null) return '?';
  return field === 'editionLabel' && text !== 'no label' ? `"${text}"` : text;
}

function numberEvidence(scene: Scene, difference: WordedDifference): string[] {
  if (difference.field !== 'issueNumber' || difference.recordIssue === null) return [];
  const intended = recordIssueOf(scene, difference.recordIssue)?.issueNumberIntended;
  return intended == null
    ? []
    : [`The paper prints ${difference.collation ?? '?'}, although ${intended} was meant; the printed number is to be given.`];
}

function printedDate(scene: Scene, difference: WordedDifference, explains: readonly number[]): FindingDraft {
  const words = framesInWords(rangeOf(scene, difference.pairs).frames);
  const name = issueName(scene, difference.recordIssue);
  const given = difference.returned ?? '?';
  if (difference.form === 'surplus') {
    return draft(scene, {
      ...base(difference),
      at: null,
      frames: null,
      count: 1,
      code: 'not-ordered',
      cause: 'vendor-metadata',
      explains,
      says: `The return gives ${given} as the printed date of ${name} (${words}); the agreement leaves printed dates out.`,
      instruction: `Take back the printed date ${given} of ${words}.`,
    });
  }
  const surplus = difference.collation === 'as the date';
  return draft(scene, {
    ...base(difference),
    code: 'printed-date-differs',
    cause: 'vendor-metadata',
    explains,
    says: surplus
      ? `The return gives ${given} as the printed date of ${name} (${words}); the record has no other printed date.`
      : `The printed date of ${name} (${words}) is ${given} in the return; the record has ${difference.collation ?? '?'}.`,
    instruction: surplus
      ? `Take back the printed date ${given} of ${words}.`
      : `Give ${difference.collation ?? '?'} as the date printed on the paper for ${words}.`,
  });
}

function date(scene: Scene, difference: WordedDifference, explains: readonly number[]): FindingDraft {
  const [mine, theirs] = [difference.recordIssue ?? -1, difference.returnIssue ?? -1];
  const words = framesInWords(rangeOf(scene, difference.pairs).frames);
  const [right, given] = [difference.collation ?? '?', difference.returned ?? '?'];
  const printed = recordIssueOf(scene, mine)?.datePrinted ?? null;
  const edition = factsOf(scene, mine, theirs, 'edition').length > 0;
  const { sources } = agreeingCopies(
    scene,
    theirs,
    'date',
    difference.expected.map(({ key }) => key),
  );
  return draft(scene, {
    ...base(difference),
    code: 'date-differs',
    cause: 'vendor-metadata',
    explains,
    says: `${issueName(scene, mine)} (${words}) is dated ${given} in the return.`,
    instruction: `Give the issue on ${words} the date ${right}${printed === null ? '' : `, and ${printed.text} as the date printed on the paper`}${edition ? `; it is edition ${String(recordIssueOf(scene, mine)?.edition ?? 1)}` : ''}.`,
    evidence: [...dateEvidence(scene, mine, theirs), ...sources.map((source) => `The return's own ${source} says ${right}.`)],
  });
}
