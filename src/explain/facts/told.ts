import type { FindingCode } from '../../catalogue/codes.js';
import { type Candidate, weighed } from '../choose.js';
import { capital, counted, draft, type FindingDraft, framesInWords, issueName, rangeOf, thing } from '../draft.js';
import { filmOrder } from '../film/witnesses.js';
import { idsOf, inFilmOrder } from '../runs.js';
import { factsOf, recordFrame, recordIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { companions } from './companions.js';
import { setAll } from './corrections.js';
import { HOW } from './how.js';
import { leftOutHere, leftOutWidely } from './left-out.js';
import { type FactEdit, isWide, reachName } from './lift.js';
import { bearer, FACT_NAMES, fieldName } from './names.js';
import { sidedBy } from './sided.js';
import { testimony } from './sides.js';
import { singleIssueFact } from './single-issue.js';
import { singlePageFact } from './single-page.js';
import { isOfIssue, type Statement } from './statements.js';

/** So many readings are given one by one; more are told by how they go wrong. */
const LISTED = 12;

/** The finding that a change of a fact is. */
export function told(scene: Scene, edit: FactEdit): Candidate {
  return weighed({ ...sided(scene, edit, draftOf(scene, edit)), reach: edit.scope }, edit.cost);
}

/** The finding with the side that is likelier wrong, and an instruction that spoils nothing where that is not the return. */
function sided(scene: Scene, edit: FactEdit, draft: FindingDraft): FindingDraft {
  const { cause, evidence } = testimony(scene, edit);
  const corrections = edit.places.flatMap(({ refs, differs }) =>
    differs === null ? [] : setAll(scene, refs, fieldName(edit.fact), differs),
  );
  const words = framesInWords(draft.frames);
  const told = sidedBy(cause, words, {
    ...draft,
    evidence: [...draft.evidence, ...evidence],
    corrections: cause === 'vendor-metadata' ? [] : corrections,
  });
  if (cause !== 'collation' || edit.fact !== 'date' || edit.places.length > 1) return told;
  return {
    ...told,
    says: `The record gives the issue on ${words} the date ${draft.collation ?? '?'}, the return ${draft.return ?? '?'}; the film speaks for the return.`,
    instruction: `Compare the paper on ${words} with both dates before anything is changed.`,
  };
}

function draftOf(scene: Scene, edit: FactEdit): FindingDraft {
  const { fact, change, places, scope } = edit;
  const differences = places.flatMap(({ differs }) => differs ?? []);
  const first = differences[0];
  const explains = [...idsOf(differences), ...companions(scene, edit)];
  if (change.kind === 'missing') return isWide(scope) ? leftOutWidely(scene, edit, explains) : leftOutHere(scene, edit, explains);
  if (first !== undefined && places.length === 1) {
    return isOfIssue(fact) ? singleIssueFact(scene, first, explains) : singlePageFact(scene, first, explains);
  }
  if (change.kind === 'stuck') return stuck(scene, edit, differences, explains);
  if (fact === 'date' && (change.kind === 'before' || change.kind === 'all')) return carriedOver(scene, edit, differences, explains);
  if (fact === 'title' && new Set(differences.map(({ collation }) => collation)).size === 1 && change.kind === 'all')
    return otherTitle(scene, edit, differences, explains);
  if (change.kind === 'anew' || (fact === 'order' && places.length <= LISTED && !isWide(scope) && change.by !== '-1'))
    return countedAnew(scene, edit, differences, explains);
  if (!isOfIssue(fact) && change.kind === 'plus' && new Set(places.map(({ issue }) => issue)).size === 1)
    return movedWithin(scene, edit, differences, explains);
  return many(scene, edit, differences, explains);
}

/** One change over several places. */
function many(scene: Scene, edit: FactEdit, differences: readonly WordedDifference[], explains: readonly number[]): FindingDraft {
  const { fact, change, places, scope } = edit;
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const names = FACT_NAMES[fact];
  const right = differences.map(({ collation }) => collation ?? '?');
  const given = [...new Set(differences.map(({ returned }) => returned ?? '?'))];
  const who = whose(scene, edit);
  const wide = isWide(scope);
  const oneIssue = new Set(places.map(({ issue }) => issue)).size === 1;
  const first = places[0];
  const how = HOW[change.kind](change, given);
  const listed = places.length <= LISTED && change.kind !== 'surplus';
  const each = bearer(fact) === 'issue' ? 'these issues' : `the pages on ${words}`;
  return draft(scene, {
    code: codeOf(edit),
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: first?.issue ?? null,
    ...(wide || (!oneIssue && !isOfIssue(fact)) ? { title: null, date: null, edition: null } : {}),
    ...(scope === 'title' ? { title: first?.title ?? null } : {}),
    page: null,
    explains,
    field: fieldName(fact),
    collation: right.length <= LISTED ? right.join(', ') : `${right[0] ?? '?'} to ${right.at(-1) ?? '?'}`,
    return: given.length <= LISTED ? given.join(', ') : `${given[0] ?? '?'} to ${given.at(-1) ?? '?'}`,
    says: `The ${names.many} of ${who} (${words}) ${how.says} in the return${right.length > 1 && change.kind === 'plus' && !wide ? `; the record has ${right[0] ?? '?'} to ${right.at(-1) ?? '?'}` : ''}.`,
    instruction: listed
      ? `Give ${each} the ${names.many} ${right.join(', ')}, in film order${fact === 'date' ? asEditions(scene, places) : ''}.`
      : `${capital(how.mend(`the ${names.many} of ${who}`))}.`,
    constant: true,
  });
}

/** One reading of the record for places to which the return gives several. */
function stuck(scene: Scene, edit: FactEdit, differences: readonly WordedDifference[], explains: readonly number[]): FindingDraft {
  const { fact, places, scope } = edit;
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const { one } = FACT_NAMES[fact];
  const right = differences[0]?.collation ?? '?';
  const given = differences.map(({ returned }) => returned ?? '?');
  const few = given.length <= LISTED;
  const wide = isWide(scope) || (!isOfIssue(fact) && new Set(places.map(({ issue }) => issue)).size > 1);
  return draft(scene, {
    code: codeOf(edit),
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: places[0]?.issue ?? null,
    ...(wide ? { title: null, date: null, edition: null } : {}),
    page: null,
    explains,
    field: fieldName(fact),
    collation: right,
    return: few ? given.join(', ') : `${given[0] ?? '?'} to ${given.at(-1) ?? '?'}`,
    says: `The record gives ${whose(scene, edit)} (${words}) one ${one}, ${right}; the return gives ${few ? `them ${given.join(', ')}` : `each its own, from ${given[0] ?? '?'} to ${given.at(-1) ?? '?'}`}.`,
    instruction: `Give ${bearer(fact) === 'issue' ? 'these issues' : 'these pages'} the ${one} ${right}.`,
    constant: true,
  });
}

/** Places of the pages of one issue. */
function countedAnew(
  scene: Scene,
  { places }: FactEdit,
  differences: readonly WordedDifference[],
  explains: readonly number[],
): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const wanted = differences.map(({ collation }) => collation ?? '?').join(', ');
  const given = differences.map(({ returned }) => returned ?? '?').join(', ');
  const issue = places[0]?.issue ?? null;
  return draft(scene, {
    code: 'page-order-differs',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: issue,
    explains,
    field: 'order',
    collation: wanted,
    return: given,
    says: `The pages on ${words} of ${issueName(scene, issue)} stand at places ${given} of the issue; the record has ${wanted}.`,
    instruction: `Put ${words} at places ${wanted} of the issue.`,
  });
}

