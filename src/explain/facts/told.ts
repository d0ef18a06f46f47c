import type { FindingCode } from '../../catalogue/codes.js';
import { type Candidate, weighed } from '../choose.js';
import { capital, counted, draft, type FindingDraft, framesByName, framesInWords, issueName, rangeOf, thing } from '../draft.js';
import { filmOrder } from '../film/witnesses.js';
import { groupBy, idsOf, inFilmOrder } from '../runs.js';
import { factsOf, recordFrame, recordIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import type { Change } from './changes.js';
import { companions } from './companions.js';
import { setAll } from './corrections.js';
import { type FactEdit, reachName } from './lift.js';
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
  if (change.kind === 'missing')
    return scope === 'page' || scope === 'issue' || scope === 'run'
      ? leftOutHere(scene, edit, explains)
      : leftOutWidely(scene, edit, explains);
  if (first !== undefined && places.length === 1) {
    return isOfIssue(fact) ? singleIssueFact(scene, first, explains) : singlePageFact(scene, first, explains);
  }
  if (fact === 'date' && (change.kind === 'before' || change.kind === 'all')) return carriedOver(scene, edit, differences, explains);
  if (fact === 'title' && new Set(differences.map(({ collation }) => collation)).size === 1 && change.kind === 'all')
    return otherTitle(scene, edit, differences, explains);
  if (
    change.kind === 'anew' ||
    (fact === 'order' && places.length <= LISTED && scope !== 'batch' && scope !== 'reel' && scope !== 'title' && change.by !== '-1')
  )
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
  const wide = scope === 'batch' || scope === 'reel' || scope === 'title';
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
      : `From ${thing(first)} on, ${counted(refs.length, 'page')} of ${issueName(scene, issue)} (${words}) ${labels ? 'are numbered' : 'stand'} ${String(Math.abs(by))} ${labels ? '' : counted(Math.abs(by), 'place').replace(/^\d+ /, '') + ' '}too ${by > 0 ? (labels ? 'high' : 'far on') : labels ? 'low' : 'early'}.`,
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
    ? `all ${counted(places.length, what)} of ${reachName(scene, { fact, places, scope } as FactEdit)}`
    : `${String(places.length)} of ${counted(could, what)} of ${reachName(scene, { fact, places, scope } as FactEdit)}`;
}

function codeOf({ fact, change, places }: FactEdit): FindingCode {
  if (fact === 'date' && change.kind === 'before') return 'date-carried-over';
  if (fact === 'date' && change.kind === 'all' && places.length > 1) return 'date-carried-over';
  if (change.kind === 'surplus' && fact === 'datePrinted') return 'not-ordered';
  if (fact === 'page' && change.kind === 'plus') return 'page-numbers-shifted';
  return FACT_NAMES[fact].code;
}

interface How {
  readonly says: string;
  readonly mend: (what: string) => string;
}

/** `-1` as `1 too low`, with the unit where there is one. */
function off(by: string, unit: string | null, low: string, high: string): string {
  const amount = Math.abs(Number(by));
  return `are ${unit === null ? String(amount) : counted(amount, unit)} too ${Number(by) < 0 ? low : high}`;
}

function back(by: string, unit: string | null): (what: string) => string {
  const amount = Math.abs(Number(by));
  if (unit === null)
    return (what) => (Number(by) > 0 ? `subtract ${String(amount)} from each of ${what}` : `add ${String(amount)} to each of ${what}`);
  return (what) => `move each of ${what} ${counted(amount, unit)} ${Number(by) > 0 ? 'back' : 'on'}`;
}

/** What a change looks like, and how it is undone. */
export const HOW: Readonly<Record<Change['kind'], (change: Change, given: readonly string[]) => How>> = {
  missing: () => ({ says: 'are not given', mend: (what) => `give ${what}` }),
  surplus: () => ({ says: 'are given although none must be', mend: (what) => `leave out ${what}` }),
  printed: () => ({
    says: 'are those printed on the paper instead of the real ones',
    mend: (what) => `put the real dates in place of ${what}, and give the printed ones as such`,
  }),
  'day-month': () => ({ says: 'have day and month exchanged', mend: (what) => `exchange day and month in ${what}` }),
  before: () => ({ says: 'are each that of the issue before', mend: (what) => `move each of ${what} to the issue before it` }),
  after: () => ({ says: 'are each that of the issue behind', mend: (what) => `move each of ${what} to the issue behind it` }),
  fact: ({ by }) => {
    const name = FACT_NAMES[by as keyof typeof FACT_NAMES].many;
    return { says: `are the ${name}`, mend: (what) => `put the right readings in place of ${what}, which are the ${name}` };
  },
  'beginning-lost': ({ by }) => ({ says: `lack the "${by}" in front`, mend: (what) => `put "${by}" in front of ${what}` }),
  'beginning-added': ({ by }) => ({ says: `have "${by}" in front`, mend: (what) => `take "${by}" off the front of ${what}` }),
  'end-lost': ({ by }) => ({ says: `lack the "${by}" at the end`, mend: (what) => `put "${by}" at the end of ${what}` }),
  'end-added': ({ by }) => ({ says: `have "${by}" at the end`, mend: (what) => `take "${by}" off the end of ${what}` }),
  years: ({ by }) => ({ says: off(by, 'year', 'early', 'late'), mend: back(by, 'year') }),
  months: ({ by }) => ({ says: off(by, 'month', 'early', 'late'), mend: back(by, 'month') }),
  days: ({ by }) => ({ says: off(by, 'day', 'early', 'late'), mend: back(by, 'day') }),
  plus: ({ by }) => ({ says: off(by, null, 'low', 'high'), mend: back(by, null) }),
  anew: () => ({ says: 'are counted in another order', mend: (what) => `count ${what} anew` }),
  permuted: () => ({ says: 'stand in the place of one another', mend: (what) => `exchange ${what} back` }),
  all: (_, given) => ({ says: `are all ${given[0] ?? '?'}`, mend: (what) => `put the right reading in place of each of ${what}` }),
};

