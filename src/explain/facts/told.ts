import type { FindingCode } from '../../catalogue/codes.js';
import { type Candidate, weighed } from '../choose.js';
import { capital, counted, draft, type FindingDraft, framesInWords, inSeries, issueName, rangeOf } from '../draft.js';
import { idsOf, inFilmOrder } from '../runs.js';
import type { Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { asEditions, carriedOver } from './carried-over.js';
import type { Change } from './changes.js';
import { companions } from './companions.js';
import { setAll } from './corrections.js';
import { HOW, type How } from './how.js';
import { leftOutHere, leftOutWidely } from './left-out.js';
import { type FactEdit, isWide, reachName } from './lift.js';
import { bearer, FACT_NAMES, fieldName } from './names.js';
import { sidedBy } from './sided.js';
import { testimony } from './sides.js';
import { singleIssueFact } from './single-issue.js';
import { singlePageFact } from './single-page.js';
import { type Fact, isOfIssue } from './statements.js';
import { countedAnew, movedWithin } from './within-issue.js';

/** So many readings are given one by one; more are told by how they go wrong. */
const LISTED = 12;

/** The finding that a change of a fact is, with what of it and of what follows from it nobody has told yet. */
export function told(scene: Scene, edit: FactEdit, open: (id: number) => boolean): Candidate {
  const draft = draftOf(scene, edit);
  return weighed({ ...sided(scene, edit, { ...draft, explains: draft.explains.filter(open) }), reach: edit.scope }, edit.cost);
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
  const others = draft.explains
    .flatMap((id) => scene.differences[id] ?? [])
    .filter(({ field }) => field === 'issueNumber' || field === 'volume');
  const copied = others.map(
    ({ field, collation, returned }) =>
      `The record has the ${FACT_NAMES[field as Fact].one} of the issue before as well: ${collation ?? '?'}, where the return has ${returned ?? '?'}.`,
  );
  return {
    ...told,
    evidence: [...told.evidence, ...copied],
    says: `The record gives the issue on ${words} the date ${draft.collation ?? '?'}, the return ${draft.return ?? '?'}; the film speaks for the return.`,
    instruction: `Compare the paper on ${words} with both dates before anything is changed.`,
  };
}

function draftOf(scene: Scene, edit: FactEdit): FindingDraft {
  const { fact, change, places, scope } = edit;
  const differences = places.flatMap(({ differs }) => differs ?? []);
  const first = differences[0];
  const explains = [...new Set([...idsOf(differences), ...companions(scene, edit)])];
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
  if (!isOfIssue(fact) && fact !== 'section' && change.kind === 'plus' && new Set(places.map(({ issue }) => issue)).size === 1)
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
  const how = howOf(change, differences, given);
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
    says: `The ${names.many} of ${who} (${words}) ${how.says} in the return${recordHas(edit, right)}.`,
    instruction: listed
      ? `Give ${each} the ${new Set(right).size === 1 ? `${names.one} ${right[0] ?? '?'}` : `${names.many} ${right.join(', ')}, in film order`}${fact === 'date' ? asEditions(scene, places) : ''}.`
      : `${capital(how.mend(`the ${names.many} of ${who}`))}.`,
    constant: true,
  });
}

/** How it goes wrong; neighbours' readings that are all as much too high or low are told as that. */
function howOf(change: Change, differences: readonly WordedDifference[], given: readonly string[]): How {
  const steps = new Set(differences.map(({ collation, returned }) => Number(returned) - Number(collation)));
  const [step] = steps;
  const isStep = (change.kind === 'before' || change.kind === 'after') && steps.size === 1 && Number.isInteger(step);
  return isStep ? HOW.plus({ kind: 'plus', by: String(step) }, given) : HOW[change.kind](change, given);
}

/** What the record has instead, where the readings that came do not say it themselves. */
function recordHas({ change, scope }: FactEdit, right: readonly string[]): string {
  if (change.kind === 'surplus') return '; the record has none';
  if (right.length < 2 || change.kind !== 'plus' || isWide(scope)) return '';
  return `; the record has ${new Set(right).size === 1 ? (right[0] ?? '?') : `${right[0] ?? '?'} to ${right.at(-1) ?? '?'}`}`;
}

/** Readings that differ, each once: `2, 3 and 5`; of many the first three and how many more there are. */
function different(readings: readonly string[]): string {
  const once = [...new Set(readings)];
  if (once.length <= LISTED) return inSeries(once);
  return `${once.slice(0, 3).join(', ')} and ${counted(once.length - 3, 'other')}`;
}

/** One reading of the record for places to which the return gives several. */
function stuck(scene: Scene, edit: FactEdit, differences: readonly WordedDifference[], explains: readonly number[]): FindingDraft {
  const { fact, places, scope } = edit;
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const { one } = FACT_NAMES[fact];
  const right = differences[0]?.collation ?? '?';
  const given = differences.map(({ returned }) => returned ?? 'none');
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
    says: `The record gives ${whose(scene, edit)} (${words}) one ${one}, ${right}; the return gives them ${different(given)}.`,
    instruction: `Give ${bearer(fact) === 'issue' ? 'these issues' : 'these pages'} the ${one} ${right}.`,
    constant: true,
  });
}

/** Whose facts a change reaches: `all 24 issues of the return`, `3 issues in a row`, `4 pages of ...`. */
function whose(scene: Scene, { fact, change, places, scope, could }: FactEdit): string {
  const what = bearer(fact);
  const issues = new Set(places.map(({ issue }) => issue));
  if (scope === 'issue' || (scope === 'run' && what === 'page' && issues.size === 1))
    return places[0]?.issue == null
      ? `${counted(places.length, 'frame')} outside any issue`
      : `${counted(places.length, 'page')} of ${issueName(scene, places[0].issue)}`;
  if (scope === 'run') return `${counted(places.length, what)}${change.kind === 'permuted' ? '' : ' in a row'}`;
  return places.length === could
    ? `all ${counted(places.length, what)} of ${reachName(scene, { places, scope })}`
    : `${String(places.length)} of ${counted(could, what)} of ${reachName(scene, { places, scope })}`;
}

function codeOf({ fact, change, places }: FactEdit): FindingCode {
  if (change.kind === 'surplus' && fact === 'datePrinted' && places.some(({ needs }) => needs === 'must-not')) return 'not-ordered';
  if (fact === 'page' && change.kind === 'plus') return 'page-numbers-shifted';
  return FACT_NAMES[fact].code;
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