/** Labels or places of pages of one issue that are wrong by as much. */
function movedWithin(
  scene: Scene,
  { fact, change, places }: FactEdit,
  differences: readonly WordedDifference[],
  explains: readonly number[],
): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const issue = places[0]?.issue ?? null;
  const by = Number(change.by);
  const first = refs[0] === undefined ? undefined : recordFrame(scene, refs[0]);
  const fromZero = fact === 'order' && by === -1 && differences.some(({ given }) => given?.key === '0');
  const labels = fact === 'page';
  return draft(scene, {
    code: labels ? 'page-numbers-shifted' : 'page-order-differs',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: issue,
    explains,
    page: null,
    field: fact,
    collation: fromZero ? 'counted from 1' : `from ${differences[0]?.collation ?? '?'} on`,
    return: fromZero ? 'counted from 0' : `from ${differences[0]?.returned ?? '?'} on`,
    says: fromZero
      ? `The places of the pages of ${issueName(scene, issue)} (${words}) are counted from 0; they must be counted from 1.`
      : `From ${thing(first)} on, ${counted(refs.length, 'page')} of ${issueName(scene, issue)} (${words}) ${labels ? 'are numbered' : 'stand'} ${labels ? String(Math.abs(by)) : counted(Math.abs(by), 'place')} too ${by > 0 ? (labels ? 'high' : 'far on') : labels ? 'low' : 'early'}.`,
    instruction: fromZero
      ? `Add 1 to the place of each page of ${issueName(scene, issue)}.`
      : labels
        ? `Renumber the pages on ${words} by ${by > 0 ? '-' : '+'}${String(Math.abs(by))}, as printed.`
        : `${by > 0 ? 'Subtract' : 'Add'} ${String(Math.abs(by))} ${by > 0 ? 'from' : 'to'} the place of each page on ${words}.`,
    constant: true,
  });
}