/** A fact that must be stated and is left out of a whole reel, title or return. */
function leftOutWidely(scene: Scene, edit: FactEdit, explains: readonly number[]): FindingDraft {
  const { fact, places, could } = edit;
  const { one, code, give } = FACT_NAMES[fact];
  const what = bearer(fact);
  const scope = reachName(scene, edit);
  const whole = places.length === could;
  return draft(scene, {
    code: leftOutCode(fact, code),
    cause: 'vendor-metadata',
    about: inFilmOrder(places.flatMap(({ refs }) => refs)),
    explains,
    title: null,
    date: null,
    edition: null,
    page: null,
    field: fieldName(fact),
    collation: `${counted(could, what)} with one`,
    return: whole ? 'none' : `${String(could - places.length)} with one`,
    says: whole
      ? `No ${what} of ${scope} gives its ${one}: ${counted(places.length, what)}.`
      : `${String(places.length)} of ${counted(could, what)} of ${scope} give no ${one}.`,
    instruction: `Give every ${what} of ${scope} ${give}.`,
  });
}

function leftOutCode(fact: FactEdit['fact'], code: FindingCode): FindingCode {
  return fact === 'datePrinted' ? 'printed-date-not-given' : fact === 'section' ? 'sections-flattened' : code;
}

/** One issue that leaves a fact out, the pages of one that do, or a run of either. */
function leftOutHere(scene: Scene, edit: FactEdit, explains: readonly number[]): FindingDraft {
  const { fact, places } = edit;
  if (fact === 'section') return sectionsLost(scene, edit, explains);
  const { one, many: plural, code, give } = FACT_NAMES[fact];
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const range = rangeOf(scene, refs);
  const words = framesInWords(range.frames);
  const issue = places[0]?.issue ?? null;
  const issues = groupBy(places, (place) => place.issue).size;
  const differences = places.flatMap(({ differs }) => differs ?? []);
  const readings = differences.map(({ collation }) => collation ?? '?').join(', ');
  const alone = places.length === 1;
  const ofIssue = isOfIssue(fact);
  const name = issues > 1 ? counted(issues, 'issue') : issueName(scene, issue);
  const page = alone && !ofIssue && refs[0] !== undefined ? recordFrame(scene, refs[0])?.page : null;
  const who = ofIssue ? `${name} (${words})` : `${capital(words)}${page == null ? '' : `, page ${page}`} of ${name}`;
  const verb = (ofIssue && issues === 1) || alone ? 'gives' : 'give';
  const certain = places.every(({ right }) => right.length > 0);
  return draft(scene, {
    code: leftOutCode(fact, code),
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: issue,
    returnIssue: places[0]?.document ?? null,
    explains,
    field: fieldName(fact),
    collation: readings,
    return: 'not given',
    says:
      fact === 'datePrinted' && alone
        ? `The paper of ${name} (${words}) prints ${readings}, and the return does not give that date.`
        : `${who} ${verb} no ${one}; the record has ${readings}.`,
    instruction: certain
      ? `Give ${readings} as the ${alone ? (fact === 'datePrinted' ? 'date printed on the paper' : one) : plural} for ${framesByName(range.frames)}.`
      : `Give ${give} for ${words}.`,
  });
}

/** Sections that the pages of an issue lost, mostly counted through. */
function sectionsLost(scene: Scene, { places }: FactEdit, explains: readonly number[]): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const sections = [...new Set(places.map(({ right }) => right[0]?.text ?? '?'))];
  const labels = explains.length > places.length;
  const one = sections.length === 1;
  const issue = places[0]?.issue ?? null;
  const issues = groupBy(places, (place) => place.issue).size;
  return draft(scene, {
    code: 'sections-flattened',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: issue,
    explains,
    field: 'section',
    collation: `sections ${sections.join(', ')}`,
    return: 'no sections',
    says: `The ${one ? `section ${sections.join('')}` : `sections (${sections.join(', ')})`} of ${issues > 1 ? counted(issues, 'issue') : issueName(scene, issue)} ${one ? 'is' : 'are'} lost on ${words}: the pages came without ${one ? 'it' : 'them'}${labels ? ', their labels changed' : ''}.`,
    instruction: `Give ${words} their section (${sections.join(', ')}) and the labels as printed.`,
  });
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