/** Whose facts a change reaches: `all 24 issues of the return`, `3 issues in a row`, `4 pages of ...`. */
function whose(scene: Scene, { fact, change, places, scope, could }: FactEdit): string {
  const what = bearer(fact);
  const issues = new Set(places.map(({ issue }) => issue));
  if (scope === 'issue' || (scope === 'run' && what === 'page' && issues.size === 1))
    return `${counted(places.length, 'page')} of ${issueName(scene, places[0]?.issue ?? null)}`;
  if (scope === 'run') return `${counted(places.length, what)}${change.kind === 'permuted' ? '' : ' in a row'}`;
  return places.length === could
    ? `all ${counted(places.length, what)} of ${reachName(scene, { places, scope })}`
    : `${String(places.length)} of ${counted(could, what)} of ${reachName(scene, { places, scope })}`;
}

function codeOf({ fact, change }: FactEdit): FindingCode {
  if (change.kind === 'surplus' && fact === 'datePrinted') return 'not-ordered';
  if (fact === 'page' && change.kind === 'plus') return 'page-numbers-shifted';
  return FACT_NAMES[fact].code;
}

/** Issues that came under one date, or each under the date of the one before. */
function carriedOver(
  scene: Scene,
  { change, places }: FactEdit,
  differences: readonly WordedDifference[],
  explains: readonly number[],
): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const dates = differences.map(({ collation }) => collation ?? '?');
  const given = [...new Set(differences.map(({ returned }) => returned ?? '?'))];
  const first = given[0] ?? '?';
  const before = dateBefore(scene, places[0]);
  const stuck = change.kind === 'all';
  return draft(scene, {
    code: 'date-carried-over',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: places[0]?.issue ?? null,
    explains,
    field: 'date',
    collation: dates.join(', '),
    return: given.join(', '),
    says: `${counted(places.length, 'issue')} (${dates[0] ?? '?'} to ${dates.at(-1) ?? '?'}, ${words}) ${stuck ? (before === first ? `all carry the date of the issue before them, ${first}` : `all carry the date ${first}`) : 'each carry the date of the issue before'}.`,
    instruction: `Give these issues the dates ${dates.join(', ')}, in film order${asEditions(scene, places)}.`,
    evidence: before === first ? [`${first} is the date of the issue before the first of them.`] : [],
  });
}

/** The date of the issue of the same title before one on the film. */
function dateBefore(scene: Scene, place: Statement | undefined): string | null {
  if (place?.issue == null) return null;
  const order = filmOrder(scene, place.issue);
  return recordIssueOf(scene, order[order.indexOf(place.issue) - 1] ?? null)?.date?.text ?? null;
}

/** `, each as edition 1`, where the issues were counted as further editions of the wrong date. */
function asEditions(scene: Scene, places: readonly Statement[]): string {
  if (!places.some(({ issue, document }) => factsOf(scene, issue ?? -1, document ?? -1, 'edition').length > 0)) return '';
  const editions = places.map(({ issue }) => String(recordIssueOf(scene, issue)?.edition ?? 1));
  return new Set(editions).size === 1 ? `, each as edition ${editions[0] ?? '1'}` : `, as editions ${editions.join(', ')}`;
}

/** Issues of one title that came under another. */
function otherTitle(
  scene: Scene,
  { places }: FactEdit,
  differences: readonly WordedDifference[],
  explains: readonly number[],
): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const [right, given] = [differences[0]?.collation ?? '?', differences[0]?.returned ?? '?'];
  return draft(scene, {
    code: 'title-differs',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: places[0]?.issue ?? null,
    returnIssue: places[0]?.document ?? null,
    explains,
    field: 'title',
    collation: right,
    return: given,
    says: `${counted(places.length, 'issue')} (${words}) came under the title ${given} instead of ${right}.`,
    instruction: `Set the title of ${words} to ${right}.`,
  });
}
